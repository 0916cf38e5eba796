//! The strip on top: the name, sharing, and the rest.

use holdwater_design::design::NAME_LIMIT;
use leptos::prelude::*;

use super::more::More;
use super::share_panel::SharePanel;
use crate::live::{live, on};
use crate::share::{Shared, copy_link};
use crate::state::{Change, page};

/// Name (tap to rename), *Share* and *More*.
#[component]
pub fn Top() -> impl IntoView {
    let page = page();
    let shared = RwSignal::new(Shared::Not);
    let more = RwSignal::new(false);
    view! {
        <header class="top">
            <h1 class="spoken">"Holdwater"</h1>
            <input
                class="name" type="text" data-test="name" maxlength=NAME_LIMIT.to_string()
                aria-label="Name of the design" placeholder="Name this design"
                autocomplete="off" spellcheck="false" enterkeyhint="done"
                prop:value=live(move || page.name.get())
                on:input=on(move |event| page.apply(Change::Name(event_target_value(&event))))
            />
            <button type="button" data-test="share" on:click=on(move |_| copy_link(page, shared))>
                "Share"
            </button>
            <button
                type="button" data-test="more" aria-controls="more"
                aria-expanded=live(move || more.get().to_string())
                on:click=on(move |_| more.update(|open| *open = !*open))
            >
                "More"
            </button>
        </header>
        <SharePanel shared/>
        <More open=more/>
    }
}
