//! What is known of a material: strength, stiffness, heat, cycles.

use super::problem::{PartProblem, Quantity};
use crate::age::fatigue::SLOPES_OF_PLASTIC;
use crate::constants::CELSIUS_ZERO_K;
use crate::real::pow;

/// Why a material must not hold compressed gas.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unfit {
    /// It breaks into sharp fragments without warning.
    Shatters,
}

/// How a material gives way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Behaviour {
    /// Yields long before it breaks; the strength used is the yield strength.
    DuctileMetal {
        /// Ultimate strength, Pa.
        ultimate_pa: f64,
    },
    /// Yields, but notches and solvents can make it crack; the strength used is the yield strength, and it counts as broken there.
    DuctilePlastic,
    /// Breaks without much warning; the strength used is the ultimate strength.
    NotDuctile,
}

/// Strength left at a temperature, as a share of that at 23 C: straight lines between points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Derating {
    /// Temperature, K, and share; temperatures rise, shares fall.
    points: [(f64, f64); 6],
}

impl Derating {
    /// From points in degrees Celsius. Colder than the first keeps the first share; hotter than the last leaves nothing.
    pub(crate) const fn celsius(points: [(f64, f64); 6]) -> Self {
        let mut kelvin = points;
        let mut k = 0;
        while k < kelvin.len() {
            kelvin[k].0 += CELSIUS_ZERO_K;
            k += 1;
        }
        Self { points: kelvin }
    }

    /// Full strength up to one temperature, none from another on, a straight line between.
    #[must_use]
    pub fn falling(full_to_k: f64, none_from_k: f64) -> Self {
        // `max` also turns a number that is none into one: the first kelvin, where nothing is left.
        let full = full_to_k.max(1.0);
        let none = none_from_k.max(full);
        Self { points: [(full, 1.0), (none, 0.0), (none, 0.0), (none, 0.0), (none, 0.0), (none, 0.0)] }
    }

    /// Share of the strength left, 0 to 1; it never rises with temperature.
    #[must_use]
    pub fn share(&self, temperature_k: f64) -> f64 {
        let mut cooler = self.points[0];
        if temperature_k <= cooler.0 {
            return cooler.1;
        }
        for &warmer in &self.points[1..] {
            if temperature_k <= warmer.0 {
                let way = (temperature_k - cooler.0) / (warmer.0 - cooler.0);
                return cooler.1 + (warmer.1 - cooler.1) * way.clamp(0.0, 1.0);
            }
            cooler = warmer;
        }
        0.0
    }

    /// Hottest temperature for which it says anything, K.
    #[must_use]
    pub fn hottest(&self) -> f64 {
        self.points[5].0
    }
}

/// Adhesive in a bond, 23 to 80 C. An assumption: epoxies and polyurethanes cured at room temperature soften between 50 and 80 C.
pub const ADHESIVE: Derating =
    Derating::celsius([(23.0, 1.0), (40.0, 0.7), (60.0, 0.3), (80.0, 0.0), (80.0, 0.0), (80.0, 0.0)]);

/// A line of stress against cycles to failure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SnLine {
    /// A stress on the line, greatest of a cycle that starts at nought, Pa.
    pub stress_pa: f64,
    /// Cycles to failure there.
    pub cycles: f64,
    /// Exponent m of N = C S^-m.
    pub slope: f64,
}

impl SnLine {
    /// Cycles at which half of all parts have failed.
    ///
    /// # Equation
    /// N = N0 (S0/S)^m
    ///
    /// # Symbols
    /// S greatest stress of a cycle from nought, Pa; N0, S0, m the line.
    ///
    /// # Range
    /// Where the line was measured, for 6061-T6 about 1e4 to 1e8 cycles; smooth specimens, no notch. A mean: half fail sooner.
    ///
    /// # Source
    /// For 6061-T6 MIL-HDBK-5 (`mil_hdbk_5`): log10 N = 20.68 - 9.84 log10(S_max (1 - R)^0.63), ksi; from memory.
    ///
    /// # Example
    /// ```
    /// use holdwater_physics::vessel::materials::{MaterialName, row};
    /// let line = row(MaterialName::Aluminium6061T6).material.fatigue.line.unwrap();
    /// assert!((line.cycles_at(150e6) / 3.2983e7 - 1.0).abs() < 1e-3);
    /// ```
    #[must_use]
    pub fn cycles_at(&self, stress_pa: f64) -> f64 {
        if stress_pa > 0.0 { self.cycles * pow(self.stress_pa / stress_pa, self.slope) } else { f64::INFINITY }
    }
}

