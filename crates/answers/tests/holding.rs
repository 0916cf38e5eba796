//! Every size that is proposed, checked by flying the design it proposes.
//!
//! `HOLDWATER_CASES=400 cargo test --release -p holdwater-answers --test holding` looks much longer.

mod common;

use common::{Draw, cases, report};
use holdwater_answers::Study;
use holdwater_answers::holding::{Holding, HoldingAnswer, Way};
use holdwater_answers::numbers::Answers;
use holdwater_answers::study::PLANNED_LOSS;
use holdwater_design::examples::EXAMPLES;
use holdwater_design::{Design, Input, link};

/// What two flights of nearly the same design may differ in without meaning, as a share of the height: the page's tolerance allows 0.1 m
/// against the converged value, and neighbours share most of their error.
const NOISE: f64 = 3e-4;

/// Most flights that question two may take.
const MOST_FLIGHTS: usize = 800;

fn with(design: &Design, values: &[(Input, f64)]) -> Design {
    let mut design = design.clone();
    for &(input, value) in values {
        design.set(input, Some(value)).unwrap_or_else(|complaint| panic!("{complaint}"));
    }
    design
}

fn bare(design: &Design) -> Design {
    with(design, &[(Input::RestrictorBore, 0.0), (Input::StagingTubeLength, 0.0)])
}

fn answers(design: &Design) -> Option<Answers> {
    Study::new(design).ok()?.answers(design.number(Input::Delay)).ok()
}

/// Height of a design with a plate; nothing if it has no answer.
fn plate_height(design: &Design, holes: u32, bore_mm: f64, height_mm: f64) -> Option<f64> {
    let proposal = with_plate(design, holes, bore_mm, height_mm);
    answers(&proposal).filter(|answers| !answers.fell).map(|answers| answers.apogee_m)
}

fn with_plate(design: &Design, holes: u32, bore_mm: f64, height_mm: f64) -> Design {
    let values = [
        (Input::RestrictorBore, bore_mm),
        (Input::RestrictorHoles, f64::from(holes)),
        (Input::RestrictorHeight, height_mm),
    ];
    with(&bare(design), &values)
}

fn tube_height(design: &Design, length_mm: f64, wall_mm: f64, outer_mm: f64) -> Option<f64> {
    let values =
        [(Input::StagingTubeLength, length_mm), (Input::StagingTubeWall, wall_mm), (Input::StagingTubeOuter, outer_mm)];
    answers(&with(&bare(design), &values)).map(|answers| answers.apogee_m)
}

fn holding(design: &Design) -> Option<HoldingAnswer> {
    let study = Study::new(design).ok()?;
    let holding = Holding::complete(&study, design.number(Input::Delay));
    assert!(holding.flown() <= MOST_FLIGHTS, "{} flights", holding.flown());
    holding.answer().cloned()
}

/// The same flight: the design's own sizes come back through millimetres, which may turn their last digit.
fn same(flown: Option<f64>, printed: f64) -> bool {
    flown.is_some_and(|height| (height - printed).abs() < 1e-6)
}

/// Checks of one design: what is wrong with what was proposed.
fn wrong(design: &Design) -> Option<String> {
    let answer = holding(design)?;
    let restrictor = &answer.restrictor;
    let checks: [fn(&Design, &HoldingAnswer) -> Option<String>; 7] =
        [window_wrong, best_wrong, height_wrong, pattern_wrong, hold_wrong, tube_wrong, choices_wrong];
    let found = checks.iter().find_map(|check| check(design, &answer));
    found.or_else(|| {
        let curves = Holding::complete(&Study::new(design).ok()?, design.number(Input::Delay)).curves();
        let most = restrictor.ideal_apogee_m * (1.0 + NOISE) + 0.02;
        let above = curves.bore_m.iter().zip(&curves.height_m).find(|(_, height)| **height > most);
        above.map(|(bore, height)| format!("a bore of {bore} m reaches {height} of an ideal of {}", curves.ideal_m))
    })
}

