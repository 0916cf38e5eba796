//! Checking what was typed: a value for the design, or a sentence that says what is allowed.

use core::fmt;

use crate::decimal;
use crate::rows::Input;
use crate::table::Facts;
use crate::text::quoted;

/// What is wrong with a given value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Problem {
    /// Nothing was given where a number is needed.
    Missing,
    /// What was given is no plain decimal number.
    NotANumber,
    /// The number is below or above the range.
    OutOfRange,
    /// The number has decimals where only whole ones make sense.
    NotWhole,
}

impl Problem {
    /// What is wrong with what was given, without full stop.
    #[must_use]
    pub fn words(self, given: &str) -> String {
        let given = quoted(given.trim());
        match self {
            Self::Missing => "you gave no number".to_owned(),
            Self::NotANumber => format!("{given} is not a number"),
            Self::OutOfRange => format!("{given} is out of range"),
            Self::NotWhole => format!("{given} is not a whole number"),
        }
    }
}

/// A value that could not be used, with all that is needed to say so in a sentence.
#[derive(Clone, Debug, PartialEq)]
pub struct Complaint {
    /// The input it was given for.
    pub input: Input,
    /// What was given, as it was given.
    pub given: String,
    /// What is wrong with it.
    pub problem: Problem,
    /// The value that is used instead, in the unit of the link.
    pub used: Option<f64>,
}

/// Checks a text typed for an input; a complaint says that the default is used meanwhile.
///
/// Accepted are plain decimal numbers with a point or a comma, with spaces around them. `None` is
/// an input left out, which only some rows allow.
///
/// # Errors
///
/// A [`Complaint`] when the text is no allowed value.
pub fn check(input: Input, text: &str) -> Result<Option<f64>, Complaint> {
    check_keeping(input, text, input.row().default())
}

/// Like [`check`], for a field that keeps its last good value while something wrong stands in it.
///
/// # Errors
///
/// A [`Complaint`] that names the kept value when the text is no allowed value.
pub fn check_keeping(input: Input, text: &str, kept: Option<f64>) -> Result<Option<f64>, Complaint> {
    check_text(input.row(), text).map_err(|problem| Complaint { input, given: text.to_owned(), problem, used: kept })
}

/// Checks a number that comes from elsewhere than a text, such as a search or a slider.
///
/// # Errors
///
/// What is wrong with the value.
pub fn check_value(input: Input, value: Option<f64>) -> Result<Option<f64>, Problem> {
    check_number(input.row(), value)
}

/// Checks a number against the facts of any input.
///
/// # Errors
///
/// What is wrong with the value.
pub fn check_number(facts: &Facts, value: Option<f64>) -> Result<Option<f64>, Problem> {
    match value {
        None if facts.is_optional() => Ok(None),
        None => Err(Problem::Missing),
        Some(value) if value.is_nan() => Err(Problem::NotANumber),
        Some(value) if !(facts.min..=facts.max).contains(&value) => Err(Problem::OutOfRange),
        Some(value) if facts.is_whole() && value.fract() != 0.0 => Err(Problem::NotWhole),
        // A negative zero would be written as "-0" and so make two links of one design.
        Some(value) => Ok(Some(value + 0.0)),
    }
}

/// Checks a text in the unit of the link against the facts of any input.
///
/// # Errors
///
/// What is wrong with the text.
pub fn check_text(facts: &Facts, text: &str) -> Result<Option<f64>, Problem> {
    let text = text.trim();
    if text.is_empty() {
        return check_number(facts, None);
    }
    let number = plain_decimal(text).ok_or(Problem::NotANumber)?;
    check_number(facts, Some(number))
}

/// Reads digits with at most one point or comma and at most one sign.
///
/// The standard parser alone would also take `inf`, `nan` and exponents, which no person means in a field
/// and the link does not hold. The typographic minus is what some phones type and some forums make of `-`.
fn plain_decimal(text: &str) -> Option<f64> {
    let (sign, digits) = match text.strip_prefix(['-', '\u{2212}']) {
        Some(rest) => (-1.0, rest),
        None => (1.0, text.strip_prefix('+').unwrap_or(text)),
    };
    let separators = digits.matches(['.', ',']).count();
    let plain = digits.chars().all(|c| c.is_ascii_digit() || c == '.' || c == ',');
    if !plain || separators > 1 {
        return None;
    }
    decimal::parse(&digits.replace(',', ".")).map(|number| sign * number)
}

impl Complaint {
    /// What is allowed, in words.
    #[must_use]
    pub fn allowed(&self) -> String {
        self.input.row().allowed()
    }

