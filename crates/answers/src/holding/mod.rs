//! Question two: what holds the water? Restrictor and launch tube sized, the ways to stage compared, bench and small tube.
//!
//! It takes some five hundred flights, so that it comes in slices: [`Holding::advance`] flies a few at a time, and nothing blocks.

mod bench;
mod case;
mod choices;
mod flights;
mod memory;
mod numbers;
mod stages;
mod words;

use holdwater_physics::sizing::search::Peak;

use crate::curves::BoreCurves;
use crate::study::{PLANNED_LOSS, Study};
use case::Case;
pub use case::Obstacle;
use flights::Flights;
use memory::Memory;
pub use numbers::{
    Bench, BestPlate, Choice, Fair, HoldingAnswer, Load, PatternAnswer, RestrictorAnswer, SmallTube, Tried, TubeAnswer,
    Way,
};
use stages::{Found, Stage};

/// Question two under way for a design at a delay.
#[derive(Clone, Debug)]
pub struct Holding {
    case: Case,
    memory: Memory,
    found: Found,
    stage: Stage,
    answer: Option<HoldingAnswer>,
}

impl Holding {
    /// Starts on a study at a delay; a handful of flights are flown at once.
    #[must_use]
    pub fn start(study: &Study, delay_s: f64) -> Self {
        let case = Case::new(study, delay_s);
        let stage = if case.obstacle.is_none() { Stage::Curve } else { Stage::Done };
        Self { case, memory: Memory::default(), found: Found::default(), stage, answer: None }
    }

    /// Flies so many more flights, each of a tenth of a millisecond or less; true when the answer is complete. The study must be the one it
    /// was started with.
    pub fn advance(&mut self, study: &Study, flights: usize) -> bool {
        let mut left = flights.max(1);
        while self.answer.is_none() {
            if self.stage == Stage::Done {
                self.answer = Some(choices::answer(study, &self.case, &self.found));
                break;
            }
            let mut run = Flights::new(&self.case, &mut self.memory, left);
            self.stage.run(&mut run, &mut self.found);
            left = run.left();
            if run.interrupted {
                return false;
            }
            self.stage = self.stage.next();
            if left == 0 {
                return false;
            }
        }
        true
    }

    /// The whole answer at once.
    #[must_use]
    pub fn complete(study: &Study, delay_s: f64) -> Self {
        let mut holding = Self::start(study, delay_s);
        while !holding.advance(study, usize::MAX) {}
        holding
    }

    /// The answer, when it is complete.
    #[must_use]
    pub fn answer(&self) -> Option<&HoldingAnswer> {
        self.answer.as_ref()
    }

    /// Everything flown so far as numbers, for a second copy of the program that has better things to do than fly.
    #[must_use]
    pub fn flown_as_numbers(&self) -> Vec<f64> {
        self.memory.numbers()
    }

    /// Takes what a second copy has flown for the same study and delay: none of it is flown again. Its arithmetic is the same to
    /// the last bit, so that the answer is.
    pub fn take_flown(&mut self, numbers: &[f64]) {
        self.memory.keep_numbers(numbers);
    }

    /// Flights flown so far.
    #[must_use]
    pub fn flown(&self) -> usize {
        self.memory.len()
    }

    /// Height against bore, as far as it has come: first the curve, then what is marked on it.
    #[must_use]
    pub fn curves(&self) -> BoreCurves {
        let Self { case, found, .. } = self;
        let holes = case.plate.holes;
        let in_metres = |mm: f64| case::mm(mm);
        let best = found.best.map(|(bore, height)| Peak { place: in_metres(bore), height });
        BoreCurves {
            bore_m: found.points.iter().map(|point| point.0).collect(),
            height_m: found.points.iter().map(|point| point.1.unwrap_or(f64::NAN)).collect(),
            holes,
            ideal_m: case.ideal,
            bare_m: case.bare_height,
            holds_below_m: case.widest_hole(holes, case.plate.trusted_share),
            leaks_above_m: case.widest_hole(holes, 1.0),
            chokes_below_m: found.chokes_below,
            share: PLANNED_LOSS,
            window_m: found.window.map(|[low, high]| (in_metres(low), in_metres(high))),
            best_m: best.map(|peak| (peak.place, peak.height)),
            fitted_m: self.fitted(),
        }
    }

    fn fitted(&self) -> Option<(f64, f64)> {
        let plate = self.case.rocket.restrictor?;
        Some((plate.hole_m, self.case.fitted_height)).filter(|(_, height)| height.is_finite())
    }
}
