//! What a flyer plans with: until when the water covers the nozzle, and the latest release.

use super::coast::CoastState;
use super::launch::{Launch, WaterMode};
use super::record::Silent;

/// Points of the first look for the latest release; it ends at the first one that costs too much.
const LOOKS: u32 = 64;
/// Refinements of a time; each at least halves the uncertainty every other time.
const REFINEMENTS: u32 = 40;
/// Times are found to this, s; a tenth of a millisecond is below any release mechanism.
const RESOLUTION: f64 = 1e-6;

impl Launch {
    /// The delay at which the water stops covering the nozzle; `None` if it never does within the coast flown.
    #[must_use]
    pub fn uncovers(&self) -> Option<f64> {
        if self.sustainer().vessel.standing <= 0.0 {
            return None;
        }
        let coast = self.coast(WaterMode::Free)?;
        let cover = |delay: f64| coast.at(delay).map(|state: CoastState| self.sustainer().cover(&state));
        if cover(0.0)? <= 0.0 {
            return Some(0.0);
        }
        let mut covered = 0.0;
        for delay in coast.step_ends() {
            let Some(now) = cover(delay) else { break };
            if now <= 0.0 {
                return Some(last_true(covered, delay, |at| cover(at).is_some_and(|depth| depth > 0.0)));
            }
            covered = delay;
        }
        None
    }

    /// Share of the settled ideal's height, at the same delay, that lifted water takes off; all of it for a flight that has no answer.
    #[must_use]
    pub fn loss(&self, delay: f64) -> f64 {
        let height = |mode| self.fly(delay, mode, &mut Silent).map(|flight| flight.sustainer.apogee.1);
        match (height(WaterMode::Free), height(WaterMode::Settled)) {
            (Ok(free), Ok(settled)) if settled > 0.0 => 1.0 - free / settled,
            _ => 1.0,
        }
    }

    /// The longest delay such that every shorter one loses less than a share of height; `None` if that is never reached in the coast flown.
    #[must_use]
    pub fn latest_release(&self, share: f64) -> Option<f64> {
        let longest = self.longest_delay()?;
        if self.sustainer().vessel.standing <= 0.0 {
            return None;
        }
        let mut kept = 0.0;
        for look in 0..LOOKS {
            // Denser at first, where the water starts to move. The very end is left out: there the stack has no speed.
            let part = f64::from(look) / f64::from(LOOKS);
            let delay = longest * part * part.sqrt();
            if self.loss(delay) >= share {
                return Some(last_true(kept, delay, |at| self.loss(at) < share));
            }
            kept = delay;
        }
        None
    }

    /// The longest delay flown: to the top of the stack or to the horizon, whichever comes first; `None` for a single stage.
    #[must_use]
    pub fn longest_delay(&self) -> Option<f64> {
        let end = |mode| {
            let coast = self.coast(mode)?;
            Some(coast.top.map_or(self.horizon(), |(t, _)| (t - coast.burnout.0).min(self.horizon())))
        };
        Some(end(WaterMode::Free)?.min(end(WaterMode::Settled)?).max(0.0))
    }
}

/// The last place between two at which a statement is true, if it is true at the first, false at the second, and changes once.
///
/// Halving, because the quantities behind such statements may jump.
fn last_true(from: f64, to: f64, holds: impl Fn(f64) -> bool) -> f64 {
    let (mut yes, mut no) = (from, to);
    for _ in 0..REFINEMENTS {
        if no - yes <= RESOLUTION {
            break;
        }
        let middle = 0.5 * (yes + no);
        if holds(middle) {
            yes = middle;
        } else {
            no = middle;
        }
    }
    yes
}
