//! A vessel part in SI units, as the physics takes it.

use holdwater_physics::vessel::lines::Factors;
use holdwater_physics::vessel::materials::{Material, row};
use holdwater_physics::vessel::part::{Adherend, Adhesive, Dome, Kind, Part, Test};
use holdwater_physics::vessel::plate::Edge;

use super::{DomeShape, PartInput, PartKind, PartStage, RimEdge, VesselPart};
use crate::design::Design;
use crate::rows::Input;

/// Own materials count as having no strength from here on, K: an assumption for plastics.
const OWN_NOTHING_FROM_K: f64 = 273.15 + 75.0;

/// Density of an own material, kg/m3; no answer depends on it.
const OWN_DENSITY: f64 = 1_200.0;

/// Temperature at which tests are taken to have been done, K: full strength, so that heat takes off the most.
const TESTED_AT_K: f64 = 293.15;

impl Design {
    /// The inputs for the bore and the launch pressure of a stage.
    #[must_use]
    pub const fn inputs_of(stage: PartStage) -> (Input, Input) {
        match stage {
            PartStage::Booster => (Input::BoosterBore, Input::BoosterFill),
            PartStage::Sustainer => (Input::SustainerBore, Input::SustainerFill),
        }
    }

    /// The launch pressure of a stage, Pa gauge.
    #[must_use]
    pub fn fill_pa(&self, stage: PartStage) -> f64 {
        self.si(Self::inputs_of(stage).1)
    }

    /// Temperature of the parts, K: they are warmer than the air.
    #[must_use]
    pub fn part_temperature_k(&self) -> f64 {
        self.si(Input::AirTemperature) + self.si(Input::Warmth)
    }

    /// The safety factors.
    #[must_use]
    pub fn factors(&self) -> Factors {
        Factors {
            on_yield: self.si(Input::YieldFactor),
            on_ultimate: self.si(Input::UltimateFactor),
            bond: self.si(Input::BondFactor),
            measured_burst: self.si(Input::BurstFactor),
            proof: self.si(Input::ProofFactor),
            ..Factors::DEFAULT
        }
    }

    /// A part in SI units. Where its rating or its own strength is unknown, only its tests count.
    #[must_use]
    pub fn solid(&self, part: &VesselPart) -> Part {
        let known = part.kind() != PartKind::Screwed || part.number(PartInput::Rated).is_some();
        let own = part.asks(PartInput::Strength);
        let kind = if known && !(own && part.number(PartInput::Strength).is_none()) {
            self.kind_of(part)
        } else {
            Kind::Tested
        };
        let test = |input| part.si(input).map(|pressure_pa| Test { pressure_pa, temperature_k: TESTED_AT_K });
        Part { burst: test(PartInput::Burst), proof: test(PartInput::Proof), ..Part::new(kind, material(part)) }
    }

    fn kind_of(&self, part: &VesselPart) -> Kind {
        // Whatever is asked of a kind has a value or is looked after here, so nothing becomes nought by accident.
        let si = |input| part.si(input).unwrap_or(0.0);
        let count = |input| part.number(input).unwrap_or(0.0) as u32;
        let bore_m = part.si(PartInput::Bore).unwrap_or_else(|| self.si(Self::inputs_of(part.stage()).0));
        let wall_m = si(PartInput::Wall);
        match part.kind() {
            PartKind::Shell => Kind::Shell { bore_m, wall_m },
            PartKind::Dome => {
                let shape = match part.shape() {
                    DomeShape::Hemisphere => Dome::Hemisphere,
                    DomeShape::Ellipsoid => Dome::Ellipsoid,
                };
                Kind::Dome { bore_m, wall_m, shape }
            }
            PartKind::Splice => {
                let modulus_pa = material(part).modulus_pa;
                Kind::Splice {
                    bore_m,
                    overlap_m: si(PartInput::Overlap),
                    inner: Adherend { wall_m, modulus_pa },
                    outer: Adherend { wall_m: si(PartInput::Sleeve), modulus_pa },
                    adhesive: Adhesive {
                        thickness_m: si(PartInput::Glue),
                        shear_modulus_pa: si(PartInput::GlueModulus),
                        strength_pa: si(PartInput::GlueStrength),
                    },
                }
            }
            PartKind::Screwed => Kind::Screwed { rated_pa: si(PartInput::Rated) },
            PartKind::Flat => {
                let edge = match part.edge() {
                    RimEdge::Supported => Edge::Supported,
                    RimEdge::Clamped => Edge::Clamped,
                };
                Kind::Flat { bore_m, thickness_m: si(PartInput::Thickness), edge }
            }
            PartKind::Pinned => Kind::Pinned {
                bore_m,
                wall_m,
                pins: count(PartInput::Pins),
                pin_m: si(PartInput::PinDiameter),
                edge_m: si(PartInput::EdgeDistance),
                pin_strength_pa: si(PartInput::PinStrength),
            },
            PartKind::External => {
                Kind::External { outer_m: si(PartInput::Outer), wall_m, length_m: si(PartInput::Length) }
            }
            PartKind::Tested => Kind::Tested,
        }
    }
}

fn material(part: &VesselPart) -> Material {
    match part.material().name() {
        Some(name) => row(name).material,
        None => {
            let si = |input| part.si(input);
            Material::own(
                // Without a strength only tests count; this one is then asked for nothing.
                si(PartInput::Strength).unwrap_or(1e6),
                si(PartInput::Modulus).unwrap_or(1e9),
                si(PartInput::Poisson).unwrap_or(0.35),
                OWN_DENSITY,
                OWN_NOTHING_FROM_K,
            )
        }
    }
}
