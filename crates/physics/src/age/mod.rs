//! Age of pressurised parts: what hundreds of fills do, and the chance that today is the day one lets go.
//!
//! Parts die of cycles. A cycle at another pressure is first turned into cycles at today's pressure ([`fatigue`]); then a life
//! in cycles is a Weibull life ([`weibull`]), fitted to a log of what failed and what is still whole ([`fit`]) or,
//! where the log is too short for that, bounded ([`few`]). [`today`] puts the parts of one day together, and [`proof`] says
//! what a passed proof test supports.
//!
//! Cycles are plain numbers, not whole ones, because equivalent cycles are not whole. Everywhere in this module a number of cycles
//! below nought or not a number counts as nought, and one above [`MOST_CYCLES`] as that many, so that no answer is ever
//! not a number. A log is the exception: there such a row is refused by its number.

pub mod fatigue;
pub mod few;
pub mod fit;
mod likelihood;
pub mod proof;
pub mod today;
pub mod weibull;

/// No part is asked about more cycles than this.
pub const MOST_CYCLES: f64 = 1e12;

/// Shape assumed where the data cannot tell it: wear with much scatter.
///
/// An assumption, without source: no published cycle lives of bottles were found. Wear-out lies between 1 (no wear at all) and
/// about 4 (parts that fail at nearly one age).
pub const ASSUMED_SHAPE: f64 = 2.5;

/// A number of cycles held inside what this module computes with.
fn held(cycles: f64) -> f64 {
    if cycles > 0.0 { cycles.min(MOST_CYCLES) } else { 0.0 }
}

/// A chance held between nought and one; not a number counts as nought.
fn chance(value: f64) -> f64 {
    if value > 0.0 { value.min(1.0) } else { 0.0 }
}
