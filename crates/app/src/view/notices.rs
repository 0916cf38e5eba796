//! What had to be said about an opened link.

use holdwater_design::link::Opened;
use leptos::prelude::*;

use crate::dom::{El, block, button, html};
use crate::state::page;

/// Complaints and remarks with the original text at hand, until they are put away.
pub fn notices() -> El {
    let notice = page().notice;
    block("div", "notices").content(move || notice.get().map(|opened| vec![link_notice(&opened)]).unwrap_or_default())
}

fn link_notice(opened: &Opened) -> El {
    let notice = page().notice;
    let wrong = !opened.complaints.is_empty();
    let title = if wrong { "Not all of this link could be used" } else { "About this link" };
    let complaints = opened.complaints.iter().map(ToString::to_string);
    let lines = complaints.chain(opened.remarks.iter().map(ToString::to_string));
    let mut original = html("details").child(html("summary").text("The link as it came")).child(
        html("textarea")
            .attrs(&[("readonly", ""), ("aria-label", "The link as it came"), ("rows", "3")])
            .text(&opened.original),
    );
    if !wrong {
        original = original.attr("hidden", "");
    }
    block("section", if wrong { "notice act" } else { "notice" })
        .attrs(&[("role", "status"), ("data-test", "notice")])
        .child(html("h2").text(title))
        .child(
            html("ul")
                .attrs(&[("tabindex", "0"), ("aria-label", "What was found")])
                .children(lines.map(|line| html("li").text(&line))),
        )
        .child(button("Put away", move || notice.set(None)).attr("data-test", "notice-close"))
        .child(original)
}
