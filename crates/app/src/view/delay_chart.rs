//! Height against delay, with the delay to be dragged along it.
//!
//! The canvas is painted when the curves change. The delay lies over it as a line and two dots, so that moving it
//! repaints nothing.

use holdwater_answers::curves::DelayCurves;
use holdwater_design::Input;
use holdwater_pictures::chart::{Frame, delay_table, describe_delay, draw_delay};
use leptos::prelude::*;
use plotters::prelude::IntoDrawingArea;

use super::drag::Drag;
use super::tables::NumberTable;
use crate::canvas::keep_painted;
use crate::choices::Way;
use crate::live::{live, on};
use crate::state::{Page, page};

/// Where the plot of the chart lies, for whatever has to lie exactly over or under it.
#[derive(Clone, Copy)]
pub struct DelayFrame(pub RwSignal<Option<Frame>>);

/// The one way to stage whose line is shown alone, if one was picked.
#[derive(Clone, Copy)]
pub struct ShownWay(pub RwSignal<Option<Way>>);

/// Presses of the delay's step that one key moves.
const FINE: i32 = 1;
const COARSE: i32 = 5;
/// Rows of the table.
const TABLE_ROWS: usize = 17;

/// The chart with its marker.
#[component]
pub fn DelayChart() -> impl IntoView {
    let page = page();
    let frame = expect_context::<DelayFrame>().0;
    let shown = expect_context::<ShownWay>().0;
    let (room, canvas) = (NodeRef::new(), NodeRef::new());
    keep_painted(
        room,
        canvas,
        move || {
            page.flown.curves.track();
            shown.track();
        },
        move |backend, look| {
            let curves = page.flown.curves.read_untracked();
            let alone = alone(&curves, shown.get_untracked());
            frame.set(draw_delay(&backend.into_drawing_area(), alone.as_ref().unwrap_or(&curves), look).ok());
        },
    );
    let drag = Drag::along(move |px| {
        if let Some(frame) = frame.get_untracked() {
            page.drag_delay(frame.delay_at(px));
        }
    });
    let drag = StoredValue::new_local(drag);
    let longest = live(move || page.flown.longest_delay().map(|longest| longest.to_string()));
    let updating = live(move || page.flown.updating.get());
    view! {
        <div
            node_ref=room class="delay-chart" class:updating=updating data-test="delay-chart"
            role="slider" tabindex="0"
            aria-label="Staging delay on the chart of height against delay"
            aria-valuemin="0" aria-valuemax=longest
            aria-valuenow=live(move || page.flown.delay.get().to_string())
            aria-valuetext=live(move || spoken(page))
            on:pointerdown=on(move |event| drag.with_value(|drag| drag.down(&event)))
            on:pointermove=on(move |event| drag.with_value(|drag| drag.moved(&event)))
            on:pointerup=on(move |event| drag.with_value(|drag| drag.up(&event)))
            on:pointercancel=on(move |_| drag.with_value(Drag::cancel))
            on:keydown=on(move |event| by_key(page, &event))
        >
            <canvas node_ref=canvas aria-hidden="true"></canvas>
            <Marker frame/>
            <p class="updating-word">"updating"</p>
        </div>
    }
}

/// The chart in a sentence and as a table.
#[component]
pub fn DelayTable() -> impl IntoView {
    let curves = page().flown.curves;
    view! {
        <p class="says">{live(move || describe_delay(&curves.read()))}</p>
        <NumberTable
            title="Height against delay as a table"
            heads=["delay, s", "settled, m", "bare, m", "tube, m"]
            rows=live(move || delay_table(&curves.read(), TABLE_ROWS))
        />
    }
}

/// The delay as a line through the plot, with a dot on the settled ideal and one on the design as it stands.
#[component]
fn Marker(frame: RwSignal<Option<Frame>>) -> impl IntoView {
    let page = page();
    let place = Memo::new(move |_| {
        let frame = frame.get()?;
        let answers = page.flown.answers.get()?;
        let inside = |metres: f64| frame.y_of(metres).max(frame.top).min(frame.bottom);
        let x = frame.x_of(page.flown.delay.get()).min(frame.right);
        let (settled, own) = (inside(answers.settled_apogee_m), inside(answers.apogee_m));
        Some(Place { x, top: frame.top, bottom: frame.bottom, settled, own })
    });
    let at = move |pick: fn(Place) -> f64| live(move || place.get().map(|place| pick(place).to_string()));
    view! {
        <svg class="marker" aria-hidden="true" class:empty=live(move || place.get().is_none())>
            <line class="marker-line" x1=at(|p| p.x) x2=at(|p| p.x) y1=at(|p| p.top) y2=at(|p| p.bottom)/>
            <circle class="marker-settled" r="4" cx=at(|p| p.x) cy=at(|p| p.settled)/>
            <circle class="marker-own" r="5" cx=at(|p| p.x) cy=at(|p| p.own)/>
        </svg>
    }
}

/// Where the marker lies on the chart, CSS px.
#[derive(Clone, Copy, PartialEq)]
struct Place {
    x: f64,
    top: f64,
    bottom: f64,
    settled: f64,
    own: f64,
}

/// The curves with all lines but the picked one taken out; `None` when all are shown.
fn alone(curves: &DelayCurves, way: Option<Way>) -> Option<DelayCurves> {
    let mut one = DelayCurves { settled_m: Vec::new(), bare_m: Vec::new(), tube_m: Vec::new(), ..curves.clone() };
    match way? {
        Way::Settled => one.settled_m.clone_from(&curves.settled_m),
        Way::Bare => one.bare_m.clone_from(&curves.bare_m),
        Way::Fitted if !curves.tube_m.is_empty() => one.tube_m.clone_from(&curves.tube_m),
        // Only a staging tube has a curve of its own so far.
        Way::Fitted => return None,
    }
    Some(one)
}

/// What a screen reader says when the delay moves along the chart.
fn spoken(page: &Page) -> Option<String> {
    let answers = page.flown.answers.get()?;
    let (delay, own, settled) = (page.flown.delay.get(), answers.apogee_m, answers.settled_apogee_m);
    Some(format!("{delay:.2} seconds: {own:.0} metres, settled ideal {settled:.0}"))
}

fn by_key(page: &Page, event: &web_sys::KeyboardEvent) {
    let presses = if event.shift_key() { COARSE } else { FINE };
    match event.key().as_str() {
        "ArrowRight" | "ArrowUp" => page.press(Input::Delay, presses),
        "ArrowLeft" | "ArrowDown" => page.press(Input::Delay, -presses),
        "Home" => page.drag_delay(0.0),
        "End" => page.drag_delay(f64::MAX),
        _ => return,
    }
    event.prevent_default();
}
