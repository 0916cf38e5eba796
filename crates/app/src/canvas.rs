//! Room on the page: its size, and a canvas in it that is painted in real pixels and the colours of the moment.

use std::cell::Cell;
use std::rc::Rc;

use holdwater_design::measure::System;
use holdwater_pictures::Theme;
use holdwater_pictures::chart::ChartLook;
use leptos::prelude::{document, window};
use plotters_canvas::CanvasBackend;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{CanvasRenderingContext2d, Element, HtmlCanvasElement, MediaQueryList, ResizeObserver};

use crate::browser::NextFrame;
use crate::dom::{El, follow};
use crate::keeping::storage;
use crate::react::{RwSignal, keep};
use crate::state::page;

/// Colours of the page: by the system's setting, unless the page itself was set to those for glare.
#[derive(Clone, Copy)]
pub struct Colours(RwSignal<Theme>);

/// Under this name the choice is stored.
const CHOSEN: &str = "holdwater.colours";

impl Colours {
    /// Whether the colours are those for glare.
    #[must_use]
    pub fn is_sun(self) -> bool {
        self.0.track();
        is_sun()
    }

    /// Chooses the colours for glare, or leaves them to the system; the device remembers it.
    pub fn set_sun(self, sun: bool) {
        if let Some(root) = document().document_element() {
            let _ = if sun { root.set_attribute("data-theme", "sun") } else { root.remove_attribute("data-theme") };
        }
        if let Some(storage) = storage() {
            let _ = if sun { storage.set_item(CHOSEN, "sun") } else { storage.remove_item(CHOSEN) };
        }
        self.0.set(theme_now());
    }

    /// Follows the system's setting.
    pub fn follow() -> Self {
        let colours = Self(RwSignal::new(theme_now()));
        if let Some(query) = dark_query() {
            let changed = Closure::<dyn FnMut()>::new(move || colours.0.set(theme_now()));
            let _ = query.add_event_listener_with_callback("change", changed.as_ref().unchecked_ref());
            // The page listens until the window closes. A query that nobody holds would be collected with its listener.
            changed.forget();
            keep(Rc::new(query));
        }
        if storage().and_then(|storage| storage.get_item(CHOSEN).ok().flatten()).is_some() {
            colours.set_sun(true);
        }
        colours
    }
}

fn is_sun() -> bool {
    let chosen = document().document_element().and_then(|root| root.get_attribute("data-theme"));
    chosen.as_deref() == Some("sun")
}

fn dark_query() -> Option<MediaQueryList> {
    window().match_media("(prefers-color-scheme: dark)").ok().flatten()
}

fn theme_now() -> Theme {
    if is_sun() {
        Theme::sun()
    } else if dark_query().is_some_and(|query| query.matches()) {
        Theme::dusk()
    } else {
        Theme::day()
    }
}

/// Width and height of an element in CSS px, followed; `None` until it stands on the page and has some.
pub fn size_of(room: &El) -> RwSignal<Option<(f64, f64)>> {
    let size = RwSignal::new(None);
    let measured = Rc::new(Cell::new(None));
    let latest = Rc::clone(&measured);
    let tell = NextFrame::new(move || {
        let now = latest.get();
        // The element may be gone when its frame comes.
        if size.try_get_untracked().is_some_and(|before| before != now) {
            size.set(now);
        }
    });
    let element = room.element().clone();
    // Measured while the browser tells of the size, when it has just laid out the page: asking in a frame of our own, in which other
    // parts have changed, would make it lay out anew for every element.
    let measure = move || {
        let (width, height) = (f64::from(element.client_width()), f64::from(element.client_height()));
        measured.set((width >= 1.0 && height >= 1.0).then_some((width, height)));
        tell.ask();
    };
    keep(Rc::new(Observed::new(room.element(), measure)));
    size
}

/// What paints a canvas: a backend of the right size, and its look.
pub type Paint = Box<dyn Fn(CanvasBackend, &ChartLook)>;

/// Keeps the canvas in a box painted.
///
/// `paint` runs in an animation frame, at most once in each, whenever something that `watch` reads has changed,
/// the box has another size, or the colours or the units are others.
pub fn keep_painted(room: &El, canvas: &El, watch: Box<dyn Fn()>, paint: Paint) {
    let colours = page().colours.0;
    let units = page().units;
    let size = size_of(room);
    let Some(canvas) = canvas.get::<HtmlCanvasElement>() else { return };
    let frame = NextFrame::new(move || {
        if let Some(Some(size)) = size.try_get_untracked() {
            let look = ChartLook::new(colours.get_untracked(), size.0, size.1, ChartLook::FINE);
            let look = look.in_units(units.get_untracked());
            if let Some(backend) = backend_of(&canvas, size) {
                paint(backend, &look);
            }
        }
    });
    follow(move || {
        colours.track();
        units.track();
        size.track();
        watch();
        frame.ask();
    });
}

/// The look of a chart that is saved: for paper, in the units of the page.
///
/// They are handed in: whoever taps a button calls this from no component, and asking for the page there would stop it.
pub fn file_look(units: RwSignal<System>) -> ChartLook {
    ChartLook::for_file(units.get_untracked())
}

/// A backend for a canvas of the given size in CSS px, which gets another number of pixels only when it needs one: that clears it.
///
/// The backend rounds to whole steps. It is given finer ones than there are pixels, so that curves stay smooth; pictures that are saved
/// want two pixels for each CSS px at least.
fn backend_of(canvas: &HtmlCanvasElement, size: (f64, f64)) -> Option<CanvasBackend> {
    let ratio = window().device_pixel_ratio().clamp(2.0, ChartLook::FINE);
    let pixels = |length: f64| (length * ratio).round().clamp(1.0, 16_384.0) as u32;
    let (columns, rows) = (pixels(size.0), pixels(size.1));
    if (canvas.width(), canvas.height()) != (columns, rows) {
        canvas.set_width(columns);
        canvas.set_height(rows);
    }
    let context: CanvasRenderingContext2d = canvas.get_context("2d").ok()??.dyn_into().ok()?;
    let scale = ratio / ChartLook::FINE;
    context.set_transform(scale, 0.0, 0.0, scale, 0.0, 0.0).ok()?;
    // What is not painted over, because there is nothing to show, must not stay.
    context.clear_rect(0.0, 0.0, f64::from(columns) / scale, f64::from(rows) / scale);
    CanvasBackend::with_canvas_object(canvas.clone())
}

/// Watches the size of an element for as long as it is held.
struct Observed {
    observer: ResizeObserver,
    _callback: Closure<dyn FnMut()>,
}

impl Observed {
    fn new(element: &Element, measure: impl Fn() + 'static) -> Option<Self> {
        let callback = Closure::<dyn FnMut()>::new(measure);
        let observer = ResizeObserver::new(callback.as_ref().unchecked_ref()).ok()?;
        observer.observe(element);
        Some(Self { observer, _callback: callback })
    }
}

impl Drop for Observed {
    fn drop(&mut self) {
        self.observer.disconnect();
    }
}
