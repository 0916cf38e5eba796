//! Height against bore, with the bore to be dragged along it.

use std::rc::Rc;

use holdwater_answers::csv;
use holdwater_answers::curves::BoreCurves;
use holdwater_design::measure::show;
use holdwater_design::{Input, Unit};
use holdwater_pictures::chart::{BoreFrame, bore_heads, bore_svg, bore_table, describe_bore, draw_bore};
use wasm_bindgen::JsCast;
use web_sys::{Event, PointerEvent};

use super::drag::Drag;
use super::export::save_chart;
use super::tables::number_table;
use crate::canvas::{file_look, keep_painted};
use crate::dom::{El, block, html, key_of, svg, words};
use crate::react::{Memo, RwSignal};
use crate::state::{Change, Page, page};

/// Rows of the table.
const TABLE_ROWS: usize = 17;
/// The canvas, for whoever saves it.
const CANVAS: &str = "bore-canvas";

/// The chart with its marker, its sentence, its table and its files.
pub fn bore_chart() -> El {
    let page = page();
    let frame = RwSignal::new(None::<BoreFrame>);
    let drag = Rc::new(Drag::along(move |px| {
        if let Some(frame) = frame.get_untracked() {
            drag_bore(page, frame.bore_at(px));
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
    let bore = move || page.design.with(|design| design.number(Input::RestrictorBore));
    let room = block("div", "delay-chart bore-chart")
        .attrs(&[
            ("data-test", "bore-chart"),
            ("role", "slider"),
            ("tabindex", "0"),
            ("aria-label", "Bore of the restrictor on the chart of height against bore"),
            ("aria-valuemin", "0"),
            ("aria-valuemax", "500"),
        ])
        .class_when("updating", move || page.flown.holds.updating.get())
        .attr_live("aria-valuenow", move || Some(bore().to_string()))
        .attr_live("aria-valuetext", move || Some(show(Unit::Millimetre, page.units.get(), bore())))
        .on("pointerdown", pointer(Drag::down))
        .on("pointermove", pointer(Drag::moved))
        .on("pointerup", pointer(Drag::up))
        .on("pointercancel", pointer(|drag, _| drag.cancel()))
        .on("keydown", move |event| by_key(page, &event))
        .child(canvas.clone())
        .child(marker(page, frame))
        .child(words("p", "updating-word", "updating"));
    keep_painted(
        &room,
        &canvas,
        Box::new(move || page.flown.holds.held.track()),
        Box::new(move |backend, look| {
            if let Some(held) = page.flown.holds.held.get_untracked() {
                frame.set(draw_bore(backend, &held.curves, look, false).ok());
            }
        }),
    );
    let curves = move || page.flown.holds.held.get().map(|held| held.curves.clone()).unwrap_or_default();
    html("figure")
        .child(room)
        .child(block("figcaption", "says").text_live(move || describe_bore(&curves(), page.units.get())))
        .child(number_table(
            "Height against bore as a table",
            move || bore_heads(page.units.get()),
            move || bore_table(&curves(), TABLE_ROWS, page.units.get()),
        ))
        .child(save_chart(
            "bore",
            CANVAS,
            move || bore_svg(&curves(), &file_look(page.units)).ok(),
            move || csv::bore(&curves()),
        ))
}

/// Moves the bore to where a finger is, in tenths of a millimetre: finer than anybody drills.
fn drag_bore(page: &Page, bore_m: f64) {
    let tenths = (bore_m * 1e4).round();
    let value = Input::RestrictorBore.row().nearest(tenths / 10.0);
    if page.design.with_untracked(|design| design.get(Input::RestrictorBore)) != Some(value) {
        page.apply(Change::Value(Input::RestrictorBore, Some(value)));
    }
}

/// The bore as a line through the plot, with a dot on the curve.
fn marker(page: &'static Page, frame: RwSignal<Option<BoreFrame>>) -> El {
    let place = Memo::new(move |_| {
        let frame = frame.get()?;
        let bore_m = page.design.with(|design| design.number(Input::RestrictorBore)) / 1e3;
        if bore_m <= 0.0 {
            return None;
        }
        let height = page.flown.answers.with(|answers| answers.as_ref().map(|answers| answers.apogee_m))?;
        Some((frame.x_of(bore_m), frame.y_of(height), frame.plot.top, frame.plot.bottom))
    });
    let at = move |pick: fn((f64, f64, f64, f64)) -> f64| move || place.get().map(|place| pick(place).to_string());
    svg("svg")
        .attrs(&[("class", "marker"), ("aria-hidden", "true")])
        .class_when("empty", move || place.get().is_none())
        .child(
            svg("line")
                .class("marker-line")
                .attr_live("x1", at(|place| place.0))
                .attr_live("x2", at(|place| place.0))
                .attr_live("y1", at(|place| place.2))
                .attr_live("y2", at(|place| place.3)),
        )
        .child(
            svg("circle")
                .class("marker-own")
                .attr("r", "5")
                .attr_live("cx", at(|place| place.0))
                .attr_live("cy", at(|place| place.1)),
        )
}

fn by_key(page: &Page, event: &Event) {
    let coarse = event.dyn_ref::<web_sys::KeyboardEvent>().is_some_and(web_sys::KeyboardEvent::shift_key);
    let presses = if coarse { 5 } else { 1 };
    match key_of(event).as_str() {
        "ArrowRight" | "ArrowUp" => page.press(Input::RestrictorBore, presses),
        "ArrowLeft" | "ArrowDown" => page.press(Input::RestrictorBore, -presses),
        _ => return,
    }
    event.prevent_default();
}

/// Whether there is a curve to show.
pub fn has_curve(curves: &BoreCurves) -> bool {
    curves.bore_m.len() > 1
}
