//! The equations of the coast: a slowing stack, a dying booster, and water on the move.

use super::plate_coast::PlateCoast;
use super::vehicle::Vehicle;
use crate::blowdown::BlowDown;
use crate::bubble::Tube;
use crate::constants::GRAVITY;
use crate::interface;
use crate::real::{exp, ln};
use crate::solver::System;
use crate::water::Water;

/// Share of the bore that the gas finger fills: with it, the open tube empties as Clanet and Searby measured.
pub const FINGER_SHARE: f64 = 0.95;

/// The vessel whose water is followed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vessel {
    /// Bore, m.
    pub bore_m: f64,
    /// Cross-section, m2.
    pub area: f64,
    /// Length, m.
    pub length: f64,
    /// Standing height of the seated water, m.
    pub standing: f64,
    /// The water.
    pub water: Water,
}

/// Where the lifted water is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Lifted {
    /// The water is held down: the ideal.
    Never,
    /// On its way to the nose.
    Aloft,
    /// At the nose.
    AtNose,
}

/// States: height, speed, state of the booster's blow-down, the finger (the logarithm of its depth while it is a ripple, which grows at a nearly
/// constant rate; its depth afterwards), the volume-weighted height over its origin and relative speed of what is aloft; and, in a
/// vessel with a plate, the water that has leaked through it.
pub(super) type State<const N: usize> = [f64; N];

/// Number of states in a vessel without plate, and in one with a plate.
pub(super) const BARE: usize = 6;
pub(super) const PLATED: usize = 7;
/// Number of events.
pub(super) const EVENTS: usize = 6;

/// Water that has leaked through a plate, m3.
pub(super) fn leaked<const N: usize>(y: &State<N>) -> f64 {
    if N == PLATED { y[N - 1] } else { 0.0 }
}

/// The booster's gas.
#[derive(Clone, Copy, Debug)]
pub(super) enum Pulse {
    /// Still flows.
    Flows(BlowDown),
    /// Stays: its mass, kg.
    Over(f64),
}

/// The stack with its water on the move, in [`BARE`] or [`PLATED`] states.
#[derive(Clone, Copy, Debug)]
pub(super) struct Drift<const N: usize> {
    /// The stack on its booster; the burden holds all but the booster's gas.
    pub(super) stack: Vehicle,
    /// The vessel whose water is followed.
    pub(super) vessel: Vessel,
    /// The booster's gas.
    pub(super) pulse: Pulse,
    /// Where the lifted water is.
    pub(super) lifted: Lifted,
    /// Height at which lifted water starts, and at which it lands: the water's surface and the nose, or the two sides of a plate, m.
    pub(super) origin: f64,
    pub(super) ceiling: f64,
    /// Depth of the water that the finger goes through, m.
    pub(super) finger_end: f64,
    /// Whether the finger has reached its end.
    pub(super) finger_done: bool,
    /// Whether the finger still grows as a ripple, so that its end is an event.
    pub(super) ripple: bool,
    /// Wave number of the ripple, 1/m, and tanh of it times the depth.
    pub(super) wave: f64,
    pub(super) depth_factor: f64,
    /// The vessel as a tube for bubbles.
    pub(super) tube: Tube,
    /// Depth of the finger at the start, m.
    pub(super) first_depth: f64,
    /// What a plate changes.
    pub(super) plate: Option<PlateCoast>,
}

/// Events of [`Drift`], in order.
pub(super) const PART_OVER: usize = 0;
pub(super) const RIPPLE_OVER: usize = 1;
pub(super) const FINGER_AT_NOZZLE: usize = 2;
pub(super) const WATER_AT_NOSE: usize = 3;
pub(super) const TOP: usize = 4;
pub(super) const PLATE_LIMIT: usize = 5;

/// Forces and rates at one state.
pub(super) struct Instant {
    /// Proper deceleration, m/s2.
    deceleration: f64,
    /// Rate of the blow-down's state.
    pulse_rate: f64,
    /// Lifted water, m3.
    lifted: f64,
    /// Rate of the finger's state: 1/s for a ripple, m/s afterwards.
    finger_rate: f64,
}

