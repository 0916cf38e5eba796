//! Water: density, surface tension, viscosity, vapour pressure as functions of temperature.

use crate::constants::CELSIUS_ZERO_K;
use crate::real::{exp, pow};

/// Properties of the water in the vessels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Water {
    /// Density, kg/m3.
    pub density: f64,
    /// Surface tension against air, N/m.
    pub surface_tension: f64,
    /// Dynamic viscosity, Pa s.
    pub viscosity: f64,
}

impl Water {
    /// Clean water at a temperature, or water with the surface tension given (soap lowers it to 0.025-0.035 N/m).
    #[must_use]
    pub fn at(temperature_k: f64, surface_tension: Option<f64>) -> Self {
        Self {
            density: density(temperature_k),
            surface_tension: surface_tension.unwrap_or_else(|| self::surface_tension(temperature_k)),
            viscosity: viscosity(temperature_k),
        }
    }
}

/// Density of water at one atmosphere, kg/m3.
///
/// # Equation
/// rho = (999.83952 + 16.945176 t - 7.9870401e-3 t^2 - 46.170461e-6 t^3 + 105.56302e-9 t^4 - 280.54253e-12 t^5)/(1 + 16.879850e-3 t)
///
/// # Symbols
/// t temperature, degrees Celsius.
///
/// # Range
/// 0 to 100 C. The pressures of a bottle raise it by less than 0.1 %, which is left out.
///
/// # Source
/// Kell 1975 (`kell1975`); coefficients from memory, checked against IAPWS-95 to 0.005 kg/m3.
///
/// # Example
/// ```
/// assert!((holdwater_physics::water::density(293.15) - 998.204).abs() < 0.001);
/// ```
#[must_use]
pub fn density(temperature_k: f64) -> f64 {
    let t = temperature_k - CELSIUS_ZERO_K;
    let series = -280.542_53e-12;
    let series = 105.563_02e-9 + t * series;
    let series = -46.170_461e-6 + t * series;
    let series = -7.987_040_1e-3 + t * series;
    let series = 16.945_176 + t * series;
    (999.839_52 + t * series) / (1.0 + 16.879_850e-3 * t)
}

/// Surface tension of clean water against its vapour or air, N/m.
///
/// # Equation
/// sigma = 0.2358 tau^1.256 (1 - 0.625 tau), tau = 1 - T/647.096
///
/// # Symbols
/// T temperature, K.
///
/// # Range
/// 273.16 to 647.096 K.
///
/// # Source
/// IAPWS R1-76(2014) (`iapws_r1_76`).
///
/// # Example
/// ```
/// assert!((holdwater_physics::water::surface_tension(300.0) - 0.071_685_962_5).abs() < 1e-10);
/// ```
#[must_use]
pub fn surface_tension(temperature_k: f64) -> f64 {
    let tau = 1.0 - temperature_k / 647.096;
    0.2358 * pow(tau, 1.256) * (1.0 - 0.625 * tau)
}

/// Dynamic viscosity of water, Pa s.
///
/// # Equation
/// mu = 2.414e-5 * 10^(247.8/(T - 140))
///
/// # Symbols
/// T temperature, K.
///
/// # Range
/// 273 to 643 K, within 2.5 % (it enters only through the bubble's weak dependence on viscosity).
///
/// # Source
/// Vogel form, coefficients from memory (`vogel`); checked against IAPWS R12-08.
///
/// # Example
/// ```
/// assert!((holdwater_physics::water::viscosity(293.15) / 1.0016e-3 - 1.0).abs() < 0.01);
/// ```
#[must_use]
pub fn viscosity(temperature_k: f64) -> f64 {
    2.414e-5 * exp(core::f64::consts::LN_10 * 247.8 / (temperature_k - 140.0))
}

/// Saturation pressure of water vapour, Pa.
///
/// # Equation
/// p = 611.21 exp((18.678 - t/234.5) t/(257.14 + t))
///
/// # Symbols
/// t temperature, degrees Celsius.
///
/// # Range
/// 0 to 80 C, within 0.1 %.
///
/// # Source
/// Buck 1981, 1996 coefficients from memory (`buck1981`); checked against IAPWS-95.
///
/// # Example
/// ```
/// assert!((holdwater_physics::water::vapour_pressure(293.15) / 2339.3 - 1.0).abs() < 1e-3);
/// ```
#[must_use]
pub fn vapour_pressure(temperature_k: f64) -> f64 {
    let t = temperature_k - CELSIUS_ZERO_K;
    611.21 * exp((18.678 - t / 234.5) * t / (257.14 + t))
}
