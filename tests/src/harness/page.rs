//! What a test can do with the page: open it, touch it, type, read, and look at it.

use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

use fantoccini::actions::{InputSource, KeyAction, KeyActions, MouseActions, PointerAction, TouchActions};
use fantoccini::elements::Element;
use fantoccini::key::Key;
use fantoccini::wd::WindowHandle;
use fantoccini::{Client, Locator};
use serde_json::{Value, json};
use url::Url;
use xtask::server::Server;
use xtask::workspace;

use super::driver::Driver;
use super::{Device, MOUNT, Outcome, commands, findings};

/// Long enough for a slow machine with two tests at once, short enough to wait for in vain.
const PATIENCE: Duration = Duration::from_secs(15);
/// A finger does not jump: a drag arrives as this many moves, one per frame.
const DRAG_STEPS: u32 = 12;
const FRAME: Duration = Duration::from_millis(16);
/// A finger that is lifted while it moves flings, and the browser takes the next tap for the end of
/// that fling. So the finger rests first, as a person's does who aims at a value.
const REST: Duration = Duration::from_millis(150);

/// A browser window, its device, and the host of the page.
#[derive(Clone, Debug)]
pub struct Page {
    client: Arc<Mutex<Client>>,
    driver: Arc<Driver>,
    device: Device,
    url: String,
    origin: String,
    server: Arc<Mutex<Option<Server>>>,
    forgiven: Arc<Mutex<Vec<String>>>,
}

/// A point of the window in CSS pixels, from its upper left corner.
pub type Point = (f64, f64);

impl Page {
    pub(super) fn new(client: Client, driver: Driver, device: Device, server: Server) -> Self {
        Self {
            client: Arc::new(Mutex::new(client)),
            driver: Arc::new(driver),
            device,
            url: server.url(),
            origin: server.origin(),
            server: Arc::new(Mutex::new(Some(server))),
            forgiven: Arc::default(),
        }
    }

    /// The window as WebDriver sees it, for what is asked too rarely to have a helper here.
    #[must_use]
    pub fn client(&self) -> Client {
        self.client.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }

    /// The address of the page without a fragment.
    #[must_use]
    pub fn url(&self) -> &str {
        &self.url
    }

    /// Gives the inside of the window the size of the device, and downloads a place of their own.
    pub(super) async fn settle_in(&self) -> Outcome {
        let downloads = json!({ "behavior": "allow", "downloadPath": self.driver.downloads() });
        commands::chromium(&self.client(), "Browser.setDownloadBehavior", downloads).await?;
        if !self.device.is_touched {
            let metrics = self.device.metrics();
            commands::chromium(&self.client(), "Emulation.setDeviceMetricsOverride", metrics).await?;
        }
        Ok(())
    }

    /// Opens the page as a link to it would: with this fragment, or with none if it is empty.
    pub async fn open_fragment(&self, fragment: &str) -> Outcome {
        let hash = if fragment.is_empty() { "" } else { "#" };
        // From the page itself, another fragment would be a jump and not a visit.
        self.client().goto("about:blank").await?;
        self.client().goto(&format!("{}{hash}{fragment}", self.url)).await?;
        Ok(())
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
        let start = std::time::Instant::now();
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
        Ok(self.wait_for(css).await?.text().await?)
    }

    /// The middle of an element, which is scrolled into the window if it has to be.
    pub async fn center(&self, css: &str) -> Outcome<Point> {
        self.wait_for(css).await?;
        let script = "
            const element = document.querySelector(arguments[0]);
            element.scrollIntoView({ block: 'nearest', inline: 'nearest', behavior: 'instant' });
            const box = element.getBoundingClientRect();
            return [box.x + box.width / 2, box.y + box.height / 2];";
        let center = self.client().execute(script, vec![json!(css)]).await?;
        match (center[0].as_f64(), center[1].as_f64()) {
            (Some(x), Some(y)) => Ok((x, y)),
            _ => Err(format!("`{css}` is nowhere: {center}").into()),
        }
    }

    /// Taps an element with a finger, or clicks it where there is a mouse.
    ///
    /// chromedriver itself scrolls to the element, refuses to tap what something else covers, and
    /// makes a touch of the click where the device is touched.
    pub async fn tap(&self, css: &str) -> Outcome {
        Ok(self.wait_for(css).await?.click().await?)
    }

    /// Taps a point of the window, or clicks it where there is a mouse.
    ///
    /// Unlike [`Page::tap`] it does not mind what lies there, as a person does not.
    pub async fn tap_at(&self, point: Point) -> Outcome {
        if self.device.is_touched { self.touch_drag(point, point).await } else { self.mouse_drag(point, point).await }
    }

    /// Drags a finger from one point of the window to another.
    pub async fn touch_drag(&self, from: Point, to: Point) -> Outcome {
        let finger = drag(from, to).into_iter().fold(TouchActions::new("finger".to_owned()), TouchActions::then);
        Ok(self.client().perform_actions(finger).await?)
    }

