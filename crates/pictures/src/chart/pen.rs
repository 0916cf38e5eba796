//! Noting down in CSS px what a chart shows.

use super::ChartLook;
use super::line::Point;
use super::place::text_width;
use super::sheet::{Ink, Sheet};
use crate::theme::Rgb;

/// How a line is drawn.
#[derive(Clone, Copy, Debug)]
pub struct Stroke {
    /// Colour.
    pub colour: Rgb,
    /// Width, CSS px, before the theme's factor.
    pub width: f64,
    /// Dash pattern, CSS px.
    pub dash: &'static [f64],
}

impl Stroke {
    /// A solid line.
    pub const fn solid(colour: Rgb, width: f64) -> Self {
        Self { colour, width, dash: &[] }
    }
}

/// Where a text hangs on its point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hang {
    /// The text begins at the point.
    Start,
    /// The text is centred on the point.
    Middle,
    /// The text ends at the point.
    End,
}

/// Which way the lines of a hatch run, seen from the left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Slope {
    /// Upward.
    Rising,
    /// Downward.
    Falling,
}

/// Notes down marks in CSS px with a theme's line weights.
pub struct Pen<'a> {
    look: &'a ChartLook,
    /// What was noted, from back to front.
    pub sheet: Sheet,
}

impl<'a> Pen<'a> {
    /// A pen on a sheet that is filled with paper.
    pub fn on_paper(look: &'a ChartLook) -> Self {
        Self { look, sheet: Sheet::blank(look) }
    }

    /// A line through the points.
    pub fn line(&mut self, points: &[Point], stroke: Stroke) {
        self.lines(vec![points.to_vec()], stroke);
    }

    /// Lines that are drawn alike.
    pub fn lines(&mut self, mut runs: Vec<Vec<Point>>, stroke: Stroke) {
        runs.iter_mut().for_each(|run| sharpen(run));
        let width = stroke.width * self.look.theme.line_width_factor;
        self.sheet.inks.push(Ink::Lines { runs, width, colour: stroke.colour, dash: stroke.dash });
    }

    /// A filled rectangle.
    pub fn fill(&mut self, from: Point, to: Point, paint: Rgb) {
        self.area_of(&[from, (to.0, from.1), to, (from.0, to.1)], paint);
    }

    /// A dot with a rim of paper, or with the colour as its rim when it is hollow.
    pub fn dot(&mut self, at: Point, radius: f64, paint: Rgb, hollow: bool) {
        let paper = self.look.theme.paper;
        let (rim, core) = if hollow { (paint, paper) } else { (paper, paint) };
        self.area_of(&round(at, radius + 1.5), rim);
        self.area_of(&round(at, radius), core);
    }

    /// A filled polygon.
    fn area_of(&mut self, corners: &[Point], paint: Rgb) {
        self.sheet.inks.push(Ink::Area { corners: corners.to_vec(), paint });
    }

    /// Thin diagonal lines over a rectangle, rising or falling to the right.
    pub fn hatch(&mut self, from: Point, to: Point, slope: Slope, gap: f64, paint: Rgb) {
        let (width, height) = (to.0 - from.0, to.1 - from.1);
        if !(width > 0.5 && height > 0.5 && gap > 1.0) {
            return;
        }
        // Rising lines, named by where they would meet the lower edge; anchored to the picture and not to the
        // rectangle, so that they stand still while its edge is dragged.
        let first = ((from.0 - height) / gap).ceil() as i64;
        let last = (to.0 / gap).floor() as i64;
        let mut runs = Vec::new();
        for index in first..=last {
            let foot = index as f64 * gap;
            let enter = (from.0 - foot).max(0.0);
            let leave = (to.0 - foot).min(height);
            if leave > enter {
                let at = |run: f64| match slope {
                    Slope::Rising => (foot + run, to.1 - run),
                    Slope::Falling => (foot + run, from.1 + run),
                };
                runs.push(vec![at(enter), at(leave)]);
            }
        }
        self.sheet.inks.push(Ink::Lines { runs, width: 1.0, colour: paint, dash: &[] });
    }

    /// A text whose vertical middle lies on the point.
    pub fn text(&mut self, text: &str, at: Point, hang: Hang, size: f64, paint: Rgb) {
        self.sheet.inks.push(Ink::Text { text: text.to_owned(), at, hang, size, paint });
    }

    /// A text on a piece of paper that covers what lies below.
    pub fn text_on_paper(&mut self, text: &str, at: Point, hang: Hang, size: f64, paint: Rgb) {
        let width = text_width(text, size);
        let left = match hang {
            Hang::Start => at.0,
            Hang::Middle => at.0 - 0.5 * width,
            Hang::End => at.0 - width,
        };
        let half = 0.5 * size + 1.5;
        self.fill((left - 2.0, at.1 - half), (left + width + 2.0, at.1 + half), self.look.theme.paper);
        self.text(text, at, hang, size, paint);
    }
}

/// Moves an upright or level line onto half pixels. There it covers whole pixels of most screens, where it is sharp;
/// slanted lines are smooth wherever they lie.
fn sharpen(run: &mut [Point]) {
    let half = |value: f64| (2.0 * value).round() / 2.0;
    if let [a, b] = run {
        if (a.0 - b.0).abs() < 1e-9 {
            (a.0, b.0) = (half(a.0), half(b.0));
        }
        if (a.1 - b.1).abs() < 1e-9 {
            (a.1, b.1) = (half(a.1), half(b.1));
        }
    }
}

/// A circle as a polygon, good enough for a dot.
fn round(at: Point, radius: f64) -> [Point; 12] {
    let turn = [(1.0, 0.0), (0.866, 0.5), (0.5, 0.866)];
    core::array::from_fn(|index| {
        let (x, y) = turn[index % 3];
        let (x, y) = match index / 3 {
            0 => (x, y),
            1 => (-y, x),
            2 => (-x, -y),
            _ => (y, -x),
        };
        (at.0 + radius * x, at.1 + radius * y)
    })
}
