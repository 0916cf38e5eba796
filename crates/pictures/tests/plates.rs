//! The restrictor's plate in plan, and its template at true size.

mod common;

use common::{assert_apart, assert_inside};
use holdwater_design::measure::System::{Metric, Us};
use holdwater_physics::restrictor::holes::centres;
use holdwater_pictures::drawing::{PlateDrawing, Shape, plate, template};

fn seven() -> PlateDrawing {
    let mut centres = vec![(0.0, 0.0)];
    for (x, y) in [(1.0, 0.0), (0.5, 0.866), (-0.5, 0.866), (-1.0, 0.0), (-0.5, -0.866), (0.5, -0.866)] {
        centres.push((0.024 * x, 0.024 * y));
    }
    PlateDrawing { bore_m: 0.088, hole_m: 0.012, centres }
}

#[test]
fn every_plate_stays_in_its_picture() {
    let plates = [
        seven(),
        PlateDrawing { centres: vec![(0.0, 0.0)], ..seven() },
        PlateDrawing { centres: Vec::new(), ..seven() },
        PlateDrawing { bore_m: 0.5, hole_m: 0.49, centres: vec![(0.0, 0.0)] },
        PlateDrawing { bore_m: 0.015, hole_m: 0.0003, ..seven() },
        PlateDrawing { bore_m: f64::NAN, hole_m: f64::INFINITY, centres: vec![(f64::NAN, 0.0), (0.0, 0.0)] },
        PlateDrawing { bore_m: -1.0, hole_m: -1.0, centres: vec![(0.0, 0.0), (0.0, 0.0), (1e300, -1e300)] },
        PlateDrawing { bore_m: 1e300, hole_m: 1e300, centres: vec![(0.0, 0.0)] },
    ];
    for what in &plates {
        for (width, height) in [(374.0, 340.0), (180.0, 180.0), (560.0, 300.0), (0.0, 0.0), (f64::NAN, 1e9)] {
            let drawing = plate(what, width, height, if width > 200.0 { Us } else { Metric });
            let named = format!("{what:?} {width} x {height}");
            assert_inside(&drawing.shapes, drawing.view_box, &named);
            assert_apart(&drawing.shapes, &named);
            assert!(!drawing.description.contains("NaN") && !drawing.description.contains("inf"), "{named}");
        }
    }
}

#[test]
fn holes_are_to_scale() {
    let drawing = plate(&seven(), 374.0, 340.0, Metric);
    let radius = |wanted: &str| {
        drawing.shapes.iter().find_map(|shape| match shape {
            Shape::Circle { r, class, .. } if *class == wanted => Some(*r),
            _ => None,
        })
    };
    let (Some(outer), Some(hole)) = (radius("outline"), radius("thin")) else { panic!("no circles") };
    assert!((hole / outer - 12.0 / 88.0).abs() < 1e-9, "{hole} in {outer}");
}

#[test]
fn the_web_is_the_narrowest_solid_piece() {
    let web = |what: &PlateDrawing| what.web().map(|web| web.width_m);
    assert!(web(&seven()).is_some_and(|web| (web - 0.012).abs() < 1e-5));
    // Moved outward the ring comes nearer to the edge than to itself.
    let mut wide = seven();
    wide.centres.iter_mut().for_each(|(x, y)| (*x, *y) = (1.5 * *x, 1.5 * *y));
    assert!(web(&wide).is_some_and(|web| (web - 0.002).abs() < 1e-5), "{:?}", wide.web());
    assert_eq!(web(&PlateDrawing::default()), None);
}

#[test]
fn patterns_of_holes_keep_the_web_they_were_asked_for() {
    for (holes, hole_m, web_m) in [(1, 0.02, 0.003), (7, 0.012, 0.004), (19, 0.006, 0.002), (37, 0.005, 0.002)] {
        let Some(centres) = centres(holes, hole_m, 0.088, web_m) else { panic!("{holes} holes do not fit") };
        let what = PlateDrawing { bore_m: 0.088, hole_m, centres };
        assert!(what.web().is_some_and(|web| web.width_m >= web_m - 1e-9), "{holes}: {:?}", what.web());
        assert_eq!(all(&template(&what, "x", Metric), "hole", "cx").len(), holes as usize);
    }
}

/// Values of an attribute in every element of a class.
fn all(svg: &str, class: &str, name: &str) -> Vec<f64> {
    svg.split('<')
        .filter(|element| element.contains(&format!("class=\"{class}\"")))
        .map(|element| {
            let rest = element.split(&format!(" {name}=\"")).nth(1).unwrap_or_default();
            rest.split('"').next().unwrap_or_default().parse().unwrap_or(f64::NAN)
        })
        .collect()
}

