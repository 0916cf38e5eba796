//! What stands out on the chart of height against bore: the best bore, the fitted one, the window.

use holdwater_answers::curves::BoreCurves;
use holdwater_design::measure::Measure;

use super::ChartLook;
use super::axes::{ROW, TICK_SIZE, WORD_SIZE};
use super::bore::BoreFrame;
use super::pen::{Hang, Pen, Stroke};
use super::place::{spread, text_width};
use super::tell_bore::{drill, percent};
use crate::theme::Rgb;

/// A bore picked out, with its word over the plot.
pub struct Mark {
    bore_m: f64,
    height_m: f64,
    text: String,
    colour: Rgb,
    fitted: bool,
}

/// The marks to paint.
pub fn marks_of(curves: &BoreCurves, with_fitted: bool, look: &ChartLook) -> Vec<Mark> {
    let mark = |word: &str, place: Option<(f64, f64)>, colour, fitted| {
        let (bore_m, height_m) = place.filter(|(bore, _)| bore.is_finite())?;
        let text = [word, " ", &drill(look.units, bore_m), "\u{2009}", Measure::Size.symbol(look.units)].concat();
        Some(Mark { bore_m, height_m, text, colour, fitted })
    };
    let best = mark("best", curves.best_m, look.theme.kelp, false);
    let fitted = mark("fitted", curves.fitted_m.filter(|_| with_fitted), look.theme.ink, true);
    best.into_iter().chain(fitted).collect()
}

/// Room between the marks' words and what is below them, for leaders, CSS px.
const LEADER: f64 = 6.0;

/// The rows above the zones' words: one when the marks' words fit beside the title of the vertical axis.
pub struct Header {
    /// Lower edge, CSS px.
    pub bottom: f64,
    left: f64,
    right: f64,
}

impl Header {
    /// Room for the marks' words in a picture of the given width.
    pub fn new(marks: &[Mark], y_title: &str, width: f64) -> Self {
        let title = text_width(y_title, TICK_SIZE) + 12.0;
        let needed: f64 = marks.iter().map(|mark| text_width(&mark.text, WORD_SIZE) + 8.0).sum();
        let one = title + needed + 2.0 <= width;
        let bottom = if one { ROW } else { 2.0 * ROW } + if marks.is_empty() { 0.0 } else { LEADER };
        Self { bottom, left: if one { title } else { 2.0 }, right: width - 2.0 }
    }
}

/// Paints the marks: the best bore as a hollow dot on the curve, the fitted one as a line through the plot with a full dot.
pub fn draw_marks(pen: &mut Pen<'_>, frame: &BoreFrame, marks: &[Mark], header: &Header) {
    let boxes: Vec<(f64, f64)> =
        marks.iter().map(|mark| (frame.x_of(mark.bore_m), text_width(&mark.text, WORD_SIZE) + 8.0)).collect();
    let centres = spread(&boxes, header.left, header.right);
    let row = header.bottom - LEADER;
    for (mark, centre) in marks.iter().zip(centres) {
        let (x, dot) = (frame.x_of(mark.bore_m), frame.y_of(mark.height_m));
        let end = if mark.fitted { frame.plot.bottom } else { dot };
        let dash: &'static [f64] = if mark.fitted { &[] } else { &[2.0, 3.0] };
        let (colour, width) = (mark.colour, if mark.fitted { 1.5 } else { 1.2 });
        pen.line(&[(centre, row - 1.0), (x, header.bottom)], Stroke::solid(colour, 1.0));
        pen.line(&[(x, header.bottom), (x, end)], Stroke { colour, width, dash });
        pen.text(&mark.text, (centre, row - 0.5 * ROW), Hang::Middle, WORD_SIZE, colour);
        if mark.height_m.is_finite() {
            pen.dot((x, dot), if mark.fitted { 4.0 } else { 2.5 }, colour, !mark.fitted);
        }
    }
}

/// The window as a bracket under the axis, with its words.
pub fn draw_window(pen: &mut Pen<'_>, look: &ChartLook, frame: &BoreFrame, curves: &BoreCurves) {
    let share = [&percent(curves.share)[..], "\u{a0}%"].concat();
    let (plot, theme) = (&frame.plot, &look.theme);
    let (text, middle, colour) = match curves.window_m.filter(|(low, high)| low.is_finite() && high.is_finite()) {
        Some((low, high)) => {
            let (from, to) = (frame.x_of(low), frame.x_of(high));
            let (top, foot) = (plot.bottom + 20.0, plot.bottom + 26.0);
            pen.line(&[(from, top), (from, foot), (to, foot), (to, top)], Stroke::solid(theme.kelp, 1.8));
            let (low, high) = (drill(look.units, low), drill(look.units, high));
            let unit = Measure::Size.symbol(look.units);
            let text = ["costs under ", &share, ": ", &low, "\u{2013}", &high, "\u{2009}", unit].concat();
            (text, 0.5 * (from + to), theme.kelp)
        }
        None => (["no bore costs under ", &share].concat(), 0.5 * (plot.left + plot.right), theme.ink),
    };
    let half = 0.5 * text_width(&text, WORD_SIZE) + 2.0;
    let centre = middle.min(look.width_px - half).max(half);
    pen.text(&text, (centre, plot.bottom + 37.0), Hang::Middle, WORD_SIZE, colour);
}
