//! `bench`: how long an answer takes, kept as ratios in a record that is committed.
//!
//! Ratios and not times, because times belong to one machine on one day.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::Path;
use std::process::{Command, Stdio};

use serde_json::Value;

use crate::setup::WASM_TARGET;
use crate::workspace::{read, target_dir, write};
use crate::{Outcome, build, run, setup};

const RECORD: &str = "tests/bench/record.md";

/// The work that is timed natively and in the browser; everything is relative to the first.
const WORK: [&str; 7] = [
    "one_flight",
    "move_delay_x100",
    "new_design",
    "sweep_of_200_delays",
    "question_two",
    "vessels_of_24_parts",
    "weibull_of_1000_rows",
];

/// What is timed on the page, in words, and how many frames it may take where that was settled.
const ON_THE_PAGE: [(&str, &str, &str); 8] = [
    ("delay_move_busy_p95", "moving the delay", "1"),
    ("delay_move_busy_p95_slowed_x4", "moving the delay, processor slowed to a quarter", "3"),
    ("delay_rest", "drawing the flight once the delay rests", ""),
    ("delay_rest_slowed_x4", "drawing the flight once the delay rests, slowed to a quarter", ""),
    ("keystroke_busy_p95", "a keystroke in a field during a sweep", "1"),
    ("keystroke_p95", "the same with the wait for the screen", ""),
    ("visit_offline_again_median", "a later visit without a network", "18"),
    ("visit_offline_new_browser_median", "a later visit without a network, in a browser just started", "18"),
];

/// One frame of a screen that shows sixty a second.
const FRAME_NS: f64 = 1e9 / 60.0;

/// The same flights by the textbook's means.
const SCRIPT: &str = "tests/reference/trajectories.py";

/// Nanoseconds by name.
type Times = BTreeMap<String, f64>;

/// Runs the benchmarks on this machine and in the browser, and writes the record.
pub fn bench(root: &Path) -> Outcome {
    // First, so that what is missing shows before minutes have been spent.
    setup::for_browser_tests()?;
    build_for_the_browser(root)?;
    run::timed("benchmarks on this machine", || {
        run::run(run::cargo().current_dir(root).args(["bench", "-p", "holdwater-stopwatch", "--bench", "answers"]))
    })?;
    let mut native = native_medians(&target_dir(root).join("criterion"))?;
    if let Some(time) = script_time(root)? {
        native.insert(SCRIPT.to_owned(), time);
    }
    let in_browser = browser_times(root)?;
    let text = record(&native, &in_browser)?;
    write(&root.join(RECORD), text.as_bytes())?;
    println!("{text}\nwritten to {RECORD}");
    Ok(())
}

/// Builds the page and the stopwatch as they are now, with the same profile. The page is not weighed: that a page
/// is too heavy is no reason not to time it.
fn build_for_the_browser(root: &Path) -> Outcome {
    let tools = setup::for_building(root)?;
    run::timed("building the page", || run::run(build::trunk(root, &tools)?.args(["build", "--release"])))?;
    run::timed("building the stopwatch for the browser", || {
        let arguments = ["build", "-p", "holdwater-stopwatch", "--lib", "--release", "--target", WASM_TARGET];
        run::run(run::cargo().current_dir(root).args(arguments))
    })
}

/// Reads the medians that criterion left in its folder.
fn native_medians(folder: &Path) -> Outcome<Times> {
    let median = |name: &str| {
        let file = folder.join(name).join("new/estimates.json");
        let median = json(&file)?["median"]["point_estimate"].as_f64();
        let median = median.ok_or_else(|| format!("{} is not what criterion writes", file.display()))?;
        Ok((name.to_owned(), median))
    };
    WORK.into_iter().map(median).collect()
}

/// The times in the browser, under the names they have on this machine.
///
/// The harness is the test `browser_bench` of the acceptance package, and it writes one object of names and
/// nanoseconds to `tests/output/browser-bench.json`.
fn browser_times(root: &Path) -> Outcome<Times> {
    run::timed("benchmarks in the browser", || {
        let arguments = "test -p acceptance --features browser --test browser_bench -- --ignored";
        run::run(run::cargo().current_dir(root).args(arguments.split_whitespace()))
    })?;
    let measured = json(&root.join("tests/output/browser-bench.json"))?;
    let measured = measured.as_object().ok_or("browser-bench.json holds no object")?;
    let nanoseconds = |(name, value): (&String, &Value)| Some((name.clone(), value.as_f64()?));
    Ok(measured.iter().filter_map(nanoseconds).collect())
}

