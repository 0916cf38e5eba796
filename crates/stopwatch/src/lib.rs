//! The work that benchmarks time: the same functions natively (criterion) and in the browser (plain WebAssembly exports,
//! which need no glue).
//!
//! Each takes a number of rounds and returns something that depends on all of them, so that nothing is optimised away.

use holdwater_answers::vessels::{Vessels, stand};
use holdwater_answers::{Holding, Study};
use holdwater_design::Design;
use holdwater_design::parts::{LogEntry, MOST_PARTS, PartKind, VesselPart};
use holdwater_physics::age::fit::{LogRow, fit};
use holdwater_physics::flight::{Launch, Silent, WaterMode};
use holdwater_physics::solver::Effort;

/// The delay of the default design, s.
const DELAY: f64 = 1.0;

/// Points of a sweep.
const POINTS: usize = 200;

fn flight_at(effort: Effort) -> f64 {
    Launch::new(&Design::default().rocket(), DELAY, 0, effort)
        .and_then(|launch| launch.fly(DELAY, WaterMode::Free, &mut Silent))
        .map_or(f64::NAN, |flight| flight.sustainer.apogee.1)
}

/// One full two-stage flight of the default design: boost, coast, release, apogee, with the settled coast beside it.
#[unsafe(no_mangle)]
pub extern "C" fn one_flight(rounds: u32) -> f64 {
    (0..rounds).map(|_| flight_at(Effort::PAGE)).sum()
}

/// What moving the delay costs: all answers and the drawing at another delay of the same design.
#[unsafe(no_mangle)]
pub extern "C" fn move_delay(rounds: u32) -> f64 {
    let Ok(study) = Study::new(&Design::default()) else {
        return f64::NAN;
    };
    (0..rounds)
        .map(|round| {
            let delay = 0.01 * f64::from(round % 300);
            let lifted = study.picture(delay).map_or(f64::NAN, |picture| picture.lifted_m3);
            study.answers(delay).map_or(f64::NAN, |answers| answers.apogee_m + lifted)
        })
        .sum()
}

/// What changing any other input costs before the answer stands: boost, both coasts, latest release.
#[unsafe(no_mangle)]
pub extern "C" fn new_design(rounds: u32) -> f64 {
    (0..rounds)
        .map(|_| {
            Study::new(&Design::default())
                .and_then(|study| study.answers(DELAY))
                .map_or(f64::NAN, |answers| answers.apogee_m)
        })
        .sum()
}

/// The curve: 200 delays, bare and settled, with boost and coast.
#[unsafe(no_mangle)]
pub extern "C" fn sweep_of_200_delays(rounds: u32) -> f64 {
    (0..rounds)
        .map(|_| {
            let Ok(study) = Study::new(&Design::default()) else {
                return f64::NAN;
            };
            let mut sweep = study.sweep(POINTS);
            sweep.advance(&study, POINTS);
            sweep.curves().bare_m.iter().sum::<f64>()
        })
        .sum()
}

/// All of question two at a delay: restrictor and launch tube sized, the ways to stage compared.
#[unsafe(no_mangle)]
pub extern "C" fn question_two(rounds: u32) -> f64 {
    let Ok(study) = Study::new(&Design::default()) else {
        return f64::NAN;
    };
    (0..rounds)
        .map(|_| {
            let holding = Holding::complete(&study, DELAY);
            holding.answer().map_or(f64::NAN, |answer| answer.choices.iter().map(|choice| choice.apogee_m).sum())
        })
        .sum()
}

/// All of questions three and four for 24 parts, with a log of 30.
#[unsafe(no_mangle)]
pub extern "C" fn vessels_of_24_parts(rounds: u32) -> f64 {
    let mut design = Design::default();
    let kinds = PartKind::ALL.into_iter().cycle().take(MOST_PARTS);
    design.set_parts(kinds.map(VesselPart::new));
    let entry =
        |row: u32| LogEntry { part: String::new(), cycles: f64::from(40 + 17 * row), failed: row.is_multiple_of(3) };
    design.set_log(&(0..30).map(entry).collect::<Vec<_>>());
    (0..rounds)
        .map(|_| {
            let vessels = Vessels::of(&design);
            vessels.age.day.unwrap_or(0.0) + vessels.parts.len() as f64 + stand(&design).energy_j
        })
        .sum()
}

/// A Weibull fit of a thousand rows, a third of them failures.
#[unsafe(no_mangle)]
pub extern "C" fn weibull_of_1000_rows(rounds: u32) -> f64 {
    let row = |row: u32| LogRow { cycles: f64::from(50 + row * 7 % 991), failed: row.is_multiple_of(3) };
    let rows: Vec<_> = (0..1000).map(row).collect();
    (0..rounds).map(|_| fit(&rows).map_or(f64::NAN, |fit| fit.life.shape())).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_timed_work_is_real_work() {
        assert!((one_flight(2) / 2.0 - 189.9).abs() < 0.2);
        assert!((new_design(1) - one_flight(1)).abs() < 1e-3);
        assert!(move_delay(2).is_finite());
        assert!(sweep_of_200_delays(1) > 1e4);
        assert!(question_two(1) > 500.0);
        assert!(vessels_of_24_parts(1) > 24.0);
        assert!(weibull_of_1000_rows(1) > 0.5);
    }
}
