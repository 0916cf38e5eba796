//! Showing text that others wrote.

/// Most characters of a foreign text that a sentence shows.
const SHOWN: usize = 40;

/// A foreign text in quotation marks: shortened, and with everything that could break or reorder the line
/// replaced, so that one complaint always stays one line.
pub(crate) fn quoted(given: &str) -> String {
    let mut shown: String = given.chars().take(SHOWN).map(|c| if disturbs(c) { '\u{fffd}' } else { c }).collect();
    if given.chars().nth(SHOWN).is_some() {
        shown.push('…');
    }
    format!("\"{shown}\"")
}

/// Whether a character can break or reorder the text around it: control characters, line and paragraph
/// separators, and the marks that override the direction of writing.
pub(crate) fn disturbs(c: char) -> bool {
    c.is_control() || matches!(c, '\u{2028}' | '\u{2029}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_text_is_shortened_by_characters_not_by_bytes() {
        assert_eq!(quoted("abc"), "\"abc\"");
        assert_eq!(quoted(&"ü".repeat(41)), format!("\"{}…\"", "ü".repeat(40)));
    }

    #[test]
    fn a_shown_text_stays_on_its_line() {
        assert_eq!(quoted("a\nb\u{202e}c"), "\"a\u{fffd}b\u{fffd}c\"");
    }
}
