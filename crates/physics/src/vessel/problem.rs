//! Why a part has no answer: names and numbers, never a panic.

use super::material::Unfit;
use super::part::Evidence;

macro_rules! quantities {
    ($($(#[$doc:meta])* $name:ident: $words:literal, $low:expr, $high:expr;)*) => {
        /// A number that a part is described with.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum Quantity { $($(#[$doc])* $name,)* }

        impl Quantity {
            /// All quantities.
            pub const ALL: &'static [Self] = &[$(Self::$name,)*];

            /// What it is called.
            #[must_use]
            pub fn name(self) -> &'static str {
                match self { $(Self::$name => $words,)* }
            }

            /// What is accepted, in SI units; both ends are.
            #[must_use]
            pub fn range(self) -> (f64, f64) {
                match self { $(Self::$name => ($low, $high),)* }
            }
        }
    };
}

quantities! {
    /// Inside diameter.
    Bore: "bore", 1e-3, 10.0;
    /// Outside diameter.
    OuterDiameter: "outer diameter", 1e-3, 10.0;
    /// Wall thickness.
    Wall: "wall", 1e-5, 1.0;
    /// Thickness of a flat closure.
    Thickness: "thickness", 1e-5, 1.0;
    /// Length of a tube.
    Length: "length", 1e-3, 100.0;
    /// Overlap of a bond.
    Overlap: "overlap", 1e-4, 10.0;
    /// Thickness of an adhesive.
    AdhesiveThickness: "adhesive thickness", 1e-6, 0.02;
    /// Shear modulus of an adhesive.
    AdhesiveShearModulus: "shear modulus of the adhesive", 1e4, 1e11;
    /// Shear strength of an adhesive.
    AdhesiveStrength: "shear strength of the adhesive", 1e3, 1e9;
    /// Crown radius of a dome.
    CrownRadius: "crown radius", 1e-3, 10.0;
    /// Knuckle radius of a dome.
    KnuckleRadius: "knuckle radius", 1e-4, 10.0;
    /// Number of pins.
    PinCount: "number of pins", 1.0, 500.0;
    /// Diameter of a pin.
    PinDiameter: "pin diameter", 1e-4, 0.2;
    /// From the centre of a pin's hole to the edge.
    EdgeDistance: "edge distance", 1e-4, 1.0;
    /// Shear strength of a pin.
    PinStrength: "shear strength of the pins", 1e5, 1e10;
    /// Pressure a maker rates a part for.
    RatedPressure: "rated pressure", 1.0, 1e9;
    /// Burst pressure measured on a like part.
    MeasuredBurst: "measured burst pressure", 1.0, 1e9;
    /// Proof pressure passed.
    ProofPressure: "proof pressure passed", 1.0, 1e9;
    /// Gauge pressure.
    Pressure: "pressure", 1.0, 1e9;
    /// Temperature.
    Temperature: "temperature", 200.0, 500.0;
    /// Safety factor.
    Factor: "safety factor", 1.0, 100.0;
    /// Strength of a material.
    Strength: "strength", 1e5, 1e11;
    /// Modulus of a material.
    Modulus: "modulus", 1e6, 2e12;
    /// Poisson's ratio.
    Poisson: "Poisson's ratio", 0.0, 0.49;
    /// Density.
    Density: "density", 1.0, 3e4;
    /// Volume.
    Volume: "volume", 0.0, 1e6;
    /// Ambient pressure.
    Ambient: "ambient pressure", 1e3, 2e5;
    /// Share of trapped air.
    AirShare: "share of trapped air", 0.0, 1.0;
}

impl Quantity {
    /// The value, or the refusal that names it. Not a number is out of every range.
    pub(crate) fn check(self, value: f64) -> Result<f64, PartProblem> {
        let (low, high) = self.range();
        if (low..=high).contains(&value) {
            return Ok(value);
        }
        Err(PartProblem::OutOfRange { what: self, value, low, high })
    }
}

/// Why a part has no answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PartProblem {
    /// A number is missing, negative or absurd.
    OutOfRange {
        /// Which.
        what: Quantity,
        /// Its value.
        value: f64,
        /// Least value accepted.
        low: f64,
        /// Greatest value accepted.
        high: f64,
    },
    /// The wall is wider than the radius.
    WallWiderThanRadius {
        /// Wall, m.
        wall_m: f64,
        /// Bore radius, or outer radius of a tube under outside pressure, m.
        radius_m: f64,
    },
    /// A bond has no overlap.
    NoOverlap {
        /// Overlap, m.
        overlap_m: f64,
    },
    /// A flat closure is thicker than its radius.
    PlateThickerThanRadius {
        /// Thickness, m.
        thickness_m: f64,
        /// Radius, m.
        radius_m: f64,
    },
    /// A dome is outside what the head formula covers.
    DomeNotCovered {
        /// Crown radius, m.
        crown_m: f64,
        /// Knuckle radius, m.
        knuckle_m: f64,
        /// Outside diameter, m.
        outer_m: f64,
    },
    /// The pins leave no tube between them.
    PinsLeaveNoTube {
        /// Width of all pins together, m.
        pins_m: f64,
        /// Circumference at the middle of the wall, m.
        around_m: f64,
    },
    /// The holes of the pins cut the edge.
    PinCutsEdge {
        /// Centre of the hole to the edge, m.
        edge_m: f64,
        /// Radius of the pin, m.
        radius_m: f64,
    },
    /// A tube under outside pressure collapses.
    PressureBeyondCollapse {
        /// Pressure asked, Pa.
        pressure_pa: f64,
        /// Pressure at which a perfect tube collapses or buckles, Pa.
        collapse_pa: f64,
    },
    /// At this temperature the material counts as having no strength.
    NoStrengthLeft {
        /// Temperature, K.
        temperature_k: f64,
    },
    /// The material must not hold compressed gas.
    UnfitMaterial {
        /// Why.
        reason: Unfit,
    },
    /// The evidence asked for is not there.
    NoEvidence {
        /// Which; `None` when there is none of any kind.
        wanted: Option<Evidence>,
    },
}
