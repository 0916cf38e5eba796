//! The flight as it is looked at: chart, sentence, tables and events.

use std::sync::Arc;
use std::time::Duration;

use holdwater_answers::curves::FlightCurves;
use holdwater_answers::numbers::Answers;

use crate::browser::WhenQuiet;
use crate::dom::follow;
use crate::flown::{Flown, Same};
use crate::react::RwSignal;

/// How long the delay has to rest before the flight is shown anew: drawing it costs more than all else that moves
/// with the delay, and nobody reads it while a finger moves.
const PAUSE: Duration = Duration::from_millis(60);

/// A flight with its answers.
pub struct Seen {
    /// Height, speed and acceleration against time.
    pub curves: FlightCurves,
    /// The answers at the same delay.
    pub answers: Same<Answers>,
}

/// The flight at the delay, made anew once the delay rests.
pub fn seen_flight(flown: Flown) -> RwSignal<Option<Arc<Seen>>> {
    let seen = RwSignal::new(None);
    let look = move || seen.set(flight_now(flown).map(Arc::new));
    let later = WhenQuiet::new(PAUSE, look);
    follow(move || {
        flown.answers.track();
        if seen.with_untracked(Option::is_none) {
            look();
        } else {
            later.ask();
        }
    });
    seen
}

fn flight_now(flown: Flown) -> Option<Seen> {
    let answers = flown.answers.get_untracked()?;
    let study = flown.study.get_untracked()?;
    Some(Seen { curves: study.flight(flown.delay.get_untracked()), answers })
}
