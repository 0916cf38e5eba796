//! Why the same share of open area does one thing in a small tube and another in a large vessel.
//!
//! What holds is a hole, not a share: surface tension knows the diameter of one hole and nothing of the plate around it. So
//! a share of open area that holds in a narrow tube, carried over to a wide vessel, is a wider hole, and leaks.

use super::hold::{self, Verdict};
use super::leak::Leak;
use crate::rocket::circle_area;
use crate::water::Water;

/// A plate in a tube or vessel that slows down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Case {
    /// Inner diameter of tube or vessel, m.
    pub bore_m: f64,
    /// Diameter of each hole, m.
    pub hole_m: f64,
    /// Number of equal holes.
    pub holes: u32,
    /// Deceleration that the water feels, m/s2.
    pub deceleration: f64,
    /// Share of the ideal limit that is trusted.
    pub trusted_share: f64,
}

/// What the water in a [`Case`] does, in numbers that compare.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measures {
    /// Open area over the area of the bore.
    pub open_fraction: f64,
    /// Bond number of a hole over its ideal limit.
    pub bond_over_limit: f64,
    /// Whether the holes hold.
    pub verdict: Verdict,
    /// Eo = rho a D^2/sigma of the bore: how little surface tension counts in the vessel as a whole.
    pub eotvos_of_bore: f64,
    /// sqrt(D/a), s: how fast things happen; infinite without a deceleration.
    pub time_scale: f64,
    /// Leak over the area of the bore, m/s: how fast a standing height shrinks, with gas of one atmosphere.
    pub leak_speed: f64,
}

impl Measures {
    /// Time in which a standing height of water has leaked away, s; `None` if it stays.
    #[must_use]
    pub fn time_to_empty(&self, height_m: f64) -> Option<f64> {
        let time = height_m / self.leak_speed;
        (self.leak_speed > 0.0 && time.is_finite()).then_some(time)
    }
}

/// Open area over the area of a bore; nought without a bore.
fn open_fraction(holes: u32, hole_m: f64, bore_m: f64) -> f64 {
    let share = hole_m / bore_m;
    let fraction = f64::from(holes) * share * share;
    if fraction.is_finite() { fraction } else { 0.0 }
}

impl Case {
    /// A case with one hole of a share of the area, the way such plates are talked about.
    ///
    /// # Equation
    /// d = D sqrt(f)
    ///
    /// # Symbols
    /// D bore, m; f open share of the area.
    ///
    /// # Range
    /// f from 0 to 1; it is held there.
    ///
    /// # Source
    /// Definition.
    ///
    /// # Example
    /// ```
    /// use holdwater_physics::restrictor::similarity::Case;
    /// assert_eq!(Case::with_open_fraction(0.1, 0.25, 9.8, 0.5).hole_m, 0.05);
    /// ```
    #[must_use]
    pub fn with_open_fraction(bore_m: f64, open_fraction: f64, deceleration: f64, trusted_share: f64) -> Self {
        let hole_m = bore_m * super::held(open_fraction, 0.0, 1.0).sqrt();
        Self { bore_m, hole_m, holes: 1, deceleration, trusted_share }
    }

    /// Bond number of a hole over its ideal limit.
    fn bond_over_limit(&self, water: &Water) -> f64 {
        hold::bond(water.density, self.deceleration, self.hole_m, water.surface_tension) / hold::limit(self.holes)
    }

