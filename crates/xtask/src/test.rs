//! `test`: every check there is, fast ones first, and a summary that a machine can read.

use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode};
use std::time::Instant;

use crate::browser::Browser;
use crate::engines::{self, Engine};
use crate::setup::{BuildTools, Lighthouse, WASM_TARGET};
use crate::tally::{Tally, tests};
use crate::{Outcome, build, lighthouse, run, setup, tidy, workspace};

/// One named check.
struct Step {
    name: &'static str,
    what: &'static str,
    check: fn(&Ground) -> Outcome<Tally>,
}

/// What the checks stand on.
///
/// A set-up that failed is kept as an error, so that the checks that need nothing still run.
struct Ground {
    root: PathBuf,
    tools: Outcome<BuildTools>,
    browser: Outcome<Browser>,
    lighthouse: Outcome<Lighthouse>,
    /// Whether building the page failed in this run: an older page must not be tested instead.
    page_failed: bool,
}

const STEPS: [Step; 11] = [
    Step { name: "fmt", what: "the code is formatted", check: fmt },
    Step { name: "tidy", what: "the rules of the house", check: tidy_check },
    Step { name: "clippy", what: "lints, for this machine", check: clippy },
    Step { name: "clippy-wasm", what: "lints, for the browser", check: clippy_wasm },
    Step { name: "native", what: "tests on this machine", check: native },
    Step { name: "wasm", what: "the same bits in wasm as on this machine", check: wasm },
    Step { name: "page", what: "the page builds and is light", check: page },
    Step { name: "browser", what: "the built page in a browser", check: browser },
    Step { name: "firefox", what: "the built page in Firefox", check: firefox },
    Step { name: "webkit", what: "the built page in WebKit", check: webkit },
    Step { name: "lighthouse", what: "the built page as Lighthouse judges it", check: judged },
];

/// The steps that run only when they are named, because they take minutes and more than a browser.
const ON_DEMAND: [&str; 3] = ["firefox", "webkit", "lighthouse"];

/// Runs all steps but those on demand, or those that are named.
///
/// The last line it prints is `N passed, N failed`.
pub fn test(root: &Path, names: &[String]) -> Outcome<ExitCode> {
    if let Some(unknown) = names.iter().find(|name| STEPS.iter().all(|step| step.name != **name)) {
        let known: Vec<_> = STEPS.iter().map(|step| step.name).collect();
        return Err(format!("there is no step `{unknown}`; there are: {}", known.join(", ")));
    }
    let is_chosen = |step: &&Step| match names {
        [] => !ON_DEMAND.contains(&step.name),
        names => names.iter().any(|name| name == step.name),
    };
    let chosen: Vec<_> = STEPS.iter().filter(is_chosen).collect();
    let mut ground = prepare(root, &chosen);

    let mut total = Tally::default();
    let mut summary = String::new();
    for step in chosen {
        println!("\n== {}: {}", step.name, step.what);
        let start = Instant::now();
        let tally = (step.check)(&ground).unwrap_or_else(|message| {
            println!("{message}");
            Tally { passed: 0, failed: 1 }
        });
        ground.page_failed |= step.name == "page" && tally.failed > 0;
        total.add(tally);
        summary += &summary_line(step, tally, start.elapsed().as_secs_f64());
    }
    println!("\n== summary\n{summary}");
    println!("{} passed, {} failed", total.passed, total.failed);
    Ok(if total.failed == 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE })
}

fn summary_line(step: &Step, tally: Tally, seconds: f64) -> String {
    let verdict = match tally {
        Tally { failed: 0, passed: 0 } => "skipped",
        Tally { failed: 0, .. } => "ok",
        _ => "FAILED",
    };
    let Tally { passed, failed } = tally;
    format!("{verdict:<8} {:<12} {passed:>5} ok {failed:>4} bad {seconds:>7.1} s\n", step.name)
}

/// Sets up only what the chosen steps need: formatting alone must not install a browser.
fn prepare(root: &Path, chosen: &[&Step]) -> Ground {
    println!("== set-up");
    let needs = |names: &[&str]| chosen.iter().any(|step| names.contains(&step.name));
    let unused = "this step was run without its set-up";
    let mut ground = Ground {
        root: root.to_path_buf(),
        tools: Err(unused.to_owned()),
        browser: Err(unused.to_owned()),
        lighthouse: Err(unused.to_owned()),
        page_failed: false,
    };
    if needs(&["clippy-wasm", "wasm", "page"]) {
        ground.tools = setup::for_building(root);
    }
    if needs(&["browser"]) {
        ground.browser = setup::for_browser_tests();
    }
    if needs(&["lighthouse"]) {
        ground.lighthouse = setup::for_lighthouse();
    }
    ground
}

