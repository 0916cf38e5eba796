//! A part that holds pressure, and what is known of it.

use super::material::Material;
use super::plate::Edge;
use super::problem::{PartProblem, Quantity};

/// Shape of a dome.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Dome {
    /// Half a sphere.
    Hemisphere,
    /// Half as deep as its radius.
    Ellipsoid,
    /// A crown with a knuckle.
    Torisphere {
        /// Inside crown radius, m.
        crown_m: f64,
        /// Inside knuckle radius, m.
        knuckle_m: f64,
    },
}

/// A wall that is bonded to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Adherend {
    /// Wall, m.
    pub wall_m: f64,
    /// Modulus along the part, Pa.
    pub modulus_pa: f64,
}

/// An adhesive.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Adhesive {
    /// Thickness of the layer, m.
    pub thickness_m: f64,
    /// Shear modulus, Pa.
    pub shear_modulus_pa: f64,
    /// Shear strength at 23 C on this very surface, Pa.
    pub strength_pa: f64,
}

/// Kind of part, with its sizes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Kind {
    /// A cylinder with closed ends.
    Shell {
        /// Inside diameter, m.
        bore_m: f64,
        /// Wall, m.
        wall_m: f64,
    },
    /// A domed end.
    Dome {
        /// Inside diameter, m.
        bore_m: f64,
        /// Least wall, m.
        wall_m: f64,
        /// Its shape.
        shape: Dome,
    },
    /// A bonded splice or sleeve that carries the end load.
    Splice {
        /// Inside diameter, m.
        bore_m: f64,
        /// Overlap on the shorter side of the seam, m.
        overlap_m: f64,
        /// Inner wall.
        inner: Adherend,
        /// Outer wall, the sleeve.
        outer: Adherend,
        /// What bonds them.
        adhesive: Adhesive,
    },
    /// A screwed coupling or cap.
    Screwed {
        /// Gauge pressure the maker rates it for, Pa.
        rated_pa: f64,
    },
    /// A flat closure.
    Flat {
        /// Diameter inside its rim, m.
        bore_m: f64,
        /// Thickness, m.
        thickness_m: f64,
        /// How the rim is held.
        edge: Edge,
    },
    /// A closure held in a tube by radial pins or bolts. The part's material is that of the tube.
    Pinned {
        /// Inside diameter of the tube, m.
        bore_m: f64,
        /// Wall of the tube, m.
        wall_m: f64,
        /// Number of pins in one row.
        pins: u32,
        /// Diameter of a pin; of a bolt whose thread is in the shear plane, its core, m.
        pin_m: f64,
        /// Centre of the holes to the edge of the tube, m.
        edge_m: f64,
        /// Shear strength of the pins, Pa.
        pin_strength_pa: f64,
    },
    /// A closed tube under outside pressure that stands free at one end, as a launch tube in a vessel does.
    ///
    /// A tube open to the gas carries none of it and is no part.
    External {
        /// Outside diameter, m.
        outer_m: f64,
        /// Wall, m.
        wall_m: f64,
        /// Free length, m.
        length_m: f64,
    },
    /// Anything of which only a test is known.
    Tested,
}

/// A pressure that a test reached, with the temperature of the part then.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Test {
    /// Gauge pressure, Pa.
    pub pressure_pa: f64,
    /// Temperature of the part, K.
    pub temperature_k: f64,
}

/// What an answer rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Evidence {
    /// A formula with strengths from the table or one's own.
    Formula,
    /// The rating of a maker.
    Rating,
    /// The lowest burst measured on like parts.
    MeasuredBurst,
    /// This very part has held a pressure.
    Proof,
}

/// A part that holds pressure. Its name is kept by whoever builds it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// Kind and sizes.
    pub kind: Kind,
    /// What it is made of, with own numbers in place where there are any.
    pub material: Material,
    /// The lowest burst of like parts: it stands in place of the formula.
    pub burst: Option<Test>,
    /// The last proof this part has passed.
    pub proof: Option<Test>,
    /// Which evidence counts; `None` for a measured burst if there is one, else formula or rating, else a proof.
    pub counted: Option<Evidence>,
}

impl Part {
    /// A part of which nothing was tested.
    #[must_use]
    pub fn new(kind: Kind, material: Material) -> Self {
        Self { kind, material, burst: None, proof: None, counted: None }
    }

