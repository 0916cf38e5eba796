//! What the device keeps: the designs used lately, and the units.
//!
//! The shelf itself, its text and its merging are in `holdwater_design::shelf`; here is only the storage of the browser. It may be
//! full, forbidden, damaged or shared with another tab: whatever is written is merged with what is there, and
//! whatever fails is said. The design at hand is never at stake: it is in the address bar.

use holdwater_design::measure::System;
use holdwater_design::shelf::{self, Entry, Shelf};
use holdwater_design::{Design, link};
use leptos::prelude::window;
use web_sys::Storage;

use crate::browser::seconds_since_1970;
use crate::dom::on_window;
use crate::react::{RwSignal, StoredValue};

/// Under this name the shelf is stored.
const SHELF: &str = "holdwater.shelf";
/// What could not be read of it, for whoever wants it back.
const DAMAGED: &str = "holdwater.shelf.damaged";
/// Under this name the units are stored.
const UNITS: &str = "holdwater.units";
/// Under this name a tab stores which design of the shelf it has.
const CURRENT: &str = "holdwater.current";

/// What is said when nothing can be stored.
const NOT_KEPT: &str = "This browser keeps nothing for this page: its storage is full or forbidden. The link in the address bar is your \
                        design.";

/// What the device keeps, and what there is to say about it.
#[derive(Clone, Copy)]
pub struct Keeping {
    /// The designs used lately.
    pub shelf: RwSignal<Shelf>,
    /// What went wrong, in a sentence.
    pub trouble: RwSignal<Option<String>>,
    /// The design deleted last, to be brought back.
    pub deleted: RwSignal<Option<Entry>>,
    /// The id of the design at hand.
    current: StoredValue<String>,
    /// The id of the design that this tab kept last, also before it was loaded again.
    kept_last: StoredValue<Option<String>>,
}

impl Keeping {
    /// Reads what is there.
    pub fn start() -> Self {
        let this = Self {
            shelf: RwSignal::default(),
            trouble: RwSignal::new(None),
            deleted: RwSignal::new(None),
            current: StoredValue::new(fresh_id()),
            kept_last: StoredValue::new(session().and_then(|tab| tab.get_item(CURRENT).ok().flatten())),
        };
        this.leave_note(false);
        this.read();
        // Another tab has changed it.
        on_window("storage", move |_| this.read());
        this
    }

    /// Reads the shelf from the storage and merges it with what is at hand.
    fn read(&self) {
        let Some(storage) = storage() else { return };
        let Ok(Some(text)) = storage.get_item(SHELF) else { return };
        let reading = shelf::read(text.as_bytes());
        if !reading.skipped.is_empty() {
            // What cannot be read is put aside and not overwritten by the next change.
            let lines: Vec<_> = reading.skipped.iter().map(|skipped| skipped.text.as_str()).collect();
            let _ = storage.set_item(DAMAGED, &lines.join("\n"));
            self.trouble.set(Some(format!(
                "{} of the designs kept on this device could not be read; they were put aside.",
                reading.skipped.len()
            )));
        }
        self.shelf.update(|shelf| {
            shelf.merge(reading.shelf);
        });
    }

    /// Changes the shelf and stores it, together with what another tab may have stored meanwhile.
    pub fn change<T>(&self, change: impl FnOnce(&mut Shelf) -> T) -> Option<T> {
        self.read();
        let done = self.shelf.try_update(change);
        let text = self.shelf.with_untracked(shelf::write);
        let stored = storage().is_some_and(|storage| storage.set_item(SHELF, &text).is_ok());
        if !stored {
            self.trouble.set(Some(NOT_KEPT.to_owned()));
        } else if self.trouble.with_untracked(|trouble| trouble.as_deref() == Some(NOT_KEPT)) {
            self.trouble.set(None);
        }
        done
    }

    /// A link was opened: what is made of it is a design of its own, unless this tab had it before it was loaded again.
    pub fn begin(&self, fragment: &str) {
        let continues = self
            .kept_last
            .get_value()
            .filter(|id| self.shelf.with_untracked(|shelf| shelf.find(id).is_some_and(|entry| entry.link == fragment)));
        self.current.set_value(continues.unwrap_or_else(fresh_id));
    }

    /// Keeps the design at hand.
    pub fn keep(&self, design: &Design) {
        let id = self.current.get_value();
        self.kept_last.set_value(Some(id.clone()));
        let link = link::write(design);
        self.change(|shelf| shelf.keep(&id, design.name(), &link, seconds_since_1970()));
    }

    /// Leaves a note of the design for the page that this tab loads next, or takes it away while the page is looked at: a tab
    /// that is duplicated takes the note along, and two tabs with one design would write over each other.
    pub fn leave_note(&self, leaving: bool) {
        let Some(tab) = session() else { return };
        let _ = match self.kept_last.get_value().filter(|_| leaving) {
            Some(id) => tab.set_item(CURRENT, &id),
            None => tab.remove_item(CURRENT),
        };
    }

    /// The units chosen last.
    pub fn units(&self) -> System {
        let chosen = storage().and_then(|storage| storage.get_item(UNITS).ok().flatten());
        if chosen.as_deref() == Some("us") { System::Us } else { System::Metric }
    }

    /// Remembers the units.
    pub fn remember_units(&self, units: System) {
        if let Some(storage) = storage() {
            let _ = storage.set_item(UNITS, if units == System::Us { "us" } else { "metric" });
        }
    }
}

/// What stays when the page is closed; none where the browser forbids it.
pub fn storage() -> Option<Storage> {
    window().local_storage().ok().flatten()
}

/// What stays when the page is loaded again in this tab.
fn session() -> Option<Storage> {
    window().session_storage().ok().flatten()
}

/// A name for a design that no other has: small letters and digits.
fn fresh_id() -> String {
    let draw = || (js_sys::Math::random() * f64::from(u32::MAX)) as u32;
    format!("{:x}{:08x}{:08x}", seconds_since_1970(), draw(), draw())
}
