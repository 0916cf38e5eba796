//! Cycles at one pressure in terms of cycles at another, and the life of 6061-T6.

use super::{MOST_CYCLES, held};
use crate::real::{exp, ln};

/// One thousand pounds-force per square inch, Pa.
const KSI: f64 = 6.894_757_293_168_361e6;

/// Slope of the S-N line of 6061-T6, from memory of MIL-HDBK-5: see [`life_of_6061_t6`].
pub const SLOPE_6061_T6: f64 = 9.84;

/// Slope assumed for plastics.
///
/// An assumption, without source: no published S-N line of a drink bottle or of polycarbonate tube was found.
pub const SLOPE_OF_PLASTIC: f64 = 8.0;

/// Slopes between which that of a plastic part is taken to lie; an assumption like [`SLOPE_OF_PLASTIC`].
pub const SLOPES_OF_PLASTIC: [f64; 2] = [5.0, 12.0];

/// Greatest slope that is used.
const MOST_SLOPE: f64 = 50.0;

/// ratio^slope, held inside the cycles this module knows; nought for a ratio that is not above nought.
fn raised(ratio: f64, slope: f64) -> f64 {
    if ratio > 0.0 { exp((slope.clamp(0.0, MOST_SLOPE) * ln(ratio)).min(ln(MOST_CYCLES))) } else { 0.0 }
}

/// Cycles to failure by Basquin's law, from the stress that one cycle would take to break the part.
///
/// # Equation
/// N = (Sf/S)^m, m = -1/b
///
/// # Symbols
/// Sf stress at which the first cycle breaks the part, S greatest stress of each cycle (any unit, both the same; pressures do as well),
/// m slope, b Basquin's exponent.
///
/// # Range
/// Slopes from 0 to 50; at most 1e12 cycles. Stresses above nought, otherwise 1e12 (no stress) or nought (no strength).
///
/// # Source
/// Basquin 1910 (`basquin1910`), from memory.
///
/// # Example
/// ```
/// let cycles = holdwater_physics::age::fatigue::basquin_cycles(20.0, 10.0, 8.0);
/// assert!((cycles - 256.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn basquin_cycles(strength: f64, stress: f64, slope: f64) -> f64 {
    if stress > 0.0 { raised(strength / stress, finite(slope)) } else { MOST_CYCLES }
}

/// Cycles at a reference pressure that do the damage of some cycles at another pressure.
///
/// # Equation
/// n_ref = n (p/p_ref)^m
///
/// # Symbols
/// n cycles at gauge pressure p, p_ref reference gauge pressure, m slope of the S-N line.
///
/// # Range
/// Stress proportional to gauge pressure and falling back to none in every cycle. Nothing to compare with (p_ref not above nought): the
/// cycles as they are.
///
/// # Source
/// Basquin 1910 (`basquin1910`) with Miner 1945 (`miner1945`), from memory. The slope of a plastic is an assumption: the smaller one is
/// the careful choice for cycles below the reference pressure, the larger one above it.
///
/// # Example
/// ```
/// use holdwater_physics::age::fatigue::equivalent_cycles;
/// // A proof test at one and a half times the pressure counts for 26 fills.
/// assert!((equivalent_cycles(1.0, 1.5, 1.0, 8.0) - 25.6289).abs() < 1e-4);
/// assert!((equivalent_cycles(100.0, 0.5, 1.0, 8.0) - 0.390625).abs() < 1e-12);
/// ```
#[must_use]
pub fn equivalent_cycles(cycles: f64, pressure: f64, reference: f64, slope: f64) -> f64 {
    if reference > 0.0 { held(held(cycles) * raised(pressure / reference, finite(slope))) } else { held(cycles) }
}

/// What is not a number counts as no slope.
fn finite(slope: f64) -> f64 {
    slope.max(0.0)
}

/// Cycles at one gauge pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Block {
    /// How many.
    pub cycles: f64,
    /// Gauge pressure, Pa.
    pub gauge_pa: f64,
}

