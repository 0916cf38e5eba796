//! Flat round closures.

/// How the rim of a flat closure is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Edge {
    /// The rim cannot turn. Few real rims are this stiff.
    Clamped,
    /// The rim can turn. The safe assumption.
    Supported,
}

/// Bending stresses of a clamped round plate under even pressure, per pressure: at the edge and in the centre.
///
/// # Equation
/// edge = 0.75 a^2/t^2, centre = 3 (1 + nu)/8 a^2/t^2
///
/// # Symbols
/// a radius of the rim, t thickness, m; nu Poisson's ratio.
///
/// # Range
/// Elastic, t up to a/4, deflection up to t/2; a plate that bends more carries part of the load by stretching.
///
/// # Source
/// Roark, table 11.2 (`roark2002`); from memory.
///
/// # Example
/// ```
/// let (edge, centre) = holdwater_physics::vessel::plate::clamped(0.050, 0.006, 0.33);
/// assert!((edge - 52.0833).abs() < 1e-4 && (centre - 34.6354).abs() < 1e-4);
/// ```
#[must_use]
pub fn clamped(radius_m: f64, thickness_m: f64, poisson: f64) -> (f64, f64) {
    let slenderness = radius_m / thickness_m;
    (0.75 * slenderness * slenderness, 0.375 * (1.0 + poisson) * slenderness * slenderness)
}

/// Bending stress in the centre of a simply supported round plate under even pressure, per pressure.
///
/// # Equation
/// s/p = 3 (3 + nu)/8 a^2/t^2
///
/// # Symbols
/// As in [`clamped`].
///
/// # Range
/// As in [`clamped`].
///
/// # Source
/// Roark, table 11.2 (`roark2002`); from memory.
///
/// # Example
/// ```
/// let centre = holdwater_physics::vessel::plate::supported(0.050, 0.006, 0.33);
/// assert!((centre - 86.71875).abs() < 1e-5);
/// ```
#[must_use]
pub fn supported(radius_m: f64, thickness_m: f64, poisson: f64) -> f64 {
    let slenderness = radius_m / thickness_m;
    0.375 * (3.0 + poisson) * slenderness * slenderness
}

/// Deflection in the centre of a round plate under even pressure, m.
///
/// # Equation
/// w = k p a^4/(64 D), D = E t^3/(12 (1 - nu^2)); k = 1 clamped, (5 + nu)/(1 + nu) simply supported
///
/// # Symbols
/// p gauge pressure, E modulus, Pa; a radius of the rim, t thickness, m; nu Poisson's ratio.
///
/// # Range
/// As in [`clamped`].
///
/// # Source
/// Roark, table 11.2 (`roark2002`); from memory.
///
/// # Example
/// ```
/// use holdwater_physics::vessel::plate::{Edge, deflection};
/// let down = deflection(1e6, 0.050, 0.006, 68.9e9, 0.33, Edge::Clamped);
/// assert!((down - 0.0701673e-3).abs() < 1e-9);
/// ```
#[must_use]
pub fn deflection(pressure_pa: f64, radius_m: f64, thickness_m: f64, modulus_pa: f64, poisson: f64, edge: Edge) -> f64 {
    let stiffness = modulus_pa * thickness_m * thickness_m * thickness_m / (12.0 * (1.0 - poisson * poisson));
    let clamped = pressure_pa * radius_m * radius_m * radius_m * radius_m / (64.0 * stiffness);
    match edge {
        Edge::Clamped => clamped,
        Edge::Supported => clamped * (5.0 + poisson) / (1.0 + poisson),
    }
}
