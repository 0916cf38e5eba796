//! The water's surface when the vessel slows: when it is stable, and how fast a ripple grows.

use crate::real::tanh;

/// First zero of J1', the first antisymmetric mode of a surface free to slide at the wall.
pub const FIRST_MODE: f64 = 1.841_183_781_340_659_3;

/// Bond number below which a surface free to slide at the wall of a bare vessel holds: FIRST_MODE^2.
pub const BARE_LIMIT: f64 = 3.389_957_716_671_889;

/// Bond number on the radius.
///
/// # Equation
/// Bo = rho a R^2/sigma
///
/// # Symbols
/// rho density, kg/m3; a acceleration, m/s2; R radius, m; sigma surface tension, N/m.
///
/// # Range
/// Any.
///
/// # Source
/// Definition.
///
/// # Example
/// ```
/// let bond = holdwater_physics::interface::bond(998.2, 9.80665, 0.044, 0.07274);
/// assert!((bond - 260.5375).abs() < 1e-3);
/// ```
#[must_use]
pub fn bond(density: f64, acceleration: f64, radius_m: f64, surface_tension: f64) -> f64 {
    density * acceleration * radius_m * radius_m / surface_tension
}

/// Growth rate of the first ripple of a column hanging in a round vessel, 1/s.
///
/// # Equation
/// n^2 = (k a - sigma k^3/rho) tanh(k h), k = 1.841184/R; nought where n^2 is negative (the surface holds).
///
/// # Symbols
/// a acceleration towards the gas, m/s2; h depth of the column, m; R radius of the vessel, m; sigma, rho as usual.
///
/// # Range
/// Small ripples (a fraction of the radius); gas density neglected (1 % at 8 bar).
///
/// # Source
/// Rayleigh-Taylor instability with surface tension, e.g. Chandrasekhar 1961, ch. X (`chandrasekhar1961`); the mode of a
/// round vessel with a free edge from the zero of J1'.
///
/// # Example
/// ```
/// let n = holdwater_physics::interface::growth_rate(9.80665, 1.0, 0.045, 0.07274, 998.2);
/// // The gas above, left out here, would take 0.12 % off.
/// assert!((n - 19.8820 * 1.0012).abs() < 0.001);
/// ```
#[must_use]
pub fn growth_rate(acceleration: f64, depth_m: f64, radius_m: f64, surface_tension: f64, density: f64) -> f64 {
    let k = FIRST_MODE / radius_m;
    growth_rate_at(k, tanh(k * depth_m), acceleration, surface_tension / density)
}

/// [`growth_rate`] with its constants ready: k, tanh(k h), and sigma/rho. The coast asks for it thousands of times.
#[must_use]
pub fn growth_rate_at(k: f64, depth_factor: f64, acceleration: f64, tension_per_density: f64) -> f64 {
    let square = k * (acceleration - tension_per_density * k * k) * depth_factor;
    if square > 0.0 { square.sqrt() } else { 0.0 }
}
