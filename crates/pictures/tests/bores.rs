//! Height against bore drawn to text.

mod common;

use common::{assert_legible, words};
use holdwater_answers::curves::BoreCurves;
use holdwater_design::measure::System::{self, Metric, Us};
use holdwater_pictures::chart::{BoreFrame, ChartError, ChartLook, bore_svg, bore_table, describe_bore, draw_bore};
use holdwater_pictures::theme::Theme;
use plotters::prelude::SVGBackend;

fn curves() -> BoreCurves {
    let bore_m: Vec<f64> = (0..=120).map(|index| 3e-3 * 1.025f64.powi(index)).collect();
    let height_m = bore_m.iter().map(|bore| 212.0 - 3e4 * (bore - 0.018) * (bore - 0.018)).collect();
    BoreCurves {
        bore_m,
        height_m,
        holes: 1,
        ideal_m: 212.6,
        bare_m: 189.0,
        holds_below_m: 0.0134,
        leaks_above_m: 0.019,
        chokes_below_m: Some(0.0095),
        share: 0.01,
        window_m: Some((0.0095, 0.0232)),
        best_m: Some((0.018, 212.0)),
        fitted_m: Some((0.020, 211.9)),
    }
}

fn draw(curves: &BoreCurves, width: f64, height: f64, units: System) -> (Result<BoreFrame, ChartError>, String) {
    let look = ChartLook::new(Theme::day(), width, height, 4.0).in_units(units);
    let mut painted = String::new();
    let backend = SVGBackend::with_string(&mut painted, look.backend_size());
    let frame = draw_bore(backend, curves, &look, true);
    (frame, bore_svg(curves, &look).unwrap_or_default())
}

#[test]
fn words_neither_collide_nor_leave_the_picture() {
    let shapes = [
        curves(),
        BoreCurves { chokes_below_m: None, ..curves() },
        BoreCurves { holes: 2000, holds_below_m: 3.1e-3, leaks_above_m: 3.3e-3, ..curves() },
        BoreCurves { chokes_below_m: Some(0.055), holds_below_m: 0.0553, leaks_above_m: 0.0556, ..curves() },
        BoreCurves { chokes_below_m: Some(0.015), window_m: None, ..curves() },
        BoreCurves { window_m: Some((0.003, 0.0031)), best_m: Some((3e-3, 200.0)), fitted_m: None, ..curves() },
        BoreCurves {
            window_m: Some((0.05, 0.0579)),
            best_m: Some((0.0579, 200.0)),
            fitted_m: Some((0.0579, 200.0)),
            ..curves()
        },
        BoreCurves { bare_m: 212.5, ideal_m: 212.6, height_m: vec![212.55; 121], ..curves() },
        BoreCurves { bare_m: 12.0, ..curves() },
    ];
    for (index, curves) in shapes.iter().enumerate() {
        for (width, height) in [(304.0, 260.0), (320.0, 300.0), (374.0, 320.0), (390.0, 300.0), (860.0, 400.0)] {
            for units in [Metric, Us] {
                let (frame, svg) = draw(curves, width, height, units);
                assert!(frame.is_ok(), "{index} {width}: {frame:?}");
                assert_legible(&svg, width, height, &format!("{index} at {width} x {height} {units:?}"));
            }
        }
    }
}

#[test]
fn the_chart_names_its_zones_its_lines_and_its_window() {
    let (_, svg) = draw(&curves(), 860.0, 400.0, Metric);
    let words: Vec<String> = words(&svg).into_iter().map(|(text, _)| text).collect();
    for word in [
        "chokes",
        "holds",
        "marginal",
        "leaks",
        "ideal, equal mass",
        "bare",
        "with plate",
        "best 18.0\u{2009}mm",
        "fitted 20.0\u{2009}mm",
        "bore of the hole, mm",
        "height, m",
    ] {
        assert!(words.iter().any(|text| text == word), "{word}: {words:?}");
    }
    assert!(words.iter().any(|text| text.contains("9.5\u{2013}23.2")), "{words:?}");
}

