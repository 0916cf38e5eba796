//! Height against staging delay.

use holdwater_answers::curves::DelayCurves;
use holdwater_design::measure::Measure;
use plotters::prelude::DrawingBackend;

use super::axes::{self, ROW, Ruler, TICK_SIZE, WORD_SIZE};
use super::curve::{Curve, EndLabels, NARROW};
use super::pen::{Hang, Pen, Slope, Stroke};
use super::place::text_width;
use super::scale::{Axis, extent, number};
use super::sheet::{Sheet, painted};
use super::tell::describe_delay;
use super::zone_name::{ZoneName, draw_over_plot, rows_over_plot};
use super::{ChartError, ChartLook, Frame};
use crate::shown::titled;
use crate::theme::Theme;

const X_TITLE: &str = "delay, s";

/// Draws height against delay for the settled ideal, the bare vessel, the design as fitted and whatever else is named.
///
/// The backend must have [`ChartLook::backend_size`], or a context scaled to it.
///
/// # Errors
/// When there is nothing to draw, no room, or the backend refuses.
pub fn draw_delay<DB: DrawingBackend>(
    backend: DB,
    curves: &DelayCurves,
    look: &ChartLook,
) -> Result<Frame, ChartError> {
    painted(backend, look, sheet(curves, look))
}

/// The same as an SVG file; [`ChartLook::for_file`] is made for it.
///
/// # Errors
/// When there is nothing to draw, or no room.
pub fn delay_svg(curves: &DelayCurves, look: &ChartLook) -> Result<String, ChartError> {
    let (sheet, _) = sheet(curves, look)?;
    Ok(sheet.svg(look, &describe_delay(curves, look.units)))
}

fn sheet(curves: &DelayCurves, look: &ChartLook) -> Result<(Sheet, Frame), ChartError> {
    let theme = &look.theme;
    let plan = Plan::new(curves, look)?;
    let mut lines = curves_of(curves, theme);
    let mut lay = |rows: usize| {
        let frame = plan.frame(rows)?;
        lines.iter_mut().for_each(|line| line.place(&frame, &curves.delay_s, look));
        Ok((frame, plan.zone_left(&frame).and_then(|left| ZoneName::find(&frame, left, &lines))))
    };
    let (mut frame, mut name) = lay(0)?;
    // A name that would hide a piece of a curve stands over the plot.
    let over = name.as_ref().is_some_and(ZoneName::hides);
    if over {
        (frame, name) = lay(rows_over_plot(look.width_px).len())?;
    }

    let mut pen = Pen::on_paper(look);
    if let Some(left) = plan.zone_left(&frame) {
        let tint = if theme.has_tints() { theme.buoy.mixed(theme.paper, 0.6) } else { theme.ink };
        let gap = if plan.narrow { 10.0 } else { 14.0 } * theme.line_width_factor.sqrt();
        pen.hatch((left, frame.top), (frame.right, frame.bottom), Slope::Rising, gap, tint);
    }
    plan.ruler.draw(&mut pen, theme, &frame);
    axes::horizontal(&mut pen, theme, &frame, &plan.delays, true);
    pen.text(&plan.y_title, (2.0, 0.5 * ROW), Hang::Start, TICK_SIZE, theme.quiet_ink);
    lines.iter().for_each(|line| line.draw(&mut pen));
    plan.mark_uncovering(&mut pen, &frame, &lines);
    if plan.x_title_beside() {
        pen.text(X_TITLE, (look.width_px - 2.0, frame.bottom + 12.0), Hang::End, TICK_SIZE, theme.quiet_ink);
    } else {
        pen.text_on_paper(X_TITLE, (frame.right, frame.bottom + 27.0), Hang::End, TICK_SIZE, theme.quiet_ink);
    }
    if let Some(name) = name.filter(|_| !over) {
        name.draw(&mut pen, theme);
    }
    plan.mark_latest(&mut pen, &frame);
    if let Some(left) = plan.zone_left(&frame).filter(|_| over) {
        draw_over_plot(&mut pen, look, left, ROW * plan.head());
    }
    plan.labels.draw(&mut pen, &frame, &lines);
    Ok((pen.sheet, frame))
}

/// What is in the picture, before its place is known.
struct Plan<'a> {
    look: &'a ChartLook,
    narrow: bool,
    ruler: Ruler,
    delays: Axis,
    labels: EndLabels,
    y_title: String,
    latest: Option<(f64, String)>,
    uncovers: Option<(f64, String)>,
}

impl<'a> Plan<'a> {
    fn new(curves: &DelayCurves, look: &'a ChartLook) -> Result<Self, ChartError> {
        let narrow = look.width_px < NARROW;
        let lines = curves_of(curves, &look.theme);
        let (x_low, x_high) = extent([&curves.delay_s[..]]).ok_or(ChartError::NothingToDraw)?;
        let (y_low, y_high) = extent(lines.iter().map(|line| line.heights)).ok_or(ChartError::NothingToDraw)?;
        if curves.delay_s.len() < 2 || x_high <= x_low {
            return Err(ChartError::NothingToDraw);
        }
        let mark = |time: Option<f64>, words: &str| {
            let time = time.filter(|time| time.is_finite() && *time <= x_high)?;
            Some((time, [words, &number(time, 2), "\u{2009}s"].concat()))
        };
        // A curve of the bare vessel is what the mark belongs to.
        let uncovers = curves.uncovers_s.filter(|time| *time >= x_low && !curves.bare_m.is_empty());
        let phrases = ["bare: nozzle uncovered from ", "bare: uncovered from ", "uncovered from ", "uncovered "];
        let fits = |text: &String| text_width(text, WORD_SIZE) <= look.width_px - 4.0;
        let mut marks = phrases.iter().filter_map(|words| mark(uncovers, words));
        Ok(Self {
            look,
            narrow,
            ruler: Ruler::heights(y_low, y_high, look.height_px, look.units),
            delays: Axis::between(x_low, x_high, if narrow { 4 } else { 8 }),
            labels: EndLabels::new(&lines, if narrow { 50.0 } else { 120.0 }),
            y_title: titled("height", Measure::Distance, look.units),
            latest: mark(curves.latest_release_s, "latest release "),
            uncovers: marks.find(|(_, text)| fits(text)),
        })
    }

