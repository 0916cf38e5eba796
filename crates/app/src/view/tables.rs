//! Charts as tables.

use crate::dom::{El, block, html};
use crate::react::RwSignal;

/// Rows of four written numbers.
pub type NumberRows = Vec<[String; 4]>;

type Heads = Box<dyn Fn() -> Vec<String>>;

/// A table behind a tap. Its rows are made only while it is open: few open it, and the delay moves often.
pub fn number_table(
    title: &'static str,
    heads: impl Fn() -> [String; 4] + 'static,
    rows: impl Fn() -> NumberRows + 'static,
) -> El {
    let heads = move || heads().to_vec();
    boxed_number_table(title, Box::new(heads), Box::new(rows))
}

fn boxed_number_table(title: &str, heads: Heads, rows: Box<dyn Fn() -> NumberRows>) -> El {
    let open = RwSignal::new(false);
    let row = |cells: [String; 4]| html("tr").children(cells.iter().map(|cell| html("td").text(cell)));
    let body = move || if open.get() { rows().into_iter().map(row).collect() } else { Vec::new() };
    block("details", "as-table")
        .on("toggle", move |_| open.update(|open| *open = !*open))
        .child(html("summary").text(title))
        .child(boxed_live_table(title, "", heads, html("tbody").content(body)))
}

/// A table in a box of its own that scrolls sideways where the page is too narrow.
pub fn boxed_table(title: &str, class: &str, heads: &[&str], body: El) -> El {
    let heads: Vec<String> = heads.iter().map(|head| (*head).to_owned()).collect();
    live_table(title, class, move || heads.clone(), body)
}

/// The same with heads that follow, such as those that name units.
pub fn live_table(title: &str, class: &str, heads: impl Fn() -> Vec<String> + 'static, body: El) -> El {
    boxed_live_table(title, class, Box::new(heads), body)
}

fn boxed_live_table(title: &str, class: &str, heads: Heads, body: El) -> El {
    let cell = |head: &String| html("th").attr("scope", "col").text(head);
    let head = html("tr").content(move || heads().iter().map(cell).collect());
    block("div", "table-box")
        .attrs(&[("tabindex", "0"), ("role", "region"), ("aria-label", title)])
        .child(block("table", class).child(html("thead").child(head)).child(body))
}
