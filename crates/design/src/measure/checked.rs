//! Checking what was typed in the units of the reader: a value for the design, or a sentence in those units.

use core::fmt;

use super::read::{Unread, read};
use super::{System, range, show};
use crate::check::{Problem, check_value};
use crate::rows::Input;
use crate::table::Start;
use crate::text::quoted;

/// A typed text that could not be used, with all that is needed to say so in a sentence.
#[derive(Clone, Debug, PartialEq)]
pub struct Complaint {
    /// The input it was typed for.
    pub input: Input,
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
    value_of(input, text, system).map_err(|wrong| Complaint {
        input,
        system,
        given: text.to_owned(),
        used: kept,
        wrong,
    })
}

fn value_of(input: Input, text: &str, system: System) -> Result<Option<f64>, Wrong> {
    let value = match read(text, input.row().unit, system) {
        Ok(value) => Some(value),
        Err(Unread::Nothing) => None,
        Err(unread) => return Err(Wrong::Text(unread)),
    };
    check_value(input, value).map_err(Wrong::Value)
}

impl fmt::Display for Complaint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let row = self.input.row();
        let given = quoted(self.given.trim());
        write!(f, "{} ({}): ", row.label, row.key)?;
        match &self.wrong {
            Wrong::Text(unread) => unread.fmt(f),
            Wrong::Value(Problem::Missing) => Unread::Nothing.fmt(f),
            Wrong::Value(Problem::NotANumber) => write!(f, "{given} is not a number"),
            Wrong::Value(Problem::OutOfRange) => write!(f, "{given} is out of range"),
            Wrong::Value(Problem::NotWhole) => write!(f, "{given} is not a whole number"),
        }?;
        write!(f, ". Allowed: {}", range(row, self.system))?;
        if let Start::LeftOut(words) = row.start {
            write!(f, ", or nothing for {words}")?;
        }
        let used = match self.used {
            Some(value) => show(row.unit, self.system, value),
            None => row.show(None),
        };
        write!(f, ". Using {used} meanwhile.")
    }
}

impl core::error::Error for Complaint {}
