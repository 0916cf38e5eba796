//! Reads a log of parts: what each has seen, and whether it failed.
//!
//! One part a line, `part, cycles, failed` or `part, cycles, whole`, typed by hand or saved by a spreadsheet. What cannot be read is
//! named with its line and left out; nothing here panics, and nothing grows beyond [`MOST_ROWS`] rows and [`MOST_COMPLAINTS`] complaints.

use core::fmt;

use holdwater_physics::age::fit::{LogRow, MOST_ROWS};

use crate::decimal;
use crate::text::quoted;

/// Longer texts are read up to here, bytes.
pub const MOST_BYTES: usize = 1_000_000;

/// More complaints are counted but not kept.
pub const MOST_COMPLAINTS: usize = 20;

/// More cycles than any part sees; such a number is a slip of the finger.
pub const MOST_CYCLES: f64 = 1e6;

/// Characters of a part's name that are kept.
const NAME_LENGTH: usize = 60;

/// Words for a part that has failed.
const FAILED: [&str; 18] = [
    "failed", "fail", "failure", "f", "burst", "bursted", "broken", "broke", "leak", "leaked", "leaks", "split",
    "dead", "1", "yes", "y", "true", "x",
];

/// Words for a part that was still whole when it was last looked at, in use or retired.
const WHOLE: [&str; 19] = [
    "whole",
    "w",
    "ok",
    "okay",
    "good",
    "intact",
    "alive",
    "survived",
    "survivor",
    "retired",
    "suspended",
    "censored",
    "c",
    "in use",
    "0",
    "no",
    "n",
    "false",
    "running",
];

/// One part of the log.
#[derive(Clone, Debug, PartialEq)]
pub struct PartRow {
    /// Line of the text, from 1.
    pub line: usize,
    /// The name of the part or of its kind; may be empty.
    pub part: String,
    /// Cycles it has seen.
    pub cycles: f64,
    /// Whether it failed there.
    pub failed: bool,
}

/// What is wrong with a line, or with the text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LogProblem {
    /// It does not have the two or three fields that are needed.
    Fields {
        /// How many it has.
        found: usize,
    },
    /// The cycles are no plain decimal number.
    NotANumber,
    /// The cycles are nought or less: a part that was never filled tells nothing.
    NotPositive,
    /// The cycles are more than any part sees.
    TooMany,
    /// The last word says neither that the part failed nor that it is whole.
    NeitherFailedNorWhole,
    /// There are more rows than are read: this line and all below it are left out.
    TooManyRows,
    /// The text is longer than is read: this line and all below it are left out.
    TooLong,
}

/// A line that was left out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LogComplaint {
    /// Line of the text, from 1.
    pub line: usize,
    /// What stands there: the field in question, or the line.
    pub given: String,
    /// What is wrong with it.
    pub problem: LogProblem,
}

/// A log as it was understood.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PartLog {
    /// The parts.
    pub rows: Vec<PartRow>,
    /// Lines that were left out, with the reason.
    pub complaints: Vec<LogComplaint>,
    /// Further such lines, which are not listed.
    pub more_complaints: usize,
}

impl PartLog {
    /// The rows as the physics takes them.
    #[must_use]
    pub fn cycles(&self) -> Vec<LogRow> {
        self.rows.iter().map(|row| LogRow { cycles: row.cycles, failed: row.failed }).collect()
    }

    fn complain(&mut self, line: usize, given: &str, problem: LogProblem) {
        if self.complaints.len() < MOST_COMPLAINTS {
            let given = given.chars().take(NAME_LENGTH).collect();
            self.complaints.push(LogComplaint { line, given, problem });
        } else {
            self.more_complaints += 1;
        }
    }
}

/// Reads a log. Fields stand between commas, semicolons, tabs or, without any of these, spaces; the name of the part may be left out. Empty
/// lines and lines that begin with `#` are passed over, and so is one line of headings at the top.
#[must_use]
pub fn read(text: &str) -> PartLog {
    let mut log = PartLog::default();
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let end = text.floor_char_boundary(MOST_BYTES);
    let is_cut = end < text.len();
    let mut lines = text[..end].lines().enumerate().peekable();
    let mut is_first = true;
    while let Some((index, raw)) = lines.next() {
        let (number, line) = (index + 1, raw.trim());
        if is_cut && lines.peek().is_none() {
            // The last line may have lost its end, and a number without its last digits reads like another one.
            log.complain(number, line, LogProblem::TooLong);
            break;
        }
        if line.is_empty() || line.starts_with('#') {
            continue;
        }
        if log.rows.len() == MOST_ROWS {
            log.complain(number, line, LogProblem::TooManyRows);
            break;
        }
        let fields = fields(line);
        let was_first = core::mem::replace(&mut is_first, false);
        match row(number, &fields) {
            Ok(row) => log.rows.push(row),
            Err(_) if was_first && is_heading(&fields) => {}
            Err((given, problem)) => log.complain(number, given.unwrap_or(line), problem),
        }
    }
    log
}

