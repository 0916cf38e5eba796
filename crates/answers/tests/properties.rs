//! Whatever the table of inputs allows is answered: with finite numbers or with a reason, and soon.
//!
//! `HOLDWATER_CASES=20000 cargo test --release -p holdwater-answers --test properties` looks much longer.

mod common;

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::{Duration, Instant};

use common::{Draw, cases, report};
use holdwater_answers::Study;
use holdwater_answers::numbers::Answers;
use holdwater_design::{Design, Input};

/// Longest time for everything about one design, unoptimised, on a busy machine. Usual are milliseconds.
const LONGEST: Duration = Duration::from_secs(5);

/// Every number of the answers, with its name.
fn numbers(answers: &Answers) -> Vec<(String, f64)> {
    let json = serde_json::to_value(answers).unwrap_or_default();
    let mut found = Vec::new();
    collect("", &json, &mut found);
    found
}

/// JSON has no NaN and writes null instead; a null that no rule allows is found by [`fault`].
fn collect(name: &str, value: &serde_json::Value, found: &mut Vec<(String, f64)>) {
    match value {
        serde_json::Value::Number(number) => found.push((name.to_owned(), number.as_f64().unwrap_or(f64::NAN))),
        serde_json::Value::Array(items) => items.iter().for_each(|item| collect(name, item, found)),
        serde_json::Value::Object(fields) => {
            for (key, field) in fields {
                collect(&format!("{name}.{key}"), field, found);
            }
        }
        serde_json::Value::Null if name == ".events.after_burnout_s" => {}
        serde_json::Value::Null if name.matches('.').count() > 1 => found.push((name.to_owned(), f64::NAN)),
        _ => {}
    }
}

fn fault_of_answers(answers: &Answers, design: &Design) -> Option<String> {
    for (name, number) in numbers(answers) {
        if !number.is_finite() {
            return Some(format!("{name} is {number}"));
        }
    }
    // These are plain numbers, which JSON would write as null.
    let plain = [
        answers.apogee_m,
        answers.settled_apogee_m,
        answers.settled_at_burnout_m,
        answers.gas_lost,
        answers.apogee_t_s,
    ];
    if plain.iter().any(|number| !number.is_finite() || *number < 0.0) {
        return Some(format!("heights, time and lost gas are {plain:?}"));
    }
    if answers.gas_lost > 1.0 {
        return Some(format!("gas lost is {}", answers.gas_lost));
    }
    let options = [answers.latest_release_s, answers.uncovers_s, answers.coast_decel_mps2];
    if options.iter().flatten().any(|number| !number.is_finite()) {
        return Some(format!("latest release, uncovering and deceleration are {options:?}"));
    }
    let water = design.number(Input::SustainerWater);
    if let Some(release) =
        answers.release.filter(|release| release.lifted_l > water * (1.0 + 1e-9) || release.lifted_l < 0.0)
    {
        return Some(format!("lifted are {} of {water} L", release.lifted_l));
    }
    if answers.events.windows(2).any(|pair| pair[1].t_s < pair[0].t_s) {
        return Some("events are not in order".to_owned());
    }
    None
}

