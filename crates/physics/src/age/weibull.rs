//! The Weibull life of a part, in cycles.

use super::{MOST_CYCLES, chance, held};
use crate::real::{exp, exp_m1, ln, ln_1p, pow};

/// Shapes below this are not told apart from it.
pub const LEAST_SHAPE: f64 = 0.05;

/// Shapes above this are not told apart from it: all parts fail at one age.
pub const MOST_SHAPE: f64 = 200.0;

/// A life in cycles: always with a shape between [`LEAST_SHAPE`] and [`MOST_SHAPE`] and a positive scale.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weibull {
    shape: f64,
    scale: f64,
}

impl Weibull {
    /// A life of this shape and scale (the cycles at which 63.2 % have failed); `None` if either is out of range or not a number.
    #[must_use]
    pub fn new(shape: f64, scale: f64) -> Option<Self> {
        ((LEAST_SHAPE..=MOST_SHAPE).contains(&shape) && (1e-30..=1e100).contains(&scale))
            .then_some(Self { shape, scale })
    }

    /// A life of this shape that half of the parts reach, cycles.
    ///
    /// # Equation
    /// scale = median / (ln 2)^(1/shape)
    ///
    /// # Symbols
    /// median: cycles that half of the parts reach; shape of the life.
    ///
    /// # Range
    /// `None` outside the shapes of [`Weibull::new`] and for a median that is not above nought.
    ///
    /// # Source
    /// Weibull 1951 (`weibull1951`).
    ///
    /// # Example
    /// ```
    /// use holdwater_physics::age::weibull::{Weibull, survival};
    /// let life = Weibull::of_median(2.5, 300.0).unwrap();
    /// assert!((survival(&life, 300.0) - 0.5).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn of_median(shape: f64, median: f64) -> Option<Self> {
        Self::new(shape, median / pow(core::f64::consts::LN_2, 1.0 / shape))
    }

    /// How much the chance grows with age: below 1 it falls, at 1 it does not change, above 1 the part wears.
    #[must_use]
    pub fn shape(&self) -> f64 {
        self.shape
    }

    /// Cycles at which 63.2 % of the parts have failed.
    #[must_use]
    pub fn scale(&self) -> f64 {
        self.scale
    }

    /// The same life in cycles at another pressure: see [`super::fatigue::equivalent_cycles`] for the factor.
    #[must_use]
    pub fn stretched(&self, factor: f64) -> Option<Self> {
        Self::new(self.shape, self.scale * factor)
    }
}

/// Cumulative hazard: minus the logarithm of the share of parts that are still whole.
///
/// # Equation
/// H = (c/scale)^shape
///
/// # Symbols
/// c cycles behind the part.
///
/// # Range
/// Any cycles; infinite where it exceeds what a number holds.
///
/// # Source
/// Weibull 1951 (`weibull1951`).
///
/// # Example
/// ```
/// use holdwater_physics::age::weibull::{Weibull, wear};
/// let life = Weibull::new(2.0, 100.0).unwrap();
/// assert!((wear(&life, 50.0) - 0.25).abs() < 1e-15);
/// ```
#[must_use]
pub fn wear(life: &Weibull, cycles: f64) -> f64 {
    let cycles = held(cycles);
    if cycles > 0.0 { exp(life.shape * (ln(cycles) - ln(life.scale))) } else { 0.0 }
}

/// Share of new parts that are still whole after some cycles.
///
/// # Equation
/// R = exp(-(c/scale)^shape)
///
/// # Symbols
/// c cycles.
///
/// # Range
/// Any cycles.
///
/// # Source
/// Weibull 1951 (`weibull1951`).
///
/// # Example
/// ```
/// use holdwater_physics::age::weibull::{Weibull, survival};
/// let life = Weibull::new(2.0, 100.0).unwrap();
/// assert!((survival(&life, 100.0) - (-1.0_f64).exp()).abs() < 1e-15);
/// ```
#[must_use]
pub fn survival(life: &Weibull, cycles: f64) -> f64 {
    exp(-wear(life, cycles))
}

/// Chance per cycle of a part that has come so far.
///
/// # Equation
/// h = (shape/scale) (c/scale)^(shape - 1)
///
/// # Symbols
/// c cycles behind the part.
///
/// # Range
/// A rate, which may exceed one. At no cycles: nought for shapes above 1, and held finite for shapes below 1.
///
/// # Source
/// Weibull 1951 (`weibull1951`).
///
/// # Example
/// ```
/// use holdwater_physics::age::weibull::{Weibull, hazard};
/// let life = Weibull::new(2.0, 100.0).unwrap();
/// assert!((hazard(&life, 50.0) - 0.01).abs() < 1e-15);
/// ```
#[must_use]
pub fn hazard(life: &Weibull, cycles: f64) -> f64 {
    let log_cycles = ln(held(cycles).max(f64::MIN_POSITIVE)) - ln(life.scale);
    exp(ln(life.shape / life.scale) + (life.shape - 1.0) * log_cycles).min(f64::MAX)
}

/// Hazard gathered from one age to another, without the loss of digits of a difference of two.
fn gathered(life: &Weibull, behind: f64, ahead: f64) -> f64 {
    let (behind, ahead) = (held(behind), held(ahead));
    if ahead <= 0.0 {
        return 0.0;
    }
    let share = -exp_m1(-life.shape * ln_1p(ahead / behind));
    if share > 0.0 { wear(life, behind + ahead) * share } else { 0.0 }
}

