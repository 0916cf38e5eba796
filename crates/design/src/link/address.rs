//! Finding the part of an address that holds the design.

use crate::find;

/// The fragment in a pasted text: what follows `#` in an address, or the text itself when it is none.
///
/// Undoes what mail and forums do to long lines and ampersands, neither of which a written link contains:
/// line breaks are taken out, `&amp;` becomes `&`.
pub(super) fn fragment(text: &str) -> String {
    let unbroken: String = text.chars().filter(|c| !matches!(c, '\n' | '\r' | '\t')).collect();
    let fragment = after_hash(unbroken.trim()).trim();
    // Forums that escape twice leave `&amp;amp;`, so all of them are taken off.
    let pieces: Vec<&str> = fragment.split('&').map(without_escapes).collect();
    pieces.join("&")
}

fn without_escapes(piece: &str) -> &str {
    piece.strip_prefix("amp;").map_or(piece, without_escapes)
}

/// Cuts off everything up to the first `#`, unless that stands within a value of a bare fragment.
fn after_hash(text: &str) -> &str {
    let head = text.find(['=', '&', '#', '?']).map_or(text, |at| &text[..at]);
    let is_address = find::holds(head, "://");
    match text.split_once('#') {
        Some((address, fragment)) if is_address || !find::holds(address, "=") => fragment,
        None if is_address => "",
        _ => text,
    }
}

#[cfg(test)]
mod tests {
    use super::fragment;

    #[test]
    fn the_fragment_is_found_in_an_address_after_a_hash_or_alone() {
        for text in [
            "v=1&site=5",
            "#v=1&site=5",
            " \n#v=1&site=5 ",
            "https://example.org/holdwater/#v=1&site=5",
            "<https://example.org/?from=forum#v=1&site=5",
            "index.html#v=1&site=5",
            "v=1&\r\nsite=5",
            "v=1&amp;site=5",
            "v=1&amp;amp;site=5",
        ] {
            assert_eq!(fragment(text), "v=1&site=5", "{text}");
        }
    }

    #[test]
    fn an_address_without_fragment_is_empty() {
        for text in ["", "  ", "#", "https://example.org/holdwater/", "https://example.org/?from=forum"] {
            assert_eq!(fragment(text), "", "{text}");
        }
    }

    #[test]
    fn a_hash_or_an_address_within_a_value_stays_there() {
        assert_eq!(fragment("v=1&name=No#1"), "v=1&name=No#1");
        assert_eq!(fragment("#v=1&name=No#1"), "v=1&name=No#1");
        assert_eq!(fragment("v=1&name=http://a"), "v=1&name=http://a");
    }
}
