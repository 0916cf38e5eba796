//! What to try on a bench, and what a small tube can and cannot show.

#![allow(clippy::disallowed_methods, reason = "expected values come from other functions than the crate's own")]
#![allow(clippy::float_cmp, reason = "limits are met exactly")]
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a panic is how a test fails")]

mod common;

use common::{close, close_share};
use holdwater_physics::constants::GRAVITY;
use holdwater_physics::restrictor::bench::{Bottle, expectation, hole};
use holdwater_physics::restrictor::hold::{Verdict, bond};
use holdwater_physics::restrictor::leak::emptying_time;
use holdwater_physics::restrictor::similarity::{Case, fair_test};
use holdwater_physics::water::Water;
use proptest::prelude::*;

const WATER: Water = Water { density: 998.2, surface_tension: 0.072_74, viscosity: 1.0016e-3 };

#[test]
fn published_a_bottle_over_a_sink_empties_in_the_time_of_clanet_and_searby() {
    // J. Fluid Mech. 510, from memory: 0.2 m of water, bore 80 mm. Surface tension slows a hole of 40 mm by less than a percent.
    let bottle = Bottle { bore_m: 0.08, water_m: 0.2 };
    for millimetres in [40.0, 60.0, 80.0] {
        let d = 1e-3 * millimetres;
        let found = expectation(&bottle, 1, d, 0.5, &WATER);
        assert_eq!((found.verdict, found.fits), (Verdict::Leaks, true));
        close_share("s", found.emptying_s.unwrap(), emptying_time(0.2, 0.08, d, GRAVITY), 2e-3);
    }
}

#[test]
fn published_similarity_rows() {
    // Worked out elsewhere from the definitions; on the radius Bo = Eo/4: bore, gravities, Bo of the bore, sqrt(D/a).
    for (bore, g, bore_bond, time) in
        [(0.088, 1.0, 260.5375, 0.094_728_6), (0.088, 10.0, 2605.3753, 0.029_955_8), (0.044, 1.0, 65.1344, 0.066_983_2)]
    {
        let measures = Case::with_open_fraction(bore, 0.25, g * GRAVITY, 0.5).measures(&WATER);
        close_share("Eo", measures.eotvos_of_bore, 4.0 * bore_bond, 1e-6);
        close_share("s", measures.time_scale, time, 1e-6);
        close("share", measures.open_fraction, 0.25, 1e-15);
    }
}

#[test]
fn limit_a_bottle_that_holds_has_no_time() {
    let bottle = Bottle { bore_m: 0.08, water_m: 0.2 };
    let held = expectation(&bottle, 1, 0.014, 0.5, &WATER);
    assert_eq!((held.verdict, held.emptying_s), (Verdict::Holds, None));
    // Several holes of the same width hold less.
    assert_eq!(expectation(&bottle, 7, 0.014, 0.5, &WATER).verdict, Verdict::Leaks);
    // Between the two it leaks slowly; soap lets it go.
    let slow = expectation(&bottle, 1, 0.0165, 0.5, &WATER);
    assert_eq!(slow.verdict, Verdict::Marginal);
    let soapy = Water { surface_tension: 0.030, ..WATER };
    let fast = expectation(&bottle, 1, 0.0165, 0.5, &soapy);
    assert!(fast.verdict == Verdict::Leaks && slow.emptying_s.unwrap() > fast.emptying_s.unwrap());
    // A hole wider than the bottle cannot be tried.
    let wide = expectation(&bottle, 1, 0.09, 0.5, &WATER);
    assert_eq!((wide.fits, wide.emptying_s), (false, None));
    assert_eq!([0.0, -4.0, f64::NAN].map(|a| hole(0.02, a)), [0.0; 3]);
}

#[test]
fn limit_a_case_at_rest_keeps_its_water() {
    let rest = Case::with_open_fraction(0.1, 0.3, 0.0, 0.5).measures(&WATER);
    assert_eq!((rest.verdict, rest.leak_speed, rest.time_scale), (Verdict::Holds, 0.0, f64::INFINITY));
    assert_eq!(rest.time_to_empty(0.1), None);
    let vessel = Case::with_open_fraction(0.1, 0.3, 20.0, 0.5);
    assert_eq!(fair_test(&vessel, &Case { deceleration: 0.0, ..vessel }), None);
    assert_eq!(fair_test(&vessel, &Case { holes: 0, ..vessel }), None);
    assert_eq!(fair_test(&Case { hole_m: 0.0, ..vessel }, &vessel), None);
}

