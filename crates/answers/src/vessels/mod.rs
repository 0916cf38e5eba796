//! Questions 3 and 4: will the vessels hold, and where do we stand?
//!
//! From a design alone, without a flight: every part with its stress, margin and evidence, the weakest named, the highest fill of each
//! stage, proof tests, age, stored energy and stand-off. A part that has no answer says why, and the others still answer.

mod age;
mod numbers;
mod part;
mod refusal;
mod stand;
mod warnings;
mod why;
mod words;

pub use age::{Age, FitNumbers, LifeOf, PartAge, RetireBy};
pub use numbers::{PartNumbers, StageNumbers, StandoffNumbers, VesselNumbers};
pub use part::{Held, PartAnswer, Passed, ProofTest};
pub use refusal::PartRefused;
pub use stand::{Stand, stand};
pub use why::{WHY_AGE, WHY_STAND, WHY_VESSELS};
pub use words::{
    AGE_CAUTIONS, FIELD_CHECKLIST, PROOF_CAUTIONS, STAND_CAUTIONS, VESSEL_CAUTIONS, age_sentences, part_sentence,
    passed_sentence, proof_sentence, stage_sentences, stand_sentences, stand_verdict, vessel_verdict,
};

use holdwater_design::parts::PartStage;
use holdwater_design::{Design, Input};
use holdwater_physics::order::sort_by_number;

use crate::digits::trimmed;

/// Everything about the parts of a design.
#[derive(Clone, Debug, PartialEq)]
pub struct Vessels {
    /// The parts of the stages that fly, in the order of the link.
    pub parts: Vec<PartAnswer>,
    /// Places in `parts`, refused ones first, then from the weakest on.
    pub weakest_first: Vec<usize>,
    /// Numbers (from 1) of booster parts that do not count, because a single stage flies.
    pub grounded: Vec<usize>,
    /// The least margin of all parts; `None` while any part is refused, and without parts.
    pub least_margin: Option<f64>,
    /// What each stage that flies may be filled to.
    pub stages: Vec<StageFill>,
    /// Temperature of the parts, °C.
    pub part_c: f64,
    /// Chances and lives.
    pub age: Age,
    /// What must be acted on, in sentences, the worst first.
    pub warnings: Vec<String>,
}

/// What a stage may be filled to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StageFill {
    /// The stage.
    pub stage: PartStage,
    /// Its launch pressure now, bar.
    pub fill_bar: f64,
    /// The highest fill at which no part has a margin below nought, bar, and the place in `parts` of the part that sets it.
    pub highest: Option<(f64, usize)>,
    /// Whether it has parts and all of them answered; if not, the highest fill may be lower.
    pub complete: bool,
}

impl StageFill {
    /// Whether the launch pressure passes the highest fill.
    #[must_use]
    pub fn is_passed(&self) -> bool {
        self.highest.is_some_and(|(highest, _)| self.fill_bar > highest)
    }
}

impl Vessels {
    /// All answers about the parts of a design.
    #[must_use]
    pub fn of(design: &Design) -> Self {
        let flies = |stage| stage == PartStage::Sustainer || design.number(Input::Stages) > 1.5;
        let (mut parts, mut grounded) = (Vec::new(), Vec::new());
        for (part, number) in design.parts().iter().zip(1..) {
            if flies(part.stage()) {
                parts.push(part::answer_for(design, part, number));
            } else {
                grounded.push(number);
            }
        }
        let age = age::add(design, &mut parts);
        let mut weakest_first: Vec<usize> = (0..parts.len()).collect();
        // Margins are numbers; a part without one comes before all others.
        sort_by_number(&mut weakest_first, |place| rank(&parts[*place]));
        let all_held = parts.iter().all(|part| part.held.is_ok());
        let least_margin = weakest_first.first().filter(|_| all_held).and_then(|place| parts[*place].margin());
        let stages = PartStage::ALL.into_iter().filter(|stage| flies(*stage));
        let stages = stages.map(|stage| fill_of(design, stage, &parts)).collect();
        let part_c = design.part_temperature_k() - 273.15;
        let mut vessels =
            Self { parts, weakest_first, grounded, least_margin, stages, part_c, age, warnings: Vec::new() };
        vessels.warnings = warnings::of(&vessels);
        vessels
    }

    /// The weakest part that has an answer.
    #[must_use]
    pub fn weakest(&self) -> Option<&PartAnswer> {
        self.weakest_first.iter().map(|place| &self.parts[*place]).find(|part| part.held.is_ok())
    }

    /// The parts without an answer.
    pub fn refused(&self) -> impl Iterator<Item = (&PartAnswer, &PartRefused)> {
        self.parts.iter().filter_map(|part| Some((part, part.held.as_ref().err()?)))
    }

    /// The ends of the 95 % interval of a part's chance for the next fill, by its place in `parts`; `None` where its life was not fitted.
    ///
    /// For a long log this takes as long as everything else, so ask for what is shown.
    #[must_use]
    pub fn next_fill_95(&self, place: usize) -> Option<(f64, f64)> {
        age::next_fill_95(&self.age, self.parts.get(place)?)
    }

    /// The answers as they are printed; `None` without parts.
    #[must_use]
    pub fn numbers(&self) -> Option<VesselNumbers> {
        numbers::of(self)
    }
}

fn rank(part: &PartAnswer) -> f64 {
    part.margin().unwrap_or(f64::NEG_INFINITY)
}

fn fill_of(design: &Design, stage: PartStage, parts: &[PartAnswer]) -> StageFill {
    let mut fill = StageFill {
        stage,
        fill_bar: design.number(Design::inputs_of(stage).1),
        highest: None,
        complete: parts.iter().any(|part| part.stage == stage),
    };
    for (place, part) in parts.iter().enumerate().filter(|(_, part)| part.stage == stage) {
        match part.highest_fill_bar {
            Some(bar) if fill.highest.is_none_or(|(so_far, _)| bar < so_far) => fill.highest = Some((bar, place)),
            Some(_) => {}
            None => fill.complete = false,
        }
    }
    fill
}

/// A number with two significant digits or three, as chances and energies are said.
pub(crate) fn significant(value: f64) -> String {
    let size = value.abs();
    let decimals = [100.0, 10.0, 1.0, 0.1, 0.01, 1e-3, 1e-4, 1e-5].iter().position(|least| size >= *least);
    match decimals {
        _ if size <= 0.0 => "0".to_owned(),
        Some(decimals) => trimmed(value, decimals),
        None => trimmed(value, 8),
    }
}

/// A chance in per cent.
pub(crate) fn percent(chance: f64) -> String {
    match 100.0 * chance {
        tiny if chance > 0.0 && tiny < 1e-6 => "less than 0.000001".to_owned(),
        percent => significant(percent),
    }
}
