//! The way to the inputs: the stack to scale, its parts to be tapped.

use std::cell::RefCell;
use std::rc::Rc;

use holdwater_design::Input;
use holdwater_pictures::drawing::{Area, MarkDrawing, PartDrawing, Shape, StackDrawing, stack as stack_drawing};
use leptos::prelude::document;

use super::drawing::markup;
use super::vessels::{marks_of, open_editor};
use crate::browser::{NextFrame, focus_on, nothing_has_focus};
use crate::canvas::size_of;
use crate::dom::{El, block, html, key_of, svg, words};
use crate::state::{Page, page};

/// The stack drawing; every part opens its inputs.
pub fn stack() -> El {
    let page = page();
    let room = block("div", "stack-room");
    let size = size_of(&room);
    // The drawing is made anew when the room for it changes, as it does when inputs open and close beside it. The
    // part that had the keyboard gets it back once the new one stands on the page.
    let kept = Rc::new(RefCell::new(None::<String>));
    let keeper = Rc::clone(&kept);
    let back = NextFrame::new(move || {
        // Unless somebody has gone on to something else meanwhile.
        if let Some(part) = keeper.borrow_mut().take().filter(|_| nothing_has_focus()) {
            focus_on(&format!("[data-part=\"{part}\"]"));
        }
    });
    let drawing = move || {
        let (width, height) = size.get()?;
        if let Some(part) = document().active_element().and_then(|element| element.get_attribute("data-part")) {
            *kept.borrow_mut() = Some(part);
            back.ask();
        }
        let marks = page.flown.vessels.with(|vessels| marks_of(vessels));
        Some(drawn(page, stack_drawing(&page.flown.rocket.get(), &marks, width, height)))
    };
    let hint = "Tap a part to change its numbers. A dot marks what differs from the default.";
    block("section", "stack")
        .attr("aria-labelledby", "stack-title")
        .child(html("h2").attr("id", "stack-title").text("The stack"))
        .child(words("p", "stack-hint", hint))
        .child(
            words("p", "stack-hint", "The place of the weakest vessel part is schematic.")
                .hidden_when(move || page.flown.vessels.with(|vessels| vessels.parts.is_empty())),
        )
        .child(room.content(move || drawing().map(Vec::from).unwrap_or_default()))
}

fn drawn(page: &'static Page, drawing: StackDrawing) -> [El; 2] {
    let shapes = markup(drawing.parts.iter().flat_map(|part| &part.shapes));
    let view_box = drawing.view_box.view_box();
    let picture = svg("svg")
        .attrs(&[
            ("class", "drawing stack-drawing"),
            ("role", "group"),
            ("aria-label", "Parts of the stack"),
            ("viewBox", &view_box),
        ])
        .child(svg("g").drawn(move || Some(shapes.clone())))
        .children(drawing.parts.iter().map(|part| part_button(page, part)))
        .children(drawing.weakest.iter().map(mark_button));
    [words("p", "spoken", &drawing.description), picture]
}

/// A label with its leader, which works like a button.
fn part_button(page: &'static Page, drawn: &PartDrawing) -> El {
    let (part, hit) = (drawn.part, drawn.hit);
    let is_open = move || page.open_part.get() == Some(part);
    let is_changed = move || page.design.with(|design| Input::of_part(part).any(|input| !design.is_default(input)));
    // Begins with the words in the drawing, which are what somebody says who steers by voice.
    let missing = if drawn.fitted { "" } else { " none fitted" };
    let name = format!("{}{missing}: {}", drawn.word, part.title());
    let number = |value: f64| value.to_string();
    let mark = svg("circle").attrs(&[
        ("class", "changed-mark"),
        ("cx", &number(hit.x + hit.width)),
        ("cy", &number(hit.y)),
        ("r", "5"),
    ]);
    drawn_button(hit, markup(&drawn.label), &name, Rc::new(move || page.toggle_part(part)))
        .attr("data-part", &format!("{part:?}"))
        .class_when("open", is_open)
        .class_when("changed", is_changed)
        .says("aria-expanded", is_open)
        .child(mark)
}

/// The mark of a vessel part, which opens it in the list of question 3.
pub fn mark_button(drawn: &MarkDrawing) -> El {
    let number = drawn.number;
    drawn_button(
        drawn.hit,
        markup(drawn.label.iter().chain(&drawn.shapes)),
        &drawn.name,
        Rc::new(move || open_editor(number)),
    )
    .attr("data-mark", &number.to_string())
    .child(svg("title").text(&drawn.name))
}

/// A place in a drawing that works like a button.
fn drawn_button(hit: Area, label: String, name: &str, press: Rc<dyn Fn()>) -> El {
    let target = markup(&[Shape::Rect { area: hit, class: "button" }]) + &label;
    let click = Rc::clone(&press);
    svg("g")
        .attrs(&[("class", "part-button"), ("role", "button"), ("tabindex", "0"), ("aria-label", name)])
        .on("click", move |_| click())
        .on("keydown", move |event| {
            if matches!(key_of(&event).as_str(), "Enter" | " ") {
                event.prevent_default();
                press();
            }
        })
        .child(svg("g").drawn(move || Some(target.clone())))
}
