//! Sizes of a restrictor: bore, window, pattern, height.

use super::search::{self, Height, Peak};
use crate::restrictor::holes;

/// Bores are found to this, m: a fifth of the tenth of a millimetre to which a bore is made.
pub const BORE_RESOLUTION: f64 = 2e-5;

/// Heights of a plate and lengths of a tube are found to this, m.
pub const HEIGHT_RESOLUTION: f64 = 2e-4;

/// Share of the height within which bores count as equally good. It is below what an altimeter shows.
pub const PLATEAU: f64 = 2e-5;

/// Share of the height of the most holes that fit which the fewest holes of a pattern may cost.
pub const PATTERN_COST: f64 = 1e-3;

/// Open area, as a share of the nozzle's, from which on holes are looked at: smaller ones empty slowly and are never best.
const LEAST_OPEN: f64 = 0.25;

/// Narrowest hole that a pattern may have, m: finer ones clog and are not drilled clean.
pub const NARROWEST_HOLE: f64 = 1e-3;

/// Material that is left between holes, and between a hole and the rim, m: 1 mm, or 0.3 of the hole where that is more.
///
/// # Equation
/// w = max(1 mm, 0.3 d)
///
/// # Symbols
/// d diameter of the hole, m.
///
/// # Range
/// Drilled or printed plates of plastic or aluminium.
///
/// # Source
/// Common practice, no source.
///
/// # Example
/// ```
/// assert_eq!(holdwater_physics::sizing::plate::web(0.010), 0.003);
/// ```
#[must_use]
pub fn web(hole_m: f64) -> f64 {
    (0.3 * hole_m).max(1e-3)
}

/// The widest of so many equal holes that a plate has room for with their [`web`], m; for one hole a rim of 1 mm is left.
///
/// # Equation
/// (D - d - 2 w)/2 = (d + w) r, w = max(1 mm, 0.3 d)
///
/// # Symbols
/// D bore, d hole, w web, m; r reach of the pattern of [`holes::centres`], in distances of neighbours.
///
/// # Range
/// As many holes as are laid out; nought for more.
///
/// # Source
/// Geometry.
///
/// # Example
/// ```
/// // Seven holes reach one pitch from the middle: D = 4.2 d.
/// let widest = holdwater_physics::sizing::plate::widest_that_fits(7, 0.0672);
/// assert!((widest - 0.016).abs() < 1e-6);
/// ```
#[must_use]
pub fn widest_that_fits(count: u32, bore_m: f64) -> f64 {
    if count <= 1 {
        return (bore_m - 2e-3).max(0.5 * bore_m);
    }
    // Holes of no width to speak of show the reach: the outermost centre of a bore of two lies at r/(1 + r).
    let Some(centres) = holes::centres(count, 1e-9, 2.0, 0.0) else { return 0.0 };
    let outermost = centres.iter().map(|(x, y)| (x * x + y * y).sqrt()).fold(0.0, f64::max);
    let reach = outermost / (1.0 - outermost);
    let by_share = bore_m / (1.6 + 2.6 * reach);
    // A narrow hole has the web of 1 mm.
    if web(by_share) > 0.3 * by_share { (bore_m - 2e-3 * (1.0 + reach)) / (1.0 + 2.0 * reach) } else { by_share }
}

/// Bores to look at for so many holes, m: from an open area of a quarter of the nozzle's to the widest that fits, in equal ratios. Empty
/// where nothing lies between.
#[must_use]
pub fn bores(count: u32, nozzle_m: f64, widest_m: f64, looks: usize) -> Vec<f64> {
    let least = nozzle_m * (LEAST_OPEN / f64::from(count.max(1))).sqrt();
    if least < widest_m { search::in_ratios(least, widest_m, looks) } else { Vec::new() }
}

/// The best bore among those looked at: the middle of what is as good as the best but for [`PLATEAU`].
#[must_use]
pub fn best_bore(bores: &[f64], height: Height<'_>) -> Option<Peak> {
    let peak = search::highest(bores, BORE_RESOLUTION, height)?;
    Some(search::middle_of_plateau(bores, peak, PLATEAU, BORE_RESOLUTION, height))
}

/// The bores around a best one that cost less than a share of the ideal height, m; `None` if the best one costs as much.
///
/// Found outward from the best bore, each end by halving. The height at both ends has been seen to be enough.
///
/// # Example
/// ```
/// use holdwater_physics::sizing::plate::window;
/// let mut height = |x: f64| Some(100.0 - (1000.0 * x - 20.0).powi(2));
/// let (low, high) = window(&[0.01, 0.02, 0.03], 0.02, 100.0, 0.01, &mut height).unwrap();
/// assert!((low - 0.019).abs() < 3e-5 && (high - 0.021).abs() < 3e-5);
/// ```
#[must_use]
pub fn window(bores: &[f64], best_m: f64, ideal_m: f64, share: f64, height: Height<'_>) -> Option<(f64, f64)> {
    let mut serves = |bore: f64| height(bore).is_some_and(|height| height > ideal_m * (1.0 - share));
    serves(best_m).then(|| search::stretch(bores, best_m, BORE_RESOLUTION, &mut serves))
}

