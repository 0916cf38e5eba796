//! Checking what was typed in the units of the reader: a value for the design, or a sentence in those units.

use core::fmt;

use super::read::{Unread, read};
use super::{System, range, show};
use crate::check::{Problem, check_number};
use crate::parts::{PartInput, PartKind, key_of};
use crate::rows::Input;
use crate::table::{Facts, Start};

/// A typed text that could not be used, with all that is needed to say so in a sentence.
#[derive(Clone, Debug, PartialEq)]
pub struct Complaint {
    /// The key of the input it was typed for: `b.fill`, `p3.wall`.
    pub key: String,
    /// What is known of that input.
    pub facts: Box<Facts>,
    /// The units in which it was typed and in which the sentence speaks.
    pub system: System,
    /// What was typed.
    pub given: String,
    /// The value that is used instead, in the unit of the link.
    pub used: Option<f64>,
    wrong: Wrong,
}

#[derive(Clone, Debug, PartialEq)]
enum Wrong {
    Text(Unread),
    Value(Problem),
}

/// Checks a text typed for an input by a reader of the given units, for a field that keeps its last good value meanwhile.
///
/// # Errors
///
/// A [`Complaint`] when the text is no allowed value.
pub fn check(input: Input, text: &str, system: System, kept: Option<f64>) -> Result<Option<f64>, Complaint> {
    let row = input.row();
    check_facts(row, || row.key.to_owned(), text, system, kept)
}

/// The same for a number of the vessel part with the given number, from 1; `None` for an input that is no number.
///
/// # Errors
///
/// A [`Complaint`] when the text is no allowed value.
pub fn check_part(
    (number, kind): (usize, PartKind),
    input: PartInput,
    text: &str,
    system: System,
    kept: Option<f64>,
) -> Option<Result<Option<f64>, Complaint>> {
    let facts = input.facts(kind)?;
    Some(check_facts(&facts, || key_of(number, input), text, system, kept))
}

fn check_facts(
    facts: &Facts,
    key: impl Fn() -> String,
    text: &str,
    system: System,
    kept: Option<f64>,
) -> Result<Option<f64>, Complaint> {
    value_of(facts, text, system).map_err(|wrong| Complaint {
        key: key(),
        facts: Box::new(*facts),
        system,
        given: text.to_owned(),
        used: kept,
        wrong,
    })
}

fn value_of(facts: &Facts, text: &str, system: System) -> Result<Option<f64>, Wrong> {
    let value = match read(text, facts.unit, system) {
        Ok(value) => Some(value),
        Err(Unread::Nothing) => None,
        Err(unread) => return Err(Wrong::Text(unread)),
    };
    check_number(facts, value).map_err(Wrong::Value)
}

impl fmt::Display for Complaint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let facts = &self.facts;
        write!(f, "{} ({}): ", facts.label, self.key)?;
        match &self.wrong {
            Wrong::Text(unread) => unread.fmt(f),
            Wrong::Value(Problem::Missing) => Unread::Nothing.fmt(f),
            Wrong::Value(problem) => f.write_str(&problem.words(&self.given)),
        }?;
        write!(f, ". Allowed: {}", range(facts, self.system))?;
        if let Start::LeftOut(words) = facts.start {
            write!(f, ", or nothing for {words}")?;
        }
        let used = match self.used {
            Some(value) => show(facts.unit, self.system, value),
            None => facts.show(None),
        };
        write!(f, ". Using {used} meanwhile.")
    }
}

impl core::error::Error for Complaint {}
