//! Days without signal, and the day a newer build is there.

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU32, Ordering};

use acceptance::harness::{Device, Outcome, Page, Storage, dist, laptop, phone, visit};
use serde_json::{Value, json};
use xtask::workspace;

use crate::shown::{DELAY, assert_answers, assert_link_follows, open};

const NEWER: &str = "!document.getElementById('newer').hidden";

/// A copy of the built page that can be told from other copies; it goes when the test ends.
struct Build {
    folder: PathBuf,
    mark: String,
}

impl Build {
    /// Renames the program as a change of it would, writes the mark into the other files, and names the worker's store after it.
    ///
    /// The mark is sixteen hexadecimal digits, as in the names of real builds.
    fn new(mark: &str) -> Outcome<Self> {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let number = COUNT.fetch_add(1, Ordering::Relaxed);
        let folder = std::env::temp_dir().join(format!("holdwater-build-{}-{number}", std::process::id()));
        let build = Self { folder, mark: mark.to_owned() };
        let dist = dist()?;
        let names: Vec<String> =
            workspace::files_below(&dist)?.iter().map(|file| workspace::relative(&dist, file)).collect();
        let program = names.iter().find_map(|name| name.strip_prefix("holdwater-app-")?.strip_suffix("_bg.wasm"));
        let program = program.ok_or("the build has a program")?;
        for name in &names {
            let mut bytes = workspace::read_bytes(&dist.join(name))?;
            if let Some(text) = build.marked(name, program, &bytes) {
                bytes = text.into_bytes();
            }
            workspace::write(&build.folder.join(name.replace(program, mark)), &bytes)?;
        }
        Ok(build)
    }

    fn marked(&self, name: &str, program: &str, bytes: &[u8]) -> Option<String> {
        let text = std::str::from_utf8(bytes).ok()?.replace(program, &self.mark);
        let mark = &self.mark;
        Some(match name {
            "boot.js" => format!("globalThis.build = '{mark}';\n{text}"),
            "index.html" => text.replace("<body>", &format!("<body data-build=\"{mark}\">")),
            "sw.js" => {
                let (before, rest) = text.split_once("const BUILD = '")?;
                let (_, after) = rest.split_once('\'')?;
                format!("{before}const BUILD = '{mark}'{after}")
            }
            _ => text,
        })
    }

    fn without(self, end: &str) -> Outcome<Self> {
        for file in workspace::files_below(&self.folder)? {
            if file.to_string_lossy().ends_with(end) {
                std::fs::remove_file(file)?;
            }
        }
        Ok(self)
    }
}

impl Drop for Build {
    fn drop(&mut self) {
        // What stays in the temporary folder is cleared away by the system.
        let _ = std::fs::remove_dir_all(&self.folder);
    }
}

const ONE: &str = "1111111111111111";
const TWO: &str = "2222222222222222";

/// Waits until the worker has everything and answers for the page.
async fn ready(page: &Page) -> Outcome {
    page.ask("await navigator.serviceWorker.ready; return true;").await?;
    page.wait_until("navigator.serviceWorker.controller !== null").await
}

/// Loads the page again and waits for the program.
async fn reload(page: &Page) -> Outcome {
    page.load_again().await?;
    page.wait_until("document.getElementById('shell') === null").await
}

/// Everything that runs is of one build: the document, the script that starts it, and the program.
async fn assert_whole(page: &Page, mark: &str) -> Outcome {
    let files = "performance.getEntriesByType('resource').map(entry => entry.name).filter(name => name.includes('holdwater-app-'))";
    let found = page.evaluate(&format!("[document.body.dataset.build, globalThis.build, {files}]")).await?;
    assert_eq!((&found[0], &found[1]), (&json!(mark), &json!(mark)), "{found}");
    let files = found[2].as_array().cloned().unwrap_or_default();
    assert!(files.len() >= 2, "the program is two files: {files:?}");
    assert!(files.iter().all(|file| file.as_str().is_some_and(|file| file.contains(mark))), "{files:?}");
    Ok(())
}

/// The worker's own questions go unanswered when there is no network; nothing else may.
fn forgive_silence(page: &Page) {
    page.forgive("ERR_CONNECTION_REFUSED");
    page.forgive("sw.js");
}

