//! `fuzz`: everything that reads what strangers write, for as many random inputs as anybody has patience for.
//!
//! The same property tests as in every run, in a build for speed and with many more cases: links, what a device keeps, logs, typed units.

use std::path::Path;

use crate::{Outcome, run};

/// Cases for each reader, so that all together see more than a million.
const CASES: u64 = 200_000;

/// The readers and the tests that feed them anything at all.
const READERS: [&str; 6] = [
    "any_text_opens_without_panic",
    "any_pairs_of_keys_and_values_open_without_panic",
    "any_bytes_are_read_without_panic",
    "property_any_bytes_are_read",
    "property_any_body_with_a_right_checksum_is_read",
    "property_any_text_reads_as_a_finite_number_or_a_complaint",
];

/// Runs the readers, each with as many cases as were asked for.
pub fn fuzz(root: &Path, arguments: &[String]) -> Outcome {
    let cases = match arguments {
        [] => CASES,
        [number] => number.parse().map_err(|_| format!("`{number}` is no number of cases"))?,
        _ => return Err("fuzz takes one number: the cases for each reader".to_owned()),
    };
    println!("-- {} readers, {cases} cases each", READERS.len());
    run::timed("feeding the readers", || {
        let mut cargo = run::cargo();
        cargo.current_dir(root).env("PROPTEST_CASES", cases.to_string());
        cargo.args(["test", "--release", "-p", "holdwater-design", "--lib", "--tests", "--"]).args(READERS);
        run::run(&mut cargo)
    })
}
