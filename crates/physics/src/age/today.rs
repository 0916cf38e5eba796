//! One day of fills: the chance of each part, of any, and of two.

use super::few::ScaleBound;
use super::fit::{Fit, NoFit};
use super::weibull::{Weibull, chance_of_any, chance_of_failing};
use super::{ASSUMED_SHAPE, MOST_CYCLES};

/// Where the life of a kind of part comes from, and so what its chances are worth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Basis {
    /// Fitted to a log: a best estimate, whose interval the fit gives.
    Fitted {
        /// Failures in the log.
        failures: usize,
        /// Parts of the log that are still whole.
        whole: usize,
    },
    /// The shortest life that a log with too few failures does not contradict: chances are upper bounds.
    Bound {
        /// How sure, such as 0.95.
        confidence: f64,
        /// The shape that was assumed.
        shape: f64,
    },
    /// A typical life that somebody gave: chances are as good as that number.
    Given {
        /// Cycles that half of the parts reach.
        typical_cycles: f64,
        /// The shape that was assumed.
        shape: f64,
    },
}

/// Why there is no number for a kind of part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Unknown {
    /// Neither a log nor a typical life. A margin on burst pressure alone says nothing about cycles.
    NoData,
    /// A log that cannot be used, and no typical life.
    Log(NoFit),
    /// The typical life or the shape given is out of range.
    TypicalLife,
}

/// The life of a kind of part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Life {
    /// The life in cycles.
    pub weibull: Weibull,
    /// Where it comes from.
    pub basis: Basis,
}

impl Life {
    /// The life that a log gave.
    #[must_use]
    pub fn fitted(fit: &Fit) -> Self {
        Self { weibull: fit.life, basis: Basis::Fitted { failures: fit.failures, whole: fit.whole } }
    }

    /// The shortest life that a log does not contradict.
    #[must_use]
    pub fn bounded(bound: &ScaleBound) -> Self {
        Self {
            weibull: bound.shortest,
            basis: Basis::Bound { confidence: bound.confidence, shape: bound.shortest.shape() },
        }
    }

    /// A life from a typical number of cycles, which half of the parts reach; the shape is [`ASSUMED_SHAPE`] unless one is given.
    ///
    /// # Errors
    /// A typical life or a shape that is out of range.
    pub fn given(typical_cycles: f64, shape: Option<f64>) -> Result<Self, Unknown> {
        let shape = shape.unwrap_or(ASSUMED_SHAPE);
        let usable = typical_cycles > 0.0 && typical_cycles <= MOST_CYCLES;
        match Weibull::of_median(shape, typical_cycles).filter(|_| usable) {
            Some(weibull) => Ok(Self { weibull, basis: Basis::Given { typical_cycles, shape } }),
            None => Err(Unknown::TypicalLife),
        }
    }
}

/// One part that is filled today. Equal parts stand there once each.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// The life of its kind in cycles at today's pressure; `None` if unknown.
    pub life: Option<Weibull>,
    /// Cycles behind it, at today's pressure: see [`super::fatigue::equivalent_history`].
    pub behind: f64,
}

/// The chances of one part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PartToday {
    /// That it fails in the next fill.
    pub next_fill: f64,
    /// That it fails in one of today's fills.
    pub day: f64,
}

/// The chances of one part today; `None` if its life is unknown.
#[must_use]
pub fn part_today(part: &Part, fills: f64) -> Option<PartToday> {
    let chance = |ahead| part.life.map(|life| chance_of_failing(&life, part.behind, ahead));
    Some(PartToday { next_fill: chance(1.0)?, day: chance(fills)? })
}

/// The chances of a whole day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Today {
    /// That any known part fails in the next fill.
    pub next_fill: f64,
    /// That any known part fails today.
    pub day: f64,
    /// That two known parts or more fail today.
    pub day_two: f64,
    /// That a second one fails today, if one does; nought if none can.
    pub second_if_one: f64,
    /// The part with the greatest chance for the day, and that chance.
    pub worst: Option<(usize, f64)>,
    /// Parts of unknown life, which are left out: with any, the true chances are greater.
    pub unknown: usize,
}

/// The chances of a day on which several parts are filled equally often.
///
/// # Equation
/// Any: 1 - product of (1 - q_i). Two or more: the distribution of the number of failures, part by part
/// (P0, P1, P2+) -> (P0 (1 - q), P1 (1 - q) + P0 q, P2+ + P1 q)
///
/// # Symbols
/// q_i chance of part i over the day's fills.
///
/// # Range
/// Independent parts. What they share (one batch, one hot car, one burst that hits its neighbour) makes two failures likelier than
/// this. Sums of positive terms only, so tiny chances keep their digits.
///
/// # Source
/// Elementary: the distribution of a sum of independent trials of unequal chances (Poisson's binomial).
///
/// # Example
/// ```
/// use holdwater_physics::age::{today::{Part, today}, weibull::Weibull};
/// // Four parts of one age: old ones fail together, because all have come to the steep part at once.
/// let day = |behind| today(&[Part { life: Weibull::new(3.0, 200.0), behind }; 4], 10.0);
/// assert!(day(0.0).day_two < 1e-6 && day(180.0).day_two > 0.05);
/// ```
#[must_use]
pub fn today(parts: &[Part], fills: f64) -> Today {
    let (mut none, mut one, mut more) = (1.0, 0.0, 0.0);
    let mut worst: Option<(usize, f64)> = None;
    let mut unknown = 0;
    for (index, part) in parts.iter().enumerate() {
        let Some(PartToday { day, .. }) = part_today(part, fills) else {
            unknown += 1;
            continue;
        };
        more += one * day;
        one = one * (1.0 - day) + none * day;
        none *= 1.0 - day;
        if worst.is_none_or(|(_, greatest)| day > greatest) {
            worst = Some((index, day));
        }
    }
    let known = || parts.iter().filter_map(|part| part_today(part, fills));
    let day = chance_of_any(known().map(|chances| chances.day));
    let day_two = f64::min(more, day);
    Today {
        next_fill: chance_of_any(known().map(|chances| chances.next_fill)),
        day,
        day_two,
        second_if_one: if day > 0.0 { day_two / day } else { 0.0 },
        worst,
        unknown,
    }
}
