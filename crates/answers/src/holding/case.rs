//! What is known of a design before anything is sized.

use holdwater_design::{Design, Input, Unit};
use holdwater_physics::flight::WaterMode;
use holdwater_physics::restrictor::hold;
use holdwater_physics::rocket::{LaunchTube, Restrictor, Rocket};
use holdwater_physics::sizing::plate::widest_that_fits;
use holdwater_physics::water::Water;

use super::flights::{height, launch};
use crate::study::Study;

/// Why nothing can be sized.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Obstacle {
    /// A single stage does not coast with water.
    SingleStage,
    /// There is no water to hold.
    NoWater,
    /// The stack is falling before the release.
    Falls,
    /// The stack does not slow at burnout: its water stays seated.
    NotSlowing,
    /// With the mass of a restrictor it does not fly.
    DoesNotFly,
}

/// A design and its bare flights.
#[derive(Clone, Debug)]
pub(super) struct Case {
    /// As it stands.
    pub rocket: Rocket,
    /// Without restrictor and staging tube.
    pub bare: Rocket,
    /// The restrictor of the design, at the height that is looked at; its hole is nought if none is fitted.
    pub plate: Restrictor,
    /// The staging tube of the design, narrow enough for the nozzle; its length is nought if none is fitted.
    pub tube: LaunchTube,
    /// Delay, s.
    pub delay: f64,
    /// The sustainer's water.
    pub water: Water,
    /// Hardest proper deceleration with a plate that holds, m/s2.
    pub deceleration: f64,
    /// Height with the mass of the restrictor aboard, the water held and no plate, m.
    pub ideal: f64,
    /// Height of the bare vessel with its water held, m.
    pub settled: f64,
    /// Height of the bare vessel, m.
    pub bare_height: f64,
    /// The same two for a release at burnout, m.
    pub at_burnout: (f64, f64),
    /// The widest of the design's number of holes that fits, m.
    pub widest_fit: f64,
    /// Height as it stands, m.
    pub fitted_height: f64,
    pub obstacle: Option<Obstacle>,
}

/// A hole that holds at any deceleration, m.
const TIGHT_HOLE: f64 = 1e-5;

/// A millimetre as the link holds it, in SI.
pub(super) fn mm(millimetres: f64) -> f64 {
    Unit::Millimetre.to_si(millimetres)
}

/// Millimetres of a length that was made from them, without the hair that the way through metres may leave.
pub(super) fn in_mm(length_m: f64) -> f64 {
    (length_m * 1e12).round() / 1e9
}

/// Down to a multiple of a part of a millimetre, mm. A hair of rounding does not take a whole step.
pub(super) fn down(length_m: f64, steps_per_mm: f64) -> f64 {
    (length_m * 1e3 * steps_per_mm + 1e-6).floor() / steps_per_mm
}

/// Up to a multiple of a part of a millimetre, mm.
pub(super) fn up(length_m: f64, steps_per_mm: f64) -> f64 {
    (length_m * 1e3 * steps_per_mm - 1e-6).ceil() / steps_per_mm
}

impl Case {
    pub fn new(study: &Study, delay: f64) -> Self {
        let design = study.design();
        let rocket = design.rocket();
        let bare = rocket.bare();
        let plate = trial_plate(design, &rocket);
        let water = Water::at(rocket.site.water_temperature_k, rocket.site.surface_tension_n_m);
        let (settled, bare_height, fitted) = study.heights(delay);
        let (at_burnout_settled, at_burnout, _) = study.heights(0.0);
        let mut case = Self {
            rocket,
            bare,
            plate,
            tube: trial_tube(design, &rocket),
            delay,
            water,
            deceleration: 0.0,
            ideal: settled,
            settled,
            bare_height,
            at_burnout: (at_burnout_settled, at_burnout),
            widest_fit: widest_that_fits(plate.holes, rocket.sustainer.bore_m),
            fitted_height: fitted.unwrap_or(bare_height),
            obstacle: None,
        };
        case.obstacle = case.find_obstacle();
        case
    }

