//! `build`: the page as it is published, in `dist/`, and its weight.

use std::path::Path;
use std::process::Command;

use crate::setup::BuildTools;
use crate::{Outcome, run, setup, tidy, weight};

/// Sets up, builds and weighs the page.
pub fn build(root: &Path) -> Outcome {
    let tools = setup::for_building(root)?;
    release(root, &tools)
}

/// Builds and weighs the page with tools that are there.
pub fn release(root: &Path, tools: &BuildTools) -> Outcome {
    // Trunk would otherwise ask for a wasm-opt of its own, or take one that breaks the page.
    let complaints = tidy::shell::check(root)?;
    if !complaints.is_empty() {
        return Err(complaints.join("\n"));
    }
    run::timed("building the page", || run::run(trunk(root, tools)?.args(["build", "--release"])))?;
    weight::check(&root.join("dist"))
}

/// Trunk in the root of the workspace, with our tools in front of the system's.
pub fn trunk(root: &Path, tools: &BuildTools) -> Outcome<Command> {
    let mut trunk = Command::new(&tools.trunk);
    trunk.current_dir(root).env("PATH", run::path_with(&tools.path)?);
    // Messages of a stopped program name source files; without this they would name folders of the machine that built it.
    let mut flags = format!("--remap-path-prefix={}=.", root.display());
    if let Some(home) = std::env::home_dir() {
        let cargo_home = std::env::var_os("CARGO_HOME").map_or_else(|| home.join(".cargo"), Into::into);
        flags += &format!(" --remap-path-prefix={}=cargo", cargo_home.display());
    }
    trunk.env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUSTFLAGS", flags);
    // Trunk takes NO_COLOR=1, which many people set, for a value it cannot read.
    trunk.env_remove("NO_COLOR");
    Ok(trunk)
}
