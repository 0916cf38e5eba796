//! Part of question 3: cycles, the log, and the chance that something lets go today.

use std::sync::Arc;

use holdwater_answers::vessels::{AGE_CAUTIONS, Vessels, WHY_AGE, age_sentences};
use holdwater_design::Input;
use holdwater_design::log;
use holdwater_design::measure::said;
use holdwater_design::parts::{LogEntry, PartInput, Value};
use leptos::prelude::event_target_value;

use super::field::field;
use super::words::{list_of, why_panels};
use crate::dom::{El, block, button, html, words};
use crate::react::{Memo, RwSignal};
use crate::state::{Change, Page, page};

/// What is asked here.
pub const ASKED: [Input; 4] = [Input::FillsToday, Input::AcceptedChance, Input::TypicalLife, Input::AssumedShape];

/// Chances, retiring ages, the counter and the log.
pub fn age(vessels: Memo<Arc<Vessels>>) -> El {
    let page = page();
    let lines = move || {
        let units = page.units.get();
        vessels.with(|vessels| age_sentences(vessels).iter().map(|line| html("li").text(&said(line, units))).collect())
    };
    let two = move || vessels.with(|vessels| vessels.age.day_two.map(two_failures)).unwrap_or_default();
    block("div", "age")
        .child(html("h3").text("Age"))
        .child(block("ul", "plain").attr("data-test", "ages").content(lines))
        .child(block("p", "says").attr("data-test", "two-failures").text_live(two))
        .child(list_of(&AGE_CAUTIONS))
        .child(counter(page))
        .children(ASKED.into_iter().map(field))
        .child(log_field(page))
        .child(why_panels(&WHY_AGE))
}

fn two_failures(chance: f64) -> String {
    format!(
        "The chance that two or more let go today is {:.2e}. Parts of one age wear out together, so the second failure of a day is likelier than it seems.",
        chance
    )
}

/// Adds today's fills to every part.
fn counter(page: &'static Page) -> El {
    let done = RwSignal::new(false);
    let add = move || {
        let fills = page.design.with_untracked(|design| design.number(Input::FillsToday));
        let mut parts = page.parts.get_untracked();
        for part in &mut parts {
            let behind = part.number(PartInput::Cycles).unwrap_or(0.0);
            // A count beyond the range of the table stays where it is.
            let _ = part.set(PartInput::Cycles, Value::Number(Some(behind + fills)));
        }
        page.apply(Change::Parts(parts, ""));
        done.set(true);
    };
    let word = move || if done.get() { "Added. Undo takes it back.".to_owned() } else { String::new() };
    block("div", "pick")
        .hidden_when(move || page.parts.with(Vec::is_empty))
        .child(button("Add today's fills to every part", add).attr("data-test", "add-fills"))
        .child(block("span", "says").attr("role", "status").text_live(word))
}

/// The log of like parts, typed or pasted.
fn log_field(page: &'static Page) -> El {
    let said_of = RwSignal::new(Vec::<String>::new());
    // What was typed stays as it was typed; a log from elsewhere is written anew.
    let typed = RwSignal::new(None::<(Vec<LogEntry>, String)>);
    let text = move || {
        let log = page.log.get();
        typed.get().filter(|(of, _)| *of == log).map_or_else(|| written(&log), |(_, text)| text)
    };
    let take = move |text: String| {
        let read = log::read(&text);
        let mut complaints: Vec<String> = read.complaints.iter().map(ToString::to_string).collect();
        if read.more_complaints > 0 {
            complaints.push(format!("{} more lines could not be read.", read.more_complaints));
        }
        let mut design = page.design.get_untracked();
        let left_out = design.set_log(&read.entries());
        if left_out > 0 {
            complaints.push(format!("{left_out} rows were left out: a link holds no more."));
        }
        said_of.set(complaints);
        let kept = design.log().to_vec();
        typed.set(Some((kept.clone(), text)));
        page.apply(Change::Log(kept));
    };
    let field = html("textarea")
        .attrs(&[
            ("id", "part-log"),
            ("data-test", "part-log"),
            ("rows", "5"),
            ("spellcheck", "false"),
            ("aria-describedby", "part-log-help"),
            ("placeholder", "splice, 240, failed\nsplice, 310, whole"),
        ])
        .prop_live("value", text)
        .on("input", move |event| take(event_target_value(&event)));
    let complaints = move || said_of.get().iter().map(|line| html("li").text(line)).collect();
    block("div", "field")
        .child(html("label").attr("for", "part-log").text("Log of parts"))
        .child(field)
        .child(
            html("div")
                .attr("role", "alert")
                .child(block("ul", "complaint").attr("data-test", "log-complaints").content(complaints)),
        )
        .child(
            words(
                "p",
                "help",
                "One part a line: its name or kind, the fills it has seen, and failed or whole. Paste it from a spreadsheet if you like. \
                 It travels in the link.",
            )
            .attr("id", "part-log-help"),
        )
}

fn written(log: &[LogEntry]) -> String {
    let line = |entry: &LogEntry| {
        format!("{}, {}, {}", entry.part, entry.cycles, if entry.failed { "failed" } else { "whole" })
    };
    log.iter().map(line).collect::<Vec<_>>().join("\n")
}
