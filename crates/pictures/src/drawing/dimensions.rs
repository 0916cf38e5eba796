//! Dimensions as a workshop draws them: thin lines beside the part, strokes across their ends, words at their middle.

use holdwater_design::measure::System;

use super::contents::Paper;
use super::shape::{Anchor, Shape};
use super::vessel::Vessel;
use crate::chart::place::spread;
use crate::shown::{size, size_with_unit};

/// Size of text, px.
pub const TEXT: f64 = 12.0;
/// Height of a row of text, px.
pub const ROW: f64 = 16.0;

/// Dimension lines: the length at the left, water at the right, each label beside its line.
pub fn draw_dimensions(
    shapes: &mut Vec<Shape>,
    vessel: &Vessel,
    paper: &Paper,
    marks: &[(String, f64, f64)],
    ends: (f64, f64),
) {
    let (left, right) = (paper.x(-vessel.radius), paper.x(vessel.radius));
    dimension_line(shapes, left - 8.0, paper.y(0.0), paper.y(vessel.length));
    shapes.push(Shape::line(
        (left - 12.0, paper.y(vessel.length)),
        (paper.axis - 4.0, paper.y(vessel.length)),
        "dimension",
    ));
    shapes.push(Shape::line((left - 12.0, paper.y(0.0)), (paper.x(-vessel.throat) - 2.0, paper.y(0.0)), "dimension"));
    // The finger's line is the nearer one; the standing height encloses it.
    let far = if marks.len() > 1 { right + 17.0 } else { right + 8.0 };
    let boxes: Vec<(f64, f64)> = marks
        .iter()
        .enumerate()
        .map(|(index, (_, low, high))| {
            // The standing height is written beside the part of its line that the finger leaves free.
            let free = marks.get(1).filter(|second| index == 0 && second.1 > *low).map(|second| second.1);
            let high = free.unwrap_or(*high);
            (0.5 * (paper.y(*low) + paper.y(high)), ROW)
        })
        .collect();
    let centres = spread(&boxes, ends.0, ends.1);
    for (index, ((text, low, high), centre)) in marks.iter().zip(centres).enumerate() {
        let x = if index == 0 { far } else { right + 8.0 };
        dimension_line(shapes, x, paper.y(*low), paper.y(*high));
        let edge = if *low <= 0.0 { paper.x(vessel.throat) + 2.0 } else { right + 2.0 };
        shapes.push(Shape::line((edge, paper.y(*low)), (x + 3.0, paper.y(*low)), "dimension"));
        shapes.push(Shape::line((right + 2.0, paper.y(*high)), (x + 3.0, paper.y(*high)), "dimension"));
        shapes.push(Shape::text((far + 6.0, centre + 0.36 * TEXT), Anchor::Start, "label", text.clone()));
    }
}

/// An upright dimension line with the short strokes across its ends that a workshop draws.
fn dimension_line(shapes: &mut Vec<Shape>, x: f64, from: f64, to: f64) {
    shapes.push(Shape::line((x, from), (x, to), "dimension"));
    for y in [from, to] {
        shapes.push(Shape::line((x - 3.0, y + 3.0), (x + 3.0, y - 3.0), "dimension"));
    }
}

/// A length as a number, with a decimal of mm where it is short.
pub fn length(units: System, metres: f64) -> String {
    size(units, metres, decimals_of(metres))
}

/// The same with its unit.
pub fn length_with_unit(units: System, metres: f64) -> String {
    size_with_unit(units, metres, decimals_of(metres))
}

/// Decimals of mm.
pub fn decimals_of(metres: f64) -> usize {
    if metres < 9.95e-3 { 1 } else { 0 }
}
