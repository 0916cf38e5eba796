//! What a part answers at a pressure and a temperature.

use super::lines::{Factors, Line, Mode, each_line};
use super::part::{Dome, Evidence, Kind, Part, Test};
use super::plate::deflection;
use super::problem::{PartProblem, Quantity};
use crate::constants::CELSIUS_ZERO_K;

/// Something to say beside an answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Note {
    /// The measured burst stands in place of the formula.
    MeasuredBurstOverrides,
    /// The proof was chosen to stand in place of the formula.
    ProofOverrides,
    /// The pressure is above the proof the part has passed.
    AboveProof,
    /// The part has passed a proof above the burst measured on a like part: one of the two is wrong, or parts differ much.
    ProofAboveBurst,
    /// Hotter than the strengths are known for; it counts as having none left.
    HotterThanKnown,
    /// Below freezing, where toughness is not covered.
    BelowFreezing,
    /// The strength of the material is uncertain: from memory, the low end of a wide range.
    UncertainStrength,
    /// Peel and voids of the bond are not in the number.
    PeelNotCovered,
    /// Ratings are often for liquids; gas stores a thousand times the energy.
    RatingMayBeForLiquid,
    /// The tube is taken as closed at its end and carrying the full outside pressure.
    TakenAsClosed,
    /// The dome is so thin that its knuckle can buckle inward, which is not covered.
    ThinDome,
    /// The closure bends by more than half its thickness: the plate formula no longer holds.
    LargeDeflection,
    /// The closure is thicker than a quarter of its radius: the plate formula no longer holds.
    ThickPlate,
}

/// Notes beside an answer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Notes(u32);

impl Notes {
    const ALL: [Note; 13] = [
        Note::MeasuredBurstOverrides,
        Note::ProofOverrides,
        Note::AboveProof,
        Note::ProofAboveBurst,
        Note::HotterThanKnown,
        Note::BelowFreezing,
        Note::UncertainStrength,
        Note::PeelNotCovered,
        Note::RatingMayBeForLiquid,
        Note::TakenAsClosed,
        Note::ThinDome,
        Note::LargeDeflection,
        Note::ThickPlate,
    ];

    fn add(&mut self, note: Note, when: bool) {
        if when {
            self.0 |= 1 << note as u32;
        }
    }

    /// Whether a note is there.
    #[must_use]
    pub fn has(self, note: Note) -> bool {
        self.0 & (1 << note as u32) != 0
    }

    /// All notes that are there.
    pub fn iter(self) -> impl Iterator<Item = Note> {
        Self::ALL.into_iter().filter(move |note| self.has(*note))
    }
}

/// What is known of a part at a temperature, whatever the pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strength {
    /// What the answer rests on.
    pub evidence: Evidence,
    /// The governing line of that evidence.
    pub governing: Line,
    /// The governing line of formula or rating, if there is one.
    pub formula: Option<Line>,
    /// The measured burst as a line, if there is one.
    pub burst: Option<Line>,
    /// The proof as a line, if there is one.
    pub proof: Option<Line>,
    /// Burst estimate, Pa: measured, or the least of all ways to break; `None` where nothing is known.
    pub burst_pa: Option<f64>,
    /// Outside pressure at which a perfect tube collapses or buckles, Pa.
    pub collapse_pa: Option<f64>,
}

/// What a part answers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Answer {
    /// Gauge pressure asked, Pa.
    pub pressure_pa: f64,
    /// What the answer rests on.
    pub evidence: Evidence,
    /// Which stress (or pressure) governs.
    pub mode: Mode,
    /// That stress, Pa.
    pub stress_pa: f64,
    /// What is allowed at this temperature, before the factor, Pa.
    pub allowable_pa: f64,
    /// Safety factor.
    pub factor: f64,
    /// Margin of safety: allowable/(factor stress) - 1.
    pub margin: f64,
    /// Gauge pressure at which the margin is nought, Pa.
    pub zero_margin_pa: f64,
    /// Burst estimate, Pa: measured or reckoned, without a factor; `None` where nothing is known.
    pub burst_pa: Option<f64>,
    /// Margin by formula or rating, counted or not.
    pub formula_margin: Option<f64>,
    /// Margin by the measured burst, counted or not.
    pub burst_margin: Option<f64>,
    /// Margin by the proof passed, counted or not.
    pub proof_margin: Option<f64>,
    /// What to say beside it.
    pub notes: Notes,
}

