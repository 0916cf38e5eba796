//! The events of the flight with their times.

use holdwater_answers::numbers::Event;
use leptos::prelude::*;

use super::quantity::Quantity;
use crate::state::page;

/// Every event, with the time after lift-off and the time a timer started at burnout counts.
#[component]
pub fn Events() -> impl IntoView {
    let page = page();
    let events = move || page.flown.answers.with(|answers| answers.as_ref().map(|answers| answers.events.clone()).unwrap_or_default());
    view! {
        <div class="table-box" tabindex="0" role="region" aria-label="Events">
            <table class="events">
                <caption class="spoken">"Events of the flight"</caption>
                <thead>
                    <tr>
                        <th scope="col">"Event"</th>
                        <th scope="col">"after lift-off, s"</th>
                        <th scope="col">"after burnout, s"</th>
                        <th scope="col">"height, m"</th>
                        <th scope="col">"speed, m/s"</th>
                    </tr>
                </thead>
                <tbody>{move || events().into_iter().map(row).collect_view()}</tbody>
            </table>
        </div>
    }
}

fn row(event: Event) -> impl IntoView {
    view! {
        <tr data-test="event-row">
            <th scope="row">{event.what}</th>
            <td><Quantity value=Some(event.t_s) decimals=2/></td>
            <td><Quantity value=event.after_burnout_s decimals=2/></td>
            <td><Quantity value=Some(event.h_m) decimals=1/></td>
            <td><Quantity value=Some(event.v_mps) decimals=1/></td>
        </tr>
    }
}
