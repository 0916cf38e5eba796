//! What is seen: one component a file, with no arithmetic of the trade in any of them.

mod coast;
mod cutaway;
mod delay_chart;
mod delay_control;
mod drag;
mod drawing;
mod events;
mod field;
mod flight;
mod flight_chart;
mod more;
mod notices;
mod quantity;
mod share_panel;
mod sheet;
mod stack;
mod tables;
mod top;
mod verdict;
mod ways;
mod words;

use leptos::prelude::*;

use crate::canvas::Colours;
use crate::link_sync::follow_address;
use crate::live::{follow, live};
use crate::state::Page;
use delay_chart::{DelayFrame, ShownWay};

/// The whole page.
#[component]
pub fn App() -> impl IntoView {
    let page = Page::provide();
    Colours::provide();
    provide_context(DelayFrame(RwSignal::new(None)));
    provide_context(ShownWay(RwSignal::new(None)));
    follow_address(page);
    follow(move || document().set_title(&title(&page.name.get())));
    view! {
        <div class="page" class:sheet-open=live(move || page.open_part.get().is_some())>
            {top::Top().into_any()}
            <main class="columns">
                <div class="answer">
                    {notices::Notices().into_any()}
                    {verdict::VerdictLine().into_any()}
                    {coast::Coast().into_any()}
                </div>
                <div class="way-in">
                    {stack::Stack().into_any()}
                    {sheet::Sheet().into_any()}
                </div>
                <div class="questions">
                    {flight::FlightQuestion().into_any()}
                    {words::Cautions().into_any()}
                </div>
            </main>
        </div>
    }
}

fn title(name: &str) -> String {
    if name.trim().is_empty() { "Holdwater".to_owned() } else { format!("{name} · Holdwater") }
}
