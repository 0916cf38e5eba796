//! The cut-away of the sustainer, to scale, with its water where it is at the delay.

use holdwater_pictures::drawing::{Drawing, cutaway};
use leptos::prelude::*;

use super::drawing::markup;
use crate::canvas::size_of;
use crate::live::live;
use crate::state::page;

/// The drawing, made for the room it has, so that its words keep their size.
#[component]
pub fn Cutaway() -> impl IntoView {
    let picture = page().flown.picture;
    let room = NodeRef::<leptos::html::Div>::new();
    let size = size_of(room);
    let drawing = Memo::new(move |_| {
        let (width, height) = size.get()?;
        Some(cutaway(&picture.get()?, width, height))
    });
    let part = move |pick: fn(&Drawing) -> String| live(move || drawing.with(|drawing| drawing.as_ref().map(pick)));
    let shapes = live(move || drawing.with(|drawing| drawing.as_ref().map(|drawing| markup(&drawing.shapes))));
    view! {
        <div class="cutaway" node_ref=room data-test="cutaway">
            <svg
                class="drawing" role="img" viewBox=part(|drawing| drawing.view_box.view_box())
                aria-label=part(|drawing| drawing.description.clone())
                inner_html=live(move || shapes().unwrap_or_default())
            ></svg>
        </div>
    }
}
