//! What a device keeps: the designs used lately, and the way back through what was changed.
//!
//! A shelf is a list of designs, each a link with a name. Two shelves become one without either losing anything: for every id the
//! newest state counts, and a deletion is a state too. That serves two open tabs, a file brought from another device,
//! and a write that came late, all by the same merge. Whoever opens a design in a second tab gives it an id
//! of its own there, so that two tabs do not write over each other.
//!
//! Nothing here asks the clock or makes ids: both are passed in.

mod history;
mod text;

pub use history::History;
pub use text::{Reading, Skipped, read, write};

use crate::design::NAME_LIMIT;
use crate::text::disturbs;
use crate::{find, link};

/// Most designs that a shelf keeps; as many deletions are remembered.
pub const MOST: usize = 200;

/// Most bytes of a link that is kept: more than one has with every value of every part given and the longest log.
pub const LINK_LIMIT: usize = 40_000;

/// A design on the shelf.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// What it is known by: small letters and digits, chosen once when the design was begun.
    pub id: String,
    /// Its name as shown in the list; empty when it has none.
    pub name: String,
    /// The part of its link that follows `#`.
    pub link: String,
    /// When it was last used or changed, in seconds since 1970.
    pub used_s: u64,
    /// Whether it is kept for as long as there is room for pinned ones.
    pub pinned: bool,
    /// How often it was changed, which decides between changes of one second.
    edit: u32,
}

/// Everything that is known of one id.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Slot {
    Kept(Entry),
    /// Deleted then. It stays for as long as an older state may come back from elsewhere.
    Deleted {
        id: String,
        at_s: u64,
        edit: u32,
    },
}

impl Slot {
    fn id(&self) -> &str {
        match self {
            Self::Kept(entry) => &entry.id,
            Self::Deleted { id, .. } => id,
        }
    }

    /// What decides which of two states of an id is the newer one. Where time and count are the same, a deletion counts, and then
    /// the contents, so that both sides of a merge decide alike.
    fn age(&self) -> (u64, u32, bool, &str, &str, bool) {
        match self {
            Self::Kept(entry) => (entry.used_s, entry.edit, false, &entry.link, &entry.name, entry.pinned),
            Self::Deleted { at_s, edit, .. } => (*at_s, *edit, true, "", "", false),
        }
    }
}

/// The designs of a device, newest first.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Shelf {
    /// Kept ones before deleted ones, each from the newest to the oldest.
    slots: Vec<Slot>,
    /// Lines that a newer page wrote, kept as they are.
    foreign: Vec<String>,
}

impl Shelf {
    /// The designs, newest first. Of those with the same link only the newest is listed.
    #[must_use]
    pub fn recent(&self) -> Vec<&Entry> {
        let mut listed: Vec<&Entry> = Vec::new();
        for entry in self.kept() {
            if !listed.iter().any(|newer| newer.link == entry.link) {
                listed.push(entry);
            }
        }
        listed
    }

    /// The designs whose name has every one of the words, newest first.
    #[must_use]
    pub fn search(&self, words: &str) -> Vec<&Entry> {
        let words = folded(words);
        let fits = |entry: &&Entry| {
            let name = folded(&entry.name);
            words.split_whitespace().all(|word| find::holds(&name, word))
        };
        self.recent().into_iter().filter(fits).collect()
    }

    /// The design of an id.
    #[must_use]
    pub fn find(&self, id: &str) -> Option<&Entry> {
        self.kept().find(|entry| entry.id == id)
    }

    fn kept(&self) -> impl Iterator<Item = &Entry> {
        self.slots.iter().filter_map(|slot| match slot {
            Slot::Kept(entry) => Some(entry),
            Slot::Deleted { .. } => None,
        })
    }

    /// Keeps a design as it is now; one that is kept already stays pinned. The answer is no when its id or its link
    /// cannot be kept, which none of ours are.
    pub fn keep(&mut self, id: &str, name: &str, link: &str, now_s: u64) -> bool {
        let pinned = self.find(id).is_some_and(|entry| entry.pinned);
        self.put(Entry {
            id: id.to_owned(),
            name: cleaned(name),
            link: link.to_owned(),
            used_s: now_s,
            pinned,
            edit: 0,
        })
    }

    /// Gives a design another name, also in its link where that can be read in full. The answer is no without such a design.
    pub fn rename(&mut self, id: &str, name: &str, now_s: u64) -> bool {
        self.change(id, now_s, |entry| {
            entry.name = cleaned(name);
            let mut opened = link::open(&entry.link);
            // A link that this page reads only in part keeps its text: writing it anew would lose the rest.
            if opened.complaints.is_empty() {
                opened.design.set_name(&entry.name);
                entry.link = link::write(&opened.design);
            }
        })
    }

    /// Pins a design or lets it go. The answer is no without such a design.
    pub fn pin(&mut self, id: &str, pinned: bool, now_s: u64) -> bool {
        self.change(id, now_s, |entry| entry.pinned = pinned)
    }

