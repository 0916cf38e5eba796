//! The page before its program runs, and when it cannot.

use std::path::PathBuf;

use acceptance::harness::{Outcome, dist, phone, visit};
use xtask::workspace;

/// A copy of the built page without its program; it goes when the test ends.
struct WithoutProgram(PathBuf);

impl WithoutProgram {
    fn new() -> Outcome<Self> {
        let folder = std::env::temp_dir().join(format!("holdwater-shell-{}", std::process::id()));
        let dist = dist()?;
        for file in workspace::files_below(&dist)? {
            if file.extension().is_none_or(|extension| extension != "wasm") {
                workspace::write(&folder.join(workspace::relative(&dist, &file)), &workspace::read_bytes(&file)?)?;
            }
        }
        Ok(Self(folder))
    }
}

impl Drop for WithoutProgram {
    fn drop(&mut self) {
        // What stays in the temporary folder is cleared away by the system.
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

#[tokio::test]
async fn a_program_that_does_not_arrive_leaves_a_notice_with_the_link_and_a_way_to_reload() -> Outcome {
    let site = WithoutProgram::new()?;
    visit(phone(), &site.0, |page| async move {
        page.forgive("404");
        page.forgive("boot.js");
        page.forgive("_bg.wasm did not load");
        page.open_fragment("v=1&delay=0.4").await?;
        page.wait_until("!document.getElementById('crash').hidden").await?;
        let link = page.evaluate("document.getElementById('crash-link').value").await?;
        assert_eq!(link, format!("{}#v=1&delay=0.4", page.url()));
        page.screenshot("phone-crash").await?;
        page.evaluate("window.before = true").await?;
        page.tap("#crash-again").await?;
        page.wait_until("window.before === undefined").await?;
        assert_eq!(page.fragment().await?, "v=1&delay=0.4", "the design outlives the reload");
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_browser_without_webassembly_gets_the_notice_with_the_link() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        page.forgive("WebAssembly");
        page.forgive("boot.js");
        page.before_all("delete window.WebAssembly;").await?;
        page.open_fragment("v=1&delay=0.4").await?;
        page.wait_until("!document.getElementById('crash').hidden").await?;
        let link = page.evaluate("document.getElementById('crash-link').value").await?;
        assert_eq!(link, format!("{}#v=1&delay=0.4", page.url()));
        Ok(())
    })
    .await
}

/// Runs a program of a few bytes that stops at once, as the page's own would at a mistake of ours.
///
/// It belongs to the page: what a driver runs has a world of its own in Firefox, and its errors are not the page's.
const STOP: &str =
    "window.stopProgram = () => setTimeout(() => new WebAssembly.Instance(new WebAssembly.Module(new Uint8Array(
    [0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 2, 1, 0, 8, 1, 0, 10, 5, 1, 3, 0, 0, 11]))));";

#[tokio::test]
async fn a_program_that_stops_leaves_the_notice_with_the_link_and_says_where() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        page.forgive("unreachable");
        page.forgive("Unreachable");
        page.before_all(STOP).await?;
        page.open_fragment("v=1&delay=0.4").await?;
        page.wait_until("document.getElementById('shell') === null").await?;
        page.evaluate("dispatchEvent(new ErrorEvent('error', { error: new Error('not of the program') }))").await?;
        assert_eq!(page.evaluate("document.getElementById('crash').hidden").await?, true, "errors of others");
        page.evaluate("stopProgram() > 0").await?;
        page.wait_until("!document.getElementById('crash').hidden").await?;
        let link = page.evaluate("document.getElementById('crash-link').value").await?;
        assert_eq!(link, format!("{}#v=1&delay=0.4", page.url()));
        let why = page.evaluate("document.getElementById('crash-why').textContent").await?;
        let why = why.as_str().unwrap_or_default();
        assert!(why.starts_with("For a report: ") && why.contains("wasm-function["), "{why}");
        Ok(())
    })
    .await
}

#[test]
fn without_scripts_the_page_says_what_it_needs_and_it_holds_no_inline_script() -> Outcome {
    let page = workspace::read(&dist()?.join("index.html"))?;
    let (_, after) = page.split_once("<noscript>").ok_or("there is no noscript")?;
    let (words, _) = after.split_once("</noscript>").ok_or("the noscript does not end")?;
    assert!(words.contains("Allow JavaScript"), "{words}");
    for (start, _) in page.match_indices("<script") {
        let tag = page[start..].split('>').next().unwrap_or_default();
        assert!(tag.contains("src="), "an inline script: {tag}");
    }
    assert!(!page.contains("<style") && !page.contains(" style="), "an inline style");
    assert!(page.contains("Content-Security-Policy") && !page.contains("unsafe-inline"));
    Ok(())
}
