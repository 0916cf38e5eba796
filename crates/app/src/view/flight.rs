//! Question 5: what will the flight look like?

use holdwater_answers::words::why_flight;
use leptos::prelude::*;

use super::events::Events;
use super::flight_chart::FlightChart;
use super::quantity::Quantity;
use super::words::WhyPanels;
use crate::live::live;
use crate::seen::seen_flight;
use crate::state::page;

/// The flight: where it goes, how the timer is set, the chart, the events, the reasons.
#[component]
pub fn FlightQuestion() -> impl IntoView {
    let answers = page().flown.answers;
    let seen = seen_flight(page().flown);
    let apogee = live(move || answers.with(|answers| Some(answers.as_ref()?.apogee_m)));
    let apogee_t = live(move || answers.with(|answers| Some(answers.as_ref()?.apogee_t_s)));
    view! {
        <section class="question" aria-labelledby="flight-title">
            <h2 id="flight-title">"What will the flight look like?"</h2>
            <p class="lead">
                "It reaches "<strong><Quantity value=apogee decimals=1 unit="m" test="apogee"/></strong>
                " over the site, "
                <strong><Quantity value=apogee_t decimals=2 unit="s" test="apogee-time"/></strong>
                " after lift-off."
            </p>
            {TimerSettings().into_any()}
            <FlightChart seen/>
            <Events seen/>
            <WhyPanels reasons=why_flight()/>
        </section>
    }
}

/// What to set a release timer to, by what starts it.
#[component]
fn TimerSettings() -> impl IntoView {
    let flown = page().flown;
    let released = move || flown.answers.with(|answers| answers.as_ref()?.release);
    let after_liftoff = live(move || released().map(|release| release.t_s));
    let after_burnout = live(move || released().map(|_| flown.delay.get()));
    view! {
        <div hidden=live(move || released().is_none())>
            <dl class="timer" data-test="timer">
                <div>
                    <dt>"Release timer started at lift-off"</dt>
                    <dd><Quantity value=after_liftoff decimals=2 unit="s" test="timer-liftoff"/></dd>
                </div>
                <div>
                    <dt>"Release timer started at burnout"</dt>
                    <dd><Quantity value=after_burnout decimals=2 unit="s" test="timer-burnout"/></dd>
                </div>
            </dl>
            <p class="timer-caution">
                "The lag of the timer and of the release itself comes off these times, and no two boosts burn \
                equally long: stay clear of the latest release by more than both."
            </p>
        </div>
    }
}
