//! Version 1 of the link: one flat key for each input, `p1.wall` and the like for vessel parts, and `log`.
//!
//! What is written here must be read by every later page. A default, key or unit of the table that would
//! change what an old link means needs a new version and a copy of the old facts here; new keys do not.

mod log;
mod parts;

use super::Pairs;
use super::complaint::{Complaints, LinkComplaint, Remark};
use crate::check::check;
use crate::design::Design;
use crate::rows::Input;

/// Writes everything that precedes the checksum.
pub(super) fn write(design: &Design) -> String {
    let mut pairs = vec![("v".to_owned(), "1".to_owned())];
    if !design.name().is_empty() {
        pairs.push(("name".to_owned(), design.name().to_owned()));
    }
    pairs.extend(design.changed().map(|input| {
        // An input whose default is a value always has one, so this is empty only for an input left out.
        let value = design.get(input).map(|number| number.to_string()).unwrap_or_default();
        (input.row().key.to_owned(), value)
    }));
    pairs.extend(parts::write(design));
    pairs.extend(log::write(design));
    // Pairs of texts can always be encoded; the bare version is a link too, should that ever change.
    let encoded = serde_urlencoded::to_string(pairs).unwrap_or_else(|_| "v=1".to_owned());
    // Some messengers turn + into a space or stop at it, and forums make bold type of *.
    encoded.replace('+', "%20").replace('*', "%2A")
}

/// Reads the pairs of a link. Of a key that occurs more than once the first one counts.
pub(super) fn read(pairs: &Pairs, complaints: &mut Complaints, remarks: &mut Vec<Remark>) -> Design {
    let mut design = Design::default();
    let (mut name_seen, mut log_seen) = (false, false);
    let mut seen = [false; Input::COUNT];
    let mut parts = parts::Given::default();
    for (key, given) in pairs {
        match key.as_str() {
            // Version and checksum belong to the link as a whole and have been looked at there.
            "v" | "end" => {}
            "name" if name_seen => {
                complaints.push(LinkComplaint::repeated(key, given, format!("\"{}\"", design.name())));
            }
            "name" => {
                name_seen = true;
                if !design.set_name(given) {
                    complaints.push(LinkComplaint::Name { given: given.clone(), used: design.name().to_owned() });
                }
            }
            "log" if log_seen => {
                complaints.push(LinkComplaint::repeated(
                    key,
                    given,
                    format!("a log with {} in it", design.log().len()),
                ));
            }
            "log" => {
                log_seen = true;
                log::read(given, &mut design, complaints);
            }
            _ => match Input::from_key(key) {
                None if parts.take(key, given, complaints) => {}
                None => complaints.push(LinkComplaint::UnknownKey { key: key.clone(), given: given.clone() }),
                Some(input) if seen[input as usize] => {
                    let used = input.row().show(design.get(input));
                    complaints.push(LinkComplaint::repeated(key, given, used));
                }
                Some(input) => {
                    seen[input as usize] = true;
                    let taken = check(input, given).and_then(|value| design.set(input, value));
                    if let Err(complaint) = taken {
                        complaints.push(LinkComplaint::Value(complaint));
                    }
                }
            },
        }
    }
    parts.read(&mut design, complaints, remarks);
    design
}
