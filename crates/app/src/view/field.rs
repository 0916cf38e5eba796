//! One input: the same component for every row of the table.

use holdwater_design::Input;
use leptos::prelude::*;

use crate::state::{Change, page};

/// A row of the table with its label, its help and what is wrong with it.
#[component]
pub fn Field(input: Input) -> impl IntoView {
    let page = page();
    let row = input.row();
    let id = format!("field-{}", row.key);
    let changed = move || page.design.with(|design| !design.is_default(input));
    let restore = format!("{}: back to {}", row.label, row.show(row.default()));
    let label = id.clone();
    view! {
        <div class="field">
            <div class="field-head">
                <label for=label>{row.label}</label>
                <Show when=changed>
                    <button type="button" class="dot" aria-label=restore.clone() title=restore.clone() on:click=move |_| page.apply(Change::Reset(input))>
                        <span class="dot-mark" aria-hidden="true"></span>"changed"
                    </button>
                </Show>
            </div>
            <StepperInput input id=id.clone() test=id.clone()/>
            <Complaint input id=id.clone()/>
            <p class="help" id=format!("{id}-help")>{row.help}</p>
        </div>
    }
}

/// The text of an input between its minus and its plus.
#[component]
pub fn StepperInput(input: Input, #[prop(into)] id: String, #[prop(into)] test: String) -> impl IntoView {
    let page = page();
    let row = input.row();
    let text = page.text(input);
    let wrong = move || page.complaint(input).with(Option::is_some) || page.flown.refusals().iter().any(|refused| refused.keys.contains(&row.key));
    view! {
        <div class="stepper">
            <button type="button" class="step" aria-label=format!("{}: less", row.label) on:click=move |_| page.press(input, -1)>"\u{2212}"</button>
            <span class="number-box">
                <input
                    type="text" inputmode="decimal" autocomplete="off" spellcheck="false" enterkeyhint="done" data-test=test
                    placeholder=row.is_optional().then_some("left out")
                    aria-invalid=move || wrong().to_string()
                    aria-describedby=format!("{id}-complaint {id}-help")
                    id=id
                    data-value=move || page.design.with(|design| design.get(input).map(|value| value.to_string()))
                    prop:value=move || text.get()
                    on:input=move |event| page.apply(Change::Text(input, event_target_value(&event)))
                    on:blur=move |_| page.tidy(input)
                    on:keydown=move |event| stepped_by_key(&event, input)
                />
                <span class="unit">{row.unit.symbol()}</span>
            </span>
            <button type="button" class="step" aria-label=format!("{}: more", row.label) on:click=move |_| page.press(input, 1)>"+"</button>
        </div>
    }
}

/// Up and down step a number, as they do in every field for numbers.
fn stepped_by_key(event: &web_sys::KeyboardEvent, input: Input) {
    let presses = match event.key().as_str() {
        "ArrowUp" => 1,
        "ArrowDown" => -1,
        _ => return,
    };
    event.prevent_default();
    page().press(input, presses);
}

/// What is wrong with the field of the given id, beside it.
#[component]
pub fn Complaint(input: Input, #[prop(into)] id: String) -> impl IntoView {
    let key = input.row().key;
    let complaint = page().complaint(input);
    view! {
        <p class="complaint" role="alert" id=format!("{id}-complaint") data-test=format!("complaint-{key}")>
            {move || complaint.with(|complaint| complaint.as_ref().map(ToString::to_string))}
        </p>
    }
}
