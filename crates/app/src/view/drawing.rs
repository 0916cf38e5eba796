//! Shapes of a drawing as SVG. Their classes get their colours from the page's stylesheet.

use holdwater_pictures::drawing::Shape;
use leptos::prelude::*;

/// One shape.
#[must_use]
pub fn shape_view(shape: Shape) -> AnyView {
    match shape {
        Shape::Path { d, class } => view! { <path class=class d=d/> }.into_any(),
        Shape::Line { x1, y1, x2, y2, class } => {
            view! { <line class=class x1=px(x1) y1=px(y1) x2=px(x2) y2=px(y2)/> }.into_any()
        }
        Shape::Rect { area, class } => {
            view! { <rect class=class x=px(area.x) y=px(area.y) width=px(area.width) height=px(area.height)/> }.into_any()
        }
        Shape::Circle { cx, cy, r, class } => view! { <circle class=class cx=px(cx) cy=px(cy) r=px(r)/> }.into_any(),
        Shape::Text { x, y, anchor, class, text } => {
            view! { <text class=class x=px(x) y=px(y) text-anchor=anchor.name()>{text}</text> }.into_any()
        }
    }
}

/// Shapes from back to front.
#[must_use]
pub fn shape_views(shapes: Vec<Shape>) -> Vec<AnyView> {
    shapes.into_iter().map(shape_view).collect()
}

/// A coordinate as text; a hundredth of a pixel is not seen.
fn px(value: f64) -> String {
    format!("{value:.2}")
}
