//! A Weibull life from a log of parts that failed and parts that are still whole.

use super::likelihood::{Likelihood, Quantity};
use super::weibull::{MOST_SHAPE, Weibull};
use super::{MOST_CYCLES, chance, held};
use crate::real::{exp, exp_m1, ln, ln_1p};

/// A log of more rows than this is refused.
pub const MOST_ROWS: usize = 5000;

/// Fewest cycles that a row may have.
pub const LEAST_CYCLES: f64 = 1e-3;

/// One part of a log.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LogRow {
    /// Cycles that it has seen; of a failed part, the one that broke it included.
    pub cycles: f64,
    /// Whether it failed there. If not, it was still whole: its life is longer, nobody knows by how much.
    pub failed: bool,
}

/// What is wrong with the cycles of a row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BadCycles {
    /// Not a number.
    NotANumber,
    /// Less than [`LEAST_CYCLES`].
    TooFew(f64),
    /// More than [`MOST_CYCLES`], or without end.
    TooMany(f64),
}

/// Why a log gives no life.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoFit {
    /// The log is empty.
    NoRows,
    /// The log is too long.
    TooManyRows {
        /// How many it has.
        rows: usize,
    },
    /// A row cannot be used.
    BadRow {
        /// Which, counted from 1.
        row: usize,
        /// What is wrong.
        why: BadCycles,
    },
    /// Nothing has failed yet: [`super::few::shortest_scale`] gives a bound.
    NoFailures {
        /// Parts in the log.
        whole: usize,
        /// Most cycles that one of them has seen.
        most_cycles: f64,
    },
    /// One failure cannot tell a shape: [`super::few::shortest_scale`] gives a bound and an estimate for an assumed one.
    OneFailure {
        /// Cycles at which it happened.
        cycles: f64,
        /// Parts that are whole.
        whole: usize,
    },
    /// All failures came at the most cycles in the log, so that no shape is too steep.
    AllAlike {
        /// How many.
        failures: usize,
        /// Cycles at which they happened.
        cycles: f64,
    },
    /// The likelihood still grows at the end of the shapes that are told apart.
    ShapeBeyond {
        /// That end.
        bound: f64,
    },
}

/// A number with the ends of its 95 % interval.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Estimate {
    /// Lower end.
    pub low: f64,
    /// Best estimate.
    pub value: f64,
    /// Upper end.
    pub high: f64,
}

/// A fitted life.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// The life that makes the log likeliest.
    pub life: Weibull,
    /// Failures in the log.
    pub failures: usize,
    /// Parts that are whole.
    pub whole: usize,
    /// Log-likelihood at the fit.
    pub log_likelihood: f64,
    /// Standard error of the shape, from the observed information.
    pub shape_error: f64,
    /// Standard error of the scale, cycles.
    pub scale_error: f64,
    /// Covariance of shape and scale, cycles.
    pub covariance: f64,
    /// The shape with its likelihood-ratio interval. Ends beyond the known shapes are held to them.
    pub shape: Estimate,
    /// The log, condensed, from which other intervals follow.
    likelihood: Likelihood,
}

/// Refuses a log that holds nothing or something that is not a number of cycles.
pub(super) fn check(rows: &[LogRow]) -> Result<(), NoFit> {
    if rows.is_empty() {
        return Err(NoFit::NoRows);
    }
    if rows.len() > MOST_ROWS {
        return Err(NoFit::TooManyRows { rows: rows.len() });
    }
    for (index, LogRow { cycles, .. }) in rows.iter().enumerate() {
        let why = if cycles.is_nan() {
            BadCycles::NotANumber
        } else if *cycles < LEAST_CYCLES {
            BadCycles::TooFew(*cycles)
        } else if *cycles > MOST_CYCLES {
            BadCycles::TooMany(*cycles)
        } else {
            continue;
        };
        return Err(NoFit::BadRow { row: index + 1, why });
    }
    Ok(())
}

