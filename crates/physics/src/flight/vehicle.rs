//! What flies on one stage's thrust, and the phases of that thrust as systems of equations.
//!
//! Every phase keeps height in state 0 and speed in state 1, so that one recorder can follow all of them.

use super::plate::{Holes, Through};
use crate::air::{Air, Atmosphere};
use crate::blowdown::BlowDown;
use crate::column::{Column, Motion};
use crate::constants::GRAVITY;
use crate::gas;
use crate::rocket::Stage;
use crate::solver::{Stiff, System};

/// One stage at work, with everything it carries.
#[derive(Clone, Copy, Debug)]
pub struct Vehicle {
    /// Air over the site.
    pub air: Atmosphere,
    /// Its water column and nozzles.
    pub column: Column,
    /// Internal volume of all its vessels, m3.
    pub volume: f64,
    /// Exponent of its expansion while water leaves.
    pub exponent: f64,
    /// Mass of everything but this stage's own water and gas, kg.
    pub burden: f64,
    /// Drag area of what flies, m2.
    pub drag_area: f64,
    /// Holes of a plate between its gas and its nozzle.
    pub holes: Option<Holes>,
}

impl Vehicle {
    /// A stage with the burden and drag area given.
    #[must_use]
    pub fn new(stage: &Stage, air: Atmosphere, density: f64, exponent: f64, burden: f64, drag_area: f64) -> Self {
        let column = Column::of(stage, density);
        Self { air, column, volume: stage.volume_m3, exponent, burden, drag_area, holes: None }
    }

    /// Drag, N: 1/2 rho v |v| Cd S.
    #[must_use]
    pub fn drag(&self, air: &Air, speed: f64) -> f64 {
        0.5 * air.density * speed * speed.abs() * self.drag_area
    }

    /// Effective area of all nozzles for gas, m2: the discharge coefficient multiplies the area.
    #[must_use]
    pub fn gas_area(&self) -> f64 {
        self.column.sets * self.column.discharge * self.column.nozzle_area
    }
}

/// Water leaves; nothing is aloft. States: height, speed, water volume, exit speed, pressure.
#[derive(Clone, Copy, Debug)]
pub struct WaterPhase {
    /// What flies.
    pub vehicle: Vehicle,
    /// Gas that rides along, kg (constant).
    pub gas_kg: f64,
    /// What passes a plate above the water.
    pub through: Through,
    /// Water at which this phase ends, m3: nought, or what is below the plate.
    pub until: f64,
    /// Whether the pad still carries the rocket.
    pub held: bool,
}

/// Events of [`WaterPhase`], in order.
pub mod water_event {
    /// The water is gone, or none is left above the plate.
    pub const GONE: usize = 0;
    // 1: the jet has stopped with water left; whatever is not named here ends the phase that way.
    /// Held by the pad: thrust exceeds weight. Free: the rocket stops climbing.
    pub const TURNS: usize = 2;
}

impl WaterPhase {
    fn mass(&self, water: f64) -> f64 {
        self.vehicle.burden + self.gas_kg + self.vehicle.column.density * water
    }

    fn motion(&self, y: &[f64; 5], air: &Air) -> Motion {
        let [_, speed, water, jet, pressure] = *y;
        let height = self.vehicle.column.height(water);
        let loss = self.through.loss(self.vehicle.volume - water);
        let overpressure = pressure - air.pressure_pa - loss * jet * jet;
        if self.held {
            self.vehicle.column.held(height, jet, overpressure, GRAVITY)
        } else {
            self.vehicle.column.free(height, jet, overpressure, self.mass(water), self.vehicle.drag(air, speed))
        }
    }
}

impl WaterPhase {
    /// Whether the thrust exceeds the weight of a rocket that the pad holds.
    pub fn lifts(&self, y: &[f64; 5]) -> bool {
        self.excess_weight(y) <= 0.0
    }

    fn excess_weight(&self, y: &[f64; 5]) -> f64 {
        self.mass(y[2]) * GRAVITY - self.motion(y, &self.vehicle.air.at(y[0])).thrust
    }
}

impl System<5, 3> for WaterPhase {
    #[inline(never)]
    fn rates(&self, y: &[f64; 5]) -> [f64; 5] {
        let [height, speed, water, jet, pressure] = *y;
        let motion = self.motion(y, &self.vehicle.air.at(height));
        let flow = self.vehicle.column.sets * self.vehicle.column.nozzle_area * jet;
        let expansion = gas::expansion_rate(pressure, self.vehicle.volume - water, flow, self.vehicle.exponent);
        let climb = if self.held { 0.0 } else { motion.acceleration - GRAVITY };
        [speed, climb, -flow, motion.jet_rate, expansion]
    }

    fn events(&self, y: &[f64; 5]) -> [f64; 3] {
        [y[2] - self.until, y[3], if self.held { self.excess_weight(y) } else { y[1] }]
    }

