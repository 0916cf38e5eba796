//! Charts and drawings of Holdwater, without a browser.
//!
//! [`chart`] paints curves on any plotters backend: the page gives it a canvas, tests and export give it
//! text. [`drawing`] makes plain shapes that carry class names only, so that the page's stylesheet decides
//! their colours and an export carries its own ([`drawing::stylesheet`]). Nothing here computes physics, and
//! nothing here fails on odd numbers: what cannot be drawn is left out.

pub mod chart;
pub mod code;
pub mod drawing;
pub mod theme;

pub use theme::{Rgb, Theme};