    /// Flies the ballast: what holds a hole, and what a plate is measured by.
    fn find_obstacle(&mut self) -> Option<Obstacle> {
        if self.rocket.booster.is_none() {
            return Some(Obstacle::SingleStage);
        }
        let mut ballast = self.bare;
        ballast.sustainer.dry_kg += self.plate.mass_kg;
        let Some(launch) = launch(&ballast, self.delay) else { return Some(Obstacle::DoesNotFly) };
        self.deceleration = self.slowing().unwrap_or(0.0);
        match height(&launch, self.delay, WaterMode::Settled) {
            Some(Ok(height)) => self.ideal = height,
            Some(Err(_)) => return Some(Obstacle::Falls),
            None => return Some(Obstacle::DoesNotFly),
        }
        if self.bare.sustainer.water_m3 <= 0.0 {
            return Some(Obstacle::NoWater);
        }
        (self.deceleration <= 0.0).then_some(Obstacle::NotSlowing)
    }

    /// The hardest deceleration between burnout and release with a plate that lets nothing through: that at burnout, unless water from
    /// a gap below the plate or from above it is in flight later, which leaves the stack lighter.
    fn slowing(&self) -> Option<f64> {
        let tight = launch(&self.with_plate(TIGHT_HOLE, 1, self.plate.height_m), self.delay)?;
        let coast = tight.coast(WaterMode::Free)?;
        let at = |delay: f64| coast.at(delay).map(|state| state.deceleration);
        let later = coast.step_ends().into_iter().filter(|&delay| delay < self.delay).chain([self.delay]);
        Some(later.filter_map(at).fold(at(0.0)?, f64::max))
    }

    /// Whether a restrictor is fitted.
    pub fn plate_fitted(&self) -> bool {
        self.rocket.restrictor.is_some()
    }

    /// Widest hole of so many that holds with a share of the limit trusted, m; infinite where nothing pulls.
    pub fn widest_hole(&self, holes: u32, share: f64) -> f64 {
        let water = &self.water;
        let limit = hold::limit(holes);
        hold::widest_hole_that_holds(limit, share, water.density, self.deceleration, water.surface_tension)
    }
}

/// The restrictor that the design describes. Where none is fitted its plate lies on the water, to the millimetre, whatever the design says
/// of its height.
fn trial_plate(design: &Design, rocket: &Rocket) -> Restrictor {
    if let Some(plate) = rocket.restrictor {
        return plate;
    }
    let stage = &rocket.sustainer;
    let nearest = (stage.standing_height() * 1e3).round();
    let highest = down(stage.vessel_length(), 1.0);
    let si = |input: Input| input.row().unit.to_si(design.number(input));
    Restrictor {
        hole_m: 0.0,
        holes: design.number(Input::RestrictorHoles) as u32,
        height_m: mm(nearest.min(highest)),
        discharge: design.get(Input::RestrictorDischarge),
        trusted_share: si(Input::RestrictorShare),
        mass_kg: si(Input::RestrictorMass),
    }
}

/// The staging tube that the design describes. One that does not pass the nozzle is taken as narrow as passes.
fn trial_tube(design: &Design, rocket: &Rocket) -> LaunchTube {
    if let Some(tube) = rocket.staging_tube {
        return tube;
    }
    let si = |input: Input| input.row().unit.to_si(design.number(input));
    let nozzle_m = rocket.sustainer.nozzle_m;
    let wanted = si(Input::StagingTubeOuter);
    let outer_m = if wanted < nozzle_m { wanted } else { mm(down(0.95 * nozzle_m, 10.0)) };
    let wanted = si(Input::StagingTubeWall);
    let wall_m = if 2.0 * wanted < outer_m { wanted } else { mm(down(0.2 * outer_m, 10.0).max(0.1)) };
    LaunchTube { length_m: 0.0, outer_m, wall_m }
}
