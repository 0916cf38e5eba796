//! What the pressure difference across a plate presses it with.
//!
//! These are the greatest steady loads. Water that strikes the plate at the release is in none of them.

/// Force on a plate, N.
///
/// # Equation
/// F = dp (A - Ao)
///
/// # Symbols
/// dp pressure difference, Pa; A area of the bore, m2; Ao open area, m2.
///
/// # Range
/// Ao < A; nought otherwise.
///
/// # Source
/// Balance of forces; the edges of the holes carry a little less, which is left out.
///
/// # Example
/// ```
/// assert_eq!(holdwater_physics::restrictor::load::force(2e4, 6e-3, 1e-3), 100.0);
/// ```
#[must_use]
pub fn force(pressure_difference: f64, bore_area: f64, open_area: f64) -> f64 {
    pressure_difference * (bore_area - open_area).max(0.0)
}

/// Pressure difference while a volume flow passes, Pa: at the start of the jet, with the flow of the nozzle.
///
/// # Equation
/// dp = 1/2 rho Q^2 K
///
/// # Symbols
/// rho density of what passes the holes, kg/m3; Q volume flow, m3/s; K [`super::pressure_loss::resistance`], 1/m4.
///
/// # Range
/// As the resistance.
///
/// # Source
/// ISO 5167-2:2003 (`iso5167`), permanent loss.
///
/// # Example
/// ```
/// assert_eq!(holdwater_physics::restrictor::load::difference_of_flow(10.0, 2e-3, 1e6), 20.0);
/// ```
#[must_use]
pub fn difference_of_flow(density: f64, flow: f64, resistance: f64) -> f64 {
    0.5 * density * flow * flow * resistance
}

/// Pressure difference at the start of the gas pulse, Pa.
///
/// # Equation
/// dp = (1 - y) p
///
/// # Symbols
/// p pressure above the plate, Pa; y [`sonic_share`](super::series::Throttle::sonic_share).
///
/// # Range
/// While the nozzle is sonic.
///
/// # Source
/// Two orifices in series (`naca1135`).
///
/// # Example
/// ```
/// assert_eq!(holdwater_physics::restrictor::load::difference_of_gas_pulse(4e5, 0.75), 1e5);
/// ```
#[must_use]
pub fn difference_of_gas_pulse(pressure_pa: f64, sonic_share: f64) -> f64 {
    (1.0 - sonic_share) * pressure_pa
}

/// Pressure difference at the start of filling the vessel with gas through the nozzle in a stated time, Pa; it lifts the plate.
///
/// # Equation
/// dp = 1/2 rho (V/t p/pa)^2 K
///
/// # Symbols
/// rho density of what passes the holes first, kg/m3: gas at the ambient pressure, or water while some stands on the plate; V volume of
/// gas above the plate, m3; p/pa fill pressure over the ambient one, absolute; t time, s; K resistance of the plate, 1/m4.
///
/// # Range
/// A constant mass flow, at its start, where the gas is thinnest and fastest: p/pa times the difference at the end. The gas that is in the
/// vessel before counts as let in as well, which is on the safe side. A fill that starts fast and slows is not covered: take its start.
///
/// # Source
/// ISO 5167-2:2003 (`iso5167`), permanent loss.
///
/// # Example
/// ```
/// let gas = holdwater_physics::restrictor::load::difference_of_filling(1.2, 1.5e-3, 11.0, 10.0, 1e7);
/// assert!((gas - 16.335).abs() < 1e-9);
/// ```
#[must_use]
pub fn difference_of_filling(density: f64, gas_volume: f64, pressure_ratio: f64, seconds: f64, resistance: f64) -> f64 {
    if seconds > 0.0 {
        difference_of_flow(density, gas_volume * pressure_ratio.max(1.0) / seconds, resistance)
    } else {
        f64::INFINITY
    }
}
