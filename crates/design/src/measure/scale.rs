//! The one table of units of measurement: symbols, names people type, and factors.

/// What a unit measures. Only units of the same kind turn into one another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A length.
    Length,
    /// A volume.
    Volume,
    /// A pressure or a stress.
    Pressure,
    /// A mass.
    Mass,
    /// A temperature.
    Temperature,
    /// A difference of temperatures.
    Warming,
    /// A surface tension.
    SurfaceTension,
    /// A time.
    Time,
    /// A plain number, which may be given as a share in per cent.
    Number,
    /// A number of things.
    Count,
    /// A speed.
    Speed,
    /// An acceleration.
    Acceleration,
    /// An energy.
    Energy,
    /// A force.
    Force,
}

impl Kind {
    /// The kind in a sentence: "psi is a unit of pressure".
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Length => "length",
            Self::Volume => "volume",
            Self::Pressure => "pressure",
            Self::Mass => "mass",
            Self::Temperature => "temperature",
            Self::Warming => "temperature difference",
            Self::SurfaceTension => "surface tension",
            Self::Time => "time",
            Self::Number => "share",
            Self::Count => "count",
            Self::Speed => "speed",
            Self::Acceleration => "acceleration",
            Self::Energy => "energy",
            Self::Force => "force",
        }
    }
}

/// Everything known about a unit: value in base units = (value - `zero`) * `multiply` / `divide`.
///
/// Base units are those of the SI, but for temperature the degree Celsius, since adding 273.15 and taking it off
/// again would cost digits. Factors are two whole numbers, both exact in double precision.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    /// As it is written after a number.
    pub symbol: &'static str,
    /// What people type for it, in small letters without spaces, dots and degree signs; parted by spaces.
    names: &'static str,
    /// What it measures.
    pub kind: Kind,
    multiply: f64,
    divide: f64,
    zero: f64,
    /// Significant digits that a number typed in this unit keeps at least when it becomes another unit.
    ///
    /// Between decimal units nothing is lost. A number of inches keeps six digits and others five: so a length of
    /// 21.5 mm is shown as 0.846457 in and read as 21.5 mm again, while what anyone types stays far closer than
    /// anyone measures.
    kept: u32,
}

const DECIMAL: u32 = 15;

const fn si(symbol: &'static str, names: &'static str, kind: Kind, multiply: f64, divide: f64) -> Scale {
    Scale { symbol, names, kind, multiply, divide, zero: 0.0, kept: DECIMAL }
}

const fn us(symbol: &'static str, names: &'static str, kind: Kind, multiply: f64, divide: f64) -> Scale {
    Scale { symbol, names, kind, multiply, divide, zero: 0.0, kept: 5 }
}

/// The pound-force, in units of 1e-13 N: 0.45359237 kg * 9.80665 m/s2, exactly.
const POUND_FORCE: f64 = 44_482_216_152_605.0;

pub(super) const METRE: Scale = si("m", "m metre metres meter meters", Kind::Length, 1.0, 1.0);
pub(super) const MILLIMETRE: Scale = si("mm", "mm", Kind::Length, 1.0, 1e3);
pub(super) const INCH: Scale = Scale { kept: 6, ..us("in", "in inch inches \"", Kind::Length, 254.0, 1e4) };
pub(super) const FOOT: Scale = us("ft", "ft foot feet '", Kind::Length, 3_048.0, 1e4);
pub(super) const LITRE: Scale = si("L", "l litre litres liter liters dm3", Kind::Volume, 1.0, 1e3);
pub(super) const FLUID_OUNCE: Scale = us("fl oz", "floz", Kind::Volume, 295_735_295_625.0, 1e16);
pub(super) const BAR: Scale = si("bar", "bar barg", Kind::Pressure, 1e5, 1.0);
pub(super) const MEGAPASCAL: Scale = si("MPa", "mpa n/mm2", Kind::Pressure, 1e6, 1.0);
pub(super) const GIGAPASCAL: Scale = si("GPa", "gpa", Kind::Pressure, 1e9, 1.0);
pub(super) const PSI: Scale = us("psi", "psi psig", Kind::Pressure, POUND_FORCE, 6_451_600_000.0);
pub(super) const KSI: Scale = us("ksi", "ksi", Kind::Pressure, POUND_FORCE, 6_451_600.0);
/// A million psi; both whole numbers are ten times those of the others to be whole.
pub(super) const MSI: Scale = us("Msi", "msi", Kind::Pressure, 10.0 * POUND_FORCE, 64_516.0);
pub(super) const KILOGRAM: Scale = si("kg", "kg", Kind::Mass, 1.0, 1.0);
pub(super) const GRAM: Scale = si("g", "g", Kind::Mass, 1.0, 1e3);
pub(super) const POUND: Scale = us("lb", "lb lbs pound pounds", Kind::Mass, 45_359_237.0, 1e8);
pub(super) const OUNCE: Scale = us("oz", "oz ounce ounces", Kind::Mass, 45_359_237.0, 16e8);
pub(super) const CELSIUS: Scale = si("°C", "c degc celsius \u{2103}", Kind::Temperature, 1.0, 1.0);
pub(super) const FAHRENHEIT: Scale =
    Scale { zero: 32.0, ..us("°F", "f degf fahrenheit \u{2109}", Kind::Temperature, 5.0, 9.0) };
