//! The inputs of one vessel part: a field for every row of its table that its kind asks for.

use holdwater_design::measure::{Measure, field_text, read};
use holdwater_design::parts::{Form, PartInput, Value, VesselPart};
use leptos::prelude::event_target_value;

use crate::dom::{El, block, button, html, words};
use crate::react::{Memo, RwSignal};
use crate::state::{Change, Page, page};

/// The fields of the part at a place in the list, and what can be done with it as a whole.
pub fn part_editor(place: usize) -> El {
    let page = page();
    let part = Memo::new(move |_| page.parts.with(|parts| parts.get(place).cloned()));
    // The fields stay while numbers are typed; another kind or material asks for others.
    let asked = Memo::new(move |_| part.with(|part| part.as_ref().map(|part| part.asked().collect::<Vec<_>>())));
    let fields = move || asked.get().unwrap_or_default().into_iter().map(|input| field(page, place, input)).collect();
    let change = move |change: fn(&mut Vec<VesselPart>, usize)| {
        let mut parts = page.parts.get_untracked();
        if place < parts.len() {
            change(&mut parts, place);
            page.apply(Change::Parts(parts, ""));
        }
    };
    let copy = button("Copy", move || change(|parts, place| parts.insert(place + 1, parts[place].clone())));
    let remove = button("Remove", move || {
        change(|parts, place| {
            parts.remove(place);
        });
    });
    block("div", "part-editor")
        .child(block("div", "part-fields").content(fields))
        .child(block("div", "pick").child(copy).child(remove.attr("data-test", "part-remove")))
}

/// Changes one answer of a part.
fn set(page: &Page, place: usize, input: PartInput, change: impl FnOnce(&mut VesselPart)) {
    let mut parts = page.parts.get_untracked();
    if let Some(part) = parts.get_mut(place) {
        change(part);
        page.apply(Change::Parts(parts, input.row().key));
    }
}

fn field(page: &'static Page, place: usize, input: PartInput) -> El {
    let row = input.row();
    let id = format!("part-{}-{}", place + 1, row.key);
    let label = html("label").attr("for", &id).text(row.label);
    let wrong = RwSignal::new(String::new());
    let entry = match row.form {
        Form::Words(..) => choice(page, place, input, &id),
        Form::Text(_) | Form::Number(..) => typed(page, place, input, &id, wrong),
    };
    let complaint = block("p", "complaint").attrs(&[("role", "alert"), ("id", &format!("{id}-complaint"))]);
    block("div", "field")
        .child(block("div", "field-head").child(label))
        .child(entry)
        .child(complaint.text_live(move || wrong.get()))
        .child(words("p", "help", row.help).attr("id", &format!("{id}-help")))
}

/// One of some words.
fn choice(page: &'static Page, place: usize, input: PartInput, id: &str) -> El {
    let now = move || page.parts.with(|parts| parts.get(place).map_or(0, |part| part.place(input)));
    let options = input
        .words()
        .iter()
        .zip(0..)
        .map(|(word, at): (_, usize)| html("option").attr("value", &at.to_string()).text(word.label));
    html("select")
        .attrs(&[("id", id), ("data-test", id)])
        .children(options)
        .prop_live("value", move || now().to_string())
        .on("change", move |event| {
            if let Ok(word) = event_target_value(&event).parse() {
                // Offered words are allowed.
                set(page, place, input, |part| {
                    let _ = part.set(input, Value::Word(word));
                });
            }
        })
}

/// A number or a text. What cannot be used stays in the field with a complaint, and the last good value counts.
fn typed(page: &'static Page, place: usize, input: PartInput, id: &str, wrong: RwSignal<String>) -> El {
    let unit = move || {
        let facts = page.parts.with_untracked(|parts| input.facts(parts.get(place)?.kind()));
        facts.map(|facts| facts.unit)
    };
    let shown = move || {
        let units = page.units.get();
        page.parts.with(|parts| {
            let Some(part) = parts.get(place) else { return String::new() };
            match (part.number(input), unit()) {
                (Some(number), Some(unit)) => field_text(unit, units, number),
                (None, Some(_)) => String::new(),
                _ => part.name().to_owned(),
            }
        })
    };
    // What stands in the field while it is wrong; otherwise the field follows the part.
    let held = RwSignal::new(None::<String>);
    let entry = html("input")
        .attrs(&[
            ("type", "text"),
            ("id", id),
            ("data-test", id),
            ("autocomplete", "off"),
            ("spellcheck", "false"),
            ("inputmode", if matches!(input.row().form, Form::Text(_)) { "text" } else { "decimal" }),
            ("aria-describedby", &format!("{id}-complaint {id}-help")),
        ])
        .says("aria-invalid", move || wrong.with(|wrong| !wrong.is_empty()))
        .prop_live("value", move || held.get().unwrap_or_else(shown))
        .on("input", move |event| {
            let text = event_target_value(&event);
            held.set(Some(text.clone()));
            wrong.set(String::new());
            set(page, place, input, |part| {
                if let Err(said) = take(part, input, &text, page, unit()) {
                    wrong.set(said);
                }
            });
        })
        .on("blur", move |_| {
            if wrong.with_untracked(String::is_empty) {
                held.set(None);
            }
        });
    let symbol = move || unit().map(|unit| Measure::of(unit).symbol(page.units.get())).unwrap_or_default().to_owned();
    block("span", "number-box").child(entry).child(block("span", "unit").text_live(symbol))
}

/// Takes a typed text, or says what is wrong with it and what is allowed.
fn take(
    part: &mut VesselPart,
    input: PartInput,
    text: &str,
    page: &Page,
    unit: Option<holdwater_design::Unit>,
) -> Result<(), String> {
    let refused = |part: &VesselPart| {
        format!(
            "\u{201c}{}\u{201d} is not allowed. Allowed: {}. Using {} meanwhile.",
            text.trim(),
            input.allowed(),
            part.show(input)
        )
    };
    let Some(unit) = unit else {
        return if part.set_name(text) { Ok(()) } else { Err(refused(part)) };
    };
    let value = if text.trim().is_empty() {
        None
    } else {
        match read(text, unit, page.units.get_untracked()) {
            Ok(value) => Some(value),
            Err(unread) => return Err(format!("{unread}. Using {} meanwhile.", part.show(input))),
        }
    };
    part.set(input, Value::Number(value)).map_err(|_| refused(part))
}
