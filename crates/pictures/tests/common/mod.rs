//! What the tests of all drawings ask of their shapes.

// Each test uses its part of it.
#![allow(dead_code)]

use holdwater_pictures::chart::place::text_width;
use holdwater_pictures::drawing::{Anchor, Area, Shape};

/// Points a shape touches; texts by their estimated ends.
pub fn points(shape: &Shape) -> Vec<(f64, f64)> {
    match shape {
        Shape::Path { d, .. } => d
            .split(['M', 'L', 'Z'])
            .filter(|pair| !pair.is_empty())
            .map(|pair| {
                let mut numbers = pair.split(' ').map(|text| text.parse().unwrap_or(f64::NAN));
                (numbers.next().unwrap_or(f64::NAN), numbers.next().unwrap_or(f64::NAN))
            })
            .collect(),
        Shape::Line { x1, y1, x2, y2, .. } => vec![(*x1, *y1), (*x2, *y2)],
        Shape::Rect { area, .. } => vec![(area.x, area.y), (area.x + area.width, area.y + area.height)],
        Shape::Circle { cx, cy, r, .. } => vec![(cx - r, cy - r), (cx + r, cy + r)],
        Shape::Text { x, y, anchor, class, text } => {
            let width = text_width(text, if class.contains("part") { 14.0 } else { 12.0 });
            let left = match anchor {
                Anchor::Start => *x,
                Anchor::Middle => x - 0.5 * width,
                Anchor::End => x - width,
            };
            vec![(left, y - 9.0), (left + width, y + 3.0)]
        }
    }
}

/// Every point is a number and lies in the picture.
pub fn assert_inside(shapes: &[Shape], view: Area, what: &str) {
    assert!(!shapes.is_empty(), "{what}: nothing drawn");
    for shape in shapes {
        for (x, y) in points(shape) {
            let inside = x >= view.x - 0.02
                && y >= view.y - 0.02
                && x <= view.x + view.width + 0.02
                && y <= view.y + view.height + 0.02;
            assert!(inside, "{what}: ({x}, {y}) outside {view:?}: {shape:?}");
            if let Shape::Rect { area, .. } = shape {
                assert!(area.width >= 0.0 && area.height >= 0.0, "{what}: {shape:?}");
            }
        }
    }
}

/// No text lies over another.
pub fn assert_apart(shapes: &[Shape], what: &str) {
    let texts: Vec<&Shape> = shapes.iter().filter(|shape| matches!(shape, Shape::Text { .. })).collect();
    let boxes: Vec<[(f64, f64); 2]> = texts.iter().filter_map(|text| points(text).try_into().ok()).collect();
    for (index, a) in boxes.iter().enumerate() {
        for (other, b) in boxes.iter().enumerate().skip(index + 1) {
            let apart = a[1].0 <= b[0].0 || b[1].0 <= a[0].0 || a[1].1 <= b[0].1 || b[1].1 <= a[0].1;
            assert!(apart, "{what}: {:?} over {:?}", texts[index], texts[other]);
        }
    }
}

/// Numbers of every path of an SVG text, in pairs.
pub fn path_points(svg: &str) -> Vec<(f64, f64)> {
    let paths = svg.split(" d=\"").skip(1).filter_map(|rest| rest.split('"').next());
    let pairs = paths.flat_map(|d| d.split(['M', 'L', 'Z'])).filter(|pair| !pair.is_empty());
    pairs
        .map(|pair| {
            let mut numbers = pair.split(' ').map(|text| text.parse().unwrap_or(f64::NAN));
            (numbers.next().unwrap_or(f64::NAN), numbers.next().unwrap_or(f64::NAN))
        })
        .collect()
}

/// A text of a chart: its words and the box it lies in, CSS px.
pub type Words = (String, [f64; 4]);

/// The texts of a chart.
pub fn words(svg: &str) -> Vec<Words> {
    let attribute = |head: &str, name: &str| {
        let rest = head.split(&format!(" {name}=\"")).nth(1).unwrap_or_default();
        rest.split('"').next().unwrap_or_default().to_owned()
    };
    let number = |head: &str, name: &str| attribute(head, name).parse::<f64>().unwrap_or(f64::NAN);
    svg.split("<text")
        .skip(1)
        .filter_map(|rest| rest.split_once('>'))
        .map(|(head, rest)| {
            let text = rest.split('<').next().unwrap_or_default().to_owned();
            let size = number(head, "font-size");
            let (x, y, width) = (number(head, "x"), number(head, "y"), text_width(&text, size));
            let left = match attribute(head, "text-anchor").as_str() {
                "middle" => x - 0.5 * width,
                "end" => x - width,
                _ => x,
            };
            (text, [left, y - 0.8 * size, left + width, y + 0.1 * size])
        })
        .collect()
}

/// No text of a chart lies over another or outside the picture.
pub fn assert_legible(svg: &str, width: f64, height: f64, what: &str) {
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
