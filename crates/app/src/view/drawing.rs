//! Shapes of a drawing as SVG text. Their classes get their colours from the page's stylesheet.
//!
//! They are set as text and not as elements of the framework: the browser parses fifty shapes faster than they can
//! be compared one by one with those of the frame before, and the shapes hold no words but our own.

use std::fmt::Write as _;

use holdwater_pictures::drawing::Shape;

/// The shapes from back to front.
#[must_use]
pub fn markup<'a>(shapes: impl IntoIterator<Item = &'a Shape>) -> String {
    let mut out = String::new();
    for shape in shapes {
        // A String takes every write.
        let _ = write_shape(&mut out, shape);
        // A text read aloud must not run into the next one.
        out.push(' ');
    }
    out
}

fn write_shape(out: &mut String, shape: &Shape) -> std::fmt::Result {
    match shape {
        Shape::Path { d, class } => write!(out, "<path class=\"{class}\" d=\"{d}\"/>"),
        Shape::Line { x1, y1, x2, y2, class } => {
            write!(out, "<line class=\"{class}\" x1=\"{x1:.2}\" y1=\"{y1:.2}\" x2=\"{x2:.2}\" y2=\"{y2:.2}\"/>")
        }
        Shape::Rect { area, class } => write!(
            out,
            "<rect class=\"{class}\" x=\"{:.2}\" y=\"{:.2}\" width=\"{:.2}\" height=\"{:.2}\"/>",
            area.x, area.y, area.width, area.height
        ),
        Shape::Circle { cx, cy, r, class } => {
            write!(out, "<circle class=\"{class}\" cx=\"{cx:.2}\" cy=\"{cy:.2}\" r=\"{r:.2}\"/>")
        }
        Shape::Text { x, y, anchor, class, text } => {
            let (anchor, text) = (anchor.name(), escaped(text));
            write!(out, "<text class=\"{class}\" x=\"{x:.2}\" y=\"{y:.2}\" text-anchor=\"{anchor}\">{text}</text>")
        }
    }
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;")
}
