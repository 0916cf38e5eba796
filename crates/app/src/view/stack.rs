//! The way to the inputs: the stack to scale, its parts to be tapped.

use holdwater_design::Input;
use holdwater_pictures::drawing::{PartDrawing, StackDrawing, stack};
use leptos::prelude::*;

use super::drawing::markup;
use crate::canvas::size_of;
use crate::live::{live, on, part};
use crate::state::{Page, page};

/// The stack drawing; every part opens its inputs.
#[component]
pub fn Stack() -> impl IntoView {
    let page = page();
    let room = NodeRef::<leptos::html::Div>::new();
    let size = size_of(room);
    let drawing = move || {
        let (width, height) = size.get()?;
        Some(drawn(page, stack(&page.flown.rocket.get(), width, height)))
    };
    view! {
        <section class="stack" aria-labelledby="stack-title">
            <h2 id="stack-title">"The stack"</h2>
            <p class="stack-hint">
                "Tap a part to change its numbers. A dot marks what differs from the default."
            </p>
            <div class="stack-room" node_ref=room>{part(drawing)}</div>
        </section>
    }
}

fn drawn(page: &'static Page, drawing: StackDrawing) -> AnyView {
    let shapes = markup(drawing.parts.iter().flat_map(|part| &part.shapes));
    let view_box = drawing.view_box.view_box();
    let buttons: Vec<AnyView> = drawing.parts.into_iter().map(|part| part_button(page, &part)).collect();
    view! {
        <p class="spoken">{drawing.description}</p>
        <svg class="drawing stack-drawing" role="group" aria-label="Parts of the stack" viewBox=view_box>
            <g inner_html=shapes></g>
            {buttons}
        </svg>
    }
    .into_any()
}

/// A label with its leader, which works like a button.
fn part_button(page: &'static Page, drawn: &PartDrawing) -> AnyView {
    let (part, hit) = (drawn.part, drawn.hit);
    let is_open = move || page.open_part.get() == Some(part);
    let is_changed = move || page.design.with(|design| Input::of_part(part).any(|input| !design.is_default(input)));
    // Begins with the words in the drawing, which are what somebody says who steers by voice.
    let missing = if drawn.fitted { "" } else { " none fitted" };
    let name = format!("{}{missing}: {}", drawn.word, part.title());
    let by_key = move |event: web_sys::KeyboardEvent| {
        if matches!(event.key().as_str(), "Enter" | " ") {
            event.prevent_default();
            page.toggle_part(part);
        }
    };
    view! {
        <g
            class="part-button" class:open=live(is_open) class:changed=live(is_changed)
            role="button" tabindex="0" data-part=format!("{part:?}")
            aria-label=name aria-expanded=live(move || is_open().to_string())
            on:click=on(move |_| page.toggle_part(part)) on:keydown=on(by_key)
        >
            <rect class="button" x=hit.x y=hit.y width=hit.width height=hit.height/>
            <g inner_html=markup(&drawn.label)></g>
            <circle class="changed-mark" cx=hit.x + hit.width cy=hit.y r="5"/>
        </g>
    }
    .into_any()
}
