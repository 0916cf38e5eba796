//! Question 3: will the vessels hold?

use std::sync::Arc;

use holdwater_answers::vessels::{
    Held, PROOF_CAUTIONS, PartAnswer, VESSEL_CAUTIONS, Vessels, WHY_VESSELS, part_sentence, proof_sentence,
    stage_sentences, vessel_verdict,
};
use holdwater_design::measure::said;
use holdwater_design::parts::{MOST_PARTS, PartKind, VesselPart, usual_parts};
use holdwater_design::{Input, Part};
use holdwater_pictures::drawing::{PartBar, PartMark, Verdict as Bar, margins, placed};
use leptos::prelude::document;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

use super::age::age;
use super::drawing::markup;
use super::field::field;
use super::part_editor::part_editor;
use super::stack::mark_button;
use super::verdict::spans;
use super::words::{list_of, why_panels};
use crate::canvas::size_of;
use crate::dom::{El, block, button, html, svg, words};
use crate::react::{Memo, RwSignal};
use crate::state::{Change, Page, page};

/// A margin below this is thin: what nobody counted would take it.
const THIN: f64 = 0.25;

/// The verdict, the bars, the parts, their age, proof and cautions.
pub fn vessels_question() -> El {
    let page = page();
    let vessels = page.flown.vessels;
    let empty = Memo::new(move |_| vessels.with(|vessels| vessels.parts.is_empty()));
    let verdict = move || vessels.with(|vessels| spans(&vessel_verdict(vessels), page.units.get()));
    let sentences = move |make: fn(&Vessels) -> Vec<String>| {
        move || {
            let units = page.units.get();
            vessels.with(|vessels| make(vessels).iter().map(|line| html("li").text(&said(line, units))).collect())
        }
    };
    block("section", "question vessels")
        .attr("aria-labelledby", "vessels-title")
        .child(html("h2").attr("id", "vessels-title").text("Will the vessels hold?"))
        .child(block("p", "lead").attr("data-test", "vessel-verdict").content(verdict))
        .child(
            block("ul", "notes act")
                .attr("data-test", "vessel-warnings")
                .content(sentences(|vessels| vessels.warnings.clone())),
        )
        .child(start(page).hidden_when(move || !empty.get()))
        .child(bars(vessels).hidden_when(move || empty.get()))
        .child(
            block("ul", "plain")
                .attr("data-test", "stage-fills")
                .content(sentences(stage_sentences))
                .hidden_when(move || empty.get()),
        )
        .child(list_of(&VESSEL_CAUTIONS))
        .child(html("h3").text("Parts"))
        .child(
            block("div", "placing")
                .child(places(page, vessels).hidden_when(move || empty.get()))
                .child(html("div").child(parts(page, vessels)).child(add(page))),
        )
        .child(age(vessels))
        .child(proofs(vessels).hidden_when(move || empty.get()))
        .child(assumptions())
        .child(why_panels(&WHY_VESSELS))
}

/// What to begin with.
fn start(page: &'static Page) -> El {
    let usual = move || {
        let parts = page.design.with_untracked(usual_parts);
        page.apply(Change::Parts(parts, ""));
    };
    block("div", "pick")
        .child(button("Begin with the usual parts of this stack", usual).attr("data-test", "usual-parts"))
}

/// One more part.
fn add(page: &'static Page) -> El {
    let full = move || page.parts.with(|parts| parts.len() >= MOST_PARTS);
    let press = move || {
        let mut parts = page.parts.get_untracked();
        parts.push(VesselPart::new(PartKind::Shell));
        page.apply(Change::Parts(parts, ""));
    };
    let button = button("Add a part", press)
        .attr("data-test", "part-add")
        .attr_live("disabled", move || full().then(String::new));
    block("div", "pick").child(button)
}

/// Stress against what is allowed, the weakest first.
fn bars(vessels: Memo<Arc<Vessels>>) -> El {
    let page = page();
    let room = block("div", "margins").attr("data-test", "margins");
    let size = size_of(&room);
    let drawing = Memo::new(move |_| {
        let (width, _) = size.get()?;
        let units = page.units.get();
        let bars: Vec<_> = vessels.with(|vessels| vessels.parts.iter().map(|part| bar(part, units)).collect());
        Some(margins(&bars, width, 0.0))
    });
    room.child(
        svg("svg")
            .attrs(&[("class", "drawing bars"), ("role", "img")])
            .attr_live("viewBox", move || {
                drawing.with(|drawing| drawing.as_ref().map(|drawing| drawing.view_box.view_box()))
            })
            .attr_live("aria-label", move || {
                drawing.with(|drawing| drawing.as_ref().map(|drawing| drawing.description.clone()))
            })
            .drawn(move || drawing.with(|drawing| drawing.as_ref().map(|drawing| markup(&drawing.shapes)))),
    )
    .style_live("height", move || {
        drawing.with(|drawing| drawing.as_ref().map(|drawing| format!("{}px", drawing.view_box.height)))
    })
}

