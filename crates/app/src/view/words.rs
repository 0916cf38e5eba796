//! Reasons and cautions.

use holdwater_answers::words::{Why, cautions};
use leptos::prelude::*;

use crate::state::page;

/// Why an answer is what it is: relation, source, and what it leaves out.
#[component]
pub fn WhyPanels(reasons: &'static [Why]) -> impl IntoView {
    let panel = |why: &'static Why| {
        view! {
            <div class="why-one">
                <h4>{why.title}</h4>
                <p class="relation">{why.relation}</p>
                <p><span class="why-word">"Source: "</span>{why.source}</p>
                <p><span class="why-word">"Leaves out: "</span>{why.leaves_out}</p>
            </div>
        }
    };
    view! {
        <details class="why">
            <summary>"Why"</summary>
            {reasons.iter().map(panel).collect_view()}
        </details>
    }
}

/// What the model has to say about this design: warnings and remarks, beside the answer they belong to.
#[component]
pub fn Notes() -> impl IntoView {
    let answers = page().flown.answers;
    let notes = Memo::new(move |_| {
        answers.with(|answers| answers.as_ref().map(|answers| answers.notes.clone()).unwrap_or_default())
    });
    let shown = move || notes.get().into_iter().map(|note| view! { <li>{note}</li> }).collect_view();
    view! { <ul class="notes" data-test="notes">{shown}</ul> }
}

/// The cautions that stand beside every number that could be acted on.
#[component]
pub fn Cautions() -> impl IntoView {
    view! {
        <section class="question cautions" aria-labelledby="cautions-title">
            <h2 id="cautions-title">"Before you act on a number"</h2>
            <ul data-test="cautions">
                {cautions().iter().map(|caution| view! { <li>{*caution}</li> }).collect_view()}
            </ul>
        </section>
    }
}