fn window_wrong(design: &Design, answer: &HoldingAnswer) -> Option<String> {
    let restrictor = &answer.restrictor;
    let [low, high] = restrictor.window_mm?;
    let loss = |bore: f64| {
        let height = plate_height(design, restrictor.holes, bore, restrictor.height_mm);
        height.map_or(1.0, |height| 1.0 - height / restrictor.ideal_apogee_m)
    };
    let middle = (low * high).sqrt();
    for bore in [low, middle, high] {
        if loss(bore) >= PLANNED_LOSS {
            return Some(format!("inside the window at {bore} mm the loss is {}", loss(bore)));
        }
    }
    // A little further out it costs as much as stated, unless the plate ends there.
    let ends = [(low - 0.3, low > 0.4 && restrictor.chokes_below_mm.is_some()), (high + 0.3, true)];
    for (bore, counts) in ends {
        let fits = f64::from(restrictor.holes) * bore * bore < design.number(Input::SustainerBore).powi(2) * 0.9;
        if counts && fits && bore > 0.0 && loss(bore) < PLANNED_LOSS - 0.004 {
            return Some(format!("outside the window at {bore} mm the loss is {}", loss(bore)));
        }
    }
    None
}

fn best_wrong(design: &Design, answer: &HoldingAnswer) -> Option<String> {
    let restrictor = &answer.restrictor;
    let (bore, apogee) = restrictor.best_bore_mm.zip(restrictor.best_apogee_m)?;
    let height = |bore: f64| plate_height(design, restrictor.holes, bore, restrictor.height_mm);
    if !same(height(bore), apogee) {
        return Some(format!("best bore {bore} mm flies to {:?}, not to {apogee}", height(bore)));
    }
    for other in [0.3, 0.7, 0.9, 0.97, 1.03, 1.1, 1.4, 2.0] {
        let other = (bore * other * 10.0).round() / 10.0;
        if let Some(better) = height(other).filter(|other| *other > apogee * (1.0 + NOISE)) {
            return Some(format!("{other} mm flies to {better}, the best bore of {bore} mm to {apogee}"));
        }
    }
    None
}

fn height_wrong(design: &Design, answer: &HoldingAnswer) -> Option<String> {
    let restrictor = &answer.restrictor;
    let (place, apogee) = restrictor.best_height_mm.zip(restrictor.best_height_apogee_m)?;
    let fitted = design.number(Input::RestrictorBore);
    // A place away from the water's surface is proposed only if it gains a thousandth.
    let bore = if fitted > 0.0 { fitted } else { restrictor.best_bore_mm?.min(restrictor.hold_bore_mm?) };
    let height = |place: f64| plate_height(design, restrictor.holes, bore, place);
    if !same(height(place), apogee) {
        return Some(format!("best height {place} mm flies to {:?}, not to {apogee}", height(place)));
    }
    for other in [-20.0, -5.0, -2.0, -1.0, 1.0, 2.0, 5.0, 20.0, 60.0] {
        let other = place + other;
        if other > 0.0
            && let Some(better) = height(other).filter(|other| *other > apogee * (1.0 + 1e-3 + NOISE))
        {
            return Some(format!("a plate at {other} mm flies to {better}, the best at {place} mm to {apogee}"));
        }
    }
    None
}

fn pattern_wrong(design: &Design, answer: &HoldingAnswer) -> Option<String> {
    let restrictor = &answer.restrictor;
    let pattern = restrictor.pattern?;
    let proposal = with_plate(design, pattern.holes, pattern.bore_mm, restrictor.height_mm);
    let flown = answers(&proposal)?;
    let plate = flown.plate?;
    if plate.verdict != "holds" || plate.leak_l > 1e-9 {
        return Some(format!("the pattern {pattern:?} {} and leaks {} L", plate.verdict, plate.leak_l));
    }
    if !same(Some(flown.apogee_m), pattern.apogee_m) {
        return Some(format!("the pattern flies to {}, not to {}", flown.apogee_m, pattern.apogee_m));
    }
    let height = |holes: u32| plate_height(design, holes, pattern.bore_mm, restrictor.height_mm);
    let most = height(pattern.most)?;
    if pattern.apogee_m < most * 0.999 {
        return Some(format!("the pattern flies to {}, as many as fit to {most}", pattern.apogee_m));
    }
    // One hole less would be too few, if it is still a pattern.
    if pattern.holes > 2 && height(pattern.holes - 1)? > most * (0.999 + NOISE) {
        return Some(format!("one hole less than {} is enough", pattern.holes));
    }
    None
}

