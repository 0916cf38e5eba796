//! Height, speed and acceleration against time.

use std::sync::Arc;

use holdwater_answers::csv;
use holdwater_pictures::chart::{describe_flight, draw_flight, flight_heads, flight_svg, flight_table, thrust_window};

use super::export::save_chart;
use super::tables::number_table;
use crate::canvas::{file_look, keep_painted};
use crate::dom::{El, block, button, html};
use crate::react::RwSignal;
use crate::seen::Seen;
use crate::state::page;

/// Rows of the table besides those of the events.
const TABLE_ROWS: usize = 17;
/// The canvas, for whoever saves it.
const CANVAS: &str = "flight-canvas";

/// The chart of the whole flight or of its thrust, with a sentence and a table.
pub fn flight_chart(seen: RwSignal<Option<Arc<Seen>>>) -> El {
    let thrust_only = RwSignal::new(false);
    let canvas = html("canvas").attrs(&[("data-test", "flight-chart"), ("aria-hidden", "true"), ("id", CANVAS)]);
    let room = block("div", "flight-chart").child(canvas.clone());
    keep_painted(
        &room,
        &canvas,
        Box::new(move || {
            seen.track();
            thrust_only.track();
        }),
        Box::new(move |backend, look| {
            if let Some(Seen { curves, answers }) = seen.get_untracked().as_deref() {
                let window = if thrust_only.get_untracked() { thrust_window(curves) } else { None };
                // A chart without room stays blank; sentence and table below say the same.
                let _ = draw_flight(backend, curves, &answers.events, window, look);
            }
        }),
    );
    let units = page().units;
    let describe = move |seen: Arc<Seen>| describe_flight(&seen.curves, &seen.answers.events, units.get());
    let says = move || seen.get().map(describe).unwrap_or_default();
    let table = move |seen: Arc<Seen>| flight_table(&seen.curves, &seen.answers.events, TABLE_ROWS, units.get());
    let heads = move || flight_heads(units.get());
    let pick = block("div", "pick")
        .attrs(&[("role", "group"), ("aria-label", "Part of the flight shown")])
        .child(choose(thrust_only, false, "Whole flight"))
        .child(choose(thrust_only, true, "Thrust only"));
    let as_svg = move || {
        let seen = seen.get_untracked()?;
        flight_svg(&seen.curves, &seen.answers.events, None, &file_look(units)).ok()
    };
    let as_csv = move || seen.get_untracked().map(|seen| csv::flight(&seen.curves)).unwrap_or_default();
    html("figure")
        .child(pick)
        .child(room)
        .child(block("figcaption", "says").text_live(says))
        .child(number_table("The flight as a table", heads, move || seen.get().map(table).unwrap_or_default()))
        .child(save_chart("flight", CANVAS, as_svg, as_csv))
}

/// One of the two parts of the flight to look at.
fn choose(thrust_only: RwSignal<bool>, thrust: bool, word: &str) -> El {
    button(word, move || thrust_only.set(thrust)).says("aria-pressed", move || thrust_only.get() == thrust)
}
