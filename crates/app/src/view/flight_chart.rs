//! Height, speed and acceleration against time.

use std::sync::Arc;
use std::time::Duration;

use holdwater_answers::curves::FlightCurves;
use holdwater_answers::numbers::Answers;
use holdwater_pictures::chart::{describe_flight, draw_flight, flight_table, thrust_window};
use leptos::prelude::*;
use plotters::prelude::IntoDrawingArea;

use super::tables::NumberTable;
use crate::browser::WhenQuiet;
use crate::canvas::keep_painted;
use crate::flown::Flown;
use crate::live::{follow, live, on};
use crate::state::page;

/// Rows of the table besides those of the events.
const TABLE_ROWS: usize = 17;

/// How long the delay has to rest before the flight is drawn anew; drawing it costs more than all else that
/// moves with the delay.
const PAUSE: Duration = Duration::from_millis(60);

/// A flight with its answers.
type Seen = (FlightCurves, Arc<Answers>);

/// The chart of the whole flight or of its thrust, with a sentence and a table.
#[component]
pub fn FlightChart() -> impl IntoView {
    let seen = seen_flight(page().flown);
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
            if let Some((curves, answers)) = seen.get_untracked().as_deref() {
                let window = if thrust_only.get_untracked() { thrust_window(curves) } else { None };
                // A chart without room stays blank; sentence and table below say the same.
                let _ = draw_flight(&backend.into_drawing_area(), curves, &answers.events, window, look);
            }
        },
    );
    let says = move || seen.get().map(|seen| describe_flight(&seen.0, &seen.1.events)).unwrap_or_default();
    let rows = move || seen.get().map(|seen| flight_table(&seen.0, &seen.1.events, TABLE_ROWS)).unwrap_or_default();
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

/// The flight at the delay, made anew once the delay rests.
fn seen_flight(flown: Flown) -> RwSignal<Option<Arc<Seen>>> {
    let seen = RwSignal::new(None);
    let look = move || seen.set(flight_now(flown).map(Arc::new));
    let later = WhenQuiet::new(PAUSE, look);
    follow(move || {
        flown.answers.track();
        if seen.with_untracked(Option::is_none) {
            look();
        } else {
            later.ask();
        }
    });
    seen
}

fn flight_now(flown: Flown) -> Option<Seen> {
    let answers = flown.answers.get_untracked()?;
    let study = flown.study.get_untracked()?;
    Some((study.0.flight(flown.delay.get_untracked()), answers))
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
