//! The verdict: the first thing read on the page.

use holdwater_answers::words::{Span, Tone, Verdict, verdict};
use leptos::prelude::*;

use crate::state::page;

/// The verdict sentence with its deciding numbers large, and a word when it belongs to earlier values.
#[component]
pub fn VerdictLine() -> impl IntoView {
    let page = page();
    let said = Memo::new(move |_| {
        let delay = page.flown.delay.get();
        page.flown.answers.with(|answers| answers.as_ref().map(|answers| verdict(answers, delay)))
    });
    let act = move || said.with(|said| said.as_ref().is_some_and(|said| said.tone == Tone::Act));
    view! {
        <section class="verdict" class:act=act class:stale=move || page.is_stale() aria-labelledby="verdict-title">
            <h2 id="verdict-title" class="spoken">"Verdict"</h2>
            <p class="verdict-words" data-test="verdict" aria-live="polite" aria-atomic="true">
                {move || said.with(|said| said.as_ref().map(spans))}
            </p>
            {move || page.is_stale().then(|| view! { <p class="stale-word" data-test="stale">"Answer for the last good values."</p> })}
            <ul class="refusals" role="alert">
                {move || page.flown.refusals().into_iter().map(|refused| view! { <li>{refused.message}</li> }).collect_view()}
            </ul>
        </section>
    }
}

fn spans(verdict: &Verdict) -> Vec<AnyView> {
    let span = |span: &Span| match span {
        Span::Text(text) => text.clone().into_any(),
        Span::Number(number, unit) => {
            view! { <strong class="deciding">{number.clone()}<span class="unit">"\u{2009}"{*unit}</span></strong> }.into_any()
        }
    };
    verdict.spans.iter().map(span).collect()
}
