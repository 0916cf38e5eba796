//! What a row of the table of inputs is made of, and what can be asked of it.

use core::ops::Deref;

use crate::part::Part;
use crate::rows::{Input, ROWS};
use crate::unit::{Quantity, Unit};

/// What stands in a design when nobody gave the input.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Start {
    /// This value, in the unit of the link.
    Value(f64),
    /// No value: the physics takes what the words say.
    LeftOut(&'static str),
}

/// How far a value given in good faith may be off: one standard deviation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tolerance {
    /// It is known exactly or is a matter of choice.
    Exact,
    /// This much, in the unit of the link.
    Absolute(f64),
    /// This share of the value.
    Share(f64),
}

/// What every number that is asked for has, whether it stands once in a design or once for each vessel part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Facts {
    /// Its key in the link; that of a vessel part stands behind `p1.`, `p2.` ...
    pub key: &'static str,
    /// Its label, short, in the words of the trade; the heading above says which stage is meant.
    pub label: &'static str,
    /// The unit in which the link holds it, and in which the numbers of this row are.
    pub unit: Unit,
    /// Least allowed value.
    pub min: f64,
    /// Greatest allowed value.
    pub max: f64,
    /// What stands there when nobody gave it.
    pub start: Start,
    /// A sensible amount for one press of plus or minus.
    pub step: f64,
    /// One or two plain sentences.
    pub help: &'static str,
}

/// Everything there is to know about one input of the design.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    /// The input this row is about.
    pub input: Input,
    /// The part of the stack drawing that opens it.
    pub part: Part,
    /// How far it may be off.
    pub tolerance: Tolerance,
    /// Key, label, unit, range and the like; a row stands for them everywhere.
    pub facts: Facts,
}

impl Deref for Row {
    type Target = Facts;

    fn deref(&self) -> &Facts {
        &self.facts
    }
}

/// Makes the enum [`Input`], its list and the rows from one declaration, so that no second list of inputs
/// exists that could fall out of step.
macro_rules! inputs {
    ($( $name:ident {
        key: $key:literal, label: $label:literal, part: $part:ident, unit: $unit:ident,
        range: $min:literal to $max:literal, start: $start:expr, tolerance: $tolerance:expr, step: $step:literal,
        help: $help:literal,
    } )+) => {
        /// An input of the design. The order is the order of keys in a link.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Input {
            $( #[doc = concat!("`", $key, "`: ", $help)] $name, )+
        }

        impl Input {
            /// Every input, in the order of the table.
            pub const ALL: [Self; Self::COUNT] = [ $( Self::$name, )+ ];
            /// Number of inputs.
            pub const COUNT: usize = [ $( $key, )+ ].len();
        }

        /// The table: one row per input, in the order of keys in a link.
        pub static ROWS: [Row; Input::COUNT] = [ $( Row {
            input: Input::$name,
            part: Part::$part,
            tolerance: $tolerance,
            facts: Facts {
                key: $key,
                label: $label,
                unit: Unit::$unit,
                min: $min,
                max: $max,
                start: $start,
                step: $step,
                help: $help,
            },
        }, )+ ];
    };
}
pub(crate) use inputs;

impl Input {
    /// The row that holds everything known about this input.
    #[must_use]
    pub fn row(self) -> &'static Row {
        // The enum and the table come from the same declaration, so the index is always within it.
        &ROWS[self as usize]
    }

    /// The input with the given key.
    #[must_use]
    pub fn from_key(key: &str) -> Option<Self> {
        ROWS.iter().find(|row| row.key == key).map(|row| row.input)
    }

    /// The inputs that the given part of the drawing opens.
    pub fn of_part(part: Part) -> impl Iterator<Item = Self> {
        ROWS.iter().filter(move |row| row.part == part).map(|row| row.input)
    }
}

impl Row {
    /// One standard deviation of the given value, in the unit of the link.
    #[must_use]
    pub fn deviation(&self, value: f64) -> f64 {
        match self.tolerance {
            Tolerance::Exact => 0.0,
            Tolerance::Absolute(amount) => amount,
            Tolerance::Share(share) => share * value.abs(),
        }
    }
}

impl Facts {
    /// The value that a link leaves out; `None` when the input itself may be left out.
    #[must_use]
    pub const fn default(&self) -> Option<f64> {
        match self.start {
            Start::Value(value) => Some(value),
            Start::LeftOut(_) => None,
        }
    }

    /// Whether the input may be left out altogether.
    #[must_use]
    pub const fn is_optional(&self) -> bool {
        matches!(self.start, Start::LeftOut(_))
    }