fn cargo(ground: &Ground, arguments: &str) -> Command {
    let mut cargo = run::cargo();
    cargo.current_dir(&ground.root).args(arguments.split_whitespace());
    cargo
}

fn fmt(ground: &Ground) -> Outcome<Tally> {
    run::run(&mut cargo(ground, "fmt --all --check")).map(|()| Tally::ONE)
}

fn tidy_check(ground: &Ground) -> Outcome<Tally> {
    tidy::tidy(&ground.root).map(|()| Tally::ONE)
}

fn clippy(ground: &Ground) -> Outcome<Tally> {
    let arguments = "clippy --quiet --workspace --all-targets --features acceptance/browser \
                     -- -D warnings";
    run::run(&mut cargo(ground, arguments)).map(|()| Tally::ONE)
}

fn clippy_wasm(ground: &Ground) -> Outcome<Tally> {
    ground.tools.as_ref().map_err(String::clone)?;
    let arguments = format!("clippy --quiet -p holdwater-app --target {WASM_TARGET} -- -D warnings");
    run::run(&mut cargo(ground, &arguments)).map(|()| Tally::ONE)
}

/// The browser tests are behind a feature of their package and are not among these.
fn native(ground: &Ground) -> Outcome<Tally> {
    tests(&mut cargo(ground, "test --workspace --no-fail-fast"))
}

fn wasm(ground: &Ground) -> Outcome<Tally> {
    let tools = ground.tools.as_ref().map_err(String::clone)?;
    if run::find_on_path("node").is_none() {
        println!("SKIPPED: tests compiled to wasm run in node, which is not installed here");
        return Ok(Tally::default());
    }
    let arguments = format!("test --target {WASM_TARGET} -p holdwater-answers --test bits");
    let runner = "CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUNNER";
    tests(cargo(ground, &arguments).env(runner, &tools.wasm_test_runner))
}

fn page(ground: &Ground) -> Outcome<Tally> {
    let tools = ground.tools.as_ref().map_err(String::clone)?;
    build::release(&ground.root, tools).map(|()| Tally::ONE)
}

fn browser(ground: &Ground) -> Outcome<Tally> {
    ground.browser.as_ref().map_err(String::clone)?;
    page_stands(ground)?;
    tests(&mut browser_tests(ground, Engine::Chromium))
}

fn page_stands(ground: &Ground) -> Outcome {
    if ground.page_failed { Err("not run, because the page was not built".to_owned()) } else { Ok(()) }
}

fn firefox(ground: &Ground) -> Outcome<Tally> {
    in_engine(ground, Engine::Firefox)
}

fn webkit(ground: &Ground) -> Outcome<Tally> {
    in_engine(ground, Engine::WebKit)
}

/// The browser tests in another engine, and which of them it cannot do.
fn in_engine(ground: &Ground, engine: Engine) -> Outcome<Tally> {
    setup::for_engine(engine)?;
    page_stands(ground)?;
    let file = engines::skipped_file(engine)?;
    workspace::write(&file, b"")?;
    let mut tally = tests(&mut browser_tests(ground, engine))?;
    let skipped = workspace::read(&file)?;
    let ended_early = skipped.lines().filter(|line| line.starts_with("SKIPPED"));
    let count = u32::try_from(ended_early.count()).unwrap_or(u32::MAX);
    println!("{skipped}{count} tests want what {} cannot do and were left out from there on", engine.name());
    // Cargo counts them as passed.
    tally.passed = tally.passed.saturating_sub(count);
    Ok(tally)
}

fn browser_tests(ground: &Ground, engine: Engine) -> Command {
    let arguments = "test -p acceptance --features browser --lib --test harness --test browser \
                     --no-fail-fast";
    let mut tests = cargo(ground, arguments);
    // Every test starts a browser of its own; more than two at once only make each other slow.
    tests.env("RUST_TEST_THREADS", "2").env(engines::VARIABLE, engine.name());
    tests
}

fn judged(ground: &Ground) -> Outcome<Tally> {
    let tools = ground.lighthouse.as_ref().map_err(String::clone)?;
    page_stands(ground)?;
    lighthouse::judge(&ground.root, tools).map(|()| Tally::ONE)
}
