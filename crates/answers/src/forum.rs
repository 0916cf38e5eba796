//! A design with its answers as a text for a forum.
//!
//! The name is somebody else's text and may come from a link of unknown origin. Nothing in it may format, link, mention or
//! break a line in the forum of whoever passes it on.

use holdwater_design::measure::{System, said};
use holdwater_design::{Design, Input, find};

use crate::numbers::Answers;
use crate::refused::Refused;
use crate::vessels::{VESSEL_CAUTIONS, Vessels, vessel_verdict};
use crate::words::{self, Span, Verdict};

/// How a forum wants its text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Format {
    /// Without any formatting.
    Plain,
    /// Markdown (CommonMark).
    Markdown,
    /// Tags in square brackets.
    BbCode,
}

/// The text for a forum: title, inputs that differ from their defaults, answers, cautions, and the link last.
///
/// `outcome` is what the design was answered with, or why it cannot be flown; `window_mm` the bores of a restrictor that would do, where they are
/// known. Everything but title and link is written in the units of `system`.
#[must_use]
pub fn forum_text(
    format: Format,
    design: &Design,
    outcome: Result<&Answers, &[Refused]>,
    window_mm: Option<[f64; 2]>,
    system: System,
    link: &str,
) -> String {
    let two_stages = design.number(Input::Stages) > 1.5;
    let mut page = Page { format, system, text: String::new() };
    page.title(match design.name().trim() {
        "" if two_stages => "Two-stage water rocket",
        "" => "Single-stage water rocket",
        name => name,
    });
    page.list("Changed from the default design", changed_inputs(design));
    match outcome {
        Ok(answers) => {
            page.paragraph(&plain(&words::verdict_with_window(answers, design.number(Input::Delay), window_mm)));
            if let Some(parts) = words::two_parts(answers) {
                page.paragraph(&parts);
            }
            page.list("Answers", main_numbers(answers));
            page.list("Notes", answers.notes.clone());
        }
        Err(refused) => page.list("No answer", refused.iter().map(|reason| reason.message.clone()).collect()),
    }
    let vessels = Vessels::of(design);
    if !vessels.parts.is_empty() {
        page.paragraph(&plain(&vessel_verdict(&vessels)));
        page.list("Vessels", vessels.warnings);
        page.list("What margins leave out", VESSEL_CAUTIONS.map(str::to_owned).to_vec());
    }
    // What is said of staging does not apply to a single stage.
    let applies = |caution: &&&str| two_stages || !find::holds(caution, "staged");
    page.list("Cautions", words::cautions().iter().filter(applies).map(|caution| (*caution).to_owned()).collect());
    page.link(link);
    page.text
}

/// `Booster vessel, volume: 8 L (default 7.5 L)` for every input that differs.
fn changed_inputs(design: &Design) -> Vec<String> {
    let line = |input: Input| {
        let row = input.row();
        let (value, default) = (row.show(design.get(input)), row.show(row.default()));
        let part = row.part.title();
        let name = if part == row.label { part.to_owned() } else { [part, ", ", &lowered(row.label)].concat() };
        [&name, ": ", &value, " (default ", &default, ")"].concat()
    };
    design.changed().map(line).collect()
}

/// A label within a sentence.
fn lowered(label: &str) -> String {
    let mut label = label.to_owned();
    if let Some(first) = label.get_mut(..1) {
        first.make_ascii_lowercase();
    }
    label
}

/// A verdict without its large numbers.
fn plain(verdict: &Verdict) -> String {
    let mut sentence = String::new();
    for span in &verdict.spans {
        match span {
            Span::Text(words) => sentence.push_str(words),
            Span::Number(number, unit) => sentence.push_str(&[number, " ", unit].concat()),
        }
    }
    sentence
}

/// The numbers that a reader would ask for first.
fn main_numbers(answers: &Answers) -> Vec<String> {
    let mut lines = Lines(Vec::new());
    lines.add("Apogee", Some(answers.apogee_m), 1, "m");
    if let Some(burnout) = &answers.burnout {
        lines.add("Settled ideal at this delay", Some(answers.settled_apogee_m), 1, "m");
        lines.add("Latest release after burnout", answers.latest_release_s, 2, "s");
        lines.add("Nozzle uncovered after burnout", answers.uncovers_s, 2, "s");
        lines.add("Speed at burnout", Some(burnout.v_mps), 1, "m/s");
        lines.add("Deceleration at the start of the coast", answers.coast_decel_mps2, 1, "m/s²");
        lines.add("Speed at release", answers.release.map(|release| release.v_mps), 1, "m/s");
    }
    lines.add("Gas lost before the water", Some(100.0 * answers.gas_lost), 1, "%");
    lines.add("Speed at sustainer burnout", answers.sustainer.map(|sustainer| sustainer.v_burnout_mps), 1, "m/s");
    lines.add("Time to apogee", Some(answers.apogee_t_s), 2, "s");
    lines.0
}