    fn scale(&self) -> [f64; 5] {
        [10.0, 10.0, 0.1 * self.vehicle.volume, 50.0, 5e5]
    }
}

impl Stiff<5, 3> for WaterPhase {
    /// Leaves out how density falls with height and how drag follows the air: both are thousands of times slower than the jet.
    fn jacobian(&self, y: &[f64; 5]) -> [[f64; 5]; 5] {
        let [height, speed, water, jet, pressure] = *y;
        let air = self.vehicle.air.at(height);
        let column = &self.vehicle.column;
        let motion = self.motion(y, &air);
        let b = column.contraction();
        let push = column.sets * column.density * column.nozzle_area;
        let standing = column.height(water);
        let mass = self.mass(water);
        let per_water = 1.0 / (column.sets * column.bore_area);
        // The two balances as  inertia w - head a = pressure,  mass a - push hw w = force.
        let inertia = column.density * (standing * b + column.throat_length());
        let head = column.density * standing;
        // Change of (w, a) when the right sides change by (r1, r2).
        let respond = |r1: f64, r2: f64| {
            if self.held {
                return (r1 / inertia, 0.0);
            }
            let determinant = inertia * mass - head * push * standing;
            let w = (r1 * mass + head * r2) / determinant;
            (w, (r2 + push * standing * w) / mass)
        };
        let by_height = respond(-self.vehicle.air.pressure_gradient(&air), 0.0);
        let by_speed = respond(0.0, -air.density * speed.abs() * self.vehicle.drag_area);
        let gas = self.vehicle.volume - water;
        let by_water = respond(
            column.density * per_water * (motion.acceleration - b * motion.jet_rate)
                - self.through.loss_per_water(gas) * jet * jet,
            push * per_water * motion.jet_rate - column.density * motion.acceleration,
        );
        let losses = column.density * column.exit_loss() + self.through.loss(gas);
        let by_jet = respond(-2.0 * losses * jet, 2.0 * push * (1.0 - b) * jet);
        let by_pressure = respond(1.0, 0.0);
        let outflow = column.sets * column.nozzle_area;
        let n = self.vehicle.exponent;
        let free = if self.held { 0.0 } else { 1.0 };
        [
            [0.0, 1.0, 0.0, 0.0, 0.0],
            [free * by_height.1, free * by_speed.1, free * by_water.1, free * by_jet.1, free * by_pressure.1],
            [0.0, 0.0, 0.0, -outflow, 0.0],
            [by_height.0, free * by_speed.0, by_water.0, by_jet.0, by_pressure.0],
            [
                0.0,
                0.0,
                -n * pressure * outflow * jet / (gas * gas),
                -n * pressure * outflow / gas,
                -n * outflow * jet / gas,
            ],
        ]
    }
}

/// Gas leaves, the water is gone. States: height, speed, state of the blow-down.
#[derive(Clone, Copy, Debug)]
pub struct GasPhase {
    /// What flies; its burden includes water that stayed.
    pub vehicle: Vehicle,
    /// The gas.
    pub pulse: BlowDown,
    /// Whether the pad still carries the rocket.
    pub held: bool,
    /// Whether to stop where drag first exceeds thrust.
    pub watch_tail: bool,
}

/// Events of [`GasPhase`], in order.
pub mod gas_event {
    /// This part of the pulse is over: the throat is no longer sonic, or the pressure is ambient.
    pub const PART_OVER: usize = 0;
    /// Drag exceeds thrust.
    pub const TAIL: usize = 1;
    /// Held by the pad: thrust exceeds weight. Free: the rocket stops climbing.
    pub const TURNS: usize = 2;
}

impl System<3, 3> for GasPhase {
    #[inline(never)]
    fn rates(&self, y: &[f64; 3]) -> [f64; 3] {
        let [height, speed, state] = *y;
        let air = self.vehicle.air.at(height);
        let gas = self.pulse.gas(state, &air);
        let flow = self.pulse.flow(state, &gas, &air);
        let total = self.vehicle.burden + gas.mass;
        let climb = if self.held { 0.0 } else { (flow.thrust - self.vehicle.drag(&air, speed)) / total - GRAVITY };
        [speed, climb, self.pulse.rate(state, &gas, &air, &self.vehicle.air, speed)]
    }

    fn events(&self, y: &[f64; 3]) -> [f64; 3] {
        let [height, speed, state] = *y;
        let air = self.vehicle.air.at(height);
        let gas = self.pulse.gas(state, &air);
        let thrust = self.pulse.flow(state, &gas, &air).thrust;
        [
            self.pulse.remaining(state, &gas, &air),
            if self.watch_tail { thrust - self.vehicle.drag(&air, speed) } else { 1.0 },
            if self.held { (self.vehicle.burden + gas.mass) * GRAVITY - thrust } else { speed },
        ]
    }

    fn passed_at_start(&self, events: &[f64; 3]) -> Option<usize> {
        // A pulse that has just begun may be over by the last digit.
        (events[gas_event::PART_OVER] <= 0.0).then_some(gas_event::PART_OVER)
    }