/// The fields of a line, without quotation marks and spaces around them and without empty ones at its end.
fn fields(line: &str) -> Vec<String> {
    let mut fields = match [';', '\t', ','].into_iter().find(|separator| line.chars().any(|c| c == *separator)) {
        Some(separator) => between(line, separator),
        None => from_spaces(line),
    };
    while fields.last().is_some_and(String::is_empty) {
        fields.pop();
    }
    fields
}

/// Fields between separators; one inside quotation marks separates nothing, as spreadsheets write it.
fn between(line: &str, separator: char) -> Vec<String> {
    let mut is_quoted = false;
    let is_separator = |c: char| {
        is_quoted ^= c == '"';
        c == separator && !is_quoted
    };
    line.split(is_separator).map(|field| field.replace('"', "").trim().to_owned()).collect()
}

/// Without separators the last two words count and all before them are the name.
fn from_spaces(line: &str) -> Vec<String> {
    let words: Vec<&str> = line.split_whitespace().collect();
    match words.as_slice() {
        [name @ .., cycles, state] if !name.is_empty() => {
            vec![name.join(" "), (*cycles).to_owned(), (*state).to_owned()]
        }
        _ => words.into_iter().map(str::to_owned).collect(),
    }
}

/// A line of headings has no digit and more than one word.
fn is_heading(fields: &[String]) -> bool {
    fields.len() > 1 && !fields.iter().any(|field| field.contains(|c: char| c.is_numeric()))
}

type Wrong<'a> = (Option<&'a str>, LogProblem);

fn row(line: usize, fields: &[String]) -> Result<PartRow, Wrong<'_>> {
    let (part, cycles, state) = match fields {
        [cycles, state] => ("", cycles, state),
        [part, cycles, state] => (part.as_str(), cycles, state),
        _ => return Err((None, LogProblem::Fields { found: fields.len() })),
    };
    let cycles = number(cycles).map_err(|problem| (Some(cycles.as_str()), problem))?;
    let failed = has_failed(state).ok_or((Some(state.as_str()), LogProblem::NeitherFailedNorWhole))?;
    Ok(PartRow { line, part: part.chars().take(NAME_LENGTH).collect(), cycles, failed })
}

/// Cycles: plain digits with at most one point or comma, above nought.
fn number(text: &str) -> Result<f64, LogProblem> {
    if let Some(rest) = text.strip_prefix(['-', '\u{2212}']) {
        let is_number = decimal::parse(&rest.replace(',', ".")).is_some();
        return Err(if is_number { LogProblem::NotPositive } else { LogProblem::NotANumber });
    }
    match decimal::parse(&text.replace(',', ".")) {
        None => Err(LogProblem::NotANumber),
        // The least that the physics takes; a part of a thousandth of a fill is none.
        Some(cycles) if cycles < holdwater_physics::age::fit::LEAST_CYCLES => Err(LogProblem::NotPositive),
        Some(cycles) if cycles > MOST_CYCLES => Err(LogProblem::TooMany),
        Some(cycles) => Ok(cycles),
    }
}

fn has_failed(word: &str) -> Option<bool> {
    let is = |words: &[&str]| words.iter().any(|known| word.eq_ignore_ascii_case(known));
    if is(&FAILED) { Some(true) } else { is(&WHOLE).then_some(false) }
}

