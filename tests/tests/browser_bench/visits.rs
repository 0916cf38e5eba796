//! How soon the first answer of a later visit stands, and how soon a keystroke is answered.

use acceptance::harness::{Outcome, Page, Storage, dist, phone, visit};
use serde_json::Value;

use super::{Figures, note, quantile};

/// Visits of either kind; the middle one counts.
const VISITS: u32 = 10;

/// Runs before the page does: notes when the first answer has been painted, in milliseconds since the visit began.
///
/// A message is delivered after what is under way, here the painting of the frame in which the answer was found.
const NOTE_FIRST_ANSWER: &str = "
    const channel = new MessageChannel();
    channel.port1.onmessage = () => { globalThis.answeredAt ??= performance.now(); };
    const look = () => {
        const answer = document.querySelector('[data-test=\"apogee\"][data-value]');
        if (answer) channel.port2.postMessage(0); else requestAnimationFrame(look);
    };
    requestAnimationFrame(look);";

/// Types into a field while the curve is flown anew, and tells for every keystroke how long it took until a frame with
/// the answer was painted, ms, how long of it the page was busy (as for moves of the delay), and whether the curve was under way when
/// the key was struck.
///
/// Keys are struck at any time between two frames, as by a person.
const TIME_KEYSTROKES: &str = "
    const field = document.querySelector('[data-test=\"field-s.water\"]');
    const answer = () => document.querySelector('[data-test=\"apogee\"]').getAttribute('data-value');
    const channel = new MessageChannel(), waiting = [];
    channel.port1.onmessage = () => waiting.shift()(performance.now());
    const over = () => new Promise(resolve => {
        waiting.push(resolve);
        channel.port2.postMessage(0);
    });
    const frame = () => new Promise(resolve => requestAnimationFrame(async () => {
        const from = performance.now();
        resolve({ from, to: await over() });
    }));
    const pause = milliseconds => new Promise(resolve => setTimeout(resolve, milliseconds));
    const times = [], busy = [];
    let sweeping = 0;
    for (let stroke = 0; stroke < 60; stroke++) {
        await pause(20 + stroke * 7 % 17);
        sweeping += document.querySelector('.delay-chart.updating') !== null;
        const before = answer();
        // Every text is a new design.
        const text = (0.4 + 0.001 * (stroke % 2 ? 60 + stroke : stroke)).toFixed(3);
        const start = performance.now();
        const painting = frame();
        field.value = text;
        field.dispatchEvent(new InputEvent('input', { bubbles: true }));
        const handled = await over();
        let { from, to } = await painting;
        let worked = from < handled ? Math.max(handled, to) - start : handled - start + to - from;
        // An answer that comes in a later frame is waited for all the while.
        while (answer() === before && to < start + 3000) {
            ({ to } = await frame());
            worked = to - start;
        }
        if (answer() === before) throw new Error(`${text} was never answered`);
        times.push(to - start);
        busy.push(worked);
    }
    return { times, busy, sweeping };";

/// Series of keystrokes, 240 in all; all of them count.
const SERIES: u32 = 4;

/// When the first answer stood, for a visit that has just been made.
async fn answered_at(page: &Page) -> Outcome<f64> {
    page.wait_until("globalThis.answeredAt !== undefined").await?;
    Ok(page.evaluate("globalThis.answeredAt").await?.as_f64().ok_or("a time is a number")?)
}

/// Visits without a network, in a browser that has just been started and in one that was here a moment ago.
pub async fn time_visits(figures: &Figures) -> Outcome {
    let noted = Figures::clone(figures);
    visit(phone(), &dist()?, |page| async move {
        page.open_fragment("v=1&delay=0.4").await?;
        page.ask("await navigator.serviceWorker.ready; return true;").await?;
        page.wait_until("navigator.serviceWorker.controller !== null").await?;
        page.stop_server();
        // The worker asks in vain whether there is a newer one.
        page.forgive("ERR_CONNECTION_REFUSED");
        page.forgive("sw.js");
        let (mut started, mut again) = (Vec::new(), Vec::new());
        for visit in 0..VISITS {
            page.restart_browser(Storage::Allowed).await?;
            page.before_all(NOTE_FIRST_ANSWER).await?;
            // Each visit opens another design, so that none shows what is left of the one before.
            for (times, delay) in [(&mut started, 20 + visit), (&mut again, 40 + visit)] {
                page.open_fragment(&format!("v=1&delay=0.{delay}")).await?;
                times.push(answered_at(&page).await?);
                // The visit settles before the next one.
                page.let_pass(1000).await?;
            }
        }
        note(&noted, "visit_offline_new_browser_median", quantile(&mut started, 0.5));
        note(&noted, "visit_offline_again_median", quantile(&mut again, 0.5));
        Ok(())
    })
    .await
}

/// Keystrokes in a field of the sustainer while height against delay is flown anew.
pub async fn time_keystrokes(figures: &Figures) -> Outcome {
    let noted = Figures::clone(figures);
    visit(phone(), &dist()?, |page| async move {
        page.open_fragment("v=1&delay=0.4").await?;
        let part = "[data-part=\"SustainerWater\"] .button";
        page.wait_for(part).await?;
        page.tap_at(page.center(part).await?).await?;
        page.wait_for("[data-test=\"field-s.water\"]").await?;
        let (mut times, mut busy, mut sweeping) = (Vec::new(), Vec::new(), 0.0);
        for _ in 0..SERIES {
            let timed = page.ask(TIME_KEYSTROKES).await?;
            times.extend(timed["times"].as_array().into_iter().flatten().filter_map(Value::as_f64));
            busy.extend(timed["busy"].as_array().into_iter().flatten().filter_map(Value::as_f64));
            sweeping += timed["sweeping"].as_f64().ok_or("a count is a number")?;
        }
        println!("{sweeping} of {} keys were struck during a sweep", times.len());
        note(&noted, "keystroke_median", quantile(&mut times, 0.5));
        note(&noted, "keystroke_p95", quantile(&mut times, 0.95));
        note(&noted, "keystroke_busy_p95", quantile(&mut busy, 0.95));
        Ok(())
    })
    .await
}
