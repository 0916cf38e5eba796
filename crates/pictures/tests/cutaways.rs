//! Cut-aways of everything the inputs allow: every coordinate is a number and lies in the picture.

mod common;

use common::{assert_inside, points};
use holdwater_answers::curves::WaterPicture;
use holdwater_design::measure::System::{Metric, Us};
use holdwater_pictures::drawing::{Shape, cutaway, stylesheet, to_svg};
use holdwater_pictures::theme::Theme;

fn picture() -> WaterPicture {
    WaterPicture {
        length_m: 0.329,
        bore_m: 0.088,
        nozzle_m: 0.009,
        standing_m: 0.082,
        finger_m: 0.05,
        lifted_m3: 1.2e-4,
        lifted_height_m: 0.2,
        at_nose: false,
        covered: true,
        ..WaterPicture::default()
    }
}

#[test]
fn every_cutaway_stays_in_its_picture() {
    let mut drawn = 0;
    for bore_m in [0.015, 0.088, 0.5] {
        for volume_m3 in [1e-4, 2e-3, 0.2] {
            let length_m = volume_m3 / (0.25 * std::f64::consts::PI * bore_m * bore_m);
            for nozzle_m in [0.002, 0.009, 0.12] {
                for (standing, finger, lifted) in
                    [(0.0, 0.0, 0.0), (0.25, 0.2, 0.1), (0.9, 0.9, 0.8), (1.0, 0.0, 0.001)]
                {
                    for (at_nose, covered) in [(false, true), (true, false), (false, false)] {
                        for fitted in [false, true] {
                            let picture = WaterPicture {
                                length_m,
                                bore_m,
                                nozzle_m,
                                standing_m: standing * length_m,
                                finger_m: finger * length_m,
                                lifted_m3: lifted * volume_m3,
                                lifted_height_m: 0.97 * length_m,
                                at_nose,
                                covered,
                                tube_m: fitted.then_some((3.0, 0.12)),
                                restrictor_m: fitted.then_some((5.0, 0.5, 2000)),
                                ..WaterPicture::default()
                            };
                            for (width, height) in [(100.0, 240.0), (260.0, 380.0), (0.0, 0.0), (900.0, 100.0)] {
                                let drawing = cutaway(&picture, width, height, Metric);
                                assert_inside(
                                    &drawing.shapes,
                                    drawing.view_box,
                                    &format!("{picture:?} {width} {height}"),
                                );
                                drawn += 1;
                            }
                        }
                    }
                }
            }
        }
    }
    assert_eq!(drawn, 3 * 3 * 3 * 4 * 3 * 2 * 4);
}

#[test]
fn numbers_that_are_none_still_make_a_drawing() {
    for bad in [f64::NAN, f64::INFINITY, -1.0, 0.0] {
        let picture = WaterPicture {
            length_m: bad,
            bore_m: bad,
            nozzle_m: bad,
            standing_m: bad,
            finger_m: bad,
            lifted_m3: bad,
            lifted_height_m: bad,
            at_nose: false,
            covered: true,
            tube_m: Some((bad, bad)),
            restrictor_m: Some((bad, bad, 0)),
            gas_at_nozzle_m3: bad,
            leaked_m3: bad,
        };
        let drawing = cutaway(&picture, bad, bad, Metric);
        assert_inside(&drawing.shapes, drawing.view_box, &format!("{bad}"));
        assert!(!drawing.description.contains("NaN") && !drawing.description.contains("inf"));
    }
}

