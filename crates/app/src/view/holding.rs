//! Question 2: what holds the water?

use std::sync::Arc;

use holdwater_answers::holding::{Choice, HoldingAnswer};
use holdwater_answers::words::{holding_cautions, why_holding};
use holdwater_design::measure::said;
use holdwater_design::{Input, Part};

use super::bore_chart::{bore_chart, has_curve};
use super::field::{complaint, field, stepper_input};
use super::plate::plate;
use super::quantity::{Look, quantity};
use super::tables::boxed_table;
use super::words::{list_of, why_panels};
use crate::dom::{El, block, button, html, words};
use crate::held::Held;
use crate::react::Memo;
use crate::state::{Change, Page, page};

/// Verdict, chart, sizes, plate, choices, bench, reasons.
pub fn holding_question() -> El {
    let page = page();
    let held = page.flown.holds.held;
    let lead = move || {
        let units = page.units.get();
        held.with(|held| held.as_ref().map(|held| said(&held.answer.holding_verdict, units)).unwrap_or_default())
    };
    let curve = Memo::new(move |_| held.with(|held| held.as_ref().is_some_and(|held| has_curve(&held.curves))));
    block("section", "question holding")
        .attr("aria-labelledby", "holding-title")
        .class_when("updating", move || page.flown.holds.updating.get())
        .child(html("h2").attr("id", "holding-title").text("What holds the water?"))
        .child(block("p", "lead").attr("data-test", "holding-verdict").text_live(lead))
        .child(progress(page))
        .child(lines(page, "notes", "holding-notes", |answer| answer.holding_notes.clone()))
        .child(lines(page, "notes", "why-not", |answer| answer.restrictor.why_not.clone()))
        .child(html("div").hidden_when(move || !curve.get()).child(bore_chart()))
        .child(inputs())
        .child(sizes(page))
        .child(fits(page))
        .child(plate())
        .child(list_of(holding_cautions()))
        .child(html("h3").text("The choices at this delay"))
        .child(choices(page))
        .child(bench(page))
        .child(small_tube(page))
        .child(why_panels(why_holding()))
}

/// How far the search has come, and the way to stop it.
fn progress(page: &'static Page) -> El {
    let holds = page.flown.holds;
    let text = move || match (holds.stopped.get(), holds.flown.get()) {
        (true, _) => "Stopped. What stands below belongs to the design before. ".to_owned(),
        (false, 0) => "Searching the sizes of this design … ".to_owned(),
        (false, flown) => format!("Searching the sizes of this design: {flown} flights so far … "),
    };
    let press = move || if holds.stopped.get_untracked() { holds.search() } else { holds.stop() };
    let word = move || if holds.stopped.get() { "Search" } else { "Stop" }.to_owned();
    block("p", "says updating-line")
        .hidden_when(move || !holds.updating.get())
        .child(html("span").text_live(text))
        .child(button("", press).attr("data-test", "search-stop").text_live(word))
}

/// Sentences of the answer as a list.
fn lines(page: &'static Page, class: &'static str, test: &str, pick: fn(&HoldingAnswer) -> Vec<String>) -> El {
    block("ul", class).attr("data-test", test).content(move || {
        let units = page.units.get();
        let all = page.flown.holds.held.with(|held| held.as_ref().map(|held| pick(&held.answer)).unwrap_or_default());
        all.iter().map(|line| html("li").text(&said(line, units))).collect()
    })
}

/// The few inputs that move the answer.
fn inputs() -> El {
    let one = |input: Input| {
        let id = format!("hold-{}", input.row().key);
        block("div", "inline-field")
            .child(html("label").attr("for", &id).text(input.row().label))
            .child(stepper_input(input, &id, &id))
            .child(complaint(input, &id))
    };
    let inputs = [Input::RestrictorBore, Input::RestrictorHoles, Input::RestrictorHeight];
    block("div", "inline-fields").children(inputs.into_iter().map(one))
}

type Number = fn(&HoldingAnswer) -> Option<f64>;

