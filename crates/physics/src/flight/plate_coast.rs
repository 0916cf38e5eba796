//! What a plate does to the water of a coast.
//!
//! It comes in two stages. In the first the water below has not met the plate, or water stands on it: a finger works as in a bare vessel.
//! In the second the plate has water below and gas above, and leaks.

use super::drift::{Drift, Lifted, PLATED, State, leaked};
use super::plate::Plate;
use crate::constants::GRAVITY;
use crate::restrictor::leak::Leak;

/// A plate in its present stage.
#[derive(Clone, Copy, Debug)]
pub(super) struct PlateCoast {
    /// Height above the nozzle end, m.
    pub(super) height: f64,
    /// Length of the vessel above the nozzle end, m.
    length: f64,
    leak: Leak,
    trusted_share: f64,
    /// Whether it leaks now.
    leaking: bool,
    most_leaked: f64,
    /// Most that the finger lifts, m3: the gap below the plate; any amount above it; nought once the plate is wetted.
    most_dug: f64,
    /// Whether a limit lies ahead, so that meeting it is an event.
    watched: bool,
    /// Whether the water has met the plate.
    pub(super) wetted: bool,
}

/// Where the water of a coast starts: what a plate makes of the vessel.
pub(super) struct Start {
    pub(super) plate: PlateCoast,
    /// Height at which lifted water lands first, m.
    pub(super) ceiling: f64,
    /// Depth of the water that the finger goes through, m.
    pub(super) finger_end: f64,
}

impl PlateCoast {
    /// A plate in a vessel of the cross-section and length given.
    pub(super) fn start(plate: &Plate, area: f64, length: f64, standing: f64) -> Start {
        let dry = plate.gap > 0.0;
        let (ceiling, finger_end) = if dry { (plate.height, standing) } else { (length, plate.above / area) };
        let plate = Self {
            height: plate.height,
            length,
            leak: plate.leak,
            trusted_share: plate.trusted_share,
            leaking: false,
            most_leaked: plate.most_leaked,
            most_dug: if dry { plate.gap } else { f64::INFINITY },
            watched: dry,
            wetted: !dry,
        };
        Start { plate, ceiling, finger_end }
    }

    /// Lifted water when the finger has displaced some and some has leaked, m3.
    pub(super) fn lifted(&self, dug: f64, leaked: f64) -> f64 {
        dug.min(self.most_dug) + leaked
    }

    /// Water that leaks per time at a proper deceleration, m3/s.
    pub(super) fn leak_rate(&self, deceleration: f64) -> f64 {
        if self.leaking && deceleration > 0.0 { self.leak.rate(deceleration) } else { 0.0 }
    }

    /// Longest step at a proper deceleration and a speed, s. Within a short while of a long coast the holes go from open to tight: a step
    /// ends where that begins, and it takes three or more.
    pub(super) fn longest_step(&self, deceleration: f64, speed: f64) -> f64 {
        let over_limit = self.leak.bond_over_limit(deceleration);
        if !self.leaking || over_limit <= self.trusted_share {
            return f64::INFINITY;
        }
        // Drag goes as the square of the speed: the time in which the deceleration would fall by a factor e.
        let fall = 0.5 * speed / (deceleration + GRAVITY);
        fall * (1.0 - 1.0 / over_limit).max((1.0 - self.trusted_share) / 3.0).max(0.02)
    }

    /// Positive until the limit ahead is met, m3: the parcel fills the gap, or all has leaked that can.
    pub(super) fn room(&self, dug: f64, leaked: f64) -> f64 {
        if !self.watched {
            1.0
        } else if self.leaking {
            self.most_leaked - leaked
        } else {
            self.most_dug - dug
        }
    }

    fn start_to_leak(&mut self) {
        self.leaking = self.most_leaked > 0.0;
        self.watched = self.leaking;
    }
}

impl<const N: usize> Drift<N> {
    /// The finger has reached its end: the nozzle, or the plate on which the water stands.
    pub(super) fn end_finger(&mut self, y: &mut State<N>) {
        self.finger_done = true;
        self.ripple = false;
        y[3] = self.finger_end;
        // Below a gap the end is the nozzle.
        if let Some(plate) = self.plate.as_mut().filter(|plate| plate.wetted && plate.most_dug > 0.0) {
            plate.start_to_leak();
        }
    }

    /// A limit of the plate is met.
    pub(super) fn meet_limit(&mut self, y: &mut State<N>) {
        if let Some(plate) = &mut self.plate {
            if plate.leaking && N == PLATED {
                y[N - 1] = plate.most_leaked;
                plate.leaking = false;
            }
            plate.watched = false;
        }
    }

    /// The parcel lands at its ceiling without rebound: the stack takes over its mass and momentum. True if that was the nose.
    pub(super) fn land(&mut self, y: &mut State<N>) -> bool {
        let parcel = self.vessel.water.density * self.lifted_volume(y);
        let rest = self.mass(y, self.gas_mass(y));
        y[1] += parcel * self.lifted_speed(y) / (rest + parcel);
        match self.plate.as_mut().filter(|plate| !plate.wetted) {
            None => {
                self.lifted = Lifted::AtNose;
                true
            }
            Some(plate) => {
                plate.wetted = true;
                plate.most_dug = 0.0;
                plate.start_to_leak();
                (self.origin, self.ceiling) = (plate.height, plate.length);
                (y[4], y[5]) = (0.0, 0.0);
                false
            }
        }
    }

    /// Water that has leaked, m3, and whether water has met the plate, if there is one.
    pub(super) fn plate_state(&self, y: &State<N>) -> (f64, bool) {
        (leaked(y), self.plate.as_ref().is_some_and(|plate| plate.wetted))
    }
}
