//! Every way in which a part can give way: its stress per pressure, what the material allows, and the factor between.

use super::collapse::{collapse, column};
use super::joint::{Overlap, mean_shear, peak_ratio, pins};
use super::material::{ADHESIVE, Behaviour, Material};
use super::part::{Adherend, Adhesive, Dome, Kind, Part};
use super::plate::{Edge, clamped, supported};
use super::problem::{PartProblem, Quantity};
use super::stress::{
    THIN_LIMIT, ellipsoid, faupel, lame, mean_hoop_burst, thick_sphere, thin_axial, thin_hoop, torisphere,
};

/// Which stress, or which pressure, is compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mode {
    /// Round the shell.
    Hoop,
    /// Along the shell.
    Axial,
    /// Equivalent stress at the inner face of a thick wall.
    VonMises,
    /// In a dome.
    Dome,
    /// Shear at the ends of a bond.
    ShearAtEnds,
    /// Tension of the thinner wall beside a bond.
    WallOfBond,
    /// Rated pressure.
    Rating,
    /// Bending at the rim of a flat closure.
    BendingAtEdge,
    /// Bending in the centre of a flat closure.
    BendingAtCentre,
    /// Shear at the rim of a flat closure.
    ShearAtEdge,
    /// Shear of the pins.
    PinShear,
    /// Bearing of the pins on the tube.
    Bearing,
    /// Tear-out of the pins through the edge.
    TearOut,
    /// Tension between the holes.
    NetSection,
    /// Collapse under outside pressure.
    Collapse,
    /// Buckling as a column.
    Column,
    /// Hoop compression under outside pressure.
    Compression,
    /// Measured burst pressure.
    Burst,
    /// Proof pressure.
    Proof,
}

impl Mode {
    /// What it is called.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Hoop => "hoop",
            Self::Axial => "axial",
            Self::VonMises => "von Mises at the bore",
            Self::Dome => "dome",
            Self::ShearAtEnds => "shear at the ends",
            Self::WallOfBond => "axial in the thinner wall",
            Self::Rating => "rated pressure",
            Self::BendingAtEdge => "bending at the edge",
            Self::BendingAtCentre => "bending in the centre",
            Self::ShearAtEdge => "shear at the edge",
            Self::PinShear => "shear of the pins",
            Self::Bearing => "bearing of the pins",
            Self::TearOut => "tear-out of the pins",
            Self::NetSection => "net section between the pins",
            Self::Collapse => "collapse",
            Self::Column => "buckling as a column",
            Self::Compression => "hoop compression",
            Self::Burst => "measured burst",
            Self::Proof => "proof",
        }
    }

    /// Whether the numbers compared are pressures, not stresses.
    #[must_use]
    pub fn is_pressure(self) -> bool {
        matches!(self, Self::Rating | Self::Collapse | Self::Burst | Self::Proof)
    }
}

/// Safety factors, one for each kind of evidence. All are common practice without a source, except where a word is said.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Factors {
    /// On the yield strength of a ductile metal: it warns by yielding and bursts later.
    pub on_yield: f64,
    /// On the strength of what breaks without warning: strengths are known poorly, walls are uneven.
    pub on_ultimate: f64,
    /// On the shear strength of a bond: nobody sees a bad bond, and peel is not in the formula.
    pub bond: f64,
    /// On collapse and buckling: real tubes are not round, and the formula is for perfect ones. (A code for pressure vessels takes 3 for tubes
    /// whose roundness it measures; from memory.)
    pub buckling: f64,
    /// On a maker's rating, which has its own margin in it.
    pub rating: f64,
    /// On the lowest measured burst: the next part is not the one that was burst.
    pub measured_burst: f64,
    /// On a proof pressure held: the very part was tested, but it may have suffered.
    pub proof: f64,
}

impl Factors {
    /// The factors taken when none are given.
    pub const DEFAULT: Self = Self {
        on_yield: 2.0,
        on_ultimate: 3.0,
        bond: 4.0,
        buckling: 4.0,
        rating: 1.0,
        measured_burst: 2.0,
        proof: 1.5,
    };

    /// Refuses factors below one and absurd ones.
    pub(crate) fn check(&self) -> Result<(), PartProblem> {
        for factor in
            [self.on_yield, self.on_ultimate, self.bond, self.buckling, self.rating, self.measured_burst, self.proof]
        {
            Quantity::Factor.check(factor)?;
        }
        Ok(())
    }

    /// The factor on the strength of a material.
    #[must_use]
    pub fn on_strength(&self, material: &Material) -> f64 {
        match material.behaviour {
            Behaviour::DuctileMetal { .. } => self.on_yield,
            Behaviour::DuctilePlastic | Behaviour::NotDuctile => self.on_ultimate,
        }
    }
}

impl Default for Factors {
    fn default() -> Self {
        Self::DEFAULT
    }
}

/// One way to give way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Which.
    pub mode: Mode,
    /// Stress per gauge pressure; 1 where pressures are compared.
    pub per_pressure: f64,
    /// What the material allows at its temperature, before the factor, Pa.
    pub allowable_pa: f64,
    /// Safety factor.
    pub factor: f64,
    /// Pressure at which it is expected to break in this way, without a factor, Pa; `None` where nothing is known.
    pub breaks_pa: Option<f64>,
}

