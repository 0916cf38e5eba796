//! The strip on top: the name, sharing, and the rest.

use holdwater_design::design::NAME_LIMIT;
use leptos::prelude::event_target_value;

use wasm_bindgen::JsCast;
use web_sys::KeyboardEvent;

use super::more::more;
use super::settings::step;
use super::share_panel::share_panel;
use crate::dom::{El, block, button, html, in_turn_after_painting, on_window, words};
use crate::react::RwSignal;
use crate::share::{Shared, copy_link};
use crate::state::{Change, Page, page};

/// Name (tap to rename), *Share* and *More*, and what they open, which is built after what is seen at once.
pub fn top() -> [El; 2] {
    let page = page();
    let shared = RwSignal::new(Shared::Not);
    let open = RwSignal::new(false);
    let name = html("input")
        .attrs(&[
            ("class", "name"),
            ("type", "text"),
            ("data-test", "name"),
            ("aria-label", "Name of the design"),
            ("placeholder", "Name this design"),
            ("autocomplete", "off"),
            ("spellcheck", "false"),
            ("enterkeyhint", "done"),
            ("maxlength", &NAME_LIMIT.to_string()),
        ])
        .prop_live("value", move || page.name.get())
        .on("input", move |event| page.apply(Change::Name(event_target_value(&event))));
    // Only when there is something to take back: a phone has no room for what cannot be used.
    let undo = step(false, "Undo", "undo").hidden_when(move || !page.can_step_back(false));
    follow_keys(page);
    let share = button("Share", move || copy_link(page, shared)).attr("data-test", "share");
    let others = button("More", move || open.update(|open| *open = !*open))
        .attrs(&[("data-test", "more"), ("aria-controls", "more")])
        .says("aria-expanded", move || open.get());
    let strip = block("header", "top")
        .child(words("h1", "spoken", "Holdwater"))
        .child(name)
        .child(undo)
        .child(share)
        .child(others);
    let opened = html("div");
    let place = opened.clone();
    in_turn_after_painting(vec![Box::new(move || {
        let _ = place.children([share_panel(shared), more(open)]);
    })]);
    [strip, opened]
}

/// The usual keys for taking a change back and taking it again, wherever the keyboard is: the page's fields are rewritten from the
/// design, which the browser's own undo knows nothing of.
fn follow_keys(page: &'static Page) {
    on_window("keydown", move |event| {
        let Some(event) = event.dyn_ref::<KeyboardEvent>() else { return };
        if !(event.ctrl_key() || event.meta_key()) || event.alt_key() {
            return;
        }
        let again = match (event.key().as_str(), event.shift_key()) {
            ("z", false) => false,
            ("Z" | "z", true) | ("y", false) => true,
            _ => return,
        };
        event.prevent_default();
        page.step_back(again);
    });
}
