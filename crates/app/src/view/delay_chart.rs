//! Height against delay, with the delay to be dragged along it.
//!
//! The canvas is painted when the curves change. The delay lies over it as a line and two dots, so that moving it
//! repaints nothing.

use std::rc::Rc;

use holdwater_answers::csv;
use holdwater_answers::curves::{DelayCurves, NamedLine};
use holdwater_design::Input;
use holdwater_design::measure::{Measure, System};
use holdwater_pictures::chart::{
    Frame, delay_heads, delay_svg, delay_table as delay_table_rows, describe_delay, draw_delay,
};
use wasm_bindgen::JsCast;
use web_sys::{Event, PointerEvent};

use super::drag::Drag;
use super::export::save_chart;
use super::tables::number_table;
use crate::canvas::{file_look, keep_painted};
use crate::choices::Way;
use crate::dom::{El, block, html, key_of, svg, words};
use crate::line::Line;
use crate::react::{Memo, RwSignal};
use crate::state::{Page, page};

/// Presses of the delay's step that one key moves.
const FINE: i32 = 1;
const COARSE: i32 = 5;
/// Rows of the table.
const TABLE_ROWS: usize = 17;
/// The canvas, for whoever saves it.
const CANVAS: &str = "delay-canvas";

/// The chart with its marker.
pub fn delay_chart() -> El {
    let page = page();
    let frame = page.delay_frame;
    let shown = page.shown_way;
    let drag = Rc::new(Drag::along(move |px| {
        if let Some(frame) = frame.get_untracked() {
            page.drag_delay(frame.delay_at(px));
        }
    }));
    let pointer = |handle: fn(&Drag, &PointerEvent)| {
        let drag = Rc::clone(&drag);
        move |event: Event| {
            if let Some(event) = event.dyn_ref() {
                handle(&drag, event);
            }
        }
    };
    let canvas = html("canvas").attrs(&[("aria-hidden", "true"), ("id", CANVAS)]);
    let room = block("div", "delay-chart")
        .attrs(&[
            ("data-test", "delay-chart"),
            ("role", "slider"),
            ("tabindex", "0"),
            ("aria-label", "Staging delay on the chart of height against delay"),
            ("aria-valuemin", "0"),
        ])
        .class_when("updating", move || page.flown.updating.get())
        .attr_live("aria-valuemax", move || page.flown.longest_delay().map(|longest| longest.to_string()))
        .attr_live("aria-valuenow", move || Some(page.flown.delay.get().to_string()))
        .attr_live("aria-valuetext", move || spoken(page))
        .on("pointerdown", pointer(Drag::down))
        .on("pointermove", pointer(Drag::moved))
        .on("pointerup", pointer(Drag::up))
        .on("pointercancel", pointer(|drag, _| drag.cancel()))
        .on("keydown", move |event| by_key(page, &event))
        .child(canvas.clone())
        .child(marker(frame))
        .child(words("p", "updating-word", "updating"));
    keep_painted(
        &room,
        &canvas,
        Box::new(move || {
            page.flown.curves.track();
            page.compare.line.track();
            page.flown.holds.updating.track();
            page.flown.holds.lines.iter().for_each(|line| line.track());
            shown.track();
        }),
        Box::new(move |backend, look| {
            let curves = page.flown.curves.get_untracked();
            let other = alone(&curves, shown.get_untracked()).or_else(|| with_more(page, &curves));
            frame.set(draw_delay(backend, other.as_ref().unwrap_or(&curves), look).ok());
        }),
    );
    room
}

/// The chart in a sentence, as a table, and as files.
pub fn delay_table() -> [El; 3] {
    let (curves, units) = (page().flown.curves, page().units);
    let rows = move || delay_table_rows(&curves.get(), TABLE_ROWS, units.get());
    [
        block("p", "says").text_live(move || describe_delay(&curves.get(), units.get())),
        number_table("Height against delay as a table", move || delay_heads(units.get()), rows),
        save_chart(
            "delay",
            CANVAS,
            move || delay_svg(&curves.get_untracked(), &file_look(units)).ok(),
            move || csv::delay(&curves.get_untracked()),
        ),
    ]
}

