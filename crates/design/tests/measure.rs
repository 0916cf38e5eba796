//! Units: what is shown and typed in either system, and that neither changes a design.

use holdwater_design::measure::{Kind, Measure, System, Unread, check, field_text, range, read, show, shown, stepped};
use holdwater_design::{Facts, Input, ROWS, Row, Unit, check_keeping};
use proptest::prelude::*;

const BOTH: [System; 2] = [System::Metric, System::Us];

fn read_us(text: &str, unit: Unit) -> Result<f64, Unread> {
    read(text, unit, System::Us)
}

/// What is shown reads back as the very same number.
#[track_caller]
fn assert_comes_back(row: &Facts, value: f64) {
    for system in BOTH {
        let text = field_text(row.unit, system, value);
        let back = read(&text, row.unit, system);
        assert_eq!(back.as_ref().map(|back| back.to_bits()), Ok(value.to_bits()), "{}: {value}: {text}", row.key);
    }
}

/// The metric numbers beside the US ones follow from 1 in = 25.4 mm, 1 lb = 0.45359237 kg, 1 gal = 231 in3.
#[test]
fn closed_form_typed_numbers_with_units_become_link_values() {
    for (text, unit, value) in [
        ("1/2 in", Unit::Millimetre, 12.7),
        ("3 1/2 in", Unit::Millimetre, 88.9),
        ("3-1/2 in", Unit::Millimetre, 88.9),
        ("3½\"", Unit::Millimetre, 88.9),
        ("½", Unit::Millimetre, 12.7),
        ("2.5\u{2033}", Unit::Millimetre, 63.5),
        ("0.85", Unit::Millimetre, 21.59),
        ("21.5 mm", Unit::Millimetre, 21.5),
        ("2,15cm", Unit::Millimetre, 21.5),
        ("100'", Unit::Metre, 30.48),
        ("100\u{2019}", Unit::Metre, 30.48),
        ("10,5 bar", Unit::Bar, 10.5),
        ("145 psi", Unit::Bar, 9.9974),
        ("145 PSIG", Unit::Bar, 9.9974),
        ("1 MPa", Unit::Bar, 10.0),
        ("150 kPa", Unit::Bar, 1.5),
        ("0.5l", Unit::Litre, 0.5),
        ("500 ml", Unit::Litre, 0.5),
        ("500 cm³", Unit::Litre, 0.5),
        ("1 gal", Unit::Litre, 3.7854),
        ("16 fl. oz", Unit::Litre, 0.47318),
        ("18 °C", Unit::Celsius, 18.0),
        ("64.4F", Unit::Celsius, 18.0),
        ("\u{2212}40", Unit::Celsius, -40.0),
        ("-40 ºC", Unit::Celsius, -40.0),
        ("2 lbs", Unit::Kilogram, 0.90718),
        ("220 g", Unit::Kilogram, 0.22),
        ("1 oz", Unit::Gram, 28.35),
        ("30 dyn/cm", Unit::MillinewtonPerMetre, 30.0),
        ("350 ms", Unit::Second, 0.35),
        ("50 %", Unit::One, 0.5),
        ("3", Unit::Piece, 3.0),
        ("-0", Unit::Second, 0.0),
    ] {
        assert_eq!(read_us(text, unit), Ok(value), "{text}");
    }
    assert_eq!(read("1.5 kPa", Unit::Bar, System::Metric), Ok(0.015));
    assert_eq!(read("1,000", Unit::Millimetre, System::Metric), Ok(1.0));
    assert_eq!(read("0,500", Unit::Metre, System::Us).map(f64::to_bits), read_us("0.5", Unit::Metre).map(f64::to_bits));
}

#[test]
fn property_what_is_no_value_is_a_named_complaint() {
    let sentence = |text, unit| read_us(text, unit).err().map(|unread| unread.to_string()).unwrap_or_default();
    assert_eq!(sentence("", Unit::Bar), "you gave no number");
    assert_eq!(sentence("psi", Unit::Bar), "\"psi\" is not a number");
    assert_eq!(
        sentence("5 m/s", Unit::Metre),
        "m/s is a unit of speed; units understood are m, cm, mm, km, in, ft, yd"
    );
    assert_eq!(
        sentence("5 oz", Unit::Litre),
        "oz is a unit of mass; units understood are L, mL, cL, m³, fl oz, pt, qt, gal, in³"
    );
    assert_eq!(
        sentence("5 atm", Unit::Bar),
        "\"atm\" is not a unit that is known here; units understood are bar, mbar, Pa, kPa, MPa, GPa, psi, ksi, Msi"
    );
    assert_eq!(sentence("5 %", Unit::Piece), "% is a unit of share; a plain number is wanted");
    assert!(matches!(read_us("1,000 ft", Unit::Metre), Err(Unread::Comma { .. })));
    for text in ["1/0", "1//2", "1/2/3", "1.5/2", "½½", "1½½", "3 4", "1.2.3", "1,2.3", "--3", ".", "-", "/2"] {
        assert!(
            matches!(read_us(text, Unit::Metre), Err(Unread::NotANumber { .. })),
            "{text}: {:?}",
            read_us(text, Unit::Metre)
        );
    }
    for text in ["1e5", "0x10", "5 feets"] {
        assert!(matches!(read_us(text, Unit::Metre), Err(Unread::UnknownUnit { .. })), "{text}");
    }
    for text in ["inf", "nan", "\u{663}", "²"] {
        assert!(matches!(read_us(text, Unit::Metre), Err(Unread::NotANumber { .. })), "{text}");
    }
}

