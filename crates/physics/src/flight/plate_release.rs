//! What a plate does at the release: gas that it has let down vents first.

use super::coast::CoastState;
use super::plate::{Ground, Plate};
use super::release::{Next, Release, Shut};
use super::sustainer::Sustainer;

impl Sustainer {
    /// Gas that a plate which water has met has let down to the nozzle, m3: what came down while water leaked, and that of the gap once
    /// the finger below the plate has broken through.
    #[must_use]
    pub fn gas_at_nozzle(&self, state: &CoastState) -> f64 {
        let Some(plate) = self.plate.as_ref().filter(|_| state.wetted) else {
            return 0.0;
        };
        if plate.gap <= 0.0 {
            return state.leaked;
        }
        let dip = self.dip(state);
        let past = state.finger - (self.vessel.standing - dip);
        let broken_through = if dip > 0.0 { (past / dip).clamp(0.0, 1.0) } else { f64::from(past >= 0.0) };
        state.leaked + plate.gap * broken_through
    }
}

impl Release<'_> {
    /// A release after water has met the plate: where the parcel lands, and what comes first.
    pub(super) fn behind_plate(&mut self, plate: &Plate, state: &CoastState, covered: bool) -> Next {
        self.body.ground = Ground::Plate { height: plate.height, below: plate.below - state.leaked };
        if covered {
            return Next::Water;
        }
        let vessel = &self.sustainer.vessel;
        let pocket = self.sustainer.gas_at_nozzle(state);
        self.mark = (2.0 * pocket / (vessel.area * vessel.bore_m)).min(1.0);
        let share = (pocket / self.gas_volume()).min(1.0);
        Next::Vent(Shut::Pocket { gas_above: self.body.gas_kg * (1.0 - share) })
    }
}
