//! What *Share* answers.

use leptos::prelude::*;

use crate::browser::select_all;
use crate::live::{follow, live, on};
use crate::share::{Shared, link_now};
use crate::state::page;

/// Says that the link was copied, or holds it ready to be copied by hand.
#[component]
pub fn SharePanel(shared: RwSignal<Shared>) -> impl IntoView {
    let page = page();
    let field = NodeRef::<leptos::html::Input>::new();
    follow(move || {
        if shared.get() == Shared::ByHand
            && let Some(field) = field.get()
        {
            field.set_value(&link_now(page));
            select_all(&field);
        }
    });
    let words = move || match shared.get() {
        Shared::Not => "",
        Shared::Copied => "The link to this design is copied. Paste it where you want it.",
        Shared::ByHand => "The browser did not let the page copy. Copy the link here:",
    };
    let silent = move || shared.get() == Shared::Not;
    view! {
        <div class="notice" class:empty=live(silent) role="status" data-test="shared">
            <p>{live(words)}</p>
            <input
                node_ref=field class="link-field" type="text" readonly aria-label="Link to this design"
                hidden=live(move || shared.get() != Shared::ByHand)
            />
            <button type="button" hidden=live(silent) on:click=on(move |_| shared.set(Shared::Not))>"Close"</button>
        </div>
    }
}
