//! The phases of a released sustainer while lifted water is still on its way back.

use super::plate::{Ground, Through};
use super::vehicle::Vehicle;
use crate::blowdown::BlowDown;
use crate::column::Motion;
use crate::constants::GRAVITY;
use crate::gas;
use crate::solver::{Stiff, System};

/// Water leaves while a parcel is aloft. States: height, speed, seated water, exit speed, pressure, height of the
/// parcel's centroid over the nozzle end, its speed relative to the vessel.
#[derive(Clone, Copy, Debug)]
pub struct AloftWaterPhase {
    /// What flies; its burden is without water, gas and parcel.
    pub vehicle: Vehicle,
    /// Gas that rides along, kg.
    pub gas_kg: f64,
    /// Volume of the parcel, m3.
    pub parcel: f64,
    /// What passes a plate above the water.
    pub through: Through,
    /// Where the parcel lands.
    pub ground: Ground,
    /// Depth of seated water at which this phase ends, m: where gas breaks through, or where none is left above the plate.
    pub until: f64,
}

/// Events of [`AloftWaterPhase`], in order.
pub mod aloft_water_event {
    /// The seated water has fallen to the depth that ends the phase.
    pub const DIP: usize = 0;
    // 1: the jet has stopped; whatever is not named here ends the phase that way.
    /// The parcel has come back.
    pub const JOINED: usize = 2;
    // 3: it stops climbing.
}

impl AloftWaterPhase {
    fn motion(&self, y: &[f64; 7]) -> Motion {
        let [height, speed, water, jet, pressure, _, _] = *y;
        let air = self.vehicle.air.at(height);
        let column = &self.vehicle.column;
        let mass = self.vehicle.burden + self.gas_kg + column.density * water;
        let loss = self.through.loss(self.vehicle.volume - water - self.parcel);
        let overpressure = pressure - air.pressure_pa - loss * jet * jet;
        column.free(column.height(water), jet, overpressure, mass, self.vehicle.drag(&air, speed))
    }
}

impl System<7, 4> for AloftWaterPhase {
    #[inline(never)]
    fn rates(&self, y: &[f64; 7]) -> [f64; 7] {
        let [_, speed, water, jet, pressure, _, fall] = *y;
        let motion = self.motion(y);
        let flow = self.vehicle.column.nozzle_area * jet;
        let volume = self.vehicle.volume - water - self.parcel;
        let expansion = gas::expansion_rate(pressure, volume, flow, self.vehicle.exponent);
        [speed, motion.acceleration - GRAVITY, -flow, motion.jet_rate, expansion, fall, -motion.acceleration]
    }

    fn events(&self, y: &[f64; 7]) -> [f64; 4] {
        let column = &self.vehicle.column;
        let underside = y[5] - 0.5 * self.parcel / column.bore_area;
        [column.height(y[2]) - self.until, y[3], underside - self.ground.level(column, y[2]), y[1]]
    }

    fn passed_at_start(&self, events: &[f64; 4]) -> Option<usize> {
        (events[aloft_water_event::JOINED] <= 0.0).then_some(aloft_water_event::JOINED)
    }

    fn scale(&self) -> [f64; 7] {
        [10.0, 10.0, 0.1 * self.vehicle.volume, 50.0, 5e5, 0.1, 1.0]
    }
}

impl Stiff<7, 4> for AloftWaterPhase {
    /// By differences: this phase is short, and its equations are those of the water phase with two more rows.
    fn jacobian(&self, y: &[f64; 7]) -> [[f64; 7]; 7] {
        let base = self.rates(y);
        let scale = self.scale();
        let mut jacobian = [[0.0; 7]; 7];
        // The parcel's height changes no rate, so that its column stays nought.
        for j in [0, 1, 2, 3, 4, 6] {
            let step = 1e-7 * scale[j].max(y[j].abs());
            let mut shifted = *y;
            shifted[j] += step;
            let rates = self.rates(&shifted);
            for i in 0..7 {
                jacobian[i][j] = (rates[i] - base[i]) / step;
            }
        }
        jacobian
    }
}

/// Gas leaves before the water: the finger joins nozzle and gas space. States: height, speed, state of the blow-down, height and
/// relative speed of the parcel, progress of the seated water in closing over the nozzle.
#[derive(Clone, Copy, Debug)]
pub struct VentPhase {
    /// What flies; its burden holds all but gas and parcel.
    pub vehicle: Vehicle,
    /// The gas.
    pub pulse: BlowDown,
    /// Volume of the parcel, m3; nought when none is aloft.
    pub parcel: f64,
    /// Height of what the parcel lands on, m.
    pub surface: f64,
    /// Bore, m.
    pub bore_m: f64,
    /// Progress at which the nozzle is covered again; `None` if only the parcel can cover it.
    pub close_at: Option<f64>,
    /// Mass of the gas when all that a plate has let down has left, kg; nought without a plate.
    pub gas_above: f64,
}

