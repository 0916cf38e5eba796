//! The answers as numbers: what the page shows and what `cargo xtask evaluate` prints.
//!
//! Field names carry their unit; they are the keys of the printed JSON and never change meaning.

use serde::Serialize;

use crate::holding::HoldingAnswer;
use crate::vessels::{StandoffNumbers, VesselNumbers};

/// The answers as they are printed: those of a flight, and those that need none.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Printed {
    /// The flight.
    #[serde(flatten)]
    pub answers: Answers,
    /// What holds the water, and the ways to stage.
    #[serde(flatten)]
    pub holding: Option<HoldingAnswer>,
    /// The parts that hold the pressure; null without any.
    pub vessel: Option<VesselNumbers>,
    /// Stored energy and stand-off.
    pub standoff: StandoffNumbers,
    /// The same of the design that is pinned, if there is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pinned: Option<Box<Printed>>,
}

/// Everything the calculator says about one flight.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Answers {
    /// Height over the site that the design reaches as it stands.
    pub apogee_m: f64,
    /// Height of the bare vessel (no restrictor, no staging tube) with its water held down, at the same delay.
    pub settled_apogee_m: f64,
    /// The settled ideal for a release at the end of the booster's thrust: what coasting itself gains is the difference.
    pub settled_at_burnout_m: f64,
    /// Share of the sustainer's gas mass that left before its water did.
    pub gas_lost: f64,
    /// The longest delay such that every shorter one costs less than the planned share of height.
    pub latest_release_s: Option<f64>,
    /// The delay at which the water stops covering the nozzle.
    pub uncovers_s: Option<f64>,
    /// End of the booster's thrust; absent for a single stage.
    pub burnout: Option<Burnout>,
    /// Proper deceleration of the stack at the start of the coast; absent for a single stage.
    pub coast_decel_mps2: Option<f64>,
    /// Release of the sustainer; absent for a single stage or a stack that fell first.
    pub release: Option<Release>,
    /// How the sustainer burns; absent when it never does.
    pub sustainer: Option<Sustainer>,
    /// Time of the apogee after lift-off.
    pub apogee_t_s: f64,
    /// Whether the stack reached its own top before the release.
    pub fell: bool,
    /// What the sustainer is fitted with: "bare", "staging tube", "restrictor", "restrictor and staging tube", "single stage".
    pub hardware: &'static str,
    /// The restrictor, if one is fitted and the sustainer is released.
    pub plate: Option<Plate>,
    /// Events in the order they happen.
    pub events: Vec<Event>,
    /// Warnings and remarks in words.
    pub notes: Vec<String>,
}

/// End of the booster's thrust.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Burnout {
    /// Time after the start (the valve opens).
    pub t_s: f64,
    /// Height over the site.
    pub h_m: f64,
    /// Speed.
    pub v_mps: f64,
}

/// The moment the sustainer is let go.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Release {
    /// Time after the start (the valve opens).
    pub t_s: f64,
    /// Height over the site.
    pub h_m: f64,
    /// Speed.
    pub v_mps: f64,
    /// Whether water covers the nozzle.
    pub covered: bool,
    /// Depth of the gas finger in the water.
    pub finger_m: f64,
    /// Water that has climbed off.
    pub lifted_l: f64,
}

/// The restrictor that is fitted.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Plate {
    /// "holds", "marginal" or "leaks" at burnout.
    pub verdict: &'static str,
    /// Bond number of a hole at burnout.
    pub bond: f64,
    /// Ideal limit of that.
    pub limit: f64,
    /// Water that has leaked up to the release.
    pub leak_l: f64,
    /// Gas at the nozzle at the release, which vents first.
    pub gas_at_nozzle_l: f64,
    /// Gas space between water and plate at filling.
    pub gap_l: f64,
    /// Water that stands on the plate at filling.
    pub above_l: f64,
    /// Height that its mass takes from the settled ideal; negative where ballast gains height.
    pub mass_cost_m: f64,
    /// Height that its holes take by throttling.
    pub holes_cost_m: f64,
    /// Height that leaked and lifted water takes, with the gas that leaves first.
    pub water_cost_m: f64,
}

/// The sustainer's thrust.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Sustainer {
    /// From release until the water is gone.
    pub water_s: f64,
    /// Length of the gas pulse that follows.
    pub gas_s: f64,
    /// Speed at the end of the gas pulse.
    pub v_burnout_mps: f64,
}

/// One line of the event list.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Event {
    /// What happens, in words.
    pub what: &'static str,
    /// Time after the start (the valve opens).
    pub t_s: f64,
    /// Time after the end of the booster's thrust: what a release timer started at burnout counts.
    pub after_burnout_s: Option<f64>,
    /// Height over the site.
    pub h_m: f64,
    /// Speed.
    pub v_mps: f64,
}
