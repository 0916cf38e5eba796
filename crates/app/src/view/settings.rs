//! What the reader chooses once for everything: units and colours, and the way back and forth.

use holdwater_design::measure::System;

use super::field_sheet::print_button;
use crate::dom::{El, block, button, html, words};
use crate::state::page;

/// Units, colours and *Redo*.
pub fn settings() -> El {
    let page = page();
    let units = |system: System, word: &str, test: &str| {
        button(word, move || page.use_units(system))
            .attr("data-test", test)
            .says("aria-pressed", move || page.units.get() == system)
    };
    let colours = page.colours;
    let sun = |on: bool, word: &str, test: &str| {
        button(word, move || colours.set_sun(on))
            .attr("data-test", test)
            .says("aria-pressed", move || colours.is_sun() == on)
    };
    let choice = |title: &str, buttons: [El; 2]| {
        block("div", "setting")
            .attrs(&[("role", "group"), ("aria-label", title)])
            .child(html("h3").text(title))
            .child(block("div", "pick").children(buttons))
    };
    block("div", "settings")
        .child(words("h2", "spoken", "Settings"))
        .child(choice(
            "Units",
            [units(System::Metric, "Metric", "units-metric"), units(System::Us, "US customary", "units-us")],
        ))
        .child(choice(
            "Colours",
            [sun(false, "As the system", "colours-system"), sun(true, "For glare", "colours-sun")],
        ))
        .child(choice("Changes", [step(false, "Undo", "undo-2"), step(true, "Redo", "redo")]))
        .child(block("div", "pick").child(print_button()))
}

/// Takes the last change back, or takes it again.
pub fn step(again: bool, word: &str, test: &str) -> El {
    let page = page();
    button(word, move || page.step_back(again))
        .attr("data-test", test)
        .attr_live("disabled", move || (!page.can_step_back(again)).then(String::new))
}
