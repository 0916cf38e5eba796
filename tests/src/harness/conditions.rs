//! What surrounds the page: the screen, what the person prefers, the network, the paper.
//!
//! What an engine cannot be asked for ends the test, which is then left out by name.

use std::path::Path;
use std::sync::PoisonError;

use serde_json::{Value, json};
use url::Url;
use xtask::server::Server;

use super::engine::{self, Ability, Skipped, cannot};
use super::{Device, Engine, MOUNT, Outcome, Page, chromium, firefox, test_name, webkit, witness};

/// In Firefox's preferences: dark, light.
const FIREFOX_SCHEMES: [i32; 2] = [0, 1];
const FIREFOX_SCHEME: &str = "layout.css.prefers-color-scheme.content-override";

/// Takes away the service worker and what it keeps.
const FORGET: &str = "
    for (const worker of await navigator.serviceWorker.getRegistrations()) await worker.unregister();
    for (const name of await caches.keys()) await caches.delete(name);
    return true;";
/// As a browser answers whose person said no.
const REFUSED_CLIPBOARD: &str =
    "Clipboard.prototype.writeText = async () => { throw new DOMException('no', 'NotAllowedError'); };";
/// Reads what the browser itself has taken, where nobody is there who allows reading.
const REMEMBERED_CLIPBOARD: &str = "
    const { writeText } = Clipboard.prototype;
    let taken = '';
    Clipboard.prototype.writeText = async function (text) {
        await writeText.call(this, text);
        taken = text;
    };
    Clipboard.prototype.readText = async () => taken;";

impl Page {
    /// Ends the test, which counts as left out, unless the engine has this ability.
    pub fn needs(&self, ability: Ability) -> Outcome {
        Skipped::unless_able(self.engine(), ability)
    }

    /// Whether the engine has this ability, for a test that leaves out a part without it, which is noted.
    pub fn can(&self, ability: Ability) -> Outcome<bool> {
        engine::has_or_notes(self.engine(), ability, &test_name())
    }

    /// Whether the engine has this ability, for a test that can do without.
    #[must_use]
    pub fn has(&self, ability: Ability) -> bool {
        cannot(self.engine(), ability).is_none()
    }

    /// Gives the inside of the window the size of the device, and downloads a place of their own.
    pub(super) async fn settle_in(&self) -> Outcome {
        let client = self.client();
        if self.engine() == Engine::Chromium {
            let downloads = json!({ "behavior": "allow", "downloadPath": self.driver().downloads() });
            chromium::command(&client, "Browser.setDownloadBehavior", downloads).await?;
            if self.device().is_touched {
                // It was started as this device.
                return Ok(());
            }
        }
        self.resize(&self.device()).await
    }

    /// Makes the screen as fine as that of the device again where a visit undoes it: Firefox may have changed the process.
    pub(super) async fn arrive(&self) -> Outcome {
        if self.engine() == Engine::Firefox { self.resize(&self.device()).await } else { Ok(()) }
    }

    async fn resize(&self, device: &Device) -> Outcome {
        match self.engine() {
            Engine::Chromium => chromium::resize(&self.client(), device).await,
            Engine::Firefox => firefox::resize(&self.client(), device).await,
            Engine::WebKit => webkit::resize(&self.client(), device).await,
        }
    }

    /// Leaves the window this height, in CSS pixels, as a keyboard on the screen does. It lasts until another page is
    /// opened.
    pub async fn leave_height(&self, height: u32) -> Outcome {
        self.resize(&Device { height, ..self.device() }).await?;
        self.wait_until(&format!("innerHeight === {height}")).await
    }

    /// Asks for the dark or the light colours.
    pub async fn prefer_dark(&self, dark: bool) -> Outcome {
        self.needs(Ability::Colours)?;
        if self.engine() == Engine::Firefox {
            let [as_dark, as_light] = FIREFOX_SCHEMES;
            return firefox::set_number(&self.client(), FIREFOX_SCHEME, if dark { as_dark } else { as_light }).await;
        }
        let scheme = if dark { "dark" } else { "light" };
        let media = json!({ "features": [{ "name": "prefers-color-scheme", "value": scheme }] });
        chromium::command(&self.client(), "Emulation.setEmulatedMedia", media).await?;
        Ok(())
    }

