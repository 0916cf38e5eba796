//! Counting tests from what cargo prints, line by line while it runs.

use std::io::{BufRead, BufReader};
use std::process::{Command, Stdio};

use crate::Outcome;
use crate::run;

/// How many passed and how many failed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// The number of tests that passed.
    pub passed: u32,
    /// The number of tests that failed.
    pub failed: u32,
}

impl Tally {
    /// The tally of a single check that passed.
    pub const ONE: Self = Self { passed: 1, failed: 0 };

    /// Adds another tally to this one.
    pub fn add(&mut self, other: Self) {
        self.passed += other.passed;
        self.failed += other.failed;
    }

    /// Reads a line such as `test result: ok. 3 passed; 0 failed; 0 ignored; ...`.
    fn of_line(line: &str) -> Self {
        let Some(counts) = line.trim().strip_prefix("test result:") else {
            return Self::default();
        };
        let count = |what: &str| {
            let mut words = counts.split([' ', ';', '.']).filter(|word| !word.is_empty());
            let mut before = None;
            words.find_map(|word| {
                let number = before.replace(word).filter(|_| word == what)?;
                number.parse().ok()
            })
        };
        Self { passed: count("passed").unwrap_or(0), failed: count("failed").unwrap_or(0) }
    }
}

/// Runs tests, shows what they print, and counts them.
///
/// A run that ends badly without a failed test, say because it did not compile, counts as one
/// failure; one without any test is an error, because it proves nothing.
pub fn tests(command: &mut Command) -> Outcome<Tally> {
    let mut child = command
        .stdout(Stdio::piped())
        .spawn()
        .map_err(|error| format!("`{}` cannot be started: {error}", run::line(command)))?;
    let mut tally = Tally::default();
    if let Some(output) = child.stdout.take() {
        for line in BufReader::new(output).lines() {
            let line = line.map_err(|error| format!("its output cannot be read: {error}"))?;
            tally.add(Tally::of_line(&line));
            println!("{line}");
        }
    }
    let status = child.wait().map_err(|error| error.to_string())?;
    if !status.success() {
        tally.failed = tally.failed.max(1);
    } else if tally == Tally::default() {
        return Err(format!("`{}` ran no test", run::line(command)));
    }
    Ok(tally)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_result_line_is_counted_and_others_are_not() {
        let line = "test result: FAILED. 12 passed; 3 failed; 1 ignored; 0 measured; 0 filtered out";
        assert_eq!(Tally::of_line(line), Tally { passed: 12, failed: 3 });
        assert_eq!(Tally::of_line("test solve::passed ... ok"), Tally::default());
        assert_eq!(Tally::of_line("running 7 tests"), Tally::default());
    }
}
