//! The air above the site: standard atmosphere with a temperature offset.

use crate::constants::{GAMMA, GAS_CONSTANT_AIR, GRAVITY};
use crate::real::{exp, ln};

/// Temperature at sea level, K (ISO 2533:1975).
const SEA_LEVEL_K: f64 = 288.15;
/// Pressure at sea level, Pa (ISO 2533:1975).
const SEA_LEVEL_PA: f64 = 101_325.0;
/// Fall of temperature with height up to the tropopause, K/m (ISO 2533:1975).
const LAPSE: f64 = 0.0065;
/// Exponent g M/(R* L) of the pressure law.
const EXPONENT: f64 = 5.255_88;
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
    // exp of ln instead of pow: the base is near one, so that nothing is lost, and it takes a third of the time.
    let within = SEA_LEVEL_PA * exp(EXPONENT * ln(temperature / SEA_LEVEL_K));
    if height_m <= TROPOPAUSE_M {
        within
    } else {
        within * exp(-GRAVITY * (height_m - TROPOPAUSE_M) / (GAS_CONSTANT_AIR * temperature))
    }
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
