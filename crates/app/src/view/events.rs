//! The events of the flight with their times.

use holdwater_answers::numbers::Event;
use leptos::prelude::*;

use super::quantity::{Quantity, fixed};
use crate::live::part;
use crate::state::{Page, page};

/// Every event, with the time after lift-off and the time a timer started at burnout counts.
#[component]
pub fn Events() -> impl IntoView {
    let page = page();
    let heads = [
        "Event",
        "after lift-off, s",
        "after burnout, s",
        "height, m",
        "speed, m/s",
    ];
    view! {
        <div class="table-box" tabindex="0" role="region" aria-label="Events of the flight">
            <table class="events">
                <thead><tr>{heads.map(|head| view! { <th scope="col">{head}</th> })}</tr></thead>
                <tbody>{part(move || rows(page))}</tbody>
            </table>
        </div>
    }
}

fn rows(page: &Page) -> Vec<AnyView> {
    let events = page
        .flown
        .answers
        .with(|answers| answers.as_ref().map(|answers| answers.events.clone()));
    events.unwrap_or_default().into_iter().map(row).collect()
}

fn row(event: Event) -> AnyView {
    view! {
        <tr data-test="event-row">
            <th scope="row">{event.what}</th>
            <td><Quantity value=fixed(Some(event.t_s)) decimals=2/></td>
            <td><Quantity value=fixed(event.after_burnout_s) decimals=2/></td>
            <td><Quantity value=fixed(Some(event.h_m)) decimals=1/></td>
            <td><Quantity value=fixed(Some(event.v_mps)) decimals=1/></td>
        </tr>
    }
    .into_any()
}
