//! The rest: choices, designs kept, examples to start from, and what this page is.

use holdwater_design::examples::{EXAMPLES, Example};

use super::recent::recent;
use super::settings::settings;
use crate::dom::{El, block, button, html, words};
use crate::react::RwSignal;
use crate::state::page;

/// What the page is and does, for About.
const ABOUT: [&str; 2] = [
    "Holdwater computes how the sustainer of a two-stage water rocket flies when it is released after a coast. \
     All of it happens in your browser; nothing is sent anywhere.",
    "The link in the address bar is the design: whoever opens it sees exactly what you meant. Values that are \
     not in a link have their default.",
];

/// Choices, designs kept, examples and about.
pub fn more(open: RwSignal<bool>) -> El {
    block("section", "more")
        .attrs(&[("id", "more"), ("aria-label", "More")])
        .hidden_when(move || !open.get())
        .child(settings())
        .child(recent(open))
        .child(html("h2").text("Examples"))
        .child(html("ul").children(EXAMPLES.iter().map(|example| example_link(example, open))))
        .child(html("h2").text("About"))
        .children(ABOUT.iter().map(|paragraph| html("p").text(paragraph)))
        .child(button("Close", move || open.set(false)))
}

/// An example is a plain link: the browser makes the history entry, and the address sync opens it.
fn example_link(example: &Example, open: RwSignal<bool>) -> El {
    let page = page();
    let link = block("a", "example")
        .attr("href", &format!("#{}", example.link))
        .on("click", move |_| {
            page.flush_link();
            open.set(false);
        })
        .child(words("span", "example-title", example.title))
        .child(words("span", "example-story", example.story));
    html("li").child(link)
}
