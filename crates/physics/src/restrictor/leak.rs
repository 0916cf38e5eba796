//! How fast water leaks through holes while gas comes the other way.

use super::hold;
use crate::real::{exp, ln, pow_near_one};
use crate::water::Water;

/// Flow constant of one hole: (pi/4)/3.0, rounded as the model has it.
const EXCHANGE: f64 = 0.262;

/// More than passes any hole, m3/s, or than water ever feels, m/s2: it keeps products finite.
const MOST: f64 = 1e100;

/// ln 3805, the scale of the tension factor.
const LN_3805: f64 = 8.244071270295786;

/// Water that passes one hole downhill while as much gas passes it the other way, m3/s.
///
/// # Equation
/// Q = 0.262 sqrt(a d^5)
///
/// # Symbols
/// a acceleration that the water feels, m/s2; d diameter of the hole, m.
///
/// # Range
/// A closed vessel, a thin plate, little viscosity, gas of about 1.2 kg/m3, a hole much wider than surface tension can close.
/// Nought for a <= 0.
///
/// # Source
/// Clanet and Searby 2004 (`clanet2004`), from memory: their emptying time ([`emptying_time`]) as a flow.
///
/// # Example
/// ```
/// let flow = holdwater_physics::restrictor::leak::exchange_flow(9.80665, 0.05);
/// assert!((flow - 0.4586e-3).abs() < 1e-6);
/// ```
#[must_use]
pub fn exchange_flow(acceleration: f64, hole_m: f64) -> f64 {
    let squared = acceleration * hole_m * hole_m * hole_m * hole_m * hole_m;
    if acceleration > 0.0 && squared > 0.0 { (EXCHANGE * squared.sqrt()).min(MOST) } else { 0.0 }
}

/// Time in which a closed upright bottle empties through a central hole below, s.
///
/// # Equation
/// T = 3.0 L/sqrt(g D) (D/d)^(5/2)
///
/// # Symbols
/// L length of the water, m; D bore, m; d hole, m; g acceleration, m/s2.
///
/// # Range
/// As [`exchange_flow`]; infinite without a hole or an acceleration.
///
/// # Source
/// Clanet and Searby 2004 (`clanet2004`), from memory.
///
/// # Example
/// ```
/// let time = holdwater_physics::restrictor::leak::emptying_time(0.5, 0.1, 0.05, 9.80665);
/// assert!((time - 8.5685).abs() < 1e-3);
/// ```
#[must_use]
pub fn emptying_time(length_m: f64, bore_m: f64, hole_m: f64, gravity: f64) -> f64 {
    let ratio = bore_m / hole_m;
    let time = 3.0 * length_m / (gravity * bore_m).sqrt() * ratio * ratio * ratio.sqrt();
    if time.is_nan() { f64::INFINITY } else { time }
}

/// Speed, on the area of the hole, at which gas and water of equal volume pass each other, m/s.
///
/// # Equation
/// j = C^2 sqrt(a d (rho - rho_g))/(rho^(1/4) + rho_g^(1/4))^2, from sqrt(jg*) + sqrt(jl*) = C with j* = j sqrt(rho_k)/sqrt(a d (rho - rho_g))
///
/// # Symbols
/// C 0.725 for sharp ends; a acceleration, m/s2; d diameter, m; rho, rho_g densities of water and gas, kg/m3.
///
/// # Range
/// Vertical openings between about 10 and 100 mm; nought where the gas is the denser one.
///
/// # Source
/// Wallis 1969 (`wallis1969`), from memory.
///
/// # Example
/// ```
/// let speed = holdwater_physics::restrictor::leak::wallis_flux(0.725, 9.80665, 0.022, 998.2, 1.2);
/// assert!((speed - 0.173_407).abs() < 1e-6);
/// ```
#[must_use]
pub fn wallis_flux(constant: f64, acceleration: f64, hole_m: f64, density: f64, gas_density: f64) -> f64 {
    let drive = acceleration * hole_m * (density - gas_density);
    let root = fourth_root(density) + fourth_root(gas_density);
    if drive > 0.0 && root > 0.0 { (constant * constant * (drive.sqrt() / root / root)).max(0.0) } else { 0.0 }
}

/// x to the power 1/4; nought for negative x.
fn fourth_root(x: f64) -> f64 {
    x.max(0.0).sqrt().sqrt()
}

