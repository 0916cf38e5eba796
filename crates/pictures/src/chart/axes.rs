//! Axes: quiet, with few numbers, units written once.

use holdwater_design::measure::{Measure, System};

use super::Frame;
use super::pen::{Hang, Pen, Stroke};
use super::place::text_width;
use super::scale::Axis;
use crate::theme::Theme;

/// Size of numbers along an axis, CSS px.
pub const TICK_SIZE: f64 = 12.0;
/// Size of words in a chart, CSS px.
pub const WORD_SIZE: f64 = 13.0;
/// Height of a row of words, CSS px.
pub const ROW: f64 = 16.0;

/// A vertical axis: round numbers of the unit shown, beside a plot that is laid out in the metric one.
pub struct Ruler {
    axis: Axis,
    measure: Measure,
    units: System,
}

impl Ruler {
    /// The axis of heights, with one number for every 50 px or so of the picture's height.
    pub fn heights(low: f64, high: f64, height_px: f64, units: System) -> Self {
        // A release that falls to under a third of the height is a dud: then the ground belongs in the picture.
        let floor = if low < 0.33 * high { low.min(0.0) } else { low };
        let parts = (height_px / 50.0).clamp(3.0, 7.0) as usize;
        let shown = |metres| Measure::Distance.shown(units, metres);
        Self { axis: Axis::around(shown(floor), shown(high), parts), measure: Measure::Distance, units }
    }

    /// An axis with zero in it.
    pub fn with_zero((low, high): (f64, f64), parts: usize, measure: Measure, units: System) -> Self {
        let axis = Axis::with_zero(measure.shown(units, low), measure.shown(units, high), parts);
        Self { axis, measure, units }
    }

    /// Lower and upper end, metric.
    pub fn range(&self) -> (f64, f64) {
        let metric = |shown| self.measure.metric(self.units, shown);
        (metric(self.axis.low), metric(self.axis.high))
    }

    /// Room the numbers take beside the plot, CSS px.
    pub fn width(&self) -> f64 {
        let widest = self.axis.labels().iter().map(|label| text_width(label, TICK_SIZE)).fold(0.0, f64::max);
        // Digits of some system fonts are wider than the estimate.
        widest + 13.0
    }

    /// Draws the numbers, and a thin rule across the plot at each.
    pub fn draw(&self, pen: &mut Pen<'_>, theme: &Theme, frame: &Frame) {
        for (tick, label) in self.axis.ticks.iter().zip(self.axis.labels()) {
            let y = frame.y_of(self.measure.metric(self.units, *tick));
            // Without tints a rule across the plot would be as loud as the curves.
            let end = if theme.has_tints() { frame.right } else { frame.left };
            pen.line(&[(frame.left - 4.0, y), (end, y)], Stroke::solid(theme.rule, 1.0));
            pen.text(&label, (frame.left - 7.0, y), Hang::End, TICK_SIZE, theme.quiet_ink);
        }
    }
}

/// The horizontal axis: a line, ticks and, if wanted, their numbers.
pub fn horizontal(pen: &mut Pen<'_>, theme: &Theme, frame: &Frame, axis: &Axis, numbers: bool) {
    let ticks: Vec<(f64, String)> = axis.ticks.iter().copied().zip(axis.labels()).collect();
    horizontal_at(pen, theme, frame, &ticks, numbers);
}

/// The horizontal axis with ticks at the given places, each with its text.
pub fn horizontal_at(pen: &mut Pen<'_>, theme: &Theme, frame: &Frame, ticks: &[(f64, String)], numbers: bool) {
    pen.line(&[(frame.left, frame.bottom), (frame.right, frame.bottom)], Stroke::solid(theme.ink, 1.0));
    for (tick, label) in ticks {
        let x = frame.x_of(*tick);
        pen.line(&[(x, frame.bottom), (x, frame.bottom + 4.0)], Stroke::solid(theme.ink, 1.0));
        if numbers {
            pen.text(label, (x, frame.bottom + 12.0), Hang::Middle, TICK_SIZE, theme.quiet_ink);
        }
    }
}
