//! Gas through holes and nozzle, one after the other.

#![allow(clippy::disallowed_methods, reason = "expected values come from other functions than the crate's own")]
#![allow(clippy::float_cmp, reason = "limits are met exactly")]

mod common;

use common::{close, close_share, orifice_flow};
use holdwater_physics::gas::CRITICAL_RATIO;
use holdwater_physics::restrictor::series::Throttle;
use proptest::prelude::*;

/// Pressure below the plate over that above it, from the ambient pressure over that above, for a nozzle of k times the area of the holes.
fn share(k: f64, ambient_ratio: f64) -> f64 {
    Throttle::new(1.0, k).share(1.0 / ambient_ratio)
}

fn sonic_share(k: f64) -> f64 {
    Throttle::new(1.0, k).sonic_share
}

/// The same share found without any of the crate: by halving, until holes and nozzle pass the same mass.
fn by_halving(k: f64, ambient_ratio: f64) -> f64 {
    let (mut low, mut high) = (ambient_ratio, 1.0);
    for _ in 0..200 {
        let y = 0.5 * (low + high);
        // What the holes pass grows as the pressure below falls.
        if orifice_flow(y) > k * y * orifice_flow(ambient_ratio / y) { low = y } else { high = y }
    }
    0.5 * (low + high)
}

#[test]
fn published_holes_of_the_nozzles_own_area() {
    // NACA Report 1135: choked flow for gamma = 1.4 is 0.6847 p A/sqrt(R T). From memory. The holes pass as much where Psi(y) = 0.6847 y.
    let y = sonic_share(1.0);
    close("Psi(y)/y", orifice_flow(y) / y, 0.6847, 5e-5);
}

#[test]
fn limit_each_alone_when_the_other_is_wide() {
    for z in [0.05_f64, 0.3, 0.6, 0.9, 0.999] {
        // Wide holes are none: the nozzle sees the pressure above. What is left of them falls with the square of the areas.
        close("wide holes", share(1e-9, z), 1.0, 1e-15);
        close("wide holes", share(1e-3, z), 1.0, 1e-6);
        // A wide nozzle is none: the pressure below is the ambient one while it can carry the flow.
        close_share("wide nozzle", share(1e7, z), z, 2e-12);
        close_share("wide nozzle", share(1e3, z), z, 2e-5 / z / z);
    }
    close("sonic, wide holes", sonic_share(1e-9), 1.0, 1e-15);
    // Far narrower holes are sonic, and the pressure below goes like the areas.
    close_share("sonic, narrow holes", sonic_share(50.0), 0.02, 1e-14);
}

#[test]
fn limit_nothing_flows_against_the_ambient_pressure() {
    for z in [1.0, 1.5, f64::NAN, f64::INFINITY] {
        assert_eq!(share(2.0, z), 1.0);
    }
    // Just above it, shares stay between, and nothing jumps.
    for excess in [1e-3, 1e-6, 1e-9, 1e-12] {
        // Slow gas is like a liquid: dp goes like 1/A^2, so the holes of half the area take four fifths.
        close_share("as a liquid", (1.0 - share(2.0, 1.0 - excess)) / excess, 0.8, 2.0 * excess + 1e-15 / excess);
    }
}

#[test]
fn limit_the_three_regimes_join() {
    for k in [0.3, 0.9, 1.0, 1.5, 1.892, 1.893, 3.0, 20.0] {
        // Where the nozzle becomes sonic, and where the holes do.
        let sonic = sonic_share(k);
        let at = CRITICAL_RATIO * sonic;
        close_share("nozzle", share(k, at * (1.0 + 1e-13)), sonic, 1e-6);
        let mut before = share(k, 0.999_999);
        for step in 1..2000 {
            let y = share(k, 1.0 - f64::from(step) / 2000.0);
            assert!(y <= before + 1e-15 && before - y < 0.03, "{k} {step}: {y} {before}");
            before = y;
        }
    }
}

#[test]
fn closed_form_the_slope_of_the_passage_is_that_of_its_logarithm() {
    for k in [0.2, 1.0, 4.0, 30.0] {
        let throttle = Throttle::new(1.0, k);
        for e in [0.84, 0.9, 0.97, 0.999] {
            let step = 1e-6;
            let rise = (throttle.passage(e + step).0 / throttle.passage(e - step).0).ln() / (2.0 * step);
            close("(dz/de)/z", throttle.passage(e).1, rise, 1e-4 * (1.0 + rise.abs()));
        }
    }
}

proptest! {
    #[test]
    fn closed_form_a_bracketing_finds_the_same_pressure(ln_k in -5.0..7.0f64, z in 0.001..0.999f64) {
        let k = ln_k.exp();
        let (ours, theirs) = (share(k, z), by_halving(k, z));
        // Where the holes take next to nothing, 1 - y, the bracketing loses the digits of that.
        prop_assert!((ours / theirs - 1.0).abs() < 1e-10, "{ours} {theirs}");
    }

    #[test]
    fn conserved_the_same_mass_passes_both(ln_k in -7.0..7.0f64, z in 0.001..0.9999f64) {
        let k = ln_k.exp();
        let y = share(k, z);
        prop_assert!(y > z && y <= 1.0, "{y}");
        // Where one of the two takes next to nothing, the last digit of y counts for much of its flow.
        let rounding = 3e-15 / (1.0 - y).max(1e-16) + 3e-15 / (1.0 - z / y).max(1e-16);
        let (holes, nozzle) = (orifice_flow(y), k * y * orifice_flow(z / y));
        prop_assert!((holes - nozzle).abs() <= (1e-13 + rounding) * nozzle, "{holes} {nozzle} {y}");
    }

    #[test]
    fn property_narrower_holes_leave_less(ln_k in -6.0..6.0f64, z in 0.01..0.99f64, more in 1.0..3.0f64) {
        let k = ln_k.exp();
        prop_assert!(share(k, z) >= share(k * more, z) * (1.0 - 1e-15));
        prop_assert!(sonic_share(k) >= sonic_share(k * more));
        // And less comes out of the nozzle.
        let out = |k: f64| { let y = share(k, z); y * orifice_flow(z / y) };
        prop_assert!(out(k) >= out(k * more) * (1.0 - 1e-12) );
    }

    #[test]
    fn property_nothing_absurd_is_outside(x in prop::num::f64::ANY, y in prop::num::f64::ANY, z in prop::num::f64::ANY) {
        for over in [z, 1.0 + z.abs().fract(), 1.0 / z.abs().fract()] {
            let throttle = Throttle::new(x, y);
            for share in [throttle.share(over), throttle.sonic_share] {
                prop_assert!((0.0..=1.0).contains(&share), "{share}");
            }
        }
    }
}
