//! `bench`: how long an answer takes, kept as ratios in a record that is committed.
//!
//! Ratios and not times, because times belong to one machine on one day.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::Path;

use serde_json::Value;

use crate::workspace::{files_below, read, target_dir, write};
use crate::{Outcome, run, setup};

const RECORD: &str = "tests/bench/record.md";

/// Nanoseconds by name of the benchmark, in a fixed order.
type Medians = BTreeMap<String, f64>;

/// Runs the benchmarks on this machine and in the browser, and writes the record.
pub fn bench(root: &Path) -> Outcome {
    run::timed("benchmarks on this machine", || {
        run::run(run::cargo().current_dir(root).args(["bench", "-p", "holdwater-physics"]))
    })?;
    let native = native_medians(&target_dir(root).join("criterion"))?;
    let in_browser = browser_medians(root)?;
    let text = record(&native, &in_browser)?;
    write(&root.join(RECORD), text.as_bytes())?;
    println!("{text}\nwritten to {RECORD}");
    Ok(())
}

/// Reads the medians that criterion left in its folder.
fn native_medians(folder: &Path) -> Outcome<Medians> {
    let mut medians = Medians::new();
    for file in files_below(folder)? {
        if file.ends_with("new/estimates.json") {
            let estimates = json(&file)?;
            let benchmark = json(&file.with_file_name("benchmark.json"))?;
            let median = estimates["median"]["point_estimate"].as_f64();
            let name = benchmark["full_id"].as_str();
            let (Some(name), Some(median)) = (name, median) else {
                return Err(format!("{} is not what criterion writes", file.display()));
            };
            medians.insert(name.to_owned(), median);
        }
    }
    Ok(medians)
}

/// The medians of the benchmarks in the browser, under the names they have on this machine.
///
/// The harness is the test `browser_bench` of the acceptance package, and it writes one object of
/// names and nanoseconds to `tests/output/browser-bench.json`. Without that test there is nothing
/// to run, and the record says so.
fn browser_medians(root: &Path) -> Outcome<Medians> {
    if !root.join("tests/tests/browser_bench.rs").is_file() {
        println!("-- there is no benchmark for the browser yet");
        return Ok(Medians::new());
    }
    setup::for_browser_tests()?;
    run::timed("benchmarks in the browser", || {
        let arguments = "test -p acceptance --features browser --test browser_bench";
        run::run(run::cargo().current_dir(root).args(arguments.split_whitespace()))
    })?;
    let measured = json(&root.join("tests/output/browser-bench.json"))?;
    let measured = measured.as_object().ok_or("browser-bench.json holds no object")?;
    let nanoseconds = |(name, value): (&String, &Value)| Some((name.clone(), value.as_f64()?));
    Ok(measured.iter().filter_map(nanoseconds).collect())
}

fn json(file: &Path) -> Outcome<Value> {
    serde_json::from_str(&read(file)?).map_err(|error| format!("{}: {error}", file.display()))
}

/// The record: every benchmark relative to the first, and the browser relative to this machine.
fn record(native: &Medians, in_browser: &Medians) -> Outcome<String> {
    let (reference, unit) = native.first_key_value().ok_or("criterion left no benchmark")?;
    let mut text = format!(
        "# Benchmarks\n\nWritten by `cargo xtask bench`. The second column is the median time \
         relative to `{reference}`;\nthe third is the time in the browser relative to the time \
         outside.\n\n| benchmark | relative time | browser |\n| --- | ---: | ---: |\n"
    );
    for (name, median) in native {
        let browser = match in_browser.get(name) {
            Some(time) => format!("{:.2}", time / median),
            None => "not measured".to_owned(),
        };
        writeln!(text, "| `{name}` | {:.2} | {browser} |", median / unit).map_err(|error| error.to_string())?;
    }
    Ok(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_record_holds_ratios_only() {
        let native = Medians::from([("a".to_owned(), 200.0), ("b".to_owned(), 500.0)]);
        let in_browser = Medians::from([("b".to_owned(), 750.0)]);
        let text = record(&native, &in_browser).unwrap();
        assert!(text.contains("| `a` | 1.00 | not measured |\n| `b` | 2.50 | 1.50 |\n"), "{text}");
        assert!(record(&Medians::new(), &in_browser).is_err());
    }
}
