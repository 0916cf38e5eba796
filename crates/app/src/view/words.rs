//! Reasons and cautions.

use holdwater_answers::why::Why;
use holdwater_answers::words;
use holdwater_design::measure::said;

use crate::dom::{self, El, block, html};
use crate::state::page;

/// Why an answer is what it is: relation, source, and what it leaves out.
pub fn why_panels(reasons: &'static [Why]) -> El {
    let said = |word: &str, text: &str| html("p").child(dom::words("span", "why-word", word)).text(text);
    let panel = |why: &Why| {
        block("div", "why-one")
            .child(html("h3").text(why.title))
            .child(dom::words("p", "relation", why.relation))
            .child(said("Source: ", why.source))
            .child(said("Leaves out: ", why.leaves_out))
    };
    block("details", "why").child(html("summary").text("Why")).children(reasons.iter().map(panel))
}

/// The two parts of a delay's effect, and what the model has to say about this design, beside the answer they belong to.
pub fn notes() -> El {
    let page = page();
    let parts = block("p", "two-parts").attr("data-test", "two-parts").text_live(move || {
        page.flown
            .answers
            .with(|answers| answers.as_ref().and_then(|answers| words::two_parts(answers)))
            .map(|parts| said(&parts, page.units.get()))
            .unwrap_or_default()
    });
    let notes = block("ul", "notes").attr("data-test", "notes").content(move || {
        let all = page.flown.answers.with(|answers| answers.as_ref().map(|answers| answers.notes.clone()));
        let units = page.units.get();
        let mut all = all.unwrap_or_default();
        // The fill is asked here, and what the vessels support is said where it is asked.
        all.extend(page.flown.vessels.with(|vessels| vessels.warnings.clone()));
        all.iter().map(|note| html("li").text(&said(note, units))).collect()
    });
    html("div").child(parts).child(notes)
}

/// The cautions that stand beside every number that could be acted on.
pub fn cautions() -> El {
    let list = html("ul").attr("data-test", "cautions");
    block("section", "question cautions")
        .attr("aria-labelledby", "cautions-title")
        .child(html("h2").attr("id", "cautions-title").text("Before you act on a number"))
        .child(list.children(words::cautions().iter().map(|caution| html("li").text(caution))))
}

/// Sentences as a list, such as the cautions beside a number.
pub fn list_of(sentences: &[&str]) -> El {
    block("ul", "beside").children(sentences.iter().map(|sentence| html("li").text(sentence)))
}
