//! Flights at ever smaller tolerances.

#![allow(clippy::unwrap_used, reason = "a panic is how a test fails")]

mod common;

use common::{HORIZON, booster, close, stack};
use holdwater_physics::flight::{Launch, Silent, WaterMode};
use holdwater_physics::rocket::{LaunchTube, Rocket};
use holdwater_physics::solver::Effort;

/// Heights at a tolerance: before, at and beyond the delay where the water uncovers the nozzle, and with the water at the nose.
const DELAYS: [f64; 6] = [0.0, 0.3, 0.35, 0.5, 1.0, 1.7];

fn heights(rocket: &Rocket, tolerance: f64) -> Vec<f64> {
    let effort = Effort { tolerance, ..Effort::REFERENCE };
    let launch = Launch::new(rocket, HORIZON, 0, effort).unwrap();
    let height = |delay: &f64| launch.fly(*delay, WaterMode::Free, &mut Silent).unwrap().sustainer.apogee.1;
    DELAYS.iter().map(height).collect()
}

fn furthest(ours: &[f64], theirs: &[f64]) -> f64 {
    ours.iter().zip(theirs).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max)
}

/// Three rockets that between them go through every phase.
fn rockets() -> [Rocket; 3] {
    let staging = LaunchTube { length_m: 0.2, outer_m: 0.0085, wall_m: 1e-3 };
    let pad = LaunchTube { length_m: 0.2, outer_m: 0.02, wall_m: 0.0 };
    let tubes = Rocket { staging_tube: Some(staging), pad_tube: Some(pad), ..stack() };
    let mut draggy = stack();
    booster(&mut draggy).drag_coefficient = 0.7;
    draggy.sustainer.nozzle_m = 0.013;
    [stack(), tubes, draggy]
}

#[test]
fn converges_the_height_with_the_tolerance() {
    for rocket in rockets() {
        let best = heights(&rocket, 1e-10);
        // A tolerance is per step and as a share of 10 m and 10 m/s; where gas starts to vent, a millisecond is worth 0.5 m and the
        // closing of the nozzle has a kink, so that the height follows the tolerance with less than its first power.
        for (tolerance, allowed) in [
            (1e-3, 0.3),
            (2e-4, 0.1),
            (1e-4, 0.05),
            (1e-5, 0.02),
            (1e-6, 0.01),
            (1e-7, 5e-3),
            (1e-8, 2e-3),
            (1e-9, 1e-3),
        ] {
            let error = furthest(&heights(&rocket, tolerance), &best);
            assert!(error <= allowed, "{tolerance:e}: {error:e} m, allowed {allowed}");
        }
    }
}

#[test]
fn converges_the_page_to_a_tenth_of_a_metre() {
    for rocket in rockets() {
        let page = heights(&rocket, Effort::PAGE.tolerance);
        close("height", furthest(&page, &heights(&rocket, 1e-10)), 0.0, 0.1);
    }
}

#[test]
fn converges_height_and_lost_gas_to_continuous_curves_of_the_delay() {
    let launch = Launch::new(&stack(), HORIZON, 0, Effort::REFERENCE).unwrap();
    let answer = |delay: f64| {
        let sustainer = launch.fly(delay, WaterMode::Free, &mut Silent).unwrap().sustainer;
        (sustainer.apogee.1, sustainer.gas_lost)
    };
    let coast = launch.coast(WaterMode::Free).unwrap();
    // The one hard event: the parcel lands at the nose and turns round, so that a release just after that finds it at rest and a release
    // just before it finds it flying up. Left out are the milliseconds around it.
    let nose = coast.at_nose.unwrap().0 - coast.burnout.0;
    let longest = 0.999 * launch.longest_delay().unwrap();
    for (from, until) in [(0.0, nose - 5e-3), (nose + 5e-3, longest)] {
        let step = (until - from) / 500.0;
        let points: Vec<_> =
            (0..=500).map(|k| from + step * f64::from(k)).map(|delay| (delay, answer(delay))).collect();
        let change = |a: (f64, f64), b: (f64, f64)| (a.0 - b.0).abs().max(50.0 * (a.1 - b.1).abs());
        // Into the ten steepest steps: halve towards the steeper half. A jump keeps its size, a slope does not.
        let mut steps: Vec<_> = points.windows(2).map(|pair| (pair[0], pair[1])).collect();
        steps.sort_by(|a, b| change(b.0.1, b.1.1).total_cmp(&change(a.0.1, a.1.1)));
        for (mut low, mut high) in steps.into_iter().take(10) {
            let whole = change(low.1, high.1);
            for _ in 0..22 {
                let middle = 0.5 * (low.0 + high.0);
                let middle = (middle, answer(middle));
                if change(low.1, middle.1) > change(middle.1, high.1) { high = middle } else { low = middle }
            }
            // Four millionths of a step of milliseconds are a nanosecond: what is left is the tolerance of the reference where it
            // converges worst.
            let left = change(low.1, high.1);
            assert!(left < 5e-3, "a jump of {left} of {whole} at {}", low.0);
        }
    }
}
