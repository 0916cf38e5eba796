//! The page as its users meet it: in a real browser, on a phone or a laptop, below some path of
//! some host.
//!
//! A test calls [`visit`] with a device, a folder and what it does there. Whatever it checks
//! itself, every visit also fails if the page wrote an error to the console or asked anybody but
//! its own host for anything.

use std::path::{Path, PathBuf};

use xtask::server::Server;
use xtask::workspace;

mod chromium;
mod commands;
mod conditions;
mod device;
mod driver;
mod engine;
mod findings;
mod firefox;
mod gestures;
mod page;
mod silence;
mod tabs;
mod webkit;
mod witness;

pub use device::{Device, laptop, phone};
pub use engine::{Ability, Engine, Skipped, cannot};
pub use fantoccini::key::Key;
pub use page::{Page, Point};

use driver::Driver;

/// The result of a test or of a part of it.
pub type Outcome<T = ()> = Result<T, Box<dyn std::error::Error + Send + Sync>>;

/// Whether the browser lets pages keep anything.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Storage {
    /// As browsers come.
    #[default]
    Allowed,
    /// As set by people who let no page keep anything.
    Forbidden,
}

/// Deep enough that a page which only works at the root of its host is found out.
const MOUNT: &str = "/some/where/";

/// The built page; an error with the remedy if it was not built.
pub fn dist() -> Outcome<PathBuf> {
    let dist = workspace::root()?.join("dist");
    if dist.join("index.html").is_file() {
        Ok(dist)
    } else {
        Err("there is no built page in dist/: run `cargo xtask build` first".into())
    }
}

/// Serves a folder, opens a browser on a device, does what `test` says, and cleans up.
///
/// The page is not opened yet when `test` starts, because tests open it with different links.
/// The engine is the one that the environment asks for; a test ends early, and is counted as left out, where it wants what
/// this engine cannot do. When something goes wrong a picture of the screen is left in `tests/output`.
pub async fn visit<Test, Running>(device: Device, site: &Path, test: Test) -> Outcome
where
    Test: FnOnce(Page) -> Running,
    Running: Future<Output = Outcome> + Send + 'static,
{
    let name = test_name();
    let driver = Driver::start(Engine::chosen()?)?;
    let server = Server::start(&conditions::served(driver.engine(), driver.profile(), site, "")?, MOUNT, 0)?;
    let client = driver.open_browser(&device, Storage::Allowed).await?;
    let page = Page::new(client, driver, device, site, server);
    page.settle_in().await?;

    // A task of its own, so that a failed assertion in it still lets us close the browser.
    let ended = tokio::spawn(test(page.clone())).await;
    let outcome = match ended {
        Ok(outcome) => match outcome {
            Ok(()) => page.complaints().await,
            // Up to here the page did well, which counts.
            Err(error) => match error.downcast::<Skipped>() {
                Ok(skipped) => page.complaints().await.and_then(|()| skipped.note(engine::SKIPPED, &name)),
                Err(error) => Err(error),
            },
        },
        Err(panic) => Err(format!("the test panicked: {panic}").into()),
    };
    let outcome = silence::explain(outcome, page.engine());
    if outcome.is_err() {
        // The first error is the one to report, whether or not a picture of it can be taken.
        let _ = silence::at_parting(page.screenshot(&format!("failed-{name}"))).await;
    }
    // Whatever becomes of it, the driver goes with the page.
    let closed = silence::at_parting(page.close()).await;
    outcome.and(closed)
}

/// The test harness names the thread after the test.
fn test_name() -> String {
    let thread = std::thread::current();
    thread.name().unwrap_or("unnamed").replace("::", "-")
}
