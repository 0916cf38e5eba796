//! Files that the reader saves, and files that are taken in.

use std::time::Duration;

use leptos::leptos_dom::helpers::set_timeout_with_handle;
use leptos::prelude::document;
use leptos::task::spawn_local;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobPropertyBag, HtmlCanvasElement, HtmlElement, HtmlInputElement, Url};

use crate::browser::shell_element;

/// Hands a text to the reader as a file.
pub fn save_file(name: &str, kind: &str, text: &str) {
    let _ = try_to_save(name, kind, text);
}

fn try_to_save(name: &str, kind: &str, text: &str) -> Result<(), JsValue> {
    let options = BlobPropertyBag::new();
    options.set_type(kind);
    hand_over(name, &Blob::new_with_str_sequence_and_options(&js_sys::Array::of1(&text.into()), &options)?)
}

/// Hands what the canvas of an id shows to the reader as a picture.
pub fn save_canvas(name: &str, id: &str) {
    let name = name.to_owned();
    let picture = Closure::once_into_js(move |blob: Option<Blob>| {
        if let Some(blob) = blob {
            let _ = hand_over(&name, &blob);
        }
    });
    let canvas = shell_element(id).and_then(|element| element.dyn_into::<HtmlCanvasElement>().ok());
    if let Some(canvas) = canvas {
        let _ = canvas.to_blob(picture.unchecked_ref());
    }
}

fn hand_over(name: &str, blob: &Blob) -> Result<(), JsValue> {
    let address = Url::create_object_url_with_blob(blob)?;
    let link: HtmlElement = document().create_element("a")?.dyn_into()?;
    link.set_attribute("href", &address)?;
    link.set_attribute("download", name)?;
    link.click();
    // Not at once: the browser has only just begun to fetch it.
    let _ = set_timeout_with_handle(move || drop(Url::revoke_object_url(&address)), Duration::from_secs(60));
    Ok(())
}

/// Reads the file that was chosen in a field, and forgets the choice so that the same one can be chosen again.
pub fn text_of_file(field: &HtmlInputElement, then: impl FnOnce(String) + 'static) {
    let Some(file) = field.files().and_then(|files| files.get(0)) else { return };
    field.set_value("");
    spawn_local(async move {
        if let Ok(text) = JsFuture::from(file.text()).await {
            then(text.as_string().unwrap_or_default());
        }
    });
}