impl Line {
    /// Pressure at which its margin is nought, Pa.
    #[must_use]
    pub fn zero_margin(&self) -> f64 {
        self.allowable_pa / (self.factor * self.per_pressure)
    }

    /// Margin of safety.
    ///
    /// # Equation
    /// MS = allowable/(factor stress) - 1
    ///
    /// # Symbols
    /// Allowable and stress, Pa; stress = stress per pressure times pressure.
    ///
    /// # Range
    /// Pressure above nought. Nought: just as safe as asked. Below: not as safe as asked, which is not yet broken.
    ///
    /// # Source
    /// Common practice, no source.
    ///
    /// # Example
    /// ```
    /// use holdwater_physics::vessel::lines::{Line, Mode};
    /// let line = Line { mode: Mode::Hoop, per_pressure: 100.0, allowable_pa: 300e6, factor: 2.0, breaks_pa: None };
    /// assert!((line.margin(1e6) - 0.5).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn margin(&self, pressure_pa: f64) -> f64 {
        self.zero_margin() / pressure_pa - 1.0
    }
}

/// Concentration of stress beside a hole, which only ductile material evens out (Kirsch; from memory).
const HOLE_CONCENTRATION: f64 = 3.0;

/// What every line of a part needs.
struct Setting<'a> {
    material: &'a Material,
    /// Share of its strength left.
    share: f64,
    factor: f64,
    factors: &'a Factors,
    temperature_k: f64,
}

impl Setting<'_> {
    /// A line that breaks where its stress reaches the strength (a metal: the ultimate strength in the same proportion).
    fn line(&self, mode: Mode, per_pressure: f64, strength_pa: f64) -> Line {
        let reserve = match self.material.behaviour {
            Behaviour::DuctileMetal { ultimate_pa } => ultimate_pa / self.material.hoop_pa.max(self.material.axial_pa),
            Behaviour::DuctilePlastic | Behaviour::NotDuctile => 1.0,
        };
        let allowable_pa = strength_pa * self.share;
        let breaks_pa = Some(allowable_pa * reserve / per_pressure);
        Line { mode, per_pressure, allowable_pa, factor: self.factor, breaks_pa }
    }
}

/// Gives every way in which a part can give way by formula or rating to a function. The part must have been checked.
pub(crate) fn each_line(part: &Part, temperature_k: f64, factors: &Factors, take: &mut dyn FnMut(Line)) {
    let setting = Setting {
        material: &part.material,
        share: part.material.derating.share(temperature_k),
        factor: factors.on_strength(&part.material),
        factors,
        temperature_k,
    };
    match part.kind {
        Kind::Shell { bore_m, wall_m } => shell(&setting, bore_m, wall_m, take),
        Kind::Dome { bore_m, wall_m, shape } => {
            take(setting.line(Mode::Dome, dome_stress(bore_m, wall_m, shape), part.material.least_strength()));
        }
        Kind::Splice { bore_m, overlap_m, inner, outer, adhesive } => {
            splice(&setting, 0.5 * bore_m, overlap_m, inner, outer, &adhesive, take);
        }
        Kind::Screwed { rated_pa } => take(Line {
            mode: Mode::Rating,
            per_pressure: 1.0,
            allowable_pa: rated_pa * setting.share,
            factor: factors.rating,
            breaks_pa: None,
        }),
        Kind::Flat { bore_m, thickness_m, edge } => flat(&setting, 0.5 * bore_m, thickness_m, edge, take),
        Kind::Pinned { bore_m, wall_m, pins: count, pin_m, edge_m, pin_strength_pa } => {
            let stress = pins(bore_m, wall_m, count, pin_m, edge_m);
            let material = setting.material;
            let concentration = if material.is_ductile() { 1.0 } else { HOLE_CONCENTRATION };
            take(Line {
                mode: Mode::PinShear,
                per_pressure: stress.shear,
                allowable_pa: pin_strength_pa,
                factor: factors.on_ultimate,
                breaks_pa: Some(pin_strength_pa / stress.shear),
            });
            take(setting.line(Mode::Bearing, stress.bearing, material.least_strength()));
            take(setting.line(Mode::TearOut, stress.tear_out, material.shear_pa));
            take(setting.line(Mode::NetSection, stress.net_section * concentration, material.axial_pa));
        }
        Kind::External { outer_m, wall_m, length_m } => external(&setting, outer_m, wall_m, length_m, take),
        Kind::Tested => {}
    }
}

/// A wall just below the thin limit may not look weaker than one just above it: the thick formula's value at the limit is a floor.
fn thin_with_floor(thin: f64, thick_at_limit: f64) -> f64 {
    thin.max(thick_at_limit)
}

