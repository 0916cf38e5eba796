//! A witness inside of the page, where the browser has no log that its driver could read.
//!
//! The site is served from a copy whose first page begins with a script. It stands before the page's own policy for
//! scripts, as nothing of the page does, and takes itself out of the document.

use std::path::{Path, PathBuf};

use fantoccini::Client;
use serde_json::Value;
use xtask::workspace;

use super::Outcome;

const SCRIPT: &str = include_str!("witness.js");
/// Our pages begin with the line that names their characters.
const FIRST: &str = "<meta charset=\"utf-8\">";

/// A copy of a site with a witness in its first page, and with more that runs before the page.
pub fn copy(site: &Path, into: &Path, before: &str) -> Outcome<PathBuf> {
    if into.exists() {
        std::fs::remove_dir_all(into)?;
    }
    for file in workspace::files_below(site)? {
        let mut bytes = workspace::read_bytes(&file)?;
        let name = workspace::relative(site, &file);
        if name == "index.html" {
            // The second one takes itself out as well, so that the document is the page's own.
            let script = format!(
                "{FIRST}<script>{SCRIPT}</script><script>document.currentScript.remove();\n{before}\n</script>"
            );
            bytes = String::from_utf8(bytes)?.replacen(FIRST, &script, 1).into_bytes();
        }
        workspace::write(&into.join(name), &bytes)?;
    }
    Ok(into.to_path_buf())
}

/// What the page heard since it was asked last: complaints, and the addresses that were asked for.
pub async fn take(client: &Client) -> Outcome<(Vec<String>, Vec<String>)> {
    let said = client.execute("return window.takeHeard ? takeHeard() : [[], []];", Vec::new()).await?;
    let texts = |value: &Value| -> Vec<String> {
        value.as_array().into_iter().flatten().filter_map(Value::as_str).map(str::to_owned).collect()
    };
    Ok((texts(&said[0]), texts(&said[1])))
}
