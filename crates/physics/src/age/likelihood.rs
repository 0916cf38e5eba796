//! The likelihood of a right-censored log, as a function of the shape and of how far the scale is from its best value.
//!
//! With theta = scale^-shape the log-likelihood is r ln k + r ln theta + (k - 1) sum of ln x over the failures - theta sum of x^k, r failures of
//! shape k. For each shape the best theta is r / sum of x^k, and at a distance z = ln(theta/best) from it the log-likelihood
//! is lower by r (e^z - 1 - z). So one shape costs one pass over the log, and everything else is closed form.
//!
//! Logarithms are taken once, and relative to the greatest number of cycles, so that no power overflows.

use super::fit::LogRow;
use super::weibull::{LEAST_SHAPE, MOST_SHAPE};
use crate::order::sort_long;
use crate::real::{exp, exp_m1, ln, ln_1p};

/// Twice a drop of the log-likelihood that one parameter exceeds once in twenty times: the 95 % point of chi-square with one degree.
pub const CHI_SQUARE_ONE: f64 = 3.841_458_820_694_124;

/// Sums over a log at one shape.
#[derive(Clone, Copy, Debug)]
pub struct Sums {
    /// ln of the sum of (x/top)^shape.
    pub log_mass: f64,
    /// Mean of ln(x/top), weighted with (x/top)^shape.
    pub mean: f64,
    /// Its variance.
    pub variance: f64,
}

/// A log, condensed.
#[derive(Clone, Debug, PartialEq)]
pub struct Likelihood {
    /// ln(x/top) of the rows, in order, and how many there are of each.
    points: Vec<(f64, f64)>,
    /// ln of the greatest number of cycles.
    pub log_top: f64,
    /// Number of failures.
    pub failures: f64,
    /// Mean of ln(x/top) over the failures.
    pub failed_mean: f64,
}

/// What may be asked of a life beside its parameters.
#[derive(Clone, Copy, Debug)]
pub enum Quantity {
    /// ln of the hazard gathered over `ahead` cycles by a part with `behind` cycles.
    Gathered { behind: f64, ahead: f64 },
    /// ln of the cycles at which the hazard has gathered to a value.
    Cycles { log_wear: f64 },
}

fn in_order(numbers: &mut [f64]) {
    sort_long(numbers, |one, other| one.total_cmp(other).is_lt());
}

impl Likelihood {
    /// Condenses a log whose rows are all good and of which one has failed at least.
    ///
    /// Rows are sorted, so that a log gives the same digits in whatever order it was written down.
    pub fn new(rows: &[LogRow]) -> Self {
        let top = rows.iter().map(|row| row.cycles).fold(0.0, f64::max);
        let log_top = ln(top);
        let scaled = |row: &LogRow| ln(row.cycles) - log_top;
        let mut failed: Vec<f64> = rows.iter().filter(|row| row.failed).map(scaled).collect();
        in_order(&mut failed);
        let mut all: Vec<f64> = rows.iter().map(scaled).collect();
        in_order(&mut all);
        let mut points: Vec<(f64, f64)> = Vec::with_capacity(all.len());
        for each in all {
            match points.last_mut() {
                Some((value, count)) if value.total_cmp(&each).is_eq() => *count += 1.0,
                _ => points.push((each, 1.0)),
            }
        }
        let failures = failed.len() as f64;
        Self { points, log_top, failures, failed_mean: failed.iter().sum::<f64>() / failures.max(1.0) }
    }

    /// One pass over the log.
    pub fn sums(&self, shape: f64) -> Sums {
        let (mut mass, mut first, mut second) = (0.0, 0.0, 0.0);
        for (log_share, count) in &self.points {
            let weight = count * exp(shape * log_share);
            mass += weight;
            first += weight * log_share;
            second += weight * log_share * log_share;
        }
        // The greatest row has weight 1 at least, so nothing is divided by nought.
        let mean = first / mass;
        Sums { log_mass: ln(mass), mean, variance: (second / mass - mean * mean).max(0.0) }
    }

    /// Log-likelihood of a shape with its best scale, and its derivative by the shape.
    pub fn profile(&self, shape: f64) -> (f64, f64) {
        let sums = self.sums(shape);
        (self.profile_with(shape, &sums), self.failures * (1.0 / shape + self.failed_mean - sums.mean))
    }

    fn profile_with(&self, shape: f64, sums: &Sums) -> f64 {
        let per_failure = ln(shape) - sums.log_mass + ln(self.failures) + (shape - 1.0) * self.failed_mean;
        self.failures * (per_failure - self.log_top - 1.0)
    }

    /// The best shape; `Err` with the bound if it lies beyond one.
    pub fn best_shape(&self) -> Result<f64, f64> {
        let (low, high) = (ln(LEAST_SHAPE), ln(MOST_SHAPE));
        // The derivative times the shape falls with the shape: the other way round it rises.
        let falling = |log_shape: f64| {
            let shape = exp(log_shape);
            let sums = self.sums(shape);
            let lag = self.failed_mean - sums.mean;
            (-1.0 - shape * lag, shape * (shape * sums.variance - lag))
        };
        if falling(low).0 >= 0.0 {
            return Err(LEAST_SHAPE);
        }
        if falling(high).0 <= 0.0 {
            return Err(MOST_SHAPE);
        }
        Ok(exp(root(low, high, 0.0, falling)))
    }

