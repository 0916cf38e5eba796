//! Height against the bore of a restrictor's holes.
//!
//! Bores lie along the axis by their ratio: the narrow ones choke within a millimetre, the wide ones leak over tens.

use holdwater_answers::curves::BoreCurves;
use holdwater_design::measure::{Measure, System};
use holdwater_physics::real;
use plotters::prelude::DrawingBackend;

use super::axes::{self, ROW, Ruler, TICK_SIZE, WORD_SIZE};
use super::bore_marks::{Header, draw_marks, draw_window, marks_of};
use super::curve::{Curve, EndLabels, NARROW};
use super::pen::{Hang, Pen, Slope, Stroke};
use super::place::{spread, text_width, wrapped};
use super::scale::{extent, ratio_ticks};
use super::sheet::{Sheet, painted};
use super::tell_bore::{bore_of, describe_bore};
use super::zones::{Hold, Zone, zones};
use super::{ChartError, ChartLook, Frame};
use crate::shown::titled;
use crate::theme::{Rgb, Theme};

/// Room between a zone's word and the zone, for a leader, CSS px.
const LEADER: f64 = 8.0;
/// Rows below the plot: numbers, the window with its words, the axis title, CSS px.
const FOOT: f64 = 66.0;

/// Where the plot lies in the picture, and which bores and heights it shows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoreFrame {
    /// The plot. Its horizontal numbers are natural logarithms of bores in mm; its vertical ones are heights in m.
    pub plot: Frame,
}

impl BoreFrame {
    /// Bore at a horizontal position, m, held within the range.
    #[must_use]
    pub fn bore_at(&self, px: f64) -> f64 {
        1e-3 * real::exp(self.plot.delay_at(px))
    }

    /// Horizontal position of a bore in m, CSS px, held within the plot.
    #[must_use]
    pub fn x_of(&self, bore_m: f64) -> f64 {
        let x = self.plot.x_of(ratio(bore_m));
        if x.is_finite() { x.clamp(self.plot.left, self.plot.right) } else { self.plot.left }
    }

    /// Vertical position of a height in m, CSS px, held within the plot.
    #[must_use]
    pub fn y_of(&self, height_m: f64) -> f64 {
        let y = self.plot.y_of(height_m);
        if y.is_finite() { y.clamp(self.plot.top, self.plot.bottom) } else { self.plot.bottom }
    }
}

/// Where a bore lies on the axis: the logarithm of its millimetres.
fn ratio(bore_m: f64) -> f64 {
    if bore_m > 0.0 && bore_m < 1e6 { real::ln(1e3 * bore_m) } else { f64::NAN }
}

/// Draws height against bore with the zones that choke, hold, are marginal and leak, the ideal of equal mass, the bare
/// vessel, the window and the best bore. The fitted bore is painted only when asked for: where it is dragged, the page
/// lays it over the canvas ([`BoreFrame::x_of`]).
///
/// The backend must have [`ChartLook::backend_size`], or a context scaled to it.
///
/// # Errors
/// When there is nothing to draw, no room, or the backend refuses.
pub fn draw_bore<DB: DrawingBackend>(
    backend: DB,
    curves: &BoreCurves,
    look: &ChartLook,
    with_fitted: bool,
) -> Result<BoreFrame, ChartError> {
    painted(backend, look, sheet(curves, look, with_fitted))
}

/// The same as an SVG file, with the fitted bore; [`ChartLook::for_file`] is made for it.
///
/// # Errors
/// When there is nothing to draw, or no room.
pub fn bore_svg(curves: &BoreCurves, look: &ChartLook) -> Result<String, ChartError> {
    let (sheet, _) = sheet(curves, look, true)?;
    Ok(sheet.svg(look, &describe_bore(curves, look.units)))
}

