//! Tubes under outside pressure.

use core::f64::consts::PI;

/// Outside pressure at which a long perfect tube collapses, Pa.
///
/// # Equation
/// p = 2 E/(1 - nu^2) (t/D)^3
///
/// # Symbols
/// E modulus, Pa; nu Poisson's ratio; t wall, m; D diameter, m.
///
/// # Range
/// Elastic, perfectly round. Real tubes collapse earlier: hence the factor of buckling.
///
/// # Source
/// Timoshenko and Gere 1961 (`timoshenko1961`); from memory.
///
/// # Example
/// ```
/// let collapse = holdwater_physics::vessel::collapse::long_tube(68.9e9, 0.33, 0.001, 0.050);
/// assert!((collapse - 1.237123e6).abs() < 1.0);
/// ```
#[must_use]
pub fn long_tube(modulus_pa: f64, poisson: f64, wall_m: f64, diameter_m: f64) -> f64 {
    let ratio = wall_m / diameter_m;
    2.0 * modulus_pa / (1.0 - poisson * poisson) * ratio * ratio * ratio
}

/// Outside pressure at which a short tube with round ends collapses, Pa.
///
/// # Equation
/// p = 0.807 E t^2/(l r) [(1/(1 - nu^2))^3 t^2/r^2]^(1/4)
///
/// # Symbols
/// E modulus, Pa; nu Poisson's ratio; t wall, r radius, l length between ends that stay round, m.
///
/// # Range
/// l up to [`long_from`]; beyond it the tube is a long one.
///
/// # Source
/// Roark, table 15.2, case 19b (`roark2002`); from memory, less sure than the others.
///
/// # Example
/// ```
/// let collapse = holdwater_physics::vessel::collapse::short_tube(68.9e9, 0.33, 0.001, 0.025, 0.300);
/// assert!((collapse - 1.616652e6).abs() < 1.0);
/// ```
#[must_use]
pub fn short_tube(modulus_pa: f64, poisson: f64, wall_m: f64, radius_m: f64, length_m: f64) -> f64 {
    let lateral = 1.0 / (1.0 - poisson * poisson);
    let ratio = wall_m / radius_m;
    let root = (lateral * lateral * lateral * ratio * ratio).sqrt().sqrt();
    0.807 * modulus_pa * wall_m * wall_m / (length_m * radius_m) * root
}

/// Length from which a tube counts as long, m.
///
/// # Equation
/// l = 4.90 r sqrt(r/t)
///
/// # Symbols
/// r radius, t wall, m.
///
/// # Range
/// Round tubes under even outside pressure.
///
/// # Source
/// Roark, table 15.2 (`roark2002`); from memory.
///
/// # Example
/// ```
/// assert!((holdwater_physics::vessel::collapse::long_from(0.025, 0.001) - 0.6125).abs() < 1e-9);
/// ```
#[must_use]
pub fn long_from(radius_m: f64, wall_m: f64) -> f64 {
    4.90 * radius_m * (radius_m / wall_m).sqrt()
}

/// Outside pressure at which a tube collapses, Pa: the least that either formula gives.
///
/// # Equation
/// The long tube's, or the short tube's where it holds and is less.
///
/// # Symbols
/// As in [`short_tube`], with the outer radius.
///
/// # Range
/// No credit is taken for shortness: where the short tube's formula gives more, the long tube's stands.
///
/// # Source
/// Roark, table 15.2 (`roark2002`); to take the least is our choice.
///
/// # Example
/// ```
/// let collapse = holdwater_physics::vessel::collapse::collapse(68.9e9, 0.33, 0.001, 0.050, 0.300);
/// assert!((collapse - 1.237123e6).abs() < 1.0);
/// ```
#[must_use]
pub fn collapse(modulus_pa: f64, poisson: f64, wall_m: f64, outer_m: f64, length_m: f64) -> f64 {
    let radius = 0.5 * outer_m;
    let long = long_tube(modulus_pa, poisson, wall_m, outer_m);
    if length_m > long_from(radius, wall_m) {
        return long;
    }
    long.min(short_tube(modulus_pa, poisson, wall_m, radius, length_m))
}

/// Axial stress at which a tube that stands free at one end buckles as a column, Pa.
///
/// # Equation
/// s = pi^2 E (ro^2 + ri^2)/(4 (2 l)^2)
///
/// # Symbols
/// E modulus, Pa; ro, ri outer and inner radius, l length, m. (ro^2 + ri^2)/4 is the squared radius of gyration.
///
/// # Range
/// Elastic, straight, load in the axis, foot held fast. Wobble and side loads are not covered.
///
/// # Source
/// Euler, as in Timoshenko and Gere 1961 (`timoshenko1961`); from memory.
///
/// # Example
/// ```
/// // A solid rod: pi^2 E r^2/(16 l^2).
/// let stress = holdwater_physics::vessel::collapse::column(70e9, 0.01, 0.0, 1.0);
/// assert!((stress - 9.8696044 * 70e9 * 1e-4 / 16.0).abs() < 10.0);
/// ```
#[must_use]
pub fn column(modulus_pa: f64, outer_radius_m: f64, inner_radius_m: f64, length_m: f64) -> f64 {
    let gyration = 0.25 * (outer_radius_m * outer_radius_m + inner_radius_m * inner_radius_m);
    PI * PI * modulus_pa * gyration / (4.0 * length_m * length_m)
}