impl<const N: usize> Drift<N> {
    /// Depth of the finger, m.
    pub(super) fn depth(&self, y: &State<N>) -> f64 {
        if self.ripple { exp(y[3]) } else { y[3] }
    }

    /// Water that the finger has displaced, m3.
    pub(super) fn dug(&self, y: &State<N>) -> f64 {
        FINGER_SHARE * self.vessel.area * (self.depth(y) - self.first_depth).max(0.0)
    }

    /// Lifted water, m3.
    pub(super) fn lifted_volume(&self, y: &State<N>) -> f64 {
        match &self.plate {
            Some(plate) if N == PLATED => plate.lifted(self.dug(y), leaked(y)),
            _ => self.dug(y),
        }
    }

    /// The state of a finger that is a ripple no longer.
    pub(super) fn end_ripple(&mut self, y: &mut State<N>) {
        y[3] = self.depth(y);
        self.ripple = false;
    }

    /// Mass of the stack without what is aloft, kg.
    pub(super) fn mass(&self, y: &State<N>, gas_kg: f64) -> f64 {
        let aloft = if self.lifted == Lifted::Aloft { self.vessel.water.density * self.lifted_volume(y) } else { 0.0 };
        self.stack.burden + gas_kg - aloft
    }

    /// Mass of the booster's gas, kg.
    pub(super) fn gas_mass(&self, y: &State<N>) -> f64 {
        match &self.pulse {
            Pulse::Flows(pulse) => pulse.gas(y[2], &self.stack.air.at(y[0])).mass,
            Pulse::Over(mass) => *mass,
        }
    }

    /// Proper deceleration and the rate of the booster's blow-down.
    pub(super) fn deceleration(&self, y: &State<N>) -> (f64, f64) {
        let air = self.stack.air.at(y[0]);
        let drag = self.stack.drag(&air, y[1]);
        match &self.pulse {
            Pulse::Flows(pulse) => {
                let gas = pulse.gas(y[2], &air);
                let thrust = pulse.flow(y[2], &gas, &air).thrust;
                let rate = pulse.rate(y[2], &gas, &air, &self.stack.air, y[1]);
                ((drag - thrust) / self.mass(y, gas.mass), rate)
            }
            Pulse::Over(gas_kg) => (drag / self.mass(y, *gas_kg), 0.0),
        }
    }

    fn instant(&self, y: &State<N>) -> Instant {
        let (deceleration, pulse_rate) = self.deceleration(y);
        let still = self.lifted == Lifted::Never || self.finger_done || deceleration <= 0.0;
        let depth = self.depth(y);
        // While the finger is a ripple the long bubble is faster: where that changes, an event ends the ripple.
        let finger_rate = if still {
            0.0
        } else if self.ripple {
            self.growth_rate(deceleration)
        } else {
            (self.growth_rate(deceleration) * depth).min(self.tube.bubble_speed(deceleration))
        };
        Instant { deceleration, pulse_rate, lifted: self.lifted_volume(y), finger_rate }
    }

    /// Rate at which a ripple grows, 1/s.
    fn growth_rate(&self, deceleration: f64) -> f64 {
        let water = &self.vessel.water;
        let ratio = water.surface_tension / water.density;
        interface::growth_rate_at(self.wave, self.depth_factor, deceleration, ratio)
    }

    /// Time to just past the end of the ripple, or of the finger's way, at the present rates, s.
    fn finger_time_left(&self, y: &State<N>, rates: &State<N>) -> f64 {
        if self.lifted == Lifted::Never || self.finger_done || rates[3] <= 0.0 {
            return f64::INFINITY;
        }
        let end = if self.ripple {
            let deceleration = -rates[1] - GRAVITY;
            ln(self.tube.bubble_speed(deceleration) / rates[3])
        } else {
            self.finger_end
        };
        // A little past it. At the very end, where that would be nothing, the way back is cheap.
        (1.05 * (end - y[3]) / rates[3]).max(1e-3)
    }

    pub(super) fn lifted_height(&self, y: &State<N>) -> f64 {
        let lifted = self.lifted_volume(y);
        match self.lifted {
            Lifted::AtNose => self.ceiling - 0.5 * lifted / self.vessel.area,
            _ if lifted > 0.0 => self.origin + y[4] / lifted,
            _ => self.origin,
        }
    }

