//! What a passed proof test supports.

use super::{MOST_CYCLES, held};
use crate::age::fatigue::equivalent_cycles;
use crate::real::pow;

/// Proof pressure over working pressure: common practice, no source.
pub const PROOF_FACTOR: f64 = 1.5;

/// Lives by which a calculated life is divided, because parts of one strength differ in life: common practice, no source.
pub const SCATTER_FACTOR: f64 = 4.0;

/// What one passed proof test says about the fills after it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Supported {
    /// Fills at the working pressure that it supports: an estimate, not a promise.
    pub cycles: f64,
    /// Fills at the working pressure that the test itself costs in life.
    pub cost: f64,
}

/// Fills that a passed proof test supports.
///
/// # Equation
/// n = (P/p)^m / k, cost (P/p)^m
///
/// # Symbols
/// P proof pressure, p working pressure (gauge, same unit), m slope of the S-N line, k scatter factor.
///
/// # Range
/// P above p, otherwise it supports nothing; m from 0 to 50; k at least 1; at most 1e12. An estimate: a part that did not burst at P
/// has a strength of P at least, and is then taken to live as long as a part of just that strength. Miner's rule charges the test with
/// (P/p)^m fills, so a part that only just passed has nothing left: the number holds for parts well above P.
///
/// # Source
/// The argument that the order of strengths is the order of lives: Hahn and Kim 1975 (`hahn1975`), from memory. Slope of plastics and
/// scatter factor are assumptions.
///
/// # Example
/// ```
/// let supported = holdwater_physics::age::proof::supported(15e5, 10e5, 8.0, 4.0);
/// assert!((supported.cycles - 6.4072).abs() < 1e-4);
/// assert!((supported.cost - 25.6289).abs() < 1e-4);
/// ```
#[must_use]
pub fn supported(proof: f64, working: f64, slope: f64, scatter: f64) -> Supported {
    let cost = if working > 0.0 { equivalent_cycles(1.0, proof, working, slope) } else { 0.0 };
    let cycles = if proof > working { cost / scatter.clamp(1.0, MOST_CYCLES) } else { 0.0 };
    // A scatter that is not a number passes through `clamp`; then nothing is supported.
    Supported { cycles: held(cycles), cost }
}

/// Proof pressure over working pressure that would support some fills.
///
/// # Equation
/// P/p = (n k)^(1/m)
///
/// # Symbols
/// n fills, k scatter factor, m slope of the S-N line.
///
/// # Range
/// `None` without a slope of at least 1, a scatter factor of at least 1 or a number of fills above nought; at least 1.
///
/// # Source
/// [`supported`] the other way round.
///
/// # Example
/// ```
/// let factor = holdwater_physics::age::proof::factor_for(20.0, 8.0, 4.0).unwrap();
/// assert!((factor - 80.0_f64.powf(0.125)).abs() < 1e-12);
/// ```
#[must_use]
pub fn factor_for(fills: f64, slope: f64, scatter: f64) -> Option<f64> {
    let usable = held(fills) > 0.0 && (1.0..=50.0).contains(&slope) && (1.0..=MOST_CYCLES).contains(&scatter);
    usable.then(|| pow((held(fills) * scatter).max(1.0), 1.0 / slope))
}
