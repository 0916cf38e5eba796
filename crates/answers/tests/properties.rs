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

/// Designs that were once answered wrongly, and how.
const ONCE_WRONG: [(&str, &str); 10] = [
    (
        "the sustainer's thrust never holds its weight: it fell through the ground",
        "v=1&b.fill=4.343482595168594&s.nozzle=2&s.dry=0.3818443382344554",
    ),
    (
        "the start of the jet lifts a single stage too heavy for its thrust: the same",
        "v=1&stages=1&s.vol=166.04282428153465&s.cd=0.6316377499298143&s.water=107.03933553186273&s.fill=74.67997260583365",
    ),
    (
        "rounding on the pad counted as flying: the same",
        "v=1&stages=1&site=210.26697667208964&s.vol=1.911368921225364&s.nozzle=2.0209972665056157&s.cd=0.5440944143529158&s.dry=74.01787304237473",
    ),
    (
        "the booster's thrust does not hold the weight of the stack: the same",
        "v=1&b.vol=200&b.nozzle=3.8334830207730772&b.count=10&b.water=50.89917797238613&s.dry=1.99139189219051",
    ),
    (
        "a late release of a weak sustainer fell below the ground in the sweep",
        "v=1&b.vol=10.453090035317054&b.nozzle=39.548171427746894&b.cd=0.5&b.fill=4.759473633229016&s.vol=0.9727795994101704&s.nozzle=3.8396904349935403&s.fill=2.2396254362933607",
    ),
    (
        "the stack falls already when its thrust ends: no picture",
        "v=1&b.nozzle=8.95226671901532&b.water=1.3634447928930755&b.fill=2.25628043330285",
    ),
    (
        "water at the nose before the end of thrust: events out of order",
        "v=1&b.vol=12.032577051934442&b.nozzle=6.07968539031825&b.dry=0.14029177790801972&b.dia=145.18554858573847&s.vol=0.9604261234441289&s.dry=0.06429074418778329",
    ),
    (
        "two events in one step: more water lifted than there is",
        "v=1&expand=1.4&b.nozzle=21.121359286187978&b.fill=7.891598413417713&b.dry=0.5401974942160791&b.dia=126.81684457316518&b.tube=168.54421730121828&s.vol=2.313371790033383&s.bore=72.82209994032814&s.water=0.548331051375794&s.dry=0.28561289778979926&delay=1.1908195501898304&disturb=0.9514014117454667&r.bore=10.698677969311047&r.mass=15.266555694576178",
    ),
    (
        "the same, then a gap in the curve",
        "v=1&expand=1.2176504129633532&b.vol=9.693569327774952&b.nozzle=22.857844588590023&b.cd=0.7614199621454562&b.fill=8.6084486050402&b.dry=0.4521964584730034&b.drag=0.36814155731908627&b.dia=87.37799147135436&s.bore=70.14470455485974&s.water=0.47393466209640156",
    ),
    (
        "drag holds the water of a narrow bore back from the nozzle: it ran backwards for ever",
        "v=1&b.fill=18.330973407118197&s.bore=15&s.dia=162.80183350549225",
    ),
];

#[test]
fn property_designs_that_once_went_wrong_are_answered() {
    let wrong: Vec<_> = ONCE_WRONG
        .iter()
        .filter_map(|(what, link)| {
            Some(format!("{what}: {} (#{link})", fault(&holdwater_design::link::open(link).design).1?))
        })
        .collect();
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}
