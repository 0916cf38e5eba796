//! The verdict: the first thing read on the page.

use holdwater_answers::words::{Span, Tone, Verdict, verdict};
use leptos::prelude::*;

use crate::live::{live, part};
use crate::state::{Page, page};

/// The verdict sentence with its deciding numbers large, and a word when it belongs to earlier values.
#[component]
pub fn VerdictLine() -> impl IntoView {
    let page = page();
    let act = move || said(page).is_some_and(|said| said.tone == Tone::Act);
    let stale_word = move || {
        if page.is_stale() { "Answer for the last good values." } else { "" }
    };
    view! {
        <section
            class="verdict" aria-labelledby="verdict-title"
            class:act=live(act) class:stale=live(move || page.is_stale())
        >
            <h2 id="verdict-title" class="spoken">"Verdict"</h2>
            <p class="verdict-words" data-test="verdict" aria-live="polite" aria-atomic="true">
                {part(move || said(page).map(|said| spans(&said)).unwrap_or_default())}
            </p>
            <p class="stale-word" data-test="stale">{live(stale_word)}</p>
            <div role="alert"><ul class="refusals">{part(move || refusals(page))}</ul></div>
        </section>
    }
}

fn said(page: &Page) -> Option<Verdict> {
    let delay_s = page.flown.delay.get();
    page.flown.answers.with(|answers| answers.as_ref().map(|answers| verdict(answers, delay_s)))
}

fn spans(verdict: &Verdict) -> Vec<AnyView> {
    let span = |span: &Span| match span {
        Span::Text(text) => text.clone().into_any(),
        Span::Number(number, unit) => {
            let (number, unit) = (number.clone(), *unit);
            view! { <strong class="deciding">{number}<span class="unit">"\u{2009}"{unit}</span></strong> }.into_any()
        }
    };
    verdict.spans.iter().map(span).collect()
}

fn refusals(page: &Page) -> Vec<AnyView> {
    let item = |message: String| view! { <li>{message}</li> }.into_any();
    page.flown.refusals().into_iter().map(|refused| item(refused.message)).collect()
}