#[test]
fn property_every_default_end_and_step_of_every_row_is_shown_and_read_unchanged() {
    for row in &ROWS {
        for value in [row.default(), Some(row.min), Some(row.max)].into_iter().flatten() {
            assert_comes_back(row, value);
            for presses in [1, -1, 3] {
                for system in BOTH {
                    let pressed = stepped(row, system, value, presses);
                    assert!((row.min..=row.max).contains(&pressed), "{}", row.key);
                    assert_comes_back(row, pressed);
                }
            }
        }
    }
}

#[test]
fn property_a_metric_field_shows_what_the_link_holds() {
    for row in &ROWS {
        assert_eq!(Measure::of(row.unit).symbol(System::Metric), row.unit.symbol(), "{}", row.key);
        let (value, symbol) = shown(row.unit, System::Metric, row.max);
        assert_eq!((value.to_bits(), symbol), (row.max.to_bits(), row.unit.symbol()));
    }
}

#[test]
fn regress_fields_and_ranges_read_well() {
    let us = |input: Input| show(input.row().unit, System::Us, input.row().default().unwrap());
    assert_eq!(us(Input::BoosterNozzle), "0.846457 in");
    assert_eq!(us(Input::SiteElevation), "98.425 ft");
    assert_eq!(us(Input::BoosterVolume), "253.605 fl oz");
    assert_eq!(us(Input::BoosterFill), "145.04 psi");
    assert_eq!(us(Input::BoosterDry), "0.92594 lb");
    assert_eq!(us(Input::RestrictorMass), "0.4233 oz");
    assert_eq!(us(Input::AirTemperature), "64.4 °F");
    assert_eq!(us(Input::Delay), "1 s");
    assert_eq!(us(Input::BoosterCount), "1");
    assert_eq!(show(Unit::Millimetre, System::Us, 21.123_456_789_012_34), "21.12345678901234 mm");
    assert_eq!(range(Input::BoosterNozzle.row(), System::Us), "0.07875 to 4.724 in");
    assert_eq!(range(Input::AirTemperature.row(), System::Us), "-22 to 122 °F");
    assert_eq!(range(Input::SiteElevation.row(), System::Us), "-1410 to 16400 ft");
    assert_eq!(range(Input::Stages.row(), System::Us), "1 or 2");
    let pressed = stepped(Input::BoosterFill.row(), System::Us, 10.0, 1);
    assert_eq!(show(Unit::Bar, System::Us, pressed), "150.04 psi");
}

#[test]
fn property_complaints_speak_in_the_units_of_the_reader() {
    let sentence =
        |input, text, kept| check(input, text, System::Us, kept).err().map(|c| c.to_string()).unwrap_or_default();
    assert_eq!(
        sentence(Input::BoosterNozzle, "21.5", Some(21.5)),
        "Nozzle throat (b.nozzle): \"21.5\" is out of range. Allowed: 0.07875 to 4.724 in. Using 0.846457 in meanwhile."
    );
    assert_eq!(
        sentence(Input::SurfaceTension, "5", None),
        "Surface tension (tension): \"5\" is out of range. Allowed: 15 to 80 mN/m, \
         or nothing for clean water at its temperature. Using clean water at its temperature meanwhile."
    );
    assert_eq!(
        sentence(Input::BoosterFill, "10 m", Some(10.0)),
        "Launch pressure (b.fill): m is a unit of length; units understood are bar, mbar, Pa, kPa, MPa, GPa, psi, ksi, Msi. \
         Allowed: 7.252 to 2175 psi. Using 145.04 psi meanwhile."
    );
    assert_eq!(check(Input::SurfaceTension, " ", System::Us, None), Ok(None));
    assert_eq!(check(Input::BoosterNozzle, "21.5mm", System::Us, None), Ok(Some(21.5)));
}

#[test]
fn property_converted_ranges_lie_within_the_range() {
    for row in &ROWS {
        let words = range(row, System::Us);
        if row.is_whole() {
            continue;
        }
        for end in words.trim_end_matches(Measure::of(row.unit).symbol(System::Us)).split(" to ") {
            let value = read_us(end.trim(), row.unit).unwrap();
            assert!((row.min..=row.max).contains(&value), "{}: {words}", row.key);
        }
    }
}

