//! The page in its window: opening it, reading it, and what it must not leave behind.
//!
//! What is done to it is in `gestures`, what surrounds it in `conditions`, and its tabs in `tabs`.

use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};

use fantoccini::elements::Element;
use fantoccini::{Client, Locator};
use serde_json::{Value, json};
use xtask::server::Server;
use xtask::workspace;

use super::driver::Driver;
use super::engine::Ability;
use super::{Device, Engine, Outcome, chromium, findings, witness};

/// Long enough for a slow machine with two tests at once, short enough to wait for in vain.
pub const PATIENCE: Duration = Duration::from_secs(15);
/// An element that keeps its place for so long has found it.
const STILL: Duration = Duration::from_millis(200);

/// Scrolls an element into the window if it has to, and says where its middle is.
const SHOW: &str = "element => {
    element.scrollIntoView({ block: 'nearest', inline: 'nearest', behavior: 'instant' });
    const middle = () => {
        const box = element.getBoundingClientRect();
        return [box.x + box.width / 2, box.y + box.height / 2];
    };
    const [, y] = middle();
    // Firefox scrolls to no part of a drawing.
    if (y < 0 || y > innerHeight) scrollBy({ top: y - innerHeight / 2, behavior: 'instant' });
    return middle();
}";
/// Shows what matches until it is the same element in the same place for a moment.
const AWAIT_REST: &str = "
    const [css, still, patience, done] = arguments;
    const start = performance.now();
    let [element, x, y, since] = [null, 0, 0, start];
    const look = () => {
        const [before, was] = [element, [x, y].join()];
        element = document.querySelector(css);
        if (element) [x, y] = show(element);
        const now = performance.now();
        if (!element || element !== before || was !== [x, y].join()) since = now;
        if (now - since >= still) done([x, y]);
        else if (now - start > patience) done(null);
        else setTimeout(look, 16);
    };
    look();";

/// A browser window, its device, and the host of the page.
#[derive(Clone, Debug)]
pub struct Page {
    pub(super) client: Arc<Mutex<Client>>,
    driver: Arc<Driver>,
    device: Device,
    url: String,
    origin: String,
    /// The folder of the page as it was built.
    pub(super) site: PathBuf,
    pub(super) server: Arc<Mutex<Option<Server>>>,
    forgiven: Arc<Mutex<Vec<String>>>,
    /// Scripts that run before the page, where they have to be written into it.
    pub(super) before: Arc<Mutex<String>>,
    /// Complaints of pages that were left, where the browser has no log.
    heard: Arc<Mutex<Vec<String>>>,
}

/// A point of the window in CSS pixels, from its upper left corner.
pub type Point = (f64, f64);

impl Page {
    pub(super) fn new(client: Client, driver: Driver, device: Device, site: &Path, server: Server) -> Self {
        Self {
            client: Arc::new(Mutex::new(client)),
            driver: Arc::new(driver),
            device,
            url: server.url(),
            origin: server.origin(),
            site: site.to_path_buf(),
            server: Arc::new(Mutex::new(Some(server))),
            forgiven: Arc::default(),
            before: Arc::default(),
            heard: Arc::default(),
        }
    }

    /// The window as WebDriver sees it, for what is asked too rarely to have a helper here.
    #[must_use]
    pub fn client(&self) -> Client {
        self.client.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }

    pub(super) fn driver(&self) -> &Driver {
        &self.driver
    }

    /// The engine in which the page is tried.
    #[must_use]
    pub fn engine(&self) -> Engine {
        self.driver.engine()
    }

    /// The device on which it is tried.
    #[must_use]
    pub fn device(&self) -> Device {
        self.device
    }

    /// The address of the page without a fragment.
    #[must_use]
    pub fn url(&self) -> &str {
        &self.url
    }

    /// Opens the page as a link to it would: with this fragment, or with none if it is empty.
    pub async fn open_fragment(&self, fragment: &str) -> Outcome {
        let hash = if fragment.is_empty() { "" } else { "#" };
        self.listen().await?;
        // From the page itself, another fragment would be a jump and not a visit.
        self.client().goto("about:blank").await?;
        self.client().goto(&format!("{}{hash}{fragment}", self.url)).await?;
        self.arrive().await
    }

    /// Loads what is shown again, as a person does who presses that button.
    pub async fn load_again(&self) -> Outcome {
        self.listen().await?;
        if self.engine() != Engine::Firefox {
            return Ok(self.client().refresh().await?);
        }
        // Its driver goes past the service worker, as a person does who holds Shift. The page itself does not.
        self.evaluate("(window.isOld = true, setTimeout(() => location.reload(), 0) > 0)").await?;
        let start = Instant::now();
        while start.elapsed() < PATIENCE {
            tokio::time::sleep(Duration::from_millis(50)).await;
            // Between the two pages there may be none that could answer.
            let is_new = self.evaluate("window.isOld === undefined && document.readyState === 'complete'").await;
            if is_new.is_ok_and(|is_new| is_new == true) {
                return self.arrive().await;
            }
        }
        Err("the page was not loaded again".into())
    }

    /// The fragment that the address bar shows, without the `#`.
    pub async fn fragment(&self) -> Outcome<String> {
        let url = self.client().current_url().await?;
        Ok(url.fragment().unwrap_or_default().to_owned())
    }

    /// Waits until the page has an element, and returns it.
    pub async fn wait_for(&self, css: &str) -> Outcome<Element> {
        let client = self.client();
        let waiting = client.wait().at_most(PATIENCE);
        let found = waiting.for_element(Locator::Css(css)).await;
        found.map_err(|error| format!("the page shows no `{css}`: {error}").into())
    }

