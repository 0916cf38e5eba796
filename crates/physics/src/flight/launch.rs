//! A rocket launched once and asked about many delays.

use core::cell::OnceCell;

use super::coast::{Coast, CoastPlan, CoastState};
use super::drift::Vessel;
use super::pad::{self, Filling, Progress, PulseEnd};
use super::plate::Plate;
use super::record::{Happening, Log, Recorder};
use super::sustainer::{Sustainer, SustainerFlight};
use super::vehicle::Vehicle;
use crate::air::Atmosphere;
use crate::check::refusals;
use crate::constants::{GRAVITY, TUBE_DENSITY};
use crate::error::FlightError;
use crate::order::sort_by_number;
use crate::rocket::{Rocket, Stage};
use crate::solver::Effort;
use crate::water::Water;

/// Whether the sustainer's water is held down or left to itself during the coast.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WaterMode {
    /// Held down: the settled ideal.
    Settled,
    /// Left to itself.
    Free,
}

/// A flight at one delay.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flight {
    /// The stack at the release; `None` for a single stage.
    pub release: Option<CoastState>,
    /// The sustainer after it.
    pub sustainer: SustainerFlight,
}

/// A rocket whose boost and coast have been flown.
#[derive(Clone, Debug)]
pub struct Launch {
    effort: Effort,
    horizon: f64,
    rocket: Rocket,
    sustainer: Sustainer,
    /// Boost events and samples.
    boost: Log,
    stack: Option<StackCoast>,
}

/// The coast of a stack, with its water free and settled.
#[derive(Clone, Debug)]
struct StackCoast {
    plan: CoastPlan,
    start: Progress,
    free: Coast,
    /// Flown when it is first asked for; `None` inside if it cannot be.
    settled: OnceCell<Option<Coast>>,
}

impl Launch {
    /// Flies boost and coast as far as a delay of `horizon` seconds; samples of the boost are kept if `points_per_step` is not 0.
    pub fn new(rocket: &Rocket, horizon: f64, points_per_step: u32, effort: Effort) -> Result<Self, FlightError> {
        let found = refusals(rocket);
        if !found.is_empty() {
            return Err(FlightError::Refused(found));
        }
        let air = Atmosphere::over_site(rocket.site.elevation_m, rocket.site.air_temperature_k);
        let water = Water::at(rocket.site.water_temperature_k, rocket.site.surface_tension_n_m);
        let mut sustainer = sustainer(rocket, air, water);
        let mut boost = Log { points_per_step, ..Log::default() };
        let stack = match &rocket.booster {
            None => None,
            Some(booster) => {
                let (plan, start) = boost_stack(rocket, booster, &sustainer, air, water, horizon, effort, &mut boost)?;
                let free = Coast::fly(&plan, &start, effort)?;
                if let Some(tube) = &rocket.staging_tube {
                    let spent = plan.stack.burden - sustainer_mass(&sustainer) + free.booster_gas_kg;
                    let drag_area = (booster.drag_area() - rocket.sustainer.drag_area()).max(0.0);
                    sustainer.tube = Some((*tube, spent, drag_area));
                }
                Some(StackCoast { plan, start, free, settled: OnceCell::new() })
            }
        };
        Ok(Self { effort, horizon, rocket: *rocket, sustainer, boost, stack })
    }

    /// The rocket.
    #[must_use]
    pub fn rocket(&self) -> &Rocket {
        &self.rocket
    }

    /// The longest delay it was flown for, s.
    #[must_use]
    pub fn horizon(&self) -> f64 {
        self.horizon
    }

    /// The coast; `None` for a single stage.
    #[must_use]
    pub fn coast(&self, mode: WaterMode) -> Option<&Coast> {
        let stack = self.stack.as_ref()?;
        match mode {
            WaterMode::Free => Some(&stack.free),
            WaterMode::Settled => {
                let plan = CoastPlan { settled: true, ..stack.plan };
                stack.settled.get_or_init(|| Coast::fly(&plan, &stack.start, self.effort).ok()).as_ref()
            }
        }
    }

    /// The sustainer.
    #[must_use]
    pub fn sustainer(&self) -> &Sustainer {
        &self.sustainer
    }

