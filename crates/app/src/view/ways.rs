//! The choices as rows.

use super::quantity::{Look, quantity};
use crate::choices::{Choice, Way, choices};
use crate::dom::{El, block, button, html, words};
use crate::react::Memo;
use crate::state::{Page, page};

/// Every way to stage with its height at the present delay; a tap shows its line alone.
pub fn ways() -> [El; 2] {
    let page = page();
    // The rows stay while the delay moves; only a fitted tube or restrictor brings another one.
    let fitted = Memo::new(move |_| page.flown.bare.with(Option::is_some));
    let rows = move || {
        let fitted_row = fitted.get().then_some(Way::Fitted);
        [Way::Settled, Way::Bare].into_iter().chain(fitted_row).map(way_row).collect()
    };
    [words("h3", "ways-title", "The choices at this delay"), block("ul", "ways").content(rows)]
}

/// One row; its numbers follow the delay.
fn way_row(way: Way) -> El {
    let page = page();
    let shown = page.shown_way;
    let toggle = move || shown.update(|shown| *shown = if *shown == Some(way) { None } else { Some(way) });
    let of = move |pick: fn(Choice) -> Option<f64>| move || now(page, way).and_then(pick);
    let latest = of(|choice| choice.latest_release_s);
    let by = html("span")
        .hidden_when(move || latest().is_none())
        .text(" · release by ")
        .child(quantity(latest, Look::of(2, "s")));
    let mut more = block("span", "way-more")
        .child(quantity(of(|choice| choice.above_settled_m), Look { signed: true, ..Look::of(1, "m") }))
        .child(by);
    if way == Way::Settled {
        more = more.attr("hidden", "");
    }
    let height = block("span", "way-height").child(quantity(of(|choice| Some(choice.apogee_m)), Look::of(1, "m")));
    let row = button("", toggle)
        .attrs(&[("class", "way"), ("data-test", &format!("way-{way:?}"))])
        .says("aria-pressed", move || shown.get() == Some(way))
        .child(words("span", "way-name", way.name()).child(words("span", "way-what", way.what())))
        .child(block("span", "way-numbers").child(height).child(more));
    html("li").child(row)
}

fn now(page: &Page, way: Way) -> Option<Choice> {
    let bare = page.flown.bare.get();
    page.flown.answers.with(|own| choices(own.as_ref()?, bare.as_deref()).into_iter().find(|choice| choice.way == way))
}