    /// Takes a design off the shelf and hands it over, so that [`Shelf::restore`] can bring it back. Older ones with the
    /// same link go with it, since they would turn up in its place.
    pub fn delete(&mut self, id: &str, now_s: u64) -> Option<Entry> {
        let entry = self.find(id)?.clone();
        let alike = self.kept().filter(|other| other.link == entry.link).map(|other| other.id.clone());
        for id in alike.collect::<Vec<_>>() {
            let (at_s, edit) = self.next(&id, now_s);
            self.set(Slot::Deleted { id, at_s, edit });
        }
        Some(entry)
    }

    /// Brings a deleted design back. The answer is no when it cannot be kept.
    pub fn restore(&mut self, entry: Entry, now_s: u64) -> bool {
        self.put(Entry { used_s: now_s, name: cleaned(&entry.name), ..entry })
    }

    /// Takes in everything of another shelf; of each id the newest state stays. Tells how many designs there was no room for.
    pub fn merge(&mut self, other: Self) -> usize {
        for slot in other.slots {
            self.take(slot);
        }
        for line in other.foreign {
            self.take_foreign(line);
        }
        self.settle()
    }

    fn change(&mut self, id: &str, now_s: u64, change: impl FnOnce(&mut Entry)) -> bool {
        let Some(entry) = self.find(id) else { return false };
        let mut entry = Entry { used_s: now_s, ..entry.clone() };
        change(&mut entry);
        self.put(entry)
    }

    /// Puts an entry there as the newest state of its id.
    fn put(&mut self, mut entry: Entry) -> bool {
        if !is_id(&entry.id) || entry.link.len() > LINK_LIMIT {
            return false;
        }
        (entry.used_s, entry.edit) = self.next(&entry.id, entry.used_s);
        self.set(Slot::Kept(entry));
        true
    }

    /// Time and count of a change of an id: never older than what is there, whatever the clock says.
    fn next(&self, id: &str, now_s: u64) -> (u64, u32) {
        let there = self.slots.iter().find(|slot| slot.id() == id).map_or((0, 0), |slot| (slot.age().0, slot.age().1));
        (now_s.max(there.0), there.1.saturating_add(1))
    }

    fn set(&mut self, slot: Slot) {
        self.slots.retain(|there| there.id() != slot.id());
        self.slots.push(slot);
        self.settle();
    }

    /// Takes in a state from elsewhere unless a newer one of the same id is there.
    fn take(&mut self, slot: Slot) {
        match self.slots.iter_mut().find(|there| there.id() == slot.id()) {
            None => self.slots.push(slot),
            Some(there) if there.age() < slot.age() => *there = slot,
            Some(_) => {}
        }
    }

    fn take_foreign(&mut self, line: String) {
        // Kept in the order of their texts, so that merging gives the same shelf from either side.
        let place = self.foreign.iter().take_while(|there| **there < line).count();
        if self.foreign.len() < MOST && self.foreign.get(place) != Some(&line) {
            self.foreign.insert(place, line);
        }
    }

    /// Puts everything in order and drops what there is no room for: the oldest that are not pinned, then the oldest.
    fn settle(&mut self) -> usize {
        let is_kept = |slot: &Slot| matches!(slot, Slot::Kept(_));
        let count = self.slots.iter().filter(|slot| is_kept(slot)).count();
        let mut surplus = count.saturating_sub(MOST);
        // By insertion: the list is nearly in order, and the library's sort would be the larger part of this module in the page.
        for end in 1..self.slots.len() {
            let mut place = end;
            while place > 0 && comes_before(&self.slots[place], &self.slots[place - 1]) {
                self.slots.swap(place, place - 1);
                place -= 1;
            }
        }
        let dropped = surplus;
        for pinned_too in [false, true] {
            let mut index = count - (dropped - surplus);
            while surplus > 0 && index > 0 {
                index -= 1;
                if self.slots.get(index).is_some_and(|slot| pinned_too || !slot.age().5) {
                    self.slots.remove(index);
                    surplus -= 1;
                }
            }
        }
        self.slots.truncate((count - dropped) + MOST);
        dropped
    }
}

/// The order on the shelf: kept before deleted, then newest first; ids make it the same whatever came first.
fn comes_before(a: &Slot, b: &Slot) -> bool {
    let deleted = |slot: &Slot| matches!(slot, Slot::Deleted { .. });
    (deleted(a), b.age(), a.id()) < (deleted(b), a.age(), b.id())
}

/// Whether a text can be an id.
fn is_id(id: &str) -> bool {
    (1..=32).contains(&id.len()) && id.bytes().all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit())
}

/// A name as a design would take it.
fn cleaned(name: &str) -> String {
    name.chars().filter(|c| !disturbs(*c)).take(NAME_LIMIT).collect()
}

/// The text with its letters small, for the alphabets in which that is plain arithmetic. The standard library knows all of them,
/// with tables of some ten kilobytes that the page would carry for a search in a list of names.
fn folded(text: &str) -> String {
    let small = |c: char| match c {
        'A'..='Z' | 'À'..='Ö' | 'Ø'..='Þ' | 'Α'..='Ρ' | 'Σ'..='Ϋ' | 'А'..='Я' => {
            char::from_u32(c as u32 + 32)
        }
        'Ѐ'..='Џ' => char::from_u32(c as u32 + 80),
        _ => None,
    };
    text.chars().map(|c| small(c).unwrap_or(c)).collect()
}
