//! One input: the same component for every row of the table.

use holdwater_design::Input;
use leptos::prelude::*;

use crate::live::{live, on};
use crate::state::{Change, Page, page};

/// A row of the table with its label, its help and what is wrong with it.
#[component]
pub fn Field(input: Input) -> impl IntoView {
    let row = input.row();
    let id = format!("field-{}", row.key);
    view! {
        <div class="field">
            <div class="field-head">
                <label for=id.clone()>{row.label}</label>
                <Dot input/>
            </div>
            <StepperInput input id=id.clone() test=id.clone()/>
            <Complaint input id=id.clone()/>
            <p class="help" id=format!("{id}-help")>{row.help}</p>
        </div>
    }
}

/// The dot of an input that differs from its default; a tap restores it.
#[component]
fn Dot(input: Input) -> impl IntoView {
    let page = page();
    let row = input.row();
    let restore = format!("{}: back to {}", row.label, row.show(row.default()));
    view! {
        <button
            type="button" class="dot" aria-label=restore data-test=format!("restore-{}", row.key)
            hidden=live(move || page.design.with(|design| design.is_default(input)))
            on:click=on(move |_| page.apply(Change::Reset(input)))
        >
            <span class="dot-mark" aria-hidden="true"></span>
            "changed"
        </button>
    }
}

/// The text of an input between its minus and its plus.
#[component]
pub fn StepperInput(input: Input, #[prop(into)] id: String, #[prop(into)] test: String) -> impl IntoView {
    let page = page();
    let row = input.row();
    let text = page.text(input);
    let value = move || page.design.with(|design| design.get(input).map(|value| value.to_string()));
    let step = move |presses, sign: &'static str, word| {
        view! {
            <button
                type="button" class="step" aria-label=format!("{}: {word}", row.label)
                on:click=on(move |_| page.press(input, presses))
            >
                {sign}
            </button>
        }
    };
    view! {
        <div class="stepper">
            {step(-1, "\u{2212}", "less")}
            <span class="number-box">
                <input
                    type="text" inputmode="decimal" autocomplete="off" spellcheck="false" enterkeyhint="done"
                    placeholder=row.is_optional().then_some("left out")
                    aria-invalid=live(move || is_wrong(page, input).to_string())
                    aria-describedby=format!("{id}-complaint {id}-help")
                    id=id data-test=test data-value=live(value)
                    prop:value=live(move || text.get())
                    on:input=on(move |event| page.apply(Change::Text(input, event_target_value(&event))))
                    on:blur=on(move |_| page.tidy(input))
                    on:keydown=on(move |event| stepped_by_key(page, &event, input))
                />
                <span class="unit">{row.unit.symbol()}</span>
            </span>
            {step(1, "+", "more")}
        </div>
    }
}

/// Whether the text is no allowed value, or contradicts another input.
fn is_wrong(page: &Page, input: Input) -> bool {
    let key = input.row().key;
    let contradicts = || page.flown.refusals().iter().any(|refused| refused.keys.contains(&key));
    page.complaint(input).is_some() || contradicts()
}

/// Up and down step a number, as they do in every field for numbers.
fn stepped_by_key(page: &Page, event: &web_sys::KeyboardEvent, input: Input) {
    let presses = match event.key().as_str() {
        "ArrowUp" => 1,
        "ArrowDown" => -1,
        _ => return,
    };
    event.prevent_default();
    page.press(input, presses);
}

/// What is wrong with the field of the given id, beside it.
#[component]
pub fn Complaint(input: Input, #[prop(into)] id: String) -> impl IntoView {
    let page = page();
    let words = move || page.complaint(input).map(|complaint| complaint.to_string()).unwrap_or_default();
    let test = format!("complaint-{}", input.row().key);
    view! { <p class="complaint" role="alert" id=format!("{id}-complaint") data-test=test>{live(words)}</p> }
}
