//! The rest: examples to start from, and what this page is.

use holdwater_design::examples::EXAMPLES;
use leptos::prelude::*;

use crate::state::page;

/// Examples and about. Examples are plain links: the browser makes the history entry, and the address sync opens them.
#[component]
pub fn More(open: RwSignal<bool>) -> impl IntoView {
    let page = page();
    let leave = move |_| {
        page.flush_link();
        open.set(false);
    };
    let example = move |example: &'static holdwater_design::examples::Example| {
        view! {
            <li>
                <a class="example" href=format!("#{}", example.link) on:click=leave>
                    <span class="example-title">{example.title}</span>
                    <span class="example-story">{example.story}</span>
                </a>
            </li>
        }
    };
    view! {
        <section class="more" id="more" hidden=move || !open.get() aria-label="More">
            <h2>"Examples"</h2>
            <ul>{EXAMPLES.iter().map(example).collect_view()}</ul>
            <h2>"About"</h2>
            <p>"Holdwater computes how the sustainer of a two-stage water rocket flies when it is released after a coast. All of it happens in your browser; nothing is sent anywhere."</p>
            <p>"The link in the address bar is the design: whoever opens it sees exactly what you meant. Values that are not in a link have their default."</p>
            <button type="button" on:click=move |_| open.set(false)>"Close"</button>
        </section>
    }
}
