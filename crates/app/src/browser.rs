//! The few things the page asks of the browser, each with its failure turned into nothing happening.

use std::cell::{Cell, RefCell};
use std::rc::Rc;
use std::time::Duration;

use leptos::leptos_dom::helpers::{TimeoutHandle, request_animation_frame, set_timeout_with_handle};
use leptos::prelude::{document, window};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{FocusOptions, HtmlElement, HtmlTextAreaElement, SvgElement};

/// An element of the static shell in `index.html`.
#[must_use]
pub fn shell_element(id: &str) -> Option<HtmlElement> {
    document().get_element_by_id(id)?.dyn_into().ok()
}

/// Address of the page without its fragment, as others can open it.
#[must_use]
pub fn page_address() -> String {
    let location = window().location();
    let part = |text: Result<String, JsValue>| text.unwrap_or_default();
    format!("{}{}{}", part(location.origin()), part(location.pathname()), part(location.search()))
}

/// What stands after `#` in the address bar, as it was written.
#[must_use]
pub fn address_fragment() -> String {
    let hash = window().location().hash().unwrap_or_default();
    hash.strip_prefix('#').unwrap_or(&hash).to_owned()
}

/// Puts a fragment into the address bar without a new history entry.
///
/// Browsers refuse or silently drop too many of these calls, so only the link writer makes them. The path is
/// written out because a bare `#...` would resolve against a base address, if there were one.
pub fn replace_fragment(fragment: &str) {
    let location = window().location();
    let path = location.pathname().unwrap_or_default();
    let query = location.search().unwrap_or_default();
    let address = if fragment.is_empty() { format!("{path}{query}") } else { format!("{path}{query}#{fragment}") };
    if let Ok(history) = window().history() {
        // A refused write is made good by the next one; the page never reads its design back from here.
        let _ = history.replace_state_with_url(&JsValue::NULL, "", Some(&address));
    }
}

/// Gives the keyboard to the first element that a selector finds, HTML or SVG, without scrolling to it.
pub fn focus_on(selector: &str) {
    let Ok(Some(element)) = document().query_selector(selector) else {
        return;
    };
    let options = FocusOptions::new();
    options.set_prevent_scroll(true);
    let _ = match element.dyn_into::<HtmlElement>() {
        Ok(html) => html.focus_with_options(&options),
        Err(other) => other.dyn_into::<SvgElement>().map_or(Ok(()), |svg| svg.focus_with_options(&options)),
    };
}

/// Whether the page shows its inputs in a column of their own; the width is that of the stylesheet.
#[must_use]
pub fn is_wide() -> bool {
    window().match_media("(min-width: 64rem)").ok().flatten().is_some_and(|query| query.matches())
}

/// How far the page is scrolled, CSS px.
#[must_use]
pub fn scrolled() -> f64 {
    window().scroll_y().unwrap_or(0.0)
}

/// Scrolls the page to a place of before, at once.
pub fn scroll_to(place_px: f64) {
    window().scroll_to_with_x_and_y(0.0, place_px);
}

/// Selects all text of a field, so that it can be copied by hand.
pub fn select_text(field: &HtmlTextAreaElement) {
    let _ = field.focus();
    field.select();
}

/// A job that runs at most once per animation frame, however often it was asked for.
#[derive(Clone)]
pub struct NextFrame {
    asked: Rc<Cell<bool>>,
    job: Rc<dyn Fn()>,
}

impl NextFrame {
    /// Wraps a job; nothing runs before it is asked for.
    pub fn new(job: impl Fn() + 'static) -> Self {
        Self { asked: Rc::default(), job: Rc::new(job) }
    }

    /// Runs the job in the next animation frame.
    pub fn ask(&self) {
        if self.asked.replace(true) {
            return;
        }
        let this = self.clone();
        request_animation_frame(move || {
            this.asked.set(false);
            (this.job)();
        });
    }
}

/// A job that runs once things have been quiet for a while.
#[derive(Clone)]
pub struct WhenQuiet {
    pause: Duration,
    waiting: Rc<RefCell<Option<TimeoutHandle>>>,
    job: Rc<dyn Fn()>,
}

impl WhenQuiet {
    /// Wraps a job; nothing runs before it is asked for.
    pub fn new(pause: Duration, job: impl Fn() + 'static) -> Self {
        Self { pause, waiting: Rc::default(), job: Rc::new(job) }
    }

    /// Runs the job after the pause, counted from the last time of asking.
    pub fn ask(&self) {
        self.forget();
        let this = self.clone();
        let run = move || {
            this.waiting.borrow_mut().take();
            (this.job)();
        };
        *self.waiting.borrow_mut() = set_timeout_with_handle(run, self.pause).ok();
    }

    /// Runs the job at once if it is waiting.
    pub fn flush(&self) {
        if self.forget() {
            (self.job)();
        }
    }

    /// Drops a waiting job; says whether there was one.
    pub fn forget(&self) -> bool {
        let waiting = self.waiting.borrow_mut().take();
        if let Some(handle) = &waiting {
            handle.clear();
        }
        waiting.is_some()
    }
}

/// A clock for measuring how long work takes, ms; it stands still where the browser has none.
#[must_use]
pub fn milliseconds() -> f64 {
    window().performance().map_or(0.0, |clock| clock.now())
}

/// The time, in whole seconds since 1970.
#[must_use]
pub fn seconds_since_1970() -> u64 {
    (js_sys::Date::now() / 1000.0) as u64
}

/// A day in the words of the reader's own system.
#[must_use]
pub fn day_of(seconds: u64) -> String {
    let date = js_sys::Date::new(&JsValue::from_f64(seconds as f64 * 1000.0));
    String::from(date.to_locale_string("default", &JsValue::UNDEFINED))
}

/// Asks for another name; none if the question was put away.
#[must_use]
pub fn ask_for_name(now: &str) -> Option<String> {
    window().prompt_with_message_and_default("Name of the design", now).ok().flatten()
}