    /// The plot, with room for some more rows over it.
    fn frame(&self, rows: usize) -> Result<Frame, ChartError> {
        let foot = 22.0
            + if self.x_title_beside() { 0.0 } else { 14.0 }
            + if self.uncovers.is_some() { ROW + 2.0 } else { 0.0 };
        let frame = Frame {
            left: self.ruler.width(),
            top: ROW * (self.head() + rows as f64) + 6.0,
            right: self.look.width_px - self.right_room(),
            bottom: self.look.height_px - foot,
            x_range: (self.delays.low, self.delays.high),
            y_range: self.ruler.range(),
        };
        let fits = frame.width() >= 40.0 && frame.height() >= 40.0;
        if fits { Ok(frame) } else { Err(ChartError::TooSmall) }
    }

    fn right_room(&self) -> f64 {
        self.labels.width + 20.0
    }

    /// Whether the axis title stands beside the last number: when the labels' margin has room for it.
    fn x_title_beside(&self) -> bool {
        self.right_room() >= text_width(X_TITLE, TICK_SIZE) + 16.0
    }

    /// Rows above the plot: one when the words of the latest release fit beside the axis title.
    fn head(&self) -> f64 {
        let Some((_, text)) = &self.latest else { return 1.0 };
        let needed = text_width(&self.y_title, TICK_SIZE) + 14.0 + text_width(text, WORD_SIZE);
        // The words should stand over their line, which may be anywhere: that takes more than the bare sum.
        if !self.narrow && needed < 0.6 * self.look.width_px { 1.0 } else { 2.0 }
    }

    /// Where the zone behind the latest release begins, CSS px.
    fn zone_left(&self, frame: &Frame) -> Option<f64> {
        self.latest.as_ref().map(|(latest, _)| frame.x_of(*latest).clamp(frame.left, frame.right))
    }

    /// The latest release as a line from its words down through the plot.
    fn mark_latest(&self, pen: &mut Pen<'_>, frame: &Frame) {
        let (Some((_, text)), Some(x)) = (&self.latest, self.zone_left(frame)) else { return };
        let (head, colour) = (self.head(), self.look.theme.buoy);
        let half = 0.5 * text_width(text, WORD_SIZE);
        let least = half + if head < 1.5 { text_width(&self.y_title, TICK_SIZE) + 14.0 } else { 2.0 };
        let centre = x.min(self.look.width_px - half - 2.0).max(least);
        pen.line(&[(x, ROW * head - 2.0), (x, frame.bottom)], Stroke::solid(colour, 1.5));
        pen.text(text, (centre, ROW * (head - 0.5)), Hang::Middle, WORD_SIZE, colour);
    }

    /// The delay from which the bare nozzle is uncovered: its words under the axis, a dashed line up to the bare curve.
    fn mark_uncovering(&self, pen: &mut Pen<'_>, frame: &Frame, lines: &[Curve<'_>]) {
        let Some((delay, text)) = &self.uncovers else { return };
        let theme = &self.look.theme;
        let x = frame.x_of(*delay).clamp(frame.left, frame.right);
        let foot = self.look.height_px - 0.5 * ROW - 1.0;
        let half = 0.5 * text_width(text, WORD_SIZE) + 2.0;
        let centre = x.min(self.look.width_px - half).max(half);
        pen.line(&[(x, frame.bottom + 19.0), (x, foot - 0.5 * ROW + 1.0)], Stroke::solid(theme.ink, 1.2));
        pen.text(text, (centre, foot), Hang::Middle, WORD_SIZE, theme.ink);
        let y = lines.iter().find(|line| line.word == BARE).and_then(|line| line.height_at(x));
        let dash = Stroke { dash: &[2.0, 3.0], ..Stroke::solid(theme.ink, 1.2) };
        pen.line(&[(x, frame.bottom), (x, y.unwrap_or(frame.top))], dash);
        if let Some(y) = y {
            pen.dot((x, y), 2.5, theme.ink, true);
        }
    }
}

/// What the bare vessel's curve is called.
const BARE: &str = "bare";
/// Dashes of the further choices: each unlike the others and unlike those of the first three lines.
const MORE_DASHES: [&[f64]; 4] = [&[2.0, 3.0], &[14.0, 3.0], &[5.0, 2.5, 1.5, 2.5, 1.5, 2.5], &[4.0, 6.0]];

fn curves_of<'a>(curves: &'a DelayCurves, theme: &Theme) -> Vec<Curve<'a>> {
    let half_tone = theme.ink.mixed(theme.quiet_ink, 0.6);
    let mut found = vec![
        Curve::new("settled ideal", &curves.settled_m, theme.quiet_ink, 1.5, &[9.0, 5.0]),
        Curve::new(BARE, &curves.bare_m, theme.ink, 2.0, &[]),
        Curve::new("as fitted", &curves.tube_m, half_tone, 2.0, &[8.0, 3.5, 1.5, 3.5]),
    ];
    for (line, dash) in curves.more.iter().zip(MORE_DASHES.iter().cycle()) {
        found.push(Curve::new(&line.name, &line.heights, half_tone, 1.8, dash));
    }
    found.retain(Curve::has_points);
    found
}
