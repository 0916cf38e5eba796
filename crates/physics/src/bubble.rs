//! The gas finger: how fast a long bubble rises (here: sinks) past the water of a tube.

use crate::real::pow;

/// The four-parameter form of Viana et al.: L(x) = a/(1 + (x/b)^c)^d.
fn logistic(x: f64, a: f64, b: f64, c: f64, d: f64) -> f64 {
    a / pow(1.0 + pow(x / b, c), d)
}

/// Froude number U/sqrt(a D) of a long bubble in a round tube.
///
/// # Equation
/// Fr = A/(1 + (Rv/B)^C)^G with A, B, C functions of Eo of the same form and G = -1.0295/C.
///
/// # Symbols
/// Eo = rho a D^2/sigma (Eotvos number); Rv = sqrt(D^3 a) rho/mu (buoyancy Reynolds number); a acceleration, m/s2; D bore, m.
///
/// # Range
/// The data cover Eo 6 to 1100 and all Rv; towards Eo = 3.4 the correlation falls to a few percent instead of to
/// nought, which is kept: it errs towards water that moves.
///
/// # Source
/// Viana et al. 2003 (`viana2003`): limits for large and small Rv as printed in the abstract; the constants of the
/// full form from memory.
///
/// # Example
/// ```
/// let fr = holdwater_physics::bubble::froude(1345.75, 98_633.0);
/// assert!((fr - 0.34000).abs() < 5e-5);
/// ```
#[must_use]
pub fn froude(eotvos: f64, buoyancy_reynolds: f64) -> f64 {
    if eotvos <= 0.0 || buoyancy_reynolds <= 0.0 {
        return 0.0;
    }
    let a = logistic(eotvos, 0.34, 14.793, -3.06, 0.58);
    let b = logistic(eotvos, 31.08, 29.868, -1.96, -0.49);
    let c = logistic(eotvos, -1.45, 24.867, -9.93, -0.094);
    a / pow(1.0 + pow(buoyancy_reynolds / b, c), -1.0295 / c)
}

/// Froude number for large Rv, where viscosity does not count.
///
/// # Equation
/// Fr = 0.34/(1 + 3805/Eo^3.06)^0.58
///
/// # Symbols
/// Eo Eotvos number.
///
/// # Range
/// Rv > 200.
///
/// # Source
/// Viana et al. 2003, abstract (`viana2003`).
///
/// # Example
/// ```
/// assert!((holdwater_physics::bubble::froude_inertial(65.134) - 0.33790).abs() < 1e-5);
/// ```
#[must_use]
pub fn froude_inertial(eotvos: f64) -> f64 {
    0.34 / pow(1.0 + 3805.0 / pow(eotvos, 3.06), 0.58)
}

/// Speed of a long bubble in water, m/s: U = Fr sqrt(a D).
///
/// # Equation
/// U = Fr sqrt(a D)
///
/// # Symbols
/// a acceleration, m/s2; D bore, m; rho density, kg/m3; sigma surface tension, N/m; mu viscosity, Pa s.
///
/// # Range
/// As [`froude`]; nought for a <= 0.
///
/// # Source
/// Viana et al. 2003 (`viana2003`); Dumitrescu 1943 gives 0.351 and Davies and Taylor 1950 0.328 for Fr.
///
/// # Example
/// ```
/// use holdwater_physics::{bubble, water::Water};
/// let water = Water { density: 998.2, surface_tension: 0.07274, viscosity: 1.0016e-3 };
/// assert!((bubble::speed(9.80665, 0.1, &water) - 0.33669).abs() < 1e-4);
/// ```
#[must_use]
pub fn speed(acceleration: f64, bore_m: f64, water: &crate::water::Water) -> f64 {
    if acceleration <= 0.0 {
        return 0.0;
    }
    let eotvos = water.density * acceleration * bore_m * bore_m / water.surface_tension;
    let reynolds = (bore_m * bore_m * bore_m * acceleration).sqrt() * water.density / water.viscosity;
    froude(eotvos, reynolds) * (acceleration * bore_m).sqrt()
}
