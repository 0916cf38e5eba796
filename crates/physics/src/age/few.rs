//! Logs with too few failures to tell a shape: the shortest life that they do not contradict.

use super::fit::{LogRow, NoFit, check};
use super::likelihood::Likelihood;
use super::weibull::Weibull;
use crate::real::{exp, ln};

/// The shortest life of an assumed shape that a log does not contradict.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ScaleBound {
    /// The life at the bound: chances computed with it are upper bounds.
    pub shortest: Weibull,
    /// The best estimate of that shape; `None` without a failure.
    pub best: Option<Weibull>,
    /// How sure the bound is, such as 0.95.
    pub confidence: f64,
    /// Failures in the log.
    pub failures: usize,
    /// Parts that are whole.
    pub whole: usize,
}

/// Why there is no bound.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoBound {
    /// The log itself cannot be used.
    Log(NoFit),
    /// The shape is out of range, or so extreme that the scale is.
    Shape,
    /// The confidence is not between 0.5 and 0.999999.
    Confidence,
}

/// The mean number of events that r or fewer of them contradict with a given confidence: half of chi-square with 2 r + 2 degrees of freedom.
///
/// # Equation
/// The m at which the sum over j = 0..r of e^-m m^j/j! is 1 - confidence; without events m = -ln(1 - confidence)
///
/// # Symbols
/// r events seen, m mean.
///
/// # Range
/// Confidence is held between 0.5 and 0.999999. Found by bisection, 60 steps.
///
/// # Source
/// The relation of the Poisson and chi-square distributions, in any textbook of statistics.
///
/// # Example
/// ```
/// let most = holdwater_physics::age::few::most_events(0, 0.95);
/// assert!((most - 2.995_732_273_553_991).abs() < 1e-12);
/// ```
#[must_use]
pub fn most_events(events: u32, confidence: f64) -> f64 {
    // What is not a number becomes a half.
    let left = 1.0 - if confidence > 0.5 { confidence.min(0.999_999) } else { 0.5 };
    if events == 0 {
        return -ln(left);
    }
    let log_factorial: f64 = (2..=events).map(|j| ln(f64::from(j))).sum();
    let r = f64::from(events);
    // Chance of r or fewer events of a mean, from the greatest term downwards.
    let at_most = |mean: f64| {
        let mut term = exp(r * ln(mean) - mean - log_factorial);
        let mut sum = term;
        for j in (1..=events).rev() {
            term *= f64::from(j) / mean;
            sum += term;
        }
        sum
    };
    // Half of the means of r + 1 and all that are beyond five deviations and then some.
    let (mut low, mut high) = (0.5 * r, r + 6.0 * r.sqrt() + 20.0);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if at_most(middle) > left { low = middle } else { high = middle }
    }
    high
}

/// The shortest life of an assumed shape that a log does not contradict.
///
/// # Equation
/// scale = (sum of x^k / m)^(1/k), m from [`most_events`]; the best estimate has the number of failures in place of m
///
/// # Symbols
/// x cycles of each row, failed or whole, k assumed shape.
///
/// # Range
/// Any log with one row at least, without any failure too. It is only as good as the shape: try a smaller and a greater one.
///
/// # Source
/// Nelson 1985 (`nelson1985`), from memory: x^k has an exponential life, whose bound is that of a Poisson mean.
///
/// # Example
/// ```
/// use holdwater_physics::age::{few::shortest_scale, fit::LogRow};
/// // Four bottles whole after 100 fills, without wear: 400 fills in all, so one failure in 133 is not contradicted.
/// let bound = shortest_scale(&[LogRow { cycles: 100.0, failed: false }; 4], 1.0, 0.95).unwrap();
/// assert!((bound.shortest.scale() - 400.0 / 2.995_732_273_553_991).abs() < 1e-9);
/// ```
///
/// # Errors
/// A log that cannot be used, or a shape or confidence out of range.
pub fn shortest_scale(rows: &[LogRow], shape: f64, confidence: f64) -> Result<ScaleBound, NoBound> {
    check(rows).map_err(NoBound::Log)?;
    if !(0.5..=0.999_999).contains(&confidence) {
        return Err(NoBound::Confidence);
    }
    // Any scale will do: this asks for the shape alone.
    Weibull::new(shape, 1.0).ok_or(NoBound::Shape)?;
    let likelihood = Likelihood::new(rows);
    let failures = rows.iter().filter(|row| row.failed).count();
    let log_mass = likelihood.sums(shape).log_mass;
    let of = |events: f64| Weibull::new(shape, exp(likelihood.log_top + (log_mass - ln(events)) / shape));
    // A log has 5,000 rows at most.
    let events = u32::try_from(failures).unwrap_or(u32::MAX);
    Ok(ScaleBound {
        shortest: of(most_events(events, confidence)).ok_or(NoBound::Shape)?,
        best: if failures > 0 { of(f64::from(events)) } else { None },
        confidence,
        failures,
        whole: rows.len() - failures,
    })
}