/// Fits a two-parameter Weibull life to a right-censored log by maximum likelihood.
///
/// # Equation
/// sum of x^k ln x / sum of x^k - 1/k - mean of ln x over the failures = 0, scale^k = sum of x^k / r (sums over all rows).
/// Observed information at the fit, with v = ln(x/scale) and w = (x/scale)^k: Ikk = r/k^2 + sum of w v^2, Iks = -(k/scale) sum of w v,
/// Iss = r k^2/scale^2
///
/// # Symbols
/// x cycles of a row, r number of failures, k shape.
///
/// # Range
/// Two failures at least, not all at the most cycles of the log; up to [`MOST_ROWS`] rows; shapes as in [`Weibull::new`]. With few failures
/// the shape comes out too great on average and its interval is wide.
///
/// # Source
/// Cohen 1965 (`cohen1965`) for the equations; Wilks 1938 (`wilks1938`) and Meeker and Escobar 1998 (`meeker1998`) for the intervals; all from memory.
///
/// # Example
/// ```
/// use holdwater_physics::age::fit::{LogRow, fit};
/// // NIST/SEMATECH handbook (`nist_handbook`), section 8.4.1, from memory: 10 failures, 10 units whole at 500 hours; it prints 1.7208 and 606.5280.
/// let failed = [54.0, 187.0, 216.0, 240.0, 244.0, 335.0, 361.0, 373.0, 375.0, 386.0];
/// let mut log: Vec<_> = failed.map(|cycles| LogRow { cycles, failed: true }).to_vec();
/// log.extend([LogRow { cycles: 500.0, failed: false }; 10]);
/// let fit = fit(&log).unwrap();
/// assert!((fit.life.shape() - 1.7208).abs() < 5e-5 && (fit.life.scale() - 606.528).abs() < 5e-4);
/// ```
///
/// # Errors
/// Why there is no such life, with the numbers.
pub fn fit(rows: &[LogRow]) -> Result<Fit, NoFit> {
    check(rows)?;
    let failures = rows.iter().filter(|row| row.failed).count();
    let whole = rows.len() - failures;
    let most = |failed: bool| rows.iter().filter(|row| row.failed == failed).map(|row| row.cycles).fold(0.0, f64::max);
    match failures {
        0 => return Err(NoFit::NoFailures { whole, most_cycles: most(false) }),
        1 => return Err(NoFit::OneFailure { cycles: most(true), whole }),
        _ => {}
    }
    let likelihood = Likelihood::new(rows);
    if likelihood.failed_mean >= 0.0 {
        return Err(NoFit::AllAlike { failures, cycles: most(true) });
    }
    let shape = likelihood.best_shape().map_err(|bound| NoFit::ShapeBeyond { bound })?;
    let (r, sums) = (likelihood.failures, likelihood.sums(shape));
    let scale = exp(likelihood.log_top + (sums.log_mass - ln(r)) / shape);
    let life = Weibull::new(shape, scale).ok_or(NoFit::ShapeBeyond { bound: MOST_SHAPE })?;
    // The information per failure, with v as its mean and its mean square over the weights w.
    let mean = sums.mean + likelihood.log_top - ln(scale);
    let determinant = 1.0 / (shape * shape) + sums.variance;
    let shape_error = 1.0 / (r * determinant).sqrt();
    let scale_error = scale / shape * ((determinant + mean * mean) / (r * determinant)).sqrt();
    let (low, high) = likelihood.shape_interval(shape, shape_error);
    Ok(Fit {
        life,
        failures,
        whole,
        log_likelihood: likelihood.profile(shape).0,
        shape_error,
        scale_error,
        covariance: scale * mean / (r * shape * determinant),
        shape: Estimate { low, value: shape, high },
        likelihood,
    })
}

