//! Height against staging delay.

use holdwater_answers::curves::DelayCurves;
use plotters::coord::Shift;
use plotters::drawing::DrawingArea;
use plotters::prelude::DrawingBackend;

use super::axes::{self, ROW, TICK_SIZE, WORD_SIZE};
use super::curve::{Curve, EndLabels, NARROW};
use super::line::{Point, between};
use super::pen::{Hang, Pen, Slope, Stroke};
use super::place::{text_width, wrapped};
use super::scale::{Axis, extent, number};
use super::{ChartError, ChartLook, Frame};
use crate::theme::Theme;

/// Name of the zone behind the latest release.
const ZONE: &str = "lifted water costs more than 1\u{a0}%";
/// Draws height against delay for the settled ideal, the bare vessel, the design as fitted and whatever else is named.
///
/// The area must have [`ChartLook::backend_size`].
///
/// # Errors
/// When there is nothing to draw, no room, or the backend refuses.
pub fn draw_delay<DB: DrawingBackend>(
    area: &DrawingArea<DB, Shift>,
    curves: &DelayCurves,
    look: &ChartLook,
) -> Result<Frame, ChartError> {
    let theme = &look.theme;
    let pen = Pen::on_paper(area, look)?;
    let narrow = look.width_px < NARROW;
    let mut lines = curves_of(curves, theme);
    let (x_low, x_high) = extent([&curves.delay_s[..]]).ok_or(ChartError::NothingToDraw)?;
    let (y_low, y_high) = extent(lines.iter().map(|line| line.heights)).ok_or(ChartError::NothingToDraw)?;
    if curves.delay_s.len() < 2 || x_high <= x_low {
        return Err(ChartError::NothingToDraw);
    }

    let y_axis = axes::heights(y_low, y_high, look.height_px);
    let x_axis = Axis::between(x_low, x_high, if narrow { 4 } else { 8 });

    let labels = EndLabels::new(&lines, if narrow { 50.0 } else { 120.0 });
    let marker = curves
        .latest_release_s
        .filter(|latest| latest.is_finite() && *latest <= x_high)
        .map(|latest| (latest, format!("latest release {}\u{2009}s", number(latest, 2))));
    let head = head_rows(look.width_px, marker.as_ref().map(|(_, text)| text.as_str()));
    let right_room = labels.width + 20.0;
    let x_title = "delay, s";
    // Beside the last number when the labels' margin has room for it, otherwise in a row of its own.
    let x_title_beside = right_room >= text_width(x_title, TICK_SIZE) + 16.0;
    let frame = Frame {
        left: axes::width_of(&y_axis),
        top: ROW * head + 6.0,
        right: look.width_px - right_room,
        bottom: look.height_px - 22.0 - if x_title_beside { 0.0 } else { 14.0 },
        x_range: (x_axis.low, x_axis.high),
        y_range: (y_axis.low, y_axis.high),
    };
    if !(frame.width() >= 40.0 && frame.height() >= 40.0) {
        return Err(ChartError::TooSmall);
    }
    for line in &mut lines {
        line.place(&frame, &curves.delay_s, look);
    }

    if let Some((latest, _)) = &marker {
        let left = frame.x_of(*latest).clamp(frame.left, frame.right);
        let tint = if theme.has_tints() { theme.buoy.mixed(theme.paper, 0.6) } else { theme.ink };
        let gap = if narrow { 10.0 } else { 14.0 } * theme.line_width_factor.sqrt();
        pen.hatch((left, frame.top), (frame.right, frame.bottom), Slope::Rising, gap, tint)?;
    }
    axes::vertical(&pen, theme, &frame, &y_axis)?;
    axes::horizontal(&pen, theme, &frame, &x_axis, true)?;
    pen.text("height, m", (2.0, 0.5 * ROW), Hang::Start, TICK_SIZE, theme.quiet_ink)?;
    if x_title_beside {
        pen.text(x_title, (look.width_px - 2.0, frame.bottom + 12.0), Hang::End, TICK_SIZE, theme.quiet_ink)?;
    } else {
        pen.text(x_title, (frame.right, frame.bottom + 27.0), Hang::End, TICK_SIZE, theme.quiet_ink)?;
    }
    for line in &lines {
        line.draw(&pen)?;
    }
    if let Some((latest, text)) = &marker {
        let x = frame.x_of(*latest).clamp(frame.left, frame.right);
        draw_zone_name(&pen, theme, &frame, x, &lines)?;
        let row = ROW * (head - 0.5);
        let half = 0.5 * text_width(text, WORD_SIZE);
        let least = half + if head < 1.5 { text_width("height, m", TICK_SIZE) + 14.0 } else { 2.0 };
        let centre = x.min(look.width_px - half - 2.0).max(least);
        pen.line(&[(x, ROW * head - 2.0), (x, frame.bottom)], Stroke::solid(theme.buoy, 1.5))?;
        pen.text(text, (centre, row), Hang::Middle, WORD_SIZE, theme.buoy)?;
    }
    labels.draw(&pen, &frame, &lines)?;
    area.present().map_err(|error| ChartError::Backend(error.to_string()))?;
    Ok(frame)
}

