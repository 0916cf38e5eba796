//! The choices as rows.

use leptos::prelude::*;

use super::delay_chart::ShownWay;
use super::quantity::Quantity;
use crate::choices::{Choice, choices};
use crate::state::page;

/// Every way to stage with its height at the present delay; a tap shows its line alone.
#[component]
pub fn Ways() -> impl IntoView {
    let page = page();
    let rows = Memo::new(move |_| {
        let bare = page.flown.bare.get();
        page.flown.answers.with(|own| own.as_ref().map(|own| choices(own, bare.as_deref())).unwrap_or_default())
    });
    view! {
        <h3 class="ways-title">"The choices at this delay"</h3>
        <ul class="ways">
            <For each=move || rows.get() key=|choice| choice.name let:choice>
                <WayRow choice rows/>
            </For>
        </ul>
    }
}

/// One row. Its numbers are read anew from the list, so that the row itself stays while the delay moves.
#[component]
fn WayRow(choice: Choice, rows: Memo<Vec<Choice>>) -> impl IntoView {
    let shown = expect_context::<ShownWay>().0;
    let way = choice.way;
    let now = move || rows.with(|rows| rows.iter().find(|row| row.way == way).copied());
    let height = Signal::derive(move || now().map(|now| now.apogee_m));
    let above = Signal::derive(move || now().and_then(|now| now.above_settled_m));
    let latest = Signal::derive(move || now().and_then(|now| now.latest_release_s));
    let pressed = move || shown.get() == Some(way);
    let toggle = move |_| shown.update(|shown| *shown = if *shown == Some(way) { None } else { Some(way) });
    view! {
        <li>
            <button type="button" class="way" aria-pressed=move || pressed().to_string() data-test=format!("way-{way:?}") on:click=toggle>
                <span class="way-name">{choice.name}<span class="way-what">{choice.what}</span></span>
                <span class="way-numbers">
                    <span class="way-height"><Quantity value=height decimals=1 unit="m"/></span>
                    <span class="way-more">
                        {move || above.get().map(|_| view! { <Quantity value=above decimals=1 unit="m" signed=true/> })}
                        {move || latest.get().map(|_| view! { <span>" · release by "<Quantity value=latest decimals=2 unit="s"/></span> })}
                    </span>
                </span>
            </button>
        </li>
    }
}
