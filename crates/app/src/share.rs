//! Handing the link to somebody else.

use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen_futures::JsFuture;

use crate::browser::page_address;
use crate::state::Page;

/// How far sharing has got.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Shared {
    /// Nothing to tell.
    #[default]
    Not,
    /// The link is in the clipboard.
    Copied,
    /// The browser would not copy; the link waits in a field to be copied by hand.
    ByHand,
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
    let link = link_now(page);
    spawn_local(async move {
        let _ = shared.try_set(if copied(&link).await { Shared::Copied } else { Shared::ByHand });
    });
}

/// Pages that did not come by https have no clipboard at all, which the bindings cannot express: asking for
/// it would end the program. The property is therefore looked up first.
async fn copied(link: &str) -> bool {
    let navigator = window().navigator();
    let present = js_sys::Reflect::get(&navigator, &"clipboard".into()).is_ok_and(|found| found.is_object());
    present && JsFuture::from(navigator.clipboard().write_text(link)).await.is_ok()
}
