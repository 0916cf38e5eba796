//! Commands that drivers understand beyond the WebDriver standard.

use fantoccini::Client;
use fantoccini::wd::WebDriverCompatibleCommand;
use http::Method;
use serde_json::Value;
use url::{ParseError, Url};

use super::Outcome;

/// Posts a command to a path below the session.
pub async fn post(client: &Client, path: &'static str, body: Value) -> Outcome<Value> {
    Ok(client.issue_cmd(Extension { path, body }).await?)
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
