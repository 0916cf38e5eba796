//! What had to be said about an opened link.

use holdwater_design::link::Opened;

use crate::dom::{El, block, button, html};
use crate::state::page;

/// Complaints and remarks with the original text at hand, until they are put away.
pub fn notices() -> El {
    let notice = page().notice;
    block("div", "notices").content(move || notice.with(|opened| opened.iter().map(link_notice).collect()))
}

fn link_notice(opened: &Opened) -> El {
    let notice = page().notice;
    if opened.complaints.is_empty() {
        return quiet_note(opened);
    }
    let complaints = opened.complaints.iter().map(ToString::to_string);
    let lines = complaints.chain(opened.remarks.iter().map(ToString::to_string));
    let original = html("details").child(html("summary").text("The link as it came")).child(
        html("textarea")
            .attrs(&[("readonly", ""), ("aria-label", "The link as it came"), ("rows", "3")])
            .text(&opened.original),
    );
    block("section", "notice act")
        .attrs(&[("role", "status"), ("data-test", "notice")])
        .child(html("h2").text("Not all of this link could be used"))
        .child(
            html("ul")
                .attrs(&[("tabindex", "0"), ("aria-label", "What was found")])
                .children(lines.map(|line| html("li").text(&line))),
        )
        .child(button("Put away", move || notice.set(None)).attr("data-test", "notice-close"))
        .child(original)
}

/// What is only worth a line: the design is what the link says.
fn quiet_note(opened: &Opened) -> El {
    let notice = page().notice;
    let remarks: Vec<String> = opened.remarks.iter().map(ToString::to_string).collect();
    block("section", "quiet-note")
        .attrs(&[("role", "status"), ("data-test", "notice")])
        .child(html("p").text(&remarks.join(" ")))
        .child(button("Put away", move || notice.set(None)).attr("data-test", "notice-close"))
}
