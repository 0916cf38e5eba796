//! The air above the site: standard atmosphere with a temperature offset.

use crate::constants::{GAMMA, GAS_CONSTANT_AIR, GRAVITY};
use crate::real::exp;

/// Temperature at sea level, K (ISO 2533:1975).
const SEA_LEVEL_K: f64 = 288.15;
/// Pressure at sea level, Pa (ISO 2533:1975).
const SEA_LEVEL_PA: f64 = 101_325.0;
/// Fall of temperature with height up to the tropopause, K/m (ISO 2533:1975).
const LAPSE: f64 = 0.0065;
/// Geopotential height of the tropopause, m.
const TROPOPAUSE_M: f64 = 11_000.0;

/// The air at one height.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Pressure, Pa.
    pub pressure_pa: f64,
    /// Temperature, K.
    pub temperature_k: f64,
    /// Density, kg/m3.
    pub density: f64,
}

impl Air {
    /// Speed of sound, m/s: a = sqrt(gamma R T).
    #[must_use]
    pub fn speed_of_sound(&self) -> f64 {
        (GAMMA * GAS_CONSTANT_AIR * self.temperature_k).sqrt()
    }
}

/// Standard temperature at a geopotential height, K.
///
/// # Equation
/// T = 288.15 - 0.0065 H, constant above 11 km.
///
/// # Symbols
/// H geopotential height above sea level, m.
///
/// # Range
/// -430 m to 20 km.
///
/// # Source
/// ISO 2533:1975, identical to the US Standard Atmosphere 1976 in this range (`iso2533`).
///
/// # Example
/// ```
/// assert_eq!(holdwater_physics::air::standard_temperature(1000.0), 281.65);
/// ```
#[must_use]
pub fn standard_temperature(height_m: f64) -> f64 {
    SEA_LEVEL_K - LAPSE * height_m.min(TROPOPAUSE_M)
}

/// Standard pressure at a geopotential height, Pa.
///
/// # Equation
/// p = 101325 (T/288.15)^5.25588; above 11 km p = p(11 km) exp(-g (H - 11 km)/(R T)).
///
/// # Symbols
/// T standard temperature at H, K; H geopotential height, m; g 9.80665 m/s2; R 287.053 J/(kg K).
///
/// # Range
/// -430 m to 20 km.
///
/// # Source
/// ISO 2533:1975 (`iso2533`).
///
/// # Example
/// ```
/// let p = holdwater_physics::air::standard_pressure(1000.0);
/// assert!((p - 89_874.6).abs() < 0.1);
/// ```
#[must_use]
pub fn standard_pressure(height_m: f64) -> f64 {
    let temperature = standard_temperature(height_m);
    let within = SEA_LEVEL_PA * power_of_the_pressure_law(temperature * (1.0 / SEA_LEVEL_K));
    if height_m <= TROPOPAUSE_M {
        within
    } else {
        within * exp(-GRAVITY * (height_m - TROPOPAUSE_M) / (GAS_CONSTANT_AIR * temperature))
    }
}

/// Middle of the range of [`power_of_the_pressure_law`].
const MIDDLE: f64 = 0.885;

/// x^5.25588 as a polynomial in x - [`MIDDLE`]: through its values at the ten Chebyshev points of 0.75 ... 1.02, computed with forty digits.
const POWER_LAW: [f64; 10] = [
    0.526_187_101_061_573_6,
    3.124_944_927_375_701_3,
    7.513_780_009_894_361,
    9.214_299_833_759_716,
    5.871_851_614_362_45,
    1.666_517_740_064_046_3,
    0.080_306_442_440_350_16,
    -0.009_646_012_897_980_2,
    0.002_392_179_159_715_131_2,
    -0.000_826_442_706_069_347_3,
];

/// x^5.25588 for 0.75 <= x <= 1.02, by a polynomial: every step of every flight asks for it. Relative error below 1e-13, proved by a test
/// against the plain power.
fn power_of_the_pressure_law(x: f64) -> f64 {
    let [a, b, c, d, e, f, g, h, i, j] = POWER_LAW;
    let u = x - MIDDLE;
    let u2 = u * u;
    let u4 = u2 * u2;
    // In pairs, so that a processor can work on several at once.
    let low = (a + b * u) + (c + d * u) * u2;
    let high = (e + f * u) + (g + h * u) * u2;
    low + (high + (i + j * u) * u4) * u4
}

/// The air over one site.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Atmosphere {
    elevation_m: f64,
    offset_k: f64,
}

impl Atmosphere {
    /// The air over a site of the given elevation whose air has the given temperature.
    ///
    /// The difference to the standard temperature is kept at every height; it changes density and speed of
    /// sound, not pressure.
    #[must_use]
    pub fn over_site(elevation_m: f64, temperature_k: f64) -> Self {
        Self { elevation_m, offset_k: temperature_k - standard_temperature(elevation_m) }
    }

    /// The air at a height over the site, m.
    #[must_use]
    pub fn at(&self, height_m: f64) -> Air {
        let above_sea = self.elevation_m + height_m;
        let pressure_pa = standard_pressure(above_sea);
        let temperature_k = standard_temperature(above_sea) + self.offset_k;
        Air { pressure_pa, temperature_k, density: pressure_pa / (GAS_CONSTANT_AIR * temperature_k) }
    }

    /// Rate of change of pressure with height, Pa/m: hydrostatic, dp/dh = -g p/(R T_std).
    #[must_use]
    pub fn pressure_gradient(&self, air: &Air) -> f64 {
        -GRAVITY * air.pressure_pa / (GAS_CONSTANT_AIR * (air.temperature_k - self.offset_k))
    }
}

#[cfg(test)]
mod tests {
    use super::power_of_the_pressure_law;
    use crate::real::pow;

    /// Exponent g M/(R* L) of the pressure law (ISO 2533:1975).
    const EXPONENT: f64 = 5.255_88;

    #[test]
    fn closed_form_the_pressure_law_equals_the_plain_power() {
        for k in 0..=270 {
            let x = 0.75 + f64::from(k) * 1e-3;
            let plain = pow(x, EXPONENT);
            assert!((power_of_the_pressure_law(x) / plain - 1.0).abs() < 1e-13, "x = {x}");
        }
    }
}
