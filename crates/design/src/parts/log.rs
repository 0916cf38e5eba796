//! What became of parts like these: the log from which the life is fitted, as a design keeps it.
//!
//! [`crate::log`] reads what people type; here it is brought into the one form that a link holds: `name,cycles,f` or `name,cycles,w`, joined by `;`.

use holdwater_physics::age::fit::{LEAST_CYCLES, LogRow};

use crate::log::{MOST_CYCLES, PartLog};
use crate::text::disturbs;

/// Longest log in a link, in characters after encoding.
pub const LOG_LIMIT: usize = 6_000;

/// Most characters of a name in the log.
const NAME_LIMIT: usize = 40;

/// One part of the log.
#[derive(Clone, Debug, PartialEq)]
pub struct LogEntry {
    /// Its name; the word of a kind (`splice`) makes it count for parts of that kind alone.
    pub part: String,
    /// Fills it has seen, at the pressure of now.
    pub cycles: f64,
    /// Whether it failed there; otherwise it was whole when last looked at.
    pub failed: bool,
}

impl LogEntry {
    /// As the physics takes it.
    #[must_use]
    pub fn row(&self) -> LogRow {
        LogRow { cycles: self.cycles, failed: self.failed }
    }
}

impl PartLog {
    /// The rows as a design takes them.
    #[must_use]
    pub fn entries(&self) -> Vec<LogEntry> {
        let entry =
            |row: &crate::log::PartRow| LogEntry { part: row.part.clone(), cycles: row.cycles, failed: row.failed };
        self.rows.iter().map(entry).collect()
    }
}

/// What a design took of a log.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Taken {
    pub entries: Vec<LogEntry>,
    /// Rows that were left out because the log would be too long for a link, or because their cycles are none.
    pub left_out: usize,
}

/// The part of a log that a link can hold, in the form in which it comes back from there unchanged.
pub(crate) fn cleaned(entries: &[LogEntry]) -> Taken {
    let (mut taken, mut length) = (Taken::default(), 0);
    for entry in entries {
        let entry = LogEntry { part: clean_name(&entry.part), ..*entry };
        let longer = length + encoded_length(&written(&entry)) + encoded_length(";");
        // Whatever follows a row that does not fit is left out too: a log with gaps in it would mislead.
        let fits = longer <= LOG_LIMIT && taken.left_out == 0;
        if fits && (LEAST_CYCLES..=MOST_CYCLES).contains(&entry.cycles) {
            length = longer;
            taken.entries.push(entry);
        } else {
            taken.left_out += 1;
        }
    }
    taken
}

/// A name without what separates fields and rows, begins a remark, or breaks a line.
fn clean_name(name: &str) -> String {
    let separates = |c: char| matches!(c, ',' | ';' | '"') || disturbs(c);
    let kept: String = name.chars().map(|c| if separates(c) { ' ' } else { c }).collect();
    let start = kept.trim_start_matches(|c: char| c.is_whitespace() || c == '#' || c == '\u{feff}');
    let cut: String = start.chars().take(NAME_LIMIT).collect();
    cut.trim_end().to_owned()
}

fn written(entry: &LogEntry) -> String {
    let state = if entry.failed { "f" } else { "w" };
    match entry.part.as_str() {
        "" => format!("{},{state}", entry.cycles),
        part => format!("{part},{},{state}", entry.cycles),
    }
}

/// All rows as the link holds them.
pub(crate) fn joined(entries: &[LogEntry]) -> String {
    entries.iter().map(written).collect::<Vec<_>>().join(";")
}

/// Characters of a text in a link.
fn encoded_length(text: &str) -> usize {
    text.bytes().map(|byte| if byte.is_ascii_alphanumeric() || b"-._".contains(&byte) { 1 } else { 3 }).sum()
}
