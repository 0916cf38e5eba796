//! Curves of a chart, named at their ends.

use super::axes::WORD_SIZE;
use super::line::{Point, pieces};
use super::pen::{Hang, Pen, Stroke};
use super::place::{spread, text_width, wrapped};
use super::{ChartLook, Frame};
use crate::theme::Rgb;

/// Below this width labels are wrapped and axes carry fewer numbers, CSS px.
pub const NARROW: f64 = 420.0;
/// Height of a row of a label, CSS px.
const LABEL_ROW: f64 = WORD_SIZE + 1.0;

/// One curve of a chart.
pub struct Curve<'a> {
    /// What is written at its end.
    pub word: &'a str,
    /// Its heights.
    pub heights: &'a [f64],
    /// How it is drawn.
    pub stroke: Stroke,
    /// What of it lies in the plot, CSS px.
    pub lines: Vec<Vec<Point>>,
}

impl<'a> Curve<'a> {
    /// A curve that has not been placed yet.
    pub fn new(word: &'a str, heights: &'a [f64], colour: Rgb, width: f64, dash: &'static [f64]) -> Self {
        Self { word, heights, stroke: Stroke { colour, width, dash }, lines: Vec::new() }
    }

    /// Whether any of its heights is a number.
    pub fn has_points(&self) -> bool {
        self.heights.iter().any(|height| height.is_finite())
    }

    /// Finds its place in the plot.
    pub fn place(&mut self, frame: &Frame, xs: &[f64], look: &ChartLook) {
        self.lines = pieces(frame, xs, self.heights, look.columns(), look.tolerance());
    }

    /// Its vertical place at a horizontal one, CSS px; `None` where it has none.
    pub fn height_at(&self, x: f64) -> Option<f64> {
        let mut segments = self.lines.iter().flat_map(|run| run.windows(2));
        let pair = segments.find(|pair| pair[0].0 <= x && x <= pair[1].0)?;
        let (a, b) = (pair[0], pair[1]);
        let share = if b.0 > a.0 { (x - a.0) / (b.0 - a.0) } else { 0.0 };
        Some(a.1 + share * (b.1 - a.1))
    }

    /// Draws it.
    pub fn draw(&self, pen: &mut Pen<'_>) {
        pen.lines(self.lines.clone(), self.stroke);
    }
}

/// The words of curves in rows.
pub struct EndLabels {
    rows: Vec<Vec<String>>,
    /// Width of the widest row, CSS px.
    pub width: f64,
}

impl EndLabels {
    /// Breaks the words into rows of about the given width.
    pub fn new(curves: &[Curve<'_>], width: f64) -> Self {
        let rows: Vec<Vec<String>> = curves.iter().map(|curve| wrapped(curve.word, width, WORD_SIZE)).collect();
        let width = rows.iter().flatten().map(|row| text_width(row, WORD_SIZE)).fold(0.0, f64::max);
        Self { rows, width }
    }

    /// Names each curve at its end, with a short leader where the word had to move.
    pub fn draw(&self, pen: &mut Pen<'_>, frame: &Frame, curves: &[Curve<'_>]) {
        let ends: Vec<Option<Point>> =
            curves.iter().map(|curve| curve.lines.last().and_then(|run| run.last()).copied()).collect();
        let boxes: Vec<(f64, f64)> = ends
            .iter()
            .zip(&self.rows)
            .map(|(end, rows)| (end.map_or(frame.bottom, |end| end.1), rows.len() as f64 * LABEL_ROW + 3.0))
            .collect();
        let centres = spread(&boxes, frame.top - 8.0, frame.bottom + 4.0);
        for (((end, rows), centre), curve) in ends.iter().zip(&self.rows).zip(centres).zip(curves) {
            let Some(end) = *end else { continue };
            let start = frame.right + 14.0;
            let colour = curve.stroke.colour;
            pen.line(&[(end.0 + 2.0, end.1), (start - 3.0, centre)], Stroke::solid(colour, 1.0));
            for (index, row) in rows.iter().enumerate() {
                let y = centre + (index as f64 - 0.5 * (rows.len() as f64 - 1.0)) * LABEL_ROW;
                pen.text(row, (start, y), Hang::Start, WORD_SIZE, colour);
            }
        }
    }
}