    /// Waits until a JavaScript expression is true.
    pub async fn wait_until(&self, expression: &str) -> Outcome {
        let start = Instant::now();
        while start.elapsed() < PATIENCE {
            if self.evaluate(expression).await? == true {
                return Ok(());
            }
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
        Err(format!("it never became true that {expression}").into())
    }

    /// The value of a JavaScript expression.
    pub async fn evaluate(&self, expression: &str) -> Outcome<Value> {
        Ok(self.client().execute(&format!("return ({expression});"), Vec::new()).await?)
    }

    /// The text of an element as it is shown, once it is there.
    pub async fn text(&self, css: &str) -> Outcome<String> {
        let element = self.wait_for(css).await?;
        if self.engine() != Engine::WebKit {
            return Ok(element.text().await?);
        }
        // Its driver reads out what a closed `<details>` hides.
        let shown = "return document.querySelector(arguments[0]).innerText.trim();";
        let text = self.client().execute(shown, vec![json!(css)]).await?;
        Ok(text.as_str().unwrap_or_default().to_owned())
    }

    /// The middle of an element, which is scrolled into the window if it has to be.
    pub async fn center(&self, css: &str) -> Outcome<Point> {
        self.wait_for(css).await?;
        let script = format!("return ({SHOW})(document.querySelector(arguments[0]));");
        let center = self.client().execute(&script, vec![json!(css)]).await?;
        match (center[0].as_f64(), center[1].as_f64()) {
            (Some(x), Some(y)) => Ok((x, y)),
            _ => Err(format!("`{css}` is nowhere: {center}").into()),
        }
    }

    /// Waits until what matches is the same element in the same place for a moment, and returns its middle.
    ///
    /// Somebody who aims at something that moves waits until it stands. A drawing that is made anew under a finger, because a
    /// sheet beside it has opened or closed, takes no tap.
    pub async fn center_at_rest(&self, css: &str) -> Outcome<Point> {
        self.wait_for(css).await?;
        let script = format!("const show = {SHOW}; {AWAIT_REST}");
        let milliseconds = |duration: Duration| json!(duration.as_secs_f64() * 1e3);
        let arguments = vec![json!(css), milliseconds(STILL), milliseconds(PATIENCE)];
        let center = self.client().execute_async(&script, arguments).await?;
        match (center[0].as_f64(), center[1].as_f64()) {
            (Some(x), Some(y)) => Ok((x, y)),
            _ => Err(format!("`{css}` does not come to rest").into()),
        }
    }

    /// Waits by the clock of the page, whose own timers therefore end first if they are shorter.
    pub async fn let_pass(&self, milliseconds: u32) -> Outcome {
        let script = "setTimeout(arguments[1], arguments[0]);";
        self.client().execute_async(script, vec![json!(milliseconds)]).await?;
        Ok(())
    }

    /// What a script says in the end: `script` is the body of an asynchronous function.
    pub async fn ask(&self, script: &str) -> Outcome<Value> {
        let script = format!(
            "const done = arguments[0];
             (async () => {{ {script} }})().then(done, error => done({{ failed: String(error) }}));"
        );
        let said = self.client().execute_async(&script, Vec::new()).await?;
        match said.get("failed") {
            Some(error) => Err(format!("the script failed: {error}").into()),
            None => Ok(said),
        }
    }

    /// Lets errors on the console pass that hold this text, in a test that provokes them.
    pub fn forgive(&self, text: &str) {
        self.forgiven.lock().unwrap_or_else(PoisonError::into_inner).push(text.to_owned());
    }

    /// Saves a picture of the window as `tests/output/NAME.png` and returns its path.
    pub async fn screenshot(&self, name: &str) -> Outcome<PathBuf> {
        let folder = workspace::root()?.join("tests/output");
        // The pictures of every day are Chromium's.
        let folder = if self.engine() == Engine::Chromium { folder } else { folder.join(self.engine().name()) };
        let path = folder.join(format!("{name}.png"));
        workspace::write(&path, &self.client().screenshot().await?)?;
        Ok(path)
    }

    /// Hears what the page has to complain of before it is left, where the browser has no log.
    pub(super) async fn listen(&self) -> Outcome {
        if self.has(Ability::Logs) {
            return Ok(());
        }
        let (complaints, asked) = witness::take(&self.client()).await?;
        let strangers = findings::strangers(asked, &self.origin);
        let complaints = complaints.iter().map(|text| findings::error_on_console(text));
        self.heard.lock().unwrap_or_else(PoisonError::into_inner).extend(complaints.chain(strangers));
        Ok(())
    }

    /// Fails if the logs hold something that no visit may leave there.
    pub(super) async fn complaints(&self) -> Outcome {
        self.listen().await?;
        let mut complaints = std::mem::take(&mut *self.heard.lock().unwrap_or_else(PoisonError::into_inner));
        let mut strangers = Vec::new();
        if self.has(Ability::Logs) {
            complaints = findings::console_errors(&chromium::take_log(&self.client(), "browser").await?);
            let requests = chromium::take_log(&self.client(), "performance").await?;
            strangers = findings::strange_requests(&requests, &self.origin);
        }
        let forgiven = self.forgiven.lock().unwrap_or_else(PoisonError::into_inner).clone();
        complaints.retain(|complaint| {
            findings::is_stranger(complaint) || !forgiven.iter().any(|text| complaint.contains(text))
        });
        complaints.extend(strangers);
        if complaints.is_empty() { Ok(()) } else { Err(complaints.join("\n").into()) }
    }

    pub(super) async fn close(self) -> Outcome {
        Ok(self.client().close().await?)
    }
}
