//! What the page shows as numbers, beside what the same link answers outside of any browser.

use std::fmt;
use std::time::Duration;

use acceptance::harness::{Outcome, Page};
use holdwater_answers::evaluate_json;
use serde_json::Value;

/// The field of the delay under the chart.
pub const DELAY: &str = "[data-test=\"delay-input\"]";
/// The chart of height against delay.
pub const CHART: &str = "[data-test=\"delay-chart\"]";
/// The verdict sentence.
pub const VERDICT: &str = "[data-test=\"verdict\"]";
/// The word that marks an answer of earlier values.
pub const STALE: &str = "[data-test=\"stale\"]";

/// The table of events follows once the delay rests; until then it is asked this often.
const TRIES: u32 = 60;
const BETWEEN_TRIES: Duration = Duration::from_millis(50);

/// A number that equals another one only to the last bit.
#[derive(Clone, Copy)]
pub struct Exact(pub f64);

impl PartialEq for Exact {
    fn eq(&self, other: &Self) -> bool {
        self.0.to_bits() == other.0.to_bits()
    }
}

impl fmt::Debug for Exact {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// The numbers by which an answer is compared.
#[derive(Clone, Debug, PartialEq)]
pub struct Shown {
    apogee_m: Option<Exact>,
    apogee_t_s: Option<Exact>,
    settled_apogee_m: Option<Exact>,
    /// Name, time after lift-off and after burnout, height, speed.
    events: Vec<(String, [Option<Exact>; 4])>,
}

/// Opens the page with a fragment and waits until the program has taken over.
pub async fn open(page: &Page, fragment: &str) -> Outcome {
    page.open_fragment(fragment).await?;
    page.wait_until("document.getElementById('shell') === null").await
}

/// A JavaScript expression: how many pixels of a canvas are painted. That takes a frame or more after the answers are there.
pub fn painted(canvas: &str) -> String {
    format!(
        "(() => {{
            const canvas = document.querySelector('{canvas}');
            const pixels = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height).data;
            return pixels.filter((part, index) => index % 4 === 3 && part > 0).length;
        }})()"
    )
}

/// Taps the label of a part in the stack drawing.
///
/// The element as a whole reaches to the part itself, and nothing may lie in its middle.
pub async fn tap_part(page: &Page, part: &str) -> Outcome {
    let label = page.center_at_rest(&format!("[data-part=\"{part}\"] .button")).await?;
    page.tap_at(label).await?;
    // Its heading gets the keyboard a frame after it is there, and would take it from a field that is typed into at once.
    page.wait_until("document.activeElement.id === 'sheet-title'").await
}

/// What a fragment answers outside of the browser.
pub fn answered(fragment: &str) -> Outcome<Shown> {
    let line = evaluate_json(fragment).map_err(|complaints| complaints.join("; "))?;
    let answers: Value = serde_json::from_str(&line)?;
    let number = |value: &Value| value.as_f64().map(Exact);
    let event = |event: &Value| {
        let name = event["what"].as_str().unwrap_or_default().to_owned();
        (name, ["t_s", "after_burnout_s", "h_m", "v_mps"].map(|key| number(&event[key])))
    };
    Ok(Shown {
        apogee_m: number(&answers["apogee_m"]),
        apogee_t_s: number(&answers["apogee_t_s"]),
        settled_apogee_m: number(&answers["settled_apogee_m"]),
        events: answers["events"].as_array().ok_or("an answer has events")?.iter().map(event).collect(),
    })
}

/// What the page shows now.
pub async fn shown(page: &Page) -> Outcome<Shown> {
    let script = "(() => {
        const exact = element => element?.getAttribute('data-value') ?? null;
        const one = css => exact(document.querySelector(css));
        const row = row => [row.cells[0].textContent,
            ...[...row.cells].slice(1).map(cell => exact(cell.querySelector('.quantity')))];
        return {
            apogee: one('[data-test=\"apogee\"]'),
            time: one('[data-test=\"apogee-time\"]'),
            settled: one('[data-test=\"way-Settled\"] .way-height .quantity'),
            events: [...document.querySelectorAll('[data-test=\"event-row\"]')].map(row),
        };
    })()";
    let found = page.evaluate(script).await?;
    let number = |value: &Value| value.as_str().and_then(|text| text.parse().ok()).map(Exact);
    let event = |row: &Value| {
        let name = row[0].as_str().unwrap_or_default().to_owned();
        (name, [1, 2, 3, 4].map(|column| number(&row[column])))
    };
    Ok(Shown {
        apogee_m: number(&found["apogee"]),
        apogee_t_s: number(&found["time"]),
        settled_apogee_m: number(&found["settled"]),
        events: found["events"].as_array().ok_or("the page has no events")?.iter().map(event).collect(),
    })
}

/// The page comes to show what a fragment answers, bit for bit.
pub async fn assert_answers(page: &Page, fragment: &str) -> Outcome {
    let expected = answered(fragment)?;
    assert!(expected.apogee_m.is_some() && !expected.events.is_empty(), "`{fragment}` has an answer");
    for _ in 0..TRIES {
        if shown(page).await? == expected {
            return Ok(());
        }
        tokio::time::sleep(BETWEEN_TRIES).await;
    }
    assert_eq!(shown(page).await?, expected, "the page (left) and the answer to `{fragment}` (right)");
    Ok(())
}

/// The delay that the page answers for.
pub async fn delay_s(page: &Page) -> Outcome<f64> {
    number(page, "document.querySelector('[data-test=\"delay-input\"]').getAttribute('data-value')").await
}

/// A number from a JavaScript expression that gives one, or its text.
pub async fn number(page: &Page, expression: &str) -> Outcome<f64> {
    let value = page.evaluate(expression).await?;
    let number = value.as_f64().or_else(|| value.as_str()?.parse().ok());
    number.ok_or_else(|| format!("`{expression}` is no number but {value}").into())
}

/// Waits for the link to follow, and checks that it opens without complaint as what is shown.
///
/// A second after the last change the address bar has to hold the design.
pub async fn assert_link_follows(page: &Page, pair: &str) -> Outcome<String> {
    page.let_pass(1000).await?;
    let fragment = page.fragment().await?;
    assert!(fragment.split('&').any(|written| written == pair), "`{pair}` is not in `{fragment}`");
    assert_answers(page, &fragment).await?;
    Ok(fragment)
}
