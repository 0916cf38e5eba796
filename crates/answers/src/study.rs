//! One design, flown once and asked many times.
//!
//! The boost and the coast do not depend on the delay, so a [`Study`] flies them once; every question about a
//! delay continues from there. Moving the delay therefore costs one sustainer flight, not a whole one.

use holdwater_design::{Design, Input};
use holdwater_physics::error::FlightError;
use holdwater_physics::flight::{CoastState, Flight, Launch, Log, Silent, WaterMode};
use holdwater_physics::restrictor::{Verdict, hold};
use holdwater_physics::rocket::Rocket;
use holdwater_physics::solver::Effort;

use crate::curves::{FlightCurves, WaterPicture};
use crate::numbers::{Answers, Burnout, Event, Plate, Release, Sustainer};
use crate::refused::{self, Refused};
use crate::words;

/// Share of height that lifted water may cost up to the latest release.
pub const PLANNED_LOSS: f64 = 0.01;

/// Samples per step of the integrator in the curves against time.
const POINTS_PER_STEP: u32 = 4;

/// A design whose boost and coast have been flown.
#[derive(Clone, Debug)]
pub struct Study {
    design: Design,
    /// As it stands.
    launch: Launch,
    /// Without staging tube and restrictor, where that differs.
    bare: Option<Launch>,
    /// With the mass of the restrictor and nothing else of it, where there is one.
    ballast: Option<Launch>,
    latest_release: Option<f64>,
    uncovers: Option<f64>,
    settled_at_burnout: f64,
}

impl Study {
    /// Flies boost and coast of the design; its delay is not used.
    pub fn new(design: &Design) -> Result<Self, Vec<Refused>> {
        let rocket = design.rocket();
        let horizon = Input::Delay.row().max;
        let fly = |rocket: &Rocket| Launch::new(rocket, horizon, POINTS_PER_STEP, Effort::PAGE);
        let launch = fly(&rocket).map_err(|error| refused::explain(&error))?;
        let bare = if rocket.bare() == rocket {
            None
        } else {
            Some(fly(&rocket.bare()).map_err(|error| refused::explain(&error))?)
        };
        let ballast = rocket.restrictor.and_then(|plate| {
            let mut loaded = rocket.bare();
            loaded.sustainer.dry_kg += plate.mass_kg;
            fly(&loaded).ok()
        });
        let reference = bare.as_ref().unwrap_or(&launch);
        let settled_at_burnout =
            height(reference, 0.0, WaterMode::Settled).map_err(|error| refused::explain(&error))?;
        Ok(Self {
            design: design.clone(),
            latest_release: launch.latest_release(PLANNED_LOSS),
            uncovers: launch.uncovers(),
            settled_at_burnout,
            launch,
            bare,
            ballast,
        })
    }

    /// The design it was made for; its delay was not used.
    #[must_use]
    pub fn design(&self) -> &Design {
        &self.design
    }

    /// As it stands.
    pub(crate) fn launch(&self) -> &Launch {
        &self.launch
    }

    /// Latest release as it stands.
    pub(crate) fn latest_release(&self) -> Option<f64> {
        self.latest_release
    }

    /// The bare vessel: the reference of every comparison.
    fn reference(&self) -> &Launch {
        self.bare.as_ref().unwrap_or(&self.launch)
    }

    /// All answers at a delay.
    pub fn answers(&self, delay_s: f64) -> Result<Answers, Vec<Refused>> {
        let settled =
            height(self.reference(), delay_s, WaterMode::Settled).map_err(|error| refused::explain(&error))?;
        match self.launch.log(delay_s, WaterMode::Free) {
            Ok((flight, log)) => Ok(self.flown(&flight, &log, settled, delay_s)),
            Err(FlightError::StackHasFallen { .. }) => self.fallen(settled, delay_s),
            Err(error) => Err(refused::explain(&error)),
        }
    }

