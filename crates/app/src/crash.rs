//! What is left to say when the program has stopped.
//!
//! A panic ends the program for good, so the notice stands ready in `index.html` and needs nothing from here but
//! to be uncovered.

use std::panic::{self, PanicHookInfo};

use js_sys::{Function, Reflect};
use leptos::prelude::window;
use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;

use crate::browser::shell_element;

/// From now on a panic uncovers the notice instead of leaving a page that no longer answers.
pub fn show_notice_on_panic() {
    panic::set_hook(Box::new(|info| {
        web_sys::console::error_1(&info.to_string().into());
        show_notice(info);
    }));
}

/// The link shown is the one in the address bar. It may lack the change of the last moment, which is as well:
/// that change is the likeliest cause.
fn show_notice(info: &PanicHookInfo<'_>) {
    if let Some(field) = shell_element("crash-link").and_then(|element| element.dyn_into::<HtmlInputElement>().ok()) {
        field.set_value(&window().location().href().unwrap_or_default());
    }
    if let Some(place) = info.location()
        && let Some(why) = shell_element("crash-why")
    {
        let file = place.file().rsplit(['/', '\\']).next().unwrap_or_default();
        why.set_text_content(Some(&format!("For a report: it stopped in {file}, line {}.", place.line())));
    }
    let _ = offer_reload();
    if let Some(notice) = shell_element("crash") {
        notice.set_hidden(false);
    }
}

/// Lets the button load the page again. Its handler is the browser's own function: after a panic none of ours runs.
fn offer_reload() -> Option<()> {
    let button = shell_element("crash-again")?;
    let location = window().location();
    let reload: Function = Reflect::get(&location, &"reload".into()).ok()?.dyn_into().ok()?;
    button.add_event_listener_with_callback("click", &reload.bind0(&location)).ok()?;
    button.set_hidden(false);
    Some(())
}
