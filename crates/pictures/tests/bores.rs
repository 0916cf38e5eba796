//! Height against bore drawn to text.

use holdwater_answers::curves::BoreCurves;
use holdwater_pictures::chart::place::text_width;
use holdwater_pictures::chart::{BoreFrame, ChartError, ChartLook, bore_table, describe_bore, draw_bore};
use holdwater_pictures::theme::Theme;
use plotters::prelude::{IntoDrawingArea, SVGBackend};

const RATIO: f64 = 4.0;

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

fn draw(curves: &BoreCurves, width: f64, height: f64) -> (Result<BoreFrame, ChartError>, String) {
    let look = ChartLook::for_svg(Theme::day(), width, height, RATIO);
    let mut svg = String::new();
    let area = SVGBackend::with_string(&mut svg, look.backend_size()).into_drawing_area();
    let frame = draw_bore(&area, curves, &look, true);
    drop(area);
    (frame, svg)
}

/// A text of the picture: its words and the box it lies in, CSS px.
type Words = (String, [f64; 4]);

fn words(svg: &str) -> Vec<Words> {
    let attribute = |head: &str, name: &str| {
        let rest = head.split(&format!("{name}=\"")).nth(1).unwrap_or_default();
        rest.split('"').next().unwrap_or_default().to_owned()
    };
    let number = |head: &str, name: &str| attribute(head, name).parse::<f64>().unwrap_or(f64::NAN) / RATIO;
    svg.split("<text ")
        .skip(1)
        .filter_map(|rest| rest.split_once('>'))
        .map(|(head, rest)| {
            let text = rest.split('<').next().unwrap_or_default().trim().to_owned();
            let size = number(head, "font-size");
            let (x, y, width) = (number(head, "x"), number(head, "y"), text_width(&text, size));
            let left = match attribute(head, "text-anchor").as_str() {
                "middle" => x - 0.5 * width,
                "end" => x - width,
                _ => x,
            };
            // The point is the text's middle.
            (text, [left, y - 0.45 * size, left + width, y + 0.45 * size])
        })
        .collect()
}

fn assert_legible(svg: &str, width: f64, height: f64, what: &str) {
    let words = words(svg);
    assert!(words.len() > 5, "{what}: {words:?}");
    for (index, (text, a)) in words.iter().enumerate() {
        let inside = a[0] >= -0.5 && a[1] >= -0.5 && a[2] <= width + 0.5 && a[3] <= height + 0.5;
        assert!(inside, "{what}: {text} at {a:?} is outside");
        for (other, b) in &words[index + 1..] {
            let apart = a[2] <= b[0] || b[2] <= a[0] || a[3] <= b[1] || b[3] <= a[1];
            assert!(apart, "{what}: {text} {a:?} over {other} {b:?}");
        }
    }
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
            let (frame, svg) = draw(curves, width, height);
            assert!(frame.is_ok(), "{index} {width}: {frame:?}");
            assert_legible(&svg, width, height, &format!("{index} at {width} x {height}"));
        }
    }
}

#[test]
fn the_chart_names_its_zones_its_lines_and_its_window() {
    let (_, svg) = draw(&curves(), 860.0, 400.0);
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
    let Ok(frame) = draw(&curves(), 374.0, 320.0).0 else { panic!("no chart") };
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
        assert_eq!(draw(&curves, 374.0, 320.0).0, Err(ChartError::NothingToDraw), "{curves:?}");
        let _ = (describe_bore(&curves), bore_table(&curves, 9));
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
        let (frame, svg) = draw(&odd, 374.0, 320.0);
        assert!(frame.is_ok(), "{bad}: {frame:?}");
        assert!(!svg.contains("NaN") && !svg.contains("inf"), "{bad}");
        let text = describe_bore(&odd);
        assert!(!text.contains("NaN") && !text.contains("inf"), "{text}");
    }
    for (width, height) in [(0.0, 0.0), (120.0, 320.0), (374.0, 100.0), (f64::NAN, 320.0)] {
        assert_eq!(draw(&curves(), width, height).0, Err(ChartError::TooSmall), "{width} x {height}");
    }
}
