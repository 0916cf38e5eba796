//! A sentence of ours in the units of the reader.
//!
//! Sentences are made once, in metric units, for page and command line alike. All write a quantity as a number, a space and the
//! symbol of its unit, or several numbers with one unit: `24 m`, `13 to 28 mm`, `190 and 214 m`. That is what is looked
//! for here, and nothing else is touched: counts, shares and seconds have no other unit to be written in.

use super::{Measure, System};
use crate::decimal;
use crate::find::is_of_a_word;

/// What may stand between numbers that share a unit.
const BETWEEN: [&str; 5] = [" to ", " and ", " or ", " of ", "\u{2013}"];

/// Writes a sentence in a system of units, and a minus sign before what is below nought.
#[must_use]
pub fn said(text: &str, system: System) -> String {
    let mut written = String::with_capacity(text.len() + 16);
    let mut rest = text;
    let mut after_word = false;
    while let Some(first) = rest.chars().next() {
        // A digit within a word, as in "h2" or "1.2.3", begins no number.
        let found = if after_word || system == System::Metric { None } else { quantity(rest) };
        if let Some(Quantity { numbers, measure, length }) = found {
            for (before, number) in numbers {
                written.push_str(before);
                written.push_str(&converted(number, measure, system));
            }
            written.push(' ');
            written.push_str(measure.symbol(system));
            rest = &rest[length..];
            after_word = true;
        } else {
            rest = &rest[first.len_utf8()..];
            let is_minus = first == '-' && !after_word && rest.starts_with(|next: char| next.is_ascii_digit());
            written.push(if is_minus { '\u{2212}' } else { first });
            after_word = is_of_a_word(first) || first == '.';
        }
    }
    written
}

/// Numbers that share a unit, each with what stands before it.
struct Quantity<'a> {
    numbers: Vec<(&'a str, &'a str)>,
    measure: Measure,
    length: usize,
}

/// The quantity that a text begins with.
fn quantity(text: &str) -> Option<Quantity<'_>> {
    let mut numbers = Vec::new();
    let (mut at, mut before) = (0, "");
    loop {
        let length = number_length(&text[at..]);
        if length == 0 {
            return None;
        }
        numbers.push((before, &text[at..at + length]));
        at += length;
        if let Some((measure, end)) = unit(&text[at..]) {
            return Some(Quantity { numbers, measure, length: at + end });
        }
        before = BETWEEN.into_iter().find(|between| text[at..].starts_with(between))?;
        at += before.len();
    }
}

/// Bytes of the number that a text begins with: digits with perhaps a point and a sign.
fn number_length(text: &str) -> usize {
    let sign = ["+", "-", "\u{2212}"].into_iter().find(|sign| text.starts_with(sign)).map_or(0, str::len);
    let body = &text[sign..];
    let whole = body.bytes().take_while(u8::is_ascii_digit).count();
    if whole == 0 {
        return 0;
    }
    let fraction =
        body[whole..].strip_prefix('.').map_or(0, |rest| rest.bytes().take_while(u8::is_ascii_digit).count());
    sign + whole + if fraction > 0 { fraction + 1 } else { 0 }
}

/// The unit that a text begins with after a space, and the bytes of both.
fn unit(text: &str) -> Option<(Measure, usize)> {
    let space = [" ", "\u{2009}", "\u{a0}"].into_iter().find(|space| text.starts_with(space))?;
    let rest = &text[space.len()..];
    let length = rest.find(|c: char| !(is_of_a_word(c) || matches!(c, '/' | '°'))).unwrap_or(rest.len());
    let symbol = if &rest[..length] == "m/s2" { "m/s²" } else { &rest[..length] };
    let measure = Measure::ALL.into_iter().find(|measure| {
        let metric = measure.symbol(System::Metric);
        metric == symbol && metric != measure.symbol(System::Us)
    })?;
    Some((measure, space.len() + length))
}

/// A number in the unit of a system, about as fine as it was.
fn converted(number: &str, measure: Measure, system: System) -> String {
    let digits = number.trim_start_matches(['+', '-', '\u{2212}']);
    let Some(size) = decimal::parse(digits) else { return number.to_owned() };
    let is_below = digits.len() < number.len() && !number.starts_with('+');
    let value = if is_below { -size } else { size };
    let decimals = digits.split_once('.').map_or(0, |(_, fraction)| fraction.len());
    let text = format!("{:.*}", measure.decimals(system, decimals), measure.shown(system, value));
    match text.strip_prefix('-') {
        Some(rest) => ["\u{2212}", rest].concat(),
        None if number.starts_with('+') => ["+", &text].concat(),
        None => text,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantities_are_written_in_us_units_and_all_else_stays() {
        for (metric, us) in [
            ("Coasting 1.0 s bare costs 24 m.", "Coasting 1.0 s bare costs 79 ft."),
            ("fit a restrictor of 13 to 28 mm, or 0.5 L", "fit a restrictor of 0.51 to 1.10 in, or 17 fl oz"),
            ("It costs 24 of 214 m at 10 bar", "It costs 79 of 702 ft at 145 psi"),
            ("at 48.3 m/s and 5.13 m/s²; 5.1 m/s2", "at 158.5 ft/s and 16.83 ft/s²; 16.7 ft/s²"),
            ("2 stages, 1 %, h2 m, 3 metres", "2 stages, 1 %, h2 m, 3 metres"),
            ("\u{2212}3.2 m or +3.2\u{2009}m", "\u{2212}10.5 ft or +10.5 ft"),
            ("", ""),
        ] {
            assert_eq!(said(metric, System::Us), us);
            assert_eq!(said(metric, System::Metric), metric);
        }
    }

    #[test]
    fn what_is_below_nought_has_a_minus_sign_and_hyphens_stay() {
        for (written, metric, us) in [
            ("at -0.5 bar", "at \u{2212}0.5 bar", "at \u{2212}7 psi"),
            ("-3 of a two-part 6061-T6", "\u{2212}3 of a two-part 6061-T6", "\u{2212}3 of a two-part 6061-T6"),
        ] {
            assert_eq!(said(written, System::Metric), metric);
            assert_eq!(said(written, System::Us), us);
        }
    }
}