/// Events of [`VentPhase`], in order.
pub mod vent_event {
    /// This part of the pulse is over: the throat is no longer sonic, or the gas is gone.
    pub const PART_OVER: usize = 0;
    /// The parcel has come back.
    pub const JOINED: usize = 1;
    /// The seated water has closed over the nozzle.
    pub const CLOSED: usize = 2;
    /// It stops climbing.
    pub const TOP: usize = 3;
    /// The gas that a plate has let down is gone.
    pub const POCKET_EMPTY: usize = 4;
}

impl System<6, 5> for VentPhase {
    #[inline(never)]
    fn rates(&self, y: &[f64; 6]) -> [f64; 6] {
        let [height, speed, state, _, fall, _] = *y;
        let air = self.vehicle.air.at(height);
        let gas = self.pulse.gas(state, &air);
        let flow = self.pulse.flow(state, &gas, &air);
        let acceleration = (flow.thrust - self.vehicle.drag(&air, speed)) / (self.vehicle.burden + gas.mass);
        [
            speed,
            acceleration - GRAVITY,
            self.pulse.rate(state, &gas, &air, &self.vehicle.air, speed),
            fall,
            -acceleration,
            (acceleration.max(0.0) / self.bore_m).sqrt(),
        ]
    }

    fn events(&self, y: &[f64; 6]) -> [f64; 5] {
        let air = self.vehicle.air.at(y[0]);
        let gas = self.pulse.gas(y[2], &air);
        let gap = y[3] - 0.5 * self.parcel / self.vehicle.column.bore_area - self.surface;
        [
            self.pulse.remaining(y[2], &gas, &air),
            if self.parcel > 0.0 { gap } else { 1.0 },
            self.close_at.map_or(1.0, |mark| mark - y[5]),
            y[1],
            gas.mass - self.gas_above,
        ]
    }

    fn passed_at_start(&self, events: &[f64; 5]) -> Option<usize> {
        // A parcel that lands on a plate may leave gas or nozzle past their ends by the last digit. Only the speed may be nought.
        [vent_event::JOINED, vent_event::CLOSED, vent_event::POCKET_EMPTY, vent_event::PART_OVER]
            .into_iter()
            .find(|&event| events[event] <= 0.0)
    }

    fn scale(&self) -> [f64; 6] {
        [10.0, 10.0, self.pulse.scale(), 0.1, 1.0, 0.1]
    }

    fn longest_step(&self, y: &[f64; 6], rates: &[f64; 6]) -> f64 {
        self.pulse.time_left(y[2], rates[2])
    }
}

/// The staging tube drives sustainer and spent booster apart. States: height and speed of the sustainer, travel along
/// the tube and its rate, pressure, height and relative speed of the parcel, closing progress.
#[derive(Clone, Copy, Debug)]
pub struct StagingTubePhase {
    /// The sustainer; its burden holds all but the parcel.
    pub vehicle: Vehicle,
    /// Mass of the spent booster with its tube, kg.
    pub booster_kg: f64,
    /// Drag area of the spent booster, m2.
    pub booster_drag_area: f64,
    /// Area the tube closes, m2.
    pub tube_area: f64,
    /// Engaged length, m.
    pub length: f64,
    /// Gas space at the start, m3.
    pub gas_volume: f64,
    /// Volume of the parcel, m3; nought when nothing is aloft.
    pub parcel: f64,
    /// Height of the seated water's surface, m.
    pub surface: f64,
    /// Bore, m.
    pub bore_m: f64,
}

/// Events of [`StagingTubePhase`], in order.
pub mod staging_tube_event {
    /// The tube is out.
    pub const EXIT: usize = 0;
    // 1: the two bodies have stopped moving apart.
    /// The parcel has come back.
    pub const JOINED: usize = 2;
}