fn shell(setting: &Setting<'_>, bore_m: f64, wall_m: f64, take: &mut dyn FnMut(Line)) {
    let (inner, outer) = (0.5 * bore_m, 0.5 * bore_m + wall_m);
    let material = setting.material;
    let thick = wall_m > THIN_LIMIT * inner;
    let (hoop, axial) = if thick {
        let stress = lame(1.0, inner, outer);
        (stress.hoop_pa, stress.axial_pa)
    } else {
        let floor = lame(1.0, 1.0, 1.0 + THIN_LIMIT).hoop_pa;
        (thin_with_floor(thin_hoop(1.0, inner, wall_m), floor), thin_axial(1.0, inner, wall_m))
    };
    let mut round = setting.line(Mode::Hoop, hoop, material.hoop_pa);
    if let Behaviour::DuctileMetal { ultimate_pa } = material.behaviour {
        let burst = faupel(material.hoop_pa, ultimate_pa, inner, outer).min(mean_hoop_burst(ultimate_pa, inner, outer));
        round.breaks_pa = Some(burst * setting.share);
    }
    take(round);
    take(setting.line(Mode::Axial, axial, material.axial_pa));
    if thick {
        let mut equivalent = setting.line(Mode::VonMises, lame(1.0, inner, outer).von_mises_pa, material.hoop_pa);
        // First yield of a thick metal wall is not its burst; Faupel's is.
        equivalent.breaks_pa = round.breaks_pa;
        take(equivalent);
    }
}

fn dome_stress(bore_m: f64, wall_m: f64, shape: Dome) -> f64 {
    let inner = 0.5 * bore_m;
    match shape {
        Dome::Hemisphere if wall_m > THIN_LIMIT * inner => thick_sphere(1.0, inner, inner + wall_m),
        Dome::Hemisphere => thin_with_floor(thin_axial(1.0, inner, wall_m), thick_sphere(1.0, 1.0, 1.0 + THIN_LIMIT)),
        Dome::Ellipsoid => ellipsoid(bore_m, wall_m),
        Dome::Torisphere { crown_m, knuckle_m } => torisphere(crown_m, knuckle_m, wall_m),
    }
}

fn splice(
    setting: &Setting<'_>,
    radius_m: f64,
    overlap_m: f64,
    inner: Adherend,
    outer: Adherend,
    adhesive: &Adhesive,
    take: &mut dyn FnMut(Line),
) {
    let overlap = Overlap {
        length_m: overlap_m,
        first_n_m: inner.wall_m * inner.modulus_pa,
        second_n_m: outer.wall_m * outer.modulus_pa,
        shear_modulus_pa: adhesive.shear_modulus_pa,
        adhesive_m: adhesive.thickness_m,
    };
    let per_pressure = mean_shear(1.0, radius_m, overlap_m) * peak_ratio(&overlap);
    // The bond is as warm as its walls, and either may soften first.
    let allowable_pa = adhesive.strength_pa * setting.share.min(ADHESIVE.share(setting.temperature_k));
    take(Line {
        mode: Mode::ShearAtEnds,
        per_pressure,
        allowable_pa,
        factor: setting.factors.bond,
        breaks_pa: Some(allowable_pa / per_pressure),
    });
    let thinner = inner.wall_m.min(outer.wall_m);
    take(setting.line(Mode::WallOfBond, thin_axial(1.0, radius_m, thinner), setting.material.axial_pa));
}

fn flat(setting: &Setting<'_>, radius_m: f64, thickness_m: f64, edge: Edge, take: &mut dyn FnMut(Line)) {
    let material = setting.material;
    let strength = material.least_strength();
    match edge {
        Edge::Clamped => {
            let (rim, centre) = clamped(radius_m, thickness_m, material.poisson);
            take(setting.line(Mode::BendingAtEdge, rim, strength));
            take(setting.line(Mode::BendingAtCentre, centre, strength));
        }
        Edge::Supported => {
            take(setting.line(Mode::BendingAtCentre, supported(radius_m, thickness_m, material.poisson), strength));
        }
    }
    // Statics: p pi a^2 on 2 pi a t.
    take(setting.line(Mode::ShearAtEdge, radius_m / (2.0 * thickness_m), material.shear_pa));
}

fn external(setting: &Setting<'_>, outer_m: f64, wall_m: f64, length_m: f64, take: &mut dyn FnMut(Line)) {
    let material = setting.material;
    let (outer, inner) = (0.5 * outer_m, 0.5 * outer_m - wall_m);
    // Stiffness is taken to fall with heat as strength does, though it falls later.
    let modulus = material.modulus_pa * setting.share;
    let metal = (outer - inner) * (outer + inner);
    let end_load = outer * outer / metal;
    let collapses = collapse(modulus, material.poisson, wall_m, outer_m, length_m);
    let buckles = column(modulus, outer, inner, length_m);
    for (mode, per_pressure, allowable_pa) in [(Mode::Collapse, 1.0, collapses), (Mode::Column, end_load, buckles)] {
        let breaks_pa = Some(allowable_pa / per_pressure);
        take(Line { mode, per_pressure, allowable_pa, factor: setting.factors.buckling, breaks_pa });
    }
    // Lame with the pressure outside: greatest at the inner face, twice the end load's.
    take(setting.line(Mode::Compression, 2.0 * end_load, material.least_strength()));
}