fn sheet(curves: &BoreCurves, look: &ChartLook, with_fitted: bool) -> Result<(Sheet, BoreFrame), ChartError> {
    let theme = &look.theme;
    let narrow = look.width_px < NARROW;
    let xs: Vec<f64> = curves.bore_m.iter().map(|bore| ratio(*bore)).collect();
    let (x_low, x_high) = extent([&xs[..]]).ok_or(ChartError::NothingToDraw)?;
    if x_high <= x_low + 1e-6 {
        return Err(ChartError::NothingToDraw);
    }
    let (ideal, bare) = (vec![curves.ideal_m; xs.len()], vec![curves.bare_m; xs.len()]);
    let mut lines = vec![
        Curve::new("ideal, equal mass", &ideal, theme.quiet_ink, 1.5, &[9.0, 5.0]),
        Curve::new("bare", &bare, theme.quiet_ink, 1.0, &[]),
        Curve::new("with plate", &curves.height_m, theme.ink, 2.2, &[]),
    ];
    lines.retain(Curve::has_points);
    let (y_low, y_high) = extent(lines.iter().map(|line| line.heights)).ok_or(ChartError::NothingToDraw)?;
    let ruler = Ruler::heights(y_low, y_high, look.height_px, look.units);
    let labels = EndLabels::new(&lines, if narrow { 50.0 } else { 140.0 });

    let (low, high) = (1e-3 * real::exp(x_low), 1e-3 * real::exp(x_high));
    let zones: Vec<NamedZone> = zones(curves, low, high).into_iter().map(NamedZone::new).collect();
    let word_rows = zones.iter().map(|zone| zone.rows.len()).max().unwrap_or(0) as f64;
    let (left, right) = (ruler.width(), look.width_px - labels.width - 20.0);
    let y_title = titled("height", Measure::Distance, look.units);
    let marks = marks_of(curves, with_fitted, look);
    let header = Header::new(&marks, &y_title, look.width_px);
    let words_bottom = header.bottom + ROW * word_rows;
    let top = words_bottom + LEADER;
    let frame = BoreFrame {
        plot: Frame {
            left,
            top,
            right,
            bottom: look.height_px - FOOT,
            x_range: (x_low, x_high),
            y_range: ruler.range(),
        },
    };
    let plot = &frame.plot;
    if !(plot.width() >= 60.0 && plot.height() >= 40.0) {
        return Err(ChartError::TooSmall);
    }
    for line in &mut lines {
        line.place(plot, &xs, look);
    }

    let mut pen = Pen::on_paper(look);
    for zone in &zones {
        shade(&mut pen, theme, &frame, &zone.zone, narrow);
    }
    ruler.draw(&mut pen, theme, plot);
    axes::horizontal_at(&mut pen, theme, plot, &bore_ticks(plot, (low, high), look.units), true);
    for zone in zones.iter().skip(1) {
        let x = frame.x_of(zone.zone.from_m);
        pen.line(&[(x, plot.top), (x, plot.bottom)], Stroke::solid(theme.quiet_ink, 1.0));
    }
    lines.iter().for_each(|line| line.draw(&mut pen));
    pen.text(&y_title, (2.0, 0.5 * ROW), Hang::Start, TICK_SIZE, theme.quiet_ink);
    draw_marks(&mut pen, &frame, &marks, &header);
    name_zones(&mut pen, theme, &frame, &zones, words_bottom, look.width_px);
    draw_window(&mut pen, look, &frame, curves);
    labels.draw(&mut pen, plot, &lines);
    let title = titled(&bore_of(curves.holes), Measure::Size, look.units);
    let end = plot.right.max(text_width(&title, TICK_SIZE) + 2.0).min(look.width_px - 2.0);
    pen.text(&title, (end, look.height_px - 7.0), Hang::End, TICK_SIZE, theme.quiet_ink);
    Ok((pen.sheet, frame))
}

/// A zone with its word in rows.
struct NamedZone {
    zone: Zone,
    rows: Vec<String>,
}

