//! Whether surface tension holds water over a hole.

#![allow(clippy::disallowed_methods, reason = "expected values come from other functions than the crate's own")]
#![allow(clippy::float_cmp, reason = "limits are met exactly")]

mod common;

use common::{close, close_share};
use holdwater_physics::constants::GRAVITY;
use holdwater_physics::restrictor::hold::{
    ONE_HOLE_LIMIT, SEVERAL_HOLES_LIMIT, Verdict, bond, limit, open_share, verdict, widest_hole_that_holds,
};
use holdwater_physics::restrictor::similarity::Case;
use holdwater_physics::water::Water;
use proptest::prelude::*;

const WATER: Water = Water { density: 998.2, surface_tension: 0.072_74, viscosity: 1.0016e-3 };

/// Bessel function of the first kind by its power series: 30 terms are more than enough for x < 6.
fn bessel(order: u32, x: f64) -> f64 {
    let mut term = (1..=order).fold(1.0, |term, k| term * 0.5 * x / f64::from(k));
    let mut sum = term;
    for k in 1..30 {
        term *= -0.25 * x * x / (f64::from(k) * f64::from(k + order));
        sum += term;
    }
    sum
}

/// First zero above a start, by halving.
fn first_zero(order: u32, mut low: f64, mut high: f64) -> f64 {
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if bessel(order, low) * bessel(order, middle) > 0.0 { low = middle } else { high = middle }
    }
    low
}

fn widest(limit: f64, deceleration: f64) -> f64 {
    widest_hole_that_holds(limit, 1.0, WATER.density, deceleration, WATER.surface_tension)
}

#[test]
fn published_the_limits_are_squares_of_zeros_of_bessel_functions() {
    // Abramowitz and Stegun 1964, table 9.5: j(0,1) = 2.40482 55577, j(1,1) = 3.83170 59702. From memory.
    close("J0", first_zero(0, 1.0, 3.0), 2.404_825_557_7, 5e-11);
    close("J1", first_zero(1, 3.0, 5.0), 3.831_705_970_2, 5e-11);
    close_share("one hole", ONE_HOLE_LIMIT, first_zero(1, 3.0, 5.0).powi(2), 1e-14);
    close_share("several", SEVERAL_HOLES_LIMIT, first_zero(0, 1.0, 3.0).powi(2), 1e-14);
    assert_eq!([0, 1, 2, 2000].map(limit), [ONE_HOLE_LIMIT, ONE_HOLE_LIMIT, SEVERAL_HOLES_LIMIT, SEVERAL_HOLES_LIMIT]);
}

#[test]
fn published_the_widest_hole_at_one_gravity() {
    // Theory at 20 C: 2 x 3.831706 sqrt(sigma/(rho g)) = 20.89 mm; worked out elsewhere to six digits.
    close("theory", widest(ONE_HOLE_LIMIT, GRAVITY), 20.8901e-3, 5e-8);
    close("several", widest(SEVERAL_HOLES_LIMIT, GRAVITY), 13.1109e-3, 5e-8);
    // Duprez, as reported by Maxwell (Capillary Action): the widest tube that held water was about 19.85 mm. From memory.
    // An experiment stays below the ideal, here by 5 %, which is 10 % of the Bond number.
    let experiment = 19.85e-3;
    assert!(experiment < widest(ONE_HOLE_LIMIT, GRAVITY));
    close_share("experiment", experiment, widest(ONE_HOLE_LIMIT, GRAVITY), 0.055);
    let x = bond(WATER.density, GRAVITY, experiment, WATER.surface_tension) / ONE_HOLE_LIMIT;
    close("share of the limit reached", x, 0.903, 5e-4);
}

#[test]
fn published_vertical_tubes_drain_where_the_trusted_half_says_so() {
    // Extrand 2017, Langmuir 33, 12903, abstract (read): tubes open at the bottom keep water up to a bore of 10 to 15 mm,
    // by material. Half the limit, the default, ends at the upper end of it.
    let d = widest_hole_that_holds(ONE_HOLE_LIMIT, 0.5, WATER.density, GRAVITY, WATER.surface_tension);
    close("half of the limit", d, 14.77e-3, 5e-6);
    assert!((10e-3..=15e-3).contains(&d));
}

