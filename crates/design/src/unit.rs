//! The units of the link, each with its symbol, its quantity and its way to SI.

/// What kind of quantity a number is; the page chooses the displayed unit by it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Quantity {
    /// A length, SI unit m.
    Length,
    /// A volume, SI unit m3.
    Volume,
    /// A pressure above the ambient one, SI unit Pa.
    Pressure,
    /// A mass, SI unit kg.
    Mass,
    /// A temperature, SI unit K.
    Temperature,
    /// A stress, strength or modulus, SI unit Pa.
    Stress,
    /// A difference of temperatures, SI unit K.
    Warming,
    /// A surface tension, SI unit N/m.
    SurfaceTension,
    /// A time, SI unit s.
    Time,
    /// A plain number without unit.
    Number,
    /// A number of things, always whole.
    Count,
}

/// A unit in which a link holds a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Unit {
    /// Metre.
    Metre,
    /// Millimetre.
    Millimetre,
    /// Litre.
    Litre,
    /// Bar above ambient pressure.
    Bar,
    /// Kilogram.
    Kilogram,
    /// Gram.
    Gram,
    /// Degree Celsius.
    Celsius,
    /// Millinewton per metre.
    MillinewtonPerMetre,
    /// Second.
    Second,
    /// Megapascal.
    Megapascal,
    /// Gigapascal.
    Gigapascal,
    /// Kelvin, for a difference of temperatures.
    Kelvin,
    /// Per cent.
    Percent,
    /// No unit: a plain number.
    One,
    /// No unit: a number of things.
    Piece,
}

/// Everything known about a unit: SI value = value * `multiply` / `divide` + `add`.
///
/// Factors are kept as whole numbers to multiply or to divide by, because dividing a decimal by 1000
/// gives the nearest double to the intended decimal, while multiplying by 0.001 often does not.
struct Facts {
    symbol: &'static str,
    quantity: Quantity,
    multiply: f64,
    divide: f64,
    add: f64,
}

const fn facts(symbol: &'static str, quantity: Quantity, multiply: f64, divide: f64, add: f64) -> Facts {
    Facts { symbol, quantity, multiply, divide, add }
}

impl Unit {
    /// Every unit, for tests and for tables of conversions.
    pub const ALL: [Self; 15] = [
        Self::Metre,
        Self::Millimetre,
        Self::Litre,
        Self::Bar,
        Self::Kilogram,
        Self::Gram,
        Self::Celsius,
        Self::MillinewtonPerMetre,
        Self::Second,
        Self::Megapascal,
        Self::Gigapascal,
        Self::Kelvin,
        Self::Percent,
        Self::One,
        Self::Piece,
    ];

    const fn facts(self) -> Facts {
        match self {
            Self::Metre => facts("m", Quantity::Length, 1.0, 1.0, 0.0),
            Self::Millimetre => facts("mm", Quantity::Length, 1.0, 1_000.0, 0.0),
            Self::Litre => facts("L", Quantity::Volume, 1.0, 1_000.0, 0.0),
            Self::Bar => facts("bar", Quantity::Pressure, 100_000.0, 1.0, 0.0),
            Self::Kilogram => facts("kg", Quantity::Mass, 1.0, 1.0, 0.0),
            Self::Gram => facts("g", Quantity::Mass, 1.0, 1_000.0, 0.0),
            Self::Celsius => facts("°C", Quantity::Temperature, 1.0, 1.0, 273.15),
            Self::MillinewtonPerMetre => facts("mN/m", Quantity::SurfaceTension, 1.0, 1_000.0, 0.0),
            Self::Second => facts("s", Quantity::Time, 1.0, 1.0, 0.0),
            Self::Megapascal => facts("MPa", Quantity::Stress, 1e6, 1.0, 0.0),
            Self::Gigapascal => facts("GPa", Quantity::Stress, 1e9, 1.0, 0.0),
            Self::Kelvin => facts("K", Quantity::Warming, 1.0, 1.0, 0.0),
            Self::Percent => facts("%", Quantity::Number, 1.0, 100.0, 0.0),
            Self::One => facts("", Quantity::Number, 1.0, 1.0, 0.0),
            Self::Piece => facts("", Quantity::Count, 1.0, 1.0, 0.0),
        }
    }

    /// The symbol written after a number; empty for plain numbers and counts.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        self.facts().symbol
    }

    /// The quantity the unit measures.
    #[must_use]
    pub const fn quantity(self) -> Quantity {
        self.facts().quantity
    }

    /// The SI value of a number in this unit.
    #[must_use]
    pub fn to_si(self, value: f64) -> f64 {
        let facts = self.facts();
        value * facts.multiply / facts.divide + facts.add
    }

    /// The number in this unit of an SI value.
    #[must_use]
    pub fn from_si(self, si: f64) -> f64 {
        let facts = self.facts();
        (si - facts.add) * facts.divide / facts.multiply
    }

    /// The SI size of a difference in this unit, such as a tolerance: offsets do not count.
    #[must_use]
    pub fn difference_to_si(self, difference: f64) -> f64 {
        let facts = self.facts();
        difference * facts.multiply / facts.divide
    }

    /// A number with its symbol, in shortest exact decimal form: `21.5 mm`.
    #[must_use]
    pub fn show(self, value: f64) -> String {
        match self.symbol() {
            "" => value.to_string(),
            symbol => format!("{value} {symbol}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn millimetres_litres_grams_and_bars_become_the_nearest_double_of_their_si_decimal() {
        assert_eq!(Unit::Millimetre.to_si(21.5).to_bits(), 0.0215_f64.to_bits());
        assert_eq!(Unit::Litre.to_si(2.4).to_bits(), 0.0024_f64.to_bits());
        assert_eq!(Unit::Gram.to_si(12.3).to_bits(), 0.0123_f64.to_bits());
        assert_eq!(Unit::Bar.to_si(10.0).to_bits(), 1_000_000_f64.to_bits());
        assert_eq!(Unit::Celsius.to_si(0.0).to_bits(), 273.15_f64.to_bits());
    }

    #[test]
    fn every_unit_goes_to_si_and_back() {
        for unit in Unit::ALL {
            for value in [0.0, 0.37, 18.0, 512.5] {
                let back = unit.from_si(unit.to_si(value));
                assert!((back - value).abs() < 1e-9, "{unit:?}: {value} came back as {back}");
            }
        }
    }

    #[test]
    fn a_difference_of_temperature_has_no_offset() {
        assert_eq!(Unit::Celsius.difference_to_si(2.0).to_bits(), 2.0_f64.to_bits());
    }
}