impl NamedZone {
    fn new(zone: Zone) -> Self {
        Self { rows: wrapped(zone.word(), 0.0, WORD_SIZE), zone }
    }

    fn width(&self) -> f64 {
        self.rows.iter().map(|row| text_width(row, WORD_SIZE)).fold(0.0, f64::max)
    }
}

/// Round bores of the unit shown whose numbers do not touch, placed along the axis.
fn bore_ticks(plot: &Frame, (low, high): (f64, f64), units: System) -> Vec<(f64, String)> {
    let mut kept: Vec<(f64, String)> = Vec::new();
    let mut edge = f64::MIN;
    let shown = |bore_m: f64| Measure::Size.shown(units, 1e3 * bore_m);
    for (tick, text) in ratio_ticks(shown(low), shown(high)) {
        let place = real::ln(Measure::Size.metric(units, tick));
        let half = 0.5 * text_width(&text, TICK_SIZE);
        if plot.x_of(place) - half > edge + 5.0 {
            edge = plot.x_of(place) + half;
            kept.push((place, text));
        }
    }
    kept
}

/// A zone's tint and its hatch: none where all is well, falling lines where it is marginal, rising ones where it leaks,
/// and both where the gas is throttled.
fn shade(pen: &mut Pen<'_>, theme: &Theme, frame: &BoreFrame, zone: &Zone, narrow: bool) {
    let plot = &frame.plot;
    let (from, to) = ((frame.x_of(zone.from_m), plot.top), (frame.x_of(zone.to_m), plot.bottom));
    let colour = match (zone.chokes, zone.hold) {
        (false, Hold::Holds) => theme.kelp,
        (false, Hold::Leaks) => theme.buoy,
        _ => theme.quiet_ink,
    };
    let tinted = |share: f64| if theme.has_tints() { colour.mixed(theme.paper, share) } else { theme.ink };
    if theme.has_tints() {
        pen.fill(from, to, tinted(0.9));
    }
    let gap = if narrow { 10.0 } else { 14.0 } * theme.line_width_factor.sqrt();
    let (rising, falling) = (zone.chokes || zone.hold == Hold::Leaks, zone.chokes || zone.hold == Hold::Marginal);
    let lines: Rgb = tinted(0.6);
    if rising {
        pen.hatch(from, to, Slope::Rising, gap, lines);
    }
    if falling {
        pen.hatch(from, to, Slope::Falling, if zone.chokes { gap } else { 0.6 * gap }, lines);
    }
}

/// Writes the zones' words in a row over the plot, each tied to the middle of its zone.
fn name_zones(pen: &mut Pen<'_>, theme: &Theme, frame: &BoreFrame, zones: &[NamedZone], words_bottom: f64, width: f64) {
    let middles: Vec<f64> =
        zones.iter().map(|zone| 0.5 * (frame.x_of(zone.zone.from_m) + frame.x_of(zone.zone.to_m))).collect();
    let boxes: Vec<(f64, f64)> =
        zones.iter().zip(&middles).map(|(zone, middle)| (*middle, zone.width() + 8.0)).collect();
    // The words may stand over the margins of the plot, where nothing else is in their row.
    let centres = spread(&boxes, 2.0, width - 2.0);
    for ((zone, middle), centre) in zones.iter().zip(&middles).zip(centres) {
        let colour = match zone.zone.word() {
            "holds" => theme.kelp,
            "leaks" => theme.buoy,
            _ => theme.ink,
        };
        pen.line(&[(centre, words_bottom - 1.0), (*middle, frame.plot.top)], Stroke::solid(theme.quiet_ink, 1.0));
        for (index, row) in zone.rows.iter().enumerate() {
            let y = words_bottom - ROW * ((zone.rows.len() - index) as f64 - 0.5);
            pen.text_on_paper(row, (centre, y), Hang::Middle, WORD_SIZE, colour);
        }
    }
}
