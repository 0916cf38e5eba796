//! The delay under the chart: a slider exactly as wide as the axis, and the number with minus and plus.

use holdwater_design::Input;
use leptos::prelude::*;
use web_sys::HtmlInputElement;

use super::delay_chart::DelayFrame;
use super::field::{Complaint, StepperInput};
use super::quantity::Quantity;
use crate::live::{live, on};
use crate::state::page;

/// The slider reaches as far as the chart; the field takes every delay that is allowed.
#[component]
pub fn DelayControl() -> impl IntoView {
    let page = page();
    let frame = expect_context::<DelayFrame>().0;
    // The middle of a slider's thumb has to lie under the axis: half a thumb hangs over at both ends.
    let left = move || frame.get().map(|frame| format!("calc({}px - var(--thumb) / 2)", frame.left));
    let width = move || frame.get().map(|frame| format!("calc({}px + var(--thumb))", frame.width()));
    let longest = live(move || page.flown.longest_delay().map(|longest| longest.to_string()));
    let height = live(move || page.flown.answers.with(|answers| Some(answers.as_ref()?.apogee_m)));
    let moved = move |event| page.drag_delay(event_target::<HtmlInputElement>(&event).value_as_number());
    view! {
        <div class="delay-slider-line">
            <input
                type="range" class="delay-slider" data-test="delay-slider"
                min="0" max=longest.clone() step="0.01" aria-label="Staging delay, seconds"
                style:margin-left=live(left) style:width=live(width)
                prop:max=longest prop:value=live(move || page.flown.delay.get().to_string())
                on:input=on(moved)
            />
        </div>
        <div class="delay-value">
            <label for="delay-value"><Quantity value=height decimals=1 unit="m"/>" at a delay of"</label>
            <StepperInput input=Input::Delay id="delay-value" test="delay-input"/>
        </div>
        <div class="delay-complaint"><Complaint input=Input::Delay id="delay-value"/></div>
    }
}
