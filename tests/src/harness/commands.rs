//! The two commands that chromedriver understands beyond the WebDriver standard.

use fantoccini::Client;
use fantoccini::wd::WebDriverCompatibleCommand;
use http::Method;
use serde_json::{Value, json};
use url::{ParseError, Url};

use super::Outcome;

/// Sends a command of Chromium's own protocol to the page.
pub async fn chromium(client: &Client, command: &str, parameters: Value) -> Outcome<Value> {
    let body = json!({ "cmd": command, "params": parameters });
    Ok(client.issue_cmd(Extension { path: "goog/cdp/execute", body }).await?)
}

/// Takes what has been logged since the last call: `browser` is the console, `performance` holds
/// the requests.
pub async fn take_log(client: &Client, kind: &str) -> Outcome<Vec<Value>> {
    let body = json!({ "type": kind });
    match client.issue_cmd(Extension { path: "se/log", body }).await? {
        Value::Array(entries) => Ok(entries),
        other => Err(format!("chromedriver answered {other} when asked for its log").into()),
    }
}

#[derive(Debug)]
struct Extension {
    path: &'static str,
    body: Value,
}

impl WebDriverCompatibleCommand for Extension {
    fn endpoint(&self, base: &Url, session: Option<&str>) -> Result<Url, ParseError> {
        base.join(&format!("session/{}/{}", session.unwrap_or_default(), self.path))
    }

    fn method_and_body(&self, _url: &Url) -> (Method, Option<String>) {
        (Method::POST, Some(self.body.to_string()))
    }
}