/// Rows above the plot: one when the marker's words fit beside the axis title.
fn head_rows(width: f64, marker: Option<&str>) -> f64 {
    let Some(text) = marker else { return 1.0 };
    let needed = text_width("height, m", TICK_SIZE) + 14.0 + text_width(text, WORD_SIZE);
    // The words should stand over their line, which may be anywhere: that takes more than the bare sum.
    if width >= NARROW && needed < 0.6 * width { 1.0 } else { 2.0 }
}

/// Dashes of the further choices: each unlike the others and unlike those of the first three lines.
const MORE_DASHES: [&[f64]; 4] = [&[2.0, 3.0], &[14.0, 3.0], &[5.0, 2.5, 1.5, 2.5, 1.5, 2.5], &[4.0, 6.0]];

fn curves_of<'a>(curves: &'a DelayCurves, theme: &Theme) -> Vec<Curve<'a>> {
    let half_tone = theme.ink.mixed(theme.quiet_ink, 0.6);
    let mut found = vec![
        Curve::new("settled ideal", &curves.settled_m, theme.quiet_ink, 1.5, &[9.0, 5.0]),
        Curve::new("bare", &curves.bare_m, theme.ink, 2.0, &[]),
        Curve::new("as fitted", &curves.tube_m, half_tone, 2.0, &[8.0, 3.5, 1.5, 3.5]),
    ];
    for (line, dash) in curves.more.iter().zip(MORE_DASHES.iter().cycle()) {
        found.push(Curve::new(&line.name, &line.heights, half_tone, 1.8, dash));
    }
    found.retain(Curve::has_points);
    found
}

/// Writes the zone's name where it hides no curve, low rather than high.
fn draw_zone_name<DB: DrawingBackend>(
    pen: &Pen<'_, DB>,
    theme: &Theme,
    frame: &Frame,
    zone_left: f64,
    lines: &[Curve<'_>],
) -> Result<(), ChartError> {
    let room = frame.right - zone_left;
    // A sliver cannot hold words, and the marker above it says the same.
    if room < 30.0 {
        return Ok(());
    }
    let mut best: Option<(usize, NamePlace)> = None;
    // Few long rows first; where they would hide a curve, more and shorter ones.
    for most in [240.0, 135.0, 108.0, 96.0, 84.0, 66.0] {
        let place = NamePlace::new((room - 14.0).min(most), zone_left);
        for place in place.candidates(frame, room) {
            let hidden = hidden_length(lines, place.from(), place.to());
            if best.as_ref().is_none_or(|(least, _)| hidden < *least) {
                best = Some((hidden, place));
            }
        }
    }
    let Some((_, place)) = best else {
        return Ok(());
    };
    for (index, row) in place.rows.iter().enumerate() {
        let y = place.top + (index as f64 + 0.5) * NAME_ROW;
        pen.text_on_paper(row, (place.left + 0.5 * place.width, y), Hang::Middle, TICK_SIZE, theme.ink)?;
    }
    Ok(())
}

/// Height of a row of the zone's name, CSS px.
const NAME_ROW: f64 = 15.0;

/// A place for the zone's name.
#[derive(Clone)]
struct NamePlace {
    rows: Vec<String>,
    width: f64,
    left: f64,
    top: f64,
}

impl NamePlace {
    fn new(most: f64, zone_left: f64) -> Self {
        let rows = wrapped(ZONE, most, TICK_SIZE);
        let width = rows.iter().map(|row| text_width(row, TICK_SIZE)).fold(0.0, f64::max);
        Self { rows, width, left: zone_left, top: 0.0 }
    }

    /// Places in the zone from low to high: in its middle, at its right, at its left.
    fn candidates(&self, frame: &Frame, room: f64) -> Vec<Self> {
        let height = self.rows.len() as f64 * NAME_ROW;
        let slack = (room - self.width - 12.0).max(0.0);
        let bottom = frame.bottom - 6.0 - height;
        (0..24)
            .map(|step| bottom - f64::from(step) * 6.0)
            .take_while(|top| *top >= frame.top)
            .flat_map(|top| [0.5, 1.0, 0.0].map(|share| (top, share)))
            .map(|(top, share)| {
                let left = (self.left + 6.0 + share * slack).min(frame.right - self.width - 2.0);
                Self { left, top, ..self.clone() }
            })
            .collect()
    }

    fn from(&self) -> Point {
        (self.left - 4.0, self.top - 4.0)
    }

    fn to(&self) -> Point {
        (self.left + self.width + 4.0, self.top + self.rows.len() as f64 * NAME_ROW + 4.0)
    }
}

/// How much of the curves a box hides, in steps of about 2 px along them.
fn hidden_length(lines: &[Curve<'_>], from: Point, to: Point) -> usize {
    let inside = |point: Point| (from.0..to.0).contains(&point.0) && (from.1..to.1).contains(&point.1);
    let segments = lines.iter().flat_map(|line| &line.lines).flat_map(|run| run.windows(2));
    segments
        .map(|pair| {
            let (a, b) = (pair[0], pair[1]);
            let steps = (between(a, b) / 2.0).ceil().clamp(1.0, 2000.0) as usize;
            (0..=steps)
                .filter(|step| {
                    let share = *step as f64 / steps as f64;
                    inside((a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1)))
                })
                .count()
        })
        .sum()
}