fn fault_of_study(study: &Study, delay: f64) -> Option<String> {
    let curves = study.flight(delay);
    let columns = [&curves.t_s, &curves.h_m, &curves.v_mps, &curves.a_mps2];
    if columns.iter().any(|column| column.len() != curves.t_s.len() || column.is_empty()) {
        return Some("the flight's curves are empty or of unlike length".to_owned());
    }
    if columns.iter().any(|column| column.iter().any(|number| !number.is_finite())) {
        return Some("the flight's curves are not finite".to_owned());
    }
    // Equal times where a phase changes; rounding of a share of a step may turn the last digit.
    if curves.t_s.windows(2).any(|pair| pair[1] < pair[0] - 1e-9) {
        return Some("the flight's times fall".to_owned());
    }
    let Some(picture) = study.picture(delay) else {
        return Some("no picture".to_owned());
    };
    let sizes = [
        picture.length_m,
        picture.bore_m,
        picture.nozzle_m,
        picture.standing_m,
        picture.finger_m,
        picture.lifted_m3,
        picture.lifted_height_m,
    ];
    if sizes.iter().any(|size| !size.is_finite() || *size < 0.0) || picture.finger_m > picture.standing_m {
        return Some(format!("the picture is {picture:?}"));
    }
    let mut sweep = study.sweep(12);
    while !sweep.advance(study, 5) {}
    let sweep = sweep.curves();
    if sweep.delay_s.len() != if study.longest_delay().is_some() { 12 } else { 0 } {
        return Some(format!("the sweep has {} points", sweep.delay_s.len()));
    }
    // A delay at which a sustainer stalls on its tube has no height: that is a gap in the curve. Anything else is a number.
    let heights = [&sweep.settled_m, &sweep.bare_m, &sweep.tube_m];
    if heights.iter().any(|column| column.iter().any(|height| height.is_infinite() || *height < 0.0)) {
        return Some(format!("the sweep's heights are {heights:?}"));
    }
    if sweep.settled_m.iter().chain(&sweep.bare_m).any(|height| height.is_nan()) {
        return Some(format!("the bare vessel has a gap in its curve: {heights:?}"));
    }
    None
}

/// What is wrong with the answers to a design: nothing, a sentence, or the place of a panic. And whether it flew.
fn fault(design: &Design) -> (bool, Option<String>) {
    let look = || -> (bool, Option<String>) {
        let start = Instant::now();
        let delay = design.number(Input::Delay);
        let refused = |reasons: Vec<holdwater_answers::Refused>| {
            let named = !reasons.is_empty() && reasons.iter().all(|reason| !reason.message.is_empty());
            let solver = reasons.iter().any(|reason| reason.message.contains("could not be computed"));
            let fault = if named && !solver { None } else { Some(format!("refused with {reasons:?}")) };
            (false, fault)
        };
        let study = match Study::new(design) {
            Ok(study) => study,
            Err(reasons) => return refused(reasons),
        };
        let found = match study.answers(delay) {
            Ok(answers) => (true, fault_of_answers(&answers, design).or_else(|| fault_of_study(&study, delay))),
            Err(reasons) => refused(reasons),
        };
        let took = start.elapsed();
        if took > LONGEST { (found.0, found.1.or(Some(format!("took {took:?}")))) } else { found }
    };
    catch_unwind(AssertUnwindSafe(look)).unwrap_or_else(|panic| {
        let words =
            panic.downcast_ref::<String>().cloned().or_else(|| panic.downcast_ref::<&str>().map(|s| (*s).to_owned()));
        (false, Some(format!("panicked: {}", words.unwrap_or_default())))
    })
}

/// Draws designs, demands that each is answered, and says how many flew.
fn all_answered(count: u32, mut next: impl FnMut() -> Design) -> u32 {
    let mut flown = 0;
    for _ in 0..count {
        let design = next();
        let (flew, wrong) = fault(&design);
        flown += u32::from(flew);
        if let Some(wrong) = wrong {
            // The same kind of fault: the sentence up to its first number.
            let kind = |words: &str| words.split([' ', '[', '.']).take(2).collect::<Vec<_>>().join(" ");
            report(&design, &wrong, |design| fault(design).1.is_some_and(|now| kind(&now) == kind(&wrong)));
        }
    }
    flown
}

#[test]
fn property_any_design_of_the_table_is_answered_with_finite_numbers_or_a_reason() {
    let mut draw = Draw(1);
    let flown = all_answered(cases(300), || draw.any());
    assert!(flown > 0, "nothing flew, so nothing was looked at");
}

#[test]
fn property_designs_near_the_default_are_answered_and_most_of_them_fly() {
    let count = cases(300);
    let mut draw = Draw(2);
    let flown = all_answered(count, || draw.near(0.3));
    assert!(2 * flown >= count, "only {flown} of {count} flew");
}

#[test]
fn property_a_single_stage_is_answered_too() {
    let mut draw = Draw(3);
    let flown = all_answered(cases(100), || {
        let mut design = draw.near(0.3);
        assert_eq!(design.set(Input::Stages, Some(1.0)), Ok(()));
        design
    });
    assert!(flown > 0, "nothing flew, so nothing was looked at");
}