pub(super) const KELVIN: Scale = si("K", "k", Kind::Warming, 1.0, 1.0);
/// A degree Fahrenheit as a difference: a name of its own, because the same symbol would mean a temperature.
pub(super) const FAHRENHEIT_DEGREE: Scale = us("\u{394}°F", "\u{394}f df", Kind::Warming, 5.0, 9.0);
pub(super) const TENSION: Scale = si("mN/m", "mn/m dyn/cm", Kind::SurfaceTension, 1.0, 1e3);
pub(super) const SECOND: Scale = si("s", "s sec second seconds", Kind::Time, 1.0, 1.0);
pub(super) const ONE: Scale = si("", "", Kind::Number, 1.0, 1.0);
pub(super) const PIECE: Scale = si("", "", Kind::Count, 1.0, 1.0);
pub(super) const PERCENT: Scale = si("%", "% percent", Kind::Number, 1.0, 100.0);
pub(super) const METRE_PER_SECOND: Scale = si("m/s", "m/s", Kind::Speed, 1.0, 1.0);
pub(super) const FOOT_PER_SECOND: Scale = us("ft/s", "ft/s fps", Kind::Speed, 3_048.0, 1e4);
pub(super) const METRE_PER_SECOND2: Scale = si("m/s²", "m/s2", Kind::Acceleration, 1.0, 1.0);
pub(super) const FOOT_PER_SECOND2: Scale = us("ft/s²", "ft/s2", Kind::Acceleration, 3_048.0, 1e4);
pub(super) const JOULE: Scale = si("J", "j nm", Kind::Energy, 1.0, 1.0);
/// 0.3048 m times the pound-force; both whole numbers are a fourth of 13558179483314004 and 1e16 to be exact doubles.
pub(super) const FOOT_POUND: Scale = us("ft lbf", "ftlbf ftlb", Kind::Energy, 3_389_544_870_828_501.0, 25e14);
pub(super) const NEWTON: Scale = si("N", "n", Kind::Force, 1.0, 1.0);
pub(super) const POUND_OF_FORCE: Scale = us("lbf", "lbf", Kind::Force, POUND_FORCE, 1e13);

/// Every unit that is understood, those of one kind from the most usual on. Plain numbers have no symbol to be found by.
pub static SCALES: [Scale; 48] = [
    METRE,
    si("cm", "cm", Kind::Length, 1.0, 1e2),
    MILLIMETRE,
    si("km", "km", Kind::Length, 1e3, 1.0),
    INCH,
    FOOT,
    us("yd", "yd yard yards", Kind::Length, 9_144.0, 1e4),
    LITRE,
    si("mL", "ml cm3 cc ccm", Kind::Volume, 1.0, 1e6),
    si("cL", "cl", Kind::Volume, 1.0, 1e5),
    si("m³", "m3", Kind::Volume, 1.0, 1.0),
    FLUID_OUNCE,
    us("pt", "pt pint pints", Kind::Volume, 473_176_473.0, 1e12),
    us("qt", "qt quart quarts", Kind::Volume, 946_352_946.0, 1e12),
    us("gal", "gal gallon gallons", Kind::Volume, 3_785_411_784.0, 1e12),
    us("in³", "in3 cuin", Kind::Volume, 16_387_064.0, 1e12),
    BAR,
    si("mbar", "mbar hpa", Kind::Pressure, 1e2, 1.0),
    si("Pa", "pa", Kind::Pressure, 1.0, 1.0),
    si("kPa", "kpa", Kind::Pressure, 1e3, 1.0),
    MEGAPASCAL,
    GIGAPASCAL,
    PSI,
    KSI,
    MSI,
    KILOGRAM,
    GRAM,
    POUND,
    OUNCE,
    CELSIUS,
    FAHRENHEIT,
    KELVIN,
    FAHRENHEIT_DEGREE,
    TENSION,
    si("N/m", "n/m", Kind::SurfaceTension, 1.0, 1.0),
    SECOND,
    si("ms", "ms", Kind::Time, 1.0, 1e3),
    si("min", "min", Kind::Time, 60.0, 1.0),
    PERCENT,
    METRE_PER_SECOND,
    si("km/h", "km/h kmh", Kind::Speed, 1e3, 3_600.0),
    FOOT_PER_SECOND,
    us("mph", "mph mi/h", Kind::Speed, 1_609_344.0, 36e5),
    METRE_PER_SECOND2,
    FOOT_PER_SECOND2,
    JOULE,
    FOOT_POUND,
    NEWTON,
];