    /// Drags with the left button of the mouse from one point of the window to another.
    pub async fn mouse_drag(&self, from: Point, to: Point) -> Outcome {
        let mouse = drag(from, to).into_iter().fold(MouseActions::new("mouse".to_owned()), MouseActions::then);
        Ok(self.client().perform_actions(mouse).await?)
    }

    /// Presses keys together, the first one first: what has the focus gets them.
    pub async fn press(&self, keys: &[Key]) -> Outcome {
        let down = keys.iter().map(|key| KeyAction::Down { value: (*key).into() });
        let up = keys.iter().rev().map(|key| KeyAction::Up { value: (*key).into() });
        let keyboard = down.chain(up).fold(KeyActions::new("keyboard".to_owned()), KeyActions::then);
        Ok(self.client().perform_actions(keyboard).await?)
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

    /// Leaves the window this height, in CSS pixels, as a keyboard on the screen does. It lasts until another page is
    /// opened.
    pub async fn leave_height(&self, height: u32) -> Outcome {
        let metrics = Device { height, ..self.device }.metrics();
        commands::chromium(&self.client(), "Emulation.setDeviceMetricsOverride", metrics).await?;
        self.wait_until(&format!("innerHeight === {height}")).await
    }

    /// Replaces the text of a field as a person does: select all of it and type.
    pub async fn type_into(&self, css: &str, text: &str) -> Outcome {
        let field = self.wait_for(css).await?;
        let script = "const field = document.querySelector(arguments[0]); \
                      field.focus(); field.select();";
        self.client().execute(script, vec![json!(css)]).await?;
        Ok(field.send_keys(text).await?)
    }

    /// Makes the page believe what the person prefers, for example
    /// `[("prefers-color-scheme", "dark")]`. It replaces earlier preferences.
    pub async fn prefer(&self, features: &[(&str, &str)]) -> Outcome {
        let feature = |(name, value): &(&str, &str)| json!({ "name": name, "value": value });
        let features: Vec<Value> = features.iter().map(feature).collect();
        let media = json!({ "features": features });
        commands::chromium(&self.client(), "Emulation.setEmulatedMedia", media).await?;
        Ok(())
    }

    /// Asks for the dark or the light colours.
    pub async fn prefer_dark(&self, dark: bool) -> Outcome {
        let scheme = if dark { "dark" } else { "light" };
        self.prefer(&[("prefers-color-scheme", scheme)]).await
    }

    /// Makes the processor this many times slower.
    pub async fn slow_down(&self, times: f64) -> Outcome {
        let rate = json!({ "rate": times });
        commands::chromium(&self.client(), "Emulation.setCPUThrottlingRate", rate).await?;
        Ok(())
    }

    /// Takes the network away for good, for the page and for its service worker alike.
    ///
    /// The browser's own offline mode does not reach service workers, and tests that trust it pass
    /// without being true.
    pub fn stop_server(&self) {
        drop(self.server.lock().unwrap_or_else(PoisonError::into_inner).take());
    }

    /// Lets errors on the console pass that hold this text, in a test that provokes them.
    pub fn forgive(&self, text: &str) {
        self.forgiven.lock().unwrap_or_else(PoisonError::into_inner).push(text.to_owned());
    }

    /// Saves a picture of the window as `tests/output/NAME.png` and returns its path.
    pub async fn screenshot(&self, name: &str) -> Outcome<PathBuf> {
        let path = workspace::root()?.join("tests/output").join(format!("{name}.png"));
        workspace::write(&path, &self.client().screenshot().await?)?;
        Ok(path)
    }

    /// Fails if the logs hold something that no visit may leave there.
    pub(super) async fn complaints(&self) -> Outcome {
        let console = commands::take_log(&self.client(), "browser").await?;
        let requests = commands::take_log(&self.client(), "performance").await?;
        let mut complaints = findings::console_errors(&console);
        let forgiven = self.forgiven.lock().unwrap_or_else(PoisonError::into_inner).clone();
        complaints.retain(|complaint| !forgiven.iter().any(|text| complaint.contains(text)));
        complaints.extend(findings::strange_requests(&requests, &self.origin));
        if complaints.is_empty() { Ok(()) } else { Err(complaints.join("\n").into()) }
    }

    pub(super) async fn close(self) -> Outcome {
        Ok(self.client().close().await?)
    }
}

/// Tabs, browsers, builds and files beyond the one window with the one page.
impl Page {
    /// Closes the browser and starts it again with the same profile, as on the next day.
    ///
    /// `preferences` are those of Chromium, `null` for none, and stay in the profile.
    pub async fn restart_browser(&self, preferences: &Value) -> Outcome {
        // The logs of the old browser go with it.
        self.complaints().await?;
        self.client().close().await?;
        let client = self.driver.open_browser(&self.device, preferences).await?;
        *self.client.lock().unwrap_or_else(PoisonError::into_inner) = client;
        self.settle_in().await
    }

    /// The tab that is looked at.
    pub async fn tab(&self) -> Outcome<WindowHandle> {
        Ok(self.client().window().await?)
    }

