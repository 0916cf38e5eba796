//! Proof tests: how high, whether the part bears it, and what a passed one supports.

use super::answer::strength;
use super::lines::Factors;
use super::part::{Evidence, Part, Test};
use super::problem::{PartProblem, Quantity};

/// Proof pressure over design pressure when none is given: common practice, no source.
pub const DEFAULT_PROOF_FACTOR: f64 = 1.5;

/// Share of the strength above which a proof itself does harm: the law for aluminium gas cylinders allows 80 % of yield at test pressure
/// (49 CFR 178.46, this number from memory). Taken for every material.
pub const HARMFUL_SHARE: f64 = 0.8;

/// Pressure over the rating of a maker above which a proof counts as harmful: common practice, no source.
pub const HARMFUL_OVER_RATING: f64 = 1.5;

/// Proof pressure, Pa gauge.
///
/// # Equation
/// p = factor x design pressure
///
/// # Symbols
/// Design pressure, Pa gauge.
///
/// # Range
/// Water-filled, all air out, at the temperature of use. See [`plan`] for a test in the cool.
///
/// # Source
/// Common practice, no source.
///
/// # Example
/// ```
/// assert!((holdwater_physics::vessel::proof::proof_pressure(8e5, 1.5) - 12e5).abs() < 1e-6);
/// ```
#[must_use]
pub fn proof_pressure(design_pa: f64, factor: f64) -> f64 {
    factor * design_pa
}

/// Design pressure that a passed proof supports, Pa gauge.
///
/// # Equation
/// p = proof pressure/factor x share of strength now/share then (not above 1)
///
/// # Symbols
/// Shares of strength at the temperatures of use and of the test.
///
/// # Range
/// The very part that was tested, not dropped, heated or cycled since.
///
/// # Source
/// Common practice, no source.
///
/// # Example
/// ```
/// assert!((holdwater_physics::vessel::proof::supported(12e5, 1.5, 0.5, 1.0) - 4e5).abs() < 1e-6);
/// ```
#[must_use]
pub fn supported(proof_pa: f64, factor: f64, share_now: f64, share_then: f64) -> f64 {
    if share_now <= 0.0 {
        return 0.0;
    }
    let left = if share_now < share_then { share_now / share_then } else { 1.0 };
    proof_pa / factor * left
}

/// A proof test to be done.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ProofPlan {
    /// Gauge pressure, Pa: more than factor times design where the part is cooler in the test than in use.
    pub pressure_pa: f64,
    /// Stress at that pressure over the strength at the temperature of the test, without a factor, by the evidence that counts.
    pub share_of_strength: f64,
    /// Whether it would do harm: the share is above [`HARMFUL_SHARE`], or above [`HARMFUL_OVER_RATING`] of a rating.
    pub harmful: bool,
    /// Whether the part is expected to burst in it.
    pub bursts: bool,
}

/// Plans the proof of a part for a design pressure: used at one temperature, tested at another.
pub fn plan(
    part: &Part,
    design_pa: f64,
    use_k: f64,
    test_k: f64,
    proof_factor: f64,
    factors: &Factors,
) -> Result<ProofPlan, PartProblem> {
    Quantity::Pressure.check(design_pa)?;
    Quantity::Factor.check(proof_factor)?;
    Quantity::Temperature.check(use_k)?;
    // An earlier proof says what the part held, not what it bears: it is no ground for a new one.
    let unproven = Part { proof: None, counted: None, ..*part };
    let now = strength(&unproven, test_k, factors)?;
    let (in_use, in_test) = (part.material.derating.share(use_k), part.material.derating.share(test_k));
    if in_use <= 0.0 {
        return Err(PartProblem::NoStrengthLeft { temperature_k: use_k });
    }
    if in_test <= 0.0 || now.governing.allowable_pa <= 0.0 {
        return Err(PartProblem::NoStrengthLeft { temperature_k: test_k });
    }
    let pressure_pa = proof_pressure(design_pa, proof_factor) * (in_test / in_use).max(1.0);
    let line = now.governing;
    let share_of_strength = line.per_pressure * pressure_pa / line.allowable_pa;
    let limit = if now.evidence == Evidence::Rating { HARMFUL_OVER_RATING } else { HARMFUL_SHARE };
    // A share of exactly the limit may not turn harmful by a rounding.
    let harmful = share_of_strength > limit * (1.0 + 1e-9);
    Ok(ProofPlan {
        pressure_pa,
        share_of_strength,
        harmful,
        bursts: now.burst_pa.is_some_and(|burst| pressure_pa >= burst),
    })
}

/// What a passed proof supports now.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Passed {
    /// Highest design pressure it supports, Pa gauge.
    pub supported_pa: f64,
    /// Margin against the design pressure asked.
    pub margin: f64,
}

/// What a passed proof of a part supports at a temperature. How many cycles it supports is another matter.
pub fn passed(part: &Part, proof: Test, design_pa: f64, use_k: f64, factor: f64) -> Result<Passed, PartProblem> {
    Part { proof: Some(proof), ..*part }.check()?;
    Quantity::Pressure.check(design_pa)?;
    Quantity::Temperature.check(use_k)?;
    Quantity::Factor.check(factor)?;
    let derating = part.material.derating;
    let supported_pa = supported(proof.pressure_pa, factor, derating.share(use_k), derating.share(proof.temperature_k));
    Ok(Passed { supported_pa, margin: supported_pa / design_pa - 1.0 })
}
