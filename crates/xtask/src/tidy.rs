//! `tidy`: the rules of the house that no compiler and no lint knows.

use std::path::Path;

use crate::Outcome;

pub mod code_map;
pub mod dependencies;
pub mod length;
pub mod shell;
pub mod top_level;

/// A check returns one sentence for everything it finds wrong.
type Check = fn(&Path) -> Outcome<Vec<String>>;

const CHECKS: [(&str, Check); 5] = [
    ("who may depend on what", dependencies::check),
    ("length of files", length::check),
    ("shell and styles of the page", shell::check),
    ("code map", code_map::check),
    ("top level", top_level::check),
];

/// Runs all checks, prints every complaint, and fails if there was one.
pub fn tidy(root: &Path) -> Outcome {
    let mut count = 0;
    for (name, check) in CHECKS {
        let complaints = check(root).unwrap_or_else(|error| vec![error]);
        println!("{:<8} {name}", if complaints.is_empty() { "ok" } else { "UNTIDY" });
        for complaint in &complaints {
            println!("         {complaint}");
        }
        count += complaints.len();
    }
    match count {
        0 => Ok(()),
        1 => Err("1 thing is untidy".to_owned()),
        _ => Err(format!("{count} things are untidy")),
    }
}
