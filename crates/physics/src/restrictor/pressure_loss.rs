//! The pressure that a plate with holes takes from what flows through it.

use core::f64::consts::PI;

use super::held;
use crate::real::pow;

/// Ratio of diameters between which the orifice relations are used, whatever the plate is.
pub const BETA_RANGE: (f64, f64) = (0.1, 0.75);

/// Reynolds number of the vessel's bore below which the discharge coefficient is taken no further.
pub const LEAST_REYNOLDS: f64 = 5000.0;

/// More than any plate resists, 1/m4: it keeps pressures finite where there is no hole at all.
const MOST_RESISTANCE: f64 = 1e60;

/// Ratio of diameters of one orifice with the whole open area, before it is held in range.
///
/// # Equation
/// beta = sqrt(Ao/A)
///
/// # Symbols
/// Ao open area of all holes, m2; A area of the bore, m2.
///
/// # Range
/// Nought where the areas are not positive.
///
/// # Source
/// Definition (`iso5167`), with all holes taken as one.
///
/// # Example
/// ```
/// assert_eq!(holdwater_physics::restrictor::pressure_loss::beta(1.0, 4.0), 0.5);
/// ```
#[must_use]
pub fn beta(open_area: f64, bore_area: f64) -> f64 {
    let share = open_area / bore_area;
    if share > 0.0 { share.sqrt() } else { 0.0 }
}

/// A ratio of diameters held inside [`BETA_RANGE`].
fn held_beta(beta: f64) -> f64 {
    held(beta, BETA_RANGE.0, BETA_RANGE.1)
}

/// Reynolds number of a volume flow in the bore.
///
/// # Equation
/// Re = 4 rho Q/(pi mu D)
///
/// # Symbols
/// rho density, kg/m3; Q volume flow, m3/s; mu dynamic viscosity, Pa s; D bore, m.
///
/// # Range
/// Any.
///
/// # Source
/// Definition (`iso5167`).
///
/// # Example
/// ```
/// let re = holdwater_physics::restrictor::pressure_loss::reynolds(998.2, 2.5e-3, 1.0e-3, 0.088);
/// assert!((re - 36_107.0).abs() < 1.0);
/// ```
#[must_use]
pub fn reynolds(density: f64, flow: f64, viscosity: f64, bore_m: f64) -> f64 {
    4.0 * density * flow / (PI * viscosity * bore_m)
}

/// Discharge coefficient of a sharp-edged orifice with corner taps.
///
/// # Equation
/// C = 0.5961 + 0.0261 b^2 - 0.216 b^8 + 0.000521 (1e6 b/Re)^0.7 + (0.0188 + 0.0063 a) b^3.5 (1e6/Re)^0.3,
/// a = (19000 b/Re)^0.8; for bores below 71.12 mm + 0.011 (0.75 - b)(2.8 - D/25.4 mm)
///
/// # Symbols
/// b ratio of diameters; Re Reynolds number of the bore; D bore.
///
/// # Range
/// That of the standard is what [`in_range`] checks. Outside, b is held inside 0.1 to 0.75 and Re at 5000 or more. Corner taps make
/// the tap terms of the full equation vanish. One hole in the middle; several are taken as one of the same area.
///
/// # Source
/// ISO 5167-2:2003 (`iso5167`), Reader-Harris/Gallagher. Read in the documentation of a library; the factor 0.011 from its code.
///
/// # Example
/// ```
/// let c = holdwater_physics::restrictor::pressure_loss::reader_harris_gallagher(0.5, 1e5, 0.1);
/// assert!((c - 0.606_873_163_3).abs() < 1e-9);
/// ```
#[must_use]
pub fn reader_harris_gallagher(beta: f64, reynolds: f64, bore_m: f64) -> f64 {
    let b = held_beta(beta);
    let re = reynolds.max(LEAST_REYNOLDS);
    let b2 = b * b;
    let b8 = b2 * b2 * b2 * b2;
    let a = pow(19_000.0 * b / re, 0.8);
    let wide = 0.5961 + 0.0261 * b2 - 0.216 * b8
        + 0.000_521 * pow(1e6 * b / re, 0.7)
        + (0.0188 + 0.0063 * a) * b2 * b * b.sqrt() * pow(1e6 / re, 0.3);
    // A wall so near needs its own term; a bore below nothing counts as nothing.
    let inches = bore_m.max(0.0) / 0.0254;
    if inches < 2.8 { wide + 0.011 * (0.75 - b) * (2.8 - inches) } else { wide }
}

/// Share of the pressure difference across an orifice that is never recovered.
///
/// # Equation
/// omega = [sqrt(1 - b^4 (1 - C^2)) - C b^2]/[sqrt(1 - b^4 (1 - C^2)) + C b^2]
///
/// # Symbols
/// b ratio of diameters; C discharge coefficient.
///
/// # Range
/// b held inside 0.1 to 0.75, C inside 0 to 1.
///
/// # Source
/// ISO 5167-2:2003, 5.4 (`iso5167`).
///
/// # Example
/// ```
/// let share = holdwater_physics::restrictor::pressure_loss::permanent_loss_share(0.5, 0.606_873_163_3);
/// assert!((share - 0.731_894_073_5).abs() < 1e-9);
/// ```
#[must_use]
pub fn permanent_loss_share(beta: f64, discharge: f64) -> f64 {
    let b2 = held_beta(beta) * held_beta(beta);
    let c = held(discharge, 0.0, 1.0);
    let root = (1.0 - b2 * b2 * (1.0 - c * c)).sqrt();
    (root - c * b2) / (root + c * b2)
}

