//! Flights at ever smaller tolerances.

#![allow(clippy::unwrap_used, reason = "a panic is how a test fails")]

mod common;

use common::{HORIZON, booster, close, stack};
use holdwater_physics::flight::{Launch, Silent, WaterMode};
use holdwater_physics::rocket::{LaunchTube, Restrictor, Rocket};
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

/// Plates of every kind: flush, with a gap, with water on them; held, marginal, leaking.
fn plated() -> Vec<Rocket> {
    let mut draggy = stack();
    booster(&mut draggy).drag_coefficient = 0.7;
    let standing = draggy.sustainer.standing_height();
    let plate = |hole_m: f64, holes: u32, over_water_m: f64| Restrictor {
        hole_m,
        holes,
        height_m: standing + over_water_m,
        discharge: None,
        trusted_share: 0.5,
        mass_kg: 0.01,
    };
    let plates = [
        plate(0.010, 40, 0.0),
        plate(0.019, 1, 0.0),
        plate(0.030, 1, 0.0),
        plate(0.040, 1, 0.005),
        plate(0.019, 1, 0.020),
        plate(0.030, 1, -0.020),
        plate(0.020, 6, -0.060),
        plate(0.080, 1, 0.0),
    ];
    plates.into_iter().map(|plate| Rocket { restrictor: Some(plate), ..draggy }).collect()
}

#[test]
fn converges_the_page_to_a_tenth_of_a_metre() {
    for rocket in rockets().into_iter().chain(plated()) {
        let page = heights(&rocket, Effort::PAGE.tolerance);
        close("height", furthest(&page, &heights(&rocket, 1e-10)), 0.0, 0.1);
    }
}

/// Looks for jumps of height and lost gas over the delay, leaving out the milliseconds around the hard events named.
fn no_jump(rocket: &Rocket, hard: &[f64], looks: u32) {
    let launch = Launch::new(rocket, HORIZON, 0, Effort::REFERENCE).unwrap();
    let answer = |delay: f64| {
        let sustainer = launch.fly(delay, WaterMode::Free, &mut Silent).unwrap().sustainer;
        (sustainer.apogee.1, sustainer.gas_lost)
    };
    let longest = 0.999 * launch.longest_delay().unwrap();
    let mut from = 0.0;
    for &until in hard.iter().filter(|&&delay| delay < longest).chain([&(longest + 5e-3)]) {
        let step = (until - 5e-3 - from) / f64::from(looks);
        let points: Vec<_> =
            (0..=looks).map(|k| from + step * f64::from(k)).map(|delay| (delay, answer(delay))).collect();
        from = until + 5e-3;
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
            assert!(left < 5e-3, "a jump of {left} of {whole} at {} with {:?}", low.0, rocket.restrictor);
        }
    }
}

/// Delays at which lifted water lands, in order: it turns round, so that a release just after finds it at rest and a release just before
/// finds it flying up.
fn landings(rocket: &Rocket) -> Vec<f64> {
    let launch = Launch::new(rocket, HORIZON, 0, Effort::REFERENCE).unwrap();
    let coast = launch.coast(WaterMode::Free).unwrap();
    [coast.at_plate, coast.at_nose].iter().flatten().map(|(t, _, _)| t - coast.burnout.0).collect()
}

#[test]
fn converges_height_and_lost_gas_to_continuous_curves_of_the_delay() {
    no_jump(&stack(), &landings(&stack()), 500);
}

#[test]
fn converges_height_and_lost_gas_to_continuous_curves_with_a_plate() {
    // All but the one on which most of the water stands: there the seated water falls to the dip depth just as the parcel lands, and the column
    // either stops or does not. That is a hard event of the bare vessel as well; it is worth a tenth of a metre.
    let deep = |rocket: &Rocket| rocket.restrictor.is_some_and(|plate| plate.height_m < 0.03);
    for rocket in plated().iter().filter(|rocket| !deep(rocket)) {
        no_jump(rocket, &landings(rocket), 150);
    }
}