impl Scale {
    /// The number in this unit as a number in another unit of the same kind.
    pub(super) fn to(&self, other: &Self, value: f64) -> f64 {
        if self.same_as(other) {
            return value;
        }
        (value - self.zero) * self.multiply / self.divide * other.divide / other.multiply + other.zero
    }

    /// The size of a difference in this unit in another one of the same kind: offsets do not count.
    pub(super) fn difference_to(&self, other: &Self, difference: f64) -> f64 {
        if self.same_as(other) {
            return difference;
        }
        difference * self.multiply / self.divide * other.divide / other.multiply
    }

    /// A number as it was typed, in another unit of the same kind, without digits that nobody meant.
    ///
    /// More are kept of a number that was typed with more, so that every metric value has a number that is read as that value.
    /// Where scales have an offset the decimals count, since 0.00004 °F has one digit but -17.7778 °C six.
    pub(super) fn typed_to(&self, other: &Self, typed: &Typed) -> f64 {
        if self.same_as(other) {
            return typed.value;
        }
        let typed_digits =
            if self.zero > 0.0 { typed.decimals.saturating_add(2) } else { typed.significant.saturating_sub(1) };
        rounded(self.to(other, typed.value), self.kept.max(typed_digits))
    }

    fn same_as(&self, other: &Self) -> bool {
        self.symbol == other.symbol
    }
}

/// A number with the digits it was typed with; a fraction such as 1/2 has none.
pub(super) struct Typed {
    /// The number.
    pub value: f64,
    /// Digits from the first that is not zero on.
    pub significant: u32,
    /// Digits after the point.
    pub decimals: u32,
}

/// The unit of a name as it was typed; large and small letters are the same, as they are for people.
///
/// No two units differ by that alone: a test says so. (A millipascal is not among them, so "mpa" has one meaning.)
pub(super) fn named(typed: &str) -> Option<&'static Scale> {
    let mut name = String::new();
    for letter in typed.chars() {
        match letter {
            ' ' | '.' | '^' | '°' | 'º' => {}
            '²' => name.push('2'),
            '³' => name.push('3'),
            '\u{2019}' | '\u{2032}' => name.push('\''),
            '\u{201d}' | '\u{2033}' => name.push('"'),
            other if other.is_whitespace() => {}
            other => name.push(other.to_ascii_lowercase()),
        }
    }
    SCALES.iter().find(|scale| scale.names.split(' ').any(|known| known == name))
}

/// The value with so many significant digits, as the double nearest to that decimal.
pub(super) fn rounded(value: f64, digits: u32) -> f64 {
    rounded_by(f64::round, value, digits)
}

/// The same with another way of rounding, such as up or down.
pub(super) fn rounded_by(rounding: fn(f64) -> f64, value: f64, digits: u32) -> f64 {
    let digits = digits.min(DECIMAL).cast_signed();
    let size = value.abs();
    // Beyond these sizes, where nothing of this project lies, a power of ten is no number any more.
    if !(1e-200..=1e200).contains(&size) {
        return value;
    }
    // Decimals that leave a whole number below ten to the number of digits, which is exact.
    let mut decimals = 0;
    while shifted(size, decimals) < ten_to(digits - 1) {
        decimals += 1;
    }
    while shifted(size, decimals) >= ten_to(digits) {
        decimals -= 1;
    }
    // A whole number divided by an exact power of ten is the nearest double to its decimal; beyond 22 decimals, where the
    // power is not exact any more, the last bit may be off.
    shifted(rounding(shifted(value, decimals)), -decimals)
}

/// value * 10^places.
fn shifted(value: f64, places: i32) -> f64 {
    if places < 0 { value / ten_to(-places) } else { value * ten_to(places) }
}

