//! One part at its launch pressure: stress, margin, burst, proof.

use holdwater_design::parts::{PartInput, PartKind, PartStage, VesselPart};
use holdwater_design::{Design, Input};
use holdwater_physics::age::proof::{SCATTER_FACTOR, supported};
use holdwater_physics::vessel::answer::{Answer, Note, answer, strength};
use holdwater_physics::vessel::part::{Evidence, Part};
use holdwater_physics::vessel::problem::PartProblem;
use holdwater_physics::vessel::proof::{passed, plan};

use super::age::PartAge;
use super::refusal::{PartRefused, refusal};

const BAR: f64 = 1e5;
const MEGAPASCAL: f64 = 1e6;

/// What a part answers.
#[derive(Clone, Debug, PartialEq)]
pub struct PartAnswer {
    /// Its number in the link, from 1: `p1`.
    pub number: usize,
    /// What it is called.
    pub name: String,
    /// What it is.
    pub kind: PartKind,
    /// Whose pressure it is under.
    pub stage: PartStage,
    /// How many equal ones there are.
    pub count: u32,
    /// That pressure, bar.
    pub fill_bar: f64,
    /// Stress and margin, or why there is none.
    pub held: Result<Held, PartRefused>,
    /// The highest fill at which its margin is not below nought, bar.
    pub highest_fill_bar: Option<f64>,
    /// The proof test to be done, or why there can be none.
    pub proof: Result<ProofTest, PartRefused>,
    /// What the proof it passed is worth.
    pub passed: Option<Passed>,
    /// Its age and chances.
    pub age: PartAge,
}

/// A part that has a margin.
#[derive(Clone, Debug, PartialEq)]
pub struct Held {
    /// The stress or pressure that governs.
    pub stress: &'static str,
    /// Whether that is a pressure.
    pub is_pressure: bool,
    /// Its size, MPa.
    pub stress_mpa: f64,
    /// What is allowed before the factor, MPa.
    pub allowable_mpa: f64,
    /// Safety factor.
    pub factor: f64,
    /// Margin of safety.
    pub margin: f64,
    /// Burst estimate without a factor, bar; `None` where nothing is known.
    pub burst_bar: Option<f64>,
    /// What the answer rests on.
    pub evidence: &'static str,
    /// Margin by formula or rating, whether it counts or not.
    pub formula_margin: Option<f64>,
    /// What is not covered and what is odd, in sentences.
    pub notes: Vec<&'static str>,
}

/// A proof test to be done.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ProofTest {
    /// Pressure, bar, filled with water.
    pub pressure_bar: f64,
    /// Share of the strength that it uses.
    pub share_of_strength: f64,
    /// Whether it would do harm itself.
    pub harmful: bool,
    /// Whether the part is expected to burst in it.
    pub bursts: bool,
    /// Fills at launch pressure that a passed test supports.
    pub supports_fills: f64,
    /// Fills at launch pressure that the test costs in life, at least and at most.
    pub costs_fills: (f64, f64),
}

/// What a passed proof is worth now.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Passed {
    /// The highest launch pressure it supports, bar.
    pub supports_bar: f64,
    /// Margin against the launch pressure.
    pub margin: f64,
    /// Fills at launch pressure that it supported when it was passed.
    pub supports_fills: f64,
}

impl PartAnswer {
    /// Its margin of safety, if it has one.
    #[must_use]
    pub fn margin(&self) -> Option<f64> {
        self.held.as_ref().ok().map(|held| held.margin)
    }
}

/// Everything but the age, which needs all parts.
pub(super) fn answer_for(design: &Design, part: &VesselPart, number: usize) -> PartAnswer {
    let (solid, fill_pa, use_k) = (design.solid(part), design.fill_pa(part.stage()), design.part_temperature_k());
    let factors = design.factors();
    let refuse = |problem: PartProblem| refusal(part, number, &problem);
    let found = answer(&solid, fill_pa, use_k, &factors);
    let highest = match found {
        Ok(found) => Some(found.zero_margin_pa),
        // A tube that collapses still has a pressure that it holds.
        Err(PartProblem::PressureBeyondCollapse { .. }) => {
            strength(&solid, use_k, &factors).ok().map(|strength| strength.governing.zero_margin())
        }
        Err(_) => None,
    };
    PartAnswer {
        number,
        name: part.called(number),
        kind: part.kind(),
        stage: part.stage(),
        count: part.number(PartInput::Count).unwrap_or(1.0) as u32,
        fill_bar: fill_pa / BAR,
        held: found.map(|found| held(&found)).map_err(refuse),
        highest_fill_bar: highest.map(|pressure| pressure / BAR),
        proof: proof_test(design, &solid, fill_pa, use_k).map_err(refuse),
        passed: what_passed(design, &solid, fill_pa, use_k),
        age: PartAge::default(),
    }
}