#[test]
fn the_template_is_true_to_size() {
    let svg = template(&seven(), "Curlew", Us);
    assert!(svg.contains("class=\"plate\"") && svg.contains(" r=\"44\""), "{svg}");
    let close = |found: &[f64], wanted: f64| found.iter().all(|value| (value - wanted).abs() < 1e-9);
    assert!(close(&all(&svg, "plate", "r"), 44.0));
    let holes = all(&svg, "hole", "r");
    assert!(holes.len() == 7 && close(&holes, 6.0), "{holes:?}");
    let bar = (all(&svg, "bar", "x1"), all(&svg, "bar", "x2"));
    assert!((bar.1[0] - bar.0[0] - 50.0).abs() < 1e-9, "{bar:?}");
    // One unit of the drawing is one millimetre of paper.
    let attribute = |name: &str| {
        svg.split(&format!(" {name}=\"")).nth(1).and_then(|rest| rest.split('"').next()).unwrap_or_default().to_owned()
    };
    let (width, height) = (attribute("width"), attribute("height"));
    let sizes = format!("0 0 {} {}", width.trim_end_matches("mm"), height.trim_end_matches("mm"));
    assert!(width.ends_with("mm") && height.ends_with("mm") && attribute("viewBox") == sizes, "{width} {height}");
    // The holes lie where the pattern says.
    let (x, y) = (all(&svg, "hole", "cx"), all(&svg, "hole", "cy"));
    assert!((x[1] - x[0] - 24.0).abs() < 0.011 && (y[0] - y[2] - 20.784).abs() < 0.011, "{x:?} {y:?}");
}

#[test]
fn the_template_fits_a4_up_to_180_mm_and_then_grows() {
    let size = |bore_m: f64| {
        let svg = template(&PlateDrawing { bore_m, hole_m: 0.01, centres: vec![(0.0, 0.0)] }, "x", Us);
        let mut sizes = svg.split("mm\"").filter_map(|part| part.rsplit('"').next()?.parse::<f64>().ok());
        (sizes.next().unwrap_or(f64::NAN), sizes.next().unwrap_or(f64::NAN), all(&svg, "plate", "r"))
    };
    for bore_mm in [15.0, 88.0, 180.0] {
        let (width, height, r) = size(1e-3 * bore_mm);
        assert!(width <= 210.0 && height <= 297.0, "{bore_mm}: {width} x {height}");
        assert!((r[0] - 0.5 * bore_mm).abs() < 1e-9);
    }
    let (width, height, r) = size(0.3);
    assert!(width >= 320.0 && height >= 320.0 && (r[0] - 150.0).abs() < 1e-9, "{width} x {height}");
}

#[test]
fn the_template_stands_alone_whatever_the_name() {
    let long = "a very long name ".repeat(40);
    for name in ["", "<script>alert(1)</script> & \"quotes\"", "two\nlines\u{0}\u{ffff}", &long] {
        for what in [seven(), PlateDrawing { bore_m: f64::NAN, ..seven() }, PlateDrawing::default()] {
            let svg = template(&what, name, Metric);
            assert!(!svg.contains("<script") && !svg.contains("style") && !svg.contains("NaN"), "{svg}");
            assert!(!svg.chars().any(|c| c.is_control() && c != '\n') && !svg.contains('\u{ffff}'));
            assert!(svg.starts_with("<svg xmlns=") && svg.ends_with("</svg>\n") && svg.contains("50\u{a0}mm</text>"));
        }
    }
}

/// 25.4 mm to the inch: 88 mm are 3.465 in, 12 mm 0.472 in, 50 mm 1.97 in.
#[test]
fn closed_form_plates_in_inches_and_templates_in_both() {
    let drawing = plate(&seven(), 374.0, 340.0, Us);
    let texts: Vec<&str> = drawing
        .shapes
        .iter()
        .filter_map(|shape| if let Shape::Text { text, .. } = shape { Some(&text[..]) } else { None })
        .collect();
    for word in ["\u{d8}\u{2009}3.465\u{2009}in", "7 \u{d7} \u{d8}\u{2009}0.472\u{2009}in", "web 0.472\u{2009}in"] {
        assert!(texts.contains(&word), "{word}: {texts:?}");
    }
    assert!(drawing.description.contains("a plate 3.465 in across with 7 holes of 0.472 in, 0.472 in of web at least"));
    let svg = template(&seven(), "Curlew", Us);
    for word in ["3.465\u{a0}in (88.0\u{a0}mm)", "0.472\u{a0}in (12.0\u{a0}mm)", "1.97\u{a0}in (50\u{a0}mm)</text>"] {
        assert!(svg.contains(word), "{word}: {svg}");
    }
    assert!(template(&seven(), "Curlew", Metric).contains("50\u{a0}mm</text>"));
}
