//! The weight of the page: what a first visit transfers, compressed as a good host compresses it.

use std::path::Path;

use crate::workspace::{files_below, read_bytes, relative};
use crate::{Outcome, run};

/// The budget in bytes: about three seconds on the slow connection of a launch site.
pub const BUDGET_BYTES: usize = 257_000;

/// The entry from which everything else of a first visit is found.
const ENTRY: &str = "index.html";

/// A file of `dist/`.
#[derive(Debug)]
struct File {
    /// Its path inside `dist/`, with forward slashes.
    path: String,
    content: Vec<u8>,
    /// Whether a first visit loads it.
    on_first_visit: bool,
}

/// Prints a table of the files in `dist` and fails if a first visit transfers too much.
pub fn check(dist: &Path) -> Outcome {
    let mut files = Vec::new();
    for path in files_below(dist)? {
        let content = read_bytes(&path)?;
        files.push(File { path: relative(dist, &path), content, on_first_visit: false });
    }
    mark_first_visit(&mut files)?;
    let total = run::timed("weighing the page", || Ok(print_table(&files)))?;
    if total > BUDGET_BYTES {
        return Err(format!(
            "a first visit transfers {total} bytes, {} more than the budget allows",
            total - BUDGET_BYTES
        ));
    }
    Ok(())
}

/// A file is loaded on a first visit if `index.html`, or a text that is itself loaded, names it.
fn mark_first_visit(files: &mut [File]) -> Outcome {
    let Some(entry) = files.iter().position(|file| file.path == ENTRY) else {
        return Err(format!("the build left no {ENTRY}"));
    };
    let mut to_read = vec![entry];
    files[entry].on_first_visit = true;
    while let Some(reading) = to_read.pop() {
        if !is_text(&files[reading].path) {
            continue;
        }
        let text = String::from_utf8_lossy(&files[reading].content).into_owned();
        for (index, file) in files.iter_mut().enumerate() {
            if !file.on_first_visit && names(&text, &file.path) {
                file.on_first_visit = true;
                to_read.push(index);
            }
        }
    }
    Ok(())
}

fn is_text(path: &str) -> bool {
    [".html", ".js", ".css", ".webmanifest"].iter().any(|ending| path.ends_with(ending))
}

/// Whether a text holds a path as a word of its own: `app.js` is not named by `my-app.js`.
fn names(text: &str, path: &str) -> bool {
    text.match_indices(path)
        .any(|(start, _)| !text[..start].ends_with(|before: char| before.is_alphanumeric() || "-_".contains(before)))
}

fn print_table(files: &[File]) -> usize {
    println!("{:>9} {:>9}  file", "bytes", "brotli");
    let mut total = 0;
    for file in files {
        let compressed = compressed_size(&file.content);
        let note = if file.on_first_visit { "" } else { "  (not on a first visit)" };
        println!("{:>9} {compressed:>9}  {}{note}", file.content.len(), file.path);
        if file.on_first_visit {
            total += compressed;
        }
    }
    println!("{:>9} {total:>9}  first visit, of {BUDGET_BYTES} allowed", "");
    total
}

/// The size after brotli, or as it is if compressing makes it larger.
fn compressed_size(content: &[u8]) -> usize {
    compressed(content).map_or(content.len(), |smaller| smaller.len())
}

/// A content after brotli with quality 11; `None` if that does not make it smaller.
#[must_use]
pub fn compressed(content: &[u8]) -> Option<Vec<u8>> {
    let parameters = brotli::enc::BrotliEncoderParams { quality: 11, ..Default::default() };
    let mut compressed = Vec::new();
    // Writing to memory does not fail; if it ever does, the full size errs on the safe side.
    brotli::BrotliCompress(&mut &content[..], &mut compressed, &parameters).ok()?;
    (compressed.len() < content.len()).then_some(compressed)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(path: &str, content: &str) -> File {
        File { path: path.to_owned(), content: content.into(), on_first_visit: false }
    }

    #[test]
    fn a_first_visit_loads_what_is_named_and_what_that_names() {
        let mut files = [
            file("boot.js", "import('./app.js')"),
            file("index.html", "<script src=./boot.js></script>"),
            file("app.js", "app_bg.wasm"),
            file("app_bg.wasm", "binary text naming later.js"),
            file("later.js", ""),
            file("p.js", ""),
        ];
        mark_first_visit(&mut files).unwrap();
        let loaded: Vec<_> = files.iter().filter(|file| file.on_first_visit).map(|file| &file.path).collect();
        assert_eq!(loaded, ["boot.js", "index.html", "app.js", "app_bg.wasm"]);
    }

    #[test]
    fn a_build_without_an_entry_is_an_error() {
        assert!(mark_first_visit(&mut [file("boot.js", "")]).is_err());
    }

    #[test]
    fn repetition_is_compressed_away() {
        assert!(compressed_size("water ".repeat(1000).as_bytes()) < 100);
        assert_eq!(compressed_size(b"x"), 1);
    }
}
