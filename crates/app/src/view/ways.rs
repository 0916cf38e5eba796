//! The choices as rows.

use leptos::prelude::*;

use super::delay_chart::ShownWay;
use super::quantity::Quantity;
use crate::choices::{Choice, Way, choices};
use crate::live::{live, on, part};
use crate::state::{Page, page};

/// Every way to stage with its height at the present delay; a tap shows its line alone.
#[component]
pub fn Ways() -> impl IntoView {
    let page = page();
    // The rows stay while the delay moves; only a fitted tube or restrictor brings another one.
    let fitted = Memo::new(move |_| page.flown.bare.with(Option::is_some));
    let rows = move || {
        let row = |way| view! { <WayRow way/> }.into_any();
        let fitted_row = fitted.get().then_some(Way::Fitted);
        [Way::Settled, Way::Bare].into_iter().chain(fitted_row).map(row).collect::<Vec<_>>()
    };
    view! {
        <h3 class="ways-title">"The choices at this delay"</h3>
        <ul class="ways">{part(rows)}</ul>
    }
}

/// One row; its numbers follow the delay.
#[component]
fn WayRow(way: Way) -> impl IntoView {
    let page = page();
    let shown = expect_context::<ShownWay>().0;
    let toggle = move |_| shown.update(|shown| *shown = if *shown == Some(way) { None } else { Some(way) });
    let height = live(move || now(page, way).map(|choice| choice.apogee_m));
    let above = live(move || now(page, way).and_then(|choice| choice.above_settled_m));
    let latest = live(move || now(page, way).and_then(|choice| choice.latest_release_s));
    let no_latest = live(move || now(page, way).and_then(|choice| choice.latest_release_s).is_none());
    view! {
        <li>
            <button
                type="button" class="way" data-test=format!("way-{way:?}")
                aria-pressed=live(move || (shown.get() == Some(way)).to_string()) on:click=on(toggle)
            >
                <span class="way-name">{way.name()}<span class="way-what">{way.what()}</span></span>
                <span class="way-numbers">
                    <span class="way-height"><Quantity value=height decimals=1 unit="m"/></span>
                    <span class="way-more" hidden=way == Way::Settled>
                        <Quantity value=above decimals=1 unit="m" signed=true/>
                        <span hidden=no_latest>" · release by "<Quantity value=latest decimals=2 unit="s"/></span>
                    </span>
                </span>
            </button>
        </li>
    }
}

fn now(page: &Page, way: Way) -> Option<Choice> {
    let bare = page.flown.bare.get();
    page.flown.answers.with(|own| choices(own.as_ref()?, bare.as_deref()).into_iter().find(|choice| choice.way == way))
}