/// Name, number, how it is shown, and the name for tests.
const SIZES: [(&str, Number, Look, &str); 14] = [
    ("Bond number of a hole at burnout", |all| all.restrictor.bond, Look::of(2, ""), "bond"),
    ("Ideal limit for so many holes", |all| Some(all.restrictor.limit), Look::of(2, ""), "limit"),
    ("Widest bore that holds", |all| all.restrictor.hold_bore_mm, Look::of(1, "mm"), "hold-bore"),
    ("Leaks freely from", |all| all.restrictor.leaks_from_mm, Look::of(1, "mm"), "leaks-from"),
    ("Window, from", |all| all.restrictor.window_mm.map(|window| window[0]), Look::of(1, "mm"), "window-from"),
    ("Window, to", |all| all.restrictor.window_mm.map(|window| window[1]), Look::of(1, "mm"), "window-to"),
    ("Best bore", |all| all.restrictor.best_bore_mm, Look::of(1, "mm"), "best-bore"),
    ("Height with it", |all| all.restrictor.best_apogee_m, Look::of(1, "m"), "best-apogee"),
    (
        "Pattern of small holes that hold: holes",
        |all| all.restrictor.pattern.map(|found| f64::from(found.holes)),
        Look::of(0, ""),
        "pattern-holes",
    ),
    (
        "Pattern: bore of each",
        |all| all.restrictor.pattern.map(|found| found.bore_mm),
        Look::of(1, "mm"),
        "pattern-bore",
    ),
    ("Best height of the plate", |all| all.restrictor.best_height_mm, Look::of(0, "mm"), "best-height"),
    ("Leaked up to the release", |all| Some(all.restrictor.leak_l), Look::of(3, "L"), "leak"),
    ("Launch tube, shortest that seats the water", |all| all.tube.seated_length_mm, Look::of(0, "mm"), "tube-seated"),
    ("Launch tube, best length", |all| all.tube.best_length_mm, Look::of(0, "mm"), "tube-best"),
];

/// Every size that was found.
fn sizes(page: &'static Page) -> El {
    let verdict = move || {
        let held = page.flown.holds.held.get();
        held.map_or("", |held| held.answer.restrictor.verdict)
    };
    let fitted = html("div").child(html("dt").text("The restrictor fitted")).child(
        html("dd").attr("data-test", "restrictor-verdict").text_live(move || match verdict() {
            "none" => "none".to_owned(),
            word => word.to_owned(),
        }),
    );
    let line = |(name, pick, look, test): (&str, Number, Look, &str)| {
        let value = move || page.flown.holds.held.with(|held| held.as_ref().and_then(|held| pick(&held.answer)));
        html("div").child(html("dt").text(name)).child(html("dd").child(quantity(value, look).attr("data-test", test)))
    };
    block("dl", "timer sizes").child(fitted).children(SIZES.into_iter().map(line))
}

/// The values that fit something that was found, if it was.
type Fit = fn(&Held) -> Option<Vec<(Input, f64)>>;

/// Buttons that fit what was found.
fn fits(page: &'static Page) -> El {
    let with = move |pick: Fit| move || page.flown.holds.held.with(|held| held.as_ref().and_then(|held| pick(held)));
    let fit = |word: &str, test: &str, pick: Fit| {
        let found = with(pick);
        let press = move || {
            for (input, value) in found().unwrap_or_default() {
                page.apply(Change::Value(input, Some(input.row().nearest(value))));
            }
        };
        button(word, press).attr("data-test", test).hidden_when(move || with(pick)().is_none())
    };
    block("div", "pick")
        .child(fit("Fit the best restrictor", "fit-best", |held| {
            held.answer.restrictor.best.map(|best| plate_of(best.holes, best.bore_mm, best.height_mm))
        }))
        .child(fit("Fit the pattern of small holes", "fit-pattern", |held| {
            let restrictor = &held.answer.restrictor;
            restrictor.pattern.map(|pattern| plate_of(pattern.holes, pattern.bore_mm, restrictor.height_mm))
        }))
        .child(fit("Fit the best launch tube", "fit-tube", |held| {
            held.answer.tube.best_length_mm.map(|length| {
                vec![
                    (Input::RestrictorBore, 0.0),
                    (Input::StagingTubeOuter, held.answer.tube.outer_mm),
                    (Input::StagingTubeWall, held.answer.tube.wall_mm),
                    (Input::StagingTubeLength, length),
                ]
            })
        }))
        .child(fit("Take the restrictor out", "fit-none", |held| {
            (held.answer.restrictor.verdict != "none").then(|| vec![(Input::RestrictorBore, 0.0)])
        }))
}

