//! Axes: quiet, with few numbers, units written once.

use plotters::prelude::DrawingBackend;

use super::pen::{Hang, Pen, Stroke};
use super::place::text_width;
use super::scale::Axis;
use super::{ChartError, Frame};
use crate::theme::Theme;

/// Size of numbers along an axis, CSS px.
pub const TICK_SIZE: f64 = 12.0;
/// Size of words in a chart, CSS px.
pub const WORD_SIZE: f64 = 13.0;
/// Height of a row of words, CSS px.
pub const ROW: f64 = 16.0;

/// Room the numbers of a vertical axis take beside the plot, CSS px.
pub fn width_of(axis: &Axis) -> f64 {
    let widest = axis.labels().iter().map(|label| text_width(label, TICK_SIZE)).fold(0.0, f64::max);
    // Digits of some system fonts are wider than the estimate.
    widest + 13.0
}

/// The vertical axis: numbers, and a thin rule across the plot at each.
pub fn vertical<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    theme: &Theme,
    frame: &Frame,
    axis: &Axis,
) -> Result<(), ChartError> {
    for (tick, label) in axis.ticks.iter().zip(axis.labels()) {
        let y = frame.y_of(*tick);
        // Without tints a rule across the plot would be as loud as the curves.
        let end = if theme.has_tints() { frame.right } else { frame.left };
        pen.line(&[(frame.left - 4.0, y), (end, y)], Stroke::solid(theme.rule, 1.0))?;
        pen.text(&label, (frame.left - 7.0, y), Hang::End, TICK_SIZE, theme.quiet_ink)?;
    }
    Ok(())
}

/// The horizontal axis: a line, ticks and, if wanted, their numbers.
pub fn horizontal<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    theme: &Theme,
    frame: &Frame,
    axis: &Axis,
    numbers: bool,
) -> Result<(), ChartError> {
    let ticks: Vec<(f64, String)> = axis.ticks.iter().copied().zip(axis.labels()).collect();
    horizontal_at(pen, theme, frame, &ticks, numbers)
}

/// The horizontal axis with ticks at the given places, each with its text.
pub fn horizontal_at<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    theme: &Theme,
    frame: &Frame,
    ticks: &[(f64, String)],
    numbers: bool,
) -> Result<(), ChartError> {
    pen.line(&[(frame.left, frame.bottom), (frame.right, frame.bottom)], Stroke::solid(theme.ink, 1.0))?;
    for (tick, label) in ticks {
        let x = frame.x_of(*tick);
        pen.line(&[(x, frame.bottom), (x, frame.bottom + 4.0)], Stroke::solid(theme.ink, 1.0))?;
        if numbers {
            pen.text(label, (x, frame.bottom + 12.0), Hang::Middle, TICK_SIZE, theme.quiet_ink)?;
        }
    }
    Ok(())
}

/// The vertical axis of heights, for one number every 50 px or so of the picture's height.
pub fn heights(low: f64, high: f64, height_px: f64) -> Axis {
    // A release that falls to under a third of the height is a dud: then the ground belongs in the picture.
    let floor = if low < 0.33 * high { low.min(0.0) } else { low };
    Axis::around(floor, high, (height_px / 50.0).clamp(3.0, 7.0) as usize)
}
