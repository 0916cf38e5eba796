//! The parts that most stacks have, as a start.

use super::{PartInput, PartKind, PartStage, Value, VesselPart};
use crate::design::Design;
use crate::rows::Input;

/// Shells and domes of the stages that fly, with the wall of a blown bottle. A bottle has more: its neck and its foot are not covered.
#[must_use]
pub fn usual_parts(design: &Design) -> Vec<VesselPart> {
    let two_stages = design.number(Input::Stages) > 1.5;
    let stages =
        [(PartStage::Booster, two_stages, design.number(Input::BoosterCount)), (PartStage::Sustainer, true, 1.0)];
    let mut parts = Vec::new();
    for (stage, _, count) in stages.into_iter().filter(|(_, flies, _)| *flies) {
        for kind in [PartKind::Shell, PartKind::Dome] {
            let mut part = VesselPart::new(kind);
            // Both are within the range of their rows, so neither can be refused.
            let _ = part.set(PartInput::Stage, Value::Word(stage as usize));
            let _ = part.set(PartInput::Count, Value::Number(Some(count)));
            part.set_name(&[stage.word().label, " ", kind.word().word].concat());
            parts.push(part);
        }
    }
    parts
}
