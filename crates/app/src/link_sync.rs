//! The address bar and the design, kept in step.
//!
//! Reading happens here; writing is done by the one writer behind [`Page::apply`].

use leptos::ev;
use leptos::prelude::*;

use crate::browser::address_fragment;
use crate::state::Page;

/// Opens the link the page was called with, and every one that comes later by hand, by a link or by back and forward.
pub fn follow_address(page: &'static Page) {
    page.open(address_fragment());
    // Our own writes go through `replaceState`, which does not raise this event.
    let _ = window_event_listener(ev::hashchange, move |_| page.open(address_fragment()));
    // A phone may end a hidden page without another word.
    let leaving = move |leaving: bool| {
        page.flush_link();
        page.keeping.leave_note(leaving);
    };
    let _ = window_event_listener(ev::pagehide, move |_| leaving(true));
    let _ = window_event_listener(ev::visibilitychange, move |_| leaving(document().hidden()));
}
