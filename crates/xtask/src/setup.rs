//! Makes sure that everything a command needs is there, and installs only what is missing.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Instant;

use crate::browser::{self, Browser};
use crate::cache::{Cache, Lock};
use crate::engines::{self, Engine, Programs};
use crate::run;
use crate::tools::{self, Tool};
use crate::{Outcome, workspace};

/// The target for which the page is compiled.
pub const WASM_TARGET: &str = "wasm32-unknown-unknown";

/// Everything that builds the page.
#[derive(Clone, Debug)]
pub struct BuildTools {
    /// trunk.
    pub trunk: PathBuf,
    /// The runner for tests compiled to wasm; it came with wasm-bindgen.
    pub wasm_test_runner: PathBuf,
    /// Folders in which trunk has to find the programs it starts.
    pub path: Vec<PathBuf>,
}

/// Sets up what building the page needs.
pub fn for_building(root: &Path) -> Outcome<BuildTools> {
    let start = Instant::now();
    let cache = Cache::of_this_user()?;
    let mut changes = Vec::new();

    if ensure_wasm_target()? {
        changes.push(format!("the {WASM_TARGET} target"));
    }
    fetch_crates(root)?;
    let trunk = tools::trunk();
    let wasm_bindgen = tools::wasm_bindgen(&workspace::read(&root.join("Cargo.lock"))?)?;
    changes.extend(ensure_tools(&cache, &[&trunk, &wasm_bindgen])?);
    changes.extend(ensure_binaryen(&cache)?);

    report(&changes, "everything the build needs", start);
    let trunk = trunk.path(&cache);
    let wasm_bindgen_path = wasm_bindgen.path(&cache);
    let folders = [&trunk, &wasm_bindgen_path];
    Ok(BuildTools {
        path: folders.iter().filter_map(|path| path.parent()).map(Path::to_path_buf).collect(),
        wasm_test_runner: wasm_bindgen.neighbour(&cache, "wasm-bindgen-test-runner"),
        trunk,
    })
}

/// Sets up what the browser tests need beside the page.
pub fn for_browser_tests() -> Outcome<Browser> {
    let start = Instant::now();
    ensure_axe(&Cache::of_this_user()?);
    if let Some(found) = browser::find() {
        report(&[], "the browser", start);
        return Ok(found);
    }
    let installed = run::timed("installing Chromium and its driver", browser::install)?;
    report(&["Chromium and its driver".to_owned()], "the browser", start);
    Ok(installed)
}

/// Sets up what the browser tests need in an engine that is not the one of every day.
///
/// The engine itself is for the person to install; what steers it comes into the cache.
pub fn for_engine(engine: Engine) -> Outcome<Programs> {
    let start = Instant::now();
    let cache = Cache::of_this_user()?;
    ensure_axe(&cache);
    let mut changes = Vec::new();
    if engine == Engine::Firefox && engines::firefox().is_some() {
        changes = ensure_tools(&cache, &[&tools::geckodriver()])
            .map_err(|error| format!("Firefox is here, but not the program that steers it: {error}"))?;
    }
    let programs = engine.find()?;
    report(&changes, engine.name(), start);
    Ok(programs)
}

/// What judges the page.
#[derive(Clone, Debug)]
pub struct Lighthouse {
    /// node, which runs it.
    pub node: PathBuf,
    /// Its script.
    pub script: PathBuf,
    /// The browser in which it opens the page; Lighthouse steers it without a driver.
    pub chromium: PathBuf,
}

/// Sets up what `lighthouse` needs beside the page.
pub fn for_lighthouse() -> Outcome<Lighthouse> {
    let start = Instant::now();
    let node = run::find_on_path("node").ok_or("Lighthouse needs node, which is not installed here")?;
    let (cache, tool) = (Cache::of_this_user()?, tools::lighthouse());
    if !tool.is_installed(&cache) && tool.installer().is_none() {
        return Err(format!("{} is missing, and so is npm, which would install it", tool.name));
    }
    let mut changes = ensure_tools(&cache, &[&tool])?;
    let chromium = match browser::chromium() {
        Some(found) => found,
        None => {
            changes.push("Chromium".to_owned());
            run::timed("installing Chromium", browser::install)?.chromium
        }
    };
    report(&changes, "Lighthouse", start);
    Ok(Lighthouse { node, script: tool.path(&cache), chromium })
}

