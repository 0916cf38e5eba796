//! Firefox: how it is started, and what scripts with the rights of the browser itself can do beyond the WebDriver standard.

use std::path::Path;

use fantoccini::Client;
use serde_json::{Map, Value, json};

use super::commands::post;
use super::driver::downloads_in;
use super::{Device, Outcome, Storage};

/// A port of the driver's choice, and leave to run scripts in the browser itself.
pub const DRIVER_ARGUMENTS: [&str; 3] = ["--port", "0", "--allow-system-access"];

/// What geckodriver prints when it is ready, before the number of the port.
pub const READY: &str = "Listening on 127.0.0.1:";

/// With what it is asked to start.
pub fn capabilities(device: &Device, program: &Path, profile: &Path, storage: Storage) -> Map<String, Value> {
    let mut preferences = json!({
        // Files go where the test looks for them, without a question.
        "browser.download.folderList": 2,
        "browser.download.dir": downloads_in(profile),
        "browser.download.always_ask_before_handling_new_types": false,
        "browser.download.alwaysOpenPanel": false,
        // A test may read the clipboard without anybody who presses "Paste".
        "dom.events.testing.asyncClipboard": true,
        "dom.disable_open_during_load": false,
    });
    if device.is_touched {
        // A coarse pointer and nothing else, as on a phone.
        preferences["ui.primaryPointerCapabilities"] = json!(1);
        preferences["ui.allPointerCapabilities"] = json!(1);
        preferences["dom.w3c_touch_events.enabled"] = json!(1);
    }
    if storage == Storage::Forbidden {
        preferences["network.cookie.cookieBehavior"] = json!(2);
    }
    let arguments = json!(["-headless", "-profile", profile]);
    let options = json!({ "binary": program, "args": arguments, "prefs": preferences });
    let mut capabilities = Map::new();
    capabilities.insert("browserName".to_owned(), json!("firefox"));
    capabilities.insert("moz:firefoxOptions".to_owned(), options);
    capabilities
}

/// Runs a script with the rights of the browser itself. `window` is its own window, with the tabs.
pub async fn privileged(client: &Client, script: &str, arguments: Vec<Value>) -> Outcome<Value> {
    post(client, "moz/context", json!({ "context": "chrome" })).await?;
    let said = client.execute(script, arguments).await;
    post(client, "moz/context", json!({ "context": "content" })).await?;
    Ok(said?)
}

/// Gives the page the size of the device. A window of Firefox is never as narrow as a phone, but a page in it can be.
pub async fn resize(client: &Client, device: &Device) -> Outcome {
    let script = "
        const [width, height, ratio] = arguments;
        const page = gBrowser.selectedBrowser;
        for (const [side, length] of [['width', width], ['height', height]]) {
            for (const property of [side, `min-${side}`, `max-${side}`]) {
                page.style.setProperty(property, `${length}px`, 'important');
            }
        }
        page.browsingContext.overrideDPPX = ratio;";
    let arguments = vec![json!(device.width), json!(device.height), json!(device.pixel_ratio)];
    privileged(client, script, arguments).await?;
    Ok(())
}

/// Sets a preference of the browser that is a number.
pub async fn set_number(client: &Client, name: &str, value: i32) -> Outcome {
    privileged(client, "Services.prefs.setIntPref(arguments[0], arguments[1]);", vec![json!(name), json!(value)])
        .await?;
    Ok(())
}

/// Shows the page in front as on paper.
pub async fn show_on_paper(client: &Client) -> Outcome {
    privileged(client, "gBrowser.selectedBrowser.browsingContext.top.mediumOverride = 'print';", Vec::new()).await?;
    Ok(())
}