fn plate_of(holes: u32, bore_mm: f64, height_mm: f64) -> Vec<(Input, f64)> {
    vec![
        (Input::StagingTubeLength, 0.0),
        (Input::RestrictorHoles, f64::from(holes)),
        (Input::RestrictorBore, bore_mm),
        (Input::RestrictorHeight, height_mm),
    ]
}

/// The ways to stage in one table.
fn choices(page: &'static Page) -> El {
    let held = page.flown.holds.held;
    let count = Memo::new(move |_| held.with(|held| held.as_ref().map_or(0, |held| held.answer.choices.len())));
    let rows = move || (0..count.get()).flat_map(|place| choice_row(page, place)).collect();
    let heads = ["way", "apogee", "loss", "adds", "release by"];
    boxed_table(
        "The choices at this delay",
        "choices",
        &heads,
        html("tbody").attr("data-test", "choices").content(rows),
    )
}

fn choice_row(page: &'static Page, place: usize) -> [El; 2] {
    let held = page.flown.holds.held;
    let choice = move |pick: fn(&Choice) -> Option<f64>| {
        move || held.with(|held| held.as_ref().and_then(|held| pick(held.answer.choices.get(place)?)))
    };
    let text = move |pick: fn(&Choice) -> String| {
        let units = page.units.get();
        held.with(|held| held.as_ref().and_then(|held| held.answer.choices.get(place).map(pick)))
            .map(|text| said(&text, units))
            .unwrap_or_default()
    };
    let is_best = move || held.with(|held| held.as_ref().is_some_and(|held| held.answer.best_choice == Some(place)));
    let cell = |number: El| html("td").child(number);
    let name = html("th")
        .attr("scope", "row")
        .text_live(move || text(|choice| choice.choice.clone()))
        .child(words("span", "best-word", " (highest)").hidden_when(move || !is_best()));
    let row = html("tr")
        .child(name)
        .child(cell(quantity(choice(|choice| Some(choice.apogee_m)), Look::of(1, "m"))))
        .child(cell(quantity(choice(|choice| Some(100.0 * choice.loss_share)), Look::of(1, "%"))))
        .child(cell(quantity(choice(|choice| Some(1e3 * choice.added_kg)), Look::of(0, "g"))))
        .child(cell(quantity(choice(|choice| choice.latest_release_s), Look::of(2, "s"))));
    let warning = html("tr")
        .child(block("td", "warning").attr("colspan", "5").text_live(move || text(|choice| choice.warning.clone())));
    [row, warning]
}

/// The bench hole and the bottle over the sink.
fn bench(page: &'static Page) -> El {
    let line = move || {
        let Some(held) = page.flown.holds.held.get() else { return String::new() };
        said(&bench_words(&held), page.units.get())
    };
    block("details", "bench")
        .child(html("summary").attr("data-test", "bench").text("Bench check over a sink"))
        .child(block("p", "says").attr("data-test", "bench-words").text_live(line))
        .children(Input::of_part(Part::Bottle).map(field))
}

fn bench_words(held: &Arc<Held>) -> String {
    let restrictor = &held.answer.restrictor;
    let Some(hole) = restrictor.bench_bore_mm else {
        return "Nothing is slowed here, so there is no bench hole.".to_owned();
    };
    let does = match restrictor.bench {
        Some(bench) if !bench.fits => "It has no room in that bottle.".to_owned(),
        Some(bench) => match bench.emptying_s {
            Some(seconds) => format!("In your bottle it should empty in about {seconds:.1} s ({}).", bench.verdict),
            None => "In your bottle it should hold the water.".to_owned(),
        },
        None => String::new(),
    };
    format!(
        "A hole of {hole:.1} mm behaves on the bench, at 1 g, as this one does in the coast. {does} Use the water you fly with: soap lets go sooner."
    )
}

/// The small tube against the real vessel.
fn small_tube(page: &'static Page) -> El {
    block("details", "small-tube")
        .child(html("summary").attr("data-test", "small-tube").text("Small-tube test against the real vessel"))
        .child(lines(page, "plain", "small-tube-words", |answer| answer.small_tube.words.clone()))
        .children(Input::of_part(Part::SmallTube).map(field))
}