    fn flown(&self, flight: &Flight, log: &Log, settled: f64, delay_s: f64) -> Answers {
        let sustainer = &flight.sustainer;
        let release_t = flight.release.map_or(0.0, |state| state.t);
        let mut answers = Answers {
            apogee_m: sustainer.apogee.1,
            apogee_t_s: sustainer.apogee.0,
            gas_lost: sustainer.gas_lost,
            release: flight.release.map(|state| Release {
                t_s: state.t,
                h_m: state.h,
                v_mps: state.v,
                covered: sustainer.covered,
                finger_m: state.finger,
                lifted_l: state.lifted * 1e3,
            }),
            sustainer: sustainer.water_gone_t.map(|gone| Sustainer {
                water_s: gone - release_t,
                gas_s: sustainer.burnout.0 - gone,
                v_burnout_mps: sustainer.burnout.1,
            }),
            plate: self.plate(flight, settled, delay_s),
            ..self.common(settled, log)
        };
        answers.notes = words::notes(&self.launch, Some(flight), &answers, delay_s);
        answers
    }

    /// The stack reached its top before the release: what it reached by itself.
    fn fallen(&self, settled: f64, delay_s: f64) -> Result<Answers, Vec<Refused>> {
        let Some(log) = self.launch.log_unreleased(WaterMode::Free) else {
            return Err(Vec::new());
        };
        let top = log.events.last().map_or((0.0, 0.0), |event| (event.t, event.h));
        let mut answers = Answers { apogee_m: top.1, apogee_t_s: top.0, fell: true, ..self.common(settled, &log) };
        answers.notes = words::notes(&self.launch, None, &answers, delay_s);
        Ok(answers)
    }

    /// What does not depend on how the sustainer fares.
    fn common(&self, settled: f64, log: &Log) -> Answers {
        let coast = self.launch.coast(WaterMode::Free);
        let burnout = coast.map(|coast| Burnout { t_s: coast.burnout.0, h_m: coast.burnout.1, v_mps: coast.burnout.2 });
        Answers {
            apogee_m: 0.0,
            settled_apogee_m: settled,
            settled_at_burnout_m: self.settled_at_burnout,
            gas_lost: 0.0,
            latest_release_s: self.latest_release,
            uncovers_s: self.uncovers,
            burnout,
            coast_decel_mps2: coast.and_then(|coast| coast.at(0.0)).map(|state| state.deceleration),
            release: None,
            sustainer: None,
            apogee_t_s: 0.0,
            fell: false,
            hardware: words::hardware(self.launch.rocket()),
            plate: None,
            events: log
                .events
                .iter()
                .map(|event| Event {
                    what: words::happening(event.what),
                    t_s: event.t,
                    after_burnout_s: burnout.map(|burnout| event.t - burnout.t_s),
                    h_m: event.h,
                    v_mps: event.v,
                })
                .collect(),
            notes: Vec::new(),
        }
    }

    /// The restrictor at the release, if there is one, and what each of its parts costs.
    fn plate(&self, flight: &Flight, settled: f64, delay_s: f64) -> Option<Plate> {
        let summary = self.launch.plate()?;
        let state = flight.release.as_ref();
        let gas = state.map_or(0.0, |state| self.launch.sustainer().gas_at_nozzle(state));
        let held = |launch: &Launch| height(launch, delay_s, WaterMode::Settled).ok();
        let own = flight.sustainer.apogee.1;
        let with_plate = held(&self.launch).unwrap_or(own);
        let with_ballast = self.ballast.as_ref().and_then(held).unwrap_or(with_plate);
        Some(Plate {
            verdict: match hold::verdict(summary.bond / summary.limit, summary.trusted_share) {
                Verdict::Holds => "holds",
                Verdict::Marginal => "marginal",
                Verdict::Leaks => "leaks",
            },
            bond: summary.bond,
            limit: summary.limit,
            leak_l: state.map_or(0.0, |state| state.leaked * 1e3),
            gas_at_nozzle_l: gas * 1e3,
            gap_l: summary.gap_m3 * 1e3,
            above_l: summary.above_m3 * 1e3,
            mass_cost_m: settled - with_ballast,
            holes_cost_m: with_ballast - with_plate,
            water_cost_m: with_plate - own,
        })
    }