    /// The numbers that compare one case with another.
    ///
    /// # Equation
    /// f = N (d/D)^2; x = Bo/limit; Eo = rho a D^2/sigma; t = sqrt(D/a); w = Q/(pi D^2/4)
    ///
    /// # Symbols
    /// As the fields of [`Measures`]; Q the leak of [`Leak::rate`] with gas of one atmosphere.
    ///
    /// # Range
    /// Any.
    ///
    /// # Source
    /// Definitions; the limits of [`hold`] (`maxwell1911`) and the leak of Clanet and Searby 2004 (`clanet2004`).
    ///
    /// # Example
    /// ```
    /// use holdwater_physics::{restrictor::similarity::Case, water::Water};
    /// let tube = Case { bore_m: 0.026, hole_m: 0.013, holes: 1, deceleration: 9.80665, trusted_share: 0.5 };
    /// let measures = tube.measures(&Water::at(293.15, None));
    /// assert_eq!(measures.open_fraction, 0.25);
    /// assert!(measures.time_to_empty(0.1).is_none());
    /// ```
    #[must_use]
    pub fn measures(&self, water: &Water) -> Measures {
        let leak = Leak::new(self.holes, self.hole_m, self.trusted_share, water, 1.0, 1.0);
        let speed = leak.rate(self.deceleration) / circle_area(self.bore_m);
        let x = self.bond_over_limit(water);
        let time = (self.bore_m.max(0.0) / self.deceleration.max(0.0)).sqrt();
        Measures {
            open_fraction: open_fraction(self.holes, self.hole_m, self.bore_m),
            bond_over_limit: x,
            verdict: hold::verdict(x, self.trusted_share),
            eotvos_of_bore: 4.0 * hold::bond(water.density, self.deceleration, self.bore_m, water.surface_tension),
            time_scale: if time.is_finite() { time } else { f64::INFINITY },
            leak_speed: if speed.is_finite() { speed } else { 0.0 },
        }
    }
}

/// What would make a small tube a fair test of a vessel: the same Bond number over its limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FairTest {
    /// The hole for the tube, at the tube's own deceleration, m.
    pub hole_m: f64,
    /// The share of the tube that those holes would open; above 1 they do not fit.
    pub open_fraction: f64,
    /// The deceleration at which the tube's own hole would be a fair test, m/s2.
    pub deceleration: f64,
    /// The bore in which the vessel's open share would be a fair test, at the tube's deceleration, m.
    pub bore_m: f64,
}

/// How a small tube could be a fair test of a vessel, with the same water in both; `None` where a hole or a deceleration is nought.
///
/// # Equation
/// x = rho a d^2/(4 sigma limit) alike: d = dv sqrt(av Lt/(at Lv)), a = av (dv/dt)^2 Lt/Lv, D = d sqrt(Nt/fv)
///
/// # Symbols
/// v vessel, t tube; a deceleration, m/s2; d hole, m; L ideal limit of the Bond number, which is lower for several holes; N number of holes; f open
/// share.
///
/// # Range
/// Same water, same sharpness of edges. Only whether it holds is carried over; how fast it leaks is not.
///
/// # Source
/// Equal Bond number ([`super::hold::bond`], `maxwell1911`).
///
/// # Example
/// ```
/// use holdwater_physics::restrictor::similarity::{Case, fair_test};
/// let vessel = Case::with_open_fraction(0.104, 0.25, 20.0, 0.5);
/// let tube = Case::with_open_fraction(0.026, 0.25, 20.0, 0.5);
/// let fair = fair_test(&vessel, &tube).unwrap();
/// // At a quarter of the size, four times the hole or sixteen times the deceleration.
/// assert_eq!((fair.hole_m, fair.open_fraction, fair.deceleration, fair.bore_m), (0.052, 4.0, 320.0, 0.104));
/// ```
#[must_use]
pub fn fair_test(vessel: &Case, tube: &Case) -> Option<FairTest> {
    let limits = hold::limit(tube.holes) / hold::limit(vessel.holes);
    let hole_m = vessel.hole_m * (vessel.deceleration / tube.deceleration * limits).sqrt();
    let holes = vessel.hole_m / tube.hole_m;
    let share = open_fraction(vessel.holes, vessel.hole_m, vessel.bore_m);
    let fair = FairTest {
        hole_m,
        open_fraction: open_fraction(tube.holes, hole_m, tube.bore_m),
        deceleration: vessel.deceleration * holes * holes * limits,
        bore_m: hole_m * (f64::from(tube.holes) / share).sqrt(),
    };
    let numbers = [fair.hole_m, fair.open_fraction, fair.deceleration, fair.bore_m];
    numbers.iter().all(|x| x.is_finite() && *x > 0.0).then_some(fair)
}
