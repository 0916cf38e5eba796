//! The verdict: the first thing read on the page.

use holdwater_answers::words::{Span, Tone, Verdict, verdict_with_window};
use holdwater_design::measure::{System, said};

use crate::dom::{El, block, html, words};
use crate::state::{Page, page};

/// The verdict sentence with its deciding numbers large, and a word when it belongs to earlier values.
pub fn verdict_line() -> El {
    let page = page();
    let sentence = block("p", "verdict-words")
        .attrs(&[("data-test", "verdict"), ("aria-live", "polite"), ("aria-atomic", "true")])
        .content(move || sentence_of(page).map(|verdict| spans(&verdict, page.units.get())).unwrap_or_default());
    let stale_word = block("p", "stale-word").attr("data-test", "stale").text_live(move || {
        let answered = page.flown.answers.with(Option::is_some);
        let word = match (page.is_stale(), answered) {
            (false, _) => "",
            (true, true) => "Answer for the last good values.",
            (true, false) => "No answer: these values cannot be flown.",
        };
        word.to_owned()
    });
    let refusals = block("ul", "refusals")
        .content(move || page.flown.refusals().into_iter().map(|refused| html("li").text(&refused.message)).collect());
    block("section", "verdict")
        .attr("aria-labelledby", "verdict-title")
        .class_when("act", move || sentence_of(page).is_some_and(|verdict| verdict.tone == Tone::Act))
        .class_when("stale", move || page.is_stale())
        .child(words("h2", "spoken", "Verdict").attr("id", "verdict-title"))
        .child(sentence)
        .child(stale_word)
        .child(html("div").attr("role", "alert").child(refusals))
}

fn sentence_of(page: &Page) -> Option<Verdict> {
    let delay_s = page.flown.delay.get();
    // The sizes are searched a little later than the flight; those of the design before are no advice.
    let window = page.flown.holds.window_now();
    page.flown.answers.with(|answers| answers.as_ref().map(|answers| verdict_with_window(answers, delay_s, window)))
}

/// A verdict as elements, its numbers large, in the units given.
pub fn spans(verdict: &Verdict, units: System) -> Vec<El> {
    let span = |span: &Span| match span {
        Span::Text(text) => html("span").text(&said(text, units)),
        Span::Number(number, unit) => {
            // Converted together, and taken apart again at the space before the unit.
            let both = said(&format!("{number} {unit}"), units);
            let (number, unit) = both.split_once(' ').unwrap_or((&both, ""));
            words("strong", "deciding", number).child(words("span", "unit", "\u{2009}").text(unit))
        }
    };
    verdict.spans.iter().map(span).collect()
}
