//! Sizes of a launch tube between the stages: length, wall, mass.

use super::plate::HEIGHT_RESOLUTION;
use super::search::{self, Height, Peak};
use crate::rocket::LaunchTube;
use crate::vessel::answer::strength;
use crate::vessel::lines::{Factors, Mode};
use crate::vessel::materials::{MaterialName, row};
use crate::vessel::part::{Kind, Part};

/// Shortest tube looked at, m.
pub const SHORTEST: f64 = 0.01;

/// Thinnest and thickest wall looked at, m.
const WALLS: (f64, f64) = (1e-4, 2e-2);

/// The wall a tube needs, with what asks for it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wall {
    /// Wall that stands the pressure inside, below the seal, m.
    pub inside_m: f64,
    /// Wall that stands the pressure outside and the end load, with the end taken as closed, m.
    pub outside_m: f64,
    /// What asks for the thicker one.
    pub governs: Mode,
}

impl Wall {
    /// The thicker of the two, m.
    #[must_use]
    pub fn needed(&self) -> f64 {
        self.inside_m.max(self.outside_m)
    }
}

/// The wall that an aluminium tube (6061-T6) needs, m, at a margin of nought with the factors of [`Factors::DEFAULT`]: 2 on yield, 4 on
/// collapse and buckling. `None` where no wall up to 20 mm, or up to a quarter of the diameter, is enough.
///
/// Below the seal the tube is a shell with the pressure inside. In the vessel it is taken as closed at its end, with the pressure
/// around it and the end load pressure times area: the formulas are those of [`crate::vessel::collapse`] and [`crate::vessel::stress`].
#[must_use]
pub fn wall(outer_m: f64, length_m: f64, pressure_pa: f64, temperature_k: f64) -> Option<Wall> {
    let material = row(MaterialName::Aluminium6061T6).material;
    let governing = |kind: Kind| {
        let strength = strength(&Part::new(kind, material), temperature_k, &Factors::DEFAULT).ok()?;
        Some((strength.governing.zero_margin(), strength.governing.mode))
    };
    let inside = |wall_m: f64| Kind::Shell { bore_m: outer_m - 2.0 * wall_m, wall_m };
    let outside = |wall_m: f64| Kind::External { outer_m, wall_m, length_m };
    // A wall thicker than its bore's radius is refused as no tube.
    let thickest = WALLS.1.min(0.249 * outer_m);
    let least = |kind: &dyn Fn(f64) -> Kind| {
        let stands = |wall_m: f64| governing(kind(wall_m)).is_some_and(|(most, _)| most >= pressure_pa);
        if !stands(thickest) {
            return None;
        }
        Some(if stands(WALLS.0) { WALLS.0 } else { search::edge(thickest, WALLS.0, 1e-6, &mut |wall| stands(wall)) })
    };
    let (inside_m, outside_m) = (least(&inside)?, least(&outside)?);
    let kind = if inside_m > outside_m { inside(inside_m) } else { outside(outside_m) };
    Some(Wall { inside_m, outside_m, governs: governing(kind)?.1 })
}

/// Lengths to look at, m: from 10 mm to the longest that the vessel has room for. Empty where that is less.
#[must_use]
pub fn lengths(longest_m: f64, looks: usize) -> Vec<f64> {
    if longest_m > SHORTEST { search::in_ratios(SHORTEST, longest_m, looks) } else { Vec::new() }
}

/// The shortest length at which a statement is true, m, if one of the lengths looked at makes it so.
#[must_use]
pub fn shortest(lengths: &[f64], seated: &mut dyn FnMut(f64) -> bool) -> Option<f64> {
    let mut too_short = None;
    for &length in lengths {
        if seated(length) {
            return Some(match too_short {
                None => length,
                Some(short) => search::edge(length, short, HEIGHT_RESOLUTION, seated),
            });
        }
        too_short = Some(length);
    }
    None
}

/// The length with the greatest height.
#[must_use]
pub fn best_length(lengths: &[f64], height: Height<'_>) -> Option<Peak> {
    search::highest(lengths, HEIGHT_RESOLUTION, height)
}

/// Share of the gas that is left in a tube when it comes out.
///
/// # Equation
/// Ai L/(V - water + Ai L)
///
/// # Symbols
/// Ai inner area of the tube, m2; L length engaged, m; V volume of the vessel, m3.
///
/// # Range
/// A tube open at its end, pressure and temperature alike in tube and vessel.
///
/// # Source
/// Volumes at the tube's exit.
///
/// # Example
/// ```
/// use holdwater_physics::{rocket::LaunchTube, sizing::tube::gas_left};
/// let tube = LaunchTube { length_m: 0.2, outer_m: 0.0085, wall_m: 0.001 };
/// let inside = tube.inner_area() * 0.2;
/// let share = gas_left(&tube, 2e-3, 0.5e-3);
/// assert!((share - inside / (1.5e-3 + inside)).abs() < 1e-15);
/// ```
#[must_use]
pub fn gas_left(tube: &LaunchTube, volume_m3: f64, water_m3: f64) -> f64 {
    let inside = tube.inner_area() * tube.length_m;
    // The vessel is whole again when the tube is out, and the tube's bore is joined to it.
    let share = inside / (volume_m3 - water_m3 + inside);
    if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.0 }
}
