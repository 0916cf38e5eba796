//! The events of the flight with their times.

use std::sync::Arc;

use holdwater_answers::numbers::Event;
use holdwater_pictures::chart::event_heads;

use super::quantity::{Look, quantity};
use super::tables::live_table;
use crate::dom::{El, html};
use crate::react::{Memo, RwSignal};
use crate::seen::Seen;
use crate::state::page;

type Flight = RwSignal<Option<Arc<Seen>>>;

/// Every event, with the time after lift-off and the time a timer started at burnout counts.
pub fn events(seen: Flight) -> El {
    let units = page().units;
    let heads = move || event_heads(units.get()).to_vec();
    let names = Memo::new(move |_| {
        let names = |seen: &Arc<Seen>| seen.answers.events.iter().map(|event| event.what).collect();
        seen.with(|seen| seen.as_ref().map(names).unwrap_or_else(Vec::new))
    });
    // The rows stay while the times in them change: the same events happen at most delays.
    let rows = move || names.get().into_iter().enumerate().map(|(index, name)| row(seen, index, name)).collect();
    live_table("Events of the flight", "events", heads, html("tbody").content(rows))
}

fn row(seen: Flight, index: usize, name: &str) -> El {
    let cell = move |pick: fn(&Event) -> Option<f64>, decimals, unit| {
        let number = move || seen.with(|seen| seen.as_ref()?.answers.events.get(index).and_then(pick));
        html("td").child(quantity(number, Look::under_head(decimals, unit)))
    };
    html("tr")
        .attr("data-test", "event-row")
        .child(html("th").attr("scope", "row").text(name))
        .child(cell(|event| Some(event.t_s), 2, "s"))
        .child(cell(|event| event.after_burnout_s, 2, "s"))
        .child(cell(|event| Some(event.h_m), 1, "m"))
        .child(cell(|event| Some(event.v_mps), 1, "m/s"))
}