    /// Looks at another tab.
    pub async fn look_at(&self, tab: &WindowHandle) -> Outcome {
        self.client().switch_to_window(tab.clone()).await?;
        // Only what is in front has the keyboard.
        commands::chromium(&self.client(), "Page.bringToFront", json!({})).await?;
        Ok(())
    }

    /// Opens an empty tab that knows nothing of the others, and looks at it.
    pub async fn new_tab(&self) -> Outcome<WindowHandle> {
        let tab = self.client().new_window(true).await?.handle;
        self.look_at(&tab).await?;
        self.settle_in().await?;
        Ok(tab)
    }

    /// Opens what is shown in a second tab as a browser does that duplicates a tab, with all that belongs to the tab, and
    /// looks at it.
    pub async fn duplicate_tab(&self) -> Outcome<WindowHandle> {
        let before = self.client().windows().await?;
        self.evaluate("window.open(location.href) !== null").await?;
        let tabs = self.client().windows().await?;
        let tab = tabs.into_iter().find(|tab| !before.contains(tab)).ok_or("no tab was opened")?;
        self.look_at(&tab).await?;
        self.settle_in().await?;
        Ok(tab)
    }

    /// Serves another folder at the same address, or again after [`Page::stop_server`].
    pub fn serve(&self, site: &Path) -> Outcome {
        self.stop_server();
        let port = Url::parse(&self.url)?.port().ok_or("the address has a port")?;
        let server = Server::start(site, MOUNT, port)?;
        *self.server.lock().unwrap_or_else(PoisonError::into_inner) = Some(server);
        Ok(())
    }

    /// Waits for a text that the page hands over as a file, and takes it.
    pub async fn downloaded(&self, name: &str) -> Outcome<String> {
        Ok(String::from_utf8(self.downloaded_bytes(name).await?)?)
    }

    /// Waits for a file that the page hands over, and takes it.
    pub async fn downloaded_bytes(&self, name: &str) -> Outcome<Vec<u8>> {
        let path = self.driver.downloads().join(name);
        let start = std::time::Instant::now();
        while start.elapsed() < PATIENCE {
            // The browser may keep the name with an empty file; the whole one takes its place when it is complete.
            if let Some(bytes) = std::fs::read(&path).ok().filter(|bytes| !bytes.is_empty()) {
                std::fs::remove_file(&path)?;
                return Ok(bytes);
            }
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
        Err(format!("no file {name} was handed over").into())
    }

    /// Prints the page as Chromium does, and returns the PDF in base64.
    pub async fn printed(&self) -> Outcome<String> {
        let printed = commands::chromium(&self.client(), "Page.printToPDF", json!({})).await?;
        Ok(printed["data"].as_str().ok_or("nothing was printed")?.to_owned())
    }

    /// Shows the page as it looks on paper.
    pub async fn on_paper(&self) -> Outcome {
        commands::chromium(&self.client(), "Emulation.setEmulatedMedia", json!({ "media": "print" })).await?;
        Ok(())
    }

    /// Answers for the person when the page wants something that browsers ask about, such as `clipboard-write`.
    pub async fn permit(&self, what: &str, allowed: bool) -> Outcome {
        let setting = if allowed { "granted" } else { "denied" };
        let permission = json!({ "permission": { "name": what }, "setting": setting });
        commands::chromium(&self.client(), "Browser.setPermission", permission).await?;
        Ok(())
    }

    /// Runs a script before every page that is opened from now on, as an odd browser would be odd.
    pub async fn before_all(&self, script: &str) -> Outcome {
        let source = json!({ "source": script });
        commands::chromium(&self.client(), "Page.addScriptToEvaluateOnNewDocument", source).await?;
        Ok(())
    }

    /// What Chromium itself makes of the page's manifest.
    pub async fn manifest(&self) -> Outcome<Value> {
        commands::chromium(&self.client(), "Page.getAppManifest", json!({})).await
    }

    /// Presses a letter while keys such as Control are held.
    pub async fn press_letter(&self, held: &[Key], letter: char) -> Outcome {
        let keys: Vec<char> = held.iter().map(|key| (*key).into()).chain([letter]).collect();
        let down = keys.iter().map(|key| KeyAction::Down { value: *key });
        let up = keys.iter().rev().map(|key| KeyAction::Up { value: *key });
        let keyboard = down.chain(up).fold(KeyActions::new("keyboard".to_owned()), KeyActions::then);
        Ok(self.client().perform_actions(keyboard).await?)
    }
}

/// What a finger or a mouse does to drag from one point to another.
fn drag(from: Point, to: Point) -> Vec<PointerAction> {
    let move_to = |(x, y), duration| PointerAction::MoveTo { duration: Some(duration), x, y };
    let button = 0;
    let mut actions = vec![move_to(from, Duration::ZERO), PointerAction::Down { button }];
    actions.extend((1..=DRAG_STEPS).map(|step| {
        let share = f64::from(step) / f64::from(DRAG_STEPS);
        move_to((from.0 + share * (to.0 - from.0), from.1 + share * (to.1 - from.1)), FRAME)
    }));
    actions.extend([PointerAction::Pause { duration: REST }, PointerAction::Up { button }]);
    actions
}
