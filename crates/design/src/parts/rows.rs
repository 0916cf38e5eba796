//! The table of inputs of a vessel part: the only place where a fact about one stands.
//!
//! As in the table of the design, a default, key or unit may not change within a version of the link.

use super::table::{
    Asked, DomeShape, EDGES, Form, KINDS, MATERIAL_WORDS, PartKind, PartMaterial, PartRow, PartStage, RimEdge, SHAPES,
    STAGES, form, part_inputs,
};
use crate::table::Facts;
use crate::table::Start::{LeftOut, Value};
use crate::unit::Unit;

use Asked::{Of, OfAll, OfOwnMaterial};
use PartKind::{Dome, External, Flat, Pinned, Screwed, Shell, Splice};

/// Most characters in the name of a part.
pub const PART_NAME_LIMIT: usize = 40;

part_inputs! {
    Kind {
        key: "kind", label: "Kind", asked: OfAll, form: (words KINDS, PartKind::Shell),
        help: "What the part is. It decides which stresses are looked at and what else is asked.",
    }
    Stage {
        key: "stage", label: "Stage", asked: OfAll, form: (words STAGES, PartStage::Sustainer),
        help: "The stage whose launch pressure the part must hold.",
    }
    Name {
        key: "name", label: "Name", asked: OfAll, form: (text PART_NAME_LIMIT),
        help: "What you call it, such as what you wrote on it.",
    }
    Count {
        key: "count", label: "Equal ones", asked: OfAll, form: (number Piece, 1.0 to 12.0, Value(1.0), step 1.0),
        help: "How many such parts of the same age the stage has. The chance that one lets go counts them all.",
    }
    Material {
        key: "mat", label: "Material", asked: OfAll,
        form: (words MATERIAL_WORDS, PartMaterial::Pet,
               Flat PartMaterial::Aluminium, Pinned PartMaterial::Aluminium, External PartMaterial::Aluminium),
        help: "What it is made of. It sets strength, stiffness and what heat leaves of them.",
    }
    Bore {
        key: "bore", label: "Bore", asked: Of(&[Shell, Dome, Splice, Flat, Pinned]),
        form: (number Millimetre, 5.0 to 500.0, LeftOut("the vessel bore of its stage"), step 1.0),
        help: "Internal diameter where the pressure acts. Of a flat closure it is the diameter inside its rim.",
    }
    Wall {
        key: "wall", label: "Wall", asked: Of(&[Shell, Dome, Splice, Pinned, External]),
        form: (number Millimetre, 0.05 to 50.0, Value(0.3), step 0.05, Pinned 1.5, External 1.0),
        help: "Wall where it is thinnest. Of a splice it is the wall of the thinner inner part.",
    }
    Shape {
        key: "shape", label: "Shape", asked: Of(&[Dome]), form: (words SHAPES, DomeShape::Hemisphere),
        help: "Shape of the dome. Take the ellipsoid for anything flatter than half a ball.",
    }
    Overlap {
        key: "overlap", label: "Overlap", asked: Of(&[Splice]),
        form: (number Millimetre, 1.0 to 500.0, Value(40.0), step 1.0),
        help: "Bonded length on the shorter side of the seam.",
    }
    Sleeve {
        key: "sleeve", label: "Sleeve wall", asked: Of(&[Splice]),
        form: (number Millimetre, 0.05 to 50.0, Value(0.3), step 0.05),
        help: "Wall of the sleeve or of the part outside.",
    }
    Glue {
        key: "glue", label: "Glue thickness", asked: Of(&[Splice]),
        form: (number Millimetre, 0.01 to 10.0, Value(0.2), step 0.05),
        help: "Thickness of the layer of glue.",
    }
    GlueModulus {
        key: "gluemod", label: "Glue shear modulus", asked: Of(&[Splice]),
        form: (number Megapascal, 0.05 to 10000.0, Value(10.0), step 1.0),
        help: "Shear modulus of the glue: about 1 MPa for soft polyurethane, 1000 MPa for stiff epoxy. Stiff glue loads the ends of \
               the overlap most.",
    }
    GlueStrength {
        key: "gluestr", label: "Glue shear strength", asked: Of(&[Splice]),
        form: (number Megapascal, 0.01 to 200.0, Value(1.0), step 0.1),
        help: "Shear strength of the glue on this very surface, roughened or not. PET holds glue badly, so pull a sample to know it.",
    }
    Rated {
        key: "rated", label: "Rated pressure", asked: Of(&[Screwed]),
        form: (number Bar, 0.5 to 1000.0, LeftOut("unknown"), step 1.0),
        help: "Pressure its maker rates it for. Many ratings are for water, not for gas.",
    }
    Thickness {
        key: "thick", label: "Thickness", asked: Of(&[Flat]),
        form: (number Millimetre, 0.2 to 100.0, Value(6.0), step 0.5),
        help: "Thickness of the flat closure.",
    }
    Edge {
        key: "edge", label: "Rim", asked: Of(&[Flat]), form: (words EDGES, RimEdge::Supported),
        help: "How the rim is held. Few rims are so stiff that they cannot turn.",
    }
    Pins {
        key: "pins", label: "Pins", asked: Of(&[Pinned]), form: (number Piece, 1.0 to 100.0, Value(6.0), step 1.0),
        help: "Number of pins or bolts in one row.",
    }
    PinDiameter {
        key: "pin", label: "Pin diameter", asked: Of(&[Pinned]),
        form: (number Millimetre, 0.5 to 30.0, Value(4.0), step 0.5),
        help: "Diameter of a pin; of a bolt whose thread lies in the shear plane, that of its core.",
    }
    EdgeDistance {
        key: "edgedist", label: "Edge distance", asked: Of(&[Pinned]),
        form: (number Millimetre, 0.5 to 200.0, Value(8.0), step 0.5),
        help: "From the centre of the holes to the edge of the tube.",
    }
    PinStrength {
        key: "pinstr", label: "Pin shear strength", asked: Of(&[Pinned]),
        form: (number Megapascal, 5.0 to 2000.0, Value(240.0), step 10.0),
        help: "Shear strength of the pins, about 0.6 of their tensile strength. 240 MPa is mild steel.",
    }
    Outer {
        key: "outer", label: "Outer diameter", asked: Of(&[External]),
        form: (number Millimetre, 2.0 to 500.0, Value(8.5), step 0.5),
        help: "Outside diameter of a closed tube that has the pressure around it. A tube open to the gas needs no row.",
    }
    Length {
        key: "len", label: "Free length", asked: Of(&[External]),
        form: (number Millimetre, 5.0 to 5000.0, Value(200.0), step 10.0),
        help: "Length over which the tube stands free.",
    }
    Burst {
        key: "burst", label: "Measured burst", asked: OfAll,
        form: (number Bar, 0.5 to 2000.0, LeftOut("not measured"), step 0.5),
        help: "Lowest pressure at which a like part burst when you filled it with water. It counts before any formula.",
    }
    Proof {
        key: "proof", label: "Proof passed", asked: OfAll,
        form: (number Bar, 0.5 to 2000.0, LeftOut("none"), step 0.5),
        help: "Pressure this very part last held in a water-filled test. It counts where neither burst nor formula is known.",
    }
    Cycles {
        key: "cycles", label: "Fills behind it", asked: OfAll,
        form: (number Piece, 0.0 to 100000.0, Value(0.0), step 1.0),
        help: "How often it was filled so far, flown or not.",
    }
    FilledAt {
        key: "at", label: "Pressure of those fills", asked: OfAll,
        form: (number Bar, 0.1 to 1000.0, LeftOut("its launch pressure now"), step 0.5),
        help: "Pressure of the fills behind it, where it was another one. They are turned into fills at the pressure of now.",
    }
    Strength {
        key: "str", label: "Own strength", asked: OfOwnMaterial,
        form: (number Megapascal, 1.0 to 5000.0, LeftOut("unknown"), step 1.0),
        help: "Strength of your material at 23 \u{b0}C, the lowest you know. It counts in full up to 40 \u{b0}C and as nothing from 75 \u{b0}C.",
    }
    Modulus {
        key: "mod", label: "Own modulus", asked: OfOwnMaterial,
        form: (number Gigapascal, 0.01 to 500.0, Value(2.0), step 0.1),
        help: "Modulus of elasticity of your material, the lowest you know.",
    }
    Poisson {
        key: "poisson", label: "Own Poisson's ratio", asked: OfOwnMaterial,
        form: (number One, 0.0 to 0.49, Value(0.35), step 0.01),
        help: "How much your material narrows when it is pulled. Metals have 0.3, plastics 0.35 to 0.4.",
    }
}