/// The vessel's wall tells the scale: its length over its width must be the real one.
#[test]
fn the_cutaway_is_true_to_scale() {
    let picture = picture();
    for (width, height) in [(100.0, 240.0), (260.0, 380.0), (600.0, 200.0)] {
        let drawing = cutaway(&picture, width, height, Metric);
        let outline = drawing
            .shapes
            .iter()
            .find(|shape| matches!(shape, Shape::Path { class: "outline", .. }))
            .map(points)
            .unwrap_or_default();
        let span = |values: Vec<f64>| {
            values.iter().copied().fold(f64::MIN, f64::max) - values.iter().copied().fold(f64::MAX, f64::min)
        };
        let wide = span(outline.iter().map(|point| point.0).collect());
        let tall = span(outline.iter().map(|point| point.1).collect());
        let expected = (0.329 + 0.14 * 0.088) / 0.088;
        assert!((tall / wide / expected - 1.0).abs() < 2e-3, "{tall} x {wide}");
    }
}

#[test]
fn drops_hold_the_lifted_water() {
    for lifted_m3 in [2e-6, 5e-5, 1.2e-4, 3e-4] {
        let picture = WaterPicture { lifted_m3, ..picture() };
        let drawing = cutaway(&picture, 260.0, 380.0, Metric);
        let outline_width = drawing
            .shapes
            .iter()
            .find(|shape| matches!(shape, Shape::Path { class: "outline", .. }))
            .map(points)
            .unwrap_or_default()
            .iter()
            .fold((f64::MAX, f64::MIN), |(low, high), point| (low.min(point.0), high.max(point.0)));
        let scale = (outline_width.1 - outline_width.0) / picture.bore_m;
        let area: f64 = drawing
            .shapes
            .iter()
            .map(|shape| match shape {
                Shape::Circle { r, class: "lifted", .. } => std::f64::consts::PI * r * r,
                _ => 0.0,
            })
            .sum();
        let bore_area = 0.25 * std::f64::consts::PI * picture.bore_m * picture.bore_m;
        let expected = lifted_m3 / bore_area * picture.bore_m * scale * scale;
        assert!((area / expected - 1.0).abs() < 0.01, "{lifted_m3}: {area} for {expected}");
    }
}

fn held() -> WaterPicture {
    WaterPicture {
        restrictor_m: Some((0.082, 0.02, 1)),
        finger_m: 0.0,
        lifted_m3: 0.0,
        gas_at_nozzle_m3: 1e-4,
        leaked_m3: 8e-5,
        ..picture()
    }
}

/// Lowest and highest place of the shapes of a class, px from the top.
fn span(shapes: &[Shape], wanted: &str) -> (f64, f64) {
    let of_class = |shape: &&Shape| match shape {
        Shape::Path { class, .. } | Shape::Rect { class, .. } | Shape::Circle { class, .. } => *class == wanted,
        _ => false,
    };
    let places = shapes.iter().filter(of_class).flat_map(points).map(|point| point.1);
    places.fold((f64::MAX, f64::MIN), |(low, high), y| (low.min(y), high.max(y)))
}

#[test]
fn held_water_hangs_from_the_plate_with_gas_below_and_leaked_drops_above() {
    let drawing = cutaway(&held(), 260.0, 380.0, Metric);
    let (water, plate, drops) =
        (span(&drawing.shapes, "water"), span(&drawing.shapes, "plate"), span(&drawing.shapes, "lifted"));
    let (top, foot) = span(&drawing.shapes, "outline");
    let scale = (foot - top) / (0.329 + 0.14 * 0.088);
    assert!((water.0 - 0.5 * (plate.0 + plate.1)).abs() < 0.1, "{water:?} under {plate:?}");
    let gas = 1e-4 / (0.25 * std::f64::consts::PI * 0.088 * 0.088);
    assert!(((foot - 0.14 * 0.088 * scale - water.1) / scale - gas).abs() < 1e-3, "{water:?}");
    assert!(drops.1 <= plate.0 + 1.1, "{drops:?} over {plate:?}");
    let said = &drawing.description;
    assert!(said.contains("hang from the restrictor") && said.contains("0.080 L has leaked"), "{said}");
    assert!(said.ends_with("mm of gas at the nozzle."), "{said}");
}