/// Loss coefficient of a thin sharp-edged perforated plate, on the speed in the whole bore.
///
/// # Equation
/// zeta = [1 - f + 0.707 sqrt(1 - f)]^2/f^2
///
/// # Symbols
/// f open share of the plate.
///
/// # Range
/// Reynolds number of the holes above 1e5; f from 0.02 to 1; f is held between 1e-6 and 1.
///
/// # Source
/// Idelchik 1966 (`idelchik1966`), from memory. Only to compare with [`resistance`].
///
/// # Example
/// ```
/// assert!((holdwater_physics::restrictor::pressure_loss::idelchik(0.25) - 29.693).abs() < 1e-3);
/// ```
#[must_use]
pub fn idelchik(open_fraction: f64) -> f64 {
    let f = held(open_fraction, 1e-6, 1.0);
    let root = (1.0 - f + 0.707 * (1.0 - f).sqrt()) / f;
    root * root
}

/// What a plate does to a flow, 1/m4: dp = 1/2 rho Q^2 times this.
///
/// # Equation
/// (1/(C Ao))^2 (1 - b^4) omega, omega of [`permanent_loss_share`]
///
/// # Symbols
/// C discharge coefficient; Ao open area, m2; b = sqrt(Ao/A); A area of the bore, m2; Q volume flow, m3/s; rho density, kg/m3.
///
/// # Range
/// Incompressible; b held inside 0.1 to 0.75, so that a plate that is nearly all hole still takes a little.
///
/// # Source
/// ISO 5167-2:2003 (`iso5167`), permanent loss with expansibility 1.
///
/// # Example
/// ```
/// use holdwater_physics::restrictor::pressure_loss::resistance;
/// // On the speed in the bore: 29.81 for half the diameter.
/// assert!((resistance(0.606_873_163_3, 0.25, 1.0) - 29.808_740).abs() < 1e-6);
/// ```
#[must_use]
pub fn resistance(discharge: f64, open_area: f64, bore_area: f64) -> f64 {
    let b = held_beta(beta(open_area, bore_area));
    let passes = discharge * open_area;
    if passes > 0.0 {
        let share = (1.0 - b * b * b * b) * permanent_loss_share(b, discharge);
        (share / passes / passes).min(MOST_RESISTANCE)
    } else {
        MOST_RESISTANCE
    }
}

/// Which limits of the standard a plate is outside of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct OutOfRange {
    /// The bore is not between 50 mm and 1 m.
    pub bore: bool,
    /// The ratio of diameters is not between 0.1 and 0.75.
    pub beta: bool,
    /// The hole is narrower than 12.5 mm.
    pub hole: bool,
    /// The Reynolds number is below 5000, or below 16000 b^2 for b > 0.56.
    pub reynolds: bool,
}

/// Whether the standard covers a plate.
///
/// # Equation
/// 50 mm <= D <= 1 m, 0.1 <= b <= 0.75, d >= 12.5 mm, Re >= 5000 for b <= 0.56 and Re >= 16000 b^2 above
///
/// # Symbols
/// D bore; b ratio of diameters, not held; d hole; Re Reynolds number of the bore.
///
/// # Range
/// Any.
///
/// # Source
/// ISO 5167-2:2003, 5.3.1 for corner taps (`iso5167`).
///
/// # Example
/// ```
/// use holdwater_physics::restrictor::pressure_loss::in_range;
/// assert!(in_range(0.088, 0.3, 0.026, 4e4).is_ok());
/// assert!(in_range(0.088, 0.3, 0.010, 4e4).is_err_and(|out| out.hole && !out.bore));
/// ```
///
/// # Errors
/// With a flag for each limit that is not kept.
pub fn in_range(bore_m: f64, beta_unclamped: f64, hole_m: f64, reynolds: f64) -> Result<(), OutOfRange> {
    let least = if beta_unclamped > 0.56 { 16_000.0 * beta_unclamped * beta_unclamped } else { LEAST_REYNOLDS };
    let out = OutOfRange {
        bore: !(0.05..=1.0).contains(&bore_m),
        beta: !(BETA_RANGE.0..=BETA_RANGE.1).contains(&beta_unclamped),
        hole: hole_m.is_nan() || hole_m < 0.0125,
        reynolds: reynolds.is_nan() || reynolds < least,
    };
    if out == OutOfRange::default() { Ok(()) } else { Err(out) }
}

/// Dynamic viscosity of air, Pa s.
///
/// # Equation
/// mu = 1.458e-6 T^1.5/(T + 110.4)
///
/// # Symbols
/// T temperature, K.
///
/// # Range
/// 100 to 1500 K; hardly changes with the pressures of a bottle. Nought for T <= 0.
///
/// # Source
/// Sutherland's formula with the constants of the US Standard Atmosphere 1976 (`ussa1976`).
///
/// # Example
/// ```
/// let mu = holdwater_physics::restrictor::pressure_loss::air_viscosity(288.15);
/// assert!((mu - 1.7894e-5).abs() < 1e-9);
/// ```
#[must_use]
pub fn air_viscosity(temperature_k: f64) -> f64 {
    let t = temperature_k.max(0.0);
    1.458e-6 * t * t.sqrt() / (t + 110.4)
}
