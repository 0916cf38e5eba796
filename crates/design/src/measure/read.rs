//! Reads what was typed into a field: a number, perhaps a fraction, perhaps with a unit.

use core::fmt;

use super::scale::{Kind, SCALES, Typed, named};
use super::{Measure, System};
use crate::text::quoted;
use crate::unit::Unit;
use crate::{decimal, find};

/// Why a typed text is no value. Displays as a sentence without its full stop.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unread {
    /// Nothing was typed.
    Nothing,
    /// What was typed does not begin with a number.
    NotANumber {
        /// What was typed.
        given: String,
    },
    /// A comma that may part thousands or decimals.
    Comma {
        /// What was typed.
        given: String,
    },
    /// The unit is not known.
    UnknownUnit {
        /// The unit as it was typed.
        given: String,
        /// What the field holds.
        wanted: Kind,
    },
    /// The unit is one of another quantity.
    OtherUnit {
        /// The unit's symbol.
        symbol: &'static str,
        /// What it measures.
        kind: Kind,
        /// What the field holds.
        wanted: Kind,
    },
}

impl fmt::Display for Unread {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Nothing => f.write_str("you gave no number"),
            Self::NotANumber { given } => write!(f, "{} is not a number", quoted(given)),
            Self::Comma { given } => {
                write!(
                    f,
                    "{} may mean two numbers: write it without comma, with a point before decimals",
                    quoted(given)
                )
            }
            Self::UnknownUnit { given, wanted } => {
                write!(f, "{} is not a unit that is known here; ", quoted(given))?;
                write_units(f, *wanted)
            }
            Self::OtherUnit { symbol, kind, wanted } => {
                write!(f, "{symbol} is a unit of {}; ", kind.words())?;
                write_units(f, *wanted)
            }
        }
    }
}

impl core::error::Error for Unread {}

/// Says which units are understood for a quantity.
fn write_units(f: &mut fmt::Formatter<'_>, kind: Kind) -> fmt::Result {
    let mut before = "units understood are ";
    for scale in SCALES.iter().filter(|scale| scale.kind == kind) {
        f.write_str(before)?;
        f.write_str(scale.symbol)?;
        before = ", ";
    }
    if before == ", " { Ok(()) } else { f.write_str("a plain number is wanted") }
}

/// The value, in the unit of the link, of a text typed into a field of that unit.
///
/// A number without unit is in the unit that the chosen system shows. Understood are `145 psi`, `10,5 bar`, `0.5l`, `64F`,
/// `1/2 in`, `3 1/2 in`, `3½"`. The value is finite, but may be out of the range of its input.
///
/// # Errors
///
/// What is wrong with the text.
pub fn read(text: &str, unit: Unit, system: System) -> Result<f64, Unread> {
    let text = text.trim();
    if text.is_empty() {
        return Err(Unread::Nothing);
    }
    let measure = Measure::of(unit);
    let (metric, shown) = (measure.scale(System::Metric), measure.scale(system));
    let end = text.find(|c: char| !belongs_to_a_number(c)).unwrap_or(text.len());
    let (number, name) = (text[..end].trim(), text[end..].trim());
    let not_a_number = || Unread::NotANumber { given: text.to_owned() };
    if number.is_empty() {
        return Err(not_a_number());
    }
    if system == System::Us && parts_thousands(number) {
        return Err(Unread::Comma { given: text.to_owned() });
    }
    let typed = number_of(number).ok_or_else(not_a_number)?;
    let scale = match named(name) {
        _ if name.is_empty() => shown,
        Some(scale) if scale.kind == shown.kind => scale,
        Some(scale) => return Err(Unread::OtherUnit { symbol: scale.symbol, kind: scale.kind, wanted: shown.kind }),
        None => return Err(Unread::UnknownUnit { given: name.to_owned(), wanted: shown.kind }),
    };
    // Numbers beyond all ranges stay numbers, so that the range is what is complained about.
    Ok(scale.typed_to(metric, &typed).clamp(-f64::MAX, f64::MAX))
}

fn belongs_to_a_number(c: char) -> bool {
    let sign = matches!(c, '.' | ',' | '/' | '\u{2044}' | '-' | '+' | '\u{2212}');
    c.is_ascii_digit() || c.is_whitespace() || sign || vulgar(c).is_some()
}

/// One to three digits, a comma and three digits: a thousand to some readers, one to others.
fn parts_thousands(number: &str) -> bool {
    let digits = number.trim_start_matches(['-', '+', '\u{2212}']);
    let Some((before, after)) = digits.split_once(',') else { return false };
    let plain = before.bytes().chain(after.bytes()).all(|byte| byte.is_ascii_digit());
    plain && (1..=3).contains(&before.len()) && after.len() == 3 && !before.starts_with('0')
}

/// The value of a number with sign, and with how many digits it was typed.
fn number_of(number: &str) -> Option<Typed> {
    let (negative, number) = match number.strip_prefix(['-', '\u{2212}']) {
        Some(rest) => (true, rest),
        None => (false, number.strip_prefix('+').unwrap_or(number)),
    };
    let fraction_typed = |value| Typed { value, significant: 0, decimals: 0 };
    let typed = match vulgar(number.chars().next_back()?) {
        Some(share) => fraction_typed(whole_before(number.strip_suffix(|c| vulgar(c).is_some())?)? + share),
        None => match number.rsplit_once(['/', '\u{2044}']) {
            Some((before, below)) => fraction_typed(fraction(before.trim(), below.trim())?),
            None => decimal_of(number)?,
        },
    };
    // Nought has no sign here: "-0" would make a second link of one design.
    let value = if negative { 0.0 - typed.value } else { typed.value };
    Some(Typed { value, ..typed }).filter(|typed| !typed.value.is_nan())
}

/// What stands before a fraction of one character: nothing or a whole number.
fn whole_before(text: &str) -> Option<f64> {
    match text.trim() {
        "" => Some(0.0),
        whole => digits_only(whole),
    }
}

/// `1/2`, `3 1/2` or `3-1/2`: what stands before the stroke, and the number below it.
fn fraction(before: &str, below: &str) -> Option<f64> {
    let (whole, above) = match before.rsplit_once(|c: char| c.is_whitespace() || c == '-') {
        Some((whole, above)) => (digits_only(whole.trim())?, above),
        None => (0.0, before),
    };
    let below = digits_only(below).filter(|below| *below > 0.0)?;
    Some(whole + digits_only(above)? / below)
}

fn digits_only(text: &str) -> Option<f64> {
    decimal::parse(text).filter(|_| !find::holds(text, "."))
}

fn decimal_of(number: &str) -> Option<Typed> {
    let (whole, decimals) = number.split_once(['.', ',']).unwrap_or((number, ""));
    // A second point or comma is found here, since the reader of decimals takes none of it.
    let value = decimal::parse(&[whole, decimals].join(".")).filter(|_| !(whole.is_empty() && decimals.is_empty()))?;
    let count = |digits: &str| u32::try_from(digits.len()).unwrap_or(u32::MAX);
    let leading = if whole.trim_start_matches('0').is_empty() { decimals.trim_start_matches('0') } else { decimals };
    let significant = count(whole.trim_start_matches('0')).saturating_add(count(leading));
    Some(Typed { value, significant, decimals: count(decimals) })
}

/// The fractions that keyboards and telephones have as one character.
const fn vulgar(c: char) -> Option<f64> {
    Some(match c {
        '½' => 0.5,
        '¼' => 0.25,
        '¾' => 0.75,
        '⅛' => 0.125,
        '⅜' => 0.375,
        '⅝' => 0.625,
        '⅞' => 0.875,
        _ => return None,
    })
}
