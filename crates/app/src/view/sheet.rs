//! The inputs of the part that was tapped.

use std::cell::Cell;

use holdwater_design::{Input, Part};
use leptos::prelude::*;

use super::field::Field;
use crate::browser::{NextFrame, is_wide, scroll_to};
use crate::live::{follow, on, part};
use crate::state::{Page, page};

/// A sheet from the bottom on a phone, a column at the left on a laptop.
#[component]
pub fn Sheet() -> impl IntoView {
    let page = page();
    let heading = NodeRef::<leptos::html::H2>::new();
    follow(move || {
        if page.open_part.get().is_some()
            && let Some(heading) = heading.get()
        {
            let _ = heading.focus();
        }
    });
    keep_scroll_place(page);
    part(move || page.open_part.get().map(|opened| sheet_of(opened, heading)))
}

fn sheet_of(part: Part, heading: NodeRef<leptos::html::H2>) -> AnyView {
    let page = page();
    let fields: Vec<AnyView> = Input::of_part(part).map(|input| view! { <Field input/> }.into_any()).collect();
    let by_key = move |event: web_sys::KeyboardEvent| {
        if event.key() == "Escape" {
            page.close_part();
        }
    };
    view! {
        <section class="sheet" aria-labelledby="sheet-title" data-test="sheet" on:keydown=on(by_key)>
            <div class="sheet-head">
                <h2 id="sheet-title" tabindex="-1" node_ref=heading>{part.title()}</h2>
                <button type="button" data-test="sheet-close" on:click=on(move |_| page.close_part())>
                    "Close"
                </button>
            </div>
            <div class="sheet-fields">{fields}</div>
        </section>
    }
    .into_any()
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
