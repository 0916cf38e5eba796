//! The charts in words and as tables, for those who do not see them and for those who want the numbers.

use holdwater_answers::curves::{DelayCurves, FlightCurves};
use holdwater_answers::numbers::Event;

use holdwater_design::measure::{Measure, System};

use super::scale::number;
use crate::shown::{Saying, shown, titled};

/// The chart of height against delay in one sentence.
#[must_use]
pub fn describe_delay(curves: &DelayCurves, units: System) -> String {
    let (Some(first), Some(last)) = (curves.delay_s.first(), curves.delay_s.last()) else {
        return "Height against delay: nothing to show.".to_owned();
    };
    let mut text = Saying::new(units, "Height against delay from ");
    text.number(*first, 1).say(" to ").number(*last, 1).say(" s");
    let first_three =
        [("settled ideal", &curves.settled_m), ("bare vessel", &curves.bare_m), ("as fitted", &curves.tube_m)];
    let more = curves.more.iter().map(|line| (line.name.as_str(), &line.heights));
    let mut joint = ": ";
    for (word, heights) in first_three.into_iter().chain(more) {
        let known = heights.iter().any(|height| height.is_finite());
        if let (true, Some(start), Some(end)) = (known, heights.first(), heights.last()) {
            text.say(joint).say(word).say(" ").of(Measure::Distance, *start, 0);
            text.say(" to ").of(Measure::Distance, *end, 0);
            joint = ", ";
        }
    }
    match curves.latest_release_s {
        Some(latest) if latest.is_finite() => {
            text.say("; past ").number(latest, 2).say(" s lifted water costs the bare vessel more than 1 %")
        }
        _ => text.say("; at no delay shown does lifted water cost the bare vessel more than 1 %"),
    };
    if let Some(uncovers) = curves.uncovers_s.filter(|uncovers| uncovers.is_finite()) {
        text.say(", and from ").number(uncovers, 2).say(" s its nozzle is uncovered");
    }
    text.end()
}

/// The charts of the flight in one sentence.
#[must_use]
pub fn describe_flight(curves: &FlightCurves, events: &[Event], units: System) -> String {
    if curves.t_s.is_empty() {
        return "Height, speed and acceleration against time: nothing to show.".to_owned();
    }
    let mut text = Saying::new(units, "Height, speed and acceleration against time");
    let mut joint = ": ";
    for (measure, values) in
        [(Measure::Distance, &curves.h_m), (Measure::Speed, &curves.v_mps), (Measure::Acceleration, &curves.a_mps2)]
    {
        let peak = values.iter().copied().filter(|value| value.is_finite()).fold(f64::NAN, f64::max);
        text.say(joint).of(measure, peak, 0).say(" at most");
        joint = ", ";
    }
    joint = "; ";
    for event in events {
        text.say(joint).say(event.what).say(" at ").number(event.t_s, 2).say(" s");
        joint = ", ";
    }
    text.end()
}

/// Heads of the columns of [`delay_table`].
#[must_use]
pub fn delay_heads(units: System) -> [String; 4] {
    let height = |word| titled(word, Measure::Distance, units);
    ["delay, s".to_owned(), height("settled"), height("bare"), height("as fitted")]
}

/// Heads of the columns of [`flight_table`].
#[must_use]
pub fn flight_heads(units: System) -> [String; 4] {
    [
        "time, s".to_owned(),
        titled("height", Measure::Distance, units),
        titled("speed", Measure::Speed, units),
        titled("acceleration", Measure::Acceleration, units),
    ]
}

/// Heads of a table of events: what, times after lift-off and after burnout, height, speed.
#[must_use]
pub fn event_heads(units: System) -> [String; 5] {
    [
        "Event".to_owned(),
        "after lift-off, s".to_owned(),
        "after burnout, s".to_owned(),
        titled("height", Measure::Distance, units),
        titled("speed", Measure::Speed, units),
    ]
}

/// A cell of a table: a dash where there is no number.
fn cell(values: &[f64], index: usize, (measure, units): (Measure, System), decimals: usize) -> String {
    shown(measure, units, values.get(index).copied().unwrap_or(f64::NAN), decimals)
}

/// Rows of delay, settled ideal, bare vessel and tube (a dash where none is fitted), evenly spread over the delays,
/// at most `rows` of them, with both ends.
#[must_use]
pub fn delay_table(curves: &DelayCurves, rows: usize, units: System) -> Vec<[String; 4]> {
    let height = |values: &[f64], index| cell(values, index, (Measure::Distance, units), 1);
    even(&curves.delay_s, rows)
        .into_iter()
        .map(|index| {
            [
                number(curves.delay_s[index], 2),
                height(&curves.settled_m, index),
                height(&curves.bare_m, index),
                height(&curves.tube_m, index),
            ]
        })
        .collect()
}

/// Rows of time, height, speed and acceleration: at most `rows` evenly spread over the flight, and one for the first
/// sample at or after each event, because the events fall between even times.
#[must_use]
pub fn flight_table(curves: &FlightCurves, events: &[Event], rows: usize, units: System) -> Vec<[String; 4]> {
    let mut picked = even(&curves.t_s, rows);
    picked.extend(events.iter().filter_map(|event| curves.t_s.iter().position(|t| *t >= event.t_s - 1e-9)));
    holdwater_physics::order::sort_by_number(&mut picked, |index| *index as f64);
    picked.dedup();
    picked
        .into_iter()
        .map(|index| {
            [
                number(curves.t_s[index], 2),
                cell(&curves.h_m, index, (Measure::Distance, units), 1),
                cell(&curves.v_mps, index, (Measure::Speed, units), 1),
                cell(&curves.a_mps2, index, (Measure::Acceleration, units), 0),
            ]
        })
        .collect()
}