/// The bore below which the holes alone, with the water held down, cost more than a share of the ideal height, m; `None` if no bore
/// looked at does. `height` is that of the flight with held water, which rises with the bore.
#[must_use]
pub fn chokes_below(bores: &[f64], ideal_m: f64, share: f64, height: Height<'_>) -> Option<f64> {
    let mut serves = |bore: f64| height(bore).is_some_and(|height| height > ideal_m * (1.0 - share));
    let first = *bores.first()?;
    if serves(first) {
        return None;
    }
    let mut choking = first;
    for &bore in bores {
        if serves(bore) {
            return Some(search::edge(bore, choking, BORE_RESOLUTION, &mut serves));
        }
        choking = bore;
    }
    Some(choking)
}

/// A pattern of equal holes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pattern {
    /// Number of holes.
    pub holes: u32,
    /// Diameter of each, m.
    pub hole_m: f64,
    /// Height it reaches, m.
    pub height: f64,
    /// Number of such holes that the plate has room for.
    pub most: u32,
}

/// Why there is no pattern.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoPattern {
    /// Holes that hold would be narrower than [`NARROWEST_HOLE`].
    TooNarrow {
        /// Widest hole that holds, m.
        hole_m: f64,
    },
    /// The plate has room for fewer holes than give the gas a quarter of the nozzle's area.
    TooFewFit {
        /// Holes there is room for.
        most: u32,
        /// Holes that would be needed.
        needed: u32,
    },
    /// A flight with as many as fit has no answer.
    NoFlight,
}

/// The fewest equal holes that reach the height of the most that fit, but for [`PATTERN_COST`].
///
/// Each hole is as wide as given, which is the widest of several that holds, and `most` is the number the plate has room for
/// ([`holes::most_that_fit`] with the [`web`]). As long as they hold, more holes only take less from the pressure: the height rises with
/// their number, and halving finds the fewest.
///
/// # Example
/// ```
/// use holdwater_physics::sizing::plate::pattern;
/// let found = pattern(0.003, 0.009, 400, &mut |holes| Some(100.0 - 100.0 / f64::from(holes * holes))).unwrap();
/// assert_eq!(found.holes, 32);
/// ```
pub fn pattern(
    hole_m: f64,
    nozzle_m: f64,
    most: u32,
    height: &mut dyn FnMut(u32) -> Option<f64>,
) -> Result<Pattern, NoPattern> {
    if hole_m.is_nan() || hole_m < NARROWEST_HOLE {
        return Err(NoPattern::TooNarrow { hole_m });
    }
    let share = nozzle_m / hole_m;
    // At least two, because one hole has another limit.
    let needed = ((LEAST_OPEN * share * share).ceil().min(1e6) as u32).max(2);
    if most < needed {
        return Err(NoPattern::TooFewFit { most, needed });
    }
    let Some(goal) = height(most) else { return Err(NoPattern::NoFlight) };
    let mut enough = |count: u32| height(count).is_some_and(|height| height >= goal * (1.0 - PATTERN_COST));
    let fewest = search::fewest(needed, most, &mut enough).unwrap_or(most);
    let height = height(fewest).unwrap_or(goal);
    Ok(Pattern { holes: fewest, hole_m, height, most })
}

/// Heights of a plate to look at, m: below and above the standing height of the water, where the curve has its kink, and at it.
#[must_use]
pub fn plate_heights(standing_m: f64, vessel_m: f64) -> Vec<f64> {
    let above = (vessel_m - standing_m).max(0.0);
    let below = [0.3, 0.5, 0.7, 0.85, 0.95].map(|share| share * standing_m);
    let over = [0.02, 0.06, 0.15, 0.35, 0.7].map(|share| standing_m + share * above);
    let mut places: Vec<f64> = below.into_iter().chain([standing_m]).chain(over).collect();
    places.retain(|&place| place > 0.0 && place <= vessel_m);
    places.dedup();
    places
}

/// The best height of the plate above the nozzle end among those looked at.
#[must_use]
pub fn best_height(heights: &[f64], height: Height<'_>) -> Option<Peak> {
    search::highest(heights, HEIGHT_RESOLUTION, height)
}
