//! The chart of height against bore in words and as a table.

use holdwater_answers::curves::BoreCurves;
use holdwater_design::measure::{Measure, System};

use super::scale::number;
use super::tell::even;
use super::zones::{Zone, zones};
use crate::shown::{Saying, shown, size, titled};

/// A bore as fine as a drill is named.
pub(super) fn drill(units: System, bore_m: f64) -> String {
    size(units, bore_m, decimals_of(bore_m))
}

fn decimals_of(bore_m: f64) -> usize {
    if bore_m < 0.09995 { 1 } else { 0 }
}

/// A share in per cent, with a decimal only where it needs one.
pub(super) fn percent(share: f64) -> String {
    let value = 100.0 * share;
    number(value, if (value - value.round()).abs() < 0.05 { 0 } else { 1 })
}

/// What a single hole or each of several is called.
pub(super) fn bore_of(holes: u32) -> String {
    if holes > 1 { format!("bore of each of {holes} holes") } else { "bore of the hole".to_owned() }
}

/// The chart of height against bore in one sentence.
#[must_use]
pub fn describe_bore(curves: &BoreCurves, units: System) -> String {
    let (Some(first), Some(last)) = (curves.bore_m.first(), curves.bore_m.last()) else {
        return "Height against bore: nothing to show.".to_owned();
    };
    let range = |text: &mut Saying, low: f64, high: f64| {
        text.say(" from ").say(&drill(units, low)).say(" to ").size(high, decimals_of(high));
    };
    let mut text = Saying::new(units, "Height against the ");
    text.say(&bore_of(curves.holes));
    range(&mut text, *first, *last);
    if let Some((bore, height)) = curves.best_m {
        text.say(": ").of(Measure::Distance, height, 0).say(" at best, at ").size(bore, decimals_of(bore));
    }
    for (words, height) in [(", ideal of equal mass ", curves.ideal_m), (", bare vessel ", curves.bare_m)] {
        if height.is_finite() {
            text.say(words).of(Measure::Distance, height, 0);
        }
    }
    let mut joint = "; ";
    for zone in zones(curves, *first, *last) {
        text.say(joint).say(zone.word());
        range(&mut text, zone.from_m, zone.to_m);
        joint = ", ";
    }
    text.say(if curves.window_m.is_some() { "; " } else { "; at every bore " });
    text.say("leak and throttling together cost ");
    text.say(if curves.window_m.is_some() { "less" } else { "more" })
        .say(" than ")
        .say(&percent(curves.share))
        .say(" %");
    if let Some((low, high)) = curves.window_m {
        range(&mut text, low, high);
    }
    if let Some((bore, height)) = curves.fitted_m {
        text.say("; fitted is ").size(bore, decimals_of(bore)).say(", ").of(Measure::Distance, height, 0);
    }
    text.end()
}

/// Heads of the columns of [`bore_table`].
#[must_use]
pub fn bore_heads(units: System) -> [String; 4] {
    let height = |word| titled(word, Measure::Distance, units);
    [titled("bore", Measure::Size, units), height("height"), height("against the ideal"), "what it does".to_owned()]
}

/// Rows of bore, height, difference from the ideal of equal mass and what the bore does, at most `rows` of them, spread
/// evenly by ratio, with both ends.
#[must_use]
pub fn bore_table(curves: &BoreCurves, rows: usize, units: System) -> Vec<[String; 4]> {
    let metres = |value| shown(Measure::Distance, units, value, 1);
    let ratios: Vec<f64> = curves.bore_m.iter().map(|bore| holdwater_physics::real::ln(bore.max(1e-9))).collect();
    let (low, high) = (curves.bore_m.first(), curves.bore_m.last());
    let zones = zones(curves, low.copied().unwrap_or(0.0), high.copied().unwrap_or(0.0));
    even(&ratios, rows)
        .into_iter()
        .map(|index| {
            let bore = curves.bore_m[index];
            let height = curves.height_m.get(index).copied().unwrap_or(f64::NAN);
            let zone = zones.iter().find(|zone| bore <= zone.to_m).map_or("\u{2013}", Zone::word);
            [drill(units, bore), metres(height), metres(height - curves.ideal_m), zone.to_owned()]
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use System::{Metric, Us};

    use super::*;

    fn curves() -> BoreCurves {
        let bore_m: Vec<f64> = (0..=100).map(|index| 1e-3 * (1.0 + 0.3 * f64::from(index))).collect();
        let height_m = bore_m.iter().map(|bore| 200.0 - 2e4 * (bore - 8e-3) * (bore - 8e-3)).collect();
        BoreCurves {
            bore_m,
            height_m,
            holes: 7,
            ideal_m: 201.0,
            bare_m: 176.0,
            holds_below_m: 6e-3,
            leaks_above_m: 9e-3,
            chokes_below_m: Some(3e-3),
            share: 0.01,
            window_m: Some((4e-3, 11e-3)),
            best_m: Some((8e-3, 200.0)),
            fitted_m: Some((12e-3, 199.7)),
        }
    }

    #[test]
    fn the_sentence_names_everything_in_the_picture() {
        let text = describe_bore(&curves(), Metric);
        for words in [
            "bore of each of 7 holes from 1.0 to 31.0 mm: 200 m at best, at 8.0 mm",
            "ideal of equal mass 201 m, bare vessel 176 m",
            "chokes from 1.0 to 3.0 mm, holds from 3.0 to 6.0 mm, marginal from 6.0 to 9.0 mm, leaks from 9.0 to 31.0 mm",
            "leak and throttling together cost less than 1 % from 4.0 to 11.0 mm",
            "fitted is 12.0 mm, 200 m.",
        ] {
            assert!(text.contains(words), "{words}: {text}");
        }
        assert!(describe_bore(&BoreCurves::default(), Metric).contains("nothing"));
        let none = BoreCurves { window_m: None, fitted_m: None, holes: 1, ..curves() };
        let text = describe_bore(&none, Metric);
        assert!(text.contains("bore of the hole") && text.ends_with("cost more than 1 %."), "{text}");
    }

    #[test]
    fn the_table_names_the_zone_of_each_bore() {
        let rows = bore_table(&curves(), 8, Metric);
        assert_eq!(rows.len(), 8);
        assert_eq!((rows[0][0].as_str(), rows[0][3].as_str()), ("1.0", "chokes"));
        assert_eq!((rows[7][0].as_str(), rows[7][3].as_str()), ("31.0", "leaks"));
        assert!(rows.iter().any(|row| row[3] == "holds"));
        assert!(bore_table(&BoreCurves::default(), 8, Metric).is_empty());
    }

    /// 8.0 mm are 0.315 in, 25.4 mm to the inch; 200 m are 656 ft.
    #[test]
    fn closed_form_sentences_rows_and_heads_in_inches() {
        let text = describe_bore(&curves(), Us);
        assert!(text.contains("from 0.039 to 1.220 in: 656 ft at best, at 0.315 in"), "{text}");
        assert_eq!(bore_heads(Us)[..2], ["bore, in", "height, ft"]);
        let row = &bore_table(&curves(), 8, Us)[7];
        assert_eq!((&row[0][..], &row[3][..]), ("1.220", "leaks"));
    }
}
