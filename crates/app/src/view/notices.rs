//! What had to be said about an opened link.

use holdwater_design::link::Opened;
use leptos::prelude::*;

use crate::state::page;

/// Complaints and remarks with the original text at hand, until they are put away.
#[component]
pub fn Notices() -> impl IntoView {
    let notice = page().notice;
    move || notice.get().map(|opened| link_notice(opened).into_any())
}

fn link_notice(opened: Opened) -> impl IntoView {
    let notice = page().notice;
    let wrong = !opened.complaints.is_empty();
    let complaints = opened.complaints.iter().map(|complaint| view! { <li>{complaint.to_string()}</li> }).collect_view();
    let remarks = opened.remarks.iter().map(|remark| view! { <li>{remark.to_string()}</li> }).collect_view();
    view! {
        <section class="notice" class:act=wrong role="status" data-test="notice">
            <h2>{if wrong { "Not all of this link could be used" } else { "About this link" }}</h2>
            <ul tabindex="0" aria-label="What was found">{complaints}{remarks}</ul>
            <button type="button" data-test="notice-close" on:click=move |_| notice.set(None)>"Put away"</button>
            <Show when=move || wrong>
                <details>
                    <summary>"The link as it came"</summary>
                    <textarea readonly aria-label="The link as it came" rows="3" prop:value=opened.original.clone()></textarea>
                </details>
            </Show>
        </section>
    }
}
