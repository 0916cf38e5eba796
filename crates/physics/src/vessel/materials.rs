//! What parts are made of: one row per material, with its source and how far to trust it.

pub use super::material::{Behaviour, Derating, Fatigue, Material, SnLine, Unfit};

use super::material::NO_LINE;
use crate::age::fatigue::SLOPE_6061_T6;
use crate::sources::Seen;

/// Materials of the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MaterialName {
    /// The wall of a blown drinks bottle.
    Pet,
    /// Polycarbonate tube.
    Polycarbonate,
    /// Hard PVC pipe.
    Upvc,
    /// ABS, printed or moulded.
    Abs,
    /// Acrylic glass.
    Acrylic,
    /// Aluminium 6061-T6, not welded.
    Aluminium6061T6,
    /// Glass cloth in epoxy.
    GlassEpoxy,
    /// Carbon cloth in epoxy.
    CarbonEpoxy,
}

/// A row of the table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MaterialRow {
    /// Which.
    pub name: MaterialName,
    /// What it is called.
    pub label: &'static str,
    /// The numbers used; strengths lean to the low end.
    pub material: Material,
    /// Strength round the part as reported, lowest and highest, Pa.
    pub hoop_range_pa: (f64, f64),
    /// Strength along the part as reported, lowest and highest, Pa.
    pub axial_range_pa: (f64, f64),
    /// Where the strength comes from.
    pub source: &'static str,
    /// How far that was checked.
    pub seen: Seen,
}

/// The row of a material.
#[must_use]
pub fn row(name: MaterialName) -> &'static MaterialRow {
    // The rows stand in the order of the names, which a test checks.
    &MATERIALS[name as usize]
}

const PLASTIC: Material = Material {
    hoop_pa: 0.0,
    axial_pa: 0.0,
    shear_pa: 0.0,
    modulus_pa: 0.0,
    poisson: 0.37,
    density: 0.0,
    behaviour: Behaviour::NotDuctile,
    derating: Derating::celsius([(23.0, 1.0), (40.0, 0.8), (55.0, 0.5), (65.0, 0.25), (75.0, 0.0), (75.0, 0.0)]),
    fatigue: NO_LINE,
    uncertain: true,
    unfit: None,
};

/// Epoxy cured at room temperature: an assumption, the resin loses its hold between 50 and 80 C.
const LAMINATE: Material = Material {
    poisson: 0.2,
    derating: Derating::celsius([(23.0, 1.0), (40.0, 0.85), (60.0, 0.5), (80.0, 0.0), (80.0, 0.0), (80.0, 0.0)]),
    // Laminates are known, from memory, to have flatter lines than plastics; an assumption.
    fatigue: Fatigue { line: None, slopes: [6.0, 20.0], slopes_are_assumed: true },
    ..PLASTIC
};

