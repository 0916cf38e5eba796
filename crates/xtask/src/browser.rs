//! The browser and its driver, with which the built page is tested.
//!
//! Both come from the system: a browser is too large and too often repaired to be kept in a cache.

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::Outcome;
use crate::run;

/// A Chromium and the driver that belongs to it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Browser {
    /// The browser itself.
    pub chromium: PathBuf,
    /// The program that speaks WebDriver on one side and Chromium's own protocol on the other.
    pub chromedriver: PathBuf,
}

const CHROMIUM_NAMES: [&str; 4] = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];
const CHROMIUM_ON_MACOS: &str = "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome";

/// What to do where this program cannot install a browser by itself.
pub const INSTRUCTION: &str = "install Chromium (or Chrome) and the chromedriver of the same \
    version, so that both are on PATH; on Debian and Ubuntu: \
    sudo apt-get install --no-install-recommends chromium chromium-driver";

/// The browser, if this machine has one that can be called.
#[must_use]
pub fn chromium() -> Option<PathBuf> {
    let on_macos = Path::new(CHROMIUM_ON_MACOS);
    CHROMIUM_NAMES
        .iter()
        .find_map(|name| run::find_on_path(name))
        .or_else(|| on_macos.is_file().then(|| on_macos.to_path_buf()))
}

/// The driver, if this machine has one.
#[must_use]
pub fn chromedriver() -> Option<PathBuf> {
    run::find_on_path("chromedriver")
}

/// Both, if this machine has both.
#[must_use]
pub fn find() -> Option<Browser> {
    Some(Browser { chromium: chromium()?, chromedriver: chromedriver()? })
}

/// Installs both where that takes nobody's password: as root, with Debian's own package manager.
pub fn install() -> Outcome<Browser> {
    let apt = run::find_on_path("apt-get").filter(|_| is_root());
    let Some(apt) = apt else {
        return Err(format!("the browser tests need a browser: {INSTRUCTION}"));
    };
    run::run(Command::new(&apt).args(["--quiet", "update"]))?;
    run::run(
        Command::new(&apt)
            .args(["--quiet", "install", "--yes", "--no-install-recommends"])
            .args(["chromium", "chromium-driver"])
            .env("DEBIAN_FRONTEND", "noninteractive"),
    )?;
    find().ok_or_else(|| format!("the packages brought no browser: {INSTRUCTION}"))
}

/// Chromium refuses to sandbox itself for root, so whoever starts it has to know.
#[must_use]
pub fn is_root() -> bool {
    let id = Command::new("id").arg("-u").output();
    id.is_ok_and(|output| output.stdout.trim_ascii() == b"0")
}
