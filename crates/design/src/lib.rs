//! What can be asked of a rocket, what was answered, and how both travel in a link.
//!
//! Every fact about an input (key, label, unit, range, default, tolerance, help) stands once, in the
//! table of [`rows`]. The form, the checks, the link, the sensitivity and the documentation are all read
//! from that table, so that adding an input is adding one row and using it in [`Design::rocket`].
//!
//! Nothing in this crate panics on input: whatever was typed or pasted yields a design that can be flown,
//! and a list of complaints that says what was not used.

pub mod check;
mod decimal;
pub mod design;
pub mod documentation;
pub mod examples;
pub mod find;
pub mod link;
pub mod log;
pub mod measure;
pub mod part;
pub mod parts;
pub mod rows;
pub mod shelf;
pub mod table;
mod text;
pub mod unit;

pub use check::{Complaint, Problem, check, check_keeping};
pub use design::Design;
pub use part::Part;
pub use rows::{Input, ROWS};
pub use table::{Facts, Row, Start, Tolerance};
pub use unit::{Quantity, Unit};
