//! What the later questions show, beside what the same link answers outside of any browser.

use acceptance::harness::{Outcome, Page};
use holdwater_answers::evaluate_json;
use holdwater_answers::words::{Span, Verdict};
use holdwater_design::measure::{self, System};
use serde_json::Value;

use crate::shown::{Exact, assert_answers, open};

/// Question 2 has caught up with the design.
const SEARCHED: &str = "document.querySelector('.holding:not(.updating)') !== null";

/// Waits until every question is answered and the address bar has the link; returns its fragment.
pub async fn settled(page: &Page) -> Outcome<String> {
    // Longer than the design has to rest before it is searched and before the link is written.
    page.let_pass(500).await?;
    page.wait_until(SEARCHED).await?;
    page.fragment().await
}

/// Opens a fragment and waits for all of its answers.
pub async fn open_all(page: &Page, fragment: &str) -> Outcome {
    open(page, fragment).await?;
    settled(page).await?;
    Ok(())
}

/// Everything that a fragment answers outside of the browser.
pub fn evaluated(fragment: &str) -> Outcome<Value> {
    let line = evaluate_json(fragment).map_err(|complaints| complaints.join("; "))?;
    Ok(serde_json::from_str(&line)?)
}

/// A number of an answer; none where it is null.
pub fn number_in(answers: &Value, pointer: &str) -> Option<Exact> {
    answers.pointer(pointer).and_then(Value::as_f64).map(Exact)
}

/// The sentences of an answer.
pub fn lines_in(answers: &Value, pointer: &str) -> Vec<String> {
    let lines = answers.pointer(pointer).and_then(Value::as_array).cloned().unwrap_or_default();
    lines.iter().filter_map(Value::as_str).map(str::to_owned).collect()
}

/// What the page holds at `css`, whether or not it is in view: the text of every element.
pub async fn texts(page: &Page, css: &str) -> Outcome<Vec<String>> {
    let all = page.evaluate(&format!("[...document.querySelectorAll('{css}')].map(one => one.textContent)")).await?;
    Ok(all.as_array().into_iter().flatten().filter_map(Value::as_str).map(str::to_owned).collect())
}

/// The whole text of an element with a name for tests.
pub async fn said(page: &Page, test: &str) -> Outcome<String> {
    let text = texts(page, &format!("[data-test=\"{test}\"]")).await?.into_iter().next();
    text.ok_or_else(|| format!("the page has no {test}").into())
}

/// The lines of a list with a name for tests.
pub async fn list(page: &Page, test: &str) -> Outcome<Vec<String>> {
    texts(page, &format!("[data-test=\"{test}\"] > li")).await
}

/// Numbers to the last bit, in the order of the page.
pub async fn numbers(page: &Page, css: &str) -> Outcome<Vec<Option<Exact>>> {
    let script = format!("[...document.querySelectorAll('{css}')].map(one => one.getAttribute('data-value'))");
    let all = page.evaluate(&script).await?;
    let exact = |value: &Value| value.as_str().and_then(|text| text.parse().ok()).map(Exact);
    Ok(all.as_array().into_iter().flatten().map(exact).collect())
}

/// A number with a name for tests, to the last bit.
pub async fn value(page: &Page, test: &str) -> Outcome<Option<Exact>> {
    let found = numbers(page, &format!("[data-test=\"{test}\"]")).await?;
    found.first().copied().ok_or_else(|| format!("the page has no {test}").into())
}

/// A verdict as plain text; on the page a narrow space stands between a number and its unit.
pub fn plain(verdict: &Verdict) -> String {
    let word = |span: &Span| match span {
        Span::Text(text) => text.clone(),
        Span::Number(number, unit) => format!("{number}\u{2009}{unit}"),
    };
    written(&verdict.spans.iter().map(word).collect::<String>())
}

/// A sentence as the page writes it to readers of metric units: with minus signs.
pub fn written(sentence: &str) -> String {
    measure::said(sentence, System::Metric)
}

/// Opens what hides behind a tap.
pub async fn unfold(page: &Page, summary: &str) -> Outcome {
    // What was just added may still push it down, and a tap on where it was opens something else.
    page.center_at_rest(summary).await?;
    page.tap(summary).await?;
    let is_open = format!("document.querySelector('{summary}').parentElement.open");
    page.wait_until(&is_open).await
}

