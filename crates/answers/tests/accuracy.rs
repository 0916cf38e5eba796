//! What the page computes against the converged value.

mod common;

use common::{Draw, cases, report};
use holdwater_design::examples::EXAMPLES;
use holdwater_design::{Design, Input, link};
use holdwater_physics::flight::{Launch, Silent, WaterMode};
use holdwater_physics::solver::Effort;

/// What a design's height may be off on the page, m.
const ALLOWED: f64 = 0.1;

/// Furthest that the page's heights are from the converged ones, over delays and both kinds of water; `None` for a design that does
/// not fly.
fn furthest(design: &Design, delays: &[f64]) -> Option<(f64, f64, WaterMode)> {
    let rocket = design.rocket();
    let launch = |effort| Launch::new(&rocket, Input::Delay.row().max, 0, effort).ok();
    let (page, reference) = (launch(Effort::PAGE)?, launch(Effort::REFERENCE)?);
    let mut furthest = (0.0, 0.0, WaterMode::Free);
    for &delay in delays {
        for mode in [WaterMode::Free, WaterMode::Settled] {
            let height = |launch: &Launch| launch.fly(delay, mode, &mut Silent).map(|flight| flight.sustainer.apogee.1);
            let (Ok(ours), Ok(best)) = (height(&page), height(&reference)) else {
                continue;
            };
            let off = (ours - best).abs();
            if off.is_nan() || off > furthest.0 {
                furthest = (off, delay, mode);
            }
        }
    }
    Some(furthest)
}

#[test]
fn converges_the_page_to_a_tenth_of_a_metre_for_every_example_at_every_delay() {
    for example in EXAMPLES {
        let design = link::open(example.link).design;
        let delays: Vec<_> = (0..40).map(|k| 0.05 * f64::from(k)).chain([design.number(Input::Delay)]).collect();
        let Some((off, delay, mode)) = furthest(&design, &delays) else { panic!("{} does not fly", example.title) };
        assert!(off <= ALLOWED, "{}: {off} m off at a delay of {delay} s ({mode:?})", example.title);
    }
}

#[test]
fn converges_the_page_to_a_tenth_of_a_metre_for_designs_near_the_default() {
    let mut draw = Draw(4);
    let mut flown = 0;
    let count = cases(120);
    for _ in 0..count {
        let design = draw.near(0.3);
        let delay = design.number(Input::Delay);
        let wrong = |design: &Design| {
            furthest(design, &[0.0, 0.3, 0.5 * delay, delay]).filter(|(off, ..)| off.is_nan() || *off > ALLOWED)
        };
        if let Some((off, delay, mode)) = wrong(&design) {
            report(&design, &format!("{off} m off at a delay of {delay} s ({mode:?})"), |design| {
                wrong(design).is_some()
            });
        }
        flown += u32::from(furthest(&design, &[0.0]).is_some());
    }
    assert!(2 * flown >= count, "only {flown} of {count} flew");
}