/// Indices whose values lie nearest to evenly spread ones, without repeats.
pub(super) fn even(values: &[f64], rows: usize) -> Vec<usize> {
    let (Some(first), Some(last)) = (values.first(), values.last()) else {
        return Vec::new();
    };
    if values.len() <= rows.max(2) {
        return (0..values.len()).collect();
    }
    let parts = rows.max(2) - 1;
    let mut picked: Vec<usize> = (0..=parts)
        .map(|part| {
            let wanted = first + (last - first) * part as f64 / parts as f64;
            let after = values.partition_point(|value| *value < wanted).min(values.len() - 1);
            let before = after.saturating_sub(1);
            if (values[before] - wanted).abs() < (values[after] - wanted).abs() { before } else { after }
        })
        .collect();
    picked.dedup();
    picked
}

#[cfg(test)]
mod tests {
    use System::{Metric, Us};
    use holdwater_answers::curves::NamedLine;

    use super::*;

    fn curves() -> DelayCurves {
        let delay_s: Vec<f64> = (0..=300).map(|index| f64::from(index) * 0.01).collect();
        let settled_m: Vec<f64> = delay_s.iter().map(|delay| 214.0 - 4.0 * delay).collect();
        let bare_m = settled_m.iter().zip(&delay_s).map(|(height, delay)| height - 20.0 * delay).collect();
        DelayCurves { delay_s, settled_m, bare_m, latest_release_s: Some(0.1), ..DelayCurves::default() }
    }

    #[test]
    fn the_table_has_both_ends_and_the_wanted_rows() {
        let rows = delay_table(&curves(), 7, Metric);
        assert_eq!(rows.len(), 7);
        assert_eq!(rows[0], ["0.00", "214.0", "214.0", "\u{2013}"]);
        assert_eq!(rows[6][0], "3.00");
        assert!(delay_table(&DelayCurves::default(), 7, Metric).is_empty());
        assert_eq!(delay_table(&curves(), 0, Metric).len(), 2);
    }

    #[test]
    fn the_sentence_names_lines_and_latest_release() {
        let text = describe_delay(&curves(), Metric);
        assert!(text.contains("bare vessel 214 m to 142 m") && text.contains("past 0.10 s"), "{text}");
        assert!(!text.contains("tube") && !text.contains("uncovered"), "{text}");
        let uncovers_s = Some(0.9);
        let text = describe_delay(&DelayCurves { uncovers_s, ..curves() }, Metric);
        assert!(text.ends_with("from 0.90 s its nozzle is uncovered."), "{text}");
    }

    #[test]
    fn further_lines_are_in_the_sentence() {
        let line = NamedLine { name: "best restrictor".to_owned(), heights: vec![213.0, 200.0] };
        let text = describe_delay(&DelayCurves { more: vec![line], ..curves() }, Metric);
        assert!(text.contains("best restrictor 213 m to 200 m"), "{text}");
    }

    #[test]
    fn events_have_rows_of_their_own() {
        let t_s: Vec<f64> = (0..=1000).map(|index| f64::from(index) * 0.006).collect();
        let curves = FlightCurves { h_m: t_s.clone(), v_mps: t_s.clone(), a_mps2: t_s.clone(), t_s };
        let burnout = Event { what: "burnout", t_s: 0.186, after_burnout_s: Some(0.0), h_m: 0.0, v_mps: 0.0 };
        let rows = flight_table(&curves, &[burnout], 5, Metric);
        assert_eq!(rows.len(), 6);
        assert_eq!(rows[1][0], "0.19");
    }

    /// 214 m are 702.1 ft, 0.3048 m to the foot.
    #[test]
    fn closed_form_sentences_rows_and_heads_in_feet() {
        let text = describe_delay(&curves(), Us);
        assert!(text.contains("bare vessel 702 ft to 466 ft") && text.contains("past 0.10 s"), "{text}");
        assert_eq!(delay_table(&curves(), 7, Us)[0], ["0.00", "702.1", "702.1", "\u{2013}"]);
        assert_eq!(delay_heads(Us)[1], "settled, ft");
        assert_eq!(flight_heads(Us), ["time, s", "height, ft", "speed, ft/s", "acceleration, ft/s\u{b2}"]);
        assert_eq!(event_heads(Metric)[4], "speed, m/s");
        let flight =
            FlightCurves { t_s: vec![0.0, 1.0], h_m: vec![0.0, 30.48], v_mps: vec![3.048, 0.0], a_mps2: vec![0.0; 2] };
        let text = describe_flight(&flight, &[], Us);
        assert!(text.ends_with(": 100 ft at most, 10 ft/s at most, 0 ft/s\u{b2} at most."), "{text}");
        assert_eq!(flight_table(&flight, &[], 5, Us)[1], ["1.00", "100.0", "0.0", "0"]);
    }
}
