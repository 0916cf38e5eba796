//! Handing the design to somebody else.

use holdwater_answers::forum::{Format, forum_text};
use leptos::prelude::window;
use leptos::task::spawn_local;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::JsFuture;
use web_sys::ShareData;

use crate::browser::page_address;
use crate::react::RwSignal;
use crate::state::Page;

/// How far sharing has got.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Shared {
    /// Nothing to tell.
    #[default]
    Not,
    /// It is in the clipboard: the link, or a text with it.
    Copied(&'static str),
    /// The browser would not copy; this waits in a field to be copied by hand.
    ByHand(String),
}

/// The whole link to the design as it is at this moment.
#[must_use]
pub fn link_now(page: &Page) -> String {
    format!("{}#{}", page_address(), page.fragment())
}

/// Copies the link and tells how it went.
///
/// The link is made from the fields and not read from the address bar, where the browser may have dropped a write.
pub fn copy_link(page: &'static Page, shared: RwSignal<Shared>) {
    page.flush_link();
    copy(link_now(page), "The link to this design is copied. Paste it where you want it.", shared);
}

/// Copies a text for a forum: what was changed, what comes out, the cautions, and the link.
pub fn copy_forum_text(page: &'static Page, format: Format, shared: RwSignal<Shared>) {
    page.flush_link();
    copy(
        forum_text_now(page, format),
        "The text is copied, with the link at its end. Paste it where you want it.",
        shared,
    );
}

fn forum_text_now(page: &Page, format: Format) -> String {
    let design = page.design.get_untracked();
    let refused = page.flown.refusals();
    let answers = page.flown.answers.get_untracked();
    let outcome = match &answers {
        Some(answers) if refused.is_empty() => Ok(&**answers),
        _ => Err(refused.as_slice()),
    };
    let window = page.flown.holds.window_now();
    forum_text(format, &design, outcome, window, page.units.get_untracked(), &link_now(page))
}

fn copy(text: String, done: &'static str, shared: RwSignal<Shared>) {
    spawn_local(async move {
        shared.set(if copied(&text).await { Shared::Copied(done) } else { Shared::ByHand(text) });
    });
}

/// Pages that did not come by https have no clipboard at all, which the bindings cannot express: asking for
/// it would end the program. The property is therefore looked up first.
async fn copied(text: &str) -> bool {
    navigator_has("clipboard") && JsFuture::from(window().navigator().clipboard().write_text(text)).await.is_ok()
}

/// Whether this browser can hand the link to other programs of the device.
#[must_use]
pub fn can_send() -> bool {
    navigator_has("share")
}

/// Opens the device's own way of sending the link.
pub fn send(page: &Page) {
    page.flush_link();
    let data = ShareData::new();
    data.set_title("Holdwater");
    data.set_url(&link_now(page));
    let sent = window().navigator().share_with_data(&data);
    // Somebody who changes his mind is no failure.
    spawn_local(async move {
        let _ = JsFuture::from(sent).await;
    });
}

fn navigator_has(name: &str) -> bool {
    let found = js_sys::Reflect::get(&window().navigator(), &JsValue::from_str(name));
    found.is_ok_and(|found| !found.is_undefined() && !found.is_null())
}