/// Per cent, speed, acceleration, stress, energy and force have no input; from the definitions of the units.
#[test]
fn closed_form_answers_are_shown_in_either_system() {
    let us = |measure: Measure, value| measure.shown(System::Us, value);
    for (measure, metric, shown) in [
        (Measure::Distance, 30.48, 100.0),
        (Measure::Speed, 30.48, 100.0),
        (Measure::Acceleration, 9.806_65, 32.174_048_556_430_45),
        (Measure::Stress, 6.894_757_293_168_361, 1.0),
        (Measure::Energy, 1.355_817_948_331_400_4, 1.0),
        (Measure::Force, 4.448_221_615_260_5, 1.0),
        (Measure::Percent, 12.0, 12.0),
    ] {
        assert!((us(measure, metric) / shown - 1.0).abs() < 1e-14, "{measure:?}");
    }
    assert!((Measure::Temperature.difference(System::Us, 5.0) - 9.0).abs() < 1e-12);
    assert_eq!(Measure::Size.decimals(System::Us, 1), 3);
    assert_eq!(Measure::Volume.decimals(System::Us, 0), 0);
    assert_eq!(Kind::Pressure.words(), "pressure");
    for measure in Measure::ALL {
        for system in BOTH {
            for value in [0.0, 0.37, 512.5] {
                let back = measure.metric(system, measure.shown(system, value));
                assert!((back - value).abs() < 1e-12 * (1.0 + value) * 100.0, "{measure:?}");
            }
        }
    }
}

fn any_row() -> impl Strategy<Value = &'static Row> {
    proptest::sample::select(ROWS.iter().collect::<Vec<_>>())
}

fn any_unit() -> impl Strategy<Value = Unit> {
    proptest::sample::select(Unit::ALL.to_vec())
}

fn any_system() -> impl Strategy<Value = System> {
    proptest::sample::select(BOTH.to_vec())
}

proptest! {
    #[test]
    fn property_any_text_reads_as_a_finite_number_or_a_complaint(text in any::<String>(), unit in any_unit(), system in any_system()) {
        match read(&text, unit, system) {
            Ok(value) => prop_assert!(value.is_finite()),
            Err(unread) => prop_assert_eq!(unread.to_string().lines().count(), 1),
        }
    }

    #[test]
    fn property_texts_close_to_numbers_read_as_finite_numbers_or_complaints(
        text in "[-+ ]?[0-9]{0,400}[.,/ ]?[0-9½ -]{0,30}/?[0-9]{0,400} ?(psi|in|°F|C|fl oz|MPa|%|'|\"|m/s)?",
        unit in any_unit(), system in any_system(),
    ) {
        if let Ok(value) = read(&text, unit, system) {
            prop_assert!(value.is_finite());
        }
    }

    #[test]
    fn property_any_value_of_any_row_is_shown_and_read_unchanged(row in any_row(), share in 0.0..=1.0_f64) {
        assert_comes_back(row, row.nearest(row.min + share * (row.max - row.min)));
    }

    #[test]
    fn property_a_value_of_few_digits_is_shown_in_the_unit_of_the_system(row in any_row(), share in 0.0..=1.0_f64, digits in 0..5_usize) {
        let value: f64 = format!("{:.digits$e}", row.min + share * (row.max - row.min)).parse().unwrap();
        let value = row.nearest(value);
        let text = field_text(row.unit, System::Us, value);
        prop_assert!(text.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.' || byte == b'-'), "{} {}: {}", row.key, value, text);
        assert_comes_back(row, value);
    }

    #[test]
    fn property_what_was_typed_with_four_digits_is_shown_as_it_was_typed(row in any_row(), digits in 1_u32..10_000, decimals in 0_i32..4) {
        let typed = f64::from(digits) / [1.0, 10.0, 100.0, 1000.0][decimals as usize];
        if row.unit != Unit::Celsius {
            let value = read_us(&typed.to_string(), row.unit).unwrap();
            prop_assert_eq!(field_text(row.unit, System::Us, value), typed.to_string());
        }
    }

    #[test]
    fn property_a_metric_reader_may_type_what_a_link_may_hold(row in any_row(), text in "-?[0-9]{0,6}[.,]?[0-9]{0,6}") {
        let old = check_keeping(row.input, &text, None).ok();
        let new = check(row.input, &text, System::Metric, None).ok();
        prop_assert_eq!(old, new);
    }

    #[test]
    fn property_any_number_at_all_is_shown_without_panic(value in any::<f64>(), unit in any_unit(), system in any_system()) {
        let text = show(unit, system, value);
        prop_assert!(!text.is_empty());
    }
}
