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

use crate::dom::{El, Step, add, block, follow, in_turn, in_turn_after_painting};
use crate::link_sync::follow_address;
use crate::state::{Page, page};

/// The whole page, built part by part in tasks of their own: first what holds the first answer, the rest once that is painted. `answered` is
/// told when the first answer stands, `whole` when all of it does.
pub fn app(answered: impl FnOnce() + 'static, whole: impl FnOnce() + 'static) -> El {
    let all = block("div", "page");
    let columns = block("main", "columns");
    let (answer, way_in, questions) = (block("div", "answer"), block("div", "way-in"), block("div", "questions"));
    let rest: Vec<Step> = vec![
        Box::new(|| page().flown.begin()),
        add(&way_in, || [stack::stack()]),
        add(&way_in, || [sheet::sheet()]),
        add(&questions, || [holding::holding_question()]),
        add(&questions, || [vessels::vessels_question()]),
        add(&questions, || [stand::stand_question()]),
        add(&questions, || [flight::flight_question()]),
        add(&questions, || [compare::compare(), words::cautions()]),
        add(&all, || [field_sheet::field_sheet()]),
        Box::new(whole),
    ];
    in_turn(vec![
        begin(&all),
        Box::new(|| follow_address(page())),
        add(&all, top::top),
        add(&answer, || [notices::notices(), verdict::verdict_line()]),
        add(&answer, || [coast::coast()]),
        together(&all, columns, [answer.clone(), way_in, questions]),
        Box::new(answered),
        Box::new(|| in_turn_after_painting(rest)),
    ]);
    all
}

/// What every part needs: the state of the page.
fn begin(all: &El) -> Step {
    let all = all.clone();
    Box::new(move || {
        let page = Page::provide();
        follow(move || document().set_title(&title(&page.name.get())));
        let _ = all.class_when("sheet-open", move || page.open_part.get().is_some());
    })
}

/// Puts the columns into the page.
fn together(all: &El, columns: El, inside: [El; 3]) -> Step {
    let all = all.clone();
    Box::new(move || {
        let _ = all.child(columns.children(inside));
    })
}

fn title(name: &str) -> String {
    if name.trim().is_empty() { "Holdwater".to_owned() } else { format!("{name} · Holdwater") }
}
