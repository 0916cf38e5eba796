//! Finding a few letters in a text.
//!
//! The standard library's search for words is made for long texts, and four kilobytes of code in a page that has none.

/// What stands before and after a part of a text, where it occurs for the first time.
#[must_use]
pub fn split_once<'a>(text: &'a str, part: &str) -> Option<(&'a str, &'a str)> {
    places(text, part).next().and_then(|at| around(text, at, part))
}

/// What stands before and after a part of a text, where it occurs for the last time.
#[must_use]
pub fn rsplit_once<'a>(text: &'a str, part: &str) -> Option<(&'a str, &'a str)> {
    places(text, part).next_back().and_then(|at| around(text, at, part))
}

/// Whether a text holds a part.
#[must_use]
pub fn holds(text: &str, part: &str) -> bool {
    places(text, part).next().is_some()
}

/// Whether a sign is a letter or a digit. The standard library knows those of every script, in two kilobytes of tables; here all signs of other
/// scripts count as letters.
#[must_use]
pub fn is_of_a_word(c: char) -> bool {
    match c {
        '\u{0}'..='\u{7f}' => c.is_ascii_alphanumeric(),
        '\u{80}'..='\u{bf}' => matches!(c, 'ª' | 'µ' | 'º' | '¹' | '²' | '³' | '¼'..='¾'),
        // Punctuation, arrows and mathematical signs.
        '×' | '÷' | '\u{2000}'..='\u{2bff}' => false,
        _ => true,
    }
}

fn places(text: &str, part: &str) -> impl DoubleEndedIterator<Item = usize> {
    (0..text.len()).filter(|at| text.as_bytes()[*at..].starts_with(part.as_bytes()))
}

fn around<'a>(text: &'a str, at: usize, part: &str) -> Option<(&'a str, &'a str)> {
    Some((text.get(..at)?, text.get(at + part.len()..)?))
}

#[cfg(test)]
mod tests {
    use super::{holds, is_of_a_word, rsplit_once, split_once};

    #[test]
    fn a_part_is_found_where_the_standard_library_finds_it() {
        for text in ["", "a", "ab", "aabaab", "väbäab", "&end=1&end=", "bab"] {
            for part in ["a", "ab", "aab", "ä", "&end=", "longer than the text"] {
                assert_eq!(split_once(text, part), text.split_once(part), "{text} {part}");
                assert_eq!(rsplit_once(text, part), text.rsplit_once(part), "{text} {part}");
                assert_eq!(holds(text, part), text.contains(part), "{text} {part}");
            }
        }
    }

    #[test]
    fn letters_and_digits_of_western_scripts_are_those_of_the_standard_library() {
        for c in ('\0'..'\u{250}').chain("\u{2009}\u{2013}\u{2019}\u{201c}\u{201d}\u{2026}\u{2212}≈≥→".chars()) {
            assert_eq!(is_of_a_word(c), c.is_alphanumeric(), "{c}");
        }
    }
}
