//! What had to be said about an opened link.

use holdwater_design::link::Opened;
use leptos::prelude::*;

use crate::live::{on, part};
use crate::state::page;

/// Complaints and remarks with the original text at hand, until they are put away.
#[component]
pub fn Notices() -> impl IntoView {
    let notice = page().notice;
    part(move || notice.get().map(link_notice))
}

fn link_notice(opened: Opened) -> AnyView {
    let notice = page().notice;
    let wrong = !opened.complaints.is_empty();
    let title = if wrong { "Not all of this link could be used" } else { "About this link" };
    let complaints = opened.complaints.iter().map(ToString::to_string);
    let lines = complaints.chain(opened.remarks.iter().map(ToString::to_string));
    let items: Vec<AnyView> = lines.map(|line| view! { <li>{line}</li> }.into_any()).collect();
    view! {
        <section class="notice" class:act=wrong role="status" data-test="notice">
            <h2>{title}</h2>
            <ul tabindex="0" aria-label="What was found">{items}</ul>
            <button type="button" data-test="notice-close" on:click=on(move |_| notice.set(None))>
                "Put away"
            </button>
            <details hidden=!wrong>
                <summary>"The link as it came"</summary>
                <textarea readonly aria-label="The link as it came" rows="3" prop:value=opened.original></textarea>
            </details>
        </section>
    }
    .into_any()
}
