//! The designs that this device keeps.

use holdwater_design::shelf::{self, Entry};
use leptos::prelude::event_target_value;
use web_sys::HtmlInputElement;

use crate::browser::{ask_for_name, day_of, seconds_since_1970};
use crate::dom::{El, block, button, html, words};
use crate::files::{save_file, text_of_file};
use crate::keeping::Keeping;
use crate::react::RwSignal;
use crate::state::{Page, page};

/// Most designs listed at once; searching finds the others.
const LISTED: usize = 12;

/// The list with its search, and the one file of everything.
pub fn recent(open: RwSignal<bool>) -> El {
    let page = page();
    let keeping = page.keeping;
    let search = RwSignal::new(String::new());
    let field = html("input")
        .attrs(&[
            ("type", "text"),
            ("placeholder", "Search by name"),
            ("aria-label", "Search the designs by name"),
            ("data-test", "recent-search"),
            ("autocomplete", "off"),
        ])
        .on("input", move |event| search.set(event_target_value(&event)));
    let rows = move || {
        if !open.get() {
            return Vec::new();
        }
        keeping.shelf.with(|shelf| {
            search.with(|words| {
                shelf.search(words).into_iter().take(LISTED).map(|entry| row(page, entry, open)).collect()
            })
        })
    };
    let empty = move || open.get() && keeping.shelf.with(|shelf| shelf.recent().is_empty());
    block("div", "recent")
        .child(html("h2").text("Designs on this device"))
        .child(
            words(
                "p",
                "",
                "What you change is kept here by itself. It never leaves the device unless you save it to a file.",
            )
            .class("says"),
        )
        .child(
            block("p", "complaint").attr("role", "alert").text_live(move || keeping.trouble.get().unwrap_or_default()),
        )
        .child(undelete(keeping))
        .child(field)
        .child(words("p", "says", "Nothing yet.").hidden_when(move || !empty()))
        .child(block("ul", "kept").attr("data-test", "recent").content(rows))
        .child(block("div", "pick").child(save(keeping)).child(take_in(keeping)))
}

fn row(page: &'static Page, entry: &Entry, open: RwSignal<bool>) -> El {
    let keeping = page.keeping;
    let name = if entry.name.trim().is_empty() { "Without a name".to_owned() } else { entry.name.clone() };
    let link = block("a", "example")
        .attr("href", &format!("#{}", entry.link))
        .on("click", move |_| {
            page.flush_link();
            open.set(false);
        })
        .child(words("span", "example-title", &name))
        .child(words("span", "example-story", &day_of(entry.used_s)));
    let (id, renamed) = (entry.id.clone(), name.clone());
    let rename = button("Rename", move || {
        if let Some(name) = ask_for_name(&renamed) {
            keeping.change(|shelf| shelf.rename(&id, &name, seconds_since_1970()));
        }
    });
    let id = entry.id.clone();
    let delete = button("Delete", move || {
        let gone = keeping.change(|shelf| shelf.delete(&id, seconds_since_1970())).flatten();
        keeping.deleted.set(gone);
    });
    html("li")
        .child(link)
        .child(rename.attr("aria-label", &format!("Rename {name}")))
        .child(delete.attr("aria-label", &format!("Delete {name}")))
}

/// Brings the design deleted last back.
fn undelete(keeping: Keeping) -> El {
    let back = button("Bring it back", move || {
        if let Some(entry) = keeping.deleted.get_untracked() {
            keeping.change(|shelf| shelf.restore(entry, seconds_since_1970()));
            keeping.deleted.set(None);
        }
    });
    block("p", "")
        .attrs(&[("role", "status"), ("data-test", "deleted")])
        .hidden_when(move || keeping.deleted.with(Option::is_none))
        .text("Deleted. ")
        .child(back)
}

/// Everything into one file.
fn save(keeping: Keeping) -> El {
    button("Save all to a file", move || {
        save_file("holdwater-designs.txt", "text/plain", &keeping.shelf.with_untracked(shelf::write));
    })
    .attr("data-test", "save-all")
}

/// A file of designs, merged with what is here.
fn take_in(keeping: Keeping) -> El {
    let file = html("input").attrs(&[
        ("type", "file"),
        ("accept", ".txt,text/plain"),
        ("aria-label", "Take in designs from a file"),
        ("data-test", "take-in"),
    ]);
    let element = file.get::<HtmlInputElement>();
    file.on("change", move |_| {
        let Some(field) = element.clone() else { return };
        text_of_file(&field, move |text| {
            let reading = shelf::read(text.as_bytes());
            let skipped = reading.skipped.len();
            keeping.change(|shelf| shelf.merge(reading.shelf));
            if skipped > 0 {
                keeping.trouble.set(Some(format!("{skipped} lines of the file could not be read and were left out.")));
            }
        });
    })
}
