//! What is seen: one part of the page a file, with no arithmetic of the trade in any of them.

mod age;
mod bore_chart;
mod coast;
mod compare;
mod delay_chart;
mod delay_control;
mod drag;
mod drawing;
mod events;
mod export;
mod field;
mod field_sheet;
mod flight;
mod flight_chart;
mod holding;
mod more;
mod notices;
mod part_editor;
mod plate;
mod quantity;
mod recent;
mod settings;
mod share_panel;
mod sheet;
mod stack;
mod stand;
mod tables;
mod top;
mod verdict;
mod vessels;
mod ways;
mod words;

use leptos::prelude::document;

use crate::dom::{El, block, follow};
use crate::link_sync::follow_address;
use crate::state::Page;

/// The whole page.
pub fn app() -> El {
    let page = Page::provide();
    follow_address(page);
    follow(move || document().set_title(&title(&page.name.get())));
    let answer = block("div", "answer").child(notices::notices()).child(verdict::verdict_line()).child(coast::coast());
    let way_in = block("div", "way-in").child(stack::stack()).child(sheet::sheet());
    let questions = block("div", "questions")
        .child(holding::holding_question())
        .child(vessels::vessels_question())
        .child(stand::stand_question())
        .child(flight::flight_question())
        .child(compare::compare())
        .child(words::cautions());
    block("div", "page")
        .class_when("sheet-open", move || page.open_part.get().is_some())
        .children(top::top())
        .child(block("main", "columns").child(answer).child(way_in).child(questions))
        .child(field_sheet::field_sheet())
}

fn title(name: &str) -> String {
    if name.trim().is_empty() { "Holdwater".to_owned() } else { format!("{name} · Holdwater") }
}
