//! The map in `DEVELOPERS.md` shows the land as it is.

use std::path::Path;

use crate::Outcome;
use crate::workspace::read;

const DOCUMENT: &str = "DEVELOPERS.md";
const HEADING: &str = "code map";

/// Checks that every path in the section "Code map" exists.
///
/// A path is written in backquotes, from the root of the repository, and holds a slash or a dot.
pub fn check(root: &Path) -> Outcome<Vec<String>> {
    let document = read(&root.join(DOCUMENT))?;
    let Some(section) = section(&document) else {
        return Ok(vec![format!("{DOCUMENT} has no heading \"Code map\"")]);
    };
    let paths = paths(&section);
    if paths.is_empty() {
        return Ok(vec![format!("the code map of {DOCUMENT} names no path in backquotes")]);
    }
    let missing = paths.into_iter().filter(|path| !root.join(path).exists());
    Ok(missing.map(|path| format!("{DOCUMENT} names {path}, which does not exist")).collect())
}

/// The text from the heading to the next heading of the same or a higher level.
fn section(document: &str) -> Option<String> {
    let level = |line: &str| line.chars().take_while(|character| *character == '#').count();
    let is_heading = |line: &&str| level(line) > 0 && line.trim_start_matches('#').trim().to_lowercase() == HEADING;
    let mut lines = document.lines().skip_while(|line| !is_heading(line));
    let depth = level(lines.next()?);
    let ends = |line: &&str| level(line) > 0 && level(line) <= depth;
    Some(lines.take_while(|line| !ends(line)).collect::<Vec<_>>().join("\n"))
}

fn paths(section: &str) -> Vec<&str> {
    let is_path = |word: &&str| {
        let looks_like_code = word.contains([' ', '(', '<', '*', '{']) || word.contains("::");
        word.contains(['/', '.']) && !looks_like_code
    };
    // Text and code take turns between backquotes.
    section.split('`').skip(1).step_by(2).filter(is_path).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_section_and_only_paths_are_read() {
        let document = "# Book\n`no/such`\n## Code map\n`crates/a`: `a::b()`, `Cargo.toml`\n\
                        ### More\n`c/d.rs` and `word`\n## Rules\n`not/this`\n";
        let section = section(document).unwrap();
        assert_eq!(paths(&section), ["crates/a", "Cargo.toml", "c/d.rs"]);
        assert_eq!(super::section("# Nothing"), None);
    }
}
