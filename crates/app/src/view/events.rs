//! The events of the flight with their times.

use std::sync::Arc;

use holdwater_answers::numbers::Event;
use leptos::prelude::*;

use super::quantity::Quantity;
use crate::live::{live, part};
use crate::seen::Seen;

type Flight = RwSignal<Option<Arc<Seen>>>;

/// Every event, with the time after lift-off and the time a timer started at burnout counts.
#[component]
pub fn Events(seen: Flight) -> impl IntoView {
    let heads = ["Event", "after lift-off, s", "after burnout, s", "height, m", "speed, m/s"];
    let names = Memo::new(move |_| {
        let names = |seen: &Arc<Seen>| seen.answers.events.iter().map(|event| event.what).collect();
        seen.with(|seen| seen.as_ref().map(names).unwrap_or_else(Vec::new))
    });
    // The rows stay while the times in them change: the same events happen at most delays.
    let rows = move || names.get().into_iter().enumerate().map(|(index, name)| row(seen, index, name)).collect();
    view! {
        <div class="table-box" tabindex="0" role="region" aria-label="Events of the flight">
            <table class="events">
                <thead><tr>{heads.map(|head| view! { <th scope="col">{head}</th> })}</tr></thead>
                <tbody>{part::<Vec<AnyView>>(rows)}</tbody>
            </table>
        </div>
    }
}

fn row(seen: Flight, index: usize, name: &'static str) -> AnyView {
    let cell = move |pick: fn(&Event) -> Option<f64>, decimals| {
        let number = move || seen.with(|seen| seen.as_ref()?.answers.events.get(index).and_then(pick));
        view! { <td><Quantity value=live(number) decimals/></td> }
    };
    view! {
        <tr data-test="event-row">
            <th scope="row">{name}</th>
            {cell(|event| Some(event.t_s), 2)}
            {cell(|event| event.after_burnout_s, 2)}
            {cell(|event| Some(event.h_m), 1)}
            {cell(|event| Some(event.v_mps), 1)}
        </tr>
    }
    .into_any()
}
