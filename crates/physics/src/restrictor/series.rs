//! Gas that passes the holes of a plate and then a nozzle: two orifices in series, the vessel's temperature in front of both.
//!
//! The flight ([`crate::blowdown`]) and the load on the plate both ask here. Mass flow and thrust of the nozzle itself are in [`crate::gas`].
//!
//! Everything is said by two ratios of temperature, because powers of these are products for gamma = 7/5. With the pressures p in the
//! vessel, pi below the plate and pa outside,
//!
//! * e = (pa/pi)^((gamma-1)/gamma), the exit temperature over that of the vessel,
//! * z = (pi/p)^((gamma-1)/gamma), the same for the holes.

use super::held;
use crate::gas::CRITICAL_RATIO;
use crate::real::pow;

/// Ratio of temperatures at which an orifice becomes sonic: 2/(gamma + 1).
const SONIC: f64 = 5.0 / 6.0;

/// (z^5 (1 - z)) at that ratio: the square of the greatest flow of an orifice, on the scale of [`Throttle::passage`].
const GREATEST_FLOW: f64 = SONIC * SONIC * SONIC * SONIC * SONIC * (1.0 - SONIC);

/// Holes in front of a nozzle.
///
/// # Equation
/// Ao p Psi(pi/p) = An pi Psi(pa/pi), with Psi the mass flow of an isentropic orifice per area p/sqrt(R T), constant below the critical ratio
///
/// # Symbols
/// p, pi, pa pressures above the plate, below it and outside, Pa; Ao, An effective areas (discharge coefficient times area) of holes
/// and nozzle, m2.
///
/// # Range
/// Any areas: nothing through nothing counts as wide holes. Ideal gas of gamma = 7/5.
///
/// # Source
/// Equal mass flow and equal stagnation temperature in both (`naca1135` for Psi).
///
/// # Example
/// ```
/// use holdwater_physics::restrictor::series::Throttle;
/// // Holes of the nozzle's own area take a fifth of the pressure while the nozzle is sonic.
/// let throttle = Throttle::new(1e-4, 1e-4);
/// assert!((throttle.sonic_share - 0.8075).abs() < 1e-4);
/// assert_eq!(throttle.share(5.0), throttle.sonic_share);
/// assert_eq!(throttle.share(1.0), 1.0);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Throttle {
    /// Square of the nozzle's effective area over that of the holes.
    area_ratio_squared: f64,
    /// Pressure below the plate over that above it while the nozzle is sonic.
    pub sonic_share: f64,
}

impl Throttle {
    /// Holes and nozzle of the effective areas given, m2.
    #[must_use]
    pub fn new(holes_area: f64, nozzle_area: f64) -> Self {
        // Held where its powers stay finite.
        let ratio = held(nozzle_area / holes_area, 0.0, 1e30);
        let mut this = Self { area_ratio_squared: ratio * ratio, sonic_share: 1.0 };
        let z = this.passage(SONIC).0;
        this.sonic_share = z * z * z * z.sqrt();
        this
    }

    /// The ratio z of temperatures over the holes for a ratio e over a nozzle that is not sonic, and (dz/de)/z.
    ///
    /// # Equation
    /// z^5 (1 - z)/z^7 = q, q = k^2 e^5 (1 - e), hence z = (sqrt(1 + 4 q) - 1)/(2 q); where that is below 5/6 the holes are sonic and
    /// z^7 = (5/6)^5 (1/6)/q.
    ///
    /// # Symbols
    /// k effective area of the nozzle over that of the holes; e, z as at the head of this module.
    ///
    /// # Range
    /// e from 5/6 to 1; no heat to the walls; the dynamic pressure of what leaves the holes is lost.
    ///
    /// # Source
    /// The isentropic orifice of NACA Report 1135 (`naca1135`), twice, with equal mass flow and equal stagnation temperature.
    ///
    /// # Example
    /// ```
    /// use holdwater_physics::restrictor::series::Throttle;
    /// // Holes as wide as the nozzle, little flow: each takes half of the pressure.
    /// let (z, _) = Throttle::new(1e-4, 1e-4).passage(1.0 - 1e-6);
    /// assert!(((1.0 - z) / 1e-6 - 1.0).abs() < 1e-4);
    /// ```
    #[must_use]
    pub fn passage(&self, e: f64) -> (f64, f64) {
        self.passage_at(e, 1.0 - e)
    }

    /// The same where 1 - e is known without the loss of digits that the difference has.
    fn passage_at(&self, e: f64, spent: f64) -> (f64, f64) {
        let e4 = e * e * e * e;
        let q = self.area_ratio_squared * e4 * e * spent;
        let q_slope = self.area_ratio_squared * e4 * (5.0 - 6.0 * e);
        let root = (1.0 + 4.0 * q).sqrt();
        // (sqrt(1 + 4 q) - 1)/(2 q) without its cancellation.
        let z = 2.0 / (1.0 + root);
        if z >= SONIC { (z, -q_slope * z / root) } else { (pow(GREATEST_FLOW / q, 1.0 / 7.0), -q_slope / (7.0 * q)) }
    }

    /// Share f = sqrt(1 - e) of the greatest possible exit speed at which gas leaves, when the ambient pressure stands for a share e z of the
    /// vessel's temperature.
    #[must_use]
    pub fn exit_share(&self, both: f64) -> f64 {
        // e z falls from 1 while f rises; the nozzle is not sonic, so that f ends at sqrt(1/6). Halving: once per blow-down.
        let (mut low, mut high) = (0.0, (1.0 - SONIC).sqrt());
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            let spent = middle * middle;
            if (1.0 - spent) * self.passage_at(1.0 - spent, spent).0 > both {
                low = middle;
            } else {
                high = middle;
            }
        }
        0.5 * (low + high)
    }

    /// That share where the vessel's temperature is within a small share of the one that belongs to the ambient pressure.
    #[must_use]
    pub fn end_of_pulse(&self, share: f64) -> f64 {
        (share / (1.0 + self.area_ratio_squared)).sqrt()
    }

    /// Whether the nozzle is sonic at a pressure in the vessel over the ambient one.
    #[must_use]
    pub fn sonic(&self, over: f64) -> bool {
        CRITICAL_RATIO * over * self.sonic_share > 1.0
    }

    /// Pressure below the plate over that above it, at a pressure in the vessel over the ambient one.
    #[must_use]
    pub fn share(&self, over: f64) -> f64 {
        if over.is_nan() || over <= 1.0 {
            return 1.0;
        }
        if self.sonic(over) {
            return self.sonic_share;
        }
        let f = self.exit_share(pow(over, -2.0 / 7.0));
        let z = self.passage_at(1.0 - f * f, f * f).0;
        z * z * z * z.sqrt()
    }
}