    fn scale(&self) -> [f64; 3] {
        [10.0, 10.0, self.pulse.scale()]
    }

    fn longest_step(&self, y: &[f64; 3], rates: &[f64; 3]) -> f64 {
        self.pulse.time_left(y[2], rates[2])
    }
}

/// A launch tube on the pad drives the stage; nothing leaves. States: height, speed, pressure.
#[derive(Clone, Copy, Debug)]
pub struct PadTubePhase {
    /// What flies; its burden includes water and gas.
    pub vehicle: Vehicle,
    /// Area that all tubes close, m2.
    pub tube_area: f64,
    /// Engaged length, m.
    pub length: f64,
    /// Gas space at the start, m3.
    pub gas_volume: f64,
}

/// Events of [`PadTubePhase`], in order.
pub mod pad_tube_event {
    /// The tube is out.
    pub const EXIT: usize = 0;
    // 1: the rocket has stopped on the tube.
}

impl PadTubePhase {
    /// Force of the gas on the tube, N.
    #[must_use]
    pub fn force(&self, pressure: f64, air: &Air) -> f64 {
        (pressure - air.pressure_pa) * self.tube_area
    }
}

impl System<3, 2> for PadTubePhase {
    #[inline(never)]
    fn rates(&self, y: &[f64; 3]) -> [f64; 3] {
        let [height, speed, pressure] = *y;
        let air = self.vehicle.air.at(height);
        let volume = self.gas_volume + self.tube_area * height;
        let force = self.force(pressure, &air) - self.vehicle.drag(&air, speed);
        let expansion = gas::expansion_rate(pressure, volume, self.tube_area * speed, self.vehicle.exponent);
        [speed, force / self.vehicle.burden - GRAVITY, expansion]
    }

    fn events(&self, y: &[f64; 3]) -> [f64; 2] {
        [self.length - y[0], y[1]]
    }

    fn scale(&self) -> [f64; 3] {
        [1.0, 10.0, 1e5]
    }
}

/// Nothing is left but weight and drag. States: height, speed.
#[derive(Clone, Copy, Debug)]
pub struct AscentPhase {
    /// What flies; its burden is all its mass.
    pub vehicle: Vehicle,
}

impl System<2, 1> for AscentPhase {
    #[inline(never)]
    fn rates(&self, y: &[f64; 2]) -> [f64; 2] {
        let air = self.vehicle.air.at(y[0]);
        [y[1], -self.vehicle.drag(&air, y[1]) / self.vehicle.burden - GRAVITY]
    }

    fn events(&self, y: &[f64; 2]) -> [f64; 1] {
        [y[1]]
    }

    fn scale(&self) -> [f64; 2] {
        [10.0, 10.0]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn closed_form_the_jacobian_of_the_water_phase_equals_differences_of_its_rates() {
        let column = Column {
            density: 998.0,
            sets: 3.0,
            bore_area: 6e-3,
            nozzle_area: 1.3e-4,
            nozzle_m: 0.013,
            discharge: 0.97,
        };
        let vehicle = Vehicle {
            air: Atmosphere::over_site(30.0, 291.15),
            column,
            volume: 6e-3,
            exponent: 1.3,
            burden: 0.9,
            drag_area: 0.02,
            holes: None,
        };
        for (held, through) in [
            (false, Through::Nothing),
            (true, Through::Nothing),
            (false, Through::Gas(3.0)),
            (true, Through::Water(2e3)),
        ] {
            let phase = WaterPhase { vehicle, gas_kg: 0.05, through, until: 0.0, held };
            for y in [[0.0, 0.0, 1.8e-3, 5.0, 1e6], [3.0, 25.0, 0.9e-3, 40.0, 6e5], [9.0, 60.0, 1e-5, 20.0, 3e5]] {
                let jacobian = phase.jacobian(&y);
                for j in 0..5 {
                    // Central differences: off by a share of 1e-10 from their own length, 1e-9 from rounding.
                    let step = 1e-5 * y[j].abs().max(phase.scale()[j] * 1e-3);
                    let (mut low, mut high) = (y, y);
                    low[j] -= step;
                    high[j] += step;
                    let (low, high) = (phase.rates(&low), phase.rates(&high));
                    for i in 0..5 {
                        let difference = (high[i] - low[i]) / (2.0 * step);
                        // What is left out, by its own words: how drag follows the density of the air, a share of 1e-4 per
                        // metre of at most 50 m/s2. All other columns are exact.
                        let left_out = if j == 0 { 0.02 } else { 0.0 };
                        let allowed = 1e-6 * (difference.abs() + high[i].abs() / phase.scale()[j] * 1e-2) + left_out;
                        let off = (jacobian[i][j] - difference).abs();
                        assert!(off <= allowed, "{i} {j}: {} is {off:e} off, allowed {allowed:e}", jacobian[i][j]);
                    }
                }
            }
        }
    }
}