/// The parts on the rocket, where such parts sit; each mark opens its part in the list.
fn places(page: &'static Page, vessels: Memo<Arc<Vessels>>) -> El {
    let room = block("div", "places").attr("data-test", "places");
    let size = size_of(&room);
    let drawing = move || {
        let (width, _) = size.get()?;
        let marks = vessels.with(|vessels| marks_of(vessels));
        let drawing = placed(&page.flown.rocket.get(), &marks, width, 384.0);
        let rocket = markup(&drawing.shapes);
        let picture = svg("svg")
            .attrs(&[
                ("class", "drawing"),
                ("role", "group"),
                ("aria-label", "Vessel parts on the stack"),
                ("viewBox", &drawing.view_box.view_box()),
            ])
            .child(svg("g").drawn(move || Some(rocket.clone())))
            .children(drawing.marks.iter().map(mark_button));
        Some(picture)
    };
    let hint = "Places are schematic: a part does not know its height. Tap a mark to open its part.";
    html("div").child(words("p", "says", hint)).child(room.content(move || drawing().into_iter().collect()))
}

/// What is drawn of each part on the rocket.
pub fn marks_of(vessels: &Vessels) -> Vec<PartMark> {
    let weakest = vessels.weakest().map(|part| part.number);
    let mark = |part: &PartAnswer| PartMark {
        number: part.number,
        name: part.name.clone(),
        kind: part.kind,
        stage: part.stage,
        margin: part.margin(),
        verdict: verdict_of(part),
        weakest: weakest == Some(part.number),
    };
    vessels.parts.iter().map(mark).collect()
}

/// Opens a part in the list, brings it into view and gives it the keyboard.
pub fn open_editor(number: usize) {
    let found = document().query_selector(&format!("[data-test=\"part-{number}\"]")).ok().flatten();
    let Some(head) = found.and_then(|head| head.dyn_into::<HtmlElement>().ok()) else { return };
    if let Some(details) = head.parent_element() {
        let _ = details.set_attribute("open", "");
    }
    let _ = head.focus();
    head.scroll_into_view();
}

fn verdict_of(part: &PartAnswer) -> Bar {
    match part.margin() {
        Some(margin) if margin >= THIN => Bar::Holds,
        Some(margin) if margin >= 0.0 => Bar::Thin,
        _ => Bar::Over,
    }
}

fn bar(part: &PartAnswer, units: holdwater_design::measure::System) -> PartBar {
    let (share, stress) = match &part.held {
        Ok(held) => (share(held), said(held.stress, units)),
        Err(_) => (f64::NAN, "no margin".to_owned()),
    };
    PartBar { name: part.name.clone(), share, verdict: verdict_of(part), stress }
}

/// Stress with its factor over what is allowed.
fn share(held: &Held) -> f64 {
    1.0 / (1.0 + held.margin)
}

/// The parts in the order of the link; each opens its inputs.
fn parts(page: &'static Page, vessels: Memo<Arc<Vessels>>) -> El {
    let count = Memo::new(move |_| page.parts.with(Vec::len));
    block("ul", "part-list")
        .attr("data-test", "parts")
        .content(move || (0..count.get()).map(|place| part_row(page, vessels, place)).collect())
}

fn part_row(page: &'static Page, vessels: Memo<Arc<Vessels>>, place: usize) -> El {
    let open = RwSignal::new(false);
    let answer = move |make: fn(&PartAnswer) -> String, without: &'static str| {
        let units = page.units.get();
        let find = |vessels: &Arc<Vessels>| vessels.parts.iter().find(|part| part.number == place + 1).map(make);
        vessels.with(find).map_or_else(|| without.to_owned(), |text| said(&text, units))
    };
    let name = move || page.parts.with(|parts| parts.get(place).map(|part| part.called(place + 1)).unwrap_or_default());
    let head = html("summary").attr("data-test", &format!("part-{}", place + 1)).text_live(name);
    html("li")
        .child(
            html("details")
                .on("toggle", move |_| open.update(|open| *open = !*open))
                .child(head)
                .child(html("div").content(move || if open.get() { vec![part_editor(place)] } else { Vec::new() })),
        )
        .child(
            block("p", "says")
                .text_live(move || answer(part_sentence, "It does not count, because its stage does not fly.")),
        )
}

/// The proof test of every part, with what it is worth.
fn proofs(vessels: Memo<Arc<Vessels>>) -> El {
    let page = page();
    let lines = move || {
        let units = page.units.get();
        let line =
            |part: &PartAnswer| html("li").text(&said(&format!("{}. {}", part.name, proof_sentence(part)), units));
        vessels.with(|vessels| vessels.parts.iter().map(line).collect())
    };
    block("details", "proofs")
        .child(html("summary").text("Proof tests"))
        .child(block("ul", "plain").attr("data-test", "proofs").content(lines))
        .child(list_of(&PROOF_CAUTIONS))
}

/// Factors and heat: what all parts share.
fn assumptions() -> El {
    let shared = Input::of_part(Part::Vessels).filter(|input| !super::age::ASKED.contains(input));
    block("details", "assumptions").child(html("summary").text("Safety factors and heat")).children(shared.map(field))
}
