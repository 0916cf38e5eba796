//! Times in the browser, for `cargo xtask bench`. Nothing is asserted about them here.

use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::{Arc, Mutex, PoisonError};

use acceptance::harness::{Outcome, Page, dist, laptop, phone, visit};
use serde_json::json;
use xtask::workspace;

#[path = "browser_bench/visits.rs"]
mod visits;

/// Nanoseconds by name.
type Figures = Arc<Mutex<BTreeMap<String, f64>>>;

/// The stopwatch as `cargo xtask bench` built it.
const STOPWATCH: &str = "wasm32-unknown-unknown/release/holdwater_stopwatch.wasm";

/// Best mean of a batch, ms. The clock of a browser is coarse, so a batch is long; the first rounds are not counted,
/// because the browser compiles anew what turns out to be hot.
const TIME_EXPORTS: &str = "
    const { instance } = await WebAssembly.instantiateStreaming(fetch('stopwatch.wasm'), {});
    const { one_flight, move_delay, new_design, sweep_of_200_delays, question_two, vessels_of_24_parts,
        weibull_of_1000_rows } = instance.exports;
    const batch = (work, rounds) => {
        const start = performance.now();
        for (let round = 0; round < rounds; round++) work();
        return (performance.now() - start) / rounds;
    };
    const best = work => {
        const rounds = Math.max(1, Math.ceil(200 / batch(work, 5)));
        batch(work, 2 * rounds);
        return Math.min(...Array.from({ length: 8 }, () => batch(work, rounds)));
    };
    return {
        one_flight: best(() => one_flight(1)),
        move_delay_x100: best(() => move_delay(100)),
        new_design: best(() => new_design(1)),
        sweep_of_200_delays: best(() => sweep_of_200_delays(1)),
        question_two: best(() => question_two(1)),
        vessels_of_24_parts: best(() => vessels_of_24_parts(1)),
        weibull_of_1000_rows: best(() => weibull_of_1000_rows(1)),
    };";

/// What 60 moves of the delay keep the page busy, ms: from the event until its effects are done, and from the start of
/// the next frame until it is painted. What lies between is waiting for the screen and costs nobody anything. The next move comes at once, as from a finger, so what a move leaves for later burdens the next ones.
///
/// A message is delivered after what is under way, be it the effects of an event or the painting of a frame. So the
/// longest time between messages is the longest for which the page is deaf: `rest`, while the delay comes to rest and
/// the flight is drawn anew.
const TIME_MOVES: &str = "
    const chart = document.querySelector('[data-test=\"delay-chart\"]');
    const box = chart.getBoundingClientRect();
    // The slider reaches half a thumb beyond the plot at both ends.
    const slider = document.querySelector('[data-test=\"delay-slider\"]').getBoundingClientRect();
    const pointer = (kind, share) => new PointerEvent(kind, {
        clientX: slider.x + 16 + share * (slider.width - 32), clientY: box.y + box.height / 2,
        pointerId: 1, pointerType: 'mouse', button: 0, bubbles: true,
    });
    // One channel for all messages: thousands of them would be timed as garbage to collect.
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
    const field = document.querySelector('[data-test=\"delay-input\"]');
    const moves = [], delays = new Set();
    chart.dispatchEvent(pointer('pointerdown', 0.03));
    await frame();
    for (let move = 0; move < 60; move++) {
        const painting = frame();
        const start = performance.now();
        chart.dispatchEvent(pointer('pointermove', 0.05 + 0.9 * move / 60));
        const handled = await over();
        const { from, to } = await painting;
        // The frame may come before the message that the move is handled; then both are one piece of work.
        const busy = from < handled ? Math.max(handled, to) - start : handled - start + to - from;
        moves.push({ busy, painted: to - from });
        delays.add(field.getAttribute('data-value'));
    }
    chart.dispatchEvent(pointer('pointerup', 0.9));
    if (delays.size < 50) throw new Error(`the delay moved only ${delays.size} times`);
    let rest = 0, last = performance.now();
    for (const end = last + 1500; last < end;) {
        const now = await over();
        rest = Math.max(rest, now - last);
        last = now;
    }
    return { moves, rest };";

