//! What a visit must not leave in the logs of the browser.

use serde_json::Value;

/// The errors that the page, or the browser about the page, wrote to the console.
pub fn console_errors(log: &[Value]) -> Vec<String> {
    log.iter()
        .filter(|entry| entry["level"] == "SEVERE")
        .filter_map(|entry| entry["message"].as_str())
        .map(error_on_console)
        .collect()
}

/// How an error on the console is complained of.
pub fn error_on_console(message: &str) -> String {
    format!("error on the console: {message}")
}

/// The requests that went to another host than the page's own.
pub fn strange_requests(log: &[Value], origin: &str) -> Vec<String> {
    strangers(log.iter().filter_map(requested_url).collect(), origin)
}

const STRANGER: &str = "request to another host: ";

/// Complaints of the addresses that are not the page's own host.
pub fn strangers(addresses: Vec<String>, origin: &str) -> Vec<String> {
    addresses.iter().filter(|url| leaves(url, origin)).map(|url| format!("{STRANGER}{url}")).collect()
}

/// Whether a complaint is about another host, which nothing forgives.
pub fn is_stranger(complaint: &str) -> bool {
    complaint.starts_with(STRANGER)
}

/// An entry holds a message of Chromium's own protocol as text.
fn requested_url(entry: &Value) -> Option<String> {
    let message: Value = serde_json::from_str(entry["message"].as_str()?).ok()?;
    let message = &message["message"];
    let is_request =
        message["method"] == "Network.requestWillBeSent" || message["method"] == "Network.webSocketCreated";
    let parameters = &message["params"];
    let url = parameters["request"]["url"].as_str().or(parameters["url"].as_str())?;
    is_request.then(|| url.to_owned())
}

fn leaves(url: &str, origin: &str) -> bool {
    // These never reach a network; the last are the browser's own pages, such as an empty tab.
    let is_local = ["data:", "blob:", "about:", "chrome:"].iter().any(|scheme| url.starts_with(scheme));
    let is_own = url.strip_prefix(origin).is_some_and(|rest| rest.is_empty() || rest.starts_with('/'));
    !is_local && !is_own
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn only_errors_are_complaints() {
        let log = [json!({ "level": "WARNING", "message": "slow" }), json!({ "level": "SEVERE", "message": "broken" })];
        assert_eq!(console_errors(&log), ["error on the console: broken"]);
    }

    #[test]
    fn a_request_to_another_host_is_found() {
        let request = |url: &str| {
            let method = "Network.requestWillBeSent";
            let message = json!({ "method": method, "params": { "request": { "url": url } } });
            json!({ "message": json!({ "message": message }).to_string() })
        };
        let log = [
            request("http://127.0.0.1:80/some/where/"),
            request("data:,x"),
            request("http://127.0.0.1:8080/"),
            request("https://elsewhere.example/"),
        ];
        assert_eq!(strange_requests(&log, "http://127.0.0.1:80").len(), 2);
    }
}
