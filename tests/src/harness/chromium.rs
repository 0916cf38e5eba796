//! Chromium: how it is started, and its own protocol, which its driver passes on beyond the WebDriver standard.

use std::path::Path;

use fantoccini::Client;
use serde_json::{Map, Value, json};
use xtask::browser;

use super::commands::post;
use super::{Device, Outcome, Storage};

/// What chromedriver prints when it is ready, before the number of the port.
pub const READY: &str = "started successfully on port ";

/// What keeps it quiet: no first-run pages, no updates, no calls home.
const ARGUMENTS: [&str; 7] = [
    "--headless=new",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
];

/// With what it is asked to start.
pub fn capabilities(device: &Device, program: &Path, profile: &Path, storage: Storage) -> Map<String, Value> {
    let mut arguments: Vec<String> = ARGUMENTS.map(str::to_owned).to_vec();
    arguments.push(format!("--user-data-dir={}", profile.display()));
    arguments.push(format!("--window-size={},{}", device.width, device.height));
    if browser::is_root() {
        arguments.push("--no-sandbox".to_owned());
    }
    let mut options = Map::new();
    options.insert("args".to_owned(), json!(arguments));
    options.insert("binary".to_owned(), json!(program));
    if device.is_touched {
        let metrics = json!({
            "width": device.width,
            "height": device.height,
            "pixelRatio": device.pixel_ratio,
            "touch": true,
            "mobile": true,
        });
        options.insert("mobileEmulation".to_owned(), json!({ "deviceMetrics": metrics }));
    }
    if storage == Storage::Forbidden {
        options.insert("prefs".to_owned(), json!({ "profile.default_content_setting_values.cookies": 2 }));
    }
    let mut capabilities = Map::new();
    capabilities.insert("browserName".to_owned(), json!("chrome"));
    capabilities.insert("goog:chromeOptions".to_owned(), options.into());
    capabilities.insert("goog:loggingPrefs".to_owned(), json!({ "browser": "ALL", "performance": "ALL" }));
    capabilities
}

/// Sends a command of its own protocol to the page.
pub async fn command(client: &Client, command: &str, parameters: Value) -> Outcome<Value> {
    post(client, "goog/cdp/execute", json!({ "cmd": command, "params": parameters })).await
}

/// Takes what has been logged since the last call: `browser` is the console, `performance` holds the requests.
pub async fn take_log(client: &Client, kind: &str) -> Outcome<Vec<Value>> {
    match post(client, "se/log", json!({ "type": kind })).await? {
        Value::Array(entries) => Ok(entries),
        other => Err(format!("chromedriver answered {other} when asked for its log").into()),
    }
}

/// Gives the inside of the window the size of the device.
///
/// A window of a given size has less room inside.
pub async fn resize(client: &Client, device: &Device) -> Outcome {
    let metrics = json!({
        "width": device.width,
        "height": device.height,
        "deviceScaleFactor": device.pixel_ratio,
        "mobile": device.is_touched,
    });
    command(client, "Emulation.setDeviceMetricsOverride", metrics).await?;
    Ok(())
}