/// The delay as a line through the plot, with a dot on the settled ideal and one on the design as it stands.
fn marker(frame: RwSignal<Option<Frame>>) -> El {
    let page = page();
    let place = Memo::new(move |_| {
        let frame = frame.get()?;
        let answers = page.flown.answers.get()?;
        let inside = |metres: f64| frame.y_of(metres).max(frame.top).min(frame.bottom);
        let x = frame.x_of(page.flown.delay.get()).min(frame.right);
        let (settled, own) = (inside(answers.settled_apogee_m), inside(answers.apogee_m));
        Some(Place { x, top: frame.top, bottom: frame.bottom, settled, own })
    });
    let at = move |pick: fn(Place) -> f64| move || place.get().map(|place| pick(place).to_string());
    let dot = |class, radius, height: fn(Place) -> f64| {
        svg("circle").class(class).attr("r", radius).attr_live("cx", at(|p| p.x)).attr_live("cy", at(height))
    };
    let line = svg("line")
        .class("marker-line")
        .attr_live("x1", at(|p| p.x))
        .attr_live("x2", at(|p| p.x))
        .attr_live("y1", at(|p| p.top))
        .attr_live("y2", at(|p| p.bottom));
    svg("svg")
        .attrs(&[("class", "marker"), ("aria-hidden", "true")])
        .class_when("empty", move || place.get().is_none())
        .child(line)
        .child(dot("marker-settled", "4", |p| p.settled))
        .child(dot("marker-own", "5", |p| p.own))
}

/// Where the marker lies on the chart, CSS px.
#[derive(Clone, Copy, PartialEq)]
struct Place {
    x: f64,
    top: f64,
    bottom: f64,
    settled: f64,
    own: f64,
}

/// The curves with all lines but the picked one taken out; `None` when all are shown.
fn alone(curves: &DelayCurves, way: Option<Way>) -> Option<DelayCurves> {
    let mut one = DelayCurves {
        settled_m: Vec::new(),
        bare_m: Vec::new(),
        tube_m: Vec::new(),
        more: Vec::new(),
        ..curves.clone()
    };
    match way? {
        Way::Settled => one.settled_m.clone_from(&curves.settled_m),
        Way::Bare => one.bare_m.clone_from(&curves.bare_m),
        Way::Fitted if !curves.tube_m.is_empty() => one.tube_m.clone_from(&curves.tube_m),
        // Only a staging tube has a curve of its own so far.
        Way::Fitted => return None,
    }
    Some(one)
}

/// The curves with the lines of the best restrictor, the best tube and the pinned design; `None` when there are none.
fn with_more(page: &Page, curves: &DelayCurves) -> Option<DelayCurves> {
    let mut all = curves.clone();
    let mut add = |name: &str, line: &Line| {
        if !line.is_empty() {
            all.more.push(NamedLine { name: name.to_owned(), heights: line.at(&curves.delay_s) });
        }
    };
    // Those of the design before are no choices of this one.
    let lines = if page.flown.holds.updating.get_untracked() { &[][..] } else { &page.flown.holds.lines };
    for (name, line) in ["best plate", "best tube"].into_iter().zip(lines) {
        add(name, &line.get_untracked());
    }
    if page.compare.get_untracked().is_some() {
        add("pinned", &page.compare.line.get_untracked());
    }
    (!all.more.is_empty()).then_some(all)
}

/// What a screen reader says when the delay moves along the chart.
fn spoken(page: &Page) -> Option<String> {
    let answers = page.flown.answers.get()?;
    let (delay, own, settled) = (page.flown.delay.get(), answers.apogee_m, answers.settled_apogee_m);
    let units = page.units.get();
    let (own, settled) = (Measure::Distance.shown(units, own), Measure::Distance.shown(units, settled));
    let word = if units == System::Us { "feet" } else { "metres" };
    Some(format!("{delay:.2} seconds: {own:.0} {word}, settled ideal {settled:.0}"))
}

fn by_key(page: &Page, event: &Event) {
    let coarse = event.dyn_ref::<web_sys::KeyboardEvent>().is_some_and(web_sys::KeyboardEvent::shift_key);
    let presses = if coarse { COARSE } else { FINE };
    match key_of(event).as_str() {
        "ArrowRight" | "ArrowUp" => page.press(Input::Delay, presses),
        "ArrowLeft" | "ArrowDown" => page.press(Input::Delay, -presses),
        "Home" => page.drag_delay(0.0),
        "End" => page.drag_delay(f64::MAX),
        _ => return,
    }
    event.prevent_default();
}
