//! The flights that sizing asks for, each flown once.
//!
//! The searches are plain functions that run from start to end. To give way in between, a run that has used up its flights is thrown
//! away and done again later: what was flown is remembered, so that it comes past the same place at once.

use holdwater_physics::error::FlightError;
use holdwater_physics::flight::{Launch, Silent, WaterMode};
use holdwater_physics::restrictor::holes::most_that_fit;
use holdwater_physics::rocket::{LaunchTube, Restrictor, Rocket};
use holdwater_physics::sizing::plate;
use holdwater_physics::solver::Effort;

use super::case::Case;
use super::memory::{Memory, Outcome, Question};

/// A run of the searches.
pub(super) struct Flights<'a> {
    pub case: &'a Case,
    memory: &'a mut Memory,
    left: usize,
    /// Whether a flight was asked for that there was no time for: the results of this run mean nothing.
    pub interrupted: bool,
}

impl<'a> Flights<'a> {
    pub fn new(case: &'a Case, memory: &'a mut Memory, most: usize) -> Self {
        Self { case, memory, left: most, interrupted: false }
    }

    /// Flights that are left.
    pub fn left(&self) -> usize {
        self.left
    }

    fn ask(&mut self, question: Question, fly: impl FnOnce(&Case) -> Option<Outcome>) -> Option<Outcome> {
        if let Some(outcome) = self.memory.recall(question) {
            return outcome;
        }
        if self.left == 0 || self.interrupted {
            self.interrupted = true;
            return None;
        }
        self.left -= 1;
        let outcome = fly(self.case);
        self.memory.keep(question, outcome);
        outcome
    }

    /// With a plate and free water.
    pub fn plate(&mut self, hole_m: f64, holes: u32, height_m: f64) -> Option<Outcome> {
        let question = Question::Plate(hole_m.to_bits(), holes, height_m.to_bits());
        self.ask(question, |case| outcome(&case.with_plate(hole_m, holes, height_m), case.delay, WaterMode::Free))
    }

    /// Height with a plate and free water, for searches.
    pub fn plate_height(&mut self, hole_m: f64, holes: u32, height_m: f64) -> Option<f64> {
        self.plate(hole_m, holes, height_m).filter(|outcome| !outcome.fell).map(|outcome| outcome.height)
    }

    /// Height with a plate and held water, for searches.
    pub fn held_height(&mut self, hole_m: f64, holes: u32, height_m: f64) -> Option<f64> {
        let question = Question::HeldPlate(hole_m.to_bits(), holes, height_m.to_bits());
        let fly = |case: &Case| outcome(&case.with_plate(hole_m, holes, height_m), case.delay, WaterMode::Settled);
        self.ask(question, fly).filter(|outcome| !outcome.fell).map(|outcome| outcome.height)
    }

    /// With a staging tube and free water, against the same with held water.
    pub fn tube(&mut self, length_m: f64, wall_m: f64) -> Option<Outcome> {
        self.ask(Question::Tube(length_m.to_bits(), wall_m.to_bits()), |case| {
            tube_outcome(&case.with_tube(length_m, wall_m), case.delay)
        })
    }

    /// How many holes of a diameter a plate has room for. Laying them out takes as long as many flights.
    pub fn room(&mut self, hole_m: f64, bore_m: f64) -> u32 {
        let lay_out = |_: &Case| {
            let holes = most_that_fit(hole_m, bore_m, plate::web(hole_m));
            Some(Outcome { height: f64::from(holes), fell: false, loss: 0.0, seated: false })
        };
        self.ask(Question::Room(hole_m.to_bits()), lay_out).map_or(0, |outcome| outcome.height as u32)
    }

    /// Loss at a delay with the launch given.
    pub fn loss(&mut self, launch: &Launch, tube: bool, delay: f64) -> f64 {
        let question = if tube { Question::TubeLoss(delay.to_bits()) } else { Question::PlateLoss(delay.to_bits()) };
        let fly = |_: &Case| Some(Outcome { height: 0.0, fell: false, loss: launch.loss(delay), seated: false });
        self.ask(question, fly).map_or(0.0, |outcome| outcome.loss)
    }
}

/// Boost and coast of a rocket, as far as a delay.
pub(super) fn launch(rocket: &Rocket, horizon: f64) -> Option<Launch> {
    Launch::new(rocket, horizon, 0, Effort::PAGE).ok()
}

/// Height at a delay: `Err` with the height of the stack if it falls first, `None` without an answer.
pub(super) fn height(launch: &Launch, delay: f64, mode: WaterMode) -> Option<Result<f64, f64>> {
    match launch.fly(delay, mode, &mut Silent) {
        Ok(flight) => Some(Ok(flight.sustainer.apogee.1)),
        Err(FlightError::StackHasFallen { height_m, .. }) => Some(Err(height_m)),
        Err(_) => None,
    }
}

fn outcome(rocket: &Rocket, delay: f64, mode: WaterMode) -> Option<Outcome> {
    let reached = height(&launch(rocket, delay)?, delay, mode)?;
    let (height, fell) = match reached {
        Ok(height) => (height, false),
        Err(height) => (height, true),
    };
    Some(Outcome { height, fell, loss: 0.0, seated: false })
}

fn tube_outcome(rocket: &Rocket, delay: f64) -> Option<Outcome> {
    let launch = launch(rocket, delay)?;
    let free = match launch.fly(delay, WaterMode::Free, &mut Silent) {
        Ok(flight) => flight.sustainer,
        Err(FlightError::StackHasFallen { height_m, .. }) => {
            return Some(Outcome { height: height_m, fell: true, loss: 1.0, seated: false });
        }
        Err(_) => return None,
    };
    let held = launch.fly(delay, WaterMode::Settled, &mut Silent).ok()?.sustainer;
    let loss = if held.apogee.1 > 0.0 { 1.0 - free.apogee.1 / held.apogee.1 } else { 1.0 };
    // Held water loses what stays in the tube and nothing else.
    let seated = free.gas_lost <= held.gas_lost + 1e-9;
    Some(Outcome { height: free.apogee.1, fell: false, loss, seated })
}

impl Case {
    /// The bare rocket with a plate.
    pub fn with_plate(&self, hole_m: f64, holes: u32, height_m: f64) -> Rocket {
        Rocket { restrictor: Some(Restrictor { hole_m, holes, height_m, ..self.plate }), ..self.bare }
    }

    /// The bare rocket with a staging tube.
    pub fn with_tube(&self, length_m: f64, wall_m: f64) -> Rocket {
        Rocket { staging_tube: Some(LaunchTube { length_m, wall_m, ..self.tube }), ..self.bare }
    }
}
