//! All parts of a stack together: the least margin, and the highest fill.

use super::answer::{Answer, answer, strength};
use super::lines::Factors;
use super::part::Part;
use super::problem::PartProblem;

/// A part with what it is under.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loaded<'a> {
    /// The part.
    pub part: &'a Part,
    /// Gauge pressure, Pa.
    pub pressure_pa: f64,
    /// Temperature of the part, K.
    pub temperature_k: f64,
}

/// What the parts of a stack answer together. Parts are named by their place in the list.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StackAnswer {
    /// The part with the least margin among those that have one, and what it answers.
    pub weakest: Option<(usize, Answer)>,
    /// Parts that have no answer, each with the reason. While there is one the stack has no margin.
    pub refused: Vec<(usize, PartProblem)>,
}

impl StackAnswer {
    /// The margin of the stack; `None` while any part is refused, and without parts.
    #[must_use]
    pub fn margin(&self) -> Option<f64> {
        if self.refused.is_empty() { self.weakest.map(|(_, answer)| answer.margin) } else { None }
    }
}

/// The least margin over all parts, and which part has it; the first of equals.
#[must_use]
pub fn weakest(parts: &[Loaded<'_>], factors: &Factors) -> StackAnswer {
    let mut found = StackAnswer::default();
    for (place, loaded) in parts.iter().enumerate() {
        match answer(loaded.part, loaded.pressure_pa, loaded.temperature_k, factors) {
            Err(problem) => found.refused.push((place, problem)),
            Ok(next) if found.weakest.is_none_or(|(_, so_far)| next.margin < so_far.margin) => {
                found.weakest = Some((place, next));
            }
            Ok(_) => {}
        }
    }
    found
}

/// The highest fill that parts support, and what sets it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HighestFill {
    /// Gauge pressure at which the least margin is nought, Pa.
    pub pressure_pa: f64,
    /// The part that sets it, by its place in the list.
    pub part: usize,
}

/// The highest common fill that all parts support; the pressures they are under now do not matter.
///
/// `Ok(None)` without parts; the place and the reason of the first part that has no answer otherwise.
pub fn highest_fill(parts: &[Loaded<'_>], factors: &Factors) -> Result<Option<HighestFill>, (usize, PartProblem)> {
    let mut found: Option<HighestFill> = None;
    for (place, loaded) in parts.iter().enumerate() {
        let strength = strength(loaded.part, loaded.temperature_k, factors).map_err(|problem| (place, problem))?;
        let pressure_pa = strength.governing.zero_margin();
        if found.is_none_or(|so_far| pressure_pa < so_far.pressure_pa) {
            found = Some(HighestFill { pressure_pa, part: place });
        }
    }
    Ok(found)
}
