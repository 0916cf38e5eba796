//! Tabs, a browser that is closed and opened again, and files that it keeps.

use std::sync::PoisonError;
use std::time::{Duration, Instant};

use fantoccini::wd::WindowHandle;
use serde_json::json;

use super::engine::Ability;
use super::page::PATIENCE;
use super::{Engine, Outcome, Page, Storage, chromium};

/// A button above the page that opens another tab of it, once.
const OPENER: &str = "(() => {
    const button = document.body.appendChild(document.createElement('button'));
    button.id = 'opener';
    button.style.cssText = 'position: fixed; left: 0; top: 0; width: 3rem; height: 3rem; z-index: 9';
    button.addEventListener('click', () => {
        button.remove();
        window.open(location.href);
    });
    return true;
})()";

impl Page {
    /// Closes the browser and starts it again with the same profile, as on the next day.
    pub async fn restart_browser(&self, storage: Storage) -> Outcome {
        self.needs(Ability::Profile)?;
        // The logs of the old browser go with it.
        self.complaints().await?;
        self.client().close().await?;
        let client = self.driver().open_browser(&self.device(), storage).await?;
        *self.client.lock().unwrap_or_else(PoisonError::into_inner) = client;
        self.settle_in().await
    }

    /// The tab that is looked at.
    pub async fn tab(&self) -> Outcome<WindowHandle> {
        Ok(self.client().window().await?)
    }

    /// Looks at another tab.
    pub async fn look_at(&self, tab: &WindowHandle) -> Outcome {
        self.listen().await?;
        self.client().switch_to_window(tab.clone()).await?;
        if self.engine() == Engine::Chromium {
            // Only what is in front has the keyboard.
            chromium::command(&self.client(), "Page.bringToFront", json!({})).await?;
        }
        Ok(())
    }

    /// Opens an empty tab that knows nothing of the others, and looks at it.
    pub async fn new_tab(&self) -> Outcome<WindowHandle> {
        // A tab that is opened for the driver of WebKit stays behind the first, unseen and unpainted; a window does not.
        let tab = self.client().new_window(self.engine() != Engine::WebKit).await?.handle;
        self.look_at(&tab).await?;
        self.settle_in().await?;
        Ok(tab)
    }

    /// Opens what is shown in a second tab as a browser does that duplicates a tab, with all that belongs to the tab, and
    /// looks at it.
    pub async fn duplicate_tab(&self) -> Outcome<WindowHandle> {
        let before = self.client().windows().await?;
        if self.engine() == Engine::WebKit {
            // Only who taps may open one.
            self.evaluate(OPENER).await?;
            self.tap("#opener").await?;
        } else {
            self.evaluate("window.open(location.href) !== null").await?;
        }
        let tab = self.tab_beside(&before).await?;
        self.look_at(&tab).await?;
        self.settle_in().await?;
        Ok(tab)
    }

    /// Waits for a tab that was not there before: a driver may hear of it later than the page.
    async fn tab_beside(&self, before: &[WindowHandle]) -> Outcome<WindowHandle> {
        let start = Instant::now();
        while start.elapsed() < PATIENCE {
            let tabs = self.client().windows().await?;
            if let Some(tab) = tabs.into_iter().find(|tab| !before.contains(tab)) {
                return Ok(tab);
            }
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
        Err("no tab was opened".into())
    }

    /// Waits for a text that the page hands over as a file, and takes it.
    pub async fn downloaded(&self, name: &str) -> Outcome<String> {
        Ok(String::from_utf8(self.downloaded_bytes(name).await?)?)
    }

    /// Waits for a file that the page hands over, and takes it.
    pub async fn downloaded_bytes(&self, name: &str) -> Outcome<Vec<u8>> {
        self.needs(Ability::Downloads)?;
        let path = self.driver().downloads().join(name);
        let start = Instant::now();
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
}
