//! Gas through holes and nozzle, one after the other.

#![allow(clippy::disallowed_methods, reason = "expected values come from other functions than the crate's own")]
#![allow(clippy::float_cmp, reason = "limits are met exactly")]

mod common;

use common::{close, close_share};
use holdwater_physics::constants::{GAMMA, GAS_CONSTANT_AIR};
use holdwater_physics::gas::{CRITICAL_RATIO, choked_flow, open_flow};
use holdwater_physics::restrictor::series::{mass_flow_function, share_below, share_between, sonic_share};
use proptest::prelude::*;

const AREA: f64 = 6e-5;

/// Mass flow of a nozzle by the functions that the bare vessel uses.
fn nozzle(pressure: f64, kelvin: f64, ambient: f64) -> f64 {
    if ambient <= CRITICAL_RATIO * pressure {
        return choked_flow(pressure, kelvin, ambient, AREA).mass_flow;
    }
    let exit = kelvin * (ambient / pressure).powf((GAMMA - 1.0) / GAMMA);
    let speed = (2.0 * GAMMA / (GAMMA - 1.0) * GAS_CONSTANT_AIR * (kelvin - exit)).sqrt();
    open_flow(speed, exit, ambient, AREA).mass_flow
}

#[test]
fn published_the_largest_mass_flow_function() {
    // NACA Report 1135: choked flow for k = 1.4 is 0.6847 p A/sqrt(R T). From memory.
    close("Psi*", mass_flow_function(0.3), 0.6847, 5e-5);
    close("just sonic", mass_flow_function(CRITICAL_RATIO), mass_flow_function(0.0), 1e-15);
}

#[test]
fn closed_form_the_mass_flow_function_is_the_nozzle_of_the_bare_vessel() {
    for ratio in [0.2, 0.52, 0.53, 0.6, 0.8, 0.95, 0.999] {
        let psi = nozzle(8e5, 250.0, 8e5 * ratio) / (AREA * 8e5) * (GAS_CONSTANT_AIR * 250.0).sqrt();
        close_share("Psi", mass_flow_function(ratio), psi, 1e-12);
    }
}

#[test]
fn limit_each_alone_when_the_other_is_wide() {
    for z in [0.05_f64, 0.3, 0.6, 0.9, 0.999] {
        // Wide holes are none: the nozzle sees the pressure above. What is left of them falls with the square of the areas.
        close("wide holes", share_between(1.0, 1e-9, z), 1.0, 1e-15);
        close("wide holes", share_between(1.0, 1e-3, z), 1.0, 1e-6);
        // A wide nozzle is none: the pressure below is the ambient one while it can carry the flow.
        close_share("wide nozzle", share_between(1.0, 1e7, z), z, 1e-12);
        close_share("wide nozzle", share_between(1.0, 1e3, z), z, 2e-5 / z / z);
    }
    close("sonic, wide holes", sonic_share(1.0, 1e-9), 1.0, 1e-15);
    // Far narrower holes are sonic, and the pressure below goes like the areas.
    close_share("sonic, narrow holes", sonic_share(1.0, 50.0), 0.02, 1e-14);
}

#[test]
fn limit_nothing_flows_against_the_ambient_pressure() {
    for z in [1.0, 1.5, f64::NAN, f64::INFINITY] {
        assert_eq!([share_between(1.0, 2.0, z), share_below(1.0, 2.0, z)], [1.0; 2]);
    }
    // Just above it, shares stay between, and nothing jumps.
    for excess in [1e-3, 1e-6, 1e-9, 1e-12] {
        let y = share_between(1.0, 2.0, 1.0 - excess);
        // Slow gas is like a liquid: dp goes like 1/A^2, so the holes of half the area take four fifths.
        close_share("as a liquid", (1.0 - y) / excess, 0.8, 2.0 * excess + 1e-15 / excess);
    }
}

#[test]
fn limit_the_three_regimes_join() {
    for k in [0.3, 0.9, 1.0, 1.5, 1.892, 1.893, 3.0, 20.0] {
        // Where the nozzle becomes sonic, and where the holes do.
        let sonic = sonic_share(1.0, k);
        let at = CRITICAL_RATIO * sonic;
        close_share("nozzle", share_between(1.0, k, at * (1.0 + 1e-13)), sonic, 1e-6);
        let mut before = share_between(1.0, k, 0.999_999);
        for step in 1..2000 {
            let y = share_between(1.0, k, 1.0 - f64::from(step) / 2000.0);
            assert!(y <= before + 1e-15 && before - y < 0.03, "{k} {step}: {y} {before}");
            before = y;
        }
    }
}

proptest! {
    #[test]
    fn conserved_the_same_mass_passes_both(ln_k in -7.0..7.0f64, z in 0.001..0.9999f64) {
        let k = ln_k.exp();
        let y = share_between(1.0, k, z);
        prop_assert!(y > z && y <= 1.0, "{y}");
        // Where the holes are much wider than the nozzle y is nearly 1 and its last digit counts for much of their flow.
        let rounding = 1e-15 / (1.0 - y).max(1e-16) + 1e-15 / (1.0 - z / y).max(1e-16);
        let (holes, nozzle) = (mass_flow_function(y), k * y * mass_flow_function(z / y));
        prop_assert!((holes - nozzle).abs() <= (1e-13 + rounding) * nozzle, "{holes} {nozzle} {y}");
    }

    #[test]
    fn conserved_the_same_mass_passes_both_from_the_nozzle_side(ln_k in -3.0..7.0f64, r in 0.0..0.9999f64) {
        let k = ln_k.exp();
        let y = share_below(1.0, k, r);
        let (holes, nozzle) = (mass_flow_function(y), k * y * mass_flow_function(r));
        prop_assert!((holes - nozzle).abs() <= (1e-13 + 1e-15 / (1.0 - y)) * nozzle, "{holes} {nozzle} {y}");
        // And both solvers are one.
        prop_assert!((share_between(1.0, k, r * y) / y - 1.0).abs() < 1e-13);
    }

    #[test]
    fn property_narrower_holes_leave_less(ln_k in -6.0..6.0f64, z in 0.01..0.99f64, more in 1.0..3.0f64) {
        let k = ln_k.exp();
        prop_assert!(share_between(1.0, k, z) >= share_between(1.0, k * more, z) * (1.0 - 1e-15));
        prop_assert!(sonic_share(1.0, k) >= sonic_share(1.0, k * more));
        // And less comes out of the nozzle.
        let out = |k: f64| { let y = share_between(1.0, k, z); y * mass_flow_function(z / y) };
        prop_assert!(out(k) >= out(k * more) * (1.0 - 1e-12) );
    }

    #[test]
    fn property_nothing_absurd_is_outside(x in prop::num::f64::ANY, y in prop::num::f64::ANY, z in prop::num::f64::ANY) {
        for z in [z, z.abs().fract()] {
            for share in [share_between(x, y, z), share_below(x, y, z), sonic_share(x, y)] {
                prop_assert!((0.0..=1.0).contains(&share), "{share}");
            }
            prop_assert!((0.0..0.69).contains(&mass_flow_function(z)));
        }
    }
}