async fn works_offline(device: Device) -> Outcome {
    visit(device, &dist()?, |page| async move {
        open(&page, "v=1&name=Plover&delay=0.4").await?;
        assert_answers(&page, "v=1&delay=0.4").await?;
        ready(&page).await?;
        page.stop_server();
        forgive_silence(&page);
        page.forgive("nowhere");
        let reached = page.ask("return await fetch('./nowhere').then(() => 'answered', () => 'silence');").await?;
        assert_eq!(reached, "silence", "the network is really gone");

        reload(&page).await?;
        assert_answers(&page, "v=1&delay=0.4").await?;
        assert_eq!(page.evaluate("document.title").await?, "Plover · Holdwater");
        page.type_into(DELAY, "0.55").await?;
        let link = assert_link_follows(&page, "delay=0.55").await?;

        // A link that somebody sent, opened without signal.
        open(&page, "v=1&delay=0.6&s.dry=0.25").await?;
        assert_answers(&page, "v=1&delay=0.6&s.dry=0.25").await?;
        // However the host writes the folder, and with what trackers append.
        for address in ["index.html", "?from=forum"] {
            page.client().goto("about:blank").await?;
            page.client().goto(&format!("{}{address}#{link}", page.url())).await?;
            page.wait_until("document.title === 'Plover · Holdwater'").await?;
            assert_answers(&page, &link).await?;
        }
        let looks = "getComputedStyle(document.querySelector('.top')).display";
        assert_ne!(page.evaluate(looks).await?, "block", "the styles are there as well");

        // The next day, still without signal.
        page.restart_browser(Storage::Allowed).await?;
        open(&page, &link).await?;
        assert_answers(&page, &link).await?;
        page.screenshot(if device.is_touched { "phone-offline" } else { "laptop-offline" }).await?;
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_phone_that_was_here_once_answers_without_a_network() -> Outcome {
    works_offline(phone()).await
}

#[tokio::test]
async fn a_laptop_that_was_here_once_answers_without_a_network() -> Outcome {
    works_offline(laptop()).await
}

#[tokio::test]
async fn a_newer_build_is_told_waits_and_is_taken_whole_with_the_design_intact() -> Outcome {
    let (one, two) = (Build::new(ONE)?, Build::new(TWO)?);
    let site = one.folder.clone();
    visit(phone(), &site, |page| async move {
        open(&page, "v=1&name=Plover&delay=0.4").await?;
        ready(&page).await?;
        assert_eq!(page.evaluate(NEWER).await?, false, "the first visit is not told of itself");
        assert_whole(&page, ONE).await?;

        // The host has the new files and no longer the old ones.
        page.serve(&two.folder)?;
        for _ in 0..2 {
            reload(&page).await?;
            page.wait_until(NEWER).await?;
            assert_whole(&page, ONE).await?;
            assert_answers(&page, "v=1&delay=0.4").await?;
        }
        page.screenshot("phone-newer").await?;
        page.tap("#newer-later").await?;
        assert_eq!(page.evaluate(NEWER).await?, false);
        page.type_into(DELAY, "0.5").await?;
        assert_link_follows(&page, "delay=0.5").await?;
        assert_whole(&page, ONE).await?;

        reload(&page).await?;
        page.wait_until(NEWER).await?;
        page.type_into(DELAY, "0.77").await?;
        // At once, before the address bar has followed.
        page.tap("#newer-take").await?;
        page.wait_until(&format!("globalThis.build === '{TWO}' && document.getElementById('shell') === null")).await?;
        assert_whole(&page, TWO).await?;
        assert_link_follows(&page, "delay=0.77").await?;
        assert_eq!(page.evaluate("document.title").await?, "Plover · Holdwater");
        assert_eq!(page.evaluate(NEWER).await?, false);
        let stores = page.ask("return await caches.keys();").await?;
        assert_eq!(stores, json!([format!("holdwater-{TWO}")]), "the store of the old build is gone");

        page.stop_server();
        forgive_silence(&page);
        reload(&page).await?;
        assert_whole(&page, TWO).await?;
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_newer_build_taken_in_one_tab_leaves_the_other_usable_until_it_takes_it_too() -> Outcome {
    let (one, two) = (Build::new(ONE)?, Build::new(TWO)?);
    let site = one.folder.clone();
    visit(laptop(), &site, |page| async move {
        let first = page.tab().await?;
        open(&page, "v=1&name=Plover&delay=0.4").await?;
        ready(&page).await?;
        let second = page.new_tab().await?;
        open(&page, "v=1&name=Dunlin&delay=0.5").await?;
        ready(&page).await?;
        page.serve(&two.folder)?;
        reload(&page).await?;
        page.wait_until(NEWER).await?;
        page.look_at(&first).await?;
        page.wait_until(NEWER).await?;
        page.tap("#newer-take").await?;
        page.wait_until(&format!("globalThis.build === '{TWO}'")).await?;

        page.look_at(&second).await?;
        assert_whole(&page, ONE).await?;
        page.type_into(DELAY, "0.6").await?;
        assert_link_follows(&page, "delay=0.6").await?;
        page.wait_until(NEWER).await?;
        page.tap("#newer-take").await?;
        page.wait_until(&format!("globalThis.build === '{TWO}' && document.getElementById('shell') === null")).await?;
        assert_whole(&page, TWO).await?;
        assert_link_follows(&page, "delay=0.6").await?;
        Ok(())
    })
    .await
}

#[tokio::test]
async fn of_a_build_that_is_only_half_there_nothing_is_taken() -> Outcome {
    let (one, two) = (Build::new(ONE)?, Build::new(TWO)?.without("_bg.wasm")?);
    let site = one.folder.clone();
    visit(phone(), &site, |page| async move {
        open(&page, "v=1&delay=0.4").await?;
        ready(&page).await?;
        page.serve(&two.folder)?;
        page.forgive("404");
        page.forgive("sw.js");
        reload(&page).await?;
        page.let_pass(1500).await?;
        assert_eq!(page.evaluate(NEWER).await?, false, "what cannot be used is not offered");
        assert_whole(&page, ONE).await?;
        page.client().goto("about:blank").await?;
        open(&page, "v=1&delay=0.5").await?;
        assert_whole(&page, ONE).await?;
        assert_answers(&page, "v=1&delay=0.5").await?;

        // The rest arrives.
        let whole = Build::new(TWO)?;
        page.serve(&whole.folder)?;
        reload(&page).await?;
        page.wait_until(NEWER).await?;
        page.tap("#newer-take").await?;
        page.wait_until(&format!("globalThis.build === '{TWO}' && document.getElementById('shell') === null")).await?;
        assert_whole(&page, TWO).await?;
        assert_answers(&page, "v=1&delay=0.5").await?;
        Ok(())
    })
    .await
}

/// Puts something that is no program in place of the program.
fn broken(folder: &Path) -> Outcome {
    for file in workspace::files_below(folder)? {
        if file.extension().is_some_and(|extension| extension == "wasm") {
            workspace::write(&file, b"\0asm this is none")?;
        }
    }
    Ok(())
}

#[tokio::test]
async fn a_broken_build_that_was_kept_is_replaced_by_one_that_works() -> Outcome {
    let (one, two) = (Build::new(ONE)?, Build::new(TWO)?);
    broken(&one.folder)?;
    let site = one.folder.clone();
    visit(phone(), &site, |page| async move {
        page.forgive("boot.js");
        // In the words of either of the engines.
        page.forgive("WebAssembly");
        page.forgive("CompileError");
        page.open_fragment("v=1&name=Plover&delay=0.4").await?;
        page.wait_until("!document.getElementById('crash').hidden").await?;
        ready(&page).await?;
        page.serve(&two.folder)?;
        page.load_again().await?;
        page.wait_until(NEWER).await?;
        page.screenshot("phone-newer-crash").await?;
        page.tap("#newer-take").await?;
        page.wait_until("document.title === 'Plover · Holdwater'").await?;
        assert_whole(&page, TWO).await?;
        assert_answers(&page, "v=1&delay=0.4").await?;
        Ok(())
    })
    .await
}

#[tokio::test]
async fn the_manifest_is_one_that_chromium_installs_and_its_icons_load() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        open(&page, "").await?;
        ready(&page).await?;
        let read = page.manifest().await?;
        assert_eq!(read["errors"], json!([]), "{read}");
        assert_eq!(read["url"], format!("{}holdwater.webmanifest", page.url()));
        let manifest: Value = serde_json::from_str(read["data"].as_str().unwrap_or_default())?;
        for key in ["name", "short_name", "description", "display", "background_color", "theme_color"] {
            assert!(manifest[key].as_str().is_some_and(|text| !text.is_empty()), "{key} in {manifest}");
        }
        for key in ["start_url", "scope"] {
            assert!(manifest[key].as_str().is_some_and(|path| path.starts_with("./")), "{key} holds below any path");
        }
        let icons = manifest["icons"].as_array().cloned().unwrap_or_default();
        assert!(!icons.is_empty());
        for icon in icons {
            let script = format!(
                "const icon = new Image(); icon.src = new URL({}, document.querySelector('link[rel=manifest]').href).href; \
                 await icon.decode(); return icon.naturalWidth * icon.naturalHeight;",
                icon["src"]
            );
            assert!(page.ask(&script).await?.as_f64() > Some(0.0), "{icon}");
        }
        // Opened from the home screen it starts within its own scope, and it is there without signal.
        page.stop_server();
        forgive_silence(&page);
        let start = manifest["start_url"].as_str().unwrap_or_default().to_owned();
        page.client().goto("about:blank").await?;
        page.client().goto(&format!("{}{}", page.url(), start.trim_start_matches("./"))).await?;
        page.wait_until("document.getElementById('shell') === null").await?;
        assert_answers(&page, "v=1").await?;
        Ok(())
    })
    .await
}
