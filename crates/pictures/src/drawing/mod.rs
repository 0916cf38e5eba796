//! Drawings as plain shapes with class names.

mod contents;
mod cutaway;
mod dimensions;
mod drops;
mod shape;
mod stack;
mod stack_layout;
mod stack_parts;
mod style;
mod vessel;

pub use cutaway::{Drawing, cutaway};
pub use shape::{Anchor, Area, Shape, to_svg};
pub use stack::{PartDrawing, StackDrawing, stack};
pub use style::stylesheet;
