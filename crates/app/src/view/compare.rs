//! The design at hand against a pinned one.

use std::sync::Arc;

use holdwater_answers::numbers::Answers;

use super::quantity::{Look, quantity};
use crate::compare::Pinned;
use crate::dom::{El, block, button, html, words};
use crate::state::{Page, page};

type Pick = fn(&Answers) -> Option<f64>;

/// What is compared: its name, where it stands in the answers, and how it is shown.
const LINES: [(&str, Pick, Look); 8] = [
    ("Apogee", |answers| Some(answers.apogee_m), Look::of(1, "m")),
    ("Settled ideal", |answers| Some(answers.settled_apogee_m), Look::of(1, "m")),
    ("Latest release", |answers| answers.latest_release_s, Look::of(2, "s")),
    ("Water uncovers the nozzle", |answers| answers.uncovers_s, Look::of(2, "s")),
    ("Speed at burnout", |answers| Some(answers.burnout.as_ref()?.v_mps), Look::of(1, "m/s")),
    ("Height at release", |answers| Some(answers.release.as_ref()?.h_m), Look::of(1, "m")),
    ("Sustainer's speed at burnout", |answers| Some(answers.sustainer.as_ref()?.v_burnout_mps), Look::of(1, "m/s")),
    ("Time of apogee", |answers| Some(answers.apogee_t_s), Look::of(2, "s")),
];

/// Pins a design, and shows every answer as a difference to it.
pub fn compare() -> El {
    let page = page();
    let pinned = page.compare;
    let pin = button("Pin this design", move || page.pin(true))
        .attr("data-test", "pin")
        .hidden_when(move || pinned.get().is_some());
    block("section", "question compare")
        .attr("aria-labelledby", "compare-title")
        .child(html("h2").attr("id", "compare-title").text("Compared with another design"))
        .child(
            words(
                "p",
                "says",
                "Pin the design as it is now, then change it: every answer is shown beside the pinned one.",
            )
            .hidden_when(move || pinned.get().is_some()),
        )
        .child(pin)
        .child(html("div").content(move || pinned.get().map(|pinned| against(page, &pinned)).unwrap_or_default()))
}

fn against(page: &'static Page, pinned: &Arc<Pinned>) -> Vec<El> {
    let column = |word: &str| html("th").attr("scope", "col").text(word);
    let what = column("").child(words("span", "spoken", "answer"));
    let head = std::iter::once(what).chain(["this", "pinned", "difference"].map(column));
    let rows = LINES.iter().map(|line| row(page, pinned, *line));
    let table = block("table", "differences")
        .attr("data-test", "differences")
        .child(html("thead").child(html("tr").children(head)))
        .child(html("tbody").children(rows));
    let swap = button("Swap the two", move || page.swap_pinned()).attr("data-test", "swap");
    let unpin = button("Unpin", move || page.pin(false)).attr("data-test", "unpin");
    vec![
        html("p").text("Pinned: ").child(html("strong").text(&pinned.name())).text(". The link now carries both."),
        block("div", "table-box").child(table),
        block("div", "pick").child(swap).child(unpin),
    ]
}

fn row(page: &'static Page, pinned: &Arc<Pinned>, (name, pick, look): (&'static str, Pick, Look)) -> El {
    let own = move || page.flown.answers.with(|answers| answers.as_ref().and_then(|answers| pick(answers)));
    let other = pinned.answers.as_ref().and_then(pick);
    let difference = move || Some(own()? - other?);
    let cell = |number: El| html("td").child(number);
    html("tr")
        .child(html("th").attr("scope", "row").text(name))
        .child(cell(quantity(own, look)))
        .child(cell(quantity(move || other, look)))
        .child(cell(quantity(difference, Look { signed: true, ..look })))
}
