//! Physics knows nobody, design knows physics, and only the page knows the browser.

use std::path::Path;

use serde_json::Value;

use crate::{Outcome, run};

/// Crates that may depend on these and on nothing else.
const ALLOWED: [(&str, &[&str]); 2] =
    [("holdwater-physics", &["libm"]), ("holdwater-design", &["holdwater-physics", "serde", "serde_urlencoded"])];

/// What ties a crate to the browser.
const OF_THE_BROWSER: [&str; 5] = ["leptos", "wasm-bindgen", "web-sys", "js-sys", "plotters-canvas"];

/// The one crate that may be tied to it.
const PAGE: &str = "holdwater-app";

/// Checks what every crate of the workspace declares; tests and benches may use what they like.
pub fn check(root: &Path) -> Outcome<Vec<String>> {
    let metadata =
        run::output(run::cargo().current_dir(root).args(["metadata", "--no-deps", "--format-version", "1"]))?;
    let metadata: Value =
        serde_json::from_str(&metadata).map_err(|error| format!("cargo metadata cannot be read: {error}"))?;
    let packages = metadata["packages"].as_array().ok_or("cargo metadata names no packages")?;
    Ok(packages.iter().flat_map(complaints).collect())
}

fn complaints(package: &Value) -> Vec<String> {
    let name = package["name"].as_str().unwrap_or_default();
    let dependencies = package["dependencies"].as_array().map(Vec::as_slice).unwrap_or_default();
    dependencies
        .iter()
        .filter(|dependency| dependency["kind"].as_str() != Some("dev"))
        .filter_map(|dependency| dependency["name"].as_str())
        .filter_map(|dependency| complaint(name, dependency))
        .collect()
}

fn complaint(package: &str, dependency: &str) -> Option<String> {
    if package != PAGE && OF_THE_BROWSER.contains(&dependency) {
        return Some(format!("{package} depends on {dependency}, but only {PAGE} may"));
    }
    let (_, allowed) = ALLOWED.iter().find(|(name, _)| *name == package)?;
    (!allowed.contains(&dependency))
        .then(|| format!("{package} depends on {dependency}, but may only on {}", allowed.join(", ")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_direction_of_dependencies_is_kept() {
        assert_eq!(complaint("holdwater-physics", "libm"), None);
        assert_eq!(complaint("holdwater-app", "leptos"), None);
        assert!(complaint("holdwater-physics", "serde").is_some());
        assert!(complaint("holdwater-design", "serde_json").is_some());
        assert!(complaint("holdwater-answers", "web-sys").is_some());
    }

    #[test]
    fn dependencies_of_tests_are_free() {
        let package = serde_json::json!({ "name": "holdwater-physics", "dependencies": [
            { "name": "proptest", "kind": "dev" }, { "name": "rand", "kind": null },
        ]});
        let complaints = complaints(&package);
        assert_eq!(complaints.len(), 1, "{complaints:?}");
        assert!(complaints[0].contains("rand"), "{complaints:?}");
    }
}
