//! Drawings as plain shapes with class names.

mod contents;
mod cutaway;
mod dimensions;
mod drops;
mod margins;
mod placed;
mod plate;
mod shape;
mod stack;
mod stack_layout;
mod stack_parts;
mod style;
mod template;
mod vessel;

pub use cutaway::{Drawing, cutaway};
pub use margins::{PartBar, Verdict, margins};
pub use placed::{MarkDrawing, PartMark, PlacedDrawing, placed};
pub use plate::{PlateDrawing, Web, plate};
pub use shape::{Anchor, Area, Shape, to_svg};
pub use stack::{PartDrawing, StackDrawing, stack};
pub use style::stylesheet;
pub use template::template;

pub(crate) use shape::{escaped, short};