    /// Flies the sustainer at a delay, followed by a recorder from the end of the boost on.
    pub fn fly(&self, delay: f64, mode: WaterMode, recorder: &mut dyn Recorder) -> Result<Flight, FlightError> {
        let settled = mode == WaterMode::Settled;
        if self.stack.is_none() {
            let sustainer = self.fly_single(recorder)?;
            return Ok(Flight { release: None, sustainer });
        }
        let Some(coast) = self.coast(mode) else { return Err(FlightError::NoCoast) };
        let Some(state) = coast.at(delay) else {
            let (t, height_m) = coast.top.unwrap_or((coast.burnout.0, coast.burnout.1));
            return Err(FlightError::StackHasFallen { top_after_burnout_s: t - coast.burnout.0, height_m });
        };
        coast.record(delay, recorder);
        let sustainer = self.sustainer.fly(&state, settled, self.effort, recorder)?;
        Ok(Flight { release: Some(state), sustainer })
    }

    /// Everything that happens at a delay, with samples if the launch keeps them.
    pub fn log(&self, delay: f64, mode: WaterMode) -> Result<(Flight, Log), FlightError> {
        let mut log = self.boost.clone();
        let flight = self.fly(delay, mode, &mut log)?;
        sort_by_number(&mut log.events, |event| event.t);
        Ok((flight, log))
    }

    /// The stack's own flight to its top, unreleased: events and samples.
    pub fn log_unreleased(&self, mode: WaterMode) -> Option<Log> {
        let stack = self.stack.as_ref()?;
        let plan = CoastPlan { settled: mode == WaterMode::Settled, horizon: f64::INFINITY, ..stack.plan };
        let coast = Coast::fly(&plan, &stack.start, self.effort).ok()?;
        let mut log = self.boost.clone();
        coast.record(f64::INFINITY, &mut log);
        let (t, h) = coast.top?;
        log.event(Happening::Apogee, t, h, 0.0);
        sort_by_number(&mut log.events, |event| event.t);
        Some(log)
    }

    fn fly_single(&self, recorder: &mut dyn Recorder) -> Result<SustainerFlight, FlightError> {
        let Sustainer { vehicle, filling, plate, .. } = &self.sustainer;
        let effort = self.effort;
        let start = at_rest(vehicle, filling, self.rocket.pad_tube.as_ref(), effort, recorder)?;
        let below = plate.map_or(0.0, |plate| plate.below);
        let done = pad::water(vehicle, &start, below, effort, recorder)?;
        stays_on_pad(vehicle, filling, &done)?;
        let mut flying = *vehicle;
        flying.burden += vehicle.column.density * done.water;
        let mut end = done;
        let stuck = done.water > 0.0;
        if !stuck {
            if filling.water > 0.0 {
                recorder.event(Happening::SustainerWaterGone, done.t, done.h, done.v);
            }
            (end, _) = pad::gas_pulse(&flying, &done, false, effort, recorder)?;
        }
        recorder.event(Happening::SustainerBurnout, end.t, end.h, end.v);
        flying.burden += end.gas_kg;
        let apogee = pad::ascent(&flying, (end.t, end.h, end.v), effort, recorder)?;
        recorder.event(Happening::Apogee, apogee.0, apogee.1, 0.0);
        Ok(SustainerFlight {
            covered: true,
            gas_lost: 1.0 - start.gas_kg / filling.gas_kg,
            water_gone_t: (!stuck).then_some(done.t),
            burnout: (end.t, end.v),
            water_left: done.water,
            dud: false,
            apogee,
        })
    }
}

/// The sustainer of a rocket, without its staging tube.
fn sustainer(rocket: &Rocket, air: Atmosphere, water: Water) -> Sustainer {
    let stage = &rocket.sustainer;
    let ambient = air.at(0.0).pressure_pa;
    let displaced = rocket.staging_tube.map_or(0.0, |tube| tube.length_m * (tube.outer_area() - tube.inner_area()));
    let burden = stage.dry_kg + rocket.restrictor.map_or(0.0, |plate| plate.mass_kg);
    let exponent = rocket.site.expansion_exponent;
    let bare = Vehicle::new(stage, air, water.density, exponent, burden, stage.drag_area());
    let plate = rocket.restrictor.map(|plate| Plate::new(&plate, stage, &rocket.site, &water, ambient));
    Sustainer {
        vehicle: Vehicle { holes: plate.map(|plate| plate.holes), ..bare },
        vessel: Vessel {
            bore_m: stage.bore_m,
            area: stage.bore_area(),
            length: stage.vessel_length(),
            standing: stage.standing_height(),
            water,
        },
        filling: Filling::of(stage, ambient, rocket.site.air_temperature_k, displaced),
        plate,
        tube: None,
    }
}

