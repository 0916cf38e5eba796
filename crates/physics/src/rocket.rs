//! The rocket as the physics sees it: plain SI numbers, absolute temperatures, gauge fill pressures.
//!
//! Nothing here knows about links, fields or units of the trade; the design crate builds a [`Rocket`]
//! from what was typed and has checked every range before.

use core::f64::consts::PI;

/// Where and in what the rocket flies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Site {
    /// Elevation of the launch site above sea level, m.
    pub elevation_m: f64,
    /// Air temperature at the site, K. The gas in the vessels is taken to be at this temperature at filling.
    pub air_temperature_k: f64,
    /// Water temperature, K.
    pub water_temperature_k: f64,
    /// Surface tension of the water, N/m; `None` for clean water at its temperature.
    pub surface_tension_n_m: Option<f64>,
    /// Exponent n of p V^n = const while water leaves (1 isothermal ... 1.4 dry adiabatic).
    pub expansion_exponent: f64,
}

/// One stage: its vessels, what is in them, and how it meets the air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stage {
    /// Internal volume of all vessels of the stage together, m3.
    pub volume_m3: f64,
    /// Internal diameter of each vessel, m.
    pub bore_m: f64,
    /// Nozzle throat diameter of each vessel, m.
    pub nozzle_m: f64,
    /// Number of equal vessel-and-nozzle sets that work in parallel.
    pub sets: u32,
    /// Discharge coefficient of each nozzle.
    pub discharge: f64,
    /// Water in all vessels together at filling, m3.
    pub water_m3: f64,
    /// Fill pressure above the ambient pressure of the site, Pa.
    pub fill_gauge_pa: f64,
    /// Mass of the stage without water and gas, kg.
    pub dry_kg: f64,
    /// Drag coefficient while this stage is the rearmost one.
    pub drag_coefficient: f64,
    /// Reference diameter of the drag coefficient, m.
    pub reference_m: f64,
}

/// A tube that stands in the vessel through the nozzle and drives the stage like a piston.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LaunchTube {
    /// Engaged length, m.
    pub length_m: f64,
    /// Outer diameter, m.
    pub outer_m: f64,
    /// Wall thickness, m; 0 for a tube whose wall takes no room.
    pub wall_m: f64,
}

/// A plate across the sustainer's vessel with round holes, above the nozzle end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Restrictor {
    /// Diameter of each hole, m.
    pub hole_m: f64,
    /// Number of equal holes.
    pub holes: u32,
    /// Height of the plate above the nozzle end, m.
    pub height_m: f64,
    /// Discharge coefficient of the holes; `None` for the standard orifice relation.
    pub discharge: Option<f64>,
    /// Share of the ideal surface-tension limit that is trusted.
    pub trusted_share: f64,
    /// Mass, kg.
    pub mass_kg: f64,
}

/// A whole rocket on the pad, with its planned staging delay.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rocket {
    /// Surroundings.
    pub site: Site,
    /// The booster; `None` when the sustainer flies from the pad alone.
    pub booster: Option<Stage>,
    /// The sustainer.
    pub sustainer: Stage,
    /// Launch tube on the pad, for whichever stage stands on the pad.
    pub pad_tube: Option<LaunchTube>,
    /// Launch tube on top of the booster, inside the sustainer.
    pub staging_tube: Option<LaunchTube>,
    /// Restrictor in the sustainer.
    pub restrictor: Option<Restrictor>,
    /// Coast from the end of the booster's thrust to the release of the sustainer, s.
    pub delay_s: f64,
    /// Depth of the ripple left on the sustainer's water at the end of thrust, m.
    pub disturbance_m: f64,
}

/// Area of a circle of the given diameter, m2.
#[must_use]
pub fn circle_area(diameter_m: f64) -> f64 {
    0.25 * PI * diameter_m * diameter_m
}

impl Stage {
    /// Cross-section of one vessel, m2.
    #[must_use]
    pub fn bore_area(&self) -> f64 {
        circle_area(self.bore_m)
    }

    /// Throat area of one nozzle, m2.
    #[must_use]
    pub fn nozzle_area(&self) -> f64 {
        circle_area(self.nozzle_m)
    }

    /// Drag area Cd S of the stage, m2.
    #[must_use]
    pub fn drag_area(&self) -> f64 {
        self.drag_coefficient * circle_area(self.reference_m)
    }

    /// Number of sets as a factor.
    #[must_use]
    pub fn sets_f64(&self) -> f64 {
        f64::from(self.sets)
    }

    /// Length of one vessel taken as a cylinder, m: volume / cross-section.
    #[must_use]
    pub fn vessel_length(&self) -> f64 {
        self.volume_m3 / (self.sets_f64() * self.bore_area())
    }

    /// Standing height of the filled water over the nozzle end, m.
    #[must_use]
    pub fn standing_height(&self) -> f64 {
        self.water_m3 / (self.sets_f64() * self.bore_area())
    }
}

impl LaunchTube {
    /// Area the tube closes, m2.
    #[must_use]
    pub fn outer_area(&self) -> f64 {
        circle_area(self.outer_m)
    }

    /// Open area inside the tube, m2.
    #[must_use]
    pub fn inner_area(&self) -> f64 {
        circle_area((self.outer_m - 2.0 * self.wall_m).max(0.0))
    }

    /// Mass of the tube at the given density, kg.
    #[must_use]
    pub fn mass(&self, density_kg_m3: f64) -> f64 {
        density_kg_m3 * self.length_m * (self.outer_area() - self.inner_area())
    }
}

impl Rocket {
    /// The same rocket without restrictor and without staging tube: the bare vessel.
    #[must_use]
    pub fn bare(&self) -> Self {
        Self { staging_tube: None, restrictor: None, ..*self }
    }
}