impl Fit {
    /// The chance that a part with some cycles behind it fails in the next few, with its likelihood-ratio interval.
    ///
    /// # Equation
    /// The least and greatest q over all (shape, scale) with 2 (best log-likelihood - log-likelihood) <= 3.8415
    ///
    /// # Symbols
    /// q as in [`super::weibull::chance_of_failing`]; 3.8415 the 95 % point of chi-square with one degree of freedom.
    ///
    /// # Range
    /// Any cycles; shapes held as in [`Weibull::new`]. Right for many failures; with few it is a fair guide only.
    ///
    /// # Source
    /// Wilks 1938 (`wilks1938`); Meeker and Escobar 1998 (`meeker1998`); from memory.
    ///
    /// # Example
    /// ```
    /// use holdwater_physics::age::fit::{LogRow, fit};
    /// let log = [90.0, 140.0, 200.0].map(|cycles| LogRow { cycles, failed: true });
    /// let chance = fit(&log).unwrap().chance_of_failing(120.0, 1.0);
    /// assert!(chance.low < 0.3 * chance.value && chance.high > 2.0 * chance.value, "three failures tell little");
    /// ```
    #[must_use]
    pub fn chance_of_failing(&self, behind: f64, ahead: f64) -> Estimate {
        let (behind, ahead) = (held(behind), held(ahead));
        if ahead <= 0.0 {
            return Estimate { low: 0.0, value: 0.0, high: 0.0 };
        }
        self.estimate(Quantity::Gathered { behind, ahead }, |log_gathered| -exp_m1(-exp(log_gathered)))
    }

    /// Cycles at which a share of the parts has failed (0.1 for the B10 life), with its likelihood-ratio interval.
    ///
    /// # Equation
    /// As [`Fit::chance_of_failing`], of c = scale (-ln(1 - F))^(1/shape)
    ///
    /// # Symbols
    /// F share that has failed.
    ///
    /// # Range
    /// F between nought and one; at most 1e12 cycles. The share 1 - 1/e = 0.632 gives the scale.
    ///
    /// # Source
    /// Wilks 1938 (`wilks1938`); Meeker and Escobar 1998 (`meeker1998`); from memory.
    ///
    /// # Example
    /// ```
    /// use holdwater_physics::age::fit::{LogRow, fit};
    /// let log = [90.0, 140.0, 200.0].map(|cycles| LogRow { cycles, failed: true });
    /// let b10 = fit(&log).unwrap().life_at(0.1);
    /// assert!(b10.low < b10.value && b10.value < b10.high);
    /// ```
    #[must_use]
    pub fn life_at(&self, share_failed: f64) -> Estimate {
        let wear = -ln_1p(-chance(share_failed));
        if wear <= 0.0 {
            return Estimate { low: 0.0, value: 0.0, high: 0.0 };
        }
        // Of all parts: none lives longer than this module knows.
        let log_wear = ln(wear.min(MOST_CYCLES));
        self.estimate(Quantity::Cycles { log_wear }, |log_cycles| exp(log_cycles).min(MOST_CYCLES))
    }

    fn estimate(&self, quantity: Quantity, shown: impl Fn(f64) -> f64) -> Estimate {
        let value = self.likelihood.log_estimate(quantity, self.shape.value);
        let shapes = (self.shape.low, self.shape.high);
        let (low, high) = self.likelihood.log_interval(quantity, self.shape.value, shapes);
        // The search over shapes looks at points: the estimate itself is always inside.
        Estimate { low: shown(low.min(value)), value: shown(value), high: shown(high.max(value)) }
    }

    /// Log-likelihood of another life for the same log.
    #[must_use]
    pub fn log_likelihood_of(&self, life: &Weibull) -> f64 {
        let (r, shape) = (self.likelihood.failures, life.shape());
        let best_log_theta = ln(r) - self.likelihood.sums(shape).log_mass - shape * self.likelihood.log_top;
        let away = -shape * ln(life.scale()) - best_log_theta;
        // Far away the power overflows; minus the greatest number is as unlikely as it gets.
        (self.likelihood.profile(shape).0 - r * (exp_m1(away) - away)).max(-f64::MAX)
    }
}
