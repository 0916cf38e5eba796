//! The charts in words and as tables, for those who do not see them and for those who want the numbers.

use holdwater_answers::curves::{DelayCurves, FlightCurves};
use holdwater_answers::numbers::Event;

use super::scale::number;

/// The chart of height against delay in one sentence.
#[must_use]
pub fn describe_delay(curves: &DelayCurves) -> String {
    let (Some(first), Some(last)) = (curves.delay_s.first(), curves.delay_s.last()) else {
        return "Height against delay: nothing to show.".to_owned();
    };
    let mut lines = Vec::new();
    let first_three =
        [("settled ideal", &curves.settled_m), ("bare vessel", &curves.bare_m), ("as fitted", &curves.tube_m)];
    for (word, heights) in
        first_three.into_iter().chain(curves.more.iter().map(|line| (line.name.as_str(), &line.heights)))
    {
        if let (Some(start), Some(end)) = (heights.first(), heights.last()) {
            lines.push(format!("{word} {} m to {} m", number(*start, 0), number(*end, 0)));
        }
    }
    let latest = match curves.latest_release_s {
        Some(latest) if latest.is_finite() => {
            format!("past {} s lifted water costs the bare vessel more than 1 %", number(latest, 2))
        }
        _ => "at no delay shown does lifted water cost the bare vessel more than 1 %".to_owned(),
    };
    let uncovers = match curves.uncovers_s {
        Some(uncovers) if uncovers.is_finite() => {
            format!(", and from {} s its nozzle is uncovered", number(uncovers, 2))
        }
        _ => String::new(),
    };
    format!(
        "Height against delay from {} to {} s: {}; {latest}{uncovers}.",
        number(*first, 1),
        number(*last, 1),
        lines.join(", ")
    )
}

/// The charts of the flight in one sentence.
#[must_use]
pub fn describe_flight(curves: &FlightCurves, events: &[Event]) -> String {
    let peak = |values: &[f64]| values.iter().copied().filter(|value| value.is_finite()).fold(f64::NAN, f64::max);
    if curves.t_s.is_empty() {
        return "Height, speed and acceleration against time: nothing to show.".to_owned();
    }
    let list: Vec<String> =
        events.iter().map(|event| format!("{} at {} s", event.what, number(event.t_s, 2))).collect();
    let list = if list.is_empty() { String::new() } else { format!("; {}", list.join(", ")) };
    format!(
        "Height, speed and acceleration against time: {} m at most, {} m/s at most, {} m/s\u{b2} at most{list}.",
        number(peak(&curves.h_m), 0),
        number(peak(&curves.v_mps), 0),
        number(peak(&curves.a_mps2), 0),
    )
}

/// Rows of delay, settled ideal, bare vessel and tube (a dash where none is fitted), evenly spread over the delays,
/// at most `rows` of them, with both ends.
#[must_use]
pub fn delay_table(curves: &DelayCurves, rows: usize) -> Vec<[String; 4]> {
    let cell = |values: &[f64], index: usize| number(values.get(index).copied().unwrap_or(f64::NAN), 1);
    even(&curves.delay_s, rows)
        .into_iter()
        .map(|index| {
            [
                number(curves.delay_s[index], 2),
                cell(&curves.settled_m, index),
                cell(&curves.bare_m, index),
                cell(&curves.tube_m, index),
            ]
        })
        .collect()
}

/// Rows of time, height, speed and acceleration: at most `rows` evenly spread over the flight, and one for the first
/// sample at or after each event, because the events fall between even times.
#[must_use]
pub fn flight_table(curves: &FlightCurves, events: &[Event], rows: usize) -> Vec<[String; 4]> {
    let cell =
        |values: &[f64], index: usize, decimals| number(values.get(index).copied().unwrap_or(f64::NAN), decimals);
    let mut picked = even(&curves.t_s, rows);
    picked.extend(events.iter().filter_map(|event| curves.t_s.iter().position(|t| *t >= event.t_s - 1e-9)));
    holdwater_physics::order::sort_by_number(&mut picked, |index| *index as f64);
    picked.dedup();
    picked
        .into_iter()
        .map(|index| {
            [
                number(curves.t_s[index], 2),
                cell(&curves.h_m, index, 1),
                cell(&curves.v_mps, index, 1),
                cell(&curves.a_mps2, index, 0),
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
        let rows = delay_table(&curves(), 7);
        assert_eq!(rows.len(), 7);
        assert_eq!(rows[0], ["0.00", "214.0", "214.0", "\u{2013}"]);
        assert_eq!(rows[6][0], "3.00");
        assert!(delay_table(&DelayCurves::default(), 7).is_empty());
        assert_eq!(delay_table(&curves(), 0).len(), 2);
    }

    #[test]
    fn the_sentence_names_lines_and_latest_release() {
        let text = describe_delay(&curves());
        assert!(text.contains("bare vessel 214 m to 142 m") && text.contains("past 0.10 s"), "{text}");
        assert!(!text.contains("tube") && !text.contains("uncovered"), "{text}");
        let uncovers_s = Some(0.9);
        let text = describe_delay(&DelayCurves { uncovers_s, ..curves() });
        assert!(text.ends_with("from 0.90 s its nozzle is uncovered."), "{text}");
    }

    #[test]
    fn further_lines_are_in_the_sentence() {
        let line = NamedLine { name: "best restrictor".to_owned(), heights: vec![213.0, 200.0] };
        let text = describe_delay(&DelayCurves { more: vec![line], ..curves() });
        assert!(text.contains("best restrictor 213 m to 200 m"), "{text}");
    }

    #[test]
    fn events_have_rows_of_their_own() {
        let t_s: Vec<f64> = (0..=1000).map(|index| f64::from(index) * 0.006).collect();
        let curves = FlightCurves { h_m: t_s.clone(), v_mps: t_s.clone(), a_mps2: t_s.clone(), t_s };
        let burnout = Event { what: "burnout", t_s: 0.186, after_burnout_s: Some(0.0), h_m: 0.0, v_mps: 0.0 };
        let rows = flight_table(&curves, &[burnout], 5);
        assert_eq!(rows.len(), 6);
        assert_eq!(rows[1][0], "0.19");
    }
}
