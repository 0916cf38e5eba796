//! Curves as comma-separated values (RFC 4180): every point, metric, the units in the head of each column.

use crate::curves::{BoreCurves, DelayCurves, FlightCurves};

/// Height against delay.
#[must_use]
pub fn delay(curves: &DelayCurves) -> String {
    let mut columns = vec![
        ("delay_s", curves.delay_s.as_slice()),
        ("settled_m", &curves.settled_m),
        ("bare_m", &curves.bare_m),
        ("as_fitted_m", &curves.tube_m),
    ];
    columns.retain(|(_, values)| !values.is_empty());
    table(&columns)
}

/// Height, speed and acceleration against time.
#[must_use]
pub fn flight(curves: &FlightCurves) -> String {
    table(&[("t_s", &curves.t_s), ("h_m", &curves.h_m), ("v_mps", &curves.v_mps), ("a_mps2", &curves.a_mps2)])
}

/// Height against the bore of the restrictor's holes.
#[must_use]
pub fn bore(curves: &BoreCurves) -> String {
    table(&[("bore_m", &curves.bore_m), ("height_m", &curves.height_m)])
}

fn table(columns: &[(&str, &[f64])]) -> String {
    let names: Vec<_> = columns.iter().map(|(name, _)| *name).collect();
    let mut text = names.join(",");
    let rows = columns.iter().map(|(_, values)| values.len()).max().unwrap_or(0);
    for row in 0..rows {
        text.push_str("\r\n");
        for (place, (_, values)) in columns.iter().enumerate() {
            if place > 0 {
                text.push(',');
            }
            // A flight without an answer leaves its place empty.
            if let Some(value) = values.get(row).filter(|value| value.is_finite()) {
                text.push_str(&value.to_string());
            }
        }
    }
    text.push_str("\r\n");
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_point_is_a_line_and_what_has_no_answer_stays_empty() {
        let curves =
            FlightCurves { t_s: vec![0.0, 0.5], h_m: vec![0.0, 1.25], v_mps: vec![0.0, f64::NAN], a_mps2: vec![9.0] };
        assert_eq!(flight(&curves), "t_s,h_m,v_mps,a_mps2\r\n0,0,0,9\r\n0.5,1.25,,\r\n");
        let bare =
            DelayCurves { delay_s: vec![0.0], settled_m: vec![2.0], bare_m: vec![1.0], ..DelayCurves::default() };
        assert_eq!(delay(&bare), "delay_s,settled_m,bare_m\r\n0,2,1\r\n");
    }
}
