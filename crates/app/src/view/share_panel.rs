//! What *Share* answers.

use leptos::prelude::*;
use web_sys::HtmlInputElement;

use crate::browser::{NextFrame, select_all};
use crate::dom::{El, block, button, follow, html};
use crate::share::{Shared, link_now};
use crate::state::page;

/// Says that the link was copied, or holds it ready to be copied by hand.
pub fn share_panel(shared: RwSignal<Shared>) -> El {
    let page = page();
    let field = html("input")
        .attrs(&[("class", "link-field"), ("type", "text"), ("readonly", ""), ("aria-label", "Link to this design")])
        .hidden_when(move || shared.get() != Shared::ByHand);
    if let Some(field) = field.get::<HtmlInputElement>() {
        // In the next frame, when it is no longer hidden.
        let offer = NextFrame::new(move || {
            field.set_value(&link_now(page));
            select_all(&field);
        });
        follow(move || {
            if shared.get() == Shared::ByHand {
                offer.ask();
            }
        });
    }
    let words = move || match shared.get() {
        Shared::Not => "",
        Shared::Copied => "The link to this design is copied. Paste it where you want it.",
        Shared::ByHand => "The browser did not let the page copy. Copy the link here:",
    };
    let silent = move || shared.get() == Shared::Not;
    block("div", "notice")
        .attrs(&[("role", "status"), ("data-test", "shared")])
        .class_when("empty", silent)
        .child(html("p").text_live(move || words().to_owned()))
        .child(field)
        .child(button("Close", move || shared.set(Shared::Not)).hidden_when(silent))
}