/// Cycles at a reference pressure that do the damage of a whole history; of two slopes the worse one for each block.
///
/// # Equation
/// sum over the blocks of n_i max((p_i/p_ref)^m1, (p_i/p_ref)^m2)
///
/// # Symbols
/// n_i cycles at gauge pressure p_i, m1 and m2 slopes between which that of the part lies (twice the same if it is known).
///
/// # Range
/// As [`equivalent_cycles`].
///
/// # Source
/// Miner 1945 (`miner1945`), from memory: damage adds, whatever the order. Known to be off by a factor of several either way.
///
/// # Example
/// ```
/// use holdwater_physics::age::fatigue::{Block, equivalent_history};
/// let history = [Block { cycles: 100.0, gauge_pa: 5e5 }, Block { cycles: 1.0, gauge_pa: 2e6 }];
/// assert!((equivalent_history(&history, 1e6, [2.0, 3.0]) - (25.0 + 8.0)).abs() < 1e-9);
/// ```
#[must_use]
pub fn equivalent_history(blocks: &[Block], reference_pa: f64, slopes: [f64; 2]) -> f64 {
    let [one, other] =
        slopes.map(|slope| move |block: &Block| equivalent_cycles(block.cycles, block.gauge_pa, reference_pa, slope));
    held(blocks.iter().map(|block| one(block).max(other(block))).sum())
}

/// Miner's sum: the share of its life that a history has used.
///
/// # Equation
/// D = sum of n_i/N_i
///
/// # Symbols
/// n_i cycles, N_i cycles to failure at the same stress.
///
/// # Range
/// Failure is expected near 1. A life that is not above nought counts as used up by its first cycle; D is held to 1e12.
///
/// # Source
/// Miner 1945 (`miner1945`), from memory.
///
/// # Example
/// ```
/// assert!((holdwater_physics::age::fatigue::miner_sum([(50.0, 100.0), (10.0, 40.0)]) - 0.75).abs() < 1e-15);
/// ```
#[must_use]
pub fn miner_sum(pairs: impl IntoIterator<Item = (f64, f64)>) -> f64 {
    let damage = |(cycles, life): (f64, f64)| {
        let cycles = held(cycles);
        if cycles <= 0.0 { 0.0 } else { cycles / held(life).max(f64::MIN_POSITIVE) }
    };
    held(pairs.into_iter().map(damage).sum())
}

/// A life read from an S-N line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LineLife {
    /// Cycles that half of the specimens reach.
    pub cycles: f64,
    /// Whether stress, stress ratio and cycles lie where the line was fitted.
    pub within: bool,
}

/// Life of smooth 6061-T6, which half of the specimens reach.
///
/// # Equation
/// log10 N = 20.68 - 9.84 log10 Seq, Seq = Smax (1 - R)^0.63
///
/// # Symbols
/// Smax greatest stress of a cycle, Pa here and ksi in the equation; R least over greatest stress (0 for a vessel that is emptied).
///
/// # Range
/// The mean line of smooth specimens in air. Taken as fitted for R from -1 to 0.5 and 1e4 to 1e8 cycles (from memory), below the least yield
/// of 241.3 MPa; `within` says so. Welds, threads, holes and scratches live far shorter. No stress: 1e12 cycles.
///
/// # Source
/// MIL-HDBK-5 (`mil_hdbk_5`), coefficients from memory; the form of Seq is Walker's (`walker1970`).
///
/// # Example
/// ```
/// let life = holdwater_physics::age::fatigue::life_of_6061_t6(200e6, 0.0);
/// assert!((life.cycles / 1.9449e6 - 1.0).abs() < 1e-4 && life.within);
/// ```
#[must_use]
pub fn life_of_6061_t6(greatest_pa: f64, ratio: f64) -> LineLife {
    // Not a number, or no pull at all: the line has nothing to say.
    if !(greatest_pa > 0.0 && ratio < 1.0) {
        return LineLife { cycles: MOST_CYCLES, within: false };
    }
    let log_stress = ln(greatest_pa / KSI) + 0.63 * ln(1.0 - ratio);
    let cycles = held(exp((20.68 * core::f64::consts::LN_10 - SLOPE_6061_T6 * log_stress).min(100.0)));
    let tested = greatest_pa <= 241.3e6 && (-1.0..=0.5).contains(&ratio);
    LineLife { cycles, within: tested && (1e4..=1e8).contains(&cycles) }
}
