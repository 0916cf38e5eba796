//! Numbers in the units of the reader, and sentences made of them.

use holdwater_design::measure::{Measure, System};

use crate::chart::scale::number;

/// A number in the metric unit of a measure as a system shows it, as fine as so many decimals of the metric unit.
pub fn shown(measure: Measure, units: System, metric: f64, decimals: usize) -> String {
    number(measure.shown(units, metric), measure.decimals(units, decimals))
}

/// A word with the unit of the numbers that belong to it, as it heads a column or an axis.
pub fn titled(word: &str, measure: Measure, units: System) -> String {
    [word, ", ", measure.symbol(units)].concat()
}

/// A size in m as a number of mm or in; the decimals are those of the mm.
pub fn size(units: System, metres: f64, decimals: usize) -> String {
    shown(Measure::Size, units, 1000.0 * metres, decimals)
}

/// The same with its unit after a thin space, as drawings and charts write it.
pub fn size_with_unit(units: System, metres: f64, decimals: usize) -> String {
    [&size(units, metres, decimals), "\u{2009}", Measure::Size.symbol(units)].concat()
}

/// A sentence in the making.
pub struct Saying {
    text: String,
    units: System,
}

impl Saying {
    /// A sentence that begins with these words.
    pub fn new(units: System, words: &str) -> Self {
        Self { text: words.to_owned(), units }
    }

    /// Words.
    pub fn say(&mut self, words: &str) -> &mut Self {
        self.text.push_str(words);
        self
    }

    /// A number that has no other unit to be shown in.
    pub fn number(&mut self, value: f64, decimals: usize) -> &mut Self {
        self.say(&number(value, decimals))
    }

    /// A quantity in the metric unit of its measure, with its unit.
    pub fn of(&mut self, measure: Measure, metric: f64, decimals: usize) -> &mut Self {
        let (number, symbol) = (shown(measure, self.units, metric, decimals), measure.symbol(self.units));
        self.say(&number).say(" ").say(symbol)
    }

    /// A size in m, with its unit; the decimals are those of the mm.
    pub fn size(&mut self, metres: f64, decimals: usize) -> &mut Self {
        self.of(Measure::Size, 1000.0 * metres, decimals)
    }

    /// The sentence with its full stop.
    pub fn end(mut self) -> String {
        self.text.push('.');
        self.text
    }
}
