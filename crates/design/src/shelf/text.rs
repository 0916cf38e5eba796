//! The shelf as text: one line per design, each with its own version and checksum.
//!
//! A line is `shelf=1&id=...&used=...&edit=...&pin=1&name=...&link=...&sum=...`, the same encoding as in a link; a deleted design is
//! `shelf=1&id=...&gone=...&edit=...&sum=...`. A line that was damaged is left out and told of, the others survive. A line of a newer
//! version is kept as it is. A bare link on a line of its own is a design too, so that any list of links can be taken in.

use core::fmt;

use super::{Entry, LINK_LIMIT, MOST, Shelf, Slot, cleaned, is_id};
use crate::text::quoted;
use crate::{find, link};

/// The version that is written.
const VERSION: &str = "1";

/// What a text was found to hold.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Reading {
    /// The designs that could be read.
    pub shelf: Shelf,
    /// The lines that could not.
    pub skipped: Vec<Skipped>,
    /// How many designs there was no room for.
    pub dropped: usize,
}

/// A line that could not be read. Displays as one sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Skipped {
    /// Its number, from 1.
    pub line: usize,
    /// What stood there, so that nothing is lost of it.
    pub text: String,
}

impl fmt::Display for Skipped {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Line {} was damaged or is no design, so it was left out: {}.", self.line, quoted(&self.text))
    }
}

/// Writes a shelf. Whoever reads it gets the same shelf.
#[must_use]
pub fn write(shelf: &Shelf) -> String {
    let mut text = String::new();
    for slot in &shelf.slots {
        let mut pairs = vec![("shelf", VERSION.to_owned()), ("id", slot.id().to_owned())];
        match slot {
            Slot::Kept(entry) => {
                pairs.push(("used", entry.used_s.to_string()));
                pairs.push(("edit", entry.edit.to_string()));
                if entry.pinned {
                    pairs.push(("pin", "1".to_owned()));
                }
                if !entry.name.is_empty() {
                    pairs.push(("name", entry.name.clone()));
                }
                pairs.push(("link", entry.link.clone()));
            }
            Slot::Deleted { at_s, edit, .. } => {
                pairs.push(("gone", at_s.to_string()));
                pairs.push(("edit", edit.to_string()));
            }
        }
        // Pairs of texts can always be encoded; should that ever change, the other lines are written all the same.
        let Ok(line) = serde_urlencoded::to_string(pairs) else { continue };
        let sum = digest(&line);
        text.push_str(&line);
        text.push_str("&sum=");
        text.push_str(&sum);
        text.push('\n');
    }
    for line in &shelf.foreign {
        text.push_str(line);
        text.push('\n');
    }
    text
}

/// Reads what a device kept or a file holds. Any bytes will do.
#[must_use]
pub fn read(bytes: &[u8]) -> Reading {
    let mut reading = Reading::default();
    for (index, line) in bytes.split(|byte| *byte == b'\n').enumerate() {
        let text = String::from_utf8_lossy(line);
        let text = text.trim_matches(['\u{feff}', ' ', '\t', '\r']);
        if text.is_empty() {
            continue;
        }
        match line_of(text) {
            Line::Slot(slot) => reading.shelf.take(slot),
            Line::Newer => reading.shelf.take_foreign(text.to_owned()),
            Line::Damaged => reading.skipped.push(Skipped { line: index + 1, text: text.to_owned() }),
        }
        // A file of a million lines may not fill the memory of a phone.
        if reading.shelf.slots.len() > 4 * MOST {
            reading.dropped += reading.shelf.settle();
        }
    }
    reading.dropped += reading.shelf.settle();
    reading
}

enum Line {
    Slot(Slot),
    Newer,
    Damaged,
}

fn line_of(text: &str) -> Line {
    if !text.starts_with("shelf=") {
        return bare_link(text).map_or(Line::Damaged, Line::Slot);
    }
    let intact = find::rsplit_once(text, "&sum=").filter(|(body, sum)| digest(body) == *sum);
    let Some((body, _)) = intact else { return Line::Damaged };
    let Ok(pairs) = serde_urlencoded::from_str::<Vec<(String, String)>>(body) else { return Line::Damaged };
    match slot_of(&pairs) {
        Some(slot) => Line::Slot(slot),
        // It is whole, so a page wrote it that knows more than this one.
        None if text.len() <= 2 * LINK_LIMIT => Line::Newer,
        None => Line::Damaged,
    }
}

/// What the pairs of an intact line say; `None` when they say anything that this version does not know.
fn slot_of(pairs: &[(String, String)]) -> Option<Slot> {
    let mut entry =
        Entry { id: String::new(), name: String::new(), link: String::new(), used_s: 0, pinned: false, edit: 0 };
    let (mut version, mut gone, mut linked) = (None, None, false);
    for (key, value) in pairs {
        match key.as_str() {
            "shelf" => version = Some(value.as_str()),
            "id" if is_id(value) => entry.id.clone_from(value),
            "used" => entry.used_s = value.parse().ok()?,
            "gone" => gone = Some(value.parse().ok()?),
            "edit" => entry.edit = value.parse().ok()?,
            "pin" if value == "1" => entry.pinned = true,
            "name" if cleaned(value) == *value => entry.name.clone_from(value),
            "link" if value.len() <= LINK_LIMIT => {
                linked = true;
                entry.link.clone_from(value);
            }
            _ => return None,
        }
    }
    if version != Some(VERSION) || entry.id.is_empty() {
        return None;
    }
    match gone {
        Some(at_s) => Some(Slot::Deleted { id: entry.id, at_s, edit: entry.edit }),
        None if linked => Some(Slot::Kept(entry)),
        None => None,
    }
}

/// A link that somebody wrote down: it has the age of the oldest, and an id that follows from it.
fn bare_link(text: &str) -> Option<Slot> {
    let fragment = text.rsplit_once('#').map_or(text, |(_, fragment)| fragment);
    let opened = link::open(text);
    if !fragment.starts_with("v=") || !opened.complaints.is_empty() {
        return None;
    }
    let name = opened.design.name().to_owned();
    let link = link::write(&opened.design);
    Some(Slot::Kept(Entry { id: digest(&link), name, link, used_s: 0, pinned: false, edit: 0 }))
}

/// A text as sixteen digits (FNV-1a, 64 bits): enough to notice accidents, and to tell the links of one shelf apart.
fn digest(text: &str) -> String {
    let hash = text
        .bytes()
        .fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3));
    (0..16).rev().filter_map(|place| char::from_digit((hash >> (4 * place)) as u32 & 15, 16)).collect()
}

#[cfg(test)]
mod tests {
    use super::digest;

    /// Test values of the authors of the hash (Fowler, Noll, Vo), from memory.
    #[test]
    fn published_values_of_fnv_1a() {
        assert_eq!(digest(""), "cbf29ce484222325");
        assert_eq!(digest("a"), "af63dc4c8601ec8c");
        assert_eq!(digest("foobar"), "85944171f73967e8");
    }
}