/// What is known of a material's life under cycles.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fatigue {
    /// A measured line, if there is one.
    pub line: Option<SnLine>,
    /// Exponents m between which that of the part lies, for converting cycles to the design pressure: n (p/design)^m. The small one is the
    /// safe one below the design pressure, the large one above it.
    pub slopes: [f64; 2],
    /// Whether those exponents are an assumption without a source.
    pub slopes_are_assumed: bool,
}

/// Nothing is known: the slopes assumed for plastics.
pub(crate) const NO_LINE: Fatigue = Fatigue { line: None, slopes: SLOPES_OF_PLASTIC, slopes_are_assumed: true };

/// Numbers of a material.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Material {
    /// Strength used round the part, Pa: yield for what is ductile, ultimate for the rest.
    pub hoop_pa: f64,
    /// Strength used along the part, Pa.
    pub axial_pa: f64,
    /// Shear strength used, Pa.
    pub shear_pa: f64,
    /// Modulus, Pa; the least plausible, since stiff walls collapse later.
    pub modulus_pa: f64,
    /// Poisson's ratio.
    pub poisson: f64,
    /// Density, kg/m3.
    pub density: f64,
    /// How it gives way.
    pub behaviour: Behaviour,
    /// What heat leaves of its strength.
    pub derating: Derating,
    /// Life under cycles.
    pub fatigue: Fatigue,
    /// Whether its strength is uncertain: from memory or from a wide range.
    pub uncertain: bool,
    /// Why it must not be used, if so.
    pub unfit: Option<Unfit>,
}

impl Material {
    /// A row of one's own: the same strength in every direction, not ductile, full strength to 40 C and none from a given temperature on.
    ///
    /// Shear is half the strength, which suits metals and plastics; for laminates set `shear_pa` lower.
    #[must_use]
    pub fn own(strength_pa: f64, modulus_pa: f64, poisson: f64, density: f64, none_from_k: f64) -> Self {
        Self {
            hoop_pa: strength_pa,
            axial_pa: strength_pa,
            shear_pa: 0.5 * strength_pa,
            modulus_pa,
            poisson,
            density,
            behaviour: Behaviour::NotDuctile,
            derating: Derating::falling(CELSIUS_ZERO_K + 40.0, none_from_k),
            fatigue: NO_LINE,
            uncertain: true,
            unfit: None,
        }
    }

    /// Whether it yields before it breaks.
    #[must_use]
    pub fn is_ductile(&self) -> bool {
        !matches!(self.behaviour, Behaviour::NotDuctile)
    }

    /// The lesser of the two strengths, for stress without a known direction, Pa.
    #[must_use]
    pub fn least_strength(&self) -> f64 {
        self.hoop_pa.min(self.axial_pa)
    }

    /// Refuses what is unfit or absurd.
    pub(crate) fn check(&self) -> Result<(), PartProblem> {
        if let Some(reason) = self.unfit {
            return Err(PartProblem::UnfitMaterial { reason });
        }
        for strength in [self.hoop_pa, self.axial_pa, self.shear_pa] {
            Quantity::Strength.check(strength)?;
        }
        if let Behaviour::DuctileMetal { ultimate_pa } = self.behaviour {
            // An ultimate strength below the yield strength is a slip of the keys.
            let (_, high) = Quantity::Strength.range();
            let low = self.hoop_pa.max(self.axial_pa);
            if !(low..=high).contains(&ultimate_pa) {
                return Err(PartProblem::OutOfRange { what: Quantity::Strength, value: ultimate_pa, low, high });
            }
        }
        Quantity::Modulus.check(self.modulus_pa)?;
        Quantity::Poisson.check(self.poisson)?;
        Quantity::Density.check(self.density)?;
        Ok(())
    }
}
