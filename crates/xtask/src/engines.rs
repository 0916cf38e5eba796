//! The engines in which the built page is tried, and where the programs of each are.
//!
//! Chromium is the one of every day. The others are tried with `cargo xtask test firefox` and `cargo xtask test webkit`; nothing
//! installs them by itself.

use std::path::{Path, PathBuf};

use crate::cache::Cache;
use crate::{Outcome, browser, run, tools, workspace};

/// What draws and runs a page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Engine {
    /// Chromium, Chrome.
    Chromium,
    /// Firefox, whose engine is called Gecko.
    Firefox,
    /// WebKit, as GTK programs have it. Safari is another port of the same engine.
    WebKit,
}

/// The environment variable that chooses the engine of the browser tests.
pub const VARIABLE: &str = "HOLDWATER_ENGINE";

/// What a test needs to steer a browser.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Programs {
    /// The browser itself.
    pub browser: PathBuf,
    /// The program that speaks WebDriver for it.
    pub driver: PathBuf,
}

const FIREFOX_ON_MACOS: &str = "/Applications/Firefox.app/Contents/MacOS/firefox";
/// Where systems put the plain browser that comes with WebKit for GTK, beside its libraries or beside other helpers.
const WEBKIT_FOLDERS: [&str; 4] = ["/usr/lib", "/usr/lib64", "/usr/libexec", "/usr/local/lib"];
const MINI_BROWSER: &str = "MiniBrowser";

impl Engine {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Chromium, Self::Firefox, Self::WebKit];

    /// Its name in the environment, on the command line and in reports.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Chromium => "chromium",
            Self::Firefox => "firefox",
            Self::WebKit => "webkit",
        }
    }

    /// The engine that the environment asks for, Chromium if it asks for none.
    pub fn chosen() -> Outcome<Self> {
        let Some(name) = std::env::var_os(VARIABLE).filter(|name| !name.is_empty()) else {
            return Ok(Self::Chromium);
        };
        let known = Self::ALL.into_iter().find(|engine| *engine.name() == *name);
        known.ok_or_else(|| {
            format!("{VARIABLE} is {}; it may be {}", name.display(), Self::ALL.map(Self::name).join(", "))
        })
    }

    /// Its programs, or what is missing and which package brings it.
    pub fn find(self) -> Outcome<Programs> {
        let missing = || format!("{} is not installed here: {}", self.name(), self.instruction());
        match self {
            Self::Chromium => {
                let found = browser::find().ok_or_else(missing)?;
                Ok(Programs { browser: found.chromium, driver: found.chromedriver })
            }
            Self::Firefox => Ok(Programs { browser: firefox().ok_or_else(missing)?, driver: geckodriver()? }),
            Self::WebKit => {
                let driver = run::find_on_path("WebKitWebDriver").ok_or_else(missing)?;
                let browser = mini_browser().ok_or_else(missing)?;
                // GTK has no mode without a screen, so every test has a screen that nobody sees.
                run::find_on_path("Xvfb").ok_or_else(missing)?;
                Ok(Programs { browser, driver })
            }
        }
    }

    /// What to do where it is missing.
    #[must_use]
    pub const fn instruction(self) -> &'static str {
        match self {
            Self::Chromium => browser::INSTRUCTION,
            Self::Firefox => {
                "install Firefox, so that it is on PATH; on Debian: \
                 sudo apt-get install --no-install-recommends firefox-esr"
            }
            Self::WebKit => {
                "install WebKitGTK with its MiniBrowser and WebKitWebDriver, and Xvfb; on Debian and Ubuntu: \
                 sudo apt-get install --no-install-recommends webkit2gtk-driver xvfb"
            }
        }
    }
}

/// Firefox, if this machine has it.
#[must_use]
pub fn firefox() -> Option<PathBuf> {
    let on_macos = Path::new(FIREFOX_ON_MACOS);
    let on_path = ["firefox-esr", "firefox"].iter().find_map(|name| run::find_on_path(name));
    on_path.or_else(|| on_macos.is_file().then(|| on_macos.to_path_buf()))
}

/// The driver of Firefox in the cache.
fn geckodriver() -> Outcome<PathBuf> {
    let (cache, tool) = (Cache::of_this_user()?, tools::geckodriver());
    if tool.is_installed(&cache) {
        Ok(tool.path(&cache))
    } else {
        Err(format!("{} {} is not in the cache: `cargo xtask test firefox` puts it there", tool.name, tool.version))
    }
}

/// The plain browser that comes with WebKit. It is no program of the desktop and not on PATH.
fn mini_browser() -> Option<PathBuf> {
    let folders = WEBKIT_FOLDERS.iter().map(PathBuf::from);
    // On Debian there is a folder for the kind of machine in between.
    let deeper = folders.clone().flat_map(|folder| subfolders(&folder));
    let all = folders.chain(deeper).flat_map(|folder| subfolders(&folder));
    let is_webkit = |folder: &PathBuf| {
        folder.file_name().is_some_and(|name| name.to_string_lossy().starts_with("webkit")) && folder.is_dir()
    };
    let found: Vec<_> = all.filter(is_webkit).map(|folder| folder.join(MINI_BROWSER)).collect();
    found.into_iter().find(|program| program.is_file())
}

/// The folders in a folder; none if it cannot be read.
fn subfolders(folder: &Path) -> Vec<PathBuf> {
    let Ok(entries) = std::fs::read_dir(folder) else { return Vec::new() };
    let mut folders: Vec<_> = entries.flatten().map(|entry| entry.path()).filter(|path| path.is_dir()).collect();
    folders.sort();
    folders
}

/// The file in which the tests of an engine note what they left out.
pub fn skipped_file(engine: Engine) -> Outcome<PathBuf> {
    Ok(workspace::root()?.join("tests/output").join(format!("skipped-{}.txt", engine.name())))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_missing_is_named_with_its_package() {
        assert!(Engine::Firefox.instruction().contains("firefox-esr"));
        assert!(Engine::WebKit.instruction().contains("webkit2gtk-driver"));
        let names = Engine::ALL.map(Engine::name);
        assert_eq!(names, ["chromium", "firefox", "webkit"]);
    }
}