impl System<8, 3> for StagingTubePhase {
    #[inline(never)]
    fn rates(&self, y: &[f64; 8]) -> [f64; 8] {
        let [height, speed, travel, apart, pressure, _, fall, _] = *y;
        let air = self.vehicle.air.at(height);
        let force = (pressure - air.pressure_pa) * self.tube_area;
        let acceleration = (force - self.vehicle.drag(&air, speed)) / self.vehicle.burden;
        let behind = speed - apart;
        let booster_drag = 0.5 * air.density * behind * behind.abs() * self.booster_drag_area;
        let booster_acceleration = (-force - booster_drag) / self.booster_kg;
        let volume = self.gas_volume + self.tube_area * travel;
        [
            speed,
            acceleration - GRAVITY,
            apart,
            acceleration - booster_acceleration,
            gas::expansion_rate(pressure, volume, self.tube_area * apart, self.vehicle.exponent),
            fall,
            -acceleration,
            (acceleration.max(0.0) / self.bore_m).sqrt(),
        ]
    }

    fn events(&self, y: &[f64; 8]) -> [f64; 3] {
        let gap = y[5] - 0.5 * self.parcel / self.vehicle.column.bore_area - self.surface;
        [self.length - y[2], y[3], if self.parcel > 0.0 { gap } else { 1.0 }]
    }

    fn scale(&self) -> [f64; 8] {
        [10.0, 10.0, 0.1, 10.0, 1e5, 0.1, 1.0, 0.1]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::air::Atmosphere;
    use crate::column::Column;
    use crate::solver::{Cause, DormandPrince, Effort, Span, Stop, integrate};

    const PARCEL: f64 = 2e-4;
    const SPAN: Span = Span { from: 0.0, until: f64::INFINITY, first_step: 1e-3 };

    /// A vent in which nothing ends the loss of gas but its own end.
    fn vent() -> (VentPhase, [f64; 6]) {
        let column = Column {
            density: 998.0,
            sets: 1.0,
            bore_area: 6e-3,
            nozzle_area: 6.4e-5,
            nozzle_m: 0.009,
            discharge: 0.97,
        };
        let air = Atmosphere::over_site(30.0, 291.15);
        let vehicle = Vehicle { air, column, volume: 2e-3, exponent: 1.3, burden: 0.6, drag_area: 2.5e-3, holes: None };
        let pulse = BlowDown::start(1.1e6, 0.02, 1.4e-3, vehicle.gas_area(), &air.at(50.0));
        let (pulse, state) = pulse.expect("there is pressure");
        let phase =
            VentPhase { vehicle, pulse, parcel: PARCEL, surface: -1e3, bore_m: 0.088, close_at: None, gas_above: 0.0 };
        (phase, [50.0, 40.0, state, 0.5, 0.0, 0.0])
    }

    fn fly(phase: &VentPhase, start: [f64; 6]) -> Stop<6> {
        integrate(phase, DormandPrince, start, SPAN, Effort::PAGE, &mut |_| true).expect("this vents")
    }

    #[test]
    fn property_of_ends_that_come_together_none_is_passed_but_one() {
        let (alone, start) = vent();
        let end = fly(&alone, start);
        assert_eq!(end.cause, Cause::Event(vent_event::PART_OVER));
        let gas = alone.pulse.gas(end.y[2], &alone.vehicle.air.at(end.y[0])).mass;
        let underside = end.y[3] - 0.5 * PARCEL / alone.vehicle.column.bore_area;
        let shares = [0.0, 1e-15, -1e-15, 1e-12, -1e-12, 1e-8, -1e-8, 1e-5, -1e-5, 1e-4, -1e-4];
        for lands in shares {
            for closes in shares {
                for empties in shares {
                    let phase = VentPhase {
                        surface: underside + lands,
                        close_at: Some(end.y[5] * (1.0 + closes)),
                        gas_above: gas * (1.0 + empties),
                        ..alone
                    };
                    let stop = fly(&phase, start);
                    let Cause::Event(cause) = stop.cause else { panic!("no event: {stop:?}") };
                    for (event, value) in phase.events(&stop.y).into_iter().enumerate() {
                        assert!(event == cause || value > 0.0, "{lands} {closes} {empties}: {event} at {cause}");
                    }
                }
            }
        }
    }

    #[test]
    fn limit_what_the_start_has_passed_ends_the_loss_at_once() {
        let (alone, start) = vent();
        for (phase, event) in [
            (VentPhase { surface: 0.5, ..alone }, vent_event::JOINED),
            (VentPhase { close_at: Some(0.0), ..alone }, vent_event::CLOSED),
            (VentPhase { gas_above: 0.02, ..alone }, vent_event::POCKET_EMPTY),
        ] {
            let stop = fly(&phase, start);
            assert_eq!((stop.t, stop.y, stop.cause), (0.0, start, Cause::Event(event)));
        }
        // At rest it is not yet falling.
        let mut resting = start;
        resting[1] = 0.0;
        assert_eq!(fly(&alone, resting).cause, Cause::Event(vent_event::PART_OVER));
    }
}
