//! Holes and nozzle as two orifices in series, through which the gas leaves.
//!
//! Both see the same total temperature, and the stream between them loses its speed. Then with gamma = 1.4 the pressure
//! between them follows from a square root while one of them is sonic, and from a polynomial of degree five when none is.

use super::held;
use crate::constants::GAMMA;
use crate::gas::{CHOKED_FACTOR, CRITICAL_RATIO};
use crate::real::{exp_m1, ln};

/// (gamma - 1)/gamma, the exponent of an isentropic temperature.
const EXPONENT: f64 = (GAMMA - 1.0) / GAMMA;

/// Part of the heat content that a sonic throat has turned into speed: (gamma - 1)/(gamma + 1).
const SONIC: f64 = (GAMMA - 1.0) / (GAMMA + 1.0);

/// Square of the largest mass flow function: gamma (2/(gamma + 1))^((gamma + 1)/(gamma - 1)).
const CHOKED_SQUARED: f64 = GAMMA * CHOKED_FACTOR * CHOKED_FACTOR;

/// 2 gamma/(gamma - 1): square of the speed into a vacuum, over R T.
const VACUUM: f64 = 2.0 / EXPONENT;

/// Mass flow of an isentropic orifice over A p/sqrt(R T).
///
/// # Equation
/// Psi = sqrt(2 gamma/(gamma-1) (r^(2/gamma) - r^((gamma+1)/gamma))), constant below r = 0.528282
///
/// # Symbols
/// r pressure behind over total pressure ahead; A effective area, m2; p, T total pressure and temperature ahead.
///
/// # Range
/// Ideal gas with gamma = 1.4; r is held between 0 and 1.
///
/// # Source
/// NACA Report 1135 (1953) (`naca1135`).
///
/// # Example
/// ```
/// use holdwater_physics::restrictor::series::mass_flow_function;
/// assert!((mass_flow_function(0.0) - 0.684_731).abs() < 1e-6);
/// assert_eq!(mass_flow_function(1.0), 0.0);
/// ```
#[must_use]
pub fn mass_flow_function(r: f64) -> f64 {
    if r < CRITICAL_RATIO {
        return CHOKED_SQUARED.sqrt();
    }
    if r < 1.0 { flow_of_speed(kinetic(r)) } else { 0.0 }
}

/// Share of the heat content turned into speed by an expansion to a pressure ratio: 1 - r^((gamma-1)/gamma).
///
/// Without the loss of digits near r = 1, and nought for r >= 1 or what is not a number.
fn kinetic(r: f64) -> f64 {
    if r > 0.0 { (-exp_m1(EXPONENT * ln(r))).max(0.0) } else { 1.0 }
}

/// The pressure ratio of an expansion that leaves a share of the heat content: its power gamma/(gamma-1) = 7/2.
fn ratio(left: f64) -> f64 {
    left * left * left * left.max(0.0).sqrt()
}

/// Mass flow over A p/sqrt(R T) when a share of the heat content has become speed: sqrt(VACUUM s) (1 - s)^(5/2).
fn flow_of_speed(s: f64) -> f64 {
    let left = 1.0 - s;
    left * left * (VACUUM * s * left).sqrt()
}

/// Effective area of the nozzle over that of the holes, held where its powers stay finite.
fn narrowness(holes_area: f64, nozzle_area: f64) -> f64 {
    let k = nozzle_area / holes_area;
    // Nothing through nothing counts as wide holes.
    held(k, 0.0, 1e30)
}

/// Pressure below the plate over that above, when the holes have to pass c times A p/sqrt(R T) at the pressure below.
///
/// Psi(y)/y = c. With u the share turned into speed in the holes, (1-u) c = sqrt(VACUUM u), which is a quadratic in sqrt u.
fn share_that_passes(c: f64) -> f64 {
    let speed = 2.0 * c / (VACUUM.sqrt() + (VACUUM + 4.0 * c * c).sqrt());
    let u = speed * speed;
    if u < SONIC { ratio(1.0 - u) } else { (CHOKED_SQUARED.sqrt() / c).min(1.0) }
}

