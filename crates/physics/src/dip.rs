//! How deep water must stand over a nozzle so that it draws no gas.

use crate::real::pow;

/// Depth below which gas breaks through to a nozzle that draws water, m.
///
/// # Equation
/// h = 0.69 (Q^2/a)^(1/5)
///
/// # Symbols
/// Q volume flow, m3/s; a acceleration, m/s2.
///
/// # Range
/// A wide, still pool over a central round hole; nought without flow, unbounded for a <= 0 (the caller limits it).
///
/// # Source
/// Lubin and Springer 1967 (`lubin1967`); the constant from memory.
///
/// # Example
/// ```
/// let depth = holdwater_physics::dip::depth(2.5e-3, 100.0);
/// assert!((depth - 0.69 * (6.25e-8_f64).powf(0.2)).abs() < 1e-12);
/// ```
#[must_use]
pub fn depth(flow: f64, acceleration: f64) -> f64 {
    if acceleration <= 0.0 {
        return f64::INFINITY;
    }
    0.69 * pow(flow * flow / acceleration, 0.2)
}
