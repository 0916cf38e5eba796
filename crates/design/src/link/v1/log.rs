//! The log in a link: `log=A%201,84,f;B,120,w`, with commas and semicolons encoded as a link asks.

use crate::design::Design;
use crate::link::complaint::{Complaints, LinkComplaint};
use crate::log;
use crate::parts::{LOG_LIMIT, joined};

pub(super) fn write(design: &Design) -> Option<(String, String)> {
    (!design.log().is_empty()).then(|| ("log".to_owned(), joined(design.log())))
}

/// Reads the rows; whatever could not be used is complained about, one complaint for each row as far as they are listed.
pub(super) fn read(given: &str, design: &mut Design, complaints: &mut Complaints) {
    let rows: Vec<&str> = given.split(';').filter(|row| !row.trim().is_empty()).collect();
    let log = log::read(&rows.join("\n"));
    let left_out = design.set_log(&log.entries());
    let listed = log.complaints.len() + log.more_complaints;
    for complaint in &log.complaints {
        complaints.push(LinkComplaint::Log { what: complaint.to_string() });
    }
    let mut rows_not_used = |count: usize, why: &str| {
        if count > 0 {
            let s = if count == 1 { "" } else { "s" };
            complaints.push(LinkComplaint::Log { what: format!("{count} row{s} {why}") });
        }
    };
    rows_not_used(log.more_complaints, "more cannot be read");
    // Headings and remarks, which people write above a log that they type, are passed over there.
    rows_not_used(rows.len().saturating_sub(log.rows.len() + listed), "without a part");
    rows_not_used(left_out, &format!("beyond the {LOG_LIMIT} characters that a link holds"));
}