    /// The sustainer's water at a delay (seated for a single stage); at the top of the stack's flight beyond it.
    #[must_use]
    pub fn picture(&self, delay_s: f64) -> Option<WaterPicture> {
        let rocket = self.launch.rocket();
        let vessel = &self.launch.sustainer().vessel;
        let state = match self.launch.coast(WaterMode::Free) {
            None => None,
            Some(coast) => Some(coast.at(delay_s.min(self.launch.longest_delay()?))?),
        };
        let water = |of: fn(&CoastState) -> f64| state.as_ref().map_or(0.0, of);
        Some(WaterPicture {
            length_m: vessel.length,
            bore_m: vessel.bore_m,
            nozzle_m: rocket.sustainer.nozzle_m,
            standing_m: vessel.standing,
            finger_m: water(|state| state.finger).min(vessel.standing),
            lifted_m3: water(|state| state.lifted),
            lifted_height_m: state.map_or(vessel.standing, |state| state.lifted_height),
            at_nose: state.is_some_and(|state| state.at_nose),
            covered: state.is_none_or(|state| vessel.standing <= 0.0 || self.launch.sustainer().cover(&state) > 0.0),
            tube_m: rocket.staging_tube.map(|tube| (tube.length_m, tube.outer_m)),
            restrictor_m: rocket.restrictor.map(|plate| (plate.height_m, plate.hole_m, plate.holes)),
            gas_at_nozzle_m3: state.as_ref().map_or(0.0, |state| self.launch.sustainer().gas_at_nozzle(state)),
            leaked_m3: water(|state| state.leaked),
        })
    }

    /// Height, speed and acceleration against time at a delay.
    #[must_use]
    pub fn flight(&self, delay_s: f64) -> FlightCurves {
        let log = match self.launch.log(delay_s, WaterMode::Free) {
            Ok((_, log)) => Some(log),
            Err(_) => self.launch.log_unreleased(WaterMode::Free),
        };
        let mut curves = FlightCurves::default();
        for sample in log.iter().flat_map(|log| &log.samples) {
            curves.t_s.push(sample.t);
            curves.h_m.push(sample.h);
            curves.v_mps.push(sample.v);
            curves.a_mps2.push(sample.a);
        }
        curves
    }

    /// The longest delay worth showing: the top of the stack's own flight or the largest delay allowed. None for a single stage.
    #[must_use]
    pub fn longest_delay(&self) -> Option<f64> {
        let longest = self.launch.longest_delay()?;
        Some(self.bare.as_ref().and_then(Launch::longest_delay).map_or(longest, |bare| bare.min(longest)))
    }

    /// Starts a sweep over the delay, to be advanced in slices so that nothing blocks.
    #[must_use]
    pub fn sweep(&self, points: usize) -> crate::sweep::Sweep {
        crate::sweep::Sweep::new(self, points)
    }

    /// Heights for the curves: settled ideal, bare vessel, as it stands where that differs.
    pub(crate) fn heights(&self, delay_s: f64) -> (f64, f64, Option<f64>) {
        let or_nothing = |launch, mode| height(launch, delay_s, mode).unwrap_or(f64::NAN);
        let reference = self.reference();
        (
            or_nothing(reference, WaterMode::Settled),
            or_nothing(reference, WaterMode::Free),
            self.bare.as_ref().map(|_| or_nothing(&self.launch, WaterMode::Free)),
        )
    }

    /// Whether a restrictor or a staging tube is fitted.
    pub(crate) fn has_fittings(&self) -> bool {
        self.bare.is_some()
    }

    /// Latest release and uncovering of the bare vessel.
    pub(crate) fn bare_limits(&self) -> (Option<f64>, Option<f64>) {
        match &self.bare {
            None => (self.latest_release, self.uncovers),
            Some(bare) => (bare.latest_release(PLANNED_LOSS), bare.uncovers()),
        }
    }
}

/// Height reached at a delay; that of the stack alone if it falls first.
fn height(launch: &Launch, delay_s: f64, mode: WaterMode) -> Result<f64, FlightError> {
    match launch.fly(delay_s, mode, &mut Silent) {
        Ok(flight) => Ok(flight.sustainer.apogee.1),
        Err(FlightError::StackHasFallen { height_m, .. }) => Ok(height_m),
        Err(error) => Err(error),
    }
}
