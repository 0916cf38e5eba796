//! Reasons and cautions.

use holdwater_answers::why::Why;
use holdwater_answers::words::cautions;
use leptos::prelude::*;

use crate::live::part;
use crate::state::{Page, page};

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
        .into_any()
    };
    view! {
        <details class="why">
            <summary>"Why"</summary>
            {reasons.iter().map(panel).collect::<Vec<_>>()}
        </details>
    }
}

/// What the model has to say about this design: warnings and remarks, beside the answer they belong to.
#[component]
pub fn Notes() -> impl IntoView {
    let page = page();
    view! { <ul class="notes" data-test="notes">{part(move || notes(page))}</ul> }
}

fn notes(page: &Page) -> Vec<AnyView> {
    let all = page.flown.answers.with(|answers| answers.as_ref().map(|answers| answers.notes.clone()));
    all.unwrap_or_default().into_iter().map(item).collect()
}

/// The cautions that stand beside every number that could be acted on.
#[component]
pub fn Cautions() -> impl IntoView {
    view! {
        <section class="question cautions" aria-labelledby="cautions-title">
            <h2 id="cautions-title">"Before you act on a number"</h2>
            <ul data-test="cautions">
                {cautions().iter().map(|caution| item((*caution).to_owned())).collect::<Vec<_>>()}
            </ul>
        </section>
    }
}

fn item(words: String) -> AnyView {
    view! { <li>{words}</li> }.into_any()
}
