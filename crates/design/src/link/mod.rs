//! The link: a design as a line of text, readable for ever.
//!
//! A link is `v=1&...&end=xxxxxx`: the version, the name and every value that is not its default in the
//! order of the table, the vessel parts with theirs, the log, and a checksum. Each version has its own module, which alone knows its keys. A new
//! version is a new module and a new variant of `Version`; the old modules stay.

mod address;
mod checksum;
mod complaint;
mod pair;
mod v1;

pub use complaint::{LinkComplaint, Remark};
pub use pair::{join, split};

use crate::design::Design;
use crate::find;
use checksum::checksum;
use complaint::Complaints;

/// The pairs of a link in their order, unescaped but not yet understood.
type Pairs = Vec<(String, String)>;

/// The versions of the link, newest last.
#[derive(Clone, Copy)]
enum Version {
    One,
}

impl Version {
    /// The version that is written, and with which a link of an unknown version is read: most of its keys
    /// will still mean the same, and those that do not exist here are complained about one by one.
    const NEWEST: Self = Self::One;

    fn from_number(number: u32) -> Option<Self> {
        match number {
            1 => Some(Self::One),
            _ => None,
        }
    }

    const fn number(self) -> u32 {
        match self {
            Self::One => 1,
        }
    }
}

/// What a link was found to hold.
#[derive(Clone, Debug, PartialEq)]
pub struct Opened {
    /// The design as far as the link could be read; what could not be read has its default.
    pub design: Design,
    /// Everything that was not used or not as it should be; to be shown.
    pub complaints: Vec<LinkComplaint>,
    /// What is good to know but nothing to worry about; to be shown quietly.
    pub remarks: Vec<Remark>,
    /// The text as it was given, so that nothing is lost of a link that could not be read.
    pub original: String,
}

/// Writes a design as the part of a link that follows `#`.
#[must_use]
pub fn write(design: &Design) -> String {
    let body = match Version::NEWEST {
        Version::One => v1::write(design),
    };
    let end = checksum(&body);
    format!("{body}&end={end}")
}

/// Opens a link: a whole address, or the part that follows `#`, with or without it.
///
/// It always yields a design. An empty text or an address without `#` is the default design.
#[must_use]
pub fn open(text: &str) -> Opened {
    let fragment = address::fragment(text);
    let mut opened =
        Opened { design: Design::default(), complaints: Vec::new(), remarks: Vec::new(), original: text.to_owned() };
    if fragment.is_empty() {
        return opened;
    }

    let mut complaints = Complaints::default();
    let pairs: Pairs = match serde_urlencoded::from_str(&fragment) {
        Ok(pairs) => pairs,
        Err(_) => {
            complaints.push(LinkComplaint::Unreadable);
            Pairs::new()
        }
    };
    let version = read_version(&pairs, &mut complaints);
    opened.design = match version {
        Version::One => v1::read(&pairs, &mut complaints, &mut opened.remarks),
    };
    match judge_end(&fragment, &pairs, &opened.design) {
        End::Missing => opened.remarks.push(Remark::NoChecksum),
        End::Right => {}
        End::Wrong(given) => complaints.push_first(LinkComplaint::Altered { given }),
    }
    opened.complaints = complaints.into_list();
    opened
}

/// Finds the version by the first `v`; complaints are made for every version that cannot be used as it is.
fn read_version(pairs: &Pairs, complaints: &mut Complaints) -> Version {
    let used = Version::NEWEST.number();
    let mut given = pairs.iter().filter(|(key, _)| key == "v").map(|(_, value)| value);
    let Some(first) = given.next() else {
        complaints.push(LinkComplaint::NoVersion { used });
        return Version::NEWEST;
    };
    // Only digits: the parser alone would take "+1" too.
    let digits = first.bytes().all(|byte| byte.is_ascii_digit());
    let known = first.parse().ok().filter(|_| digits).and_then(Version::from_number);
    if known.is_none() {
        complaints.push(LinkComplaint::UnknownVersion { given: first.clone(), used });
    }
    let version = known.unwrap_or(Version::NEWEST);
    for again in given {
        complaints.push(LinkComplaint::repeated("v", again, version.number().to_string()));
    }
    version
}

enum End {
    Missing,
    Right,
    Wrong(String),
}

/// Compares the checksum of a link with its text.
///
/// Messengers and forums rewrite links without changing what they say: `ü` for `%C3%BC`, `+` for a space,
/// a pair of their own at the end. So the checksum counts as right as well when it is the one that
/// we would write for the very design that was read.
fn judge_end(fragment: &str, pairs: &Pairs, design: &Design) -> End {
    let Some((_, given)) = pairs.iter().rfind(|(key, _)| key == "end") else {
        return End::Missing;
    };
    // The full stop or bracket of the sentence around a link often becomes part of it.
    let end = given.trim_end_matches(|c: char| !c.is_ascii_alphanumeric());
    let stands_last = pairs.last().is_some_and(|(key, _)| key == "end");
    let covered = find::rsplit_once(fragment, "&end=").map(|(covered, _)| covered);
    let of_the_text = stands_last && covered.is_some_and(|text| checksum(text) == end);
    if of_the_text || write(design).strip_suffix(end).is_some_and(|rest| rest.ends_with("&end=")) {
        End::Right
    } else {
        End::Wrong(given.clone())
    }
}

#[cfg(test)]
mod tests;
