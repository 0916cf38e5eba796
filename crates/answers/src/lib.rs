//! A design in, the answers of the page out.
//!
//! The one place where the page and the command line get their numbers and their words from.

pub mod csv;
pub mod curves;
mod digits;
pub mod forum;
pub mod holding;
pub mod numbers;
mod refused;
pub mod study;
pub mod sweep;
pub mod vessels;
pub mod why;
pub mod words;

pub use holding::Holding;
pub use refused::Refused;
pub use study::Study;
pub use sweep::Sweep;
pub use vessels::{Stand, Vessels, stand};

use holdwater_design::{Input, link};
use numbers::Printed;

/// The answers to a link or fragment as one line of JSON, or one line per complaint. Those of a second design in it stand under
/// `pinned`.
///
/// A script's link without a checksum is fine; anything else the link says that cannot be used is a complaint, because
/// a script should not go on with an answer to another question.
pub fn evaluate_json(text: &str) -> Result<String, Vec<String>> {
    let (own, pinned) = link::split(text);
    let mut printed = evaluate(own)?;
    if !pinned.is_empty() {
        let of_which = |complaint| format!("the pinned design: {complaint}");
        let other = evaluate(pinned).map_err(|complaints| complaints.into_iter().map(of_which).collect::<Vec<_>>())?;
        printed.pinned = Some(Box::new(other));
    }
    serde_json::to_string(&printed).map_err(|error| vec![error.to_string()])
}

fn evaluate(text: &str) -> Result<Printed, Vec<String>> {
    let opened = link::open(text);
    if !opened.complaints.is_empty() {
        return Err(opened.complaints.iter().map(ToString::to_string).collect());
    }
    let delay_s = opened.design.number(Input::Delay);
    let refused = |reasons: Vec<Refused>| reasons.into_iter().map(|reason| reason.message).collect::<Vec<_>>();
    let study = Study::new(&opened.design).map_err(refused)?;
    let mut answers = study.answers(delay_s).map_err(refused)?;
    let holding = Holding::complete(&study, delay_s).answer().cloned();
    let vessels = Vessels::of(&opened.design);
    answers.notes.extend(vessels.warnings.iter().cloned());
    let standoff = stand(&opened.design).numbers();
    Ok(Printed { answers, holding, vessel: vessels.numbers(), standoff, pinned: None })
}