/// Whether the compiler can compile for the page; `None` if it cannot be asked.
#[must_use]
pub fn has_wasm_target() -> Option<bool> {
    let mut rustc = Command::new(std::env::var_os("RUSTC").unwrap_or_else(|| "rustc".into()));
    let library = rustc.args(["--print", "target-libdir", "--target", WASM_TARGET]);
    // Asking for the folder works without rustup; the folder exists once the target is installed.
    Some(Path::new(&run::output(library).ok()?).is_dir())
}

/// Returns whether it had to be added.
fn ensure_wasm_target() -> Outcome<bool> {
    if has_wasm_target() == Some(true) {
        return Ok(false);
    }
    let Some(rustup) = run::find_on_path("rustup") else {
        return Err(format!(
            "the compiler lacks the {WASM_TARGET} target and there is no rustup to add it: \
             install Rust through rustup, or the package of your system that brings this target"
        ));
    };
    run::timed(&format!("adding the {WASM_TARGET} target"), || {
        run::run(Command::new(rustup).args(["target", "add", WASM_TARGET]))
    })?;
    Ok(true)
}

/// Downloads the crates of the workspace, because trunk is told to build offline.
fn fetch_crates(root: &Path) -> Outcome {
    run::run(run::cargo().args(["fetch", "--quiet", "--locked"]).current_dir(root))
}

/// Installs the missing ones and returns their names.
fn ensure_tools(cache: &Cache, tools: &[&Tool]) -> Outcome<Vec<String>> {
    if tools.iter().all(|tool| tool.is_installed(cache)) {
        return Ok(Vec::new());
    }
    let lock = cache.lock()?;
    let mut installed = Vec::new();
    for tool in tools {
        // Asked again: another clone may have installed it while we waited for the lock.
        if !tool.is_installed(cache) {
            install(cache, &lock, tool)?;
            installed.push(tool.folder());
        }
    }
    cache.remove_build_dir(&lock);
    Ok(installed)
}

fn install(cache: &Cache, lock: &Lock, tool: &Tool) -> Outcome {
    run::timed(&format!("installing {} {}", tool.name, tool.version), || {
        cache.install(lock, &tool.folder(), |into| {
            let mut command = tool.command(into);
            // Away from the repository, whose cargo configuration is not meant for tools.
            command.current_dir(into).env("CARGO_TARGET_DIR", cache.build_dir());
            run::run(&mut command)
        })
    })
}

/// The page is only somewhat larger without binaryen, so its absence is said, not an error.
fn ensure_binaryen(cache: &Cache) -> Outcome<Vec<String>> {
    let binaryen = tools::binaryen();
    if run::find_on_path("node").is_none() || binaryen.installer().is_none() {
        println!("-- no node or npm here: the page will be built without wasm-opt");
        return Ok(Vec::new());
    }
    ensure_tools(cache, &[&binaryen])
}

/// One test is left out without it, and says so; no other is held up by a registry out of reach.
fn ensure_axe(cache: &Cache) {
    let axe = tools::axe();
    if axe.installer().is_none() {
        println!("-- no npm here: the page will not be searched for barriers");
    } else if let Err(error) = ensure_tools(cache, &[&axe]) {
        println!("-- {} is missing, so the page will not be searched for barriers: {error}", axe.name);
    }
}

fn report(changes: &[String], what: &str, start: Instant) {
    let seconds = start.elapsed().as_secs_f64();
    if changes.is_empty() {
        println!("-- set-up: {what} was there ({seconds:.1} s)");
    } else {
        println!("-- set-up: installed {} ({seconds:.1} s)", changes.join(", "));
    }
}
