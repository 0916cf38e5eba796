//! The gas in a vessel: its mass, its expansion, and its flow through a nozzle.

use crate::constants::{GAMMA, GAS_CONSTANT_AIR};

/// Ratio of exit pressure to vessel pressure at which a nozzle chokes: (2/(gamma + 1))^(gamma/(gamma - 1)) for gamma = 1.4.
pub const CRITICAL_RATIO: f64 = 0.528_281_787_717_174_2;

/// Factor of the choked mass flow: (2/(gamma + 1))^((gamma + 1)/(2 (gamma - 1))) = (2/2.4)^3 for gamma = 1.4.
pub const CHOKED_FACTOR: f64 = 0.578_703_703_703_703_7;

/// The blow-down counts as over when the pressure is within this share of the ambient pressure.
///
/// Pressure approaches the ambient without crossing it while the vessel climbs, so that some end has to be set.
pub const END_OF_PULSE: f64 = 1e-4;

/// Mass of ideal gas, kg: p V/(R T).
#[must_use]
pub fn mass(pressure_pa: f64, volume_m3: f64, temperature_k: f64) -> f64 {
    pressure_pa * volume_m3 / (GAS_CONSTANT_AIR * temperature_k)
}

/// Temperature of ideal gas, K: p V/(m R).
#[must_use]
pub fn temperature(pressure_pa: f64, volume_m3: f64, mass_kg: f64) -> f64 {
    pressure_pa * volume_m3 / (mass_kg * GAS_CONSTANT_AIR)
}

/// Rate of change of pressure while a fixed gas expands, Pa/s.
///
/// # Equation
/// p V^n = const, hence dp/dt = -n p (dV/dt)/V
///
/// # Symbols
/// p pressure, Pa; V gas volume, m3; n expansion exponent.
///
/// # Range
/// n from 1 (isothermal) to 1.4 (dry adiabatic); moist air over water lies between.
///
/// # Source
/// Gommes 2010 (`gommes2010`) for the range of n.
///
/// # Example
/// ```
/// assert_eq!(holdwater_physics::gas::expansion_rate(2e5, 1e-3, 1e-3, 1.0), -2e5);
/// ```
#[must_use]
pub fn expansion_rate(pressure_pa: f64, volume_m3: f64, volume_rate: f64, exponent: f64) -> f64 {
    -exponent * pressure_pa * volume_rate / volume_m3
}

/// What a nozzle does with gas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NozzleFlow {
    /// Mass flow, kg/s.
    pub mass_flow: f64,
    /// Thrust, N.
    pub thrust: f64,
}

/// Isentropic flow of gas through a sonic throat.
///
/// # Equation
/// mdot = A p sqrt(gamma/(R T)) (2/(gamma+1))^((gamma+1)/(2(gamma-1))), F = mdot ue + (pe - pa) A,
/// pe = 0.528282 p, ue = sqrt(2 gamma R T/(gamma+1)).
///
/// # Symbols
/// A effective area (discharge coefficient times throat area), m2; p, T pressure and temperature in the vessel, Pa, K;
/// pa ambient pressure, Pa; pe, ue exit pressure and speed, Pa, m/s.
///
/// # Range
/// Ideal gas, pa/p <= 0.528282.
///
/// # Source
/// NACA Report 1135 (1953) (`naca1135`).
///
/// # Example
/// ```
/// // 8 bar, 293.15 K, 9 mm: 0.120 kg/s
/// let area = holdwater_physics::rocket::circle_area(0.009);
/// let flow = holdwater_physics::gas::choked_flow(8e5, 293.15, 101_325.0, area);
/// assert!((flow.mass_flow - 0.12013).abs() < 1e-5);
/// ```
#[must_use]
pub fn choked_flow(pressure_pa: f64, temperature_k: f64, ambient_pa: f64, area_m2: f64) -> NozzleFlow {
    let energy = GAS_CONSTANT_AIR * temperature_k;
    let mass_flow = area_m2 * pressure_pa * (GAMMA / energy).sqrt() * CHOKED_FACTOR;
    let exit_speed = (2.0 * GAMMA / (GAMMA + 1.0) * energy).sqrt();
    NozzleFlow { mass_flow, thrust: mass_flow * exit_speed + (CRITICAL_RATIO * pressure_pa - ambient_pa) * area_m2 }
}

/// Isentropic flow of gas through a throat that is not sonic.
///
/// # Equation
/// ue^2 = 2 cp (T - Te), Te = T (pa/p)^((gamma-1)/gamma), cp = gamma R/(gamma-1); mdot = A pa ue/(R Te), F = mdot ue.
///
/// # Symbols
/// ue exit speed, m/s; Te exit temperature, K; pa ambient pressure, Pa; A effective area, m2.
///
/// # Range
/// Ideal gas, pa/p from 0.528282 to 1.
///
/// # Source
/// NACA Report 1135 (1953) (`naca1135`).
///
/// # Example
/// ```
/// let flow = holdwater_physics::gas::open_flow(100.0, 250.0, 101_325.0, 1e-4);
/// assert!((flow.thrust - 100.0 * flow.mass_flow).abs() < 1e-12);
/// ```
#[must_use]
pub fn open_flow(exit_speed: f64, exit_temperature_k: f64, ambient_pa: f64, area_m2: f64) -> NozzleFlow {
    let mass_flow = area_m2 * ambient_pa / (GAS_CONSTANT_AIR * exit_temperature_k) * exit_speed;
    NozzleFlow { mass_flow, thrust: mass_flow * exit_speed }
}

/// Time constant of a choked blow-down, s.
///
/// # Equation
/// tau = V/(A a0 G), a0 = sqrt(gamma R T0), G = (2/(gamma+1))^((gamma+1)/(2(gamma-1))). Isothermal p = p0 exp(-t/tau);
/// isentropic p = p0 (1 + (gamma-1) t/(2 tau))^(-2 gamma/(gamma-1)).
///
/// # Symbols
/// V vessel volume, m3; A effective area, m2; T0 temperature at the start, K.
///
/// # Range
/// While the nozzle is choked.
///
/// # Source
/// Standard gas dynamics, verified by integration (`naca1135` for G).
///
/// # Example
/// ```
/// let area = holdwater_physics::rocket::circle_area(0.009);
/// let tau = holdwater_physics::gas::blowdown_time(0.002, area, 293.15);
/// assert!((tau - 0.158_27).abs() < 1e-5);
/// ```
#[must_use]
pub fn blowdown_time(volume_m3: f64, area_m2: f64, temperature_k: f64) -> f64 {
    volume_m3 / (area_m2 * (GAMMA * GAS_CONSTANT_AIR * temperature_k).sqrt() * CHOKED_FACTOR)
}