struct Lines(Vec<String>);

impl Lines {
    fn add(&mut self, label: &str, value: Option<f64>, decimals: usize, unit: &str) {
        if let Some(value) = value {
            self.0.push(format!("{label}: {value:.decimals$} {unit}"));
        }
    }
}

/// Puts the text together; everything that goes in is escaped here and nowhere else.
struct Page {
    format: Format,
    system: System,
    text: String,
}

impl Page {
    fn title(&mut self, title: &str) {
        let title = escaped(self.format, title);
        self.add(match self.format {
            Format::Plain => ["", &title, "\n"],
            Format::Markdown => ["### ", &title, "\n"],
            Format::BbCode => ["[b]", &title, "[/b]\n"],
        });
    }

    fn paragraph(&mut self, words: &str) {
        let words = self.written(words);
        self.add(["\n", &words, "\n"]);
    }

    /// A heading with lines under it; nothing without lines.
    fn list(&mut self, heading: &str, lines: Vec<String>) {
        if lines.is_empty() {
            return;
        }
        self.add(match self.format {
            Format::Plain => ["\n", heading, ":\n"],
            Format::Markdown => ["\n**", heading, "**\n\n"],
            Format::BbCode => ["\n[b]", heading, "[/b]\n[list]\n"],
        });
        let bullet = if self.format == Format::BbCode { "[*]" } else { "- " };
        for line in lines {
            let line = self.written(&line);
            self.add([bullet, &line, "\n"]);
        }
        if self.format == Format::BbCode {
            self.text.push_str("[/list]\n");
        }
    }

    /// A sentence in the units and signs of the text.
    fn written(&self, words: &str) -> String {
        escaped(self.format, &said(words, self.system))
    }

    fn link(&mut self, link: &str) {
        let link = plain_link(link);
        self.add(match self.format {
            Format::Plain => ["\n", &link, "\n"],
            Format::Markdown => ["\n<", &link, ">\n"],
            Format::BbCode => ["\n[url]", &link, "[/url]\n"],
        });
    }

    fn add(&mut self, pieces: [&str; 3]) {
        for piece in pieces {
            self.text.push_str(piece);
        }
    }
}

/// A text that the format shows as it is, on one line.
fn escaped(format: Format, words: &str) -> String {
    let mut out = String::new();
    for c in words.chars() {
        match (c, format) {
            _ if breaks_a_line(c) => out.push(' '),
            // A mention would call somebody, and no forum has an escape for it; the wide sign reads the same.
            ('@', _) => out.push('＠'),
            // Tags have no escape that all forums know.
            ('[', Format::BbCode) => out.push('［'),
            (']', Format::BbCode) => out.push('］'),
            (_, Format::Markdown) if "\\`*_{}[]<>#|~&!$^=+".chars().any(|sign| sign == c) => {
                out.push('\\');
                out.push(c);
            }
            _ => out.push(c),
        }
    }
    unlinked(&out)
}

/// Control characters, separators of lines and marks that turn the direction of writing.
fn breaks_a_line(c: char) -> bool {
    c.is_control() || matches!(c, '\u{2028}' | '\u{2029}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// Forums make links of bare addresses. A joiner that nobody sees between the signs by which they find them prevents it.
fn unlinked(text: &str) -> String {
    let mut out = String::new();
    let mut letters = text.chars().peekable();
    while let Some(c) = letters.next() {
        out.push(c);
        // A full stop or colon within a word, as in an address; numbers keep their decimals as they are.
        let is_letter = |next: char| find::is_of_a_word(next) && !next.is_ascii_digit();
        let goes_on = letters.peek().is_some_and(|next| is_letter(*next) || *next == '/');
        if matches!(c, '.' | ':') && goes_on {
            out.push('\u{2060}');
        }
    }
    out
}

/// A link in signs that no format takes for its own: others are encoded as in every address.
fn plain_link(link: &str) -> String {
    let mut out = String::new();
    for byte in link.trim().bytes() {
        let plain = byte.is_ascii_alphanumeric() || b"-._~:/?#@!$&'(),;=%+".contains(&byte);
        if plain {
            out.push(char::from(byte));
        } else {
            out.push('%');
            for place in [byte >> 4, byte & 15] {
                out.extend(char::from_digit(u32::from(place), 16).map(|digit| digit.to_ascii_uppercase()));
            }
        }
    }
    out
}