    /// Makes the processor this many times slower.
    pub async fn slow_down(&self, times: f64) -> Outcome {
        self.needs(Ability::SlowDown)?;
        chromium::command(&self.client(), "Emulation.setCPUThrottlingRate", json!({ "rate": times })).await?;
        Ok(())
    }

    /// Takes the network away for good, for the page and for its service worker alike.
    ///
    /// The browser's own offline mode does not reach service workers, and tests that trust it pass
    /// without being true.
    pub fn stop_server(&self) {
        drop(self.server.lock().unwrap_or_else(PoisonError::into_inner).take());
    }

    /// Serves another folder at the same address, or again after [`Page::stop_server`].
    pub fn serve(&self, site: &Path) -> Outcome {
        self.stop_server();
        let port = Url::parse(self.url())?.port().ok_or("the address has a port")?;
        let site = served(self.engine(), self.driver().profile(), site, "")?;
        let server = Server::start(&site, MOUNT, port)?;
        *self.server.lock().unwrap_or_else(PoisonError::into_inner) = Some(server);
        Ok(())
    }

    /// Runs a script before every page that is opened from now on, as an odd browser would be odd.
    pub async fn before_all(&self, script: &str) -> Outcome {
        if self.engine() == Engine::Chromium {
            let source = json!({ "source": script });
            chromium::command(&self.client(), "Page.addScriptToEvaluateOnNewDocument", source).await?;
        } else {
            self.write_into_page(script)?;
            if self.client().current_url().await?.as_str().starts_with(self.url()) {
                // Its service worker would answer with the page as it was.
                self.ask(FORGET).await?;
            }
        }
        Ok(())
    }

    /// Adds a script to those that run before the page, in the copy that is served.
    fn write_into_page(&self, script: &str) -> Outcome {
        let mut before = self.before.lock().unwrap_or_else(PoisonError::into_inner);
        *before += &format!("{{ {script} }}\n");
        served(self.engine(), self.driver().profile(), &self.site, &before)?;
        Ok(())
    }

    /// Lets the page write to the clipboard, and the test read from it, or refuses both.
    pub async fn permit_clipboard(&self, allowed: bool) -> Outcome {
        if self.has(Ability::Clipboard) {
            for what in ["clipboard-write", "clipboard-read"] {
                let setting = if allowed { "granted" } else { "denied" };
                let permission = json!({ "permission": { "name": what }, "setting": setting });
                chromium::command(&self.client(), "Browser.setPermission", permission).await?;
            }
            return Ok(());
        }
        // Both let pages write after a tap, as they come. Firefox was told to let pages read.
        match (allowed, self.engine()) {
            (false, _) => self.before_all(REFUSED_CLIPBOARD).await,
            (true, Engine::WebKit) => self.before_all(REMEMBERED_CLIPBOARD).await,
            (true, _) => Ok(()),
        }
    }

    /// What Chromium itself makes of the page's manifest.
    pub async fn manifest(&self) -> Outcome<Value> {
        self.needs(Ability::Manifest)?;
        chromium::command(&self.client(), "Page.getAppManifest", json!({})).await
    }

    /// Prints the page as Chromium does, and returns the PDF in base64.
    pub async fn printed(&self) -> Outcome<String> {
        self.needs(Ability::Printing)?;
        let printed = chromium::command(&self.client(), "Page.printToPDF", json!({})).await?;
        Ok(printed["data"].as_str().ok_or("nothing was printed")?.to_owned())
    }

    /// Shows the page as it looks on paper.
    pub async fn on_paper(&self) -> Outcome {
        self.needs(Ability::Paper)?;
        if self.engine() == Engine::Firefox {
            return firefox::show_on_paper(&self.client()).await;
        }
        chromium::command(&self.client(), "Emulation.setEmulatedMedia", json!({ "media": "print" })).await?;
        Ok(())
    }
}

/// The folder that is served: the site itself, or a copy with a witness where the browser has no log.
pub fn served(engine: Engine, profile: &Path, site: &Path, before: &str) -> Outcome<std::path::PathBuf> {
    match cannot(engine, Ability::Logs) {
        None => Ok(site.to_path_buf()),
        Some(_) => witness::copy(site, &profile.join("site"), before),
    }
}
