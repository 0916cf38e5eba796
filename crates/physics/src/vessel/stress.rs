//! Stress in round walls under inside pressure, and the pressure that bursts them.

use crate::real::ln;

/// Wall over bore radius up to which a wall counts as thin (Roark's limit).
pub const THIN_LIMIT: f64 = 0.1;

/// Hoop stress of a thin cylinder, Pa.
///
/// # Equation
/// s = p r/t
///
/// # Symbols
/// p gauge pressure, Pa; r radius, m; t wall, m.
///
/// # Range
/// t/r up to 0.1. With the bore radius it is the mean over the wall; the inner face sees up to 5 % more at the limit.
///
/// # Source
/// Roark, table of thin shells (`roark2002`); from memory.
///
/// # Example
/// ```
/// let stress = holdwater_physics::vessel::stress::thin_hoop(1e6, 0.044, 0.3e-3);
/// assert!((stress / 146.6667e6 - 1.0).abs() < 1e-6);
/// ```
#[must_use]
pub fn thin_hoop(pressure_pa: f64, radius_m: f64, wall_m: f64) -> f64 {
    pressure_pa * radius_m / wall_m
}

/// Axial stress of a thin closed cylinder, and any stress of a thin sphere, Pa.
///
/// # Equation
/// s = p r/(2 t)
///
/// # Symbols
/// As in [`thin_hoop`].
///
/// # Range
/// As in [`thin_hoop`].
///
/// # Source
/// Roark, table of thin shells (`roark2002`); from memory.
///
/// # Example
/// ```
/// let stress = holdwater_physics::vessel::stress::thin_axial(1e6, 0.044, 0.3e-3);
/// assert!((stress / 73.3333e6 - 1.0).abs() < 1e-6);
/// ```
#[must_use]
pub fn thin_axial(pressure_pa: f64, radius_m: f64, wall_m: f64) -> f64 {
    pressure_pa * radius_m / (2.0 * wall_m)
}

/// Stresses at the inner face of a thick closed cylinder.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lame {
    /// Hoop stress, Pa.
    pub hoop_pa: f64,
    /// Axial stress, the same over the whole wall, Pa.
    pub axial_pa: f64,
    /// Equivalent stress by von Mises, Pa.
    pub von_mises_pa: f64,
}

/// Stresses at the inner face of a thick closed cylinder under inside pressure.
///
/// # Equation
/// hoop = p (ro^2 + ri^2)/(ro^2 - ri^2), axial = p ri^2/(ro^2 - ri^2), von Mises = sqrt(3) p ro^2/(ro^2 - ri^2)
///
/// # Symbols
/// p gauge pressure, Pa; ri, ro inner and outer radius, m.
///
/// # Range
/// Elastic, ro > ri.
///
/// # Source
/// Lame, as in Roark, table of thick shells (`roark2002`); from memory.
///
/// # Example
/// ```
/// let stress = holdwater_physics::vessel::stress::lame(1e6, 0.100, 0.150);
/// assert!((stress.hoop_pa - 2.6e6).abs() < 1.0 && (stress.axial_pa - 0.8e6).abs() < 1.0);
/// ```
#[must_use]
pub fn lame(pressure_pa: f64, inner_m: f64, outer_m: f64) -> Lame {
    let (inner, outer) = (inner_m * inner_m, outer_m * outer_m);
    let metal = (outer_m - inner_m) * (outer_m + inner_m);
    Lame {
        hoop_pa: pressure_pa * (outer + inner) / metal,
        axial_pa: pressure_pa * inner / metal,
        von_mises_pa: 3.0_f64.sqrt() * pressure_pa * outer / metal,
    }
}

/// Hoop stress at the inner face of a thick sphere, Pa.
///
/// # Equation
/// s = p (ro^3 + 2 ri^3)/(2 (ro^3 - ri^3))
///
/// # Symbols
/// As in [`lame`].
///
/// # Range
/// Elastic, ro > ri.
///
/// # Source
/// Roark, table of thick shells (`roark2002`); from memory.
///
/// # Example
/// ```
/// // Twice as wide outside as inside: 10/14.
/// let stress = holdwater_physics::vessel::stress::thick_sphere(1e6, 0.05, 0.1);
/// assert!((stress - 1e7 / 14.0).abs() < 1.0);
/// ```
#[must_use]
pub fn thick_sphere(pressure_pa: f64, inner_m: f64, outer_m: f64) -> f64 {
    let (inner, outer) = (inner_m * inner_m * inner_m, outer_m * outer_m * outer_m);
    pressure_pa * (outer + 2.0 * inner) / (2.0 * (outer - inner))
}

/// Pressure that bursts a closed cylinder of ductile metal, Pa.
///
/// # Equation
/// p = (2 sy/sqrt(3)) ln(ro/ri) (2 - sy/su)
///
/// # Symbols
/// sy, su yield and ultimate strength, Pa; ri, ro inner and outer radius, m.
///
/// # Range
/// Ductile metal without notches, sy <= su. Thin walls can burst earlier, see [`mean_hoop_burst`].
///
/// # Source
/// Faupel 1956 (`faupel1956`); from memory.
///
/// # Example
/// ```
/// let burst = holdwater_physics::vessel::stress::faupel(276e6, 310e6, 0.050, 0.053);
/// assert!((burst / 20.606872e6 - 1.0).abs() < 1e-7);
/// ```
#[must_use]
pub fn faupel(yield_pa: f64, ultimate_pa: f64, inner_m: f64, outer_m: f64) -> f64 {
    2.0 * yield_pa / 3.0_f64.sqrt() * ln(outer_m / inner_m) * (2.0 - yield_pa / ultimate_pa)
}

