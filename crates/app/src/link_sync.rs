//! The address bar and the design, kept in step.
//!
//! Reading happens here; writing is done by the one writer behind [`Page::apply`].

use leptos::prelude::document;

use crate::browser::address_fragment;
use crate::dom::on_window;
use crate::state::Page;

/// Opens the link the page was called with, and every one that comes later by hand, by a link or by back and forward.
pub fn follow_address(page: &'static Page) {
    page.open(address_fragment());
    // Our own writes go through `replaceState`, which does not raise this event.
    on_window("hashchange", move |_| page.open(address_fragment()));
    // A phone may end a hidden page without another word.
    let leaving = move |leaving: bool| {
        page.flush_link();
        page.keeping.leave_note(leaving);
    };
    on_window("pagehide", move |_| leaving(true));
    on_window("visibilitychange", move |_| leaving(document().hidden()));
}