/// Pressure between holes and nozzle over that above the plate, while the nozzle is sonic.
///
/// # Equation
/// Psi(y)/y = (An/Ao) Psi(0)
///
/// # Symbols
/// y the share; An, Ao effective areas (discharge coefficient times area) of nozzle and holes, m2; Psi [`mass_flow_function`].
///
/// # Range
/// Any areas; it does not depend on the pressure.
///
/// # Source
/// Equal mass flow through both (`naca1135` for Psi).
///
/// # Example
/// ```
/// use holdwater_physics::restrictor::series::sonic_share;
/// // Holes of the nozzle's own area: the pressure falls by a fifth.
/// let share = sonic_share(1e-4, 1e-4);
/// assert!((share - 0.8075).abs() < 1e-4);
/// ```
#[must_use]
pub fn sonic_share(holes_area: f64, nozzle_area: f64) -> f64 {
    share_that_passes(narrowness(holes_area, nozzle_area) * CHOKED_SQUARED.sqrt())
}

/// Pressure between holes and nozzle over that above the plate, from the nozzle's own pressure ratio.
///
/// # Equation
/// Psi(y)/y = (An/Ao) Psi(r), solved in closed form
///
/// # Symbols
/// y the share; r = pa/pi ambient pressure over that between holes and nozzle; An, Ao effective areas, m2.
///
/// # Range
/// Any areas; r >= 1 passes nothing, y = 1.
///
/// # Source
/// Equal mass flow through both (`naca1135` for Psi).
///
/// # Example
/// ```
/// use holdwater_physics::restrictor::series::{mass_flow_function, share_below};
/// let y = share_below(2e-4, 1e-4, 0.8);
/// assert!((mass_flow_function(y) / y - 0.5 * mass_flow_function(0.8)).abs() < 1e-14);
/// ```
#[must_use]
pub fn share_below(holes_area: f64, nozzle_area: f64, nozzle_back_pressure_ratio: f64) -> f64 {
    share_that_passes(narrowness(holes_area, nozzle_area) * mass_flow_function(nozzle_back_pressure_ratio))
}

/// Pressure between holes and nozzle over that above the plate, from the ambient pressure.
///
/// # Equation
/// Psi(y) = (An/Ao) y Psi(z/y). Nozzle sonic: [`sonic_share`]. Holes sonic: a quadratic. Neither: with s the share of the heat
/// content turned into speed in the nozzle and Z = z^(2/7), 1 - s - Z = (An/Ao)^2 Z^2 s (1 - s)^4.
///
/// # Symbols
/// y the share; z = pa/p ambient pressure over that above the plate; An, Ao effective areas, m2.
///
/// # Range
/// Any areas; z >= 1 passes nothing, y = 1.
///
/// # Source
/// Equal mass flow through both (`naca1135` for Psi).
///
/// # Example
/// ```
/// use holdwater_physics::restrictor::series::{share_below, share_between};
/// let y = share_between(2e-4, 1e-4, 0.8);
/// assert!((share_below(2e-4, 1e-4, 0.8 / y) - y).abs() < 1e-13);
/// ```
#[must_use]
pub fn share_between(holes_area: f64, nozzle_area: f64, ambient_ratio: f64) -> f64 {
    let sonic = sonic_share(holes_area, nozzle_area);
    if ambient_ratio <= CRITICAL_RATIO * sonic {
        return sonic;
    }
    if ambient_ratio.is_nan() || ambient_ratio >= 1.0 {
        return 1.0;
    }
    let k2 = narrowness(holes_area, nozzle_area) * narrowness(holes_area, nozzle_area);
    // Holes sonic, nozzle not: Psi(0) = k z (VACUUM s)^(1/2)/(1 - s), a quadratic in t = 1 - s.
    let m = VACUUM * k2 * ambient_ratio * ambient_ratio / CHOKED_SQUARED;
    let t = 2.0 / (1.0 + (1.0 + 4.0 / m).sqrt());
    let share = ambient_ratio / ratio(t);
    if share <= CRITICAL_RATIO {
        return share;
    }
    (ambient_ratio / ratio(1.0 - unchoked_speed(k2, ambient_ratio))).min(1.0)
}

/// The share turned into speed in the nozzle, when neither is sonic.
///
/// Where the nozzle is not sonic the polynomial falls and is hollow, so that Newton's method from s = 0 comes up from below and
/// never passes the root.
fn unchoked_speed(k2: f64, z: f64) -> f64 {
    let excess = kinetic(z);
    let heat = (1.0 - excess) * (1.0 - excess) * k2;
    let mut s = 0.0;
    for _ in 0..40 {
        let t = 1.0 - s;
        let t3 = t * t * t;
        let step = (excess - s - heat * s * t3 * t) / (1.0 + heat * t3 * (1.0 - 5.0 * s));
        s = held(s + step, 0.0, SONIC);
        // Near the end the sum is rounding, and a step down is the sign of it.
        if step <= 1e-16 * s {
            break;
        }
    }
    s
}
