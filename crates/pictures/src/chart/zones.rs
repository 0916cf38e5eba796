//! What the bore of a restrictor's holes does: it chokes, holds, is marginal or leaks.

use holdwater_answers::curves::BoreCurves;

/// Whether the holes hold the water.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hold {
    /// Surface tension holds it.
    Holds,
    /// It may or may not.
    Marginal,
    /// It does not.
    Leaks,
}

/// Bores that do the same.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Zone {
    /// Narrowest bore, m.
    pub from_m: f64,
    /// Widest bore, m.
    pub to_m: f64,
    /// Whether they hold the water.
    pub hold: Hold,
    /// Whether they throttle the gas too much.
    pub chokes: bool,
}

impl Zone {
    /// What the zone is called. A bore that is too narrow for the gas as a rule holds, so that goes without saying.
    pub const fn word(&self) -> &'static str {
        match (self.chokes, self.hold) {
            (true, Hold::Holds) => "chokes",
            (true, Hold::Marginal) => "chokes, marginal",
            (true, Hold::Leaks) => "chokes, leaks",
            (false, Hold::Holds) => "holds",
            (false, Hold::Marginal) => "marginal",
            (false, Hold::Leaks) => "leaks",
        }
    }
}

/// The zones between two bores from narrow to wide; none when their bounds are no numbers.
pub fn zones(curves: &BoreCurves, low: f64, high: f64) -> Vec<Zone> {
    let (holds, leaks) = (curves.holds_below_m, curves.leaks_above_m);
    if holds.is_nan() || leaks.is_nan() {
        return Vec::new();
    }
    let chokes = curves.chokes_below_m.filter(|bore| !bore.is_nan()).unwrap_or(0.0);
    let mut bounds = [low, chokes, holds, leaks.max(holds), high].map(|bore| bore.max(low).min(high));
    holdwater_physics::order::sort_by_number(&mut bounds, |bore| *bore);
    bounds
        .windows(2)
        .filter(|pair| pair[1] > pair[0])
        .map(|pair| {
            let (from_m, to_m) = (pair[0], pair[1]);
            let hold = match from_m {
                from if from < holds => Hold::Holds,
                from if from < leaks => Hold::Marginal,
                _ => Hold::Leaks,
            };
            Zone { from_m, to_m, hold, chokes: from_m < chokes }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words(chokes_below_m: Option<f64>, holds_below_m: f64, leaks_above_m: f64) -> Vec<&'static str> {
        let curves = BoreCurves { chokes_below_m, holds_below_m, leaks_above_m, ..BoreCurves::default() };
        zones(&curves, 1.0, 10.0).iter().map(Zone::word).collect()
    }

    #[test]
    fn zones_follow_each_other_without_gap() {
        assert_eq!(words(Some(2.0), 4.0, 6.0), ["chokes", "holds", "marginal", "leaks"]);
        assert_eq!(words(None, 4.0, 6.0), ["holds", "marginal", "leaks"]);
        assert_eq!(words(Some(5.0), 4.0, 6.0), ["chokes", "chokes, marginal", "marginal", "leaks"]);
        assert_eq!(words(Some(8.0), 0.0, 0.5), ["chokes, leaks", "leaks"]);
        assert_eq!(words(None, f64::INFINITY, f64::INFINITY), ["holds"]);
    }

    #[test]
    fn odd_bounds_make_no_zones_or_sound_ones() {
        assert!(words(None, f64::NAN, 6.0).is_empty());
        assert_eq!(words(Some(f64::NAN), 6.0, 4.0), ["holds", "leaks"]);
    }
}
