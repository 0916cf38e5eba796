//! The shapes drawings are made of, and their text form.

use core::fmt::Write as _;

/// Which end of a text lies on its point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// The text begins there.
    Start,
    /// The text is centred there.
    Middle,
    /// The text ends there.
    End,
}

impl Anchor {
    /// The value of SVG's `text-anchor`.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Start => "start",
            Self::Middle => "middle",
            Self::End => "end",
        }
    }
}

/// An upright rectangle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Area {
    /// Left edge.
    pub x: f64,
    /// Top edge.
    pub y: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

impl Area {
    /// As SVG writes a view box.
    #[must_use]
    pub fn view_box(&self) -> String {
        format!("{} {} {} {}", short(self.x), short(self.y), short(self.width), short(self.height))
    }
}

/// One SVG element. Colours and widths come from the class, so that themes need no new drawing.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A path.
    Path {
        /// Path data: absolute `M`, `L` and `Z` only.
        d: String,
        /// Class names.
        class: &'static str,
    },
    /// A straight line.
    Line {
        /// Start.
        x1: f64,
        /// Start.
        y1: f64,
        /// End.
        x2: f64,
        /// End.
        y2: f64,
        /// Class names.
        class: &'static str,
    },
    /// A rectangle.
    Rect {
        /// Where it lies.
        area: Area,
        /// Class names.
        class: &'static str,
    },
    /// A circle.
    Circle {
        /// Centre.
        cx: f64,
        /// Centre.
        cy: f64,
        /// Radius.
        r: f64,
        /// Class names.
        class: &'static str,
    },
    /// A text on its baseline.
    Text {
        /// Where it is anchored.
        x: f64,
        /// Baseline.
        y: f64,
        /// Which end lies at `x`.
        anchor: Anchor,
        /// Class names.
        class: &'static str,
        /// The words.
        text: String,
    },
}

impl Shape {
    /// A straight line.
    #[must_use]
    pub fn line(from: (f64, f64), to: (f64, f64), class: &'static str) -> Self {
        Self::Line { x1: from.0, y1: from.1, x2: to.0, y2: to.1, class }
    }

    /// A path through the points, closed or open; `None` without points.
    #[must_use]
    pub fn through(points: &[(f64, f64)], closed: bool, class: &'static str) -> Option<Self> {
        let (first, rest) = points.split_first()?;
        let mut d = format!("M{} {}", short(first.0), short(first.1));
        for point in rest {
            // A String takes every write.
            let _ = write!(d, "L{} {}", short(point.0), short(point.1));
        }
        if closed {
            d.push('Z');
        }
        Some(Self::Path { d, class })
    }

    /// A text.
    #[must_use]
    pub fn text(at: (f64, f64), anchor: Anchor, class: &'static str, text: impl Into<String>) -> Self {
        Self::Text { x: at.0, y: at.1, anchor, class, text: text.into() }
    }

    /// Writes the shape as an SVG element.
    fn write(&self, out: &mut String) {
        let _ = match self {
            Self::Path { d, class } => writeln!(out, "<path class=\"{class}\" d=\"{d}\"/>"),
            Self::Line { x1, y1, x2, y2, class } => writeln!(
                out,
                "<line class=\"{class}\" x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"/>",
                short(*x1),
                short(*y1),
                short(*x2),
                short(*y2)
            ),
            Self::Rect { area, class } => writeln!(
                out,
                "<rect class=\"{class}\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>",
                short(area.x),
                short(area.y),
                short(area.width),
                short(area.height)
            ),
            Self::Circle { cx, cy, r, class } => writeln!(
                out,
                "<circle class=\"{class}\" cx=\"{}\" cy=\"{}\" r=\"{}\"/>",
                short(*cx),
                short(*cy),
                short(*r)
            ),
            Self::Text { x, y, anchor, class, text } => writeln!(
                out,
                "<text class=\"{class}\" x=\"{}\" y=\"{}\" text-anchor=\"{}\">{}</text>",
                short(*x),
                short(*y),
                anchor.name(),
                escaped(text)
            ),
        };
    }
}

/// A whole SVG file of the shapes, with its own stylesheet and a title for readers.
#[must_use]
pub fn to_svg(shapes: &[Shape], view_box: Area, stylesheet: &str, title: &str) -> String {
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"{}\" width=\"{}\" height=\"{}\" role=\"img\">\n",
        view_box.view_box(),
        short(view_box.width),
        short(view_box.height)
    );
    let _ = writeln!(out, "<title>{}</title>", escaped(title));
    let _ = writeln!(out, "<style>{}</style>", escaped(stylesheet));
    for shape in shapes {
        shape.write(&mut out);
    }
    out.push_str("</svg>\n");
    out
}

/// A coordinate with two decimals at most: a hundredth of a pixel is not seen, and links to drawings stay short.
pub(crate) fn short(value: f64) -> String {
    if !value.is_finite() {
        return "0".to_owned();
    }
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// A text as SVG holds it; letters that no XML file may hold are left out.
pub(crate) fn escaped(text: &str) -> String {
    let clean: String = text.chars().filter(|c| !c.is_control() && !matches!(c, '\u{fffe}' | '\u{ffff}')).collect();
    clean.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn coordinates_are_short_and_always_numbers() {
        assert_eq!(short(12.5), "12.5");
        assert_eq!(short(-0.001), "0");
        assert_eq!(short(100.0), "100");
        assert_eq!(short(f64::NAN), "0");
    }

    #[test]
    fn text_is_escaped() {
        let area = Area { x: 0.0, y: 0.0, width: 10.0, height: 10.0 };
        let svg = to_svg(&[Shape::text((1.0, 2.0), Anchor::End, "label", "a < b & c")], area, "", "x");
        assert!(svg.contains("a &lt; b &amp; c") && svg.contains("text-anchor=\"end\""), "{svg}");
    }
}
