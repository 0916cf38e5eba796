//! The tools a build needs, each with the one version that is known to work.
//!
//! They are installed through the ordinary clients of the package registries, into the cache.

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::Outcome;
use crate::cache::Cache;
use crate::run;

/// A tool that is installed by one command into a folder of its own.
#[derive(Clone, Debug)]
pub struct Tool {
    /// The name of the package.
    pub name: &'static str,
    /// Its exact version.
    pub version: String,
    /// What it is needed for, as doctor says it.
    pub purpose: &'static str,
    /// The folder name in the cache, without the version.
    folder: &'static str,
    /// The program inside the folder.
    program: &'static str,
    installer: Installer,
}

#[derive(Clone, Copy, Debug)]
enum Installer {
    Cargo { arguments: &'static [&'static str] },
    Npm,
}

/// trunk turns `index.html` and the wasm program into `dist/`.
#[must_use]
pub fn trunk() -> Tool {
    Tool {
        name: "trunk",
        version: "0.21.14".to_owned(),
        purpose: "builds the page",
        folder: "trunk",
        program: "bin/trunk",
        // Without its default features trunk neither downloads tools nor looks for updates.
        installer: Installer::Cargo { arguments: &["--locked", "--no-default-features"] },
    }
}

/// wasm-bindgen writes the JavaScript around the wasm program.
///
/// Its version must be the one of the crate in `Cargo.lock`, whose text is given here.
pub fn wasm_bindgen(cargo_lock: &str) -> Outcome<Tool> {
    Ok(Tool {
        name: "wasm-bindgen-cli",
        version: locked_version(cargo_lock, "wasm-bindgen")
            .ok_or("Cargo.lock does not name wasm-bindgen, so its tool cannot be chosen")?,
        purpose: "joins the page and the wasm program; runs tests compiled to wasm",
        folder: "wasm-bindgen",
        program: "bin/wasm-bindgen",
        // Not --locked: the lock file of 0.2.130 names a version its registry does not have.
        installer: Installer::Cargo { arguments: &[] },
    })
}

/// binaryen brings wasm-opt, which makes the wasm program smaller. A build works without it.
///
/// Never take wasm-opt from PATH: version 108, which is widely packaged, reports success and
/// leaves a page that does not start.
#[must_use]
pub fn binaryen() -> Tool {
    Tool {
        name: "binaryen",
        version: "132.0.0".to_owned(),
        purpose: "makes the wasm program smaller (optional; needs node and npm)",
        folder: "binaryen",
        program: "node_modules/binaryen/bin/wasm-opt",
        installer: Installer::Npm,
    }
}

/// geckodriver steers Firefox. Only `cargo xtask test firefox` needs it.
#[must_use]
pub fn geckodriver() -> Tool {
    Tool {
        name: "geckodriver",
        version: "0.37.1".to_owned(),
        purpose: "steers Firefox in `cargo xtask test firefox` (optional)",
        folder: "geckodriver",
        program: "bin/geckodriver",
        installer: Installer::Cargo { arguments: &["--locked"] },
    }
}

/// axe-core looks for what keeps people from using the page. Its test is left out without it.
#[must_use]
pub fn axe() -> Tool {
    Tool {
        name: "axe-core",
        version: "4.14.1".to_owned(),
        purpose: "looks for barriers in the browser tests (optional; needs npm)",
        folder: "axe",
        program: "node_modules/axe-core/axe.min.js",
        installer: Installer::Npm,
    }
}

/// Lighthouse judges how quick and how easy to use the page is. It needs a newer node from version 13 on.
#[must_use]
pub fn lighthouse() -> Tool {
    Tool {
        name: "lighthouse",
        version: "12.8.2".to_owned(),
        purpose: "judges the page for `cargo xtask lighthouse` (optional; needs node and npm)",
        folder: "lighthouse",
        program: "node_modules/lighthouse/cli/index.js",
        installer: Installer::Npm,
    }
}

impl Tool {
    /// The name of its folder in the cache.
    #[must_use]
    pub fn folder(&self) -> String {
        format!("{}-{}", self.folder, self.version)
    }

    /// Where its program is, or would be.
    #[must_use]
    pub fn path(&self, cache: &Cache) -> PathBuf {
        let path = cache.tool(&self.folder()).join(self.program);
        match self.installer {
            Installer::Cargo { .. } => with_exe_suffix(path),
            // A script that node runs: it is called the same everywhere.
            Installer::Npm => path,
        }
    }

    /// Another program that came with it, beside its own.
    #[must_use]
    pub fn neighbour(&self, cache: &Cache, name: &str) -> PathBuf {
        with_exe_suffix(self.path(cache).with_file_name(name))
    }

    /// Whether it is in the cache.
    #[must_use]
    pub fn is_installed(&self, cache: &Cache) -> bool {
        self.path(cache).is_file()
    }

    /// The program that installs it, if this machine has it.
    #[must_use]
    pub fn installer(&self) -> Option<PathBuf> {
        run::find_on_path(match self.installer {
            Installer::Cargo { .. } => "cargo",
            Installer::Npm => "npm",
        })
    }

    /// The command that installs it into a folder.
    #[must_use]
    pub fn command(&self, into: &Path) -> Command {
        match self.installer {
            Installer::Cargo { arguments } => {
                let mut command = run::cargo();
                command
                    .args(["install", self.name, "--version"])
                    .arg(format!("={}", self.version))
                    .args(arguments)
                    .arg("--root")
                    .arg(into);
                command
            }
            Installer::Npm => {
                let npm = self.installer().unwrap_or_else(|| "npm".into());
                let mut command = Command::new(npm);
                command
                    .args(["install", "--no-audit", "--no-fund", "--ignore-scripts"])
                    .arg("--prefix")
                    .arg(into)
                    .arg(format!("{}@{}", self.name, self.version));
                command
            }
        }
    }
}

/// The version of a package in the text of a `Cargo.lock`.
#[must_use]
pub fn locked_version(cargo_lock: &str, package: &str) -> Option<String> {
    let name = format!("name = \"{package}\"");
    let mut lines = cargo_lock.lines().skip_while(|line| *line != name);
    let version = lines.nth(1)?.strip_prefix("version = \"")?;
    Some(version.strip_suffix('"')?.to_owned())
}

fn with_exe_suffix(path: PathBuf) -> PathBuf {
    let mut name = path.into_os_string();
    name.push(std::env::consts::EXE_SUFFIX);
    name.into()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_locked_version_is_that_of_the_very_package() {
        let lock = "[[package]]\nname = \"wasm-bindgen-macro\"\nversion = \"0.1.0\"\n\n\
                    [[package]]\nname = \"wasm-bindgen\"\nversion = \"0.2.130\"\n";
        assert_eq!(locked_version(lock, "wasm-bindgen").as_deref(), Some("0.2.130"));
        assert_eq!(locked_version(lock, "leptos"), None);
        assert_eq!(wasm_bindgen(lock).unwrap().folder(), "wasm-bindgen-0.2.130");
    }

    #[test]
    fn commands_name_an_exact_version_and_a_folder() {
        let line = run::line(&trunk().command(Path::new("folder")));
        let (_, arguments) = line.split_once(' ').unwrap();
        assert_eq!(arguments, "install trunk --version =0.21.14 --locked --no-default-features --root folder");
        assert!(run::line(&binaryen().command(Path::new("folder"))).ends_with("binaryen@132.0.0"));
    }
}