/// Series of moves. The first ones are slower, because the browser still compiles anew what turns out to be hot.
const SERIES: u32 = 4;

/// A folder with the stopwatch and a page to load it from; it goes when the measurement ends.
struct Site(PathBuf);

impl Site {
    fn new() -> Outcome<Self> {
        let folder = std::env::temp_dir().join(format!("holdwater-stopwatch-{}", std::process::id()));
        let built = workspace::target_dir(&workspace::root()?).join(STOPWATCH);
        workspace::write(&folder.join("stopwatch.wasm"), &workspace::read_bytes(&built)?)?;
        workspace::write(
            &folder.join("index.html"),
            b"<!doctype html><link rel=\"icon\" href=\"data:,\"><title>stopwatch</title>",
        )?;
        Ok(Self(folder))
    }
}

impl Drop for Site {
    fn drop(&mut self) {
        // What stays in the temporary folder is cleared away by the system.
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

/// Keeps a time unless a shorter one of that name is kept already.
fn note(figures: &Figures, name: &str, milliseconds: f64) {
    let mut figures = figures.lock().unwrap_or_else(PoisonError::into_inner);
    let kept = figures.entry(name.to_owned()).or_insert(f64::INFINITY);
    *kept = kept.min(milliseconds * 1e6);
}

/// The value below which this share of the values lies.
fn quantile(values: &mut [f64], share: f64) -> f64 {
    values.sort_by(f64::total_cmp);
    let last = values.len().saturating_sub(1);
    let place = values.iter().enumerate().find(|(index, _)| *index as f64 >= share * last as f64);
    place.map_or(f64::NAN, |(_, value)| *value)
}

/// The least of several series counts: what else the machine does can only add to it.
async fn time_moves(page: &Page, figures: &Figures, name: &str) -> Outcome {
    page.let_pass(1500).await?;
    page.wait_until("document.querySelector('.delay-chart.updating') === null").await?;
    for _ in 0..SERIES {
        let timed = page.ask(TIME_MOVES).await?;
        for part in ["painted", "busy"] {
            let moves = timed["moves"].as_array().into_iter().flatten();
            let mut times: Vec<f64> = moves.filter_map(|time| time[part].as_f64()).collect();
            note(figures, &format!("delay_move_{part}_median{name}"), quantile(&mut times, 0.5));
            note(figures, &format!("delay_move_{part}_p95{name}"), quantile(&mut times, 0.95));
        }
        note(figures, &format!("delay_rest{name}"), timed["rest"].as_f64().ok_or("a time is a number")?);
    }
    Ok(())
}

#[tokio::test]
#[ignore = "it measures and takes its time: `cargo xtask bench` runs it"]
async fn the_work_and_the_page_are_timed_in_the_browser() -> Outcome {
    let figures = Figures::default();
    let (site, noted) = (Site::new()?, Arc::clone(&figures));
    visit(laptop(), &site.0, |page| async move {
        page.open_fragment("").await?;
        let times = page.ask(TIME_EXPORTS).await?;
        for (name, time) in times.as_object().into_iter().flatten() {
            note(&noted, name, time.as_f64().ok_or("a time is a number")?);
        }
        Ok(())
    })
    .await?;

    let noted = Arc::clone(&figures);
    visit(phone(), &dist()?, |page| async move {
        page.open_fragment("").await?;
        page.wait_for("[data-test=\"delay-chart\"]").await?;
        time_moves(&page, &noted, "").await?;
        page.slow_down(4.0).await?;
        time_moves(&page, &noted, "_slowed_x4").await
    })
    .await?;
    visits::time_keystrokes(&figures).await?;
    visits::time_visits(&figures).await?;

    let figures = figures.lock().unwrap_or_else(PoisonError::into_inner).clone();
    let text = serde_json::to_string_pretty(&json!(figures))?;
    println!("{text}");
    workspace::write(&workspace::root()?.join("tests/output/browser-bench.json"), text.as_bytes())?;
    Ok(())
}