/// Chance that a part with some cycles behind it fails in the next few.
///
/// # Equation
/// q = 1 - R(c + m)/R(c) = 1 - exp(-(H(c + m) - H(c))), H(c + m) - H(c) = H(c + m) (1 - (1 + m/c)^(-shape))
///
/// # Symbols
/// c cycles behind, m cycles ahead, H cumulative hazard.
///
/// # Range
/// Any cycles. Exact to rounding for tiny chances too: nothing is subtracted that is nearly equal.
///
/// # Source
/// Weibull 1951 (`weibull1951`) for R; the rest is the definition of a conditional chance.
///
/// # Example
/// ```
/// use holdwater_physics::age::weibull::{Weibull, chance_of_failing};
/// // Without wear (shape 1) age does not matter.
/// let life = Weibull::new(1.0, 1e9).unwrap();
/// let chance = chance_of_failing(&life, 5e8, 1.0);
/// assert!((chance / 1e-9 - 1.0).abs() < 1e-8);
/// ```
#[must_use]
pub fn chance_of_failing(life: &Weibull, behind: f64, ahead: f64) -> f64 {
    -exp_m1(-gathered(life, behind, ahead))
}

/// Chance that at least one of several independent parts fails.
///
/// # Equation
/// Q = 1 - product of (1 - q_i), as 1 - exp(sum of ln(1 - q_i))
///
/// # Symbols
/// q_i chance of each part.
///
/// # Range
/// Chances are held between nought and one; no parts, no chance. Exact to rounding for tiny chances.
///
/// # Source
/// Definition of independence.
///
/// # Example
/// ```
/// use holdwater_physics::age::weibull::chance_of_any;
/// assert!((chance_of_any([0.5, 0.5]) - 0.75).abs() < 1e-15);
/// assert!((chance_of_any([1e-12; 3]) / 3e-12 - 1.0).abs() < 1e-11);
/// ```
#[must_use]
pub fn chance_of_any(chances: impl IntoIterator<Item = f64>) -> f64 {
    -exp_m1(chances.into_iter().map(|each| ln_1p(-chance(each))).sum())
}

/// The chance each of several equal parts may have if any of them failing may have a given one.
///
/// # Equation
/// q = 1 - (1 - Q)^(1/n)
///
/// # Symbols
/// Q accepted chance for any, n parts.
///
/// # Range
/// No parts count as one.
///
/// # Source
/// Definition of independence.
///
/// # Example
/// ```
/// use holdwater_physics::age::weibull::{chance_of_any, chance_of_each};
/// assert!((chance_of_any([chance_of_each(0.01, 3); 3]) - 0.01).abs() < 1e-15);
/// ```
#[must_use]
pub fn chance_of_each(any: f64, parts: u32) -> f64 {
    -exp_m1(ln_1p(-chance(any)) / f64::from(parts.max(1)))
}

/// Cycles at which a share of the parts has failed: 0.1 for the B10 life, 0.5 for the median.
///
/// # Equation
/// c = scale (-ln(1 - F))^(1/shape)
///
/// # Symbols
/// F share that has failed.
///
/// # Range
/// F between nought and one; at most [`MOST_CYCLES`].
///
/// # Source
/// Weibull 1951 (`weibull1951`).
///
/// # Example
/// ```
/// use holdwater_physics::age::weibull::{Weibull, life_at};
/// // The two parameters that the NIST/SEMATECH handbook prints for its example.
/// let life = Weibull::new(1.7208, 606.5280).unwrap();
/// assert!((life_at(&life, 0.1) - 164.02).abs() < 0.01);
/// ```
#[must_use]
pub fn life_at(life: &Weibull, share_failed: f64) -> f64 {
    let wear = -ln_1p(-chance(share_failed));
    if wear > 0.0 { exp(ln(life.scale) + ln(wear) / life.shape).min(MOST_CYCLES) } else { 0.0 }
}

/// When a part is to be retired.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Retire {
    /// Even a new part has a greater chance than was accepted.
    NeverUse {
        /// The chance of a new part.
        chance: f64,
    },
    /// With this many whole cycles behind it a part may still be used; with one more it may not.
    After {
        /// Whole cycles.
        cycles: u64,
    },
    /// The chance stays within what was accepted at every age up to [`MOST_CYCLES`].
    NoLimit,
}

/// Greatest age, in whole cycles, at which the chance over the next fills is still accepted.
///
/// # Equation
/// The greatest whole c with 1 - R(c + m)/R(c) <= q
///
/// # Symbols
/// c cycles behind, m fills ahead (1: per fill; the day's number: per day), q accepted chance.
///
/// # Range
/// Every life. Of shapes up to 1 a part does not get worse, so that only its first fills count.
///
/// # Source
/// Definition; found by bisection over whole numbers, 40 steps.
///
/// # Example
/// ```
/// use holdwater_physics::age::weibull::{Retire, Weibull, chance_of_failing, retire_by};
/// let life = Weibull::new(2.5, 300.0).unwrap();
/// let Retire::After { cycles } = retire_by(&life, 1.0, 1e-3) else { panic!() };
/// assert_eq!(cycles, 72);
/// assert!(chance_of_failing(&life, 72.0, 1.0) <= 1e-3 && chance_of_failing(&life, 73.0, 1.0) > 1e-3);
/// ```
#[must_use]
pub fn retire_by(life: &Weibull, fills: f64, accepted: f64) -> Retire {
    let accepts = |cycles: u64| chance_of_failing(life, cycles as f64, fills) <= chance(accepted);
    if !accepts(0) {
        return Retire::NeverUse { chance: chance_of_failing(life, 0.0, fills) };
    }
    let (mut low, mut high) = (0, MOST_CYCLES as u64);
    if life.shape <= 1.0 || accepts(high) {
        return Retire::NoLimit;
    }
    while high - low > 1 {
        let middle = low + (high - low) / 2;
        if accepts(middle) { low = middle } else { high = middle }
    }
    Retire::After { cycles: low }
}
