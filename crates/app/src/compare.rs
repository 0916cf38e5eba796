//! A design pinned to be compared with.
//!
//! A fragment may carry two designs: the one at hand and the one pinned.

use std::sync::Arc;

use holdwater_answers::Study;
use holdwater_answers::numbers::Answers;
use holdwater_design::{Design, Input, link};

use crate::aside::{Aside, What};
use crate::line::Line;
use crate::react::{RwSignal, StoredValue};

/// A pinned design with its answers.
#[derive(Clone, Debug, PartialEq)]
pub struct Pinned {
    /// Its link.
    pub link: String,
    /// The design.
    pub design: Design,
    /// Its answers; `None` for a design that cannot be flown.
    pub answers: Option<Answers>,
}

impl Pinned {
    /// Pins the design of a link.
    fn of(link: &str) -> Self {
        let design = link::open(link).design;
        let study = Study::new(&design).ok();
        let answers = study.as_ref().and_then(|study| study.answers(design.number(Input::Delay)).ok());
        Self { link: link.to_owned(), design, answers }
    }

    /// What to call it.
    pub fn name(&self) -> String {
        let name = self.design.name().trim();
        if name.is_empty() { "the pinned design".to_owned() } else { format!("\u{201c}{name}\u{201d}") }
    }
}

/// The pinned design, if there is one.
#[derive(Clone, Copy)]
pub struct Compare {
    pinned: RwSignal<Option<Arc<Pinned>>>,
    aside: StoredValue<Aside>,
    /// Its height against delay, once it is flown.
    pub line: RwSignal<Line>,
}

impl Compare {
    /// Nothing is pinned.
    pub fn start(aside: Aside) -> Self {
        let line = RwSignal::new(Line::default());
        aside.hear_line(What::PinnedLine, line);
        Self { pinned: RwSignal::new(None), aside: StoredValue::new(aside), line }
    }

    /// What is pinned.
    pub fn get(self) -> Option<Arc<Pinned>> {
        self.pinned.get()
    }

    /// Pins the design of a link; nothing for an empty one.
    pub fn pin(self, link: &str) {
        self.line.set(Line::default());
        let pinned = (!link.is_empty()).then(|| Arc::new(Pinned::of(link)));
        self.aside.with_value(|aside| match &pinned {
            Some(pinned) => aside.ask(What::PinnedLine, pinned.link.clone(), 0.0),
            None => aside.forget(What::PinnedLine),
        });
        self.pinned.set(pinned);
    }

    /// What is pinned, without following it.
    pub fn get_untracked(self) -> Option<Arc<Pinned>> {
        self.pinned.get_untracked()
    }

    /// The link of what is pinned, without following it.
    pub fn link(self) -> Option<String> {
        self.pinned.with_untracked(|pinned| pinned.as_ref().map(|pinned| pinned.link.clone()))
    }
}
