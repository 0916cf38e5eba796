//! What can be wrong with a link, in words.

use core::fmt;

use crate::check::Complaint;
use crate::design::NAME_LIMIT;
use crate::parts::{MOST_PARTS, PartComplaint, PartInput, PartKind};
use crate::rows::Input;
use crate::text::quoted;

/// Most complaints that are kept one by one. It is enough for every input to be wrong at once, but
/// keeps a hostile link from filling the memory of a phone.
pub(super) const LISTED: usize = Input::COUNT + MOST_PARTS * PartInput::COUNT + 20;

/// Something in a link that was not used, or not as it stood there. Displays as one line.
#[derive(Clone, Debug, PartialEq)]
pub enum LinkComplaint {
    /// The checksum does not fit.
    Altered {
        /// The checksum in the link.
        given: String,
    },
    /// The text cannot be taken apart into keys and values.
    Unreadable,
    /// The link does not say its version.
    NoVersion {
        /// The version it was read as.
        used: u32,
    },
    /// The link has a version that is not known here, most likely a newer one.
    UnknownVersion {
        /// The version in the link.
        given: String,
        /// The version it was read as.
        used: u32,
    },
    /// No input has this key.
    UnknownKey {
        /// The key in the link.
        key: String,
        /// The value it had.
        given: String,
    },
    /// A key stands in the link more than once; the first one counts.
    Repeated {
        /// The key.
        key: String,
        /// The later value, which was not used.
        given: String,
        /// What is used, in words.
        used: String,
    },
    /// The name was too long or held characters that break a line.
    Name {
        /// The name in the link.
        given: String,
        /// The name that is used.
        used: String,
    },
    /// A value that is not allowed.
    Value(Complaint),
    /// A value of a vessel part that was not used as it stood.
    Part {
        /// The key in the link.
        key: String,
        /// What is wrong.
        complaint: PartComplaint,
    },
    /// The link does not say what a part is.
    NoKind {
        /// The key that is missing.
        key: String,
    },
    /// A part has a number above those that are read.
    TooManyParts {
        /// The key in the link.
        key: String,
        /// The value it had.
        given: String,
    },
    /// Something of the log could not be used.
    Log {
        /// What, as a sentence without full stop.
        what: String,
    },
    /// So many more complaints that are not listed.
    More(usize),
}

impl LinkComplaint {
    /// A complaint about a key that has occurred before.
    pub(super) fn repeated(key: &str, given: &str, used: String) -> Self {
        Self::Repeated { key: key.to_owned(), given: given.to_owned(), used }
    }

    /// The key that the complaint is about; empty when it is about none.
    #[must_use]
    pub fn key(&self) -> &str {
        match self {
            Self::Altered { .. } => "end",
            Self::NoVersion { .. } | Self::UnknownVersion { .. } => "v",
            Self::UnknownKey { key, .. }
            | Self::Repeated { key, .. }
            | Self::Part { key, .. }
            | Self::NoKind { key }
            | Self::TooManyParts { key, .. } => key,
            Self::Log { .. } => "log",
            Self::Name { .. } => "name",
            Self::Value(complaint) => complaint.input.row().key,
            Self::Unreadable | Self::More(_) => "",
        }
    }
}

impl fmt::Display for LinkComplaint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Altered { given } => write!(
                f,
                "This link seems to have been cut short or altered: its checksum (end) is {}, which does not fit. \
                 Using what could be read; compare it with the sender's.",
                quoted(given)
            ),
            Self::Unreadable => {
                write!(f, "This link cannot be read. Allowed: key=value pairs joined by &. Using the default design.")
            }
            Self::NoVersion { used } => {
                write!(f, "This link does not say its version (v). Allowed: v={used}. Reading it as version {used}.")
            }
            Self::UnknownVersion { given, used } => write!(
                f,
                "This link has version (v) {}, which this page does not know. Allowed: up to {used}. \
                 Reading it as version {used}; a reload may bring a newer page.",
                quoted(given)
            ),
            Self::UnknownKey { key, given } => write!(
                f,
                "{} is no key of a link, so its value {} was not used. Allowed: the keys in the table of inputs.",
                quoted(key),
                quoted(given)
            ),
            Self::Repeated { key, given, used } => write!(
                f,
                "{key} stands in the link more than once, so its later value {} was not used. \
                 Allowed: each key once. Using the first: {used}.",
                quoted(given)
            ),
            Self::Name { given, used } => write!(
                f,
                "Name (name): {} cannot be used as it is. Allowed: {NAME_LIMIT} characters without line breaks. \
                 Using \"{used}\".",
                quoted(given)
            ),
            Self::Value(complaint) => complaint.fmt(f),
            Self::Part { complaint, .. } => complaint.fmt(f),
            Self::NoKind { key } => write!(
                f,
                "{key} is not in the link, so it does not say what that part is. Allowed: {}. Using {} meanwhile.",
                PartInput::Kind.allowed(),
                PartKind::Shell.word().word
            ),
            Self::TooManyParts { key, given } => write!(
                f,
                "{key} is a part too many, so its value {} was not used. Allowed: p1 to p{MOST_PARTS}.",
                quoted(given)
            ),
            Self::Log { what } => write!(
                f,
                "Log (log): {what}. Allowed: rows of part, fills and f (failed) or w (whole), joined by semicolons. \
                 Using the other rows."
            ),
            Self::More(1) => write!(f, "One more value of this link could not be used."),
            Self::More(count) => write!(f, "{count} more values of this link could not be used."),
        }
    }
}

/// Something about a link that is good to know. Displays as one line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Remark {
    /// The link has no checksum.
    NoChecksum,
    /// The numbers of the parts have gaps, so the parts have other numbers here.
    PartsRenumbered,
}

impl fmt::Display for Remark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoChecksum => write!(f, "This link has no checksum (end): a part cut off would not show."),
            Self::PartsRenumbered => {
                write!(f, "The parts of this link are not numbered without gaps; here they are p1, p2 and so on.")
            }
        }
    }
}

/// Collects complaints up to a limit and counts the rest.
#[derive(Default)]
pub(super) struct Complaints {
    list: Vec<LinkComplaint>,
    more: usize,
}

impl Complaints {
    pub(super) fn push(&mut self, complaint: LinkComplaint) {
        if self.list.len() < LISTED {
            self.list.push(complaint);
        } else {
            self.more += 1;
        }
    }

    /// Adds the complaint that explains all others, which is listed whatever the limit.
    pub(super) fn push_first(&mut self, complaint: LinkComplaint) {
        self.list.insert(0, complaint);
    }

    pub(super) fn into_list(mut self) -> Vec<LinkComplaint> {
        if self.more > 0 {
            self.list.push(LinkComplaint::More(self.more));
        }
        self.list
    }
}
