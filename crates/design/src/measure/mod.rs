//! Metric and US customary units: what a field and an answer show, and what may be typed.
//!
//! Links, designs and answers always hold metric numbers, each in its own unit. This module turns them into what
//! the reader chose and back. A value that is shown and read again is the very same number, bit for bit, so that
//! changing the units never changes a design.

mod checked;
mod read;
mod said;
mod scale;

pub use checked::{Complaint, check, check_part};
pub use read::{Unread, read};
pub use said::said;
pub use scale::Kind;

use crate::find;
use crate::table::Facts;
use crate::unit::Unit;
use scale::Scale;

/// A system of units, chosen once for everything.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum System {
    /// Metre, kilogram, bar, degree Celsius.
    #[default]
    Metric,
    /// Foot, pound, pound per square inch, degree Fahrenheit, US fluid ounce.
    Us,
}

/// What is shown with one unit in each system: every unit of the link, and what answers hold beside them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// A height or distance: m, ft.
    Distance,
    /// A size of a part: mm, in.
    Size,
    /// A volume: L, fl oz.
    Volume,
    /// A pressure: bar, psi.
    Pressure,
    /// A stress: MPa, ksi.
    Stress,
    /// A modulus: GPa, Msi.
    Modulus,
    /// A mass of a stage: kg, lb.
    Mass,
    /// A small mass: g, oz.
    SmallMass,
    /// A temperature: °C, °F.
    Temperature,
    /// A difference of temperatures: K, Δ°F.
    Warming,
    /// A surface tension: mN/m in both.
    SurfaceTension,
    /// A time: s in both.
    Time,
    /// A plain number.
    Number,
    /// A number of things.
    Count,
    /// A share in per cent.
    Percent,
    /// A speed: m/s, ft/s.
    Speed,
    /// An acceleration: m/s², ft/s².
    Acceleration,
    /// An energy: J, ft lbf.
    Energy,
    /// A force: N, lbf.
    Force,
}

impl Measure {
    /// Everything that can be shown.
    pub const ALL: [Self; 19] = [
        Self::Distance,
        Self::Size,
        Self::Volume,
        Self::Pressure,
        Self::Stress,
        Self::Modulus,
        Self::Mass,
        Self::SmallMass,
        Self::Temperature,
        Self::Warming,
        Self::SurfaceTension,
        Self::Time,
        Self::Number,
        Self::Count,
        Self::Percent,
        Self::Speed,
        Self::Acceleration,
        Self::Energy,
        Self::Force,
    ];

    /// How an input that the link holds in this unit is shown.
    #[must_use]
    pub const fn of(unit: Unit) -> Self {
        match unit {
            Unit::Metre => Self::Distance,
            Unit::Millimetre => Self::Size,
            Unit::Litre => Self::Volume,
            Unit::Bar => Self::Pressure,
            Unit::Kilogram => Self::Mass,
            Unit::Gram => Self::SmallMass,
            Unit::Celsius => Self::Temperature,
            Unit::MillinewtonPerMetre => Self::SurfaceTension,
            Unit::Second => Self::Time,
            Unit::Megapascal => Self::Stress,
            Unit::Gigapascal => Self::Modulus,
            Unit::Kelvin => Self::Warming,
            Unit::Percent => Self::Percent,
            Unit::One => Self::Number,
            Unit::Piece => Self::Count,
        }
    }

    /// The metric unit, the US unit, and how many decimals more the US number needs to be as fine.
    const fn facts(self) -> (&'static Scale, &'static Scale, isize) {
        match self {
            Self::Distance => (&scale::METRE, &scale::FOOT, 0),
            Self::Size => (&scale::MILLIMETRE, &scale::INCH, 2),
            Self::Volume => (&scale::LITRE, &scale::FLUID_OUNCE, -1),
            Self::Pressure => (&scale::BAR, &scale::PSI, -1),
            Self::Stress => (&scale::MEGAPASCAL, &scale::KSI, 1),
            Self::Modulus => (&scale::GIGAPASCAL, &scale::MSI, 1),
            Self::Mass => (&scale::KILOGRAM, &scale::POUND, 0),
            Self::SmallMass => (&scale::GRAM, &scale::OUNCE, 2),
            Self::Temperature => (&scale::CELSIUS, &scale::FAHRENHEIT, 0),
            Self::Warming => (&scale::KELVIN, &scale::FAHRENHEIT_DEGREE, 0),
            Self::SurfaceTension => (&scale::TENSION, &scale::TENSION, 0),
            Self::Time => (&scale::SECOND, &scale::SECOND, 0),
            Self::Number => (&scale::ONE, &scale::ONE, 0),
            Self::Count => (&scale::PIECE, &scale::PIECE, 0),
            Self::Percent => (&scale::PERCENT, &scale::PERCENT, 0),
            Self::Speed => (&scale::METRE_PER_SECOND, &scale::FOOT_PER_SECOND, 0),
            Self::Acceleration => (&scale::METRE_PER_SECOND2, &scale::FOOT_PER_SECOND2, 0),
            Self::Energy => (&scale::JOULE, &scale::FOOT_POUND, 0),
            Self::Force => (&scale::NEWTON, &scale::POUND_OF_FORCE, 1),
        }
    }