/// A test as a line: less where the part is hotter now, never more where it is cooler.
fn tested(part: &Part, test: Test, temperature_k: f64, mode: Mode, factor: f64) -> Line {
    let derating = part.material.derating;
    let (then, now) = (derating.share(test.temperature_k), derating.share(temperature_k));
    let left = if now < then { now / then } else { 1.0 };
    // Hotter than the material is known for it has no strength, whatever a test at such a heat may have shown.
    let left = if now > 0.0 { left } else { 0.0 };
    let allowable_pa = test.pressure_pa * left;
    let breaks_pa = (mode == Mode::Burst).then_some(allowable_pa);
    Line { mode, per_pressure: 1.0, allowable_pa, factor, breaks_pa }
}

/// What is known of a part at a temperature.
pub fn strength(part: &Part, temperature_k: f64, factors: &Factors) -> Result<Strength, PartProblem> {
    part.check()?;
    factors.check()?;
    Quantity::Temperature.check(temperature_k)?;
    let (mut formula, mut breaks, mut collapses): (Option<Line>, Option<f64>, Option<f64>) = (None, None, None);
    let least = |so_far: Option<f64>, next: f64| Some(so_far.map_or(next, |value| value.min(next)));
    each_line(part, temperature_k, factors, &mut |line| {
        if formula.is_none_or(|so_far| line.zero_margin() < so_far.zero_margin()) {
            formula = Some(line);
        }
        if let Some(pressure) = line.breaks_pa {
            breaks = least(breaks, pressure);
            if matches!(line.mode, Mode::Collapse | Mode::Column) {
                collapses = least(collapses, pressure);
            }
        }
    });
    let burst = part.burst.map(|test| tested(part, test, temperature_k, Mode::Burst, factors.measured_burst));
    let proof = part.proof.map(|test| tested(part, test, temperature_k, Mode::Proof, factors.proof));
    let (evidence, governing) = counted(part, formula, burst, proof)?;
    let burst_pa = burst.map_or(breaks, |line| Some(line.allowable_pa));
    Ok(Strength { evidence, governing, formula, burst, proof, burst_pa, collapse_pa: collapses })
}

/// Which evidence counts.
fn counted(
    part: &Part,
    formula: Option<Line>,
    burst: Option<Line>,
    proof: Option<Line>,
) -> Result<(Evidence, Line), PartProblem> {
    let by_formula = if matches!(part.kind, Kind::Screwed { .. }) { Evidence::Rating } else { Evidence::Formula };
    // The order is that of trust when nothing was chosen.
    let there = [(Evidence::MeasuredBurst, burst), (by_formula, formula), (Evidence::Proof, proof)];
    // A chosen formula is the rating of a part that has one.
    let wanted = part.counted.map(|evidence| match evidence {
        Evidence::Formula | Evidence::Rating => by_formula,
        other => other,
    });
    there
        .into_iter()
        .filter(|(evidence, _)| wanted.is_none_or(|wanted| wanted == *evidence))
        .find_map(|(evidence, line)| line.map(|line| (evidence, line)))
        .ok_or(PartProblem::NoEvidence { wanted: part.counted })
}

