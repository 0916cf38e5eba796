//! What *Share* answers.

use holdwater_answers::forum::Format;
use holdwater_pictures::code::Code;
use web_sys::HtmlTextAreaElement;

use crate::browser::{NextFrame, select_text};
use crate::dom::{El, block, button, follow, html, svg, words};
use crate::files::save_file;
use crate::react::RwSignal;
use crate::share::{Shared, can_send, copy_forum_text, link_now, send};
use crate::state::{Page, page};

/// Says that the link was copied, or holds it ready to be copied by hand; offers the other ways.
pub fn share_panel(shared: RwSignal<Shared>) -> El {
    let page = page();
    let silent = move || shared.with(|shared| *shared == Shared::Not);
    let said = move || match shared.get() {
        Shared::Not => "",
        Shared::Copied(words) => words,
        Shared::ByHand(_) => "The browser did not let the page copy. Copy this:",
    };
    let forum = [("Plain text", Format::Plain), ("Markdown", Format::Markdown), ("BBCode", Format::BbCode)].map(
        |(word, format)| {
            button(word, move || copy_forum_text(page, format, shared)).attr("data-test", &format!("forum-{format:?}"))
        },
    );
    let ways = move || {
        // Made when it is shown: a code takes a moment.
        if silent() {
            return Vec::new();
        }
        // Whoever photographs it gets what is shown now.
        page.design.track();
        let _ = page.compare.get();
        vec![code(page)]
    };
    let sending = can_send().then(|| button("Send it …", move || send(page)).attr("data-test", "send"));
    block("section", "notice share")
        .attrs(&[("aria-label", "Share")])
        .class_when("empty", silent)
        .child(words("h2", "spoken", "Share").hidden_when(silent))
        .child(
            block("p", "").attrs(&[("role", "status"), ("data-test", "shared")]).text_live(move || said().to_owned()),
        )
        .child(by_hand(shared))
        .child(
            block("div", "share-ways")
                .hidden_when(silent)
                .child(words("h3", "", "As a text for a forum"))
                .child(words("p", "says", "What you changed, what comes out, the cautions, and the link."))
                .child(block("div", "pick").children(forum))
                .child(words("h3", "", "As a code for another phone"))
                .child(block("div", "code-place").content(ways))
                .child(block("div", "pick").children(sending).child(button("Close", move || shared.set(Shared::Not)))),
        )
}

/// A field to copy from by hand.
fn by_hand(shared: RwSignal<Shared>) -> El {
    let text =
        move || shared.with(|shared| if let Shared::ByHand(text) = shared { text.clone() } else { String::new() });
    let field = html("textarea")
        .attrs(&[("class", "link-field"), ("readonly", ""), ("rows", "4"), ("aria-label", "To be copied by hand")])
        .hidden_when(move || text().is_empty())
        .prop_live("value", text);
    if let Some(field) = field.get::<HtmlTextAreaElement>() {
        // In the next frame, when it is no longer hidden.
        let offer = NextFrame::new(move || select_text(&field));
        follow(move || {
            if !text().is_empty() {
                offer.ask();
            }
        });
    }
    field
}

/// The link as a QR code, or why there is none.
fn code(page: &'static Page) -> El {
    match Code::new(&link_now(page)) {
        Err(too_long) => words("p", "complaint", &format!("{too_long} Send the link instead.")),
        Ok(code) => {
            let file = code.svg();
            let picture = code_picture(&code).attrs(&[
                ("class", "qr"),
                ("role", "img"),
                ("aria-label", "QR code of the link"),
                ("data-test", "qr"),
            ]);
            html("div")
                .child(picture)
                .child(button("Save the code", move || save_file("holdwater-code.svg", "image/svg+xml", &file)))
        }
    }
}

/// A code, dark on light whatever lies below.
pub fn code_picture(code: &Code) -> El {
    let side = code.side.to_string();
    svg("svg")
        .attr("viewBox", &format!("0 0 {side} {side}"))
        .child(svg("rect").attrs(&[("class", "qr-paper"), ("width", &side), ("height", &side)]))
        .child(svg("path").attrs(&[("class", "qr-ink"), ("d", &code.path)]))
}
