//! `doctor`: what is installed, what is missing, and the line that installs it. It changes nothing.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use crate::cache::Cache;
use crate::engines::Engine;
use crate::tools::{self, Tool};
use crate::{Outcome, browser, run, setup, workspace};

/// What was found out about one thing.
#[derive(Debug)]
struct Finding {
    state: State,
    name: String,
    /// What it is needed for, or what is wrong with it.
    remark: String,
    /// What to type or to do if it is missing.
    remedy: Option<String>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum State {
    Present,
    /// Missing, but everything important works without it.
    Absent,
    Missing,
}

/// Prints the findings; the exit code says whether something that is needed is missing.
pub fn doctor(root: &Path) -> Outcome<ExitCode> {
    let cache = Cache::of_this_user()?;
    let mut findings = vec![rust(root)?, wasm_target()];
    findings.push(cached(&cache, &tools::trunk(), State::Missing));
    // Its version is read from Cargo.lock, so a tool that does not match the crate is "missing".
    match workspace::read(&root.join("Cargo.lock")).and_then(|lock| tools::wasm_bindgen(&lock)) {
        Ok(tool) => findings.push(cached(&cache, &tool, State::Missing)),
        Err(error) => findings.push(Finding {
            state: State::Missing,
            name: "wasm-bindgen-cli".to_owned(),
            remark: error,
            remedy: Some("cargo generate-lockfile".to_owned()),
        }),
    }
    findings.push(cached(&cache, &tools::binaryen(), State::Absent));
    findings.push(cached(&cache, &tools::axe(), State::Absent));
    findings.push(cached(&cache, &tools::lighthouse(), State::Absent));
    findings.push(program("node", "runs wasm-opt, Lighthouse and the tests compiled to wasm", "Node.js"));
    findings.push(program("npm", "installs binaryen, axe-core and Lighthouse", "npm, which comes with Node.js"));
    findings.extend(browsers());
    findings.extend([Engine::Firefox, Engine::WebKit].map(other_engine));

    for finding in &findings {
        print(finding);
    }
    let is_missing = findings.iter().any(|finding| finding.state == State::Missing);
    println!("\nThe commands that need these install what they can by themselves.");
    Ok(if is_missing { ExitCode::FAILURE } else { ExitCode::SUCCESS })
}

fn print(finding: &Finding) {
    let state = match finding.state {
        State::Present => "ok",
        State::Absent => "optional",
        State::Missing => "MISSING",
    };
    println!("{state:<9} {:<32} {}", finding.name, finding.remark);
    if let Some(remedy) = finding.remedy.as_ref().filter(|_| finding.state != State::Present) {
        println!("{:<9} -> {remedy}", "");
    }
}

fn rust(root: &Path) -> Outcome<Finding> {
    let manifest = workspace::read(&root.join("Cargo.toml"))?;
    let wanted = quoted_value(&manifest, "rust-version").unwrap_or("stable");
    let found = run::version_of(Path::new("rustc"));
    let is_new_enough = found.as_deref().is_some_and(|text| numbers(text) >= numbers(wanted));
    Ok(Finding {
        state: if is_new_enough { State::Present } else { State::Missing },
        name: found.map_or_else(|| "rustc".to_owned(), |text| shorten(&text)),
        remark: format!("compiles everything; {wanted} or newer"),
        remedy: Some("rustup update stable".to_owned()),
    })
}

fn wasm_target() -> Finding {
    let is_there = setup::has_wasm_target() == Some(true);
    Finding {
        state: if is_there { State::Present } else { State::Missing },
        name: setup::WASM_TARGET.to_owned(),
        remark: "the target for which the page is compiled".to_owned(),
        remedy: Some(format!("rustup target add {}", setup::WASM_TARGET)),
    }
}

fn cached(cache: &Cache, tool: &Tool, otherwise: State) -> Finding {
    Finding {
        state: if tool.is_installed(cache) { State::Present } else { otherwise },
        name: format!("{} {}", tool.name, tool.version),
        remark: tool.purpose.to_owned(),
        remedy: Some(run::line(&tool.command(&cache.tool(&tool.folder())))),
    }
}

fn program(name: &str, purpose: &str, package: &str) -> Finding {
    let version = run::find_on_path(name).and_then(|path| run::version_of(&path));
    Finding {
        state: if version.is_some() { State::Present } else { State::Absent },
        name: version.map_or_else(|| name.to_owned(), |version| format!("{name} {version}")),
        remark: format!("{purpose} (optional)"),
        remedy: Some(format!("install {package}")),
    }
}

fn browsers() -> [Finding; 2] {
    let version = |path: PathBuf| run::version_of(&path);
    let chromium = browser::chromium().and_then(version);
    let driver = browser::chromedriver().and_then(version);
    let major = |text: &Option<String>| text.as_deref().and_then(|text| numbers(text).first().copied());
    let do_match = driver.is_some() && major(&chromium) == major(&driver);
    let finding = |name: &str, found: Option<String>, remark: &str, is_present: bool| Finding {
        state: if is_present { State::Present } else { State::Missing },
        name: found.map_or_else(|| name.to_owned(), |text| shorten(&text)),
        remark: remark.to_owned(),
        remedy: Some(browser::INSTRUCTION.to_owned()),
    };
    let is_present = chromium.is_some();
    [
        finding("chromium", chromium, "shows the page in the browser tests", is_present),
        finding("chromedriver", driver, "steers the browser; of the same version", do_match),
    ]
}

/// An engine in which the page is tried when it is asked for.
fn other_engine(engine: Engine) -> Finding {
    let found = engine.find();
    Finding {
        state: if found.is_ok() { State::Present } else { State::Absent },
        name: engine.name().to_owned(),
        remark: format!("`cargo xtask test {}` shows the page in it (optional)", engine.name()),
        remedy: found.err(),
    }
}

/// The name and the number: what follows is a commit or a system, of no use here.
fn shorten(version: &str) -> String {
    version.split_whitespace().take(2).collect::<Vec<_>>().join(" ")
}

/// The numbers of the first version in a text, so that 1.100 is newer than 1.95.
fn numbers(text: &str) -> Vec<u32> {
    let version = text.split_whitespace().find(|word| word.starts_with(|c: char| c.is_ascii_digit()));
    let parts = version.unwrap_or("").split('.');
    parts.map_while(|part| part.parse().ok()).collect()
}

fn quoted_value<'a>(manifest: &'a str, key: &str) -> Option<&'a str> {
    let line = manifest.lines().find(|line| line.starts_with(key))?;
    line.split('"').nth(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn versions_are_compared_as_numbers() {
        assert!(numbers("rustc 1.100.0 (abc 2026-01-01)") > numbers("1.95"));
        assert!(numbers("rustc 1.94.1") < numbers("1.95"));
        assert_eq!(numbers("ChromeDriver 156.0.8078.73 (x)").first(), Some(&156));
        assert_eq!(numbers("no version"), Vec::<u32>::new());
    }
}
