//! The rest: examples to start from, and what this page is.

use holdwater_design::examples::{EXAMPLES, Example};
use leptos::prelude::*;

use crate::live::{live, on};
use crate::state::page;

/// What the page is and does, for About.
const ABOUT: [&str; 2] = [
    "Holdwater computes how the sustainer of a two-stage water rocket flies when it is released after a coast. \
     All of it happens in your browser; nothing is sent anywhere.",
    "The link in the address bar is the design: whoever opens it sees exactly what you meant. Values that are \
     not in a link have their default.",
];

/// Examples and about.
#[component]
pub fn More(open: RwSignal<bool>) -> impl IntoView {
    let example = move |example: &'static Example| view! { <ExampleLink example open/> }.into_any();
    view! {
        <section class="more" id="more" aria-label="More" hidden=live(move || !open.get())>
            <h2>"Examples"</h2>
            <ul>{EXAMPLES.iter().map(example).collect::<Vec<_>>()}</ul>
            <h2>"About"</h2>
            <p>{ABOUT[0]}</p>
            <p>{ABOUT[1]}</p>
            <button type="button" on:click=on(move |_| open.set(false))>"Close"</button>
        </section>
    }
}

/// An example is a plain link: the browser makes the history entry, and the address sync opens it.
#[component]
fn ExampleLink(example: &'static Example, open: RwSignal<bool>) -> impl IntoView {
    let page = page();
    let leave = move |_| {
        page.flush_link();
        open.set(false);
    };
    view! {
        <li>
            <a class="example" href=format!("#{}", example.link) on:click=on(leave)>
                <span class="example-title">{example.title}</span>
                <span class="example-story">{example.story}</span>
            </a>
        </li>
    }
}
