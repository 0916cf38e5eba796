//! Question 4: where do we stand?

use holdwater_answers::vessels::{FIELD_CHECKLIST, STAND_CAUTIONS, WHY_STAND, stand, stand_sentences, stand_verdict};
use holdwater_design::measure::said;
use holdwater_design::{Input, Part};

use super::field::field;
use super::verdict::spans;
use super::words::{list_of, why_panels};
use crate::dom::{El, block, html};
use crate::react::Memo;
use crate::state::page;

/// Stored energy, stand-off, cautions and the checklist.
pub fn stand_question() -> El {
    let page = page();
    let stand = Memo::new(move |_| page.design.with(stand));
    let verdict = move || stand.with(|stand| spans(&stand_verdict(stand), page.units.get()));
    let lines = move || {
        let units = page.units.get();
        stand.with(|stand| stand_sentences(stand).iter().map(|line| html("li").text(&said(line, units))).collect())
    };
    let checklist = html("ol").children(FIELD_CHECKLIST.iter().map(|line| html("li").text(line)));
    block("section", "question stand")
        .attr("aria-labelledby", "stand-title")
        .child(html("h2").attr("id", "stand-title").text("Where do we stand?"))
        .child(block("p", "lead").attr("data-test", "stand-verdict").content(verdict))
        .child(list_of(&STAND_CAUTIONS))
        .child(block("ul", "plain").content(lines))
        .child(html("h3").text("At the field"))
        .child(checklist.class("checklist"))
        .children(Input::of_part(Part::Field).map(field))
        .child(why_panels(&WHY_STAND))
}
