//! The top level of the repository is short, so that a visitor sees what there is.

use std::fs;
use std::path::Path;

use crate::Outcome;

/// What may be there beside dotfiles.
const ALLOWED: [&str; 10] = [
    "Cargo.lock",
    "Cargo.toml",
    "DEVELOPERS.md",
    "LICENSE",
    "README.md",
    "Trunk.toml",
    "crates",
    "index.html",
    "style",
    "tests",
];

/// What a build leaves there; git ignores it.
const BUILT: [&str; 2] = ["dist", "target"];

/// Checks that nothing else lies around, and that all of it is there.
pub fn check(root: &Path) -> Outcome<Vec<String>> {
    let complain = |error| format!("{} cannot be listed: {error}", root.display());
    let mut names = Vec::new();
    for entry in fs::read_dir(root).map_err(complain)? {
        names.push(entry.map_err(complain)?.file_name().to_string_lossy().into_owned());
    }
    names.sort();
    Ok(complaints(&names))
}

fn complaints(names: &[String]) -> Vec<String> {
    let is_expected = |name: &str| name.starts_with('.') || ALLOWED.contains(&name) || BUILT.contains(&name);
    let surplus =
        names.iter().filter(|name| !is_expected(name)).map(|name| format!("{name} does not belong at the top level"));
    let missing = ALLOWED
        .iter()
        .filter(|allowed| !names.iter().any(|name| name == *allowed))
        .map(|name| format!("{name} is missing at the top level"));
    surplus.chain(missing).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn surplus_and_missing_entries_are_named() {
        let mut names: Vec<String> = ALLOWED.map(str::to_owned).to_vec();
        names.extend([".gitignore".to_owned(), "dist".to_owned()]);
        assert_eq!(complaints(&names), Vec::<String>::new());
        names.retain(|name| name != "LICENSE");
        names.push("notes.txt".to_owned());
        assert_eq!(complaints(&names).len(), 2);
    }
}