#[test]
fn water_in_the_gap_below_a_plate_does_not_pass_it() {
    let gap = WaterPicture { restrictor_m: Some((0.13, 0.02, 1)), lifted_height_m: 0.3, ..picture() };
    for at_nose in [false, true] {
        let drawing = cutaway(&WaterPicture { at_nose, ..gap }, 260.0, 380.0, Metric);
        let (plate, lifted) = (span(&drawing.shapes, "plate"), span(&drawing.shapes, "lifted"));
        assert!(lifted.0 >= plate.0, "{lifted:?} through {plate:?}");
    }
}

#[test]
fn every_held_water_stays_in_its_picture() {
    for height in [0.0, 0.02, 0.082, 0.2, 0.329, 9.0] {
        for (standing_m, finger_m) in [(0.0, 0.0), (0.082, 0.0), (0.082, 0.05), (0.082, 0.082), (0.329, 0.3)] {
            for volume in [0.0, 1e-6, 2e-4, 1.0, f64::NAN, f64::INFINITY] {
                for (at_nose, covered) in [(false, true), (true, true), (false, false), (true, false)] {
                    let picture = WaterPicture {
                        restrictor_m: Some((height, 0.006, 19)),
                        standing_m,
                        finger_m,
                        at_nose,
                        covered,
                        gas_at_nozzle_m3: volume,
                        leaked_m3: volume,
                        ..picture()
                    };
                    for (width, tall) in [(100.0, 240.0), (260.0, 380.0), (0.0, 0.0)] {
                        let drawing = cutaway(&picture, width, tall, Metric);
                        assert_inside(&drawing.shapes, drawing.view_box, &format!("{picture:?} {width} {tall}"));
                    }
                }
            }
        }
    }
}

#[test]
fn words_say_whether_the_nozzle_is_covered() {
    let word = |covered| {
        let drawing = cutaway(&WaterPicture { covered, ..picture() }, 100.0, 240.0, Metric);
        let found = drawing.shapes.iter().any(|shape| matches!(shape, Shape::Text { text, .. } if text == "uncovered"));
        (found, drawing.description.ends_with("the nozzle is uncovered."))
    };
    assert_eq!(word(true), (false, false));
    assert_eq!(word(false), (true, true));
}

#[test]
fn an_export_has_its_own_colours_and_no_inline_style() {
    let drawing = cutaway(&picture(), 260.0, 380.0, Metric);
    let svg = to_svg(&drawing.shapes, drawing.view_box, &stylesheet(&Theme::day()), &drawing.description);
    assert!(svg.contains(&Theme::day().water.css()) && !svg.contains("style=\"") && !svg.contains("NaN"));
}

/// 25.4 mm to the inch and 29.5735 mL to the fluid ounce: 329 mm are 12.95 in, 0.12 L are 4.06 fl oz.
#[test]
fn closed_form_dimensions_in_inches() {
    for (width, height) in [(100.0, 240.0), (260.0, 380.0)] {
        let drawing = cutaway(&picture(), width, height, Us);
        assert_inside(&drawing.shapes, drawing.view_box, &format!("{width}"));
        let texts: Vec<&str> = drawing
            .shapes
            .iter()
            .filter_map(|shape| if let Shape::Text { text, .. } = shape { Some(&text[..]) } else { None })
            .collect();
        let wanted = if width < 170.0 {
            ["12.95\u{2009}in", "3.23", "1.97", "sizes, in"]
        } else {
            ["length 12.95\u{2009}in", "standing 3.23\u{2009}in", "finger 1.97\u{2009}in", "covered"]
        };
        for word in wanted {
            assert!(texts.contains(&word), "{word}: {texts:?}");
        }
        let said = &drawing.description;
        for words in ["12.95 in long and 3.46 in across", "stands 3.23 in high", "4.06 fl oz has climbed to 7.87 in"] {
            assert!(said.contains(words), "{words}: {said}");
        }
    }
}