#[test]
fn closed_form_a_standing_height_leaks_away() {
    // No tension left to speak of: w = 0.262 sqrt(a d^5)/(pi D^2/4), which for one open hole is f^(5/4) sqrt(a D)/3.
    let case = Case::with_open_fraction(0.2, 0.5, 50.0, 0.5);
    let measures = case.measures(&WATER);
    close_share("m/s", measures.leak_speed, 0.5_f64.powf(1.25) * 10.0_f64.sqrt() / 3.0, 1e-3);
    close_share("s", measures.time_to_empty(0.3).unwrap(), 0.3 / measures.leak_speed, 1e-15);
}

proptest! {
    #[test]
    fn property_the_bench_hole_has_the_bond_number_of_the_flight(d in 1e-3..0.1f64, a in 0.1..400.0f64) {
        let flight = bond(WATER.density, a, d, WATER.surface_tension);
        let sink = bond(WATER.density, GRAVITY, hole(d, a), WATER.surface_tension);
        prop_assert!((sink / flight - 1.0).abs() < 1e-13);
    }

    #[test]
    fn property_a_fair_test_has_the_same_share_of_the_limit(
        bores in (0.05..0.2f64, 0.015..0.06f64), shares in (0.01..0.8f64, 0.01..0.8f64), g in (0.2..5.0f64, 0.2..5.0f64), holes in (1u32..9, 1u32..9),
    ) {
        let case = |bore: f64, share: f64, g: f64, holes: u32| Case {
            holes,
            hole_m: bore * (share / f64::from(holes)).sqrt(),
            ..Case::with_open_fraction(bore, share, g * GRAVITY, 0.5)
        };
        let vessel = case(bores.0, shares.0, g.0, holes.0);
        let tube = case(bores.1, shares.1, g.1, holes.1);
        let fair = fair_test(&vessel, &tube).unwrap();
        let wanted = vessel.measures(&WATER).bond_over_limit;
        let near = |case: Case| (case.measures(&WATER).bond_over_limit / wanted - 1.0).abs() < 1e-12;
        let with_hole = Case { hole_m: fair.hole_m, ..tube };
        let with_deceleration = Case { deceleration: fair.deceleration, ..tube };
        prop_assert!(near(with_hole) && near(with_deceleration));
        let share = |case: Case| case.measures(&WATER).open_fraction;
        prop_assert!((share(with_hole) / fair.open_fraction - 1.0).abs() < 1e-12);
        let sized = Case { bore_m: fair.bore_m, ..with_hole };
        prop_assert!((share(sized) / share(vessel) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn property_a_wider_vessel_with_the_same_share_never_holds_better(
        bore in 0.01..0.1f64, more in 1.0..5.0f64, share in 0.01..1.0f64, a in 0.1..100.0f64,
    ) {
        let small = Case::with_open_fraction(bore, share, a, 0.5).measures(&WATER);
        let large = Case::with_open_fraction(bore * more, share, a, 0.5).measures(&WATER);
        prop_assert!(small.bond_over_limit <= large.bond_over_limit && small.verdict as u8 <= large.verdict as u8);
    }

    #[test]
    fn property_nothing_absurd_gives_not_a_number(x in prop::num::f64::ANY, y in prop::num::f64::ANY, z in prop::num::f64::ANY, holes in any::<u32>()) {
        let case = Case { bore_m: x, hole_m: y, holes, deceleration: z, trusted_share: x };
        let m = case.measures(&WATER);
        for number in [m.open_fraction, m.bond_over_limit, m.eotvos_of_bore, m.time_scale, m.leak_speed] {
            prop_assert!(!number.is_nan());
        }
        prop_assert!(m.leak_speed.is_finite() && !m.time_to_empty(y).is_some_and(f64::is_nan));
        let _ = (fair_test(&case, &case), expectation(&Bottle { bore_m: x, water_m: z }, holes % 50, y, z, &WATER));
        prop_assert!(hole(x, y).is_nan() == x.is_nan() || x.is_infinite() || y.is_infinite());
    }
}