fn held(found: &Answer) -> Held {
    Held {
        stress: found.mode.name(),
        is_pressure: found.mode.is_pressure(),
        stress_mpa: found.stress_pa / MEGAPASCAL,
        allowable_mpa: found.allowable_pa / MEGAPASCAL,
        factor: found.factor,
        margin: found.margin,
        burst_bar: found.burst_pa.map(|burst| burst / BAR),
        evidence: evidence_words(found.evidence),
        formula_margin: found.formula_margin,
        notes: found.notes.iter().map(note_words).collect(),
    }
}

fn proof_test(design: &Design, part: &Part, fill_pa: f64, use_k: f64) -> Result<ProofTest, PartProblem> {
    let water_k = Input::WaterTemperature.row().unit.to_si(design.number(Input::WaterTemperature));
    let factor = design.number(Input::ProofFactor);
    let plan = plan(part, fill_pa, use_k, water_k, factor, &design.factors())?;
    let [flat, steep] = part.material.fatigue.slopes;
    // What the pressure is raised by for a test in the cool only makes up for the greater strength there.
    let of = |slope| supported(factor, 1.0, slope, SCATTER_FACTOR);
    Ok(ProofTest {
        pressure_bar: plan.pressure_pa / BAR,
        share_of_strength: plan.share_of_strength,
        harmful: plan.harmful,
        bursts: plan.bursts,
        supports_fills: of(flat).cycles,
        costs_fills: (of(flat).cost, of(steep).cost),
    })
}

fn what_passed(design: &Design, part: &Part, fill_pa: f64, use_k: f64) -> Option<Passed> {
    let proof = part.proof?;
    let factor = design.number(Input::ProofFactor);
    let worth = passed(part, proof, fill_pa, use_k, factor).ok()?;
    // The proof as it would be at the temperature of now.
    let supports = supported(worth.supported_pa * factor, fill_pa, part.material.fatigue.slopes[0], SCATTER_FACTOR);
    Some(Passed { supports_bar: worth.supported_pa / BAR, margin: worth.margin, supports_fills: supports.cycles })
}

fn evidence_words(evidence: Evidence) -> &'static str {
    match evidence {
        Evidence::Formula => "formula",
        Evidence::Rating => "rating",
        Evidence::MeasuredBurst => "measured burst",
        Evidence::Proof => "proof",
    }
}

fn note_words(note: Note) -> &'static str {
    match note {
        Note::MeasuredBurstOverrides => "The burst you measured counts in place of the formula.",
        Note::ProofOverrides => "The proof passed counts in place of the formula.",
        Note::AboveProof => "The launch pressure is above the proof this part has passed.",
        Note::ProofAboveBurst => {
            "It passed a proof above the burst you measured on a like part: one of the two is wrong, or parts differ much."
        }
        Note::HotterThanKnown => "It is hotter than its material is known for and counts as having no strength.",
        Note::BelowFreezing => "Below freezing, where parts turn brittle. That is not covered.",
        Note::UncertainStrength => {
            "The strength of its material is uncertain; burst a like part with water to know it."
        }
        Note::PeelNotCovered => "Peel and voids in the glue are not covered, and they are what opens most splices.",
        Note::RatingMayBeForLiquid => "Many ratings are for liquids. Gas stores a thousand times the energy.",
        Note::TakenAsClosed => "Taken as closed at its end, with the full pressure around it.",
        Note::ThinDome => "Its knuckle is so thin that it can buckle inward, which is not covered.",
        Note::LargeDeflection => "It bends by more than half its thickness, where the formula no longer holds.",
        Note::ThickPlate => "It is so thick for its bore that the formula no longer holds.",
    }
}