/// The table of materials.
pub static MATERIALS: [MaterialRow; 8] = [
    MaterialRow {
        name: MaterialName::Pet,
        label: "stretch-blown PET",
        // Round the bottle 150-200 MPa and along it 80-120 MPa are known from memory only, and little trusted. A bottle of 88 mm and 0.30 mm
        // that bursts at the 8.6 bar a maker of blowing machines reports has 126 MPa. Undrawn PET has 64.8 MPa, Tg is 75 C.
        material: Material {
            hoop_pa: 120e6,
            axial_pa: 65e6,
            shear_pa: 32e6,
            modulus_pa: 2.5e9,
            density: 1370.0,
            ..PLASTIC
        },
        hoop_range_pa: (120e6, 200e6),
        axial_range_pa: (65e6, 120e6),
        source: "Drawn wall from memory, low trust; undrawn PET 64.8 MPa and Tg 75 C from a university's page on the material. \
                 The fall with temperature is an assumption that ends at Tg.",
        seen: Seen::Memory,
    },
    MaterialRow {
        name: MaterialName::Polycarbonate,
        label: "polycarbonate",
        material: Material {
            hoop_pa: 60e6,
            axial_pa: 60e6,
            shear_pa: 34e6,
            modulus_pa: 2.3e9,
            density: 1200.0,
            behaviour: Behaviour::DuctilePlastic,
            derating: Derating::celsius([
                (23.0, 1.0),
                (60.0, 0.75),
                (100.0, 0.45),
                (140.0, 0.0),
                (140.0, 0.0),
                (140.0, 0.0),
            ]),
            ..PLASTIC
        },
        hoop_range_pa: (60e6, 65e6),
        axial_range_pa: (60e6, 65e6),
        source: "Yield 60-65 MPa from memory. It crazes under solvents, thread locker and some cleaners. The fall with temperature is an assumption.",
        seen: Seen::Memory,
    },
    MaterialRow {
        name: MaterialName::Upvc,
        label: "hard PVC (uPVC)",
        material: Material {
            hoop_pa: 40e6,
            axial_pa: 40e6,
            shear_pa: 20e6,
            modulus_pa: 2.7e9,
            density: 1400.0,
            unfit: Some(Unfit::Shatters),
            ..PLASTIC
        },
        hoop_range_pa: (40e6, 52e6),
        axial_range_pa: (40e6, 52e6),
        source: "From memory. Makers of pipe forbid compressed gas in it: it shatters.",
        seen: Seen::Memory,
    },
    MaterialRow {
        name: MaterialName::Abs,
        label: "ABS",
        material: Material {
            hoop_pa: 30e6,
            axial_pa: 30e6,
            shear_pa: 15e6,
            modulus_pa: 1.9e9,
            density: 1040.0,
            unfit: Some(Unfit::Shatters),
            ..PLASTIC
        },
        hoop_range_pa: (30e6, 45e6),
        axial_range_pa: (30e6, 45e6),
        source: "From memory. It breaks into fragments, printed parts between their layers.",
        seen: Seen::Memory,
    },
    MaterialRow {
        name: MaterialName::Acrylic,
        label: "acrylic",
        material: Material {
            hoop_pa: 50e6,
            axial_pa: 50e6,
            shear_pa: 25e6,
            modulus_pa: 2.8e9,
            density: 1190.0,
            unfit: Some(Unfit::Shatters),
            ..PLASTIC
        },
        hoop_range_pa: (50e6, 75e6),
        axial_range_pa: (50e6, 75e6),
        source: "From memory. It shatters like glass.",
        seen: Seen::Memory,
    },
    MaterialRow {
        name: MaterialName::Aluminium6061T6,
        label: "aluminium 6061-T6",
        material: Material {
            hoop_pa: 241.3e6,
            axial_pa: 241.3e6,
            shear_pa: 139e6,
            modulus_pa: 68.9e9,
            poisson: 0.33,
            density: 2700.0,
            behaviour: Behaviour::DuctileMetal { ultimate_pa: 262.0e6 },
            derating: Derating::celsius([
                (50.0, 1.0),
                (100.0, 0.9),
                (150.0, 0.7),
                (150.0, 0.7),
                (150.0, 0.7),
                (150.0, 0.7),
            ]),
            fatigue: Fatigue {
                // 10^20.68 cycles at 1 ksi.
                line: Some(SnLine {
                    stress_pa: 6.894_757_293e6,
                    cycles: 4.786_300_923_226_383e20,
                    slope: SLOPE_6061_T6,
                }),
                slopes: [SLOPE_6061_T6, SLOPE_6061_T6],
                slopes_are_assumed: false,
            },
            uncertain: false,
            unfit: None,
        },
        hoop_range_pa: (241.3e6, 290e6),
        axial_range_pa: (241.3e6, 290e6),
        source: "Least strengths for gas cylinders, 49 CFR 178.46: yield 35 ksi, ultimate 38 ksi. Only for the T6 temper, not welded: a weld has \
                 about half. Shear is yield over the root of three; heat from memory.",
        seen: Seen::Text,
    },
    MaterialRow {
        name: MaterialName::GlassEpoxy,
        label: "glass/epoxy",
        material: Material {
            hoop_pa: 150e6,
            axial_pa: 100e6,
            shear_pa: 20e6,
            modulus_pa: 10e9,
            density: 1800.0,
            ..LAMINATE
        },
        hoop_range_pa: (150e6, 400e6),
        axial_range_pa: (100e6, 400e6),
        source: "Hand-laid cloth, from memory, low trust; it depends on how the fibres lie and on the maker. The resin can crack and weep far below.",
        seen: Seen::Memory,
    },
    MaterialRow {
        name: MaterialName::CarbonEpoxy,
        label: "carbon/epoxy",
        material: Material {
            hoop_pa: 250e6,
            axial_pa: 150e6,
            shear_pa: 20e6,
            modulus_pa: 30e9,
            density: 1550.0,
            ..LAMINATE
        },
        hoop_range_pa: (250e6, 800e6),
        axial_range_pa: (150e6, 800e6),
        source: "Hand-laid cloth, from memory, low trust; it depends on how the fibres lie and on the maker. Breaks without warning.",
        seen: Seen::Memory,
    },
];
