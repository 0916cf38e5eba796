//! Question 1: how long may it coast?

use holdwater_answers::words::why_coast;
use leptos::prelude::*;

use super::cutaway::Cutaway;
use super::delay_chart::{DelayChart, DelayTable};
use super::delay_control::DelayControl;
use super::ways::Ways;
use super::words::{Notes, WhyPanels};
use crate::live::{live, part};
use crate::state::page;

/// The question: the picture, which stays in view while inputs are open, then the choices and the reasons.
#[component]
pub fn Coast() -> impl IntoView {
    let page = page();
    // Compared, so that a change of another input does not build the chart anew.
    let staged = Memo::new(move |_| page.flown.longest_delay().is_some());
    view! {
        <section class="coast" aria-labelledby="coast-title">
            <h2 id="coast-title">"How long may it coast?"</h2>
            <Picture staged/>
            <div class="coast-more">
                <div hidden=live(move || !staged.get())>{Ways().into_any()}</div>
                {Notes().into_any()}
                <div hidden=live(move || !staged.get())>{DelayTable().into_any()}</div>
                <WhyPanels reasons=why_coast()/>
            </div>
        </section>
    }
}

/// The cut-away, the chart beside it, and the delay under its axis.
#[component]
fn Picture(staged: Memo<bool>) -> impl IntoView {
    let chart = part(move || if staged.get() { staged_picture() } else { unstaged() });
    view! {
        <div class="coast-picture" class:single=live(move || !staged.get())>
            {Cutaway().into_any()}
            {chart}
        </div>
    }
}

fn staged_picture() -> AnyView {
    (DelayChart().into_any(), DelayControl().into_any()).into_any()
}

fn unstaged() -> AnyView {
    let words = "A single stage is not released in flight: its water is pressed to the nozzle from \
                 lift-off until it is gone.";
    view! { <p class="coast-none">{words}</p> }.into_any()
}
