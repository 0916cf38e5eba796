//! WebKit as GTK programs have it: how its plain browser is started.

use std::path::Path;

use fantoccini::Client;
use serde_json::{Map, Value, json};

use super::driver::downloads_in;
use super::{Device, Outcome};

/// Its tools are of no use here and would keep the window wider than a phone.
const SMALL_TOOLS: &str =
    "* { font-size: 1px; min-width: 0; min-height: 0; padding: 0; margin: 0; border-width: 0; }\n";

/// Lays out the files that GTK reads, in a folder that is its place for settings.
pub fn furnish(profile: &Path) -> Outcome {
    let styles = profile.join("gtk-3.0");
    std::fs::create_dir_all(&styles)?;
    std::fs::write(styles.join("gtk.css"), SMALL_TOOLS)?;
    let downloads = format!("XDG_DOWNLOAD_DIR=\"{}\"\n", downloads_in(profile).display());
    Ok(std::fs::write(profile.join("user-dirs.dirs"), downloads)?)
}

/// With what it is asked to start.
pub fn capabilities(program: &Path) -> Map<String, Value> {
    let mut capabilities = Map::new();
    capabilities.insert("browserName".to_owned(), json!("MiniBrowser"));
    capabilities.insert("webkitgtk:browserOptions".to_owned(), json!({ "binary": program, "args": ["--automation"] }));
    capabilities
}

/// Gives the inside of the window the size of the device, by the room that its tools take.
pub async fn resize(client: &Client, device: &Device) -> Outcome {
    client.set_window_size(device.width, device.height).await?;
    let tools = client.execute("return outerHeight - innerHeight;", Vec::new()).await?.as_u64().unwrap_or_default();
    client.set_window_size(device.width, device.height + u32::try_from(tools)?).await?;
    Ok(())
}
