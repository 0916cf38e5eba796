//! The chart of height against bore in words and as a table.

use core::fmt::Write as _;

use holdwater_answers::curves::BoreCurves;

use super::scale::number;
use super::tell::even;
use super::zones::{Zone, zones};

/// A bore in millimetres, as a drill is named.
pub(super) fn millimetres(bore_m: f64) -> String {
    let value = 1000.0 * bore_m;
    number(value, if value < 99.95 { 1 } else { 0 })
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
pub fn describe_bore(curves: &BoreCurves) -> String {
    let (Some(first), Some(last)) = (curves.bore_m.first(), curves.bore_m.last()) else {
        return "Height against bore: nothing to show.".to_owned();
    };
    // A String takes every write.
    let mut text = format!("Height against the {}", bore_of(curves.holes));
    let _ = write!(text, " from {} to {} mm", millimetres(*first), millimetres(*last));
    if let Some((bore, height)) = curves.best_m {
        let _ = write!(text, ": {} m at best, at {} mm", number(height, 0), millimetres(bore));
    }
    for (words, height) in [("ideal of equal mass", curves.ideal_m), ("bare vessel", curves.bare_m)] {
        if height.is_finite() {
            let _ = write!(text, ", {words} {} m", number(height, 0));
        }
    }
    let mut joint = "; ";
    for zone in zones(curves, *first, *last) {
        let (from, to) = (millimetres(zone.from_m), millimetres(zone.to_m));
        let _ = write!(text, "{joint}{} from {from} to {to} mm", zone.word());
        joint = ", ";
    }
    let share = percent(curves.share);
    let _ = match curves.window_m {
        Some((low, high)) => write!(
            text,
            "; from {} to {} mm leak and throttling together cost less than {share} %",
            millimetres(low),
            millimetres(high)
        ),
        None => write!(text, "; at every bore leak and throttling together cost more than {share} %"),
    };
    if let Some((bore, height)) = curves.fitted_m {
        let _ = write!(text, "; fitted is {} mm, {} m", millimetres(bore), number(height, 0));
    }
    text.push('.');
    text
}

/// Rows of bore (mm), height (m), difference from the ideal of equal mass (m) and what the bore does, at most `rows` of
/// them, spread evenly by ratio, with both ends.
#[must_use]
pub fn bore_table(curves: &BoreCurves, rows: usize) -> Vec<[String; 4]> {
    let ratios: Vec<f64> = curves.bore_m.iter().map(|bore| holdwater_physics::real::ln(bore.max(1e-9))).collect();
    let (low, high) = (curves.bore_m.first(), curves.bore_m.last());
    let zones = zones(curves, low.copied().unwrap_or(0.0), high.copied().unwrap_or(0.0));
    even(&ratios, rows)
        .into_iter()
        .map(|index| {
            let bore = curves.bore_m[index];
            let height = curves.height_m.get(index).copied().unwrap_or(f64::NAN);
            let zone = zones.iter().find(|zone| bore <= zone.to_m).map_or("\u{2013}", Zone::word);
            [millimetres(bore), number(height, 1), number(height - curves.ideal_m, 1), zone.to_owned()]
        })
        .collect()
}

#[cfg(test)]
mod tests {
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
        let text = describe_bore(&curves());
        for words in [
            "bore of each of 7 holes from 1.0 to 31.0 mm: 200 m at best, at 8.0 mm",
            "ideal of equal mass 201 m, bare vessel 176 m",
            "chokes from 1.0 to 3.0 mm, holds from 3.0 to 6.0 mm, marginal from 6.0 to 9.0 mm, leaks from 9.0 to 31.0 mm",
            "from 4.0 to 11.0 mm leak and throttling together cost less than 1 %",
            "fitted is 12.0 mm, 200 m.",
        ] {
            assert!(text.contains(words), "{words}: {text}");
        }
        assert!(describe_bore(&BoreCurves::default()).contains("nothing"));
        let none = BoreCurves { window_m: None, fitted_m: None, holes: 1, ..curves() };
        let text = describe_bore(&none);
        assert!(text.contains("bore of the hole") && text.ends_with("cost more than 1 %."), "{text}");
    }

    #[test]
    fn the_table_names_the_zone_of_each_bore() {
        let rows = bore_table(&curves(), 8);
        assert_eq!(rows.len(), 8);
        assert_eq!((rows[0][0].as_str(), rows[0][3].as_str()), ("1.0", "chokes"));
        assert_eq!((rows[7][0].as_str(), rows[7][3].as_str()), ("31.0", "leaks"));
        assert!(rows.iter().any(|row| row[3] == "holds"));
        assert!(bore_table(&BoreCurves::default(), 8).is_empty());
    }
}
