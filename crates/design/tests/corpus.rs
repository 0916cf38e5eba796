//! Old links must stay readable for ever: every file of the corpus opens as it did when it was added.

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use holdwater_design::link::open;
use holdwater_design::parts::{PART_ROWS, PartInput, PartKind, key_of};
use holdwater_design::{Design, Input};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/data/links/v1")
}

fn value(design: &Design, input: Input) -> String {
    design.get(input).map_or_else(|| "left out".to_owned(), |number| number.to_string())
}

/// What a link opens as, one fact a line. Complaints are named by their key and not by their words,
/// since words may be improved while these files may not change.
fn describe(link: &str) -> String {
    let opened = open(link.trim_end());
    let mut text = String::new();
    if !opened.design.name().is_empty() {
        let _ = writeln!(text, "name = {}", opened.design.name());
    }
    for input in opened.design.changed() {
        let _ = writeln!(text, "{} = {}", input.row().key, value(&opened.design, input));
    }
    for (part, number) in opened.design.parts().iter().zip(1..) {
        for input in part.asked().filter(|input| *input == PartInput::Kind || !part.is_default(*input)) {
            let _ = writeln!(text, "{} = {}", key_of(number, input), part.text(input));
        }
    }
    for entry in opened.design.log() {
        let state = if entry.failed { "failed" } else { "whole" };
        let _ = writeln!(text, "log: {:?} {} {state}", entry.part, entry.cycles);
    }
    for complaint in &opened.complaints {
        let _ = writeln!(text, "complaint about {:?}", complaint.key());
    }
    for remark in &opened.remarks {
        let _ = writeln!(text, "remark {remark:?}");
    }
    text
}

/// A link without its expected design gets one written and fails once, so that somebody reads it.
#[test]
fn every_link_of_the_corpus_opens_as_expected() {
    let mut links: Vec<PathBuf> =
        fs::read_dir(folder()).into_iter().flatten().flatten().map(|entry| entry.path()).collect();
    links.retain(|path| path.extension().is_some_and(|extension| extension == "link"));
    links.sort();
    assert!(links.len() >= 12, "the corpus is missing");

    let mut disagreeing = String::new();
    for path in links {
        let actual = describe(&fs::read_to_string(&path).unwrap_or_default());
        let expected_path = path.with_extension("expected");
        match fs::read_to_string(&expected_path) {
            Ok(expected) if expected == actual => {}
            Ok(expected) => {
                let _ = writeln!(disagreeing, "{}\nexpected:\n{expected}actual:\n{actual}", path.display());
            }
            Err(_) => {
                let written = fs::write(&expected_path, &actual).is_ok();
                let _ = writeln!(disagreeing, "{} is new; expected file written: {written}", path.display());
            }
        }
    }
    assert!(disagreeing.is_empty(), "{disagreeing}");
}

/// Links leave defaults out, so a default that moves would silently change what old links mean.
#[test]
fn the_defaults_that_links_of_version_1_leave_out_have_not_moved() {
    let path = folder().join("defaults.txt");
    let frozen = fs::read_to_string(&path).unwrap_or_default();
    let design = Design::default();
    for input in Input::ALL {
        let line = format!("{} = {}", input.row().key, value(&design, input));
        assert!(frozen.lines().any(|frozen| frozen == line), "defaults.txt lacks or contradicts: {line}");
    }
    assert_eq!(frozen.lines().count(), Input::COUNT, "defaults.txt has a key that the table lost");
}

/// The same for the parts: what a kind is given where a link says nothing, and the words.
#[test]
fn the_defaults_of_parts_that_links_of_version_1_leave_out_have_not_moved() {
    let path = folder().join("defaults-of-parts.txt");
    let frozen = fs::read_to_string(&path).unwrap_or_default();
    let mut now = String::new();
    for (kind, row) in PartKind::ALL.into_iter().flat_map(|kind| PART_ROWS.iter().map(move |row| (kind, row))) {
        let part = holdwater_design::parts::VesselPart::new(kind);
        if part.asks(row.input) && row.input != PartInput::Kind {
            let _ = writeln!(now, "{}.{} = {}", kind.word().word, row.key, part.text(row.input));
        }
    }
    for row in &PART_ROWS {
        for word in row.input.words() {
            let _ = writeln!(now, "word of {} = {}", row.key, word.word);
        }
    }
    if frozen.is_empty() {
        assert!(fs::write(&path, &now).is_ok(), "cannot write");
    }
    for line in frozen.lines() {
        assert!(now.lines().any(|now| now == line), "a default or word has moved: {line}");
    }
    for line in now.lines() {
        assert!(frozen.lines().any(|frozen| frozen == line), "defaults-of-parts.txt lacks: {line}");
    }
}