/// Puts a text into a field as pasting does: at once, through the browser's own editing.
pub async fn paste(page: &Page, css: &str, text: &str) -> Outcome {
    page.wait_for(css).await?;
    let text = serde_json::to_string(text)?;
    let script = format!(
        "(() => {{ const field = document.querySelector('{css}'); field.focus(); field.select(); \
         return document.execCommand('insertText', false, {text}); }})()"
    );
    assert_eq!(page.evaluate(&script).await?, true, "the browser pastes");
    Ok(())
}

/// Names for tests of the sizes, and where each stands in the answers.
const SIZES: [(&str, &str); 14] = [
    ("bond", "/restrictor/bond"),
    ("limit", "/restrictor/limit"),
    ("hold-bore", "/restrictor/hold_bore_mm"),
    ("leaks-from", "/restrictor/leaks_from_mm"),
    ("window-from", "/restrictor/window_mm/0"),
    ("window-to", "/restrictor/window_mm/1"),
    ("best-bore", "/restrictor/best_bore_mm"),
    ("best-apogee", "/restrictor/best_apogee_m"),
    ("pattern-holes", "/restrictor/pattern/holes"),
    ("pattern-bore", "/restrictor/pattern/bore_mm"),
    ("best-height", "/restrictor/best_height_mm"),
    ("leak", "/restrictor/leak_l"),
    ("tube-seated", "/tube/seated_length_mm"),
    ("tube-best", "/tube/best_length_mm"),
];

/// Question 2 on the page is what the fragment answers, to the last bit, and so is question 1.
pub async fn assert_holds(page: &Page, fragment: &str) -> Outcome<Value> {
    assert_answers(page, fragment).await?;
    let answers = evaluated(fragment)?;
    let word = |pointer: &str| answers.pointer(pointer).and_then(Value::as_str).unwrap_or_default().to_owned();
    assert_eq!(said(page, "holding-verdict").await?, word("/holding_verdict"));
    assert_eq!(said(page, "restrictor-verdict").await?, word("/restrictor/verdict"));
    for (test, pointer) in SIZES {
        assert_eq!(value(page, test).await?, number_in(&answers, pointer), "{test} on the page and at {pointer}");
    }
    for (test, pointer) in [
        ("holding-notes", "/holding_notes"),
        ("why-not", "/restrictor/why_not"),
        ("small-tube-words", "/small_tube/words"),
    ] {
        assert_eq!(list(page, test).await?, lines_in(&answers, pointer), "{test}");
    }
    assert_choices(page, &answers).await?;
    Ok(answers)
}

/// The table of choices: one row with numbers and one with a warning for each way.
async fn assert_choices(page: &Page, answers: &Value) -> Outcome {
    let all = answers["choices"].as_array().ok_or("there are choices")?;
    let rows = "[data-test=\"choices\"] tr:nth-child(odd)";
    let mark = |place: usize| if answers["best_choice"] == place { " (highest)" } else { "" };
    let name = |(place, choice): (usize, &Value)| format!("{}{}", choice["choice"].as_str().unwrap_or(""), mark(place));
    let names: Vec<String> = all.iter().enumerate().map(name).collect();
    let shown = "[data-test=\"choices\"] th";
    let script = format!(
        "[...document.querySelectorAll('{shown}')].map(one => [...one.childNodes].filter(part => !part.hidden)\
         .map(part => part.textContent).join(''))"
    );
    let heads = page.evaluate(&script).await?;
    let heads: Vec<String> =
        heads.as_array().into_iter().flatten().filter_map(Value::as_str).map(str::to_owned).collect();
    assert_eq!(heads, names, "the ways to stage");
    let scaled = |choice: &Value, key: &str, scale: f64| choice[key].as_f64().map(|number| Exact(scale * number));
    let expected: Vec<_> = all
        .iter()
        .flat_map(|choice| {
            [
                scaled(choice, "apogee_m", 1.0),
                scaled(choice, "loss_share", 100.0),
                scaled(choice, "added_kg", 1e3),
                scaled(choice, "latest_release_s", 1.0),
            ]
        })
        .collect();
    assert_eq!(numbers(page, &format!("{rows} .quantity")).await?, expected, "the numbers of the choices");
    let warnings: Vec<_> = all.iter().map(|choice| choice["warning"].as_str().unwrap_or("").to_owned()).collect();
    assert_eq!(texts(page, "[data-test=\"choices\"] .warning").await?, warnings);
    Ok(())
}
