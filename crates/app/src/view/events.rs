//! The events of the flight with their times.

use holdwater_answers::numbers::{Answers, Event};
use leptos::prelude::*;

use super::quantity::Quantity;
use crate::live::{live, part};
use crate::state::{Page, page};

/// Every event, with the time after lift-off and the time a timer started at burnout counts.
#[component]
pub fn Events() -> impl IntoView {
    let page = page();
    let names = Memo::new(move |_| {
        let names = |answers: &Answers| answers.events.iter().map(|event| event.what).collect();
        page.flown.answers.with(|answers| answers.as_deref().map(names).unwrap_or_else(Vec::new))
    });
    let heads = ["Event", "after lift-off, s", "after burnout, s", "height, m", "speed, m/s"];
    view! {
        <div class="table-box" tabindex="0" role="region" aria-label="Events of the flight">
            <table class="events">
                <thead><tr>{heads.map(|head| view! { <th scope="col">{head}</th> })}</tr></thead>
                <tbody>{part(move || rows(page, &names.read()))}</tbody>
            </table>
        </div>
    }
}

/// The rows stay while the times in them change: the same events happen at most delays.
fn rows(page: &'static Page, names: &[&'static str]) -> Vec<AnyView> {
    names.iter().enumerate().map(|(index, name)| row(page, index, name)).collect()
}

fn row(page: &'static Page, index: usize, name: &'static str) -> AnyView {
    let cell = move |pick: fn(&Event) -> Option<f64>, decimals| {
        let number = move || page.flown.answers.with(|answers| answers.as_ref()?.events.get(index).and_then(pick));
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
