//! The sustainer before its release: what it is, and whether water covers its nozzle.

use super::coast::CoastState;
use super::drift::Vessel;
use super::pad::Filling;
use super::plate::Plate;
use super::vehicle::Vehicle;
use crate::dip;
use crate::rocket::LaunchTube;

/// How a sustainer flies after its release.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SustainerFlight {
    /// Whether water covered the nozzle at the release.
    pub covered: bool,
    /// Share of the gas mass that left before the water did (what stays in a staging tube counts).
    pub gas_lost: f64,
    /// Time at which the water was gone, s; `None` for a dud or when water stayed.
    pub water_gone_t: Option<f64>,
    /// Time and speed at the end of thrust, s, m/s.
    pub burnout: (f64, f64),
    /// Water that stayed in the vessel, m3.
    pub water_left: f64,
    /// Whether all gas left before the water: no thrust worth the name.
    pub dud: bool,
    /// Time and height of the apogee, s, m.
    pub apogee: (f64, f64),
}

/// The sustainer and what it is let go from.
#[derive(Clone, Copy, Debug)]
pub struct Sustainer {
    /// What flies; its burden is without water and gas.
    pub vehicle: Vehicle,
    /// Its vessel.
    pub vessel: Vessel,
    /// What it was filled with.
    pub filling: Filling,
    /// The plate in it.
    pub plate: Option<Plate>,
    /// The staging tube, and the booster it stands on: mass, drag area.
    pub tube: Option<(LaunchTube, f64, f64)>,
}

impl Sustainer {
    /// Depth of water that a release at this moment would need over the nozzle, m; never more than half the standing height.
    #[must_use]
    pub fn dip(&self, state: &CoastState) -> f64 {
        let column = &self.vehicle.column;
        let air = self.vehicle.air.at(state.h);
        let jet = column.steady_speed(self.filling.pressure - air.pressure_pa);
        let thrust = column.density * column.nozzle_area * jet * jet * (1.0 - column.contraction());
        let mass = self.vehicle.burden + self.filling.gas_kg + column.density * (self.filling.water - state.lifted);
        let acceleration = (thrust - self.vehicle.drag(&air, state.v)) / mass;
        dip::depth(column.nozzle_area * jet, acceleration).min(0.5 * self.vessel.standing)
    }

    /// How much deeper than the dip depth the water stands over the nozzle, m: not covered when nought or negative. Once water has met
    /// a plate, gas that has come to the nozzle counts as so much less than nought.
    #[must_use]
    pub fn cover(&self, state: &CoastState) -> f64 {
        let gas = self.gas_at_nozzle(state);
        if gas > 0.0 {
            return -gas / self.vessel.area;
        }
        // Without gas at the nozzle a wetted plate holds the water down, whatever the finger above it does.
        if state.wetted { self.vessel.standing } else { self.vessel.standing - state.finger - self.dip(state) }
    }
}