/// The time of one flight by the reference script, if there is a Python with SciPy: the one that the variable
/// `HOLDWATER_PYTHON` names, else the one on the path.
fn script_time(root: &Path) -> Outcome<Option<f64>> {
    let python = std::env::var_os("HOLDWATER_PYTHON").filter(|value| !value.is_empty());
    let python = python.unwrap_or_else(|| "python3".into());
    let has_scipy = Command::new(&python).args(["-c", "import scipy"]).stderr(Stdio::null()).status();
    if !has_scipy.is_ok_and(|status| status.success()) {
        println!("-- no Python with SciPy (HOLDWATER_PYTHON can name one): {SCRIPT} is not timed");
        return Ok(None);
    }
    run::timed("the reference script", || {
        let printed = run::output(Command::new(&python).current_dir(root).args([SCRIPT, "--time"]))?;
        let last = printed.lines().last().unwrap_or_default();
        let said: Value = serde_json::from_str(last).map_err(|error| format!("{SCRIPT} printed {last}: {error}"))?;
        let microseconds = said["microseconds"].as_f64().ok_or_else(|| format!("{SCRIPT} printed {last}"))?;
        Ok(Some(1e3 * microseconds))
    })
}

fn json(file: &Path) -> Outcome<Value> {
    serde_json::from_str(&read(file)?).map_err(|error| format!("{}: {error}", file.display()))
}

/// The record: every benchmark relative to the first, the browser relative to this machine, the page relative to
/// a frame of the screen.
fn record(native: &Times, in_browser: &Times) -> Outcome<String> {
    let unit = native.get(WORK[0]).ok_or("criterion left no benchmark")?;
    let mut rows = String::new();
    for name in WORK.iter().chain([&SCRIPT]) {
        let Some(median) = native.get(*name) else { continue };
        let browser = in_browser.get(*name).map_or("not measured".to_owned(), |time| format!("{:.2}", time / median));
        writeln!(rows, "| `{name}` | {:.2} | {browser} |", median / unit).map_err(|error| error.to_string())?;
    }
    let mut page = String::new();
    for (name, what, budget) in ON_THE_PAGE {
        let frames = in_browser.get(name).map_or("not measured".to_owned(), |time| format!("{:.2}", time / FRAME_NS));
        writeln!(page, "| {what} | {frames} | {budget} |").map_err(|error| error.to_string())?;
    }
    Ok(format!(
        "# Benchmarks\n\n\
         Written by `cargo xtask bench`.\n\n\
         ## The work\n\n\
         The second column is the median time relative to `{}`; the third is the time in the browser relative to\n\
         the time outside. The Python script flies the same flight with the fastest method of SciPy that stays within 0.1 m.\n\n\
         | benchmark | relative time | browser |\n| --- | ---: | ---: |\n{rows}\n\
         ## The page\n\n\
         In frames of 1/60 s, the quietest of four series. For a move: what 19 of 20 stay below while the delay is\n\
         dragged along the chart, from the event until its picture is painted, without the wait for the screen. For\n\
         the flight: the longest time for which the page hears nothing. For a keystroke: what 19 of 20\n\
         stay below until the answer is painted; keys are struck at any time between two frames, so that waiting for the\n\
         screen alone takes up to a frame. For a visit: from its beginning until the first answer is painted, the middle\n\
         one of ten.\n\n\
         | what | frames | allowed |\n| --- | ---: | ---: |\n{page}",
        WORK[0]
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn times(of: &[(&str, f64)]) -> Times {
        of.iter().map(|(name, time)| ((*name).to_owned(), *time)).collect()
    }

    #[test]
    fn the_record_holds_ratios_only() {
        let native = times(&[("one_flight", 200.0), ("new_design", 500.0), (SCRIPT, 4000.0)]);
        let in_browser = times(&[("new_design", 750.0), ("delay_move_busy_p95", 2.0 * FRAME_NS)]);
        let text = record(&native, &in_browser).unwrap();
        assert!(text.contains("| `one_flight` | 1.00 | not measured |\n| `new_design` | 2.50 | 1.50 |\n"), "{text}");
        assert!(text.contains("trajectories.py` | 20.00 | not measured |\n"), "{text}");
        assert!(text.contains("| moving the delay | 2.00 | 1 |\n"), "{text}");
        assert!(text.contains("processor slowed to a quarter | not measured | 3 |\n"), "{text}");
    }

    #[test]
    fn a_record_needs_something_to_be_relative_to() {
        assert!(record(&Times::new(), &Times::new()).is_err());
    }
}
