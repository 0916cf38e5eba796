//! What a flyer plans with: until when the water covers the nozzle, and the latest release.

use super::coast::CoastState;
use super::launch::{Launch, WaterMode};
use super::record::Silent;
use crate::sizing::search::edge;

/// Points of the first look for the latest release; it ends at the first one that costs too much.
const LOOKS: u32 = 64;
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
                return Some(edge(covered, delay, RESOLUTION, &mut |at| cover(at).is_some_and(|depth| depth > 0.0)));
            }
            covered = delay;
        }
        None
    }

    /// Share of the settled ideal's height, at the same delay, that lifted water takes off; all of it for a flight that has no answer.
    #[must_use]
    pub fn loss(&self, delay: f64) -> f64 {
        if self.nothing_is_lifted(delay) {
            return 0.0;
        }
        let height = |mode| self.fly(delay, mode, &mut Silent).map(|flight| flight.sustainer.apogee.1);
        match (height(WaterMode::Free), height(WaterMode::Settled)) {
            (Ok(free), Ok(settled)) if settled > 0.0 => 1.0 - free / settled,
            _ => 1.0,
        }
    }

    /// Whether all water is seated and no gas is below a plate, so that the flight is that of the settled ideal. Not asked of a staging
    /// tube, on which a sustainer may stall.
    fn nothing_is_lifted(&self, delay: f64) -> bool {
        let state = self.coast(WaterMode::Free).and_then(|coast| coast.at(delay));
        self.rocket().staging_tube.is_none()
            && state.is_some_and(|state| state.lifted <= 0.0 && self.sustainer().cover(&state) > 0.0)
    }

    /// The longest delay such that every shorter one loses less than a share of height; `None` if that is never reached in the coast flown.
    #[must_use]
    pub fn latest_release(&self, share: f64) -> Option<f64> {
        let longest = self.longest_delay()?;
        if self.sustainer().vessel.standing <= 0.0 {
            return None;
        }
        latest_below(longest, share, &mut |delay| self.loss(delay))
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

/// The longest delay up to a longest one such that every shorter one loses less than a share; `None` if none loses as much.
///
/// It looks at 64 delays and halves between the last that kept the share and the first that did not.
pub fn latest_below(longest: f64, share: f64, loss: &mut dyn FnMut(f64) -> f64) -> Option<f64> {
    let mut kept = 0.0;
    for look in 0..LOOKS {
        // Denser at first, where the water starts to move. The very end is left out: there the stack has no speed.
        let part = f64::from(look) / f64::from(LOOKS);
        let delay = longest * part * part.sqrt();
        if loss(delay) >= share {
            return Some(edge(kept, delay, RESOLUTION, &mut |at| loss(at) < share));
        }
        kept = delay;
    }
    None
}
