//! The way to the inputs: the stack to scale, its parts to be tapped.

use std::rc::Rc;

use holdwater_design::{Input, Part};
use holdwater_pictures::drawing::{Area, MarkDrawing, PartDrawing, Shape, StackDrawing, stack as stack_drawing};

use super::drawing::markup;
use super::vessels::{marks_of, open_editor};
use crate::canvas::size_of;
use crate::dom::{El, block, html, key_of, svg, words};
use crate::flown::Same;
use crate::react::Memo;
use crate::state::{Page, page};

/// The drawing as it is now, once there is room for it.
type Drawing = Memo<Option<Same<StackDrawing>>>;

/// The stack drawing; every part opens its inputs.
pub fn stack() -> El {
    let page = page();
    let room = block("div", "stack-room");
    let size = size_of(&room);
    let drawing = Memo::new(move |_| {
        let (width, height) = size.get()?;
        let marks = page.flown.vessels.with(|vessels| marks_of(vessels));
        Some(Same::new(stack_drawing(&page.flown.rocket.get(), &marks, width, height)))
    });
    // The buttons last as long as there are the same parts, so that none is taken away under a finger or from the keyboard.
    let parts = Memo::new(move |_| {
        let parts = |drawing: &Same<StackDrawing>| drawing.parts.iter().map(|part| part.part).collect::<Vec<_>>();
        drawing.with(|drawing| drawing.as_ref().map(parts).unwrap_or_default())
    });
    let hint = "Tap a part to change its numbers. A dot marks what differs from the default.";
    block("section", "stack")
        .attr("aria-labelledby", "stack-title")
        .child(html("h2").attr("id", "stack-title").text("The stack"))
        .child(words("p", "stack-hint", hint))
        .child(
            words("p", "stack-hint", "The place of the weakest vessel part is schematic.")
                .hidden_when(move || page.flown.vessels.with(|vessels| vessels.parts.is_empty())),
        )
        .child(room.content(move || parts.with(|parts| picture(page, drawing, parts))))
}

fn picture(page: &'static Page, drawing: Drawing, parts: &[Part]) -> Vec<El> {
    if parts.is_empty() {
        return Vec::new();
    }
    let of = move |make: fn(&StackDrawing) -> String| {
        move || drawing.with(|drawing| drawing.as_ref().map(|drawing| make(drawing)))
    };
    let description = of(|drawing| drawing.description.clone());
    let weakest = move || drawing.with(|drawing| drawing.as_ref().and_then(|drawing| drawing.weakest.clone()));
    let picture = svg("svg")
        .attrs(&[("class", "drawing stack-drawing"), ("role", "group"), ("aria-label", "Parts of the stack")])
        .attr_live("viewBox", of(|drawing| drawing.view_box.view_box()))
        .child(svg("g").drawn(of(|drawing| markup(drawing.parts.iter().flat_map(|part| &part.shapes)))))
        .children(parts.iter().enumerate().map(|(index, part)| part_button(page, drawing, index, *part)))
        .child(svg("g").content(move || weakest().iter().map(mark_button).collect()));
    vec![block("p", "spoken").text_live(move || description().unwrap_or_default()), picture]
}

/// A label with its leader, which works like a button.
fn part_button(page: &'static Page, drawing: Drawing, index: usize, part: Part) -> El {
    let of = move |make: fn(&PartDrawing) -> String| {
        move || drawing.with(|drawing| drawing.as_ref().and_then(|drawing| drawing.parts.get(index).map(make)))
    };
    let is_open = move || page.open_part.get() == Some(part);
    let is_changed = move || page.design.with(|design| Input::of_part(part).any(|input| !design.is_default(input)));
    let mark = svg("circle")
        .attrs(&[("class", "changed-mark"), ("r", "5")])
        .attr_live("cx", of(|drawn| (drawn.hit.x + drawn.hit.width).to_string()))
        .attr_live("cy", of(|drawn| drawn.hit.y.to_string()));
    let target = svg("g").drawn(of(|drawn| target(drawn.hit, &drawn.label)));
    drawn_button(target, Rc::new(move || page.toggle_part(part)))
        .attr_live("aria-label", of(spoken_name))
        .attr("data-part", &format!("{part:?}"))
        .class_when("open", is_open)
        .class_when("changed", is_changed)
        .says("aria-expanded", is_open)
        .child(mark)
}

/// Begins with the words in the drawing, which are what somebody says who steers by voice.
fn spoken_name(drawn: &PartDrawing) -> String {
    let missing = if drawn.fitted { "" } else { " none fitted" };
    format!("{}{missing}: {}", drawn.word, drawn.part.title())
}

/// The mark of a vessel part, which opens it in the list of question 3.
pub fn mark_button(drawn: &MarkDrawing) -> El {
    let number = drawn.number;
    let target = target(drawn.hit, drawn.label.iter().chain(&drawn.shapes));
    drawn_button(svg("g").drawn(move || Some(target.clone())), Rc::new(move || open_editor(number)))
        .attrs(&[("aria-label", &drawn.name), ("data-mark", &number.to_string())])
        .child(svg("title").text(&drawn.name))
}

/// What is tapped, and what is drawn of it.
fn target<'a>(hit: Area, label: impl IntoIterator<Item = &'a Shape>) -> String {
    markup(&[Shape::Rect { area: hit, class: "button" }]) + &markup(label)
}

/// A place in a drawing that works like a button.
fn drawn_button(target: El, press: Rc<dyn Fn()>) -> El {
    let click = Rc::clone(&press);
    svg("g")
        .attrs(&[("class", "part-button"), ("role", "button"), ("tabindex", "0")])
        .on("click", move |_| click())
        .on("keydown", move |event| {
            if matches!(key_of(&event).as_str(), "Enter" | " ") {
                event.prevent_default();
                press();
            }
        })
        .child(target)
}
