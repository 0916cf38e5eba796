//! The table of inputs as a page to read.

use core::fmt::Write as _;

use crate::parts::{Asked, Form, MOST_PARTS, PART_ROWS, PartKind, PartRow};
use crate::rows::ROWS;
use crate::table::{Row, Tolerance};

/// The table of inputs as Markdown, made from the rows so that it cannot fall behind them.
#[must_use]
pub fn documentation() -> String {
    let mut page = String::from(
        "| Key | Input | Asked at | Unit | Range | Default | 1 sd | What it is |\n\
         | --- | --- | --- | --- | --- | --- | --- | --- |\n",
    );
    for row in &ROWS {
        // Writing into a string cannot fail.
        let _ = writeln!(
            page,
            "| `{}` | {} | {} | {} | {} | {} | {} | {} |",
            row.key,
            row.label,
            row.part.title(),
            row.unit.symbol(),
            bounds(row),
            row.default().map_or_else(String::new, |value| value.to_string()),
            tolerance(row),
            row.help,
        );
    }
    page
}

/// The table of the inputs of vessel parts as Markdown, made from its rows likewise.
#[must_use]
pub fn part_documentation() -> String {
    let mut page = String::from(
        "| Key | Input | Asked of | Unit | Allowed | Default | What it is |\n\
         | --- | --- | --- | --- | --- | --- | --- |\n",
    );
    for row in &PART_ROWS {
        let (unit, allowed) = match row.form {
            Form::Number(facts, _) => (facts.unit.symbol(), format!("{} to {}", facts.min, facts.max)),
            Form::Words(..) | Form::Text(_) => ("", row.input.allowed()),
        };
        let (asked, default) = (asked(row), part_defaults(row));
        // Writing into a string cannot fail.
        let _ = writeln!(
            page,
            "| `p1.{}` | {} | {asked} | {unit} | {allowed} | {default} | {} |",
            row.key, row.label, row.help
        );
    }
    page
}

fn kinds(kinds: &[PartKind]) -> String {
    kinds.iter().map(|kind| kind.word().word).collect::<Vec<_>>().join(", ")
}

fn asked(row: &PartRow) -> String {
    match row.asked {
        Asked::OfAll => "all".to_owned(),
        Asked::Of(some) => kinds(some),
        Asked::OfOwnMaterial => "mat=own".to_owned(),
    }
}

/// The default, and those of kinds that have another one.
fn part_defaults(row: &PartRow) -> String {
    let (first, others): (String, Vec<String>) = match row.form {
        Form::Text(_) => (String::new(), Vec::new()),
        Form::Words(words, start, others) => {
            let word = |place: usize| words.get(place).map(|word| word.word).unwrap_or_default();
            (
                word(start).to_owned(),
                others.iter().map(|(of, place)| format!("{}: {}", of.word().word, word(*place))).collect(),
            )
        }
        Form::Number(facts, others) => (
            facts.default().map_or_else(String::new, |value| value.to_string()),
            others.iter().map(|(of, value)| format!("{}: {value}", of.word().word)).collect(),
        ),
    };
    [vec![first], others].concat().join("; ")
}

/// What is said about parts and log above their table.
#[must_use]
pub fn part_words() -> String {
    format!(
        "Parts that hold the pressure are `p1.` to `p{MOST_PARTS}.`, and `p1.kind` makes the first one. What is asked depends on the kind. \
         A link leaves out every other value that equals the default of the kind.\n\n\
         `log` holds what became of like parts: rows of name, fills and `f` (failed) or `w` (whole), joined by `;`, such as \
         `A,84,f;B,120,w`. A row whose name is the word of a kind counts for that kind alone, all others for every kind without rows of its own.\n"
    )
}

/// The range without unit, which has its own column.
fn bounds(row: &Row) -> String {
    format!("{} to {}", row.min, row.max)
}

fn tolerance(row: &Row) -> String {
    match row.tolerance {
        Tolerance::Exact => "exact".to_owned(),
        Tolerance::Absolute(amount) => row.unit.show(amount),
        Tolerance::Share(share) => format!("{} %", share * 100.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rewrites the page when it was stale and fails once, so that the change is seen and committed.
    #[test]
    fn the_committed_page_of_inputs_is_up_to_date() {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/INPUTS.md");
        let page = format!(
            "# Inputs\n\nMade from the tables in `src/rows.rs` and `src/parts/rows.rs` by a test; do not edit.\n\
             A link leaves out every value that equals its default.\n\n{}\n## Vessel parts\n\n{}\n{}",
            documentation(),
            part_words(),
            part_documentation()
        );
        let committed = std::fs::read_to_string(path).unwrap_or_default();
        if committed != page {
            assert!(std::fs::write(path, &page).is_ok(), "cannot write {path}");
        }
        assert!(committed == page, "INPUTS.md was stale; it has been rewritten, commit it");
    }

    #[test]
    fn every_line_of_the_table_has_the_same_number_of_columns() {
        for line in documentation().lines() {
            assert_eq!(line.matches('|').count(), 9, "{line}");
        }
        for line in part_documentation().lines() {
            assert_eq!(line.matches('|').count(), 8, "{line}");
        }
    }
}
