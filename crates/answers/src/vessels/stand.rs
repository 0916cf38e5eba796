//! Question 4: stored energy and how far to stand.

use holdwater_design::parts::PartStage;
use holdwater_design::{Design, Input};
use holdwater_physics::air::standard_pressure;
use holdwater_physics::vessel::energy::{RULE_LIMIT_J, StandOff, Stored, Vessel, stored};

use super::numbers::StandoffNumbers;

/// Stored energy and stand-off of a stack: all its stages together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stand {
    /// What the compressed gas gives up when everything lets go as it stands on the pad, J.
    pub energy_j: f64,
    /// TNT with that energy, kg.
    pub tnt_kg: f64,
    /// How far to stand, m, for blast alone; `None` for more energy than the rule covers.
    pub distance_m: Option<f64>,
    /// Distance by blast alone, without the floor of the rule, m.
    pub blast_m: Option<f64>,
    /// Whether the floor of the rule governs.
    pub by_floor: bool,
    /// The energy if the vessels held no water at all, J.
    pub without_water_j: f64,
    /// Proof factor of the comparison that follows.
    pub proof_factor: f64,
    /// The energy in a proof test filled with water, with some air left in, J.
    pub proof_water_j: f64,
    /// The energy in the same test with gas alone, J.
    pub proof_gas_j: f64,
    /// Energy up to which the rule is used, J.
    pub limit_j: f64,
}

/// Stored energy and stand-off of a design. It needs volumes and pressures only, so there always is one.
#[must_use]
pub fn stand(design: &Design) -> Stand {
    let of = |factor: f64, filled: bool| -> Stored {
        let ambient_pa = standard_pressure(design.number(Input::SiteElevation));
        let vessels = vessels(design, factor, filled);
        // Every row of the table is within what is taken; otherwise nothing is known, and the stand-off says so.
        stored(&vessels, ambient_pa, design.number(Input::TrappedAir) / 100.0).unwrap_or(NOTHING_KNOWN)
    };
    let proof_factor = design.number(Input::ProofFactor);
    let (now, dry, proof) = (of(1.0, true), of(1.0, false), of(proof_factor, false));
    let (distance_m, blast_m, by_floor) = match now.stand_off {
        StandOff::Distance { distance_m, blast_m, by_floor } => (Some(distance_m), Some(blast_m), by_floor),
        StandOff::NotCovered { .. } => (None, None, false),
    };
    Stand {
        energy_j: now.gas_j,
        tnt_kg: now.tnt_kg,
        distance_m,
        blast_m,
        by_floor,
        without_water_j: dry.gas_j,
        proof_factor,
        proof_water_j: proof.water_filled_j,
        proof_gas_j: proof.gas_j,
        limit_j: RULE_LIMIT_J,
    }
}

const NOTHING_KNOWN: Stored = Stored {
    gas_j: 0.0,
    rule_j: 0.0,
    tnt_kg: 0.0,
    stand_off: StandOff::NotCovered { energy_j: 0.0, limit_j: RULE_LIMIT_J },
    water_filled_j: 0.0,
    walls_j: 0.0,
};

/// The vessels of the stages that fly, at a multiple of their launch pressure, with or without their water.
fn vessels(design: &Design, factor: f64, filled: bool) -> Vec<Vessel> {
    let booster = (PartStage::Booster, Input::BoosterVolume, Input::BoosterWater);
    let sustainer = (PartStage::Sustainer, Input::SustainerVolume, Input::SustainerWater);
    let stages = if design.number(Input::Stages) > 1.5 { vec![booster, sustainer] } else { vec![sustainer] };
    let vessel = |(stage, volume, water): (PartStage, Input, Input)| {
        let volume_m3 = design.number(volume) / 1e3;
        let water_m3 = if filled { design.number(water) / 1e3 } else { 0.0 };
        Vessel {
            gauge_pa: factor * design.fill_pa(stage),
            volume_m3,
            // More water than there is room for is refused by the flight; here it is a full vessel.
            gas_m3: (volume_m3 - water_m3).max(0.0),
            wall: None,
        }
    };
    stages.into_iter().map(vessel).collect()
}

impl Stand {
    /// The answers as they are printed.
    #[must_use]
    pub fn numbers(&self) -> StandoffNumbers {
        StandoffNumbers {
            energy_j: self.energy_j,
            tnt_kg: self.tnt_kg,
            distance_m: self.distance_m,
            by_floor: self.by_floor,
            without_water_j: self.without_water_j,
            proof_water_j: self.proof_water_j,
            proof_gas_j: self.proof_gas_j,
        }
    }
}
