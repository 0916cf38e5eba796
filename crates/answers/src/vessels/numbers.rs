//! Parts and stand-off as numbers: what `cargo xtask evaluate` prints. Names carry their unit and never change meaning.

use serde::Serialize;

use super::age::{Age, FitNumbers, LifeOf, RetireBy, next_fill_95};
use super::part::{Held, PartAnswer};
use super::{Vessels, words};

/// All parts of the stages that fly.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct VesselNumbers {
    /// The parts in the order of the link.
    pub parts: Vec<PartNumbers>,
    /// The least margin; null while any part has none.
    pub least_margin: Option<f64>,
    /// Name of the weakest part that has a margin.
    pub weakest: Option<String>,
    /// Chance that any part of known life fails in the next fill; null if nothing is known.
    pub fail_next: Option<f64>,
    /// Chance that any part of known life fails today; null if nothing is known.
    pub fail_today: Option<f64>,
    /// Chance that two or more fail today.
    pub fail_today_two: Option<f64>,
    /// Whether the chances are upper bounds.
    pub fail_at_most: bool,
    /// Parts of unknown life, which are left out of the chances.
    pub unknown_lives: usize,
    /// The stages that fly.
    pub stages: Vec<StageNumbers>,
    /// The lives that were used.
    pub lives: Vec<LifeNumbers>,
    /// Temperature of the parts.
    pub part_c: f64,
}

/// One part.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PartNumbers {
    /// Its key in the link: "p1".
    pub key: String,
    /// What it is called.
    pub name: String,
    /// What it is.
    pub kind: &'static str,
    /// Whose pressure it is under.
    pub stage: &'static str,
    /// Which stress or pressure governs.
    pub stress: Option<&'static str>,
    /// Its size at launch pressure.
    pub stress_mpa: Option<f64>,
    /// What is allowed, before the factor.
    pub allowable_mpa: Option<f64>,
    /// Safety factor.
    pub factor: Option<f64>,
    /// Burst estimate; null where nothing is known.
    pub burst_bar: Option<f64>,
    /// Margin of safety.
    pub margin: Option<f64>,
    /// Launch pressure at which the margin is nought.
    pub highest_fill_bar: Option<f64>,
    /// What the answer rests on: "formula", "rating", "measured burst", "proof".
    pub evidence: Option<&'static str>,
    /// Proof pressure; null where there can be none.
    pub proof_bar: Option<f64>,
    /// Whether that proof would do harm itself.
    pub proof_harmful: Option<bool>,
    /// Fills behind it, as fills at the launch pressure of now.
    pub fills_behind: f64,
    /// Chance that it fails in the next fill; null if its life is unknown.
    pub fail_next: Option<f64>,
    /// The 95 % interval of that chance, where the life was fitted.
    pub fail_next_95: Option<(f64, f64)>,
    /// Chance that it fails today.
    pub fail_today: Option<f64>,
    /// Fills after which it retires: 0 means never use it, null that there is no such number.
    pub retire_after: Option<u64>,
    /// Why it has no margin.
    pub problem: Option<String>,
    /// What is not covered and what is odd.
    pub notes: Vec<&'static str>,
}

/// One stage.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StageNumbers {
    /// Which.
    pub stage: &'static str,
    /// Its launch pressure.
    pub fill_bar: f64,
    /// The highest that its parts support; null if nothing is known.
    pub highest_fill_bar: Option<f64>,
    /// Name of the part that sets it.
    pub set_by: Option<String>,
    /// Whether it has parts and all of them answered; if not, the highest fill may be lower.
    pub complete: bool,
}

/// One life.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LifeNumbers {
    /// The kind whose own rows of the log were used; null for all others.
    pub of: Option<&'static str>,
    /// Failures in those rows.
    pub failures: usize,
    /// Parts that are whole in them.
    pub whole: usize,
    /// Where the life comes from: "fitted", "bound", "given", "unknown".
    pub basis: &'static str,
    /// Shape that was used.
    pub shape: Option<f64>,
    /// Scale that was used.
    pub scale: Option<f64>,
    /// The fit, where there is one.
    pub fit: Option<FitNumbers>,
    /// Why there is none.
    pub no_fit: Option<String>,
}

