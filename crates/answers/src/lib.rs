//! A design in, the answers of the page out.
//!
//! The one place where the page and the command line get their numbers and their words from.

pub mod csv;
pub mod curves;
pub mod forum;
pub mod numbers;
mod refused;
pub mod study;
pub mod sweep;
pub mod why;
pub mod words;

pub use refused::Refused;
pub use study::Study;
pub use sweep::Sweep;

use holdwater_design::{Input, link};

/// The answers to a link or fragment as one line of JSON, or one line per complaint.
///
/// A script's link without a checksum is fine; anything else the link says that cannot be used is a complaint, because
/// a script should not go on with an answer to another question.
pub fn evaluate_json(text: &str) -> Result<String, Vec<String>> {
    let opened = link::open(text);
    if !opened.complaints.is_empty() {
        return Err(opened.complaints.iter().map(ToString::to_string).collect());
    }
    let answers = Study::new(&opened.design)
        .and_then(|study| study.answers(opened.design.number(Input::Delay)))
        .map_err(|refused| refused.into_iter().map(|reason| reason.message).collect::<Vec<_>>())?;
    serde_json::to_string(&answers).map_err(|error| vec![error.to_string()])
}
