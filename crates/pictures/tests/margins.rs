//! Bars of stress against allowable.

mod common;

use common::{assert_apart, assert_inside};
use holdwater_pictures::drawing::{PartBar, Shape, Verdict, margins};

fn part(name: &str, share: f64, verdict: Verdict) -> PartBar {
    PartBar { name: name.to_owned(), share, verdict, stress: "hoop stress 41 of 79 MPa".to_owned() }
}

fn texts<'a>(shapes: &'a [Shape]) -> Vec<&'a str> {
    let text = |shape: &'a Shape| if let Shape::Text { text, .. } = shape { Some(&text[..]) } else { None };
    shapes.iter().filter_map(text).collect()
}

#[test]
fn the_weakest_part_is_first_and_named() {
    let parts =
        [part("shell", 0.5, Verdict::Holds), part("closure", 1.2, Verdict::Over), part("splice", 0.9, Verdict::Thin)];
    let drawing = margins(&parts, 374.0, 0.0);
    let found = texts(&drawing.shapes);
    let place = |word: &str| found.iter().position(|text| *text == word);
    assert!(place("closure") < place("splice") && place("splice") < place("shell"), "{found:?}");
    assert!(found.contains(&"120\u{2009}%, over") && found.contains(&"90\u{2009}%, thin margin"), "{found:?}");
    assert!(drawing.description.contains("weakest is closure: 120 %"), "{}", drawing.description);
    let bars: Vec<f64> = drawing
        .shapes
        .iter()
        .filter_map(|shape| match shape {
            Shape::Rect { area, class } if class.starts_with("bar") => Some(area.width),
            _ => None,
        })
        .collect();
    assert!((bars[0] / bars[2] - 1.2 / 0.5).abs() < 1e-9, "{bars:?}");
    // Thin and over have each a hatch of their own, what holds has none.
    let hatches = drawing.shapes.iter().filter(|shape| matches!(shape, Shape::Path { class: "hatch", .. })).count();
    assert_eq!(hatches, 2);
}

#[test]
fn any_parts_stay_in_the_picture() {
    let long = "sleeve over the middle splice of the booster, second winding ".repeat(4);
    let odd = [f64::NAN, f64::INFINITY, -1.0, 0.0, 1e-300, 1.0, 1e300];
    let verdicts = [Verdict::Holds, Verdict::Thin, Verdict::Over];
    let parts: Vec<PartBar> = odd
        .iter()
        .zip(verdicts.iter().cycle())
        .map(|(share, verdict)| PartBar { stress: long.clone(), ..part(&long, *share, *verdict) })
        .collect();
    for count in [0, 1, parts.len()] {
        for (width, height) in [(304.0, 100.0), (374.0, 0.0), (860.0, 900.0), (f64::NAN, f64::NAN), (-5.0, 1e300)] {
            let drawing = margins(&parts[..count], width, height);
            let what = format!("{count} parts in {width} x {height}");
            assert_inside(&drawing.shapes, drawing.view_box, &what);
            assert_apart(&drawing.shapes, &what);
            assert!(!drawing.description.contains("NaN") && !drawing.description.contains("inf"), "{what}");
        }
    }
    assert!(margins(&parts, 374.0, 0.0).view_box.height >= 44.0 * parts.len() as f64);
}
