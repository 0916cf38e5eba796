//! The delay under the chart: a slider exactly as wide as the axis, and the number with minus and plus.

use holdwater_design::Input;
use leptos::prelude::event_target;
use web_sys::HtmlInputElement;

use super::field::{complaint, stepper_input};
use super::quantity::{Look, quantity};
use crate::dom::{El, block, html};
use crate::state::page;

/// The slider reaches as far as the chart; the field takes every delay that is allowed.
pub fn delay_control() -> [El; 3] {
    let page = page();
    let frame = page.delay_frame;
    // The middle of a slider's thumb has to lie under the axis: half a thumb hangs over at both ends.
    let left = move || frame.get().map(|frame| format!("calc({}px - var(--thumb) / 2)", frame.left));
    let width = move || frame.get().map(|frame| format!("calc({}px + var(--thumb))", frame.width()));
    let longest = move || page.flown.longest_delay().map(|longest| longest.to_string());
    let slider = html("input")
        .attrs(&[
            ("type", "range"),
            ("class", "delay-slider"),
            ("data-test", "delay-slider"),
            ("min", "0"),
            ("step", "0.01"),
            ("aria-label", "Staging delay, seconds"),
        ])
        // Before the value, which would be cut to the old end.
        .attr_live("max", longest)
        .style_live("margin-left", left)
        .style_live("width", width)
        .prop_live("value", move || {
            page.flown.study.track();
            page.flown.delay.get().to_string()
        })
        .on("input", move |event| page.drag_delay(event_target::<HtmlInputElement>(&event).value_as_number()));
    let height = move || page.flown.answers.with(|answers| Some(answers.as_ref()?.apogee_m));
    let label =
        html("label").attr("for", "delay-value").child(quantity(height, Look::of(1, "m"))).text(" at a delay of");
    [
        block("div", "delay-slider-line").child(slider),
        block("div", "delay-value").child(label).child(stepper_input(Input::Delay, "delay-value", "delay-input")),
        block("div", "delay-complaint").child(complaint(Input::Delay, "delay-value")),
    ]
}
