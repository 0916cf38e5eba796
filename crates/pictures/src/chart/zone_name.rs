//! The name of the zone behind the latest release, where it hides no curve.

use super::axes::{ROW, TICK_SIZE};
use super::curve::Curve;
use super::line::{Point, between};
use super::pen::{Hang, Pen};
use super::place::{text_width, wrapped};
use super::{ChartLook, Frame};
use crate::theme::Theme;

const WORDS: &str = "lifted water costs more than 1\u{a0}%";
/// Height of a row of the name, CSS px.
const NAME_ROW: f64 = 15.0;

/// A place for the zone's name.
#[derive(Clone)]
pub struct ZoneName {
    rows: Vec<String>,
    width: f64,
    left: f64,
    top: f64,
    hidden: usize,
}

impl ZoneName {
    /// The place in the plot that hides least of the curves, low rather than high.
    pub fn find(frame: &Frame, zone_left: f64, lines: &[Curve<'_>]) -> Option<Self> {
        let room = frame.right - zone_left;
        // A sliver cannot hold words, and the marker above it says the same.
        if room < 30.0 {
            return None;
        }
        let points = points_along(lines);
        let mut best: Option<Self> = None;
        // Few long rows first; where they would hide a curve, more and shorter ones.
        for most in [240.0, 135.0, 108.0, 96.0, 84.0, 66.0] {
            let name = Self::new((room - 14.0).min(most), zone_left);
            for mut place in name.candidates(frame, room) {
                // It need not be known how much more than the best a place hides.
                let most = best.as_ref().map_or(usize::MAX, |best| best.hidden);
                place.hidden = points.iter().filter(|point| place.covers(**point)).take(most).count();
                if place.hidden == 0 {
                    return Some(place);
                }
                if place.hidden < most {
                    best = Some(place);
                }
            }
        }
        best
    }

    /// Whether it hides a piece of a curve.
    pub fn hides(&self) -> bool {
        self.hidden > 0
    }

    /// Writes it.
    pub fn draw(&self, pen: &mut Pen<'_>, theme: &Theme) {
        for (index, row) in self.rows.iter().enumerate() {
            let y = self.top + (index as f64 + 0.5) * NAME_ROW;
            pen.text_on_paper(row, (self.left + 0.5 * self.width, y), Hang::Middle, TICK_SIZE, theme.ink);
        }
    }

    fn new(most: f64, zone_left: f64) -> Self {
        let rows = wrapped(WORDS, most, TICK_SIZE);
        let width = rows.iter().map(|row| text_width(row, TICK_SIZE)).fold(0.0, f64::max);
        Self { rows, width, left: zone_left, top: 0.0, hidden: 0 }
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

    fn covers(&self, point: Point) -> bool {
        let (right, bottom) = (self.left + self.width, self.top + self.rows.len() as f64 * NAME_ROW);
        (self.left - 4.0..right + 4.0).contains(&point.0) && (self.top - 4.0..bottom + 4.0).contains(&point.1)
    }
}

/// Points along the curves, about 2 px apart.
fn points_along(lines: &[Curve<'_>]) -> Vec<Point> {
    let mut points = Vec::new();
    for pair in lines.iter().flat_map(|line| &line.lines).flat_map(|run| run.windows(2)) {
        let (a, b) = (pair[0], pair[1]);
        let steps = (between(a, b) / 2.0).ceil().clamp(1.0, 2000.0) as usize;
        points.extend((0..=steps).map(|step| {
            let share = step as f64 / steps as f64;
            (a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1))
        }));
    }
    points
}

/// The name in rows over the plot, as wide as the picture at most.
pub fn rows_over_plot(width_px: f64) -> Vec<String> {
    wrapped(WORDS, width_px - 4.0, TICK_SIZE)
}

/// Writes those rows over the zone, whose edge runs through them where there is no room at its right.
pub fn draw_over_plot(pen: &mut Pen<'_>, look: &ChartLook, zone_left: f64, top: f64) {
    for (index, row) in rows_over_plot(look.width_px).iter().enumerate() {
        let left = (zone_left + 6.0).min(look.width_px - 2.0 - text_width(row, TICK_SIZE)).max(2.0);
        let y = top + ROW * (index as f64 + 0.5);
        pen.text_on_paper(row, (left, y), Hang::Start, TICK_SIZE, look.theme.ink);
    }
}
