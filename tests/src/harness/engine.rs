//! What the engines differ in, as far as tests go: the one table of what each cannot be asked for.
//!
//! A test that needs such a thing ends where it asks for it, and is counted as left out: see [`Skipped`].

use std::fmt;
use std::fs::OpenOptions;
use std::io::Write;

pub use xtask::engines::Engine;
use xtask::engines::skipped_file;

use super::Outcome;

/// Something that a test may want of a browser and not every engine gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ability {
    /// Fingers that press and drag, and pages that know of them.
    Touch,
    /// Fingers that scroll the page.
    TouchScroll,
    /// More than one device pixel for a CSS pixel.
    PixelRatio,
    /// Preferring dark colours.
    Colours,
    /// Showing the page as it looks on paper.
    Paper,
    /// Printing into a file whose text can be read.
    Printing,
    /// A slower processor.
    SlowDown,
    /// Deciding whether a page may use the clipboard.
    Clipboard,
    /// Closing the browser and opening it again with what it kept.
    Profile,
    /// The browser's own reading of the manifest.
    Manifest,
    /// Files that the page hands over.
    Downloads,
    /// The browser's own log of its console and of every request, workers' among them.
    Logs,
    /// Telling the page of tasks that take long.
    LongTasks,
}

/// Why an engine cannot be asked for something; `None` if it can.
#[must_use]
pub const fn cannot(engine: Engine, ability: Ability) -> Option<&'static str> {
    use Ability::{
        Clipboard, Colours, Downloads, Logs, LongTasks, Manifest, Paper, PixelRatio, Printing, Profile, SlowDown,
        Touch, TouchScroll,
    };
    match (engine, ability) {
        (Engine::Chromium, _) => None,
        (_, SlowDown) => Some("its driver cannot slow the processor down"),
        (_, Manifest) => Some("its driver does not tell what it makes of a manifest"),
        (_, LongTasks) => Some("it does not report long tasks to the page"),
        (_, Logs) => Some("its driver has no log; what the page itself can hear is collected instead"),
        (_, Clipboard) => {
            Some("its driver cannot decide about the clipboard; a script before the page plays the refusal")
        }
        (_, TouchScroll) => Some("fingers of its driver press and drag, but do not scroll"),
        (Engine::Firefox, Printing) => Some("our reader of PDF files finds no text in what it prints"),
        (Engine::Firefox, _) => None,
        (Engine::WebKit, Touch) => {
            Some("the GTK port takes no touches from its driver; the mouse does what a finger would")
        }
        (Engine::WebKit, PixelRatio) => Some("a window of the GTK port has the pixels of its screen"),
        (Engine::WebKit, Colours) => Some("its driver cannot ask for dark colours"),
        (Engine::WebKit, Paper) => Some("its driver cannot show a page as on paper"),
        (Engine::WebKit, Printing) => Some("its driver does not print"),
        (Engine::WebKit, Profile) => Some("a browser that is steered keeps nothing when it closes"),
        (Engine::WebKit, Downloads) => None,
    }
}

/// How a note of a test begins that ends early, and of one that only leaves out a part.
pub(super) const SKIPPED: &str = "SKIPPED";
const IN_PART: &str = "IN PART";

/// An error that is none: the engine cannot be asked for what the test wants. The visit ends well with it.
#[derive(Debug)]
pub struct Skipped {
    engine: Engine,
    ability: Ability,
    reason: &'static str,
}

impl Skipped {
    /// An error if the engine lacks the ability.
    pub(super) fn unless_able(engine: Engine, ability: Ability) -> Outcome {
        match cannot(engine, ability) {
            Some(reason) => Err(Self { engine, ability, reason }.into()),
            None => Ok(()),
        }
    }

    /// Says that a test ends early, or that it leaves out a part: to whoever looks on, and in the file from which the step
    /// counts.
    pub(super) fn note(&self, what: &str, test: &str) -> Outcome {
        let line = format!("{what} {test}: {self}\n");
        // The test harness keeps what tests print, unless it is written past it.
        std::io::stderr().write_all(line.as_bytes())?;
        let path = skipped_file(self.engine)?;
        Ok(OpenOptions::new().create(true).append(true).open(path)?.write_all(line.as_bytes())?)
    }
}

/// Says that a test leaves out a part that needs an ability, and answers whether it need not.
pub(super) fn has_or_notes(engine: Engine, ability: Ability, test: &str) -> Outcome<bool> {
    let Some(reason) = cannot(engine, ability) else { return Ok(true) };
    Skipped { engine, ability, reason }.note(IN_PART, test)?;
    Ok(false)
}

impl fmt::Display for Skipped {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:?} in {}: {}", self.ability, self.engine.name(), self.reason)
    }
}

impl std::error::Error for Skipped {}