/// Mass of a sustainer at filling, kg.
fn sustainer_mass(sustainer: &Sustainer) -> f64 {
    sustainer.vehicle.burden + sustainer.filling.gas_kg + sustainer.vehicle.column.density * sustainer.filling.water
}

/// From the pad to where drag exceeds the booster's thrust.
#[expect(clippy::too_many_arguments, reason = "the parts of one rocket, taken apart once")]
fn boost_stack(
    rocket: &Rocket,
    booster: &Stage,
    sustainer: &Sustainer,
    air: Atmosphere,
    water: Water,
    horizon: f64,
    effort: Effort,
    recorder: &mut dyn Recorder,
) -> Result<(CoastPlan, Progress), FlightError> {
    let tube_kg = rocket.staging_tube.map_or(0.0, |tube| tube.mass(TUBE_DENSITY));
    let burden = booster.dry_kg + tube_kg + sustainer_mass(sustainer);
    let exponent = rocket.site.expansion_exponent;
    let mut stack = Vehicle::new(booster, air, water.density, exponent, burden, booster.drag_area());
    let ambient = air.at(0.0).pressure_pa;
    let filling = Filling::of(booster, ambient, rocket.site.air_temperature_k, 0.0);
    let start = at_rest(&stack, &filling, rocket.pad_tube.as_ref(), effort, recorder)?;
    let done = pad::water(&stack, &start, 0.0, effort, recorder)?;
    stays_on_pad(&stack, &filling, &done)?;
    falls(&done)?;
    stack.burden += water.density * done.water;
    let (end, gas_flows) = if done.water > 0.0 {
        (done, false)
    } else {
        if filling.water > 0.0 {
            recorder.event(Happening::BoosterWaterGone, done.t, done.h, done.v);
        }
        let (end, why) = pad::gas_pulse(&stack, &done, true, effort, recorder)?;
        falls(&end)?;
        (end, why == PulseEnd::Tail)
    };
    let plan = CoastPlan {
        stack,
        vessel: sustainer.vessel,
        plate: sustainer.plate,
        disturbance: rocket.disturbance_m,
        settled: false,
        gas_flows,
        horizon,
    };
    Ok((plan, end))
}

/// A filled stage on the pad, or at the end of its pad tube.
fn at_rest(
    vehicle: &Vehicle,
    filling: &Filling,
    tube: Option<&crate::rocket::LaunchTube>,
    effort: Effort,
    recorder: &mut dyn Recorder,
) -> Result<Progress, FlightError> {
    match tube {
        Some(tube) => pad::pad_tube(vehicle, filling, tube, effort, recorder),
        None => Ok(Progress {
            t: 0.0,
            h: 0.0,
            v: 0.0,
            pressure: filling.pressure,
            gas_kg: filling.gas_kg,
            water: filling.water,
            jet: 0.0,
        }),
    }
}

/// Names a stack that stops climbing while its booster still pushes.
fn falls(after: &Progress) -> Result<(), FlightError> {
    if after.v <= 0.0 { Err(FlightError::FallsUnderThrust { t_s: after.t, height_m: after.h }) } else { Ok(()) }
}

/// Names a rocket whose water ran out of pressure before it had lifted.
fn stays_on_pad(vehicle: &Vehicle, filling: &Filling, after: &Progress) -> Result<(), FlightError> {
    if after.water > 0.0 && after.h <= 0.0 && after.v <= 0.0 {
        let overpressure = filling.pressure - vehicle.air.at(0.0).pressure_pa;
        let column = &vehicle.column;
        let jet = column.steady_speed(overpressure);
        let thrust_n = column.sets * column.density * column.nozzle_area * jet * jet * (1.0 - column.contraction());
        let weight_n = (vehicle.burden + filling.gas_kg + column.density * filling.water) * GRAVITY;
        return Err(FlightError::StaysOnPad { thrust_n, weight_n });
    }
    Ok(())
}
