//! Pictures and curves as files.

use std::rc::Rc;

use crate::dom::{El, block, button};
use crate::files::{save_canvas, save_file};

/// Buttons that save a chart as a picture, and its curves as a table.
pub fn save_chart(
    name: &'static str,
    canvas: &'static str,
    svg: impl Fn() -> Option<String> + 'static,
    csv: impl Fn() -> String + 'static,
) -> El {
    let picture = button("Save as PNG", move || save_canvas(&format!("holdwater-{name}.png"), canvas));
    let table = button("Save as CSV", move || save_file(&format!("holdwater-{name}.csv"), "text/csv", &csv()));
    block("div", "pick saving")
        .child(save_drawing(name, "Save as SVG", Rc::new(svg)))
        .child(picture)
        .child(table.attr("data-test", &format!("csv-{name}")))
}

/// A button that saves a drawing as a file that stands by itself.
pub fn save_drawing(name: &'static str, word: &str, svg: Rc<dyn Fn() -> Option<String>>) -> El {
    button(word, move || {
        if let Some(svg) = svg() {
            save_file(&format!("holdwater-{name}.svg"), "image/svg+xml", &svg);
        }
    })
    .attr("data-test", &format!("svg-{name}"))
}