fn hold_wrong(design: &Design, answer: &HoldingAnswer) -> Option<String> {
    let restrictor = &answer.restrictor;
    let hold = restrictor.hold_bore_mm?;
    let leaks = restrictor.leaks_from_mm?;
    let rank = |bore: f64| {
        let flown = answers(&with_plate(design, restrictor.holes, bore, restrictor.height_mm))?;
        let plate = flown.plate?;
        let rank = ["holds", "marginal", "leaks"].iter().position(|word| *word == plate.verdict)?;
        Some((rank, plate.bond, plate.leak_l))
    };
    let nearly = design.number(Input::SustainerBore) * 0.9;
    let mut before = (0, 0.0, 0.0);
    for bore in [0.3 * hold, hold, 0.5 * (hold + leaks), leaks + 0.3, 1.5 * leaks] {
        if f64::from(restrictor.holes).sqrt() * bore > nearly || bore <= 0.0 {
            break;
        }
        let now = rank(bore)?;
        if now.0 < before.0 || now.1 < before.1 {
            return Some(format!("a bore of {bore} mm holds better ({now:?}) than a narrower one ({before:?})"));
        }
        if bore.to_bits() == hold.to_bits() && now.0 > 0 {
            return Some(format!("the widest bore that holds, {bore} mm, does not: {now:?}"));
        }
        before = now;
    }
    None
}

fn tube_wrong(design: &Design, answer: &HoldingAnswer) -> Option<String> {
    let tube = &answer.tube;
    let (length, apogee) = tube.best_length_mm.zip(tube.best_apogee_m)?;
    let height = |length: f64| tube_height(design, length, tube.wall_mm, tube.outer_mm);
    if !same(height(length), apogee) {
        return Some(format!("best tube {length} mm flies to {:?}, not to {apogee}", height(length)));
    }
    for other in [0.3, 0.6, 0.85, 0.95, 1.05, 1.2, 1.6] {
        let other = (length * other).round();
        if tube.longest_length_mm.is_some_and(|longest| other > longest) {
            break;
        }
        if let Some(better) = height(other).filter(|other| *other > apogee * (1.0 + NOISE) + 0.02) {
            return Some(format!("a tube of {other} mm flies to {better}, the best of {length} mm to {apogee}"));
        }
    }
    if let Some(seated) = tube.seated_length_mm {
        let values = [
            (Input::StagingTubeLength, seated),
            (Input::StagingTubeWall, tube.wall_mm),
            (Input::StagingTubeOuter, tube.outer_mm),
        ];
        let flown = answers(&with(&bare(design), &values))?;
        if flown.gas_lost > 0.2 {
            return Some(format!(
                "with {seated} mm the water should be seated, but {} of the gas is lost",
                flown.gas_lost
            ));
        }
    }
    None
}

fn choices_wrong(design: &Design, answer: &HoldingAnswer) -> Option<String> {
    let flown = answers(design)?;
    for choice in &answer.choices {
        let numbers = [choice.apogee_m, choice.loss_share, choice.added_kg, choice.latest_release_s.unwrap_or(0.0)];
        if numbers.iter().any(|number| !number.is_finite()) || choice.choice.is_empty() || choice.warning.is_empty() {
            return Some(format!("{choice:?}"));
        }
        if matches!(choice.way, Way::ThisRestrictor | Way::ThisTube) && (choice.apogee_m - flown.apogee_m).abs() > 1e-9
        {
            return Some(format!("{} m as a choice, {} m as an answer", choice.apogee_m, flown.apogee_m));
        }
    }
    let best = answer.best_choice.map(|place| &answer.choices[place])?;
    if answer.choices.iter().any(|choice| choice.apogee_m > best.apogee_m) {
        return Some(format!("{} is not the highest", best.choice));
    }
    None
}

