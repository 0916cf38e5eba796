//! The strip on top: the name, sharing, and the rest.

use holdwater_design::design::NAME_LIMIT;
use leptos::prelude::*;

use super::more::more;
use super::share_panel::share_panel;
use crate::dom::{El, block, button, html, words};
use crate::share::{Shared, copy_link};
use crate::state::{Change, page};

/// Name (tap to rename), *Share* and *More*, and what they open.
pub fn top() -> [El; 3] {
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
    let share = button("Share", move || copy_link(page, shared)).attr("data-test", "share");
    let others = button("More", move || open.update(|open| *open = !*open))
        .attrs(&[("data-test", "more"), ("aria-controls", "more")])
        .says("aria-expanded", move || open.get());
    let strip = block("header", "top").child(words("h1", "spoken", "Holdwater")).child(name).child(share).child(others);
    [strip, share_panel(shared), more(open)]
}