/// What a part answers at a gauge pressure and a temperature of its own; a part in the sun is warmer than the air.
///
/// # Example
/// ```
/// use holdwater_physics::vessel::answer::answer;
/// use holdwater_physics::vessel::lines::{Factors, Mode};
/// use holdwater_physics::vessel::materials::{MaterialName, row};
/// use holdwater_physics::vessel::part::{Kind, Part};
/// let tube = Part::new(Kind::Shell { bore_m: 0.050, wall_m: 0.0015 }, row(MaterialName::Aluminium6061T6).material);
/// let answer = answer(&tube, 2e6, 293.15, &Factors::DEFAULT).unwrap();
/// assert_eq!(answer.mode, Mode::Hoop);
/// assert!((answer.margin - (241.3 / (2.0 * 33.333_333) - 1.0)).abs() < 1e-6);
/// ```
pub fn answer(part: &Part, pressure_pa: f64, temperature_k: f64, factors: &Factors) -> Result<Answer, PartProblem> {
    Quantity::Pressure.check(pressure_pa)?;
    let strength = strength(part, temperature_k, factors)?;
    if let Some(collapse_pa) = strength.collapse_pa
        && strength.evidence == Evidence::Formula
        && pressure_pa >= collapse_pa
    {
        return Err(PartProblem::PressureBeyondCollapse { pressure_pa, collapse_pa });
    }
    let line = strength.governing;
    let margin = |line: Option<Line>| line.map(|line| line.margin(pressure_pa));
    Ok(Answer {
        pressure_pa,
        evidence: strength.evidence,
        mode: line.mode,
        stress_pa: line.per_pressure * pressure_pa,
        allowable_pa: line.allowable_pa,
        factor: line.factor,
        margin: line.margin(pressure_pa),
        zero_margin_pa: line.zero_margin(),
        burst_pa: strength.burst_pa,
        formula_margin: margin(strength.formula),
        burst_margin: margin(strength.burst),
        proof_margin: margin(strength.proof),
        notes: notes(part, &strength, pressure_pa, temperature_k),
    })
}

fn notes(part: &Part, strength: &Strength, pressure_pa: f64, temperature_k: f64) -> Notes {
    let mut notes = Notes::default();
    let has_formula = strength.formula.is_some();
    let by_formula = matches!(strength.evidence, Evidence::Formula);
    let of = |test: Option<Test>| test.map(|test| test.pressure_pa);
    notes.add(Note::MeasuredBurstOverrides, has_formula && strength.evidence == Evidence::MeasuredBurst);
    notes.add(Note::ProofOverrides, has_formula && strength.evidence == Evidence::Proof);
    notes.add(Note::AboveProof, of(part.proof).is_some_and(|proof| pressure_pa > proof));
    notes.add(Note::ProofAboveBurst, of(part.proof).zip(of(part.burst)).is_some_and(|(proof, burst)| proof > burst));
    notes.add(Note::HotterThanKnown, temperature_k > part.material.derating.hottest());
    notes.add(Note::BelowFreezing, temperature_k < CELSIUS_ZERO_K);
    notes.add(Note::UncertainStrength, by_formula && part.material.uncertain);
    match part.kind {
        Kind::Splice { .. } => notes.add(Note::PeelNotCovered, by_formula),
        Kind::Screwed { .. } => notes.add(Note::RatingMayBeForLiquid, strength.evidence == Evidence::Rating),
        Kind::External { .. } => notes.add(Note::TakenAsClosed, by_formula),
        Kind::Dome { bore_m, wall_m, shape } => {
            let crown = match shape {
                Dome::Hemisphere => 0.0,
                Dome::Ellipsoid => bore_m,
                Dome::Torisphere { crown_m, .. } => crown_m,
            };
            notes.add(Note::ThinDome, by_formula && wall_m < 0.002 * crown);
        }
        Kind::Flat { bore_m, thickness_m, edge } => {
            let material = &part.material;
            let radius = 0.5 * bore_m;
            let down = deflection(pressure_pa, radius, thickness_m, material.modulus_pa, material.poisson, edge);
            notes.add(Note::LargeDeflection, by_formula && down > 0.5 * thickness_m);
            notes.add(Note::ThickPlate, by_formula && thickness_m > 0.25 * radius);
        }
        Kind::Shell { .. } | Kind::Pinned { .. } | Kind::Tested => {}
    }
    notes
}