/// How much slower the exchange is because the gas is dense.
///
/// # Equation
/// [(1 + (rho_1/rho)^(1/4))/(1 + (rho_g/rho)^(1/4))]^2
///
/// # Symbols
/// rho density of water; rho_g of the gas; rho_1 of the gas at one atmosphere, where the exchange flow was measured, kg/m3.
///
/// # Range
/// Gas much lighter than water; 1 where the densities are not positive.
///
/// # Source
/// The form of Wallis 1969 (`wallis1969`), without its weak square root of the difference of densities.
///
/// # Example
/// ```
/// let factor = holdwater_physics::restrictor::leak::dense_gas_factor(998.2, 9.6, 1.2);
/// assert!((factor - 0.816).abs() < 1e-3);
/// ```
#[must_use]
pub fn dense_gas_factor(density: f64, gas_density: f64, gas_density_at_one_atmosphere: f64) -> f64 {
    let root = |gas: f64| 1.0 + fourth_root(gas / density);
    let ratio = root(gas_density_at_one_atmosphere) / root(gas_density);
    if ratio.is_finite() { ratio * ratio } else { 1.0 }
}

/// How much slower the exchange is because surface tension narrows the hole.
///
/// # Equation
/// (1 + 3805/Eo^3.06)^-0.58
///
/// # Symbols
/// Eo = rho a d^2/sigma of the hole.
///
/// # Range
/// That of long bubbles in tubes, Eo 6 to 1100, carried over to a hole; nought for Eo <= 0.
///
/// # Source
/// Viana et al. 2003 (`viana2003`), for tubes. That a hole behaves like a tube here is an assumption.
///
/// # Example
/// ```
/// let factor = holdwater_physics::restrictor::leak::tension_factor(13.458);
/// assert!((0.34 * factor - 0.20787).abs() < 1e-5);
/// ```
#[must_use]
pub fn tension_factor(eotvos: f64) -> f64 {
    if eotvos > 0.0 { pow_near_one(exp(LN_3805 - 3.06 * ln(eotvos)), -0.58) } else { 0.0 }
}

/// The leak of a plate, ready to be asked at many decelerations.
#[derive(Clone, Copy, Debug)]
pub struct Leak {
    /// Bond number over its limit = this times the deceleration.
    bond_over_limit: f64,
    /// Eo = this times the deceleration.
    eotvos: f64,
    /// Flow = this times the square root of the deceleration, before tension and trust.
    flow: f64,
    trusted_share: f64,
}

impl Leak {
    /// The leak of equal holes under water, with the gas that comes the other way.
    #[must_use]
    pub fn new(
        holes: u32,
        hole_m: f64,
        trusted_share: f64,
        water: &Water,
        gas_density: f64,
        gas_density_at_one_atmosphere: f64,
    ) -> Self {
        let bond = hold::bond(water.density, 1.0, hole_m, water.surface_tension);
        let dense = dense_gas_factor(water.density, gas_density, gas_density_at_one_atmosphere);
        Self {
            bond_over_limit: bond / hold::limit(holes),
            eotvos: 4.0 * bond,
            flow: f64::from(holes) * exchange_flow(1.0, hole_m) * dense,
            trusted_share,
        }
    }

    /// Bond number of a hole over its ideal limit.
    #[must_use]
    pub fn bond_over_limit(&self, deceleration: f64) -> f64 {
        self.bond_over_limit * deceleration
    }

    /// Deceleration up to which the holes hold, m/s2.
    #[must_use]
    pub fn holds_up_to(&self) -> f64 {
        if self.bond_over_limit > 0.0 {
            hold::trusted(self.trusted_share) / self.bond_over_limit
        } else {
            f64::INFINITY
        }
    }

    /// Water that leaks, m3/s.
    ///
    /// # Equation
    /// Q = N 0.262 sqrt(a d^5) Open(x) T(Eo) G: [`exchange_flow`], [`hold::open_share`], [`tension_factor`], [`dense_gas_factor`].
    ///
    /// # Symbols
    /// N number of holes; a deceleration, m/s2; d diameter of a hole, m; x Bond number over its limit.
    ///
    /// # Range
    /// Nought for a <= 0, and while the holes hold.
    ///
    /// # Source
    /// Clanet and Searby 2004 (`clanet2004`) with the factors of Viana et al. 2003 (`viana2003`) and Wallis 1969 (`wallis1969`).
    ///
    /// # Example
    /// ```
    /// use holdwater_physics::{restrictor::Leak, water::Water};
    /// let water = Water { density: 998.2, surface_tension: 0.07274, viscosity: 1.0016e-3 };
    /// let leak = Leak::new(1, 0.05, 0.5, &water, 1.2, 1.2);
    /// assert!((leak.rate(9.80665) - 0.4585e-3).abs() < 1e-6);
    /// ```
    #[must_use]
    pub fn rate(&self, deceleration: f64) -> f64 {
        if deceleration > 0.0 && self.flow > 0.0 {
            let a = deceleration.min(MOST);
            let open = hold::open_share(self.bond_over_limit * a, self.trusted_share);
            if open > 0.0 {
                return self.flow * a.sqrt() * open * tension_factor(self.eotvos * a);
            }
        }
        0.0
    }
}
