//! The one door to transcendental functions.
//!
//! The standard library takes them from the platform, and platforms differ in the last digit. The `libm` crate is
//! plain Rust, so that the same link gives the same digits on every device. `sqrt` is exact everywhere
//! (IEEE 754 demands it) and needs no door.

use core::f64::consts::PI;

/// x to the power y, for positive x.
///
/// As exp(y ln x): a third of the time of a correctly rounded power, at the price of a relative error of |y ln x| roundings,
/// which is a few units of the last digit for everything here.
#[must_use]
pub fn pow(x: f64, y: f64) -> f64 {
    libm::exp(y * libm::log(x))
}

/// (1 + x) to the power y, for x > -1; a short series where x is small, which it mostly is where this is used.
///
/// The series ends where its next term is below the last digit: six terms for |x| < 0.002.
#[must_use]
pub fn pow_near_one(x: f64, y: f64) -> f64 {
    if x.abs() >= 2e-3 {
        return pow(1.0 + x, y);
    }
    // Binomial series, innermost term first.
    let mut sum = 1.0;
    for k in [6.0, 5.0, 4.0, 3.0, 2.0, 1.0] {
        sum = 1.0 + sum * x * (y - k + 1.0) / k;
    }
    sum
}

/// e to the power x.
#[must_use]
pub fn exp(x: f64) -> f64 {
    libm::exp(x)
}

/// e to the power x, less one: exact for small x, where the difference would lose its digits.
#[must_use]
pub fn exp_m1(x: f64) -> f64 {
    libm::expm1(x)
}

/// Natural logarithm.
#[must_use]
pub fn ln(x: f64) -> f64 {
    libm::log(x)
}

/// Natural logarithm of 1 + x: exact for small x, where the sum would lose its digits.
#[must_use]
pub fn ln_1p(x: f64) -> f64 {
    libm::log1p(x)
}

/// Hyperbolic tangent.
#[must_use]
pub fn tanh(x: f64) -> f64 {
    libm::tanh(x)
}

/// Arc tangent.
#[must_use]
pub fn atan(x: f64) -> f64 {
    libm::atan(x)
}

/// Cosine and sine of a share of a full turn, from 0 to 1: the series of an eighth of it, doubled three times.
///
/// By arithmetic, because the library's own bring what reduces huge angles, which weighs two kilobytes in the page and is of no use here.
#[must_use]
pub fn direction(turns: f64) -> (f64, f64) {
    let x = 0.25 * PI * turns;
    let (mut cos, mut sin) = (1.0, 1.0);
    for k in [16.0, 14.0, 12.0, 10.0, 8.0, 6.0, 4.0, 2.0] {
        cos = 1.0 - x * x / (k * (k - 1.0)) * cos;
        sin = 1.0 - x * x / (k * (k + 1.0)) * sin;
    }
    sin *= x;
    for _ in 0..3 {
        (cos, sin) = (cos * cos - sin * sin, 2.0 * cos * sin);
    }
    (cos, sin)
}

#[cfg(test)]
mod tests {
    use super::direction;
    use core::f64::consts::TAU;

    #[test]
    fn closed_form_a_direction_is_cosine_and_sine() {
        for step in 0..=1000 {
            let turns = f64::from(step) / 1000.0;
            let (cos, sin) = direction(turns);
            let off = (cos - libm::cos(TAU * turns)).abs().max((sin - libm::sin(TAU * turns)).abs());
            assert!(off < 4e-15, "{turns}: {off:e}");
        }
    }
}
