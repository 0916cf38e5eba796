//! Every key that the code cites stands in the list of sources, and every source is cited.

#![allow(clippy::expect_used, reason = "a panic is how a test fails")]

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use holdwater_physics::sources::{SOURCES, Seen};

/// All files of the crate but the list itself.
fn files_below(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("the folder can be read") {
        let path = entry.expect("the entry can be read").path();
        if path.is_dir() {
            files_below(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "rs") && !path.ends_with("sources.rs") {
            found.push(path);
        }
    }
}

/// Keys cited in the comments of a text: (`key`), of small letters, digits and underscores, with one digit or a known name at least.
fn cited(text: &str) -> Vec<String> {
    let comments: String = text
        .lines()
        .filter_map(|line| line.trim_start().strip_prefix("//"))
        .flat_map(|line| [line.trim_start_matches(['/', '!']), "\n"])
        .collect();
    let mut keys = Vec::new();
    for part in comments.split("(`").skip(1) {
        let Some((key, rest)) = part.split_once('`') else {
            continue;
        };
        let is_key = key.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_');
        if is_key && rest.starts_with([')', ' ']) {
            keys.push(key.to_owned());
        }
    }
    keys
}

/// Where each key is cited.
fn citations() -> BTreeMap<String, Vec<String>> {
    let mut files = Vec::new();
    files_below(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut files);
    assert!(files.len() > 15, "the sources of the crate were not found");
    let mut citations: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for file in files {
        let name = file.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        for key in cited(&fs::read_to_string(&file).expect("the file can be read")) {
            citations.entry(key).or_default().push(name.clone());
        }
    }
    citations
}

#[test]
fn property_every_key_cited_in_the_code_stands_in_the_list() {
    let unknown: Vec<_> =
        citations().into_iter().filter(|(key, _)| SOURCES.iter().all(|source| source.key != key)).collect();
    assert!(unknown.is_empty(), "cited but not listed: {unknown:?}");
}

#[test]
fn property_every_source_is_cited_somewhere() {
    let citations = citations();
    let idle: Vec<_> = SOURCES.iter().map(|source| source.key).filter(|key| !citations.contains_key(*key)).collect();
    assert!(idle.is_empty(), "listed but not cited: {idle:?}");
}

#[test]
fn property_the_list_is_in_order_and_complete() {
    assert!(SOURCES.windows(2).all(|pair| pair[0].key < pair[1].key), "by key, each once");
    for source in SOURCES {
        assert!((1900..2100).contains(&source.year), "{}", source.key);
        for text in [source.title, source.authors, source.locator] {
            assert!(text.len() > 4 && text.trim() == text, "{}: {text}", source.key);
        }
    }
    assert!(SOURCES.iter().any(|source| source.seen == Seen::Text));
}

#[test]
fn property_a_key_is_found_in_a_comment_and_nowhere_else() {
    let text = "/// Viana (`viana2003`); see [`froude`] (`Effort`).\nlet x = \"(`no2000`)\";\n//! (`a_1` for G)";
    assert_eq!(cited(text), ["viana2003", "a_1"]);
}