#[test]
fn a_finger_finds_the_bore_under_it() {
    let Ok(frame) = draw(&curves(), 374.0, 320.0, Metric).0 else { panic!("no chart") };
    for bore in [3.1e-3, 9.5e-3, 0.02, 0.055] {
        assert!((frame.bore_at(frame.x_of(bore)) / bore - 1.0).abs() < 1e-9, "{bore}");
    }
    let (plot, bores) = (frame.plot, curves().bore_m);
    assert!((frame.bore_at(-1e9) / bores[0] - 1.0).abs() < 1e-9);
    assert!((frame.bore_at(f64::INFINITY) / bores[0] - 1.0).abs() < 1e-9, "no place is the first");
    assert!((frame.bore_at(1e9) / bores[120] - 1.0).abs() < 1e-9);
    for odd in [f64::NAN, -1.0, 0.0, f64::INFINITY, 1e300] {
        assert!((plot.left..=plot.right).contains(&frame.x_of(odd)), "{odd}");
        assert!((plot.top..=plot.bottom).contains(&frame.y_of(odd)), "{odd}");
    }
}

#[test]
fn odd_curves_are_refused_or_drawn_but_never_break() {
    let refused = [
        BoreCurves::default(),
        BoreCurves { bore_m: vec![0.01], height_m: vec![200.0], ..curves() },
        BoreCurves { bore_m: vec![0.0, -1.0, f64::NAN], ..curves() },
        BoreCurves { bore_m: vec![0.01; 5], ..curves() },
        BoreCurves { height_m: Vec::new(), ideal_m: f64::NAN, bare_m: f64::NAN, ..curves() },
    ];
    for curves in refused {
        assert_eq!(draw(&curves, 374.0, 320.0, Metric).0, Err(ChartError::NothingToDraw), "{curves:?}");
        let _ = (describe_bore(&curves, Metric), bore_table(&curves, 9, Metric));
    }
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1.0, 0.0, 1e300] {
        let odd = BoreCurves {
            ideal_m: bad,
            bare_m: bad,
            holds_below_m: bad,
            leaks_above_m: bad,
            chokes_below_m: Some(bad),
            share: bad,
            window_m: Some((bad, bad)),
            best_m: Some((bad, bad)),
            fitted_m: Some((bad, bad)),
            ..curves()
        };
        let (frame, svg) = draw(&odd, 374.0, 320.0, Metric);
        assert!(frame.is_ok(), "{bad}: {frame:?}");
        assert!(!svg.contains("NaN") && !svg.contains("inf"), "{bad}");
        let text = describe_bore(&odd, Us);
        assert!(!text.contains("NaN") && !text.contains("inf"), "{text}");
    }
    for (width, height) in [(0.0, 0.0), (120.0, 320.0), (374.0, 100.0), (f64::NAN, 320.0)] {
        assert_eq!(draw(&curves(), width, height, Metric).0, Err(ChartError::TooSmall), "{width} x {height}");
    }
}

/// 25.4 mm to the inch, 0.3048 m to the foot: 18.0 mm are 0.709 in.
#[test]
fn closed_form_inches_and_feet_lie_where_their_metric_values_lie() {
    let (frame, svg) = draw(&curves(), 860.0, 400.0, Us);
    let Ok(frame) = frame else { panic!("{frame:?}") };
    let words = words(&svg);
    let place = |word: &str| words.iter().find(|(text, _)| text == word).map(|(_, area)| *area);
    for word in ["best 0.709\u{2009}in", "fitted 0.787\u{2009}in", "bore of the hole, in", "height, ft"] {
        assert!(place(word).is_some(), "{word}: {words:?}");
    }
    let Some(inch) = place("1") else { panic!("{words:?}") };
    assert!((0.5 * (inch[0] + inch[2]) - frame.x_of(0.0254)).abs() < 0.1);
    let Some(feet) = place("650") else { panic!("{words:?}") };
    assert!((feet[1] + 0.45 * 12.0 - frame.y_of(650.0 * 0.3048)).abs() < 0.2, "{feet:?}");
    assert!(words.iter().any(|(text, _)| text == "costs under 1\u{a0}%: 0.374\u{2013}0.913\u{2009}in"), "{words:?}");
}
