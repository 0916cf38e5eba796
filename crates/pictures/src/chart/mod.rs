//! Charts on any plotters backend.
//!
//! The chart builder of plotters has no dashes by length, no hatching and no labels at line ends, so only its
//! backends are used; [`frame`], [`scale`], [`line`] and [`place`] do what a chart of ours needs.
//! Each chart hands back its [`Frame`], with which the page lays crosshair and markers over the canvas. Frames speak
//! metric, whatever the units written along the axes.

mod axes;
mod bore;
mod bore_marks;
mod curve;
mod delay;
mod flight;
pub mod frame;
pub mod line;
mod pen;
pub mod place;
pub mod scale;
mod sheet;
mod tell;
mod tell_bore;
mod zone_name;
mod zones;

pub use bore::{BoreFrame, bore_svg, draw_bore};
pub use delay::{delay_svg, draw_delay};
pub use flight::{draw_flight, flight_svg, thrust_window};
pub use frame::Frame;
pub use tell::{delay_heads, delay_table, describe_delay, describe_flight, event_heads, flight_heads, flight_table};
pub use tell_bore::{bore_heads, bore_table, describe_bore};

use holdwater_design::measure::System;

use crate::theme::Theme;

/// What a chart is drawn with.
#[derive(Clone, Debug, PartialEq)]
pub struct ChartLook {
    /// Colours and line weight.
    pub theme: Theme,
    /// The units of axes and words.
    pub units: System,
    /// Width, CSS px.
    pub width_px: f64,
    /// Height, CSS px.
    pub height_px: f64,
    /// Steps of the backend for one CSS px. Backends round to whole steps, and a curve rounded to whole pixels
    /// looks bent. A canvas is best given [`ChartLook::FINE`] and a context scaled by the device's pixel ratio divided
    /// by that; without it, the device's ratio, and no less than 2.
    pub pixel_ratio: f64,
    /// The fonts, as a stylesheet lists them.
    pub font_family: String,
}

impl ChartLook {
    /// Steps for one CSS px that are finer than is seen.
    pub const FINE: f64 = 8.0;

    /// A metric look.
    #[must_use]
    pub fn new(theme: Theme, width_px: f64, height_px: f64, pixel_ratio: f64) -> Self {
        Self {
            theme,
            units: System::Metric,
            width_px,
            height_px,
            pixel_ratio,
            font_family: "system-ui, sans-serif".to_owned(),
        }
    }

    /// The look of a chart saved as a file: of the day, and large enough for a page of print.
    #[must_use]
    pub fn for_file(units: System) -> Self {
        Self::new(Theme::day(), 900.0, 560.0, Self::FINE).in_units(units)
    }

    /// The same in other units.
    #[must_use]
    pub fn in_units(self, units: System) -> Self {
        Self { units, ..self }
    }

    /// Size of the backend, px.
    #[must_use]
    pub fn backend_size(&self) -> (u32, u32) {
        let whole = |value: f64| ((value * self.ratio()).round().min(65_536.0) as u32).max(1);
        (whole(self.width_px), whole(self.height_px))
    }

    /// By how much a line may be bent to save points, CSS px: less than a step of the backend, and than is seen.
    pub(crate) fn tolerance(&self) -> f64 {
        (0.15 / self.ratio()).max(0.03)
    }

    /// Columns for each CSS px in which a line keeps two points.
    pub(crate) fn columns(&self) -> f64 {
        self.ratio().min(3.0)
    }

    pub(crate) fn ratio(&self) -> f64 {
        if self.pixel_ratio.is_finite() { self.pixel_ratio.clamp(0.25, 32.0) } else { 1.0 }
    }

    /// A place in steps of the backend.
    fn steps(&self, point: (f64, f64)) -> (i32, i32) {
        let whole = |value: f64| {
            let value = value * self.ratio();
            if value.is_finite() { value.round().clamp(-1e6, 1e6) as i32 } else { 0 }
        };
        (whole(point.0), whole(point.1))
    }
}

/// Why a chart was not drawn.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ChartError {
    /// Fewer than two points, or none that is a number.
    NothingToDraw,
    /// No room for axes and lines.
    TooSmall,
    /// The backend refused.
    Backend(String),
}

impl core::fmt::Display for ChartError {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::NothingToDraw => f.write_str("there is nothing to draw"),
            Self::TooSmall => f.write_str("there is no room for the chart"),
            Self::Backend(what) => write!(f, "the chart could not be drawn: {what}"),
        }
    }
}

impl core::error::Error for ChartError {}