/// Stored energy and stand-off.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct StandoffNumbers {
    /// What the compressed gas gives up when everything lets go as it stands on the pad.
    pub energy_j: f64,
    /// TNT with that energy, as the stand-off rule reckons it.
    pub tnt_kg: f64,
    /// How far to stand for blast alone; null for more energy than the rule covers.
    pub distance_m: Option<f64>,
    /// Whether the floor of the rule governs.
    pub by_floor: bool,
    /// The energy if the vessels held no water.
    pub without_water_j: f64,
    /// The energy in a proof test filled with water, with some air left in.
    pub proof_water_j: f64,
    /// The energy in the same test with gas alone.
    pub proof_gas_j: f64,
}

pub(super) fn of(vessels: &Vessels) -> Option<VesselNumbers> {
    let Age { next_fill, day, day_two, at_most, unknown, lives, .. } = &vessels.age;
    (!vessels.parts.is_empty()).then(|| VesselNumbers {
        parts: vessels.parts.iter().map(|answer| part(vessels, answer)).collect(),
        least_margin: vessels.least_margin,
        weakest: vessels.weakest().map(|part| part.name.clone()),
        fail_next: *next_fill,
        fail_today: *day,
        fail_today_two: *day_two,
        fail_at_most: *at_most,
        unknown_lives: *unknown,
        stages: stages(vessels),
        lives: lives.iter().map(life).collect(),
        part_c: vessels.part_c,
    })
}

fn stages(vessels: &Vessels) -> Vec<StageNumbers> {
    let stage = |fill: &super::StageFill| StageNumbers {
        stage: fill.stage.word().word,
        fill_bar: fill.fill_bar,
        highest_fill_bar: fill.highest.map(|(bar, _)| bar),
        set_by: fill.highest.map(|(_, place)| vessels.parts[place].name.clone()),
        complete: fill.complete,
    };
    vessels.stages.iter().map(stage).collect()
}

fn part(vessels: &Vessels, part: &PartAnswer) -> PartNumbers {
    let held: Option<&Held> = part.held.as_ref().ok();
    let proof = part.proof.as_ref().ok();
    PartNumbers {
        key: format!("p{}", part.number),
        name: part.name.clone(),
        kind: part.kind.word().word,
        stage: part.stage.word().word,
        stress: held.map(|held| held.stress),
        stress_mpa: held.map(|held| held.stress_mpa),
        allowable_mpa: held.map(|held| held.allowable_mpa),
        factor: held.map(|held| held.factor),
        burst_bar: held.and_then(|held| held.burst_bar),
        margin: held.map(|held| held.margin),
        highest_fill_bar: part.highest_fill_bar,
        evidence: held.map(|held| held.evidence),
        proof_bar: proof.map(|proof| proof.pressure_bar),
        proof_harmful: proof.map(|proof| proof.harmful),
        fills_behind: part.age.behind,
        fail_next: part.age.next_fill,
        fail_next_95: next_fill_95(&vessels.age, part),
        fail_today: part.age.day,
        retire_after: part.age.retire.and_then(|retire| match retire {
            RetireBy::NeverUse => Some(0),
            RetireBy::After(fills) => Some(fills),
            RetireBy::NoLimit => None,
        }),
        problem: part.held.as_ref().err().map(|refused| refused.message.clone()),
        notes: held.map(|held| held.notes.clone()).unwrap_or_default(),
    }
}

fn life(life: &LifeOf) -> LifeNumbers {
    LifeNumbers {
        of: life.of.map(|kind| kind.word().word),
        failures: life.failures,
        whole: life.whole,
        basis: words::basis_word(life),
        shape: life.life.map(|life| life.weibull.shape()),
        scale: life.life.map(|life| life.weibull.scale()),
        fit: life.fit,
        no_fit: life.no_fit.clone(),
    }
}
