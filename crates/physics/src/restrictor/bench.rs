//! What to try with a bottle over a sink, to learn what a hole does in flight.

use super::hold::Verdict;
use super::leak::Leak;
use super::{hold, holes};
use crate::constants::GRAVITY;
use crate::rocket::circle_area;
use crate::water::Water;

/// Diameter of the hole that does on the bench what a hole does in flight, m.
///
/// # Equation
/// d sqrt(a/g)
///
/// # Symbols
/// d hole in flight, m; a deceleration that the water feels there, m/s2; g standard gravity.
///
/// # Range
/// The same water; nought for a <= 0.
///
/// # Source
/// Equal Bond number ([`super::hold::bond`], `maxwell1911`).
///
/// # Example
/// ```
/// let hole = holdwater_physics::restrictor::bench::hole(0.01, 4.0 * 9.80665);
/// assert!((hole - 0.02).abs() < 1e-15);
/// ```
#[must_use]
pub fn hole(hole_m: f64, deceleration: f64) -> f64 {
    hole_m * (deceleration.max(0.0) / GRAVITY).sqrt()
}

/// A bottle that the user has, full of water up to a length, upside down over a sink.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bottle {
    /// Inner diameter, m.
    pub bore_m: f64,
    /// Length of the water in it, m.
    pub water_m: f64,
}

/// What a bottle over a sink is expected to do.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Expectation {
    /// Whether the holes hold at 1 g.
    pub verdict: Verdict,
    /// Whether the holes find room in the bottle.
    pub fits: bool,
    /// Time until the bottle is empty, s; `None` if it holds or the holes do not fit.
    pub emptying_s: Option<f64>,
}

/// What a plate with equal holes below a closed bottle does at 1 g, with air of one atmosphere.
///
/// # Equation
/// T = (pi/4) D^2 L/Q, Q the leak of [`Leak::rate`] at 1 g
///
/// # Symbols
/// D bore of the bottle, m; L length of the water, m; T time, s.
///
/// # Range
/// A stiff bottle, closed at the top, held upright and still; a thin plate with sharp edges.
///
/// # Source
/// Clanet and Searby 2004 (`clanet2004`) with the factors of [`Leak`].
///
/// # Example
/// ```
/// use holdwater_physics::restrictor::bench::{Bottle, expectation};
/// use holdwater_physics::{restrictor::Verdict, water::Water};
/// let water = Water::at(293.15, None);
/// let bottle = Bottle { bore_m: 0.08, water_m: 0.2 };
/// let open = expectation(&bottle, 1, 0.03, 0.5, &water);
/// assert!(open.emptying_s.is_some_and(|time| (time - 7.87).abs() < 0.1));
/// assert_eq!(expectation(&bottle, 1, 0.01, 0.5, &water).verdict, Verdict::Holds);
/// ```
#[must_use]
pub fn expectation(bottle: &Bottle, holes: u32, hole_m: f64, trusted_share: f64, water: &Water) -> Expectation {
    // At one atmosphere the factor of dense gas is one, whatever the density.
    let leak = Leak::new(holes, hole_m, trusted_share, water, 1.0, 1.0);
    let fits = holes::fits(holes, hole_m, bottle.bore_m, 0.0);
    let rate = leak.rate(GRAVITY);
    let time = circle_area(bottle.bore_m) * bottle.water_m / rate;
    Expectation {
        verdict: hold::verdict(leak.bond_over_limit(GRAVITY), trusted_share),
        fits,
        emptying_s: (fits && rate > 0.0 && time.is_finite()).then_some(time),
    }
}
