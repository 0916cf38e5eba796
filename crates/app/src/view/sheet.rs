//! The inputs of the part that was tapped.

use holdwater_design::{Input, Part};
use leptos::prelude::*;

use super::field::Field;
use crate::browser::{is_wide, scroll_to, scrolled};
use crate::state::{Page, page};

/// A sheet from the bottom on a phone, a column at the left on a laptop.
#[component]
pub fn Sheet() -> impl IntoView {
    let page = page();
    let heading = NodeRef::<leptos::html::H2>::new();
    Effect::new(move || {
        if page.open_part.get().is_some()
            && let Some(heading) = heading.get()
        {
            let _ = heading.focus();
        }
    });
    keep_scroll_place(page);
    let fields = move |part: Part| Input::of_part(part).map(|input| view! { <Field input/> }).collect_view();
    let by_key = move |event: web_sys::KeyboardEvent| {
        if event.key() == "Escape" {
            page.close_part();
        }
    };
    move || {
        page.open_part.get().map(|part| {
            view! {
                <section class="sheet" aria-labelledby="sheet-title" data-test="sheet" on:keydown=by_key>
                    <div class="sheet-head">
                        <h2 id="sheet-title" tabindex="-1" node_ref=heading>{part.title()}</h2>
                        <button type="button" data-test="sheet-close" on:click=move |_| page.close_part()>"Close"</button>
                    </div>
                    <div class="sheet-fields">{fields(part)}</div>
                </section>
            }
            .into_any()
        })
    }
}

/// While a sheet is open on a phone, the answer leaves the flow of the page to stay in view, and the page below it
/// moves up. Whoever closes the sheet wants to be back at the part that was tapped.
fn keep_scroll_place(page: &'static Page) {
    let is_open = Memo::new(move |_| page.open_part.get().is_some());
    Effect::new(move |place: Option<f64>| match (is_open.get(), place) {
        (true, _) => scrolled(),
        (false, Some(place)) if !is_wide() => {
            scroll_to(place);
            place
        }
        (false, place) => place.unwrap_or(0.0),
    });
}
