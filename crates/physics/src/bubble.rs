//! The gas finger: how fast a long bubble rises (here: sinks) past the water of a tube.

use crate::real::{exp, ln, pow, pow_near_one};
use crate::water::Water;

/// The four-parameter form of Viana et al. without its first parameter: 1/(1 + (x/b)^c)^d, from ln x and ln b.
fn falloff(ln_x: f64, ln_b: f64, c: f64, d: f64) -> f64 {
    pow_near_one(exp(c * (ln_x - ln_b)), -d)
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
    if eotvos <= SMALLEST_EOTVOS || buoyancy_reynolds <= 0.0 {
        return 0.0;
    }
    froude_from_logarithms(ln(eotvos), ln(buoyancy_reynolds))
}

/// Below this Eotvos number nothing rises, and the powers of the correlation would overflow.
const SMALLEST_EOTVOS: f64 = 1e-6;

/// ln 14.793, ln 29.868, ln 24.867, ln 31.08: the scales of the correlation.
const LN_SCALES: [f64; 4] =
    [2.694_154_095_910_098_7, 3.396_787_673_173_455_4, 3.213_541_623_277_498_7, 3.436_564_525_499_447];

/// [`froude`] from the logarithms of its arguments, which are linear in that of the acceleration.
fn froude_from_logarithms(ln_eotvos: f64, ln_reynolds: f64) -> f64 {
    let [ln_a, ln_b, ln_c, ln_31] = LN_SCALES;
    let a = 0.34 * falloff(ln_eotvos, ln_a, -3.06, 0.58);
    let b = falloff(ln_eotvos, ln_b, -1.96, -0.49);
    let c = -1.45 * falloff(ln_eotvos, ln_c, -9.93, -0.094);
    a * falloff(ln_reynolds, ln_31 + ln(b), c, -1.0295 / c)
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

/// A tube full of water, ready to be asked for bubble speeds at many accelerations.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tube {
    bore_m: f64,
    /// Eo = this times the acceleration.
    eotvos_per_acceleration: f64,
    ln_eotvos: f64,
    ln_reynolds: f64,
}

impl Tube {
    /// A tube of the given bore full of water.
    #[must_use]
    pub fn new(bore_m: f64, water: &Water) -> Self {
        let eotvos_per_acceleration = water.density * bore_m * bore_m / water.surface_tension;
        let reynolds = (bore_m * bore_m * bore_m).sqrt() * water.density / water.viscosity;
        Self { bore_m, eotvos_per_acceleration, ln_eotvos: ln(eotvos_per_acceleration), ln_reynolds: ln(reynolds) }
    }

    /// Speed of a long bubble, m/s.
    ///
    /// # Equation
    /// U = Fr sqrt(a D), Fr of [`froude`]
    ///
    /// # Symbols
    /// a acceleration, m/s2; D bore, m.
    ///
    /// # Range
    /// As [`froude`]; nought for a <= 0.
    ///
    /// # Source
    /// Viana et al. 2003 (`viana2003`); Dumitrescu 1943 gives 0.351 and Davies and Taylor 1950 0.328 for Fr.
    ///
    /// # Example
    /// ```
    /// use holdwater_physics::{bubble::Tube, water::Water};
    /// let water = Water { density: 998.2, surface_tension: 0.07274, viscosity: 1.0016e-3 };
    /// assert!((Tube::new(0.1, &water).bubble_speed(9.80665) - 0.33669).abs() < 1e-4);
    /// ```
    #[must_use]
    pub fn bubble_speed(&self, acceleration: f64) -> f64 {
        if acceleration * self.eotvos_per_acceleration <= SMALLEST_EOTVOS {
            return 0.0;
        }
        let ln_acceleration = ln(acceleration);
        let froude = froude_from_logarithms(self.ln_eotvos + ln_acceleration, self.ln_reynolds + 0.5 * ln_acceleration);
        froude * (acceleration * self.bore_m).sqrt()
    }
}