fn ten_to(power: i32) -> f64 {
    (0..power).fold(1.0, |size, _| size * 10.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every scale in base units per unit, from the whole numbers of the table.
    fn size(scale: &Scale) -> f64 {
        scale.multiply / scale.divide
    }

    fn assert_same(found: f64, parts: f64) {
        assert!((found / parts - 1.0).abs() < 4.0 * f64::EPSILON, "{found} against {parts}");
    }

    /// The inch and the pound of the agreement of 1959, standard gravity (3rd CGPM, 1901) and the US gallon of 231 cubic inches,
    /// all exact; from memory.
    #[test]
    fn closed_form_factors_follow_from_their_exact_parts() {
        let (inch, pound, gravity) = (25.4e-3, 0.453_592_37, 9.806_65);
        let found = |symbol: &str| size(SCALES.iter().find(|scale| scale.symbol == symbol).unwrap());
        assert_same(found("in"), inch);
        assert_same(found("ft"), 12.0 * inch);
        assert_same(found("yd"), 36.0 * inch);
        let gallon = 231.0 * inch * inch * inch;
        assert_same(found("in³"), gallon / 231.0);
        for (symbol, part) in [("gal", 1.0), ("qt", 4.0), ("pt", 8.0), ("fl oz", 128.0)] {
            assert_same(found(symbol), gallon / part);
        }
        assert_same(found("lb"), pound);
        assert_same(found("oz"), pound / 16.0);
        let force = pound * gravity;
        assert_same(size(&POUND_OF_FORCE), force);
        assert_same(found("psi"), force / (inch * inch));
        assert_same(found("ksi"), 1000.0 * force / (inch * inch));
        assert_same(found("ft lbf"), force * 12.0 * inch);
        assert_same(found("ft/s"), 12.0 * inch);
        assert_same(found("ft/s²"), 12.0 * inch);
        assert_same(found("mph"), 5280.0 * 12.0 * inch / 3600.0);
        assert_same(found("km/h"), 1.0 / 3.6);
    }

    /// The pound-force in 1e-13 N and the foot-pound in 1e-16 J as products of whole numbers, without any rounding.
    #[test]
    fn closed_form_the_large_whole_numbers_are_exact() {
        assert_eq!(45_359_237_u128 * 980_665, POUND_FORCE as u128);
        assert_eq!(
            45_359_237_u128 * 980_665 * 3_048 * 10_000_000_000,
            4 * FOOT_POUND.multiply as u128 * 10_000_000_000 * 10
        );
        for scale in &SCALES {
            for whole in [scale.multiply, scale.divide] {
                assert!(whole.fract() == 0.0 && whole >= 1.0, "{}", scale.symbol);
                let odd = whole as u128 >> (whole as u128).trailing_zeros();
                assert!(odd < 1 << 53, "{} is no exact double", scale.symbol);
            }
        }
    }

    /// Freezing and boiling water and the point where both scales agree, from memory.
    #[test]
    fn published_fixed_points_of_the_fahrenheit_scale() {
        for (celsius, fahrenheit) in [(0.0, 32.0), (100.0, 212.0), (-40.0, -40.0), (37.0, 98.6)] {
            assert!((CELSIUS.to(&FAHRENHEIT, celsius) - fahrenheit).abs() < 1e-12);
            assert!((FAHRENHEIT.to(&CELSIUS, fahrenheit) - celsius).abs() < 1e-12);
        }
        assert!((CELSIUS.difference_to(&FAHRENHEIT, 5.0) - 9.0).abs() < 1e-12);
    }

    #[test]
    fn property_no_name_means_two_units_and_every_symbol_is_a_name() {
        let mut seen: Vec<&str> = Vec::new();
        for scale in &SCALES {
            assert_eq!(named(scale.symbol), Some(scale), "{}", scale.symbol);
            for name in scale.names.split(' ') {
                assert!(!name.is_empty() && !seen.contains(&name), "{name}");
                assert_eq!(named(name), Some(scale), "{name}");
                seen.push(name);
            }
        }
        assert_eq!(named(""), None);
    }

    #[test]
    fn property_rounding_gives_the_nearest_double_of_the_decimal() {
        for (value, digits, decimal) in [
            (21.500_007_8, 6, "21.5"),
            (0.000_123_456_7, 3, "0.000123"),
            (-9.999_96, 5, "-10"),
            (123_456.0, 2, "120000"),
            (0.1 + 0.2, 15, "0.3"),
            (0.0, 5, "0"),
        ] {
            assert_eq!(rounded(value, digits).to_string(), decimal);
        }
        assert!(rounded(f64::NAN, 5).is_nan());
        assert_eq!(rounded(f64::MAX, 5).to_bits(), f64::MAX.to_bits());
        assert_eq!(rounded(f64::MIN_POSITIVE, 5).to_bits(), f64::MIN_POSITIVE.to_bits());
    }
}
