//! Whether surface tension holds water over a hole.

use super::held;

/// Bond number at which water over a single sharp-edged hole gives way: the square of the first zero of J1, 3.831706.
///
/// The water above a single hole cannot change its volume, so the surface has to tilt: one side down, the other up.
///
/// Source: Maxwell 1911 (`maxwell1911`), who compares it with an experiment of Duprez; both from memory.
pub const ONE_HOLE_LIMIT: f64 = 14.681_970_642_123_895;

/// Bond number at which water over one of several holes gives way: the square of the first zero of J0, 2.404826.
///
/// One hole can take what another gives, so the surface may bulge as a whole, which needs less.
///
/// Source: the same theory with the pressure instead of the volume held (`maxwell1911`), from memory.
pub const SEVERAL_HOLES_LIMIT: f64 = 5.783_185_962_946_783;

/// The ideal limit of the Bond number for a number of holes: [`ONE_HOLE_LIMIT`] or [`SEVERAL_HOLES_LIMIT`].
#[must_use]
pub fn limit(holes: u32) -> f64 {
    if holes > 1 { SEVERAL_HOLES_LIMIT } else { ONE_HOLE_LIMIT }
}

/// Bond number of a hole, on its radius.
///
/// # Equation
/// Bo = rho a (d/2)^2/sigma
///
/// # Symbols
/// rho density of water, kg/m3; a deceleration that the water feels, m/s2; d diameter of the hole, m; sigma surface tension, N/m.
///
/// # Range
/// Any; with a = drag over mass towards the nose, negative values press the water into the seat and hold.
///
/// # Source
/// Definition; limits by Maxwell 1911 (`maxwell1911`).
///
/// # Example
/// ```
/// // Water of 20 C at 1 g: a hole of 20.89 mm is at the limit.
/// let bond = holdwater_physics::restrictor::hold::bond(998.2, 9.80665, 0.020_890_1, 0.07274);
/// assert!((bond - 14.682).abs() < 1e-3);
/// ```
#[must_use]
pub fn bond(density: f64, deceleration: f64, hole_m: f64, surface_tension: f64) -> f64 {
    let bond = 0.25 * density * deceleration * hole_m * hole_m / surface_tension;
    // Nought times nought, or no surface tension: what cannot be said to hold leaks.
    if bond.is_nan() { f64::INFINITY } else { bond }
}

/// Share of a hole's leak that flows, between holding and leaking.
///
/// # Equation
/// 0 for x <= k, 1 for x >= 1, else q^2 (3 - 2 q) with q = (x - k)/(1 - k)
///
/// # Symbols
/// x Bond number over its ideal limit; k share of the limit that is trusted (vibration, tilt and rough edges lower it).
///
/// # Range
/// Any; k is held between 0 and 1, and k = 1 is a step at x = 1.
///
/// # Source
/// A choice: smooth, so that answers do not jump where nobody knows better; between k and 1 nothing was measured.
///
/// # Example
/// ```
/// assert_eq!(holdwater_physics::restrictor::open_share(0.75, 0.5), 0.5);
/// ```
#[must_use]
pub fn open_share(bond_over_limit: f64, trusted_share: f64) -> f64 {
    match verdict(bond_over_limit, trusted_share) {
        Verdict::Holds => 0.0,
        Verdict::Leaks => 1.0,
        Verdict::Marginal => {
            let trusted = trusted(trusted_share);
            let q = ((bond_over_limit - trusted) / (1.0 - trusted)).min(1.0);
            q * q * (3.0 - 2.0 * q)
        }
    }
}

/// The trusted share, between 0 and 1; 0 for what is not a number.
pub(super) fn trusted(share: f64) -> f64 {
    held(share, 0.0, 1.0)
}

/// Diameter of the widest hole that holds, m; infinite where nothing pulls the water towards the nose.
///
/// # Equation
/// d = 2 sqrt(limit k sigma/(rho a))
///
/// # Symbols
/// As [`bond`]; k share of the limit that is trusted.
///
/// # Range
/// a > 0.
///
/// # Source
/// [`bond`] solved for d (`maxwell1911`).
///
/// # Example
/// ```
/// use holdwater_physics::restrictor::hold::{ONE_HOLE_LIMIT, widest_hole_that_holds};
/// let d = widest_hole_that_holds(ONE_HOLE_LIMIT, 1.0, 998.2, 9.80665, 0.07274);
/// assert!((d - 0.020_890_1).abs() < 1e-7);
/// ```
#[must_use]
pub fn widest_hole_that_holds(
    limit: f64,
    trusted_share: f64,
    density: f64,
    deceleration: f64,
    surface_tension: f64,
) -> f64 {
    let weight = density * deceleration;
    if weight > 0.0 {
        2.0 * (limit * trusted(trusted_share) * surface_tension / weight).max(0.0).sqrt()
    } else {
        f64::INFINITY
    }
}

/// What a hole does under the water on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// It holds, with the margin asked for.
    Holds,
    /// Below the ideal limit, but above the trusted share of it.
    Marginal,
    /// It leaks.
    Leaks,
}

/// What a hole does, by its Bond number over the ideal limit; not a number leaks.
#[must_use]
pub fn verdict(bond_over_limit: f64, trusted_share: f64) -> Verdict {
    if bond_over_limit < 1.0 {
        if bond_over_limit <= trusted(trusted_share) { Verdict::Holds } else { Verdict::Marginal }
    } else {
        Verdict::Leaks
    }
}
