//! The way to the inputs: the stack to scale, its parts to be tapped.

use holdwater_design::Input;
use holdwater_pictures::drawing::{PartDrawing, stack};
use leptos::prelude::*;

use super::drawing::{shape_view, shape_views};
use crate::canvas::size_of;
use crate::state::{Page, page};

/// The stack drawing; every part opens its inputs.
#[component]
pub fn Stack() -> impl IntoView {
    let page = page();
    let room = NodeRef::<leptos::html::Div>::new();
    let size = size_of(room);
    let drawing = move || {
        let (width, height) = size.get()?;
        let drawing = stack(&page.flown.rocket.get(), width, height);
        let parts = drawing.parts.iter().flat_map(|part| part.shapes.clone()).collect();
        let labels: Vec<_> = drawing.parts.into_iter().map(|part| part_button(page, part)).collect();
        Some(view! {
            <p class="spoken">{drawing.description}</p>
            <svg class="drawing stack-drawing" role="group" aria-label="Parts of the stack" viewBox=drawing.view_box.view_box()>
                {shape_views(parts)}
                {labels}
            </svg>
        })
    };
    view! {
        <section class="stack" aria-labelledby="stack-title">
            <h2 id="stack-title">"The stack"</h2>
            <p class="stack-hint">"Tap a part to change its numbers. A dot marks what differs from the default."</p>
            <div class="stack-room" node_ref=room>{drawing}</div>
        </section>
    }
}

/// A label with its leader, which works like a button.
fn part_button(page: &'static Page, drawn: PartDrawing) -> AnyView {
    let part = drawn.part;
    let hit = drawn.hit;
    let open = move || page.open_part.get() == Some(part);
    let changed = move || page.design.with(|design| Input::of_part(part).any(|input| !design.is_default(input)));
    let by_key = move |event: web_sys::KeyboardEvent| {
        if matches!(event.key().as_str(), "Enter" | " ") {
            event.prevent_default();
            page.toggle_part(part);
        }
    };
    let label: Vec<_> = drawn.label.into_iter().map(shape_view).collect();
    view! {
        <g
            class="part-button" class:open=open class:changed=changed role="button" tabindex="0" data-part=format!("{part:?}")
            aria-label=part.title() aria-expanded=move || open().to_string()
            on:click=move |_| page.toggle_part(part) on:keydown=by_key
        >
            <rect class="button" x=hit.x y=hit.y width=hit.width height=hit.height/>
            {label}
            <circle class="changed-mark" cx=hit.x + hit.width cy=hit.y r="5"/>
        </g>
    }
    .into_any()
}