impl fmt::Display for LogComplaint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let given = quoted(self.given.trim());
        write!(f, "Line {}: ", self.line)?;
        match self.problem {
            LogProblem::Fields { found } => {
                let s = if found == 1 { "" } else { "s" };
                write!(f, "{given} has {found} field{s}; write the part, its cycles, and \"failed\" or \"whole\"")
            }
            LogProblem::NotANumber => write!(f, "{given} is no plain number of cycles"),
            LogProblem::NotPositive => {
                write!(f, "{given} cycles tell nothing; a part in the log was filled once at least")
            }
            LogProblem::TooMany => write!(f, "{given} cycles are more than the {MOST_CYCLES} that are taken"),
            LogProblem::NeitherFailedNorWhole => write!(f, "{given} is neither \"failed\" nor \"whole\""),
            LogProblem::TooManyRows => {
                write!(f, "only {MOST_ROWS} parts are read; this line and those below it are left out")
            }
            LogProblem::TooLong => {
                write!(f, "only {MOST_BYTES} bytes are read; this line and those below it are left out")
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn rows(text: &str) -> Vec<(String, f64, bool)> {
        let log = read(text);
        assert_eq!(log.complaints, [], "{text}");
        log.rows.into_iter().map(|row| (row.part, row.cycles, row.failed)).collect()
    }

    fn problems(text: &str) -> Vec<(usize, LogProblem)> {
        read(text).complaints.into_iter().map(|complaint| (complaint.line, complaint.problem)).collect()
    }

    #[test]
    fn the_same_log_in_every_manner_of_writing_it() {
        let expected = [("A 1".to_owned(), 84.0, true), ("B".to_owned(), 120.5, false)];
        for text in [
            "A 1, 84, failed\nB, 120.5, whole",
            "part,cycles,state\r\n\"A 1\",84,1\r\nB,120.5,0\r\n",
            "\u{feff}Part;Cycles;Failed\nA 1;84;yes;\nB;120,5;no;",
            "# ours\n\nA 1\t84\tBurst\n   \nB\t120.5\tOK\n",
            "A 1 84 f\nB   120.5 c",
            "part cycles failed\nA 1 84 x\nB 120.5 intact",
        ] {
            assert_eq!(rows(text), expected, "{text:?}");
        }
        assert_eq!(rows("84 failed\n120;whole"), [(String::new(), 84.0, true), (String::new(), 120.0, false)]);
        assert_eq!(rows("\"bottle, large\", 30, ok"), [("bottle, large".to_owned(), 30.0, false)]);
    }

    #[test]
    fn what_cannot_be_read_is_named_with_its_line_and_the_rest_is_read() {
        let text = "A, 84, failed\nB, 1,200, whole\nC, many, whole\nD, -5, failed\nE, 0, whole\nF, 10, perhaps\nG\nH, 1e3, ok\nI, 2000000, ok\nJ, 7, ok";
        let log = read(text);
        assert_eq!(log.rows.iter().map(|row| row.line).collect::<Vec<_>>(), [1, 10]);
        assert_eq!(
            problems(text),
            [
                (2, LogProblem::Fields { found: 4 }),
                (3, LogProblem::NotANumber),
                (4, LogProblem::NotPositive),
                (5, LogProblem::NotPositive),
                (6, LogProblem::NeitherFailedNorWhole),
                (7, LogProblem::Fields { found: 1 }),
                (8, LogProblem::NotANumber),
                (9, LogProblem::TooMany),
            ]
        );
        for complaint in &log.complaints {
            let sentence = complaint.to_string();
            assert!(sentence.starts_with(&format!("Line {}: \"", complaint.line)), "{sentence}");
        }
        assert_eq!(log.complaints[4].to_string(), "Line 6: \"perhaps\" is neither \"failed\" nor \"whole\"");
    }

    #[test]
    fn headings_are_passed_over_once_and_only_at_the_top() {
        assert_eq!(problems("part, cycles, failed\npart, cycles, failed"), [(2, LogProblem::NotANumber)]);
        assert_eq!(problems("A, 5, perhaps"), [(1, LogProblem::NeitherFailedNorWhole)]);
        assert_eq!(problems("nonsense"), [(1, LogProblem::Fields { found: 1 })]);
        assert_eq!(read(""), PartLog::default());
    }

    #[test]
    fn no_word_means_both() {
        assert!(FAILED.iter().all(|word| !WHOLE.contains(word) && has_failed(&word.to_uppercase()) == Some(true)));
        assert!(WHOLE.iter().all(|word| has_failed(word) == Some(false)));
    }

    #[test]
    fn long_texts_end_where_they_are_told_to() {
        let log = read(&"A, 5, whole\n".repeat(MOST_ROWS + 3));
        assert_eq!(log.rows.len(), MOST_ROWS);
        assert_eq!(log.complaints.len(), 1);
        assert_eq!((log.complaints[0].line, log.complaints[0].problem), (MOST_ROWS + 1, LogProblem::TooManyRows));
        let long = format!("A, 5, whole\n{}", "ü".repeat(MOST_BYTES));
        assert_eq!(problems(&long), [(2, LogProblem::TooLong)]);
        let log = read(&"bad\n".repeat(500));
        assert_eq!((log.complaints.len(), log.more_complaints), (MOST_COMPLAINTS, 500 - MOST_COMPLAINTS));
        let name = read(&format!("{}, 5, whole", "n".repeat(1000)));
        assert_eq!(name.rows[0].part.len(), NAME_LENGTH);
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn any_bytes_are_read_without_panic(bytes in prop::collection::vec(any::<u8>(), 0..300), text in "[a-z0-9,;\t\" .#\r\n-]{0,120}") {
            for text in [String::from_utf8_lossy(&bytes).into_owned(), text] {
                let log = read(&text);
                prop_assert!(log.rows.iter().all(|row| row.cycles > 0.0 && row.cycles <= MOST_CYCLES));
                for complaint in log.complaints {
                    prop_assert!(complaint.to_string().lines().count() == 1);
                }
            }
        }

        #[test]
        fn what_is_written_is_read(rows in prop::collection::vec(("[a-zA-Z][a-zA-Z ]{0,10}[a-z]", 1_u32..5000, any::<bool>()), 1..20)) {
            let line = |(part, cycles, failed): &(String, u32, bool)| format!("{part},{cycles},{}\n", if *failed { "failed" } else { "whole" });
            let log = read(&rows.iter().map(line).collect::<String>());
            prop_assert_eq!(log.complaints.len(), 0);
            prop_assert_eq!(log.rows.len(), rows.len());
            for (ours, (part, cycles, failed)) in log.rows.iter().zip(&rows) {
                prop_assert_eq!((&ours.part, ours.cycles, ours.failed), (part, f64::from(*cycles), *failed));
            }
        }
    }
}
