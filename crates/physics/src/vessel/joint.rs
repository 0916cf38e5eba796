//! Bonded overlaps and pinned closures.

use core::f64::consts::PI;

use crate::real::{exp, tanh};

/// A bonded overlap, per metre of width.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Overlap {
    /// Overlap length, m.
    pub length_m: f64,
    /// Wall times modulus of adherend 1, N/m.
    pub first_n_m: f64,
    /// Wall times modulus of adherend 2, N/m.
    pub second_n_m: f64,
    /// Shear modulus of the adhesive, Pa.
    pub shear_modulus_pa: f64,
    /// Thickness of the adhesive, m.
    pub adhesive_m: f64,
}

impl Overlap {
    /// Half the overlap over the length in which load passes from wall to wall: w l/2.
    fn half_lengths(&self) -> f64 {
        let compliance = 1.0 / self.first_n_m + 1.0 / self.second_n_m;
        0.5 * self.length_m * (self.shear_modulus_pa / self.adhesive_m * compliance).sqrt()
    }

    /// (psi - 1)/(psi + 1) with psi = E2 t2/(E1 t1): 0 when balanced.
    fn imbalance(&self) -> f64 {
        (self.second_n_m - self.first_n_m) / (self.second_n_m + self.first_n_m)
    }
}

/// Mean shear in the bond of a splice or sleeve that carries the end load of a cylinder, Pa.
///
/// # Equation
/// tau = p r/(2 l)
///
/// # Symbols
/// p gauge pressure, Pa; r radius of the bond, l overlap on one side of the seam, m.
///
/// # Range
/// The whole overlap bonded, without voids.
///
/// # Source
/// Statics: p pi r^2 on 2 pi r l.
///
/// # Example
/// ```
/// assert!((holdwater_physics::vessel::joint::mean_shear(1e6, 0.044, 0.022) - 1e6).abs() < 1e-6);
/// ```
#[must_use]
pub fn mean_shear(pressure_pa: f64, radius_m: f64, overlap_m: f64) -> f64 {
    pressure_pa * radius_m / (2.0 * overlap_m)
}

/// Shear at a place of a bonded overlap over the mean shear.
///
/// # Equation
/// tau/tau_m = (w l/2) [cosh(w x)/sinh(w l/2) + (psi - 1)/(psi + 1) sinh(w x)/cosh(w l/2)],
/// w^2 = (Ga/ta)(1/(E1 t1) + 1/(E2 t2)), psi = E2 t2/(E1 t1)
///
/// # Symbols
/// l overlap, x place from its middle, m, from -l/2 (adherend 2 carries all) to l/2 (adherend 1 carries all); Ga, ta shear modulus and thickness
/// of the adhesive, Pa, m; E, t modulus and wall of the adherends, Pa, m.
///
/// # Range
/// Elastic adhesive and adherends, shear alone: bending of the joint and peel come on top and are not in it.
///
/// # Source
/// Volkersen 1938 (`volkersen1938`); from memory.
///
/// # Example
/// ```
/// use holdwater_physics::vessel::joint::{Overlap, shear_at};
/// let plate = 70e9 * 1.6e-3;
/// let overlap = Overlap { length_m: 0.0125, first_n_m: plate, second_n_m: plate, shear_modulus_pa: 1e9, adhesive_m: 0.2e-3 };
/// assert!((shear_at(&overlap, 0.00625) - 1.9588856).abs() < 1e-7);
/// ```
#[must_use]
pub fn shear_at(overlap: &Overlap, place_m: f64) -> f64 {
    let half = overlap.half_lengths();
    let place = (2.0 * place_m / overlap.length_m).clamp(-1.0, 1.0) * half;
    // Quotients of hyperbolic functions by falling exponentials, so that long overlaps do not overflow.
    let (rising, falling, whole) = (exp(place.abs() - half), exp(-place.abs() - half), exp(-2.0 * half));
    let even = (rising + falling) / (1.0 - whole);
    let odd = (rising - falling) / (1.0 + whole) * place.signum();
    half * (even + overlap.imbalance() * odd)
}

/// Greatest shear in a bonded overlap over the mean shear; it is at the end where the softer adherend carries all.
///
/// # Equation
/// (w l/2) [coth(w l/2) + |psi - 1|/(psi + 1) tanh(w l/2)]
///
/// # Symbols
/// As in [`shear_at`].
///
/// # Range
/// As in [`shear_at`]. A ductile adhesive evens it out before it breaks, which is not counted.
///
/// # Source
/// Volkersen 1938 (`volkersen1938`); from memory.
///
/// # Example
/// ```
/// use holdwater_physics::vessel::joint::{Overlap, peak_ratio};
/// let plate = 70e9 * 1.6e-3;
/// let overlap = Overlap { length_m: 0.025, first_n_m: plate, second_n_m: plate, shear_modulus_pa: 1e9, adhesive_m: 0.2e-3 };
/// assert!((1.6 * peak_ratio(&overlap) - 5.9829577).abs() < 1e-6);
/// ```
#[must_use]
pub fn peak_ratio(overlap: &Overlap) -> f64 {
    let half = overlap.half_lengths();
    let end = tanh(half);
    half * (1.0 / end + overlap.imbalance().abs() * end)
}

/// Stresses of a closure held by radial pins, per pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PinStress {
    /// Shear in each pin, cut once.
    pub shear: f64,
    /// Bearing of the pin on the tube.
    pub bearing: f64,
    /// Shear of the two strips from the pin to the edge, counted from the rim of the hole.
    pub tear_out: f64,
    /// The same counted from the centre of the hole, as some books do; less safe.
    pub tear_out_from_centre: f64,
    /// Tension of the tube between the holes.
    pub net_section: f64,
}

/// Stresses of a closure held by radial pins or bolts, per pressure.
///
/// # Equation
/// F = p pi D^2/4; shear F/(N pi d^2/4), bearing F/(N d t), tear-out F/(2 N (e - d/2) t), net section F/((pi (D + t) - N d) t)
///
/// # Symbols
/// D bore, t wall of the tube, d pin, e centre of the hole to the edge, m; N number of pins in one row.
///
/// # Range
/// Pins that share the load evenly, e > d/2, N d < pi (D + t). Threads in the sheared section are not covered: give their core diameter.
///
/// # Source
/// Statics; common practice.
///
/// # Example
/// ```
/// let stress = holdwater_physics::vessel::joint::pins(0.050, 0.002, 8, 0.004, 0.008);
/// assert!((stress.shear - 19.53125).abs() < 1e-9 && (stress.net_section - 7.47356).abs() < 1e-5);
/// ```
#[must_use]
pub fn pins(bore_m: f64, wall_m: f64, count: u32, pin_m: f64, edge_m: f64) -> PinStress {
    let force = 0.25 * PI * bore_m * bore_m;
    let each = force / f64::from(count.max(1));
    PinStress {
        shear: each / (0.25 * PI * pin_m * pin_m),
        bearing: each / (pin_m * wall_m),
        tear_out: each / (2.0 * (edge_m - 0.5 * pin_m) * wall_m),
        tear_out_from_centre: each / (2.0 * edge_m * wall_m),
        net_section: force / ((PI * (bore_m + wall_m) - f64::from(count) * pin_m) * wall_m),
    }
}
