//! The inputs of the part that was tapped.

use std::cell::Cell;

use holdwater_design::{Input, Part};

use super::field::field;
use crate::browser::{NextFrame, focus_on, is_wide, scroll_to};
use crate::dom::{El, block, button, follow, html, key_of};
use crate::state::{Page, page};

/// A sheet from the bottom on a phone, a column at the left on a laptop.
pub fn sheet() -> El {
    let page = page();
    // In the next frame, when the sheet stands on the page.
    let to_heading = NextFrame::new(|| focus_on("#sheet-title"));
    keep_scroll_place(page);
    block("div", "sheet-place").content(move || {
        let Some(opened) = page.open_part.get() else { return Vec::new() };
        to_heading.ask();
        vec![sheet_of(page, opened)]
    })
}

fn sheet_of(page: &'static Page, part: Part) -> El {
    let head = block("div", "sheet-head")
        .child(html("h2").attrs(&[("id", "sheet-title"), ("tabindex", "-1")]).text(part.title()))
        .child(button("Close", move || page.close_part()).attr("data-test", "sheet-close"));
    block("section", "sheet")
        .attrs(&[("aria-labelledby", "sheet-title"), ("data-test", "sheet")])
        .on("keydown", move |event| {
            if key_of(&event) == "Escape" {
                page.close_part();
            }
        })
        .child(head)
        .child(block("div", "sheet-fields").children(Input::of_part(part).map(field)))
}

/// While a sheet is open on a phone, the answer leaves the flow of the page to stay in view, and the page
/// below it moves up. Whoever closes the sheet wants to be back at the part that was tapped.
fn keep_scroll_place(page: &'static Page) {
    let was_open = Cell::new(false);
    // In the next frame, when the answer has its place in the page again.
    let back = NextFrame::new(move || scroll_to(page.scroll_place.get_value()));
    follow(move || {
        let is_open = page.open_part.get().is_some();
        if was_open.replace(is_open) && !is_open && !is_wide() {
            back.ask();
        }
    });
}
