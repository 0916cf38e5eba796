//! Height, speed and acceleration against time.

use holdwater_answers::curves::FlightCurves;
use holdwater_answers::numbers::Event;
use holdwater_design::measure::Measure;
use plotters::prelude::DrawingBackend;

use super::axes::{self, ROW, Ruler, TICK_SIZE, WORD_SIZE};
use super::curve::NARROW;
use super::line::pieces;
use super::pen::{Hang, Pen, Stroke};
use super::place::text_width;
use super::scale::{Axis, extent};
use super::sheet::{Sheet, painted};
use super::tell::describe_flight;
use super::{ChartError, ChartLook, Frame};
use crate::shown::titled;

/// Most rows of event words over the top panel.
const MOST_ROWS: usize = 6;
/// Room between one panel and the next: the next one's title, clear of its uppermost number, CSS px.
const GAP: f64 = ROW + 18.0;
/// Shares of the panels in the height left for plots.
const SHARES: [f64; 3] = [0.42, 0.29, 0.29];

/// An event's word over the top panel.
struct Word<'a> {
    text: &'a str,
    x: f64,
    at: f64,
    hang: Hang,
    start: f64,
    row: usize,
}

/// Draws three panels over one time axis: height, speed, acceleration, with the events.
///
/// The window, in seconds after lift-off, picks a part of the flight: thrust lasts a twentieth of it or less, and
/// the first peak of acceleration hides all else (see [`thrust_window`]). The backend must have
/// [`ChartLook::backend_size`], or a context scaled to it.
///
/// # Errors
/// When there is nothing to draw, no room, or the backend refuses.
pub fn draw_flight<DB: DrawingBackend>(
    backend: DB,
    curves: &FlightCurves,
    events: &[Event],
    window: Option<(f64, f64)>,
    look: &ChartLook,
) -> Result<[Frame; 3], ChartError> {
    painted(backend, look, sheet(curves, events, window, look))
}

/// The same as an SVG file; [`ChartLook::for_file`] is made for it.
///
/// # Errors
/// When there is nothing to draw, or no room.
pub fn flight_svg(
    curves: &FlightCurves,
    events: &[Event],
    window: Option<(f64, f64)>,
    look: &ChartLook,
) -> Result<String, ChartError> {
    let (sheet, _) = sheet(curves, events, window, look)?;
    Ok(sheet.svg(look, &describe_flight(curves, events, look.units)))
}

fn sheet(
    curves: &FlightCurves,
    events: &[Event],
    window: Option<(f64, f64)>,
    look: &ChartLook,
) -> Result<(Sheet, [Frame; 3]), ChartError> {
    let theme = &look.theme;
    let (first, last) = extent([&curves.t_s[..]]).ok_or(ChartError::NothingToDraw)?;
    let (first, last) = match window {
        Some((from, to)) if from.is_finite() && to.is_finite() && to > from => (from.max(first), to.min(last)),
        _ => (first, last),
    };
    if curves.t_s.len() < 2 || last <= first {
        return Err(ChartError::NothingToDraw);
    }
    let time = Axis::between(first, last, if look.width_px < NARROW { 4 } else { 8 });
    let panels = Panel::all(curves, (first, last), look).ok_or(ChartError::NothingToDraw)?;
    let left = panels.iter().map(|panel| panel.ruler.width()).fold(0.0, f64::max);
    let right = look.width_px - 14.0;
    let across = Frame { left, top: 0.0, right, bottom: 1.0, x_range: (time.low, time.high), y_range: (0.0, 1.0) };
    let words = event_words(events, &across, look.width_px);
    let rows = words.iter().map(|word| word.row + 1).max().unwrap_or(0).min(MOST_ROWS);
    let words_bottom = ROW * (rows as f64 + 1.0);
    // The first title shares the head with the words; each further panel brings its own row.
    let plots = look.height_px - words_bottom - 4.0 - 2.0 * GAP - 36.0;
    if !(plots >= 90.0 && right - left >= 60.0) {
        return Err(ChartError::TooSmall);
    }
    let mut top = words_bottom + 4.0;
    let frames = [0, 1, 2].map(|index: usize| {
        let bottom = top + SHARES[index] * plots;
        let frame = Frame { top, bottom, y_range: panels[index].ruler.range(), ..across };
        top = bottom + GAP;
        frame
    });

    let mut pen = Pen::on_paper(look);
    for (index, (panel, frame)) in panels.iter().zip(&frames).enumerate() {
        panel.ruler.draw(&mut pen, theme, frame);
        axes::horizontal(&mut pen, theme, frame, &time, index == 2);
        pen.line(&[(left, frame.y_of(0.0)), (right, frame.y_of(0.0))], Stroke::solid(theme.ink, 1.0));
        for event in events {
            let x = frame.x_of(event.t_s);
            if (left - 0.5..=right + 0.5).contains(&x) {
                let dashes = Stroke { dash: &[2.0, 3.0], ..Stroke::solid(theme.quiet_ink, 1.0) };
                pen.line(&[(x, frame.top), (x, frame.bottom)], dashes);
            }
        }
        let title_y = if index == 0 { 0.5 * ROW } else { frame.top - 15.0 };
        pen.text(&panel.title, (2.0, title_y), Hang::Start, TICK_SIZE, theme.quiet_ink);
        let runs = pieces(frame, &curves.t_s, panel.values, look.columns(), look.tolerance());
        pen.lines(runs, Stroke::solid(theme.ink, 1.8));
    }
    for word in words.iter().filter(|word| word.row < MOST_ROWS) {
        let y = words_bottom - ROW * (word.row as f64 + 0.5);
        pen.line(&[(word.x, y), (word.x, frames[0].top)], Stroke::solid(theme.quiet_ink, 1.0));
    }
    for word in words.iter().filter(|word| word.row < MOST_ROWS) {
        let y = words_bottom - ROW * (word.row as f64 + 0.5);
        pen.text_on_paper(word.text, (word.at, y), word.hang, WORD_SIZE, theme.ink);
    }
    pen.text("time after lift-off, s", (right, frames[2].bottom + 28.0), Hang::End, TICK_SIZE, theme.quiet_ink);
    Ok((pen.sheet, frames))
}

