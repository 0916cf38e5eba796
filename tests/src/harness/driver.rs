//! chromedriver, started for one test and gone with it.

use std::io::{BufRead, BufReader, Read};
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};

use fantoccini::{Client, ClientBuilder};
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Map, Value, json};
use xtask::browser::{self, Browser};

use super::{Device, Outcome};

/// What keeps Chromium quiet: no first-run pages, no updates, no calls home.
const ARGUMENTS: [&str; 7] = [
    "--headless=new",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
];

/// What chromedriver prints when it is ready, before the number of the port.
const READY: &str = "started successfully on port ";

/// How often chromedriver is started before it is given up.
const STARTS: usize = 5;

/// A running chromedriver and the profile of the one browser it starts.
#[derive(Debug)]
pub struct Driver {
    process: Child,
    port: u16,
    browser: Browser,
    profile: PathBuf,
}

impl Driver {
    /// Starts chromedriver on a port that it chooses, so that tests can run at the same time.
    ///
    /// It asks for a free port and then takes it twice, for either version of the protocol; another process may have come in between.
    /// Then it ends, and is started again.
    pub fn start() -> Outcome<Self> {
        let browser =
            browser::find().ok_or_else(|| format!("the browser tests need a browser: {}", browser::INSTRUCTION))?;
        let mut last = Err("chromedriver was not started".into());
        for _ in 0..STARTS {
            last = Self::start_once(browser.clone());
            if last.is_ok() {
                break;
            }
        }
        last
    }

    fn start_once(browser: Browser) -> Outcome<Self> {
        let process = Command::new(&browser.chromedriver)
            .arg("--port=0")
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(|error| format!("chromedriver cannot be started: {error}"))?;
        // From here on dropping the driver ends the process, whatever goes wrong.
        let mut driver = Self { process, port: 0, browser, profile: fresh_profile() };
        driver.port = driver.wait_for_port()?;
        Ok(driver)
    }

    /// The folder into which the browser saves files.
    pub fn downloads(&self) -> PathBuf {
        self.profile.join("downloads")
    }

    /// Opens a browser that is this device, with preferences of Chromium's own or `null`.
    pub async fn open_browser(&self, device: &Device, preferences: &Value) -> Outcome<Client> {
        let mut arguments: Vec<String> = ARGUMENTS.map(str::to_owned).to_vec();
        arguments.push(format!("--user-data-dir={}", self.profile.display()));
        arguments.push(format!("--window-size={},{}", device.width, device.height));
        if browser::is_root() {
            arguments.push("--no-sandbox".to_owned());
        }
        let chromium = self.browser.chromium.display().to_string();
        let mut capabilities = Map::new();
        capabilities.insert("browserName".to_owned(), json!("chrome"));
        let mut options = device.chromium_options(&arguments, &chromium);
        if !preferences.is_null() {
            options.insert("prefs".to_owned(), preferences.clone());
        }
        capabilities.insert("goog:chromeOptions".to_owned(), options.into());
        capabilities.insert("goog:loggingPrefs".to_owned(), json!({ "browser": "ALL", "performance": "ALL" }));
        Ok(ClientBuilder::new(HttpConnector::new())
            .capabilities(capabilities)
            .connect(&format!("http://127.0.0.1:{}", self.port))
            .await?)
    }

    fn wait_for_port(&mut self) -> Outcome<u16> {
        let output = self.process.stdout.take().ok_or("chromedriver has no output")?;
        let mut lines = BufReader::new(output);
        let mut line = String::new();
        while lines.read_line(&mut line)? > 0 {
            if let Some((_, port)) = line.split_once(READY) {
                let port = port.trim().trim_end_matches('.').parse()?;
                // Read on for ever: a full pipe would stop chromedriver in the middle of a test.
                std::thread::spawn(move || lines.read_to_end(&mut Vec::new()));
                return Ok(port);
            }
            line.clear();
        }
        Err("chromedriver ended before it was ready".into())
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        // Nothing can be done about a process or a folder that will not go.
        let _ = self.process.kill();
        let _ = self.process.wait();
        let _ = std::fs::remove_dir_all(&self.profile);
    }
}

/// A folder for the profile that no other test uses, so that nothing is remembered between them.
fn fresh_profile() -> PathBuf {
    static COUNT: AtomicU32 = AtomicU32::new(0);
    let number = COUNT.fetch_add(1, Ordering::Relaxed);
    std::env::temp_dir().join(format!("holdwater-browser-{}-{number}", std::process::id()))
}