    /// Shapes between which twice the log-likelihood lies within chi-square of its greatest; ends are held to the known shapes.
    pub fn shape_interval(&self, best: f64, error: f64) -> (f64, f64) {
        let least = self.profile(best).0 - 0.5 * CHI_SQUARE_ONE;
        let over = |log_shape: f64| {
            let shape = exp(log_shape);
            let (value, slope) = self.profile(shape);
            (value - least, slope * shape)
        };
        let below = |log_shape: f64| {
            let (value, slope) = over(log_shape);
            (-value, -slope)
        };
        let (bottom, middle, top) = (ln(LEAST_SHAPE), ln(best), ln(MOST_SHAPE));
        let step = 2.0 * error / best;
        let low = if over(bottom).0 >= 0.0 { bottom } else { root(bottom, middle, middle - step, over) };
        let high = if below(top).0 <= 0.0 { top } else { root(middle, top, middle + step, below) };
        (exp(low), exp(high))
    }

    /// The logarithm of a quantity at a shape, with ln(theta/best theta) away from the best scale.
    fn log_quantity(&self, quantity: Quantity, shape: f64, sums: &Sums, away: f64) -> f64 {
        // ln(theta top^shape)
        let log_theta = away + ln(self.failures) - sums.log_mass;
        match quantity {
            Quantity::Gathered { behind, ahead } => {
                let share = -exp_m1(-shape * ln_1p(ahead / behind));
                log_theta + shape * (ln(behind + ahead) - self.log_top) + ln(share.max(f64::MIN_POSITIVE))
            }
            Quantity::Cycles { log_wear } => self.log_top + (log_wear - log_theta) / shape,
        }
    }

    /// The logarithm of a quantity at the best shape and scale.
    pub fn log_estimate(&self, quantity: Quantity, best: f64) -> f64 {
        self.log_quantity(quantity, best, &self.sums(best), 0.0)
    }

    /// Least and greatest logarithm of a quantity over all lives that the log does not contradict.
    ///
    /// For each shape the scale may go away from its best as far as the shape has left of the drop allowed. The quantity
    /// is monotone in the scale, so only the shape is searched.
    pub fn log_interval(&self, quantity: Quantity, best: f64, shapes: (f64, f64)) -> (f64, f64) {
        let least = self.profile(best).0 - 0.5 * CHI_SQUARE_ONE;
        // Minus the least and the greatest, so that both ends are sought as greatest values.
        let ends = |log_shape: f64| {
            let shape = exp(log_shape);
            let sums = self.sums(shape);
            let left = ((self.profile_with(shape, &sums) - least) / self.failures).max(0.0);
            let [low, high] = [-1.0, 1.0].map(|side| self.log_quantity(quantity, shape, &sums, away(left, side)));
            [-low.min(high), low.max(high)]
        };
        let [low, high] = greatest_of_both(ln(shapes.0), ln(shapes.1), ends);
        (-low, high)
    }
}

/// The z of a side (-1 or 1) at which e^z - 1 - z is a given drop.
fn away(drop: f64, side: f64) -> f64 {
    // Newton's method on a convex function from beyond its root comes down to it and never passes it.
    let start = (2.0 * drop).sqrt();
    let mut z = if side > 0.0 { start } else { -(start + drop) };
    for _ in 0..40 {
        let slope = exp_m1(z);
        if slope.abs() < 1e-9 {
            break;
        }
        let step = (slope - z - drop) / slope;
        z -= step;
        if step.abs() <= 1e-13 * z.abs() {
            break;
        }
    }
    z
}

/// Root of a function that is below nought at `low` and above at `high`, which gives its value and its derivative.
///
/// Newton's method where it at least halves its steps, halving of the bracket where it does not: bounded.
fn root(low: f64, high: f64, start: f64, function: impl Fn(f64) -> (f64, f64)) -> f64 {
    let (mut low, mut high) = (low, high);
    let mut at = if start > low && start < high { start } else { 0.5 * (low + high) };
    let mut last = high - low;
    for _ in 0..120 {
        let (value, slope) = function(at);
        if value > 0.0 {
            high = at
        } else {
            low = at
        }
        let newton = at - value / slope;
        let good = newton >= low && newton <= high && (newton - at).abs() <= 0.5 * last;
        let next = if good { newton } else { 0.5 * (low + high) };
        last = (next - at).abs();
        at = next;
        if last <= 1e-13 {
            break;
        }
    }
    at
}

/// Greatest values of two smooth functions between two points: a coarse look at both, then golden sections about the best point of each.
fn greatest_of_both(from: f64, to: f64, functions: impl Fn(f64) -> [f64; 2]) -> [f64; 2] {
    const PARTS: usize = 16;
    let at = |part: usize| from + (to - from) * part as f64 / PARTS as f64;
    let seen: [[f64; 2]; PARTS + 1] = core::array::from_fn(|part| functions(at(part)));
    [0, 1].map(|which| {
        let better = |best: usize, part: usize| if seen[part][which] > seen[best][which] { part } else { best };
        let best = (1..=PARTS).fold(0, better);
        let (low, high) = (at(best.saturating_sub(1)), at((best + 1).min(PARTS)));
        golden(low, high, |x| functions(x)[which]).max(seen[best][which])
    })
}

/// Greatest value of a function with one hump. Twenty sections leave a part of 1e-5 of the way, and of the value its square.
fn golden(low: f64, high: f64, function: impl Fn(f64) -> f64) -> f64 {
    let section = 0.5 * (5.0_f64.sqrt() - 1.0);
    let (mut low, mut high) = (low, high);
    let (mut left, mut right) = (high - section * (high - low), low + section * (high - low));
    let (mut at_left, mut at_right) = (function(left), function(right));
    for _ in 0..20 {
        if at_left > at_right {
            (high, right, at_right) = (right, left, at_left);
            left = high - section * (high - low);
            at_left = function(left);
        } else {
            (low, left, at_left) = (left, right, at_right);
            right = low + section * (high - low);
            at_right = function(right);
        }
    }
    at_left.max(at_right)
}
