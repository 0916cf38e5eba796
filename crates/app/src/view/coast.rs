//! Question 1: how long may it coast?

use holdwater_answers::words::why_coast;
use holdwater_pictures::drawing::{Drawing, cutaway};

use super::delay_chart::{delay_chart, delay_table};
use super::delay_control::delay_control;
use super::drawing::markup;
use super::ways::ways;
use super::words::{notes, why_panels};
use crate::canvas::size_of;
use crate::dom::{El, block, html, svg, words};
use crate::react::Memo;
use crate::state::page;

/// The question: the picture, which stays in view while inputs are open, then the choices and the reasons.
pub fn coast() -> El {
    let page = page();
    // Compared, so that a change of another input does not build the chart anew.
    let staged = Memo::new(move |_| page.flown.rocket.with(|rocket| rocket.booster.is_some()));
    let empty = move || !staged.get() || page.flown.is_empty();
    let more = block("div", "coast-more")
        .child(html("div").hidden_when(empty).children(ways()))
        .child(notes())
        .child(html("div").hidden_when(empty).children(delay_table()))
        .child(why_panels(why_coast()));
    block("section", "coast")
        .attr("aria-labelledby", "coast-title")
        .child(html("h2").attr("id", "coast-title").text("How long may it coast?"))
        .child(picture(staged))
        .child(more)
}

/// The cut-away, the chart beside it, and the delay under its axis.
fn picture(staged: Memo<bool>) -> El {
    let beside = block("div", "coast-beside").content(move || {
        if staged.get() { std::iter::once(delay_chart()).chain(delay_control()).collect() } else { vec![unstaged()] }
    });
    // Without a flight there is nothing to draw; the delay can still be typed.
    block("div", "coast-picture")
        .class_when("single", move || !staged.get())
        .class_when("unflown", || page().flown.is_empty())
        .child(cutaway_drawing())
        .child(beside)
}

fn unstaged() -> El {
    let why = "A single stage is not released in flight: its water is pressed to the nozzle from \
               lift-off until it is gone.";
    words("p", "coast-none", why)
}

/// The cut-away of the sustainer, to scale, with its water where it is at the delay; made for the room it has, so that its words keep
/// their size.
fn cutaway_drawing() -> El {
    let (picture, units) = (page().flown.picture, page().units);
    let room = block("div", "cutaway").attr("data-test", "cutaway");
    let size = size_of(&room);
    let drawing = Memo::new(move |_| {
        let (width, height) = size.get()?;
        Some(cutaway(&picture.get()?, width, height, units.get()))
    });
    let of = move |pick: fn(&Drawing) -> String| move || drawing.with(|drawing| drawing.as_ref().map(pick));
    room.child(
        svg("svg")
            .attrs(&[("class", "drawing"), ("role", "img")])
            .attr_live("viewBox", of(|drawing| drawing.view_box.view_box()))
            .attr_live("aria-label", of(|drawing| drawing.description.clone()))
            .attr_live("aria-hidden", move || drawing.with(Option::is_none).then(|| "true".to_owned()))
            .drawn(of(|drawing| markup(&drawing.shapes))),
    )
}