    /// Refuses contradictory or absurd parts by name.
    pub fn check(&self) -> Result<(), PartProblem> {
        self.material.check()?;
        for (what, test) in [(Quantity::MeasuredBurst, self.burst), (Quantity::ProofPressure, self.proof)] {
            if let Some(test) = test {
                what.check(test.pressure_pa)?;
                Quantity::Temperature.check(test.temperature_k)?;
            }
        }
        match self.kind {
            Kind::Shell { bore_m, wall_m } => tube(bore_m, wall_m),
            Kind::Dome { bore_m, wall_m, shape } => dome(bore_m, wall_m, shape),
            Kind::Splice { bore_m, overlap_m, inner, outer, adhesive } => {
                splice(bore_m, overlap_m, [inner, outer], &adhesive)
            }
            Kind::Screwed { rated_pa } => Quantity::RatedPressure.check(rated_pa).map(|_| ()),
            Kind::Flat { bore_m, thickness_m, .. } => flat(bore_m, thickness_m),
            Kind::Pinned { bore_m, wall_m, pins, pin_m, edge_m, pin_strength_pa } => {
                Quantity::PinStrength.check(pin_strength_pa)?;
                tube(bore_m, wall_m)?;
                pinned(bore_m + wall_m, pins, pin_m, edge_m)
            }
            Kind::External { outer_m, wall_m, length_m } => {
                Quantity::OuterDiameter.check(outer_m)?;
                Quantity::Wall.check(wall_m)?;
                Quantity::Length.check(length_m)?;
                // A rod is no tube: some bore must be left, a thousandth of the radius.
                within_radius(wall_m, 0.5 * outer_m * 0.999)
            }
            Kind::Tested => Ok(()),
        }
    }
}

fn within_radius(wall_m: f64, radius_m: f64) -> Result<(), PartProblem> {
    if wall_m > radius_m { Err(PartProblem::WallWiderThanRadius { wall_m, radius_m }) } else { Ok(()) }
}

fn tube(bore_m: f64, wall_m: f64) -> Result<(), PartProblem> {
    Quantity::Bore.check(bore_m)?;
    Quantity::Wall.check(wall_m)?;
    within_radius(wall_m, 0.5 * bore_m)
}

fn dome(bore_m: f64, wall_m: f64, shape: Dome) -> Result<(), PartProblem> {
    tube(bore_m, wall_m)?;
    let Dome::Torisphere { crown_m, knuckle_m } = shape else {
        return Ok(());
    };
    Quantity::CrownRadius.check(crown_m)?;
    Quantity::KnuckleRadius.check(knuckle_m)?;
    let outer_m = bore_m + 2.0 * wall_m;
    // A crown flatter than the outer diameter or a knuckle sharper than 0.06 of it is outside the code; a crown below the bore radius does not close it.
    let covered = crown_m <= outer_m
        && crown_m >= 0.5 * bore_m
        && knuckle_m >= 0.06 * crown_m * (1.0 - 1e-12)
        && knuckle_m <= crown_m;
    if covered { Ok(()) } else { Err(PartProblem::DomeNotCovered { crown_m, knuckle_m, outer_m }) }
}

fn splice(bore_m: f64, overlap_m: f64, walls: [Adherend; 2], adhesive: &Adhesive) -> Result<(), PartProblem> {
    // By its own name, since it is the slip that a table of parts invites.
    if overlap_m <= 0.0 {
        return Err(PartProblem::NoOverlap { overlap_m });
    }
    Quantity::Overlap.check(overlap_m)?;
    for wall in walls {
        tube(bore_m, wall.wall_m)?;
        Quantity::Modulus.check(wall.modulus_pa)?;
    }
    Quantity::AdhesiveThickness.check(adhesive.thickness_m)?;
    Quantity::AdhesiveShearModulus.check(adhesive.shear_modulus_pa)?;
    Quantity::AdhesiveStrength.check(adhesive.strength_pa)?;
    Ok(())
}

fn flat(bore_m: f64, thickness_m: f64) -> Result<(), PartProblem> {
    Quantity::Bore.check(bore_m)?;
    Quantity::Thickness.check(thickness_m)?;
    let radius_m = 0.5 * bore_m;
    if thickness_m > radius_m {
        return Err(PartProblem::PlateThickerThanRadius { thickness_m, radius_m });
    }
    Ok(())
}

fn pinned(middle_m: f64, pins: u32, pin_m: f64, edge_m: f64) -> Result<(), PartProblem> {
    let count = Quantity::PinCount.check(f64::from(pins))?;
    Quantity::PinDiameter.check(pin_m)?;
    Quantity::EdgeDistance.check(edge_m)?;
    let (pins_m, around_m) = (count * pin_m, core::f64::consts::PI * middle_m);
    if pins_m >= around_m {
        return Err(PartProblem::PinsLeaveNoTube { pins_m, around_m });
    }
    let radius_m = 0.5 * pin_m;
    if edge_m <= radius_m {
        return Err(PartProblem::PinCutsEdge { edge_m, radius_m });
    }
    Ok(())
}