#[cfg(test)]
mod tests {
    use holdwater_physics::vessel::materials::row;

    use super::*;

    #[test]
    fn property_every_row_is_found_and_sound() {
        for (index, row) in PART_ROWS.iter().enumerate() {
            assert_eq!(row.input as usize, index, "{}", row.key);
            assert_eq!(PartInput::from_key(row.key), Some(row.input), "a key occurs twice: {}", row.key);
            assert!(row.key.chars().all(|c| c.is_ascii_lowercase()), "{}", row.key);
            assert!(row.help.ends_with('.') && row.help.matches(". ").count() <= 1, "{}", row.key);
            assert!((3..=32).contains(&row.label.chars().count()), "{}", row.key);
            assert!(PART_ROWS[..index].iter().all(|other| other.label != row.label), "{}", row.label);
        }
    }

    #[test]
    fn property_every_default_of_every_kind_is_allowed() {
        for (kind, row) in PartKind::ALL.into_iter().flat_map(|kind| PART_ROWS.iter().map(move |row| (kind, row))) {
            if let Some(facts) = row.input.facts(kind) {
                assert!(facts.min < facts.max && facts.step > 0.0, "{}", row.key);
                assert!((facts.key, facts.label, facts.help) == (row.key, row.label, row.help), "{}", row.key);
                assert!(
                    facts.default().is_none_or(|value| facts.nearest(value).to_bits() == value.to_bits()),
                    "{}",
                    row.key
                );
            }
            let place = row.input.default_word(kind);
            assert_eq!(place.is_some(), !row.input.words().is_empty(), "{}", row.key);
            assert!(place.is_none_or(|place| place < row.input.words().len()), "{}", row.key);
        }
    }

    #[test]
    fn property_every_material_of_the_physics_can_be_chosen_and_is_called_the_same() {
        for material in PartMaterial::ALL {
            if let Some(name) = material.name() {
                assert!(row(name).label.eq_ignore_ascii_case(material.word().label), "{}", material.word().label);
            }
        }
        assert_eq!(PartMaterial::ALL.len(), holdwater_physics::vessel::materials::MATERIALS.len() + 1);
    }
}
