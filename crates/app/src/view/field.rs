//! One input: the same field for every row of the table.

use holdwater_design::measure::{Measure, System, show};
use holdwater_design::{Input, Row};
use leptos::prelude::event_target_value;

use crate::dom::{El, block, button, html, key_of, words};
use crate::state::{Change, Page, page};

/// A row of the table with its label, its help and what is wrong with it.
pub fn field(input: Input) -> El {
    let row = input.row();
    let id = format!("field-{}", row.key);
    let head =
        block("div", "field-head").child(html("label").attr("for", &id).text(row.label)).child(restoring_dot(input));
    block("div", "field")
        .child(head)
        .child(stepper_input(input, &id, &id))
        .child(complaint(input, &id))
        .child(words("p", "help", row.help).attr("id", &format!("{id}-help")))
}

/// The dot of an input that differs from its default; a tap restores it.
fn restoring_dot(input: Input) -> El {
    let page = page();
    let row = input.row();
    button("", move || page.apply(Change::Reset(input)))
        .attrs(&[("class", "dot"), ("data-test", &format!("restore-{}", row.key))])
        .attr_live("aria-label", move || {
            // Begins with the word on it, which is what somebody says who steers by voice.
            Some(format!("changed: {}, back to {}", row.label, default_words(row, page.units.get())))
        })
        .hidden_when(move || page.design.with(|design| design.is_default(input)))
        .child(block("span", "dot-mark").attr("aria-hidden", "true"))
        .text("changed")
}

/// The default in words, in the units of the page.
fn default_words(row: &Row, units: System) -> String {
    row.default().map_or_else(|| row.show(None), |value| show(row.unit, units, value))
}

/// The text of an input between its minus and its plus.
pub fn stepper_input(input: Input, id: &str, test: &str) -> El {
    let page = page();
    let row = input.row();
    let text = page.text(input);
    let step = move |presses, sign: &str, word| {
        button(sign, move || page.press(input, presses))
            .attrs(&[("class", "step"), ("aria-label", &format!("{}: {word}", row.label))])
    };
    let entry = html("input")
        .attrs(&[
            ("type", "text"),
            ("inputmode", "decimal"),
            ("autocomplete", "off"),
            ("spellcheck", "false"),
            ("enterkeyhint", "done"),
            ("placeholder", if row.is_optional() { "left out" } else { "" }),
            ("aria-describedby", &format!("{id}-complaint {id}-help")),
            ("id", id),
            ("data-test", test),
        ])
        .says("aria-invalid", move || is_wrong(page, input))
        .attr_live("data-value", move || page.design.with(|design| design.get(input).map(|value| value.to_string())))
        .prop_live("value", move || text.get())
        .on("input", move |event| page.apply(Change::Text(input, event_target_value(&event))))
        .on("blur", move |_| page.tidy(input))
        .on("keydown", move |event| stepped_by_key(page, &event, input));
    let number = block("span", "number-box")
        .child(entry)
        .child(block("span", "unit").text_live(move || Measure::of(row.unit).symbol(page.units.get()).to_owned()));
    block("div", "stepper").child(step(-1, "\u{2212}", "less")).child(number).child(step(1, "+", "more"))
}

/// Whether the text is no allowed value, or contradicts another input.
fn is_wrong(page: &Page, input: Input) -> bool {
    let key = input.row().key;
    let contradicts = || page.flown.refusals().iter().any(|refused| refused.keys.contains(&key));
    page.complaint(input).is_some() || contradicts()
}

/// Up and down step a number, as they do in every field for numbers.
fn stepped_by_key(page: &Page, event: &web_sys::Event, input: Input) {
    let presses = match key_of(event).as_str() {
        "ArrowUp" => 1,
        "ArrowDown" => -1,
        _ => return,
    };
    event.prevent_default();
    page.press(input, presses);
}

/// What is wrong with the field of the given id, beside it.
pub fn complaint(input: Input, id: &str) -> El {
    let page = page();
    block("p", "complaint")
        .attrs(&[
            ("role", "alert"),
            ("id", &format!("{id}-complaint")),
            ("data-test", &format!("complaint-{}", input.row().key)),
        ])
        .text_live(move || page.complaint(input).map(|complaint| complaint.to_string()).unwrap_or_default())
}