    const fn scale(self, system: System) -> &'static Scale {
        match system {
            System::Metric => self.facts().0,
            System::Us => self.facts().1,
        }
    }

    /// The symbol that is written after a number; empty for plain numbers.
    #[must_use]
    pub const fn symbol(self, system: System) -> &'static str {
        self.scale(system).symbol
    }

    /// The number that a system shows for a number in the metric unit.
    #[must_use]
    pub fn shown(self, system: System, metric: f64) -> f64 {
        self.scale(System::Metric).to(self.scale(system), metric)
    }

    /// The size that a system shows for a difference in the metric unit, such as a gain or a tolerance.
    #[must_use]
    pub fn difference(self, system: System, metric: f64) -> f64 {
        self.scale(System::Metric).difference_to(self.scale(system), metric)
    }

    /// The number in the metric unit of a number that a system shows, such as a place on the axis of a chart.
    #[must_use]
    pub fn metric(self, system: System, shown: f64) -> f64 {
        self.scale(system).to(self.scale(System::Metric), shown)
    }

    /// The decimals that say in a system as much as so many decimals say in the metric unit.
    #[must_use]
    pub fn decimals(self, system: System, metric: usize) -> usize {
        match system {
            System::Metric => metric,
            System::Us => metric.saturating_add_signed(self.facts().2),
        }
    }
}

/// The number and the symbol that a system shows for a value in a unit of the link.
#[must_use]
pub fn shown(unit: Unit, system: System, value: f64) -> (f64, &'static str) {
    let measure = Measure::of(unit);
    (measure.shown(system, value), measure.symbol(system))
}

/// The text of a field for a value in a unit of the link: the shortest number that [`read`] takes for that very value.
///
/// Where no number of up to fifteen digits in the unit of the system does, the text is the value with the unit of the link.
#[must_use]
pub fn field_text(unit: Unit, system: System, value: f64) -> String {
    if Measure::of(unit).symbol(system) == unit.symbol() {
        return value.to_string();
    }
    shortest(unit, system, value).map_or_else(|| unit.show(value), |number| number.to_string())
}

/// The number of fewest digits in the unit of the system that reads back as the value.
fn shortest(unit: Unit, system: System, value: f64) -> Option<f64> {
    let (exact, _) = shown(unit, system, value);
    let reads_back =
        |number: &f64| read(&number.to_string(), unit, system).is_ok_and(|back| back.to_bits() == value.to_bits());
    (1..=15).map(|digits| scale::rounded(exact, digits)).find(reads_back)
}

/// A value in a unit of the link with its symbol, as exact as a field shows it.
#[must_use]
pub fn show(unit: Unit, system: System, value: f64) -> String {
    let text = field_text(unit, system, value);
    match Measure::of(unit).symbol(system) {
        "" => text,
        // The unit of the link is there already.
        _ if find::holds(&text, " ") => text,
        symbol => [&text, symbol].join(" "),
    }
}

/// The range of an input in words: `2 to 120 mm`, `0.07875 to 4.724 in`. Converted ends are rounded inwards to four digits.
#[must_use]
pub fn range(row: &Facts, system: System) -> String {
    let measure = Measure::of(row.unit);
    let symbol = measure.symbol(system);
    if symbol == row.unit.symbol() {
        return row.range();
    }
    let end = |value, inwards| {
        // Twelve digits take off what the conversion left behind the end, which would move a round end inwards.
        let exact = scale::rounded(measure.shown(system, value), 12);
        scale::rounded_by(inwards, exact, 4).to_string()
    };
    [&end(row.min, f64::ceil), " to ", &end(row.max, f64::floor), " ", symbol].concat()
}

/// The value after so many presses of plus (or of minus, when negative), kept within the range of its row.
///
/// In the unit of the link this is [`Facts::stepped`]; otherwise a press is a round amount of the unit that is shown.
#[must_use]
pub fn stepped(row: &Facts, system: System, value: f64, presses: i32) -> f64 {
    let measure = Measure::of(row.unit);
    if measure.symbol(system) == row.unit.symbol() {
        return row.stepped(value, presses);
    }
    let step = round_amount(measure.difference(system, row.step));
    // Steps start from the number in the field, so that it stays as short as it is.
    let start = shortest(row.unit, system, value).unwrap_or_else(|| scale::rounded(measure.shown(system, value), 5));
    let target = scale::rounded(start + step * f64::from(presses), 12);
    row.nearest(read(&target.to_string(), row.unit, system).unwrap_or(value))
}

/// One, two or five times a power of ten, close to the amount.
fn round_amount(amount: f64) -> f64 {
    [1.0, 2.0, 5.0, 10.0]
        .map(|lead| scale::rounded(lead * power_below(amount), 1))
        .into_iter()
        .find(|round| *round >= 0.6 * amount)
        .unwrap_or(amount)
}

fn power_below(amount: f64) -> f64 {
    let mut power = 1.0;
    // Steps lie between a millionth and a million; others only get a less round amount.
    for _ in 0..12 {
        if power > amount {
            power /= 10.0;
        } else if power * 10.0 <= amount {
            power *= 10.0;
        }
    }
    power
}
