//! Charts on any plotters backend.
//!
//! The chart builder of plotters has no dashes by length, no hatching and no labels at line ends, so only its
//! drawing areas are used; [`frame`], [`scale`], [`line`] and [`place`] do what a chart of ours needs.
//! Each chart hands back its [`Frame`], with which the page lays crosshair and markers over the canvas.

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
mod tell;
mod tell_bore;
mod zones;

pub use bore::{BoreFrame, draw_bore};
pub use delay::draw_delay;
pub use flight::{draw_flight, thrust_window};
pub use frame::Frame;
pub use tell::{delay_table, describe_delay, describe_flight, flight_table};
pub use tell_bore::{bore_table, describe_bore};

use crate::theme::Theme;

/// What a chart is drawn with.
#[derive(Clone, Debug, PartialEq)]
pub struct ChartLook {
    /// Colours and line weight.
    pub theme: Theme,
    /// Width, CSS px.
    pub width_px: f64,
    /// Height, CSS px.
    pub height_px: f64,
    /// Steps of the backend for one CSS px. Backends round to whole steps, and a curve rounded to whole pixels
    /// looks bent. A canvas is best given a context scaled down by 8 divided by the device's pixel ratio, and a
    /// ratio of 8 here; without that, the device's ratio, and no less than 2.
    pub pixel_ratio: f64,
    /// The fonts, as a stylesheet lists them.
    pub font_family: String,
    /// Factor on text sizes; [`ChartLook::SVG_TEXT_FACTOR`] for plotters' SVG backend, otherwise 1.
    pub text_factor: f64,
}

impl ChartLook {
    /// The SVG backend of plotters writes every text smaller by this factor.
    pub const SVG_TEXT_FACTOR: f64 = 1.24;

    /// A look for a canvas.
    #[must_use]
    pub fn new(theme: Theme, width_px: f64, height_px: f64, pixel_ratio: f64) -> Self {
        Self {
            theme,
            width_px,
            height_px,
            pixel_ratio,
            font_family: "system-ui, sans-serif".to_owned(),
            text_factor: 1.0,
        }
    }

    /// A look for plotters' SVG backend, drawn at the given factor for smooth curves.
    #[must_use]
    pub fn for_svg(theme: Theme, width_px: f64, height_px: f64, pixel_ratio: f64) -> Self {
        Self { text_factor: Self::SVG_TEXT_FACTOR, ..Self::new(theme, width_px, height_px, pixel_ratio) }
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
