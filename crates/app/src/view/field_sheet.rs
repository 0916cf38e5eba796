//! One page for the field: what is printed.
//!
//! It is made when the browser is about to print, and is seen on paper only; everything else of the page is not.

use holdwater_answers::vessels::{FIELD_CHECKLIST, Vessels, stage_sentences, stand, stand_verdict, vessel_verdict};
use holdwater_answers::words::{self as said_words, Span, Verdict, verdict};
use holdwater_design::measure::{said, show};
use holdwater_design::{Design, Input};
use holdwater_pictures::code::Code;
use leptos::prelude::{untrack, window};

use super::share_panel::code_picture;
use crate::dom::{El, block, button, html, on_window, words};
use crate::react::RwSignal;
use crate::share::link_now;
use crate::state::{Page, page};

/// The sheet; a button that prints it is [`print_button`].
pub fn field_sheet() -> El {
    let page = page();
    let asked = RwSignal::new(0_u32);
    on_window("beforeprint", move |_| {
        asked.update(|asked| *asked += 1);
    });
    block("section", "field-sheet")
        .attr("aria-hidden", "true")
        .content(move || if asked.get() == 0 { Vec::new() } else { untrack(|| sheet(page)) })
}

/// Prints the sheet.
pub fn print_button() -> El {
    button("Print the field sheet", || {
        let _ = window().print();
    })
    .attr("data-test", "print")
}

fn sheet(page: &Page) -> Vec<El> {
    let (design, units) = (page.design.get(), page.units.get());
    let name = if design.name().trim().is_empty() { "Water rocket" } else { design.name().trim() };
    let link = link_now(page);
    // Beside the title, so that it is on the first page whatever else there is to say.
    let mut all: Vec<El> = code_of(&link).into_iter().collect();
    all.push(html("h1").text(name));
    let line = |text: &str| html("p").text(&said(text, units));
    all.extend(page.flown.refusals().iter().map(|refused| line(&format!("Not flown as it is: {}", refused.message))));
    if let Some(answers) = page.flown.answers.get() {
        all.push(line(&plain(&verdict(&answers, design.number(Input::Delay)))));
        let mut times = html("ul");
        for event in &answers.events {
            // Before burnout nobody has started a timer.
            let after = event.after_burnout_s.filter(|after| *after >= 0.0);
            let after = after.map(|after| format!(" ({after:.2} s after burnout)")).unwrap_or_default();
            times = times.child(html("li").text(&said(
                &format!("{}: {:.2} s after lift-off{after}, {:.0} m", event.what, event.t_s, event.h_m),
                units,
            )));
        }
        all.push(html("h2").text("Times"));
        all.push(times);
        all.extend(answers.notes.iter().map(|note| line(note)));
    }
    all.push(html("h2").text("Vessels"));
    let vessels = Vessels::of(&design);
    all.push(line(&plain(&vessel_verdict(&vessels))));
    all.extend(stage_sentences(&vessels).iter().map(|sentence| line(sentence)));
    all.extend(vessels.warnings.iter().map(|warning| line(warning)));
    all.push(line(&plain(&stand_verdict(&stand(&design)))));
    all.push(html("h2").text("Checks"));
    let box_of = |check: &&str| html("li").text(&format!("\u{2610} {check}"));
    all.push(block("ul", "checks").children(FIELD_CHECKLIST.iter().map(box_of)));
    all.push(html("h2").text("Cautions"));
    let caution = |caution: &&str| html("li").text(caution);
    all.push(block("ul", "checks").children(said_words::cautions().iter().map(caution)));
    if design.changed().next().is_some() {
        all.push(html("h2").text("Changed from the default"));
        all.push(changed(&design, units));
    }
    all.push(words("p", "link-text", &link));
    all
}

fn changed(design: &Design, units: holdwater_design::measure::System) -> El {
    let item = |input: Input| {
        let row = input.row();
        let value = design.get(input).map_or_else(|| row.show(None), |value| show(row.unit, units, value));
        html("li").text(&format!("{}, {}: {value}", row.part.title(), row.label))
    };
    block("ul", "changed-inputs").children(design.changed().map(item))
}

/// A link as a code that a camera reads from paper; the longer the link, the larger.
fn code_of(link: &str) -> Option<El> {
    let code = Code::new(link).ok()?;
    let width = format!("{}mm", (code.side * 2 / 5).max(30));
    Some(code_picture(&code).attrs(&[("class", "sheet-code"), ("width", &width)]))
}

fn plain(verdict: &Verdict) -> String {
    let word = |span: &Span| match span {
        Span::Text(text) => text.clone(),
        Span::Number(number, unit) => format!("{number} {unit}"),
    };
    verdict.spans.iter().map(word).collect()
}
