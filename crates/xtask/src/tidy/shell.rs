//! What the page's own rules forbid, found before a browser has to refuse it.

use std::path::Path;

use crate::Outcome;
use crate::workspace::{files_below, read, relative};

/// Checks `index.html` and the views of the page.
pub fn check(root: &Path) -> Outcome<Vec<String>> {
    let index = read(&root.join("index.html"))?;
    let mut complaints = complaints_about_optimising(&index);
    complaints.extend(inline_styles("index.html", &index));
    for file in files_below(&root.join("crates/app/src"))? {
        complaints.extend(inline_styles(&relative(root, &file), &read(&file)?));
    }
    Ok(complaints)
}

/// Left to itself, trunk looks for a wasm-opt on PATH, and some of those break the page silently.
fn complaints_about_optimising(index: &str) -> Vec<String> {
    let is_program = |tag: &&str| tag.contains("data-trunk") && tag.contains("rel=\"rust\"");
    index
        .split('<')
        .filter(is_program)
        .filter(|tag| !tag.contains("data-wasm-opt=\"0\""))
        .map(|_| {
            "index.html: every rust link needs data-wasm-opt=\"0\", because `cargo xtask \
             finish-dist` runs the one wasm-opt that is known to work"
                .to_owned()
        })
        .collect()
}

/// The page's security policy drops `style` attributes without an error in any test.
fn inline_styles(path: &str, text: &str) -> Vec<String> {
    let is_inline = |line: &str| {
        let code = line.trim_start();
        let names_attribute = code.starts_with("style=") || code.contains(" style=");
        !code.starts_with("//") && (names_attribute || code.contains("(\"style\""))
    };
    text.lines()
        .enumerate()
        .filter(|(_, line)| is_inline(line))
        .map(|(index, _)| format!("{path}:{}: use a class or `style:property=`", index + 1))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn trunk_is_told_not_to_optimise() {
        let good = r#"<link data-trunk rel="css"><link data-trunk rel="rust" data-wasm-opt="0">"#;
        assert!(complaints_about_optimising(good).is_empty());
        let bad = r#"<link data-trunk rel="rust" data-wasm-opt="z">"#;
        assert_eq!(complaints_about_optimising(bad).len(), 1);
    }

    #[test]
    fn style_attributes_are_found_and_style_properties_are_not() {
        let view = "<p style=\"x\">\n<p\n  style=move || x>\n<p style:width=x>\n// style=x\n";
        let found = inline_styles("view.rs", view);
        assert_eq!(found.len(), 2, "{found:?}");
        assert!(found[0].starts_with("view.rs:1:") && found[1].starts_with("view.rs:3:"));
        assert_eq!(inline_styles("a.rs", "node.set_attribute(\"style\", x)").len(), 1);
    }
}
