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

use crate::dom::{El, add, block, follow, in_turn};
use crate::link_sync::follow_address;
use crate::state::Page;

/// The whole page, built part by part in tasks of their own. `answered` is told when the first answer stands, `whole` when all of it
/// does.
pub fn app(answered: impl FnOnce() + 'static, whole: impl FnOnce() + 'static) -> El {
    let page = Page::provide();
    follow_address(page);
    follow(move || document().set_title(&title(&page.name.get())));
    let (answer, way_in, questions) = (block("div", "answer"), block("div", "way-in"), block("div", "questions"));
    in_turn(vec![
        add(&answer, notices::notices),
        add(&answer, verdict::verdict_line),
        add(&answer, coast::coast),
        Box::new(answered),
        add(&way_in, stack::stack),
        add(&way_in, sheet::sheet),
        add(&questions, holding::holding_question),
        add(&questions, vessels::vessels_question),
        add(&questions, stand::stand_question),
        add(&questions, flight::flight_question),
        add(&questions, compare::compare),
        add(&questions, words::cautions),
        Box::new(whole),
    ]);
    block("div", "page")
        .class_when("sheet-open", move || page.open_part.get().is_some())
        .children(top::top())
        .child(block("main", "columns").child(answer).child(way_in).child(questions))
        .child(field_sheet::field_sheet())
}

fn title(name: &str) -> String {
    if name.trim().is_empty() { "Holdwater".to_owned() } else { format!("{name} · Holdwater") }
}
