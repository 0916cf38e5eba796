//! The table of inputs as a page to read.

use core::fmt::Write as _;

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
            "# Inputs\n\nMade from the table in `src/rows.rs` by a test; do not edit.\n\
             A link leaves out every value that equals its default.\n\n{}",
            documentation()
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
    }
}
