//! What *Share* answers.

use leptos::prelude::*;

use crate::browser::select_all;
use crate::share::{Shared, link_now};
use crate::state::page;

/// Says that the link was copied, or holds it ready to be copied by hand.
#[component]
pub fn SharePanel(shared: RwSignal<Shared>) -> impl IntoView {
    let page = page();
    let field = NodeRef::<leptos::html::Input>::new();
    Effect::new(move || {
        if let Some(field) = field.get() {
            select_all(&field);
        }
    });
    let by_hand = move || view! { <input node_ref=field class="link-field" type="text" readonly aria-label="Link to this design" prop:value=link_now(page)/> };
    let words = move || match shared.get() {
        Shared::Not => "",
        Shared::Copied => "The link to this design is copied. Paste it where you want it.",
        Shared::ByHand => "The browser did not let the page copy. Copy the link here:",
    };
    view! {
        <div class="notice" role="status" class:empty=move || shared.get() == Shared::Not data-test="shared">
            <p>{words}</p>
            {move || (shared.get() == Shared::ByHand).then(by_hand)}
            {move || (shared.get() != Shared::Not).then(|| view! { <button type="button" on:click=move |_| shared.set(Shared::Not)>"Close"</button> })}
        </div>
    }
}