#[test]
fn property_what_is_proposed_for_the_examples_is_what_flies_best() {
    for example in EXAMPLES {
        let design = link::open(example.link).design;
        if let Some(wrong) = wrong(&design) {
            panic!("{}: {wrong}", example.title);
        }
    }
}

#[test]
fn property_what_is_proposed_for_designs_near_the_default_is_what_flies_best() {
    let mut draw = Draw(20);
    for _ in 0..cases(12) {
        let design = draw.near(0.25);
        if let Some(fault) = wrong(&design) {
            report(&design, &fault, |design| wrong(design).is_some());
        }
    }
}

#[test]
fn property_any_design_is_answered_with_finite_numbers_or_a_reason() {
    let mut draw = Draw(21);
    let mut answered = 0;
    for round in 0..cases(300) {
        // Few of the wildest designs fly.
        let design = if round % 10 == 0 { draw.near(0.8) } else { draw.any() };
        let Some(answer) = holding(&design) else { continue };
        answered += 1;
        let restrictor = &answer.restrictor;
        let numbers = [
            restrictor.bond,
            Some(restrictor.leak_l),
            Some(restrictor.ideal_apogee_m),
            Some(restrictor.ballast_gain_m),
            restrictor.hold_bore_mm,
            restrictor.best_bore_mm,
            restrictor.best_height_mm,
            restrictor.bench_bore_mm,
            restrictor.load.map(|load| load.force_n + load.filling_bar),
            answer.tube.best_length_mm,
            answer.tube.mass_cost_m,
        ];
        assert!(numbers.iter().flatten().all(|number| number.is_finite()), "{restrictor:?} #{}", link::write(&design));
        let named = restrictor.window_mm.is_some() || !restrictor.why_not.is_empty();
        assert!(named && !answer.holding_verdict.is_empty(), "{restrictor:?} #{}", link::write(&design));
        assert!(answer.small_tube.words.len() >= 2);
    }
    assert!(answered > 0, "only {answered} flew");
}

#[test]
fn property_slices_of_any_size_give_the_same_answer() {
    let design = link::open("v=1&r.bore=24&r.height=86&delay=0.8").design;
    let study = Study::new(&design).unwrap();
    let whole = Holding::complete(&study, 0.8);
    for size in [1, 7, 50] {
        let mut sliced = Holding::start(&study, 0.8);
        let mut slices = 0;
        while !sliced.advance(&study, size) {
            slices += 1;
            assert!(slices < 5000 && sliced.answer().is_none());
        }
        assert_eq!(sliced.answer(), whole.answer());
        assert_eq!(sliced.curves(), whole.curves());
        assert!(slices >= whole.flown() / size - 1);
    }
}

#[test]
fn property_what_another_copy_has_flown_is_not_flown_again_and_gives_the_same_answer() {
    for example in EXAMPLES {
        let design = link::open(example.link).design;
        let Ok(study) = Study::new(&design) else { continue };
        let delay = design.number(Input::Delay);
        let whole = Holding::complete(&study, delay);
        let numbers = whole.flown_as_numbers();
        assert!(numbers.iter().all(|number| number.is_finite()), "{}", example.title);
        let mut told = Holding::start(&study, delay);
        // A row that was damaged on the way is left out.
        told.take_flown(&[9.0, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0]);
        told.take_flown(&numbers);
        assert!(told.advance(&study, usize::MAX));
        assert_eq!(told.answer(), whole.answer(), "{}", example.title);
        assert_eq!(told.flown(), whole.flown(), "{}", example.title);
    }
}

#[test]
fn limit_without_a_coast_all_but_the_narrowest_bores_serve() {
    // Released at burnout little has leaked, only what does while the booster's thrust dies away: nearly all bores serve.
    let answer = holding(&link::open("v=1&delay=0").design).unwrap();
    let best = answer.restrictor.best_bore_mm.unwrap();
    assert!(best > 25.0, "{best}");
    assert!(answer.restrictor.window_mm.unwrap()[1] > 85.0);
}
