//! Constants that more than one topic needs.

/// Standard acceleration of gravity, m/s2 (ISO 80000-3; exact by definition).
pub const GRAVITY: f64 = 9.80665;

/// Specific gas constant of dry air, J/(kg K) (US Standard Atmosphere 1976).
pub const GAS_CONSTANT_AIR: f64 = 287.053;

/// Ratio of specific heats of air (NACA Report 1135).
pub const GAMMA: f64 = 1.4;

/// Offset between kelvin and degrees Celsius (exact by definition).
pub const CELSIUS_ZERO_K: f64 = 273.15;

/// Density of the aluminium alloy that a staging launch tube is taken to be made of, kg/m3
/// (6061-T6, Metals Handbook value, 2700).
pub const TUBE_DENSITY: f64 = 2700.0;