/// One of the three panels, before its place is known.
struct Panel<'a> {
    title: String,
    values: &'a [f64],
    ruler: Ruler,
}

impl<'a> Panel<'a> {
    /// Height, speed and acceleration between two times; `None` when one of them has no number there.
    fn all(curves: &'a FlightCurves, (first, last): (f64, f64), look: &ChartLook) -> Option<[Self; 3]> {
        let parts = if look.height_px < 360.0 { 2 } else { 4 };
        let panel = |word, values: &'a [f64], measure| {
            let inside = |(t, value): (&f64, &f64)| (*t >= first && *t <= last).then_some(*value);
            let seen: Vec<f64> = curves.t_s.iter().zip(values).filter_map(inside).collect();
            let ruler = Ruler::with_zero(extent([&seen[..]])?, parts, measure, look.units);
            Some(Self { title: titled(word, measure, look.units), values, ruler })
        };
        Some([
            panel("height", &curves.h_m, Measure::Distance)?,
            panel("speed", &curves.v_mps, Measure::Speed)?,
            panel("acceleration", &curves.a_mps2, Measure::Acceleration)?,
        ])
    }
}

/// The part of the flight in which anything thrusts, with a little before and after it; `None` when nothing does.
#[must_use]
pub fn thrust_window(curves: &FlightCurves) -> Option<(f64, f64)> {
    let (first, last) = extent([&curves.t_s[..]])?;
    let end = curves.t_s.iter().zip(&curves.a_mps2).filter(|(_, a)| **a > 0.0).map(|(t, _)| *t).fold(first, f64::max);
    (end > first).then(|| (first, (end + 0.15 * (end - first)).min(last)))
}

/// Places the words so that no word covers another or another's line: from the right, each climbs over those that
/// begin within its length.
fn event_words<'a>(events: &'a [Event], across: &Frame, width: f64) -> Vec<Word<'a>> {
    let mut seen: Vec<(f64, &str)> = events
        .iter()
        .map(|event| (across.x_of(event.t_s), event.what))
        .filter(|(x, _)| (across.left - 0.5..=across.right + 0.5).contains(x))
        .collect();
    holdwater_physics::order::sort_by_number(&mut seen, |(x, _)| -x);
    let mut words: Vec<Word<'a>> = Vec::with_capacity(seen.len());
    for (x, text) in seen {
        let length = text_width(text, WORD_SIZE);
        // At the right edge a word ends there exactly, however wide the font turns out.
        let edge = width - 4.0;
        let (at, hang, start) =
            if x + 4.0 + length > edge { (edge, Hang::End, edge - length) } else { (x + 4.0, Hang::Start, x + 4.0) };
        let end = start + length + 8.0;
        let row = words
            .iter()
            .filter(|other| {
                other.start < end && other.start + text_width(other.text, WORD_SIZE) + 8.0 > start
                    || other.x > start && other.x < end
            })
            .map(|other| other.row + 1)
            .max()
            .unwrap_or(0);
        words.push(Word { text, x, at, hang, start, row });
    }
    words
}

#[cfg(test)]
mod tests {
    use super::*;

    fn event(what: &'static str, t_s: f64) -> Event {
        Event { what, t_s, after_burnout_s: None, h_m: 0.0, v_mps: 0.0 }
    }

    #[test]
    fn crowded_words_climb_and_lonely_ones_stay_low() {
        let across =
            Frame { left: 40.0, top: 0.0, right: 260.0, bottom: 1.0, x_range: (0.0, 6.0), y_range: (0.0, 1.0) };
        let events = [event("lift-off", 0.0), event("burnout", 0.2), event("release", 0.6), event("apogee", 5.9)];
        let words = event_words(&events, &across, 280.0);
        let row = |text| words.iter().find(|word| word.text == text).map(|word| word.row);
        assert_eq!(row("apogee"), Some(0));
        assert_eq!(row("release"), Some(0));
        assert_eq!(row("burnout"), Some(1));
        assert_eq!(row("lift-off"), Some(2));
        for word in &words {
            assert!(word.start >= 0.0 && word.start + text_width(word.text, WORD_SIZE) <= 280.0);
        }
    }

    #[test]
    fn thrust_ends_with_the_last_push() {
        let curves = FlightCurves {
            t_s: vec![0.0, 0.1, 0.2, 1.2, 1.3, 1.6, 6.0],
            h_m: vec![0.0; 7],
            v_mps: vec![0.0; 7],
            a_mps2: vec![900.0, 500.0, -20.0, 200.0, 300.0, -30.0, -10.0],
        };
        let window = thrust_window(&curves);
        assert!(window.is_some_and(|(from, to)| from.abs() < 1e-12 && (1.3..2.0).contains(&to)), "{window:?}");
        assert_eq!(thrust_window(&FlightCurves::default()), None);
    }
}