#[test]
fn published_common_practice_a_small_tube_is_no_test_of_a_large_vessel() {
    // Plates of 22 % and 45 % of a 26 mm tube; common practice, no source. Coasting at 1.5 g the narrower is marginal and the wider leaks.
    let verdict = |bore, share, g: f64, trusted| {
        Case::with_open_fraction(bore, share, g * GRAVITY, trusted).measures(&WATER).verdict
    };
    assert_eq!(verdict(0.026, 0.22, 1.5, 0.5), Verdict::Marginal);
    assert_eq!(verdict(0.026, 0.22, 1.5, 0.6), Verdict::Holds);
    assert_eq!(verdict(0.026, 0.45, 1.5, 0.5), Verdict::Leaks);
    // The same shares of a 105 mm vessel are holes of 49 and 70 mm.
    for share in [0.22, 0.45] {
        assert_eq!(verdict(0.105, share, 2.0, 1.0), Verdict::Leaks);
    }
}

#[test]
fn closed_form_the_widest_hole_goes_like_one_over_the_root_of_the_deceleration() {
    // Worked out elsewhere to six digits, mm.
    for (gravities, millimetres) in [(1.0, 20.8901), (2.0, 14.7715), (10.0, 6.6060), (20.0, 4.6712)] {
        close("mm", widest(ONE_HOLE_LIMIT, gravities * GRAVITY) * 1e3, millimetres, 5e-5);
    }
}

#[test]
fn limit_no_deceleration_holds_anything() {
    for deceleration in [0.0, -0.0, -5.0, f64::NAN, f64::NEG_INFINITY] {
        assert_eq!(widest(ONE_HOLE_LIMIT, deceleration), f64::INFINITY);
    }
    assert_eq!(verdict(bond(998.2, 0.0, 0.1, 0.07) / ONE_HOLE_LIMIT, 0.5), Verdict::Holds);
    assert_eq!(verdict(bond(998.2, -30.0, 0.1, 0.07) / ONE_HOLE_LIMIT, 0.0), Verdict::Holds);
}

#[test]
fn limit_full_trust_is_a_step() {
    assert_eq!([0.0, 0.999_999, 1.0, 1.1].map(|x| open_share(x, 1.0)), [0.0, 0.0, 1.0, 1.0]);
    // No trust: the smoothstep starts at nought.
    close("half", open_share(0.5, 0.0), 0.5, 0.0);
    assert_eq!(verdict(1.0, 1.0), Verdict::Leaks);
    // Nothing that is not a number holds.
    assert_eq!(verdict(f64::NAN, 0.5), Verdict::Leaks);
    assert_eq!(bond(0.0, 1.0, 1.0, 0.0), f64::INFINITY);
}

proptest! {
    #[test]
    fn property_a_wider_hole_never_holds_better(
        d in 1e-4..0.2f64, more in 1.0..3.0f64, a in 0.01..400.0f64, k in 0.0..=1.0f64, holes in 1u32..30,
    ) {
        let x = |d: f64| bond(WATER.density, a, d, WATER.surface_tension) / limit(holes);
        prop_assert!(open_share(x(d), k) <= open_share(x(d * more), k));
        prop_assert!(verdict(x(d), k) as u8 <= verdict(x(d * more), k) as u8);
        // Nor does it with more trust.
        prop_assert!(open_share(x(d), k) >= open_share(x(d), (k * more).min(1.0)));
        // Several holes hold less than one.
        prop_assert!(open_share(x(d), k) >= open_share(x(d) * limit(holes) / limit(1), k));
    }

    #[test]
    fn property_the_widest_hole_that_holds_is_just_that(a in 0.01..400.0f64, k in 0.01..0.99f64, holes in 1u32..4) {
        let d = widest_hole_that_holds(limit(holes), k, WATER.density, a, WATER.surface_tension);
        let x = |d: f64| bond(WATER.density, a, d, WATER.surface_tension) / limit(holes);
        prop_assert_eq!(verdict(x(d * (1.0 - 1e-12)), k), Verdict::Holds);
        prop_assert_eq!(verdict(x(d * (1.0 + 1e-12)), k), Verdict::Marginal);
    }

    #[test]
    fn property_the_open_share_is_smooth_and_between_nought_and_one(x in -2.0..3.0f64, k in 0.0..0.999f64) {
        let step = 1e-6 * (1.0 - k);
        let (low, high) = (open_share(x, k), open_share(x + step, k));
        prop_assert!((0.0..=1.0).contains(&low));
        // The steepest slope of a smoothstep is 1.5.
        prop_assert!((0.0..=1.6e-6).contains(&(high - low)), "{low} {high}");
    }

    #[test]
    fn property_nothing_absurd_gives_not_a_number(x in prop::num::f64::ANY, y in prop::num::f64::ANY, z in prop::num::f64::ANY, u in prop::num::f64::ANY) {
        prop_assert!((0.0..=1.0).contains(&open_share(x, y)));
        prop_assert!(!bond(x, y, z, u).is_nan());
        prop_assert!(!widest_hole_that_holds(ONE_HOLE_LIMIT, x, y, z, u).is_nan());
    }
}
