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
