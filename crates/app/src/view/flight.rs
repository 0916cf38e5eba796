//! Question 5: what will the flight look like?

use holdwater_answers::words::why_flight;

use super::events::events;
use super::flight_chart::flight_chart;
use super::quantity::{Look, quantity};
use super::words::why_panels;
use crate::dom::{El, block, html, words};
use crate::seen::seen_flight;
use crate::state::page;

/// The flight: where it goes, how the timer is set, the chart, the events, the reasons.
pub fn flight_question() -> El {
    let answers = page().flown.answers;
    let seen = seen_flight(page().flown);
    let strong = |number: El, test| html("strong").child(number.attr("data-test", test));
    let apogee = quantity(move || answers.with(|answers| Some(answers.as_ref()?.apogee_m)), Look::of(1, "m"));
    let apogee_t = quantity(move || answers.with(|answers| Some(answers.as_ref()?.apogee_t_s)), Look::of(2, "s"));
    let lead = words("p", "lead", "It reaches ")
        .hidden_when(move || answers.with(Option::is_none))
        .child(strong(apogee, "apogee"))
        .text(" over the site, ")
        .child(strong(apogee_t, "apogee-time"))
        .text(" after lift-off.");
    block("section", "question")
        .attr("aria-labelledby", "flight-title")
        .child(html("h2").attr("id", "flight-title").text("What will the flight look like?"))
        .child(lead)
        .child(timer_settings())
        .child(flight_chart(seen))
        .child(events(seen))
        .child(why_panels(why_flight()))
}

/// What to set a release timer to, by what starts it.
fn timer_settings() -> El {
    let flown = page().flown;
    let released = move || flown.answers.with(|answers| answers.as_ref()?.release);
    let line = |word: &str, test, number: El| {
        html("div").child(html("dt").text(word)).child(html("dd").child(number.attr("data-test", test)))
    };
    let after_liftoff = quantity(move || released().map(|release| release.t_s), Look::of(2, "s"));
    let after_burnout = quantity(move || released().map(|_| flown.delay.get()), Look::of(2, "s"));
    let caution = "The lag of the timer and of the release itself comes off these times, and no two boosts burn \
                   equally long: stay clear of the latest release by more than both.";
    let list = block("dl", "timer")
        .attr("data-test", "timer")
        .child(line("Release timer started at lift-off", "timer-liftoff", after_liftoff))
        .child(line("Release timer started at burnout", "timer-burnout", after_burnout));
    html("div").hidden_when(move || released().is_none()).child(list).child(words("p", "timer-caution", caution))
}
