//! Charts and drawings of Holdwater, without a browser.
//!
//! [`chart`] paints curves on any plotters backend (the page gives it a canvas) or writes them as SVG text. [`drawing`] makes plain shapes that carry class names only, so that the page's stylesheet decides
//! their colours and an export carries its own ([`drawing::stylesheet`]). Nothing here computes physics, and
//! nothing here fails on odd numbers: what cannot be drawn is left out. Everything comes in metric numbers and is
//! written in the units asked for.

pub mod chart;
pub mod code;
pub mod drawing;
mod shown;
pub mod theme;

pub use theme::{Rgb, Theme};