    /// Whether only whole numbers make sense.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        self.unit.quantity() == Quantity::Count
    }

    /// The value after so many presses of plus (or of minus, when negative), kept within the range.
    ///
    /// Six decimals are kept, far more than any step has: otherwise ten presses of 0.1 would leave
    /// 0.9999999999999999 in the field and in every link made from it.
    #[must_use]
    pub fn stepped(&self, value: f64, presses: i32) -> f64 {
        let target = value + self.step * f64::from(presses);
        // Rounding to millionths by arithmetic gives the same number that reading its six decimals would.
        self.nearest((target * 1e6).round() / 1e6)
    }

    /// The allowed value closest to the given one, for sliders and searches; the least one for NaN.
    #[must_use]
    pub fn nearest(&self, value: f64) -> f64 {
        let whole = if self.is_whole() { value.round() } else { value };
        // `max` before `min` turns NaN into the least value, where `clamp` would keep it.
        // Adding zero turns a negative zero into zero, which would be written as "-0".
        whole.max(self.min).min(self.max) + 0.0
    }

    /// A value of this input in words: a number with its unit, or what is taken when it is left out.
    #[must_use]
    pub fn show(&self, value: Option<f64>) -> String {
        match (value, self.start) {
            (Some(value), _) => self.unit.show(value),
            (None, Start::LeftOut(words)) => words.to_owned(),
            (None, Start::Value(default)) => self.unit.show(default),
        }
    }

    /// The range in words: `2 to 120 mm`, `1 or 2`, `whole numbers from 1 to 12`.
    #[must_use]
    pub fn range(&self) -> String {
        let greatest = self.unit.show(self.max);
        if !self.is_whole() {
            format!("{} to {greatest}", self.min)
        } else if self.max - self.min < 1.5 {
            format!("{} or {greatest}", self.min)
        } else {
            format!("whole numbers from {} to {greatest}", self.min)
        }
    }

    /// Everything that is allowed, in words: the range, and whether nothing is allowed too.
    #[must_use]
    pub fn allowed(&self) -> String {
        match self.start {
            Start::Value(_) => self.range(),
            Start::LeftOut(words) => format!("{}, or nothing for {words}", self.range()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_is_found_by_its_input_and_by_its_key() {
        for (index, row) in ROWS.iter().enumerate() {
            assert_eq!(row.input as usize, index, "{}", row.key);
            assert_eq!(row.input.row(), row);
            assert_eq!(Input::from_key(row.key), Some(row.input), "a key occurs twice: {}", row.key);
        }
        assert_eq!(Input::from_key("b.nothing"), None);
    }

    #[test]
    fn every_default_is_inside_its_own_range() {
        for row in &ROWS {
            assert!(row.min < row.max, "{}", row.key);
            if let Some(default) = row.default() {
                assert!((row.min..=row.max).contains(&default), "{}", row.key);
                assert!(!row.is_whole() || default.fract() == 0.0, "{}", row.key);
            }
        }
    }

    #[test]
    fn every_step_is_positive_and_smaller_than_the_range() {
        for row in &ROWS {
            assert!(row.step > 0.0 && row.step <= row.max - row.min, "{}", row.key);
            assert!(!row.is_whole() || row.step.fract() == 0.0, "{}", row.key);
        }
    }

    #[test]
    fn every_help_is_one_or_two_sentences_and_every_label_is_short() {
        for row in &ROWS {
            assert!(row.help.ends_with('.'), "{}", row.key);
            assert!(row.help.matches(". ").count() <= 1, "{}", row.key);
            assert!((3..=32).contains(&row.label.chars().count()), "{}", row.key);
        }
    }

    #[test]
    fn labels_differ_within_a_part_and_every_part_opens_something() {
        for part in Part::ALL {
            let labels: Vec<_> = Input::of_part(part).map(|input| input.row().label).collect();
            assert!(!labels.is_empty(), "{part:?}");
            for (index, label) in labels.iter().enumerate() {
                assert!(!labels[..index].contains(label), "{part:?} asks twice for {label}");
            }
        }
    }

    #[test]
    fn keys_need_no_escaping_in_a_link() {
        for row in &ROWS {
            assert!(row.key.chars().all(|c| c.is_ascii_lowercase() || c == '.'), "{}", row.key);
            assert!(!["v", "name", "log", "end"].contains(&row.key), "{}", row.key);
        }
    }

    #[test]
    fn ten_presses_of_plus_leave_a_short_number() {
        let row = Input::BoosterWater.row();
        let pressed = (0..10).fold(0.0, |value, _| row.stepped(value, 1));
        assert_eq!(pressed.to_string(), "1");
        assert_eq!(row.stepped(0.0, -1).to_string(), "0");
    }

    #[test]
    fn the_nearest_allowed_value_is_within_range_and_whole_where_it_must_be() {
        let row = Input::BoosterCount.row();
        assert_eq!(row.nearest(2.6).to_string(), "3");
        assert_eq!(row.nearest(99.0).to_string(), "12");
        assert_eq!(row.nearest(f64::NAN).to_string(), "1");
    }

    #[test]
    fn a_deviation_is_an_amount_or_a_share() {
        assert_eq!(Input::BoosterFill.row().deviation(10.0).to_string(), "0.2");
        assert_eq!(Input::BoosterWater.row().deviation(2.5).to_string(), "0.05");
        assert_eq!(Input::Stages.row().deviation(2.0).to_string(), "0");
    }
}