    /// What is used instead, in words.
    #[must_use]
    pub fn used_in_words(&self) -> String {
        self.input.row().show(self.used)
    }
}

impl fmt::Display for Complaint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let row = self.input.row();
        write!(f, "{} ({}): {}", row.label, row.key, self.problem.words(&self.given))?;
        write!(f, ". Allowed: {}. Using {} meanwhile.", self.allowed(), self.used_in_words())
    }
}

impl core::error::Error for Complaint {}

#[cfg(test)]
mod tests {
    use super::*;

    fn problem(input: Input, text: &str) -> Option<Problem> {
        check(input, text).err().map(|complaint| complaint.problem)
    }

    #[test]
    fn a_number_may_have_spaces_a_comma_a_sign_or_an_unfinished_decimal() {
        for text in ["21.5", " 21.5 ", "21,5", "+21.5", "\u{2009}21.50\u{a0}", "0021.5"] {
            assert_eq!(check(Input::BoosterNozzle, text), Ok(Some(21.5)), "{text}");
        }
        assert_eq!(check(Input::BoosterNozzle, "21."), Ok(Some(21.0)));
        assert_eq!(check(Input::Delay, ".5"), Ok(Some(0.5)));
        assert_eq!(check(Input::AirTemperature, "-7,5"), Ok(Some(-7.5)));
        assert_eq!(check(Input::AirTemperature, "\u{2212}7"), Ok(Some(-7.0)));
    }

    #[test]
    fn what_is_no_plain_decimal_number_is_refused() {
        for text in [
            "abc", "inf", "-inf", "nan", "NaN", "infinity", "0x10", "1e1", "1,000.5", "1.2.3", "--3", ".", "-", "3 4",
            "²", "٣",
        ] {
            assert_eq!(problem(Input::BoosterNozzle, text), Some(Problem::NotANumber), "{text}");
        }
    }

    #[test]
    fn a_number_outside_its_range_is_refused_and_the_ends_are_allowed() {
        for text in ["1.999", "120.001", "-21", &"9".repeat(5_000)] {
            assert_eq!(problem(Input::BoosterNozzle, text), Some(Problem::OutOfRange), "{text}");
        }
        assert_eq!(check(Input::BoosterNozzle, "2"), Ok(Some(2.0)));
        assert_eq!(check(Input::BoosterNozzle, "120"), Ok(Some(120.0)));
    }

    #[test]
    fn a_count_must_be_whole() {
        assert_eq!(problem(Input::BoosterCount, "1.5"), Some(Problem::NotWhole));
        assert_eq!(check(Input::BoosterCount, "3.0"), Ok(Some(3.0)));
    }

    #[test]
    fn only_an_optional_input_may_be_empty() {
        assert_eq!(problem(Input::BoosterNozzle, "  "), Some(Problem::Missing));
        assert_eq!(check(Input::SurfaceTension, "  "), Ok(None));
    }

    #[test]
    fn a_negative_zero_becomes_zero() {
        let zero = check(Input::Delay, "-0").ok().flatten();
        assert_eq!(zero.map(|value| value.to_string()).as_deref(), Some("0"));
    }

    #[test]
    fn a_complaint_says_what_was_given_what_is_allowed_and_what_is_used() {
        let sentence = |input, text| check(input, text).err().map(|c| c.to_string()).unwrap_or_default();
        assert_eq!(
            sentence(Input::BoosterNozzle, "abc"),
            "Nozzle throat (b.nozzle): \"abc\" is not a number. Allowed: 2 to 120 mm. Using 21.5 mm meanwhile."
        );
        assert_eq!(
            sentence(Input::Stages, "3"),
            "Stages (stages): \"3\" is out of range. Allowed: 1 or 2. Using 2 meanwhile."
        );
        assert_eq!(
            sentence(Input::SurfaceTension, "5"),
            "Surface tension (tension): \"5\" is out of range. Allowed: 15 to 80 mN/m, \
             or nothing for clean water at its temperature. Using clean water at its temperature meanwhile."
        );
        assert_eq!(
            sentence(Input::BoosterCount, ""),
            "Vessels in parallel (b.count): you gave no number. Allowed: whole numbers from 1 to 12. Using 1 meanwhile."
        );
    }

    #[test]
    fn a_field_that_keeps_its_last_good_value_says_so() {
        let complaint = check_keeping(Input::BoosterNozzle, "x", Some(18.0)).err();
        let sentence = complaint.map(|c| c.to_string()).unwrap_or_default();
        assert!(sentence.ends_with("Using 18 mm meanwhile."), "{sentence}");
    }
}
