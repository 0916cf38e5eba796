//! Height, speed and acceleration against time.

use std::sync::Arc;

use holdwater_pictures::chart::{describe_flight, draw_flight, flight_table, thrust_window};
use leptos::prelude::*;
use plotters::prelude::IntoDrawingArea;

use super::tables::NumberTable;
use crate::canvas::keep_painted;
use crate::live::{live, on};
use crate::seen::Seen;

/// Rows of the table besides those of the events.
const TABLE_ROWS: usize = 17;

/// The chart of the whole flight or of its thrust, with a sentence and a table.
#[component]
pub fn FlightChart(seen: RwSignal<Option<Arc<Seen>>>) -> impl IntoView {
    let thrust_only = RwSignal::new(false);
    let (room, canvas) = (NodeRef::new(), NodeRef::new());
    keep_painted(
        room,
        canvas,
        move || {
            seen.track();
            thrust_only.track();
        },
        move |backend, look| {
            if let Some(Seen { curves, answers }) = seen.get_untracked().as_deref() {
                let window = if thrust_only.get_untracked() { thrust_window(curves) } else { None };
                // A chart without room stays blank; sentence and table below say the same.
                let _ = draw_flight(&backend.into_drawing_area(), curves, &answers.events, window, look);
            }
        },
    );
    let says = move || seen.get().map(|seen| describe_flight(&seen.curves, &seen.answers.events)).unwrap_or_default();
    let table = |seen: Arc<Seen>| flight_table(&seen.curves, &seen.answers.events, TABLE_ROWS);
    let rows = move || seen.get().map(table).unwrap_or_default();
    view! {
        <figure>
            <div class="pick" role="group" aria-label="Part of the flight shown">
                <Choose thrust_only thrust=false word="Whole flight"/>
                <Choose thrust_only thrust=true word="Thrust only"/>
            </div>
            <div class="flight-chart" node_ref=room>
                <canvas node_ref=canvas data-test="flight-chart" aria-hidden="true"></canvas>
            </div>
            <figcaption class="says">{live(says)}</figcaption>
            <NumberTable
                title="The flight as a table"
                heads=["time, s", "height, m", "speed, m/s", "acceleration, m/s²"]
                rows=live(rows)
            />
        </figure>
    }
}

/// One of the two parts of the flight to look at.
#[component]
fn Choose(thrust_only: RwSignal<bool>, thrust: bool, word: &'static str) -> impl IntoView {
    view! {
        <button
            type="button" aria-pressed=live(move || (thrust_only.get() == thrust).to_string())
            on:click=on(move |_| thrust_only.set(thrust))
        >
            {word}
        </button>
    }
}
