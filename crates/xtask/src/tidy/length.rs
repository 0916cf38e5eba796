//! A file is short enough to be read in one go.

use std::path::Path;

use crate::Outcome;
use crate::workspace::{files_below, read, relative};

const LIMIT_LINES: usize = 400;

/// Where people read and write by hand; data and records may be as long as they are.
const FOLDERS: [&str; 4] = ["crates", "style", "tests/src", "tests/tests"];
const ENDINGS: [&str; 4] = [".rs", ".css", ".js", ".html"];

/// Files that are better long than cut, each with the reason.
const LONGER: &[(&str, &str)] = &[];

/// Checks every file that is written by hand.
pub fn check(root: &Path) -> Outcome<Vec<String>> {
    let mut lengths = Vec::new();
    for folder in FOLDERS.map(|folder| root.join(folder)) {
        // A folder may not be there yet; the code map says which ones must be.
        let files = if folder.is_dir() { files_below(&folder)? } else { Vec::new() };
        for file in files {
            let path = relative(root, &file);
            if ENDINGS.iter().any(|ending| path.ends_with(ending)) {
                lengths.push((path, read(&file)?.lines().count()));
            }
        }
    }
    Ok(complaints(&lengths, LONGER))
}

fn complaints(lengths: &[(String, usize)], longer: &[(&str, &str)]) -> Vec<String> {
    let is_excused = |path: &str| longer.iter().any(|(excused, _)| *excused == path);
    let mut complaints: Vec<_> = lengths
        .iter()
        .filter(|(path, lines)| *lines > LIMIT_LINES && !is_excused(path))
        .map(|(path, lines)| format!("{path} has {lines} lines, more than {LIMIT_LINES}"))
        .collect();
    for (excused, _) in longer {
        if !lengths.iter().any(|(path, lines)| path == excused && *lines > LIMIT_LINES) {
            complaints.push(format!("{excused} is no longer too long and needs no excuse"));
        }
    }
    complaints
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_files_need_an_excuse_and_excuses_a_long_file() {
        let lengths = [("long.rs".to_owned(), 401), ("short.rs".to_owned(), 400)];
        assert_eq!(complaints(&lengths, &[]).len(), 1);
        assert_eq!(complaints(&lengths, &[("long.rs", "a table")]), Vec::<String>::new());
        assert_eq!(complaints(&lengths, &[("long.rs", ""), ("short.rs", "")]).len(), 1);
    }
}