/// Pressure at which the mean hoop stress reaches the ultimate strength, Pa.
///
/// # Equation
/// p = su (ro - ri)/ri
///
/// # Symbols
/// su ultimate strength, Pa; ri, ro inner and outer radius, m.
///
/// # Range
/// Balance of forces on half a ring, whatever the material does.
///
/// # Source
/// Statics.
///
/// # Example
/// ```
/// assert!((holdwater_physics::vessel::stress::mean_hoop_burst(300e6, 0.05, 0.055) - 30e6).abs() < 1.0);
/// ```
#[must_use]
pub fn mean_hoop_burst(ultimate_pa: f64, inner_m: f64, outer_m: f64) -> f64 {
    ultimate_pa * (outer_m - inner_m) / inner_m
}

/// Wall that a code for pressure vessels asks of a shell for its hoop stress, m; for comparison.
///
/// # Equation
/// t = P R/(S E - 0.6 P)
///
/// # Symbols
/// P gauge pressure, Pa; R inside radius, m; S allowable stress, Pa; E joint efficiency.
///
/// # Range
/// t <= R/2 and P <= 0.385 S E. Hobby vessels are not built to this code; the formula is borrowed.
///
/// # Source
/// ASME VIII-1, UG-27(c)(1) (`asme_viii_1`); from memory.
///
/// # Example
/// ```
/// let wall = holdwater_physics::vessel::stress::ug27_hoop_wall(1e6, 0.050, 70e6, 1.0);
/// assert!((wall - 0.720461e-3).abs() < 1e-9);
/// ```
#[must_use]
pub fn ug27_hoop_wall(pressure_pa: f64, radius_m: f64, allowable_pa: f64, efficiency: f64) -> f64 {
    pressure_pa * radius_m / (allowable_pa * efficiency - 0.6 * pressure_pa)
}

/// Wall that the same code asks of a shell for its axial stress, m; for comparison.
///
/// # Equation
/// t = P R/(2 S E + 0.4 P)
///
/// # Symbols
/// As in [`ug27_hoop_wall`].
///
/// # Range
/// t <= R/2 and P <= 1.25 S E.
///
/// # Source
/// ASME VIII-1, UG-27(c)(2) (`asme_viii_1`); from memory.
///
/// # Example
/// ```
/// let wall = holdwater_physics::vessel::stress::ug27_axial_wall(1e6, 0.050, 70e6, 1.0);
/// assert!((wall - 0.356125e-3).abs() < 1e-9);
/// ```
#[must_use]
pub fn ug27_axial_wall(pressure_pa: f64, radius_m: f64, allowable_pa: f64, efficiency: f64) -> f64 {
    pressure_pa * radius_m / (2.0 * allowable_pa * efficiency + 0.4 * pressure_pa)
}

/// Stress per pressure in a torispherical head.
///
/// # Equation
/// s/p = (L M + 0.2 t)/(2 t), M = (3 + sqrt(L/r))/4
///
/// # Symbols
/// L inside crown radius, r inside knuckle radius, t wall, m.
///
/// # Range
/// r >= 0.06 L, L not more than the outer diameter, t >= 0.002 L; thinner knuckles can buckle inward. Made for ductile metal.
///
/// # Source
/// ASME VIII-1, UG-32 and appendix 1-4 (`asme_viii_1`), solved for the stress; from memory.
///
/// # Example
/// ```
/// // The standard head, r = 0.06 L: M/2 is the 0.885 of the code.
/// let share = holdwater_physics::vessel::stress::torisphere(1.0, 0.06, 0.01);
/// assert!((share - (88.53 + 0.1)).abs() < 0.01);
/// ```
#[must_use]
pub fn torisphere(crown_m: f64, knuckle_m: f64, wall_m: f64) -> f64 {
    let knuckle_factor = 0.25 * (3.0 + (crown_m / knuckle_m).sqrt());
    (crown_m * knuckle_factor + 0.2 * wall_m) / (2.0 * wall_m)
}

/// Stress per pressure in an ellipsoidal head, half as deep as its radius.
///
/// # Equation
/// s/p = (D + 0.2 t)/(2 t)
///
/// # Symbols
/// D bore, t wall, m.
///
/// # Range
/// Axes 2:1, t >= 0.002 D.
///
/// # Source
/// ASME VIII-1, UG-32 (`asme_viii_1`), solved for the stress; from memory.
///
/// # Example
/// ```
/// assert!((holdwater_physics::vessel::stress::ellipsoid(0.1, 0.001) - 50.1).abs() < 1e-9);
/// ```
#[must_use]
pub fn ellipsoid(bore_m: f64, wall_m: f64) -> f64 {
    (bore_m + 0.2 * wall_m) / (2.0 * wall_m)
}

/// Wall stress of a seamless aluminium gas cylinder as the law reckons it, Pa; for comparison.
///
/// # Equation
/// S = P (1.3 D^2 + 0.4 d^2)/(D^2 - d^2)
///
/// # Symbols
/// P test pressure, Pa; D, d outside and inside diameter, m.
///
/// # Range
/// Cylinders of 6061-T6 after 49 CFR 178.46.
///
/// # Source
/// 49 CFR 178.46 (`cfr178_46`).
///
/// # Example
/// ```
/// let stress = holdwater_physics::vessel::stress::seamless_cylinder(1e6, 0.053, 0.050);
/// assert!((stress - 15.054045e6).abs() < 1.0);
/// ```
#[must_use]
pub fn seamless_cylinder(pressure_pa: f64, outer_m: f64, inner_m: f64) -> f64 {
    let (outer, inner) = (outer_m * outer_m, inner_m * inner_m);
    pressure_pa * (1.3 * outer + 0.4 * inner) / (outer - inner)
}
