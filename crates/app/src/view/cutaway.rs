//! The cut-away of the sustainer, to scale, with its water where it is at the delay.

use holdwater_pictures::drawing::cutaway;
use leptos::prelude::*;

use super::drawing::shape_views;
use crate::canvas::size_of;
use crate::state::page;

/// The drawing, made for the room it has, so that its words keep their size.
#[component]
pub fn Cutaway() -> impl IntoView {
    let picture = page().flown.picture;
    let room = NodeRef::<leptos::html::Div>::new();
    let size = size_of(room);
    let drawing = move || {
        let (width, height) = size.get()?;
        let drawing = cutaway(&picture.get()?, width, height);
        Some(view! {
            <svg class="drawing" role="img" aria-label=drawing.description viewBox=drawing.view_box.view_box()>
                {shape_views(drawing.shapes)}
            </svg>
        })
    };
    view! { <div class="cutaway" node_ref=room data-test="cutaway">{drawing}</div> }
}
