//! Drawing in CSS px with a theme's line weights on any backend.

use plotters::coord::Shift;
use plotters::drawing::DrawingArea;
use plotters::element::{PathElement, Polygon};
use plotters::prelude::DrawingBackend;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters::style::{Color, FontDesc, FontFamily, FontStyle, RGBColor, ShapeStyle, TextStyle};

use super::line::{Point, dashed};
use super::place::text_width;
use super::{ChartError, ChartLook};
use crate::theme::Rgb;

/// How a line is drawn.
#[derive(Clone, Copy, Debug)]
pub struct Stroke<'a> {
    /// Colour.
    pub colour: Rgb,
    /// Width, CSS px, before the theme's factor.
    pub width: f64,
    /// Dash pattern, CSS px.
    pub dash: &'a [f64],
}

impl Stroke<'static> {
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

/// Draws on an area in CSS px.
pub struct Pen<'a, DB: DrawingBackend> {
    area: &'a DrawingArea<DB, Shift>,
    look: &'a ChartLook,
    ratio: f64,
}

impl<'a, DB: DrawingBackend> Pen<'a, DB> {
    /// A pen on an area that has been filled with paper.
    pub fn on_paper(area: &'a DrawingArea<DB, Shift>, look: &'a ChartLook) -> Result<Self, ChartError> {
        let pen = Self { area, look, ratio: look.ratio() };
        // Not the area's own fill: a canvas with a scaled context is smaller than what is drawn on it.
        pen.fill((0.0, 0.0), (look.width_px, look.height_px), look.theme.paper)?;
        Ok(pen)
    }

    /// A line through the points.
    pub fn line(&self, points: &[Point], stroke: Stroke<'_>) -> Result<(), ChartError> {
        let width = (stroke.width * self.look.theme.line_width_factor * self.ratio).round().max(1.0) as u32;
        let style = ShapeStyle { color: colour(stroke.colour).to_rgba(), filled: false, stroke_width: width };
        for dash in dashed(points, stroke.dash) {
            let path: Vec<(i32, i32)> = dash.iter().map(|point| self.pixel(*point)).collect();
            self.area.draw(&PathElement::new(path, style)).map_err(refused)?;
        }
        Ok(())
    }

    /// A filled rectangle.
    pub fn fill(&self, from: Point, to: Point, paint: Rgb) -> Result<(), ChartError> {
        self.area_of(&[from, (to.0, from.1), to, (from.0, to.1)], paint)
    }

    /// A dot with a rim of paper, or with the colour as its rim when it is hollow.
    pub fn dot(&self, at: Point, radius: f64, paint: Rgb, hollow: bool) -> Result<(), ChartError> {
        let paper = self.look.theme.paper;
        let (rim, core) = if hollow { (paint, paper) } else { (paper, paint) };
        self.area_of(&round(at, radius + 1.5), rim)?;
        self.area_of(&round(at, radius), core)
    }

    /// A filled polygon.
    fn area_of(&self, corners: &[Point], paint: Rgb) -> Result<(), ChartError> {
        let corners: Vec<(i32, i32)> = corners.iter().map(|point| self.pixel(*point)).collect();
        self.area.draw(&Polygon::new(corners, colour(paint))).map_err(refused)
    }

    /// Thin diagonal lines over a rectangle, rising or falling to the right.
    pub fn hatch(&self, from: Point, to: Point, slope: Slope, gap: f64, paint: Rgb) -> Result<(), ChartError> {
        let (width, height) = (to.0 - from.0, to.1 - from.1);
        if !(width > 0.5 && height > 0.5 && gap > 1.0) {
            return Ok(());
        }
        // Rising lines, named by where they would meet the lower edge; anchored to the picture and not to the
        // rectangle, so that they stand still while its edge is dragged.
        let first = ((from.0 - height) / gap).ceil() as i64;
        let last = (to.0 / gap).floor() as i64;
        for index in first..=last {
            let foot = index as f64 * gap;
            let enter = (from.0 - foot).max(0.0);
            let leave = (to.0 - foot).min(height);
            if leave > enter {
                let at = |run: f64| match slope {
                    Slope::Rising => self.pixel((foot + run, to.1 - run)),
                    Slope::Falling => self.pixel((foot + run, from.1 + run)),
                };
                let style = ShapeStyle {
                    color: colour(paint).to_rgba(),
                    filled: false,
                    stroke_width: self.ratio.round().max(1.0) as u32,
                };
                self.area.draw(&PathElement::new(vec![at(enter), at(leave)], style)).map_err(refused)?;
            }
        }
        Ok(())
    }

    /// A text whose vertical middle lies on the point.
    pub fn text(&self, text: &str, at: Point, hang: Hang, size: f64, paint: Rgb) -> Result<(), ChartError> {
        let family = FontFamily::Name(&self.look.font_family);
        let size = size * self.ratio * self.look.text_factor;
        let hpos = match hang {
            Hang::Start => HPos::Left,
            Hang::Middle => HPos::Center,
            Hang::End => HPos::Right,
        };
        let style = TextStyle {
            font: FontDesc::new(family, size, FontStyle::Normal),
            color: {
                let Rgb(r, g, b) = paint;
                RGBColor(r, g, b).to_backend_color()
            },
            pos: Pos::new(hpos, VPos::Center),
        };
        self.area.draw_text(text, &style, self.pixel(at)).map_err(refused)
    }

    /// A text on a piece of paper that covers what lies below.
    pub fn text_on_paper(&self, text: &str, at: Point, hang: Hang, size: f64, paint: Rgb) -> Result<(), ChartError> {
        let width = text_width(text, size);
        let left = match hang {
            Hang::Start => at.0,
            Hang::Middle => at.0 - 0.5 * width,
            Hang::End => at.0 - width,
        };
        let half = 0.5 * size + 1.5;
        self.fill((left - 2.0, at.1 - half), (left + width + 2.0, at.1 + half), self.look.theme.paper)?;
        self.text(text, at, hang, size, paint)
    }

    fn pixel(&self, point: Point) -> (i32, i32) {
        let whole = |value: f64| {
            let value = value * self.ratio;
            if value.is_finite() { value.round().clamp(-1e6, 1e6) as i32 } else { 0 }
        };
        (whole(point.0), whole(point.1))
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

fn colour(rgb: Rgb) -> RGBColor {
    RGBColor(rgb.0, rgb.1, rgb.2)
}

fn refused(error: impl core::fmt::Display) -> ChartError {
    ChartError::Backend(error.to_string())
}