    /// Speed of the lifted water relative to the vessel, m/s.
    pub(super) fn lifted_speed(&self, y: &State<N>) -> f64 {
        let lifted = self.lifted_volume(y);
        if self.lifted == Lifted::Aloft && lifted > 0.0 { y[5] / lifted } else { 0.0 }
    }
}

impl<const N: usize> System<N, EVENTS> for Drift<N> {
    #[inline(never)]
    fn rates(&self, y: &State<N>) -> State<N> {
        let now = self.instant(y);
        let (moment_rate, momentum_rate) =
            if self.lifted == Lifted::Aloft { (y[5], now.lifted * now.deceleration.max(0.0)) } else { (0.0, 0.0) };
        let mut rates = [0.0; N];
        let common = [y[1], -now.deceleration - GRAVITY, now.pulse_rate, now.finger_rate, moment_rate, momentum_rate];
        rates[..BARE].copy_from_slice(&common);
        if let Some(plate) = self.plate.as_ref().filter(|_| N == PLATED && self.lifted != Lifted::Never) {
            rates[N - 1] = plate.leak_rate(now.deceleration);
            // What leaks joins the parcel at rest at the plate.
            if self.lifted == Lifted::Aloft {
                rates[4] += rates[N - 1] * (plate.height - self.origin);
            }
        }
        rates
    }

    fn events(&self, y: &State<N>) -> [f64; EVENTS] {
        let mut events = [1.0; EVENTS];
        if let Pulse::Flows(pulse) = &self.pulse {
            let air = self.stack.air.at(y[0]);
            events[PART_OVER] = pulse.remaining(y[2], &pulse.gas(y[2], &air), &air);
        }
        if self.ripple {
            let (deceleration, _) = self.deceleration(y);
            let (ripple, bubble) =
                (self.growth_rate(deceleration) * self.depth(y), self.tube.bubble_speed(deceleration));
            // What nothing pushes is not over: as nought it would wait, and a high ripple would outrun the bubble unseen.
            events[RIPPLE_OVER] = if ripple > 0.0 { bubble - ripple } else { bubble.max(f64::MIN_POSITIVE) };
        }
        if self.lifted != Lifted::Never && !self.finger_done {
            events[FINGER_AT_NOZZLE] = self.finger_end - self.depth(y);
        }
        if self.lifted == Lifted::Aloft {
            let top = self.lifted_height(y) + 0.5 * self.lifted_volume(y) / self.vessel.area;
            events[WATER_AT_NOSE] = self.ceiling - top;
        }
        if let Some(plate) = self.plate.as_ref().filter(|_| N == PLATED) {
            events[PLATE_LIMIT] = plate.room(self.dug(y), leaked(y));
        }
        events[TOP] = y[1];
        events
    }

    fn passed_at_start(&self, events: &[f64; EVENTS]) -> Option<usize> {
        // One thing that happens may move the state past another, be it by the last digit.
        [PART_OVER, RIPPLE_OVER, FINGER_AT_NOZZLE, PLATE_LIMIT, WATER_AT_NOSE]
            .into_iter()
            .find(|&event| events[event] <= 0.0)
    }

    fn scale(&self) -> State<N> {
        let pulse = if let Pulse::Flows(pulse) = &self.pulse { pulse.scale() } else { 1.0 };
        let standing = self.vessel.standing.max(1e-3);
        let volume = self.vessel.area * standing;
        // A ripple to a share of itself: it is the seed of all that follows.
        let finger = if self.ripple { 1.0 } else { 0.05 * self.finger_end.max(1e-3) };
        let mut scale = [volume; N];
        scale[..BARE].copy_from_slice(&[10.0, 10.0, pulse, finger, volume * self.vessel.length, volume]);
        scale
    }

    fn longest_step(&self, y: &State<N>, rates: &State<N>) -> f64 {
        let pulse = match &self.pulse {
            Pulse::Flows(pulse) => pulse.time_left(y[2], rates[2]),
            Pulse::Over(_) => f64::INFINITY,
        };
        let other = pulse.min(self.finger_time_left(y, rates));
        match &self.plate {
            Some(plate) if N == PLATED => other.min(plate.longest_step(-rates[1] - GRAVITY, y[1])),
            _ => other,
        }
    }
}
