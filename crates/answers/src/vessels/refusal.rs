//! Why a part has no answer, in words, with the keys of the inputs that matter.

use holdwater_design::parts::{PartInput, PartKind, VesselPart, key_of};
use holdwater_design::{Design, Input};
use holdwater_physics::vessel::material::Unfit;
use holdwater_physics::vessel::problem::{PartProblem, Quantity};

use crate::digits::trimmed;

/// Why a part has no answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PartRefused {
    /// Keys of the inputs that matter, for marking the fields: `p2.wall`, `s.fill`.
    pub keys: Vec<String>,
    /// What is wrong, with the numbers.
    pub message: String,
}

/// The words for a problem.
pub(super) fn refusal(part: &VesselPart, number: usize, problem: &PartProblem) -> PartRefused {
    let stage = Design::inputs_of(part.stage());
    let mut keys = Vec::new();
    let mut of = |inputs: &[PartInput]| keys.extend(inputs.iter().map(|input| key_of(number, *input)));
    let mut of_design: Vec<Input> = Vec::new();
    let what = match *problem {
        PartProblem::OutOfRange { what, value, low, high } => {
            of(&inputs_for(what, part));
            format!("its {} of {value:e} is outside of {low:e} to {high:e} (SI units)", what.name())
        }
        PartProblem::WallWiderThanRadius { wall_m, radius_m } => {
            of(&[PartInput::Wall, if part.kind() == PartKind::External { PartInput::Outer } else { PartInput::Bore }]);
            if part.kind() == PartKind::Splice {
                of(&[PartInput::Sleeve]);
            }
            format!("its wall of {} mm is wider than its radius of {} mm", mm(wall_m), mm(radius_m))
        }
        PartProblem::NoOverlap { overlap_m } => {
            of(&[PartInput::Overlap]);
            format!("its overlap of {} mm bonds nothing", mm(overlap_m))
        }
        PartProblem::PlateThickerThanRadius { thickness_m, radius_m } => {
            of(&[PartInput::Thickness, PartInput::Bore]);
            format!("a closure of {} mm is thicker than its radius of {} mm", mm(thickness_m), mm(radius_m))
        }
        PartProblem::DomeNotCovered { crown_m, knuckle_m, outer_m } => {
            of(&[PartInput::Shape]);
            format!(
                "no formula covers a dome with a crown of {} mm, a knuckle of {} mm and {} mm outside",
                mm(crown_m),
                mm(knuckle_m),
                mm(outer_m)
            )
        }
        PartProblem::PinsLeaveNoTube { pins_m, around_m } => {
            of(&[PartInput::Pins, PartInput::PinDiameter, PartInput::Bore]);
            format!("its pins take {} mm of the {} mm around the tube and leave nothing", mm(pins_m), mm(around_m))
        }
        PartProblem::PinCutsEdge { edge_m, radius_m } => {
            of(&[PartInput::EdgeDistance, PartInput::PinDiameter]);
            format!("holes with a radius of {} mm cut an edge {} mm away", mm(radius_m), mm(edge_m))
        }
        PartProblem::PressureBeyondCollapse { pressure_pa, collapse_pa } => {
            of(&[PartInput::Wall, PartInput::Outer, PartInput::Length]);
            of_design.push(stage.1);
            format!(
                "it collapses: even a perfect tube like it gives way at {} bar, and {} bar stand around it",
                trimmed(collapse_pa / 1e5, 1),
                trimmed(pressure_pa / 1e5, 1)
            )
        }
        PartProblem::NoStrengthLeft { temperature_k } => {
            of(&[PartInput::Material]);
            of_design.extend([Input::Warmth, Input::AirTemperature, Input::WaterTemperature]);
            format!("its material counts as having no strength at {} °C", trimmed(temperature_k - 273.15, 0))
        }
        PartProblem::UnfitMaterial { reason: Unfit::Shatters } => {
            of(&[PartInput::Material]);
            format!("{} shatters without warning and must not hold compressed gas", part.show(PartInput::Material))
        }
        PartProblem::NoEvidence { .. } => {
            let (missing, word) = match part.kind() {
                PartKind::Tested => (None, ""),
                PartKind::Screwed if part.number(PartInput::Rated).is_none() => {
                    (Some(PartInput::Rated), "its rating, ")
                }
                _ => (Some(PartInput::Strength), "the strength of its material, "),
            };
            of(missing.as_slice());
            of(&[PartInput::Burst, PartInput::Proof]);
            format!("nothing is known of it: give {word}a measured burst or a proof that it passed")
        }
    };
    keys.extend(of_design.into_iter().map(|input| input.row().key.to_owned()));
    PartRefused { keys, message: format!("{}: {what}.", part.called(number)) }
}

/// The inputs that a quantity of the physics comes from.
fn inputs_for(what: Quantity, part: &VesselPart) -> Vec<PartInput> {
    let wanted: &[PartInput] = match what {
        Quantity::Bore => &[PartInput::Bore],
        Quantity::OuterDiameter => &[PartInput::Outer],
        Quantity::Wall => &[PartInput::Wall, PartInput::Sleeve],
        Quantity::Thickness => &[PartInput::Thickness],
        Quantity::Length => &[PartInput::Length],
        Quantity::Overlap => &[PartInput::Overlap],
        Quantity::AdhesiveThickness => &[PartInput::Glue],
        Quantity::AdhesiveShearModulus => &[PartInput::GlueModulus],
        Quantity::AdhesiveStrength => &[PartInput::GlueStrength],
        Quantity::PinCount => &[PartInput::Pins],
        Quantity::PinDiameter => &[PartInput::PinDiameter],
        Quantity::EdgeDistance => &[PartInput::EdgeDistance],
        Quantity::PinStrength => &[PartInput::PinStrength],
        Quantity::RatedPressure => &[PartInput::Rated],
        Quantity::MeasuredBurst => &[PartInput::Burst],
        Quantity::ProofPressure => &[PartInput::Proof],
        Quantity::Strength => &[PartInput::Strength],
        Quantity::Modulus => &[PartInput::Modulus],
        Quantity::Poisson => &[PartInput::Poisson],
        _ => &[],
    };
    wanted.iter().copied().filter(|input| part.asks(*input)).collect()
}

fn mm(length_m: f64) -> String {
    trimmed(length_m * 1e3, 2)
}
