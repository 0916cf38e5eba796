//! What question two is answered with, as numbers. Field names carry their unit and are the keys of the printed JSON.

use serde::Serialize;

/// All answers to question two.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct HoldingAnswer {
    /// The ways to stage, the bare ones first; empty for a single stage.
    pub choices: Vec<Choice>,
    /// The choice with the greatest height, and the simplest that comes near it, as places in `choices`.
    pub best_choice: Option<usize>,
    /// See `best_choice`.
    pub simplest_choice: Option<usize>,
    /// The restrictor.
    pub restrictor: RestrictorAnswer,
    /// The launch tube between the stages.
    pub tube: TubeAnswer,
    /// The small tube against the real vessel.
    pub small_tube: SmallTube,
    /// The verdict in one or two sentences.
    pub holding_verdict: String,
    /// Remarks and warnings in words.
    pub holding_notes: Vec<String>,
}

/// A way to stage.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Choice {
    /// Which, in words.
    pub choice: String,
    /// Which.
    #[serde(skip)]
    pub way: Way,
    /// Height over the site.
    pub apogee_m: f64,
    /// Share of the bare vessel's settled ideal at the same delay that it costs; negative for a gain.
    pub loss_share: f64,
    /// Mass it adds.
    pub added_kg: f64,
    /// Latest release; absent if the loss never reaches the planned share.
    pub latest_release_s: Option<f64>,
    /// What could go wrong.
    pub warning: String,
}

/// Which way to stage, from the simplest to the least simple.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Way {
    /// Release at burnout.
    AtBurnout,
    /// Coast with nothing fitted.
    Bare,
    /// Coast with the restrictor that is fitted.
    ThisRestrictor,
    /// Coast with the best restrictor.
    BestRestrictor,
    /// Coast with the launch tube that is fitted.
    ThisTube,
    /// Coast with the best launch tube.
    BestTube,
}

/// The restrictor.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RestrictorAnswer {
    /// Of the fitted one: "none", "holds", "marginal" or "leaks".
    pub verdict: &'static str,
    /// Bond number of a hole of the fitted one at burnout.
    pub bond: Option<f64>,
    /// Ideal limit of the Bond number for as many holes.
    pub limit: f64,
    /// Water that has leaked through the fitted one up to the release.
    pub leak_l: f64,
    /// Gas at the nozzle at the release, which vents first.
    pub gas_at_nozzle_l: f64,
    /// Number of holes the bores below are for.
    pub holes: u32,
    /// Height of the plate the bores below are for.
    pub height_mm: f64,
    /// Widest bore that holds.
    pub hold_bore_mm: Option<f64>,
    /// Bore from which surface tension holds nothing; marginal between the two.
    pub leaks_from_mm: Option<f64>,
    /// Bores at which leak and throttling together cost less than the planned share.
    pub window_mm: Option<[f64; 2]>,
    /// Below this bore the holes alone cost the planned share.
    pub chokes_below_mm: Option<f64>,
    /// Best bore.
    pub best_bore_mm: Option<f64>,
    /// Height it reaches.
    pub best_apogee_m: Option<f64>,
    /// The same flight with as much ballast, held water and no plate.
    pub ideal_apogee_m: f64,
    /// What the mass of the restrictor alone does to the settled ideal.
    pub ballast_gain_m: f64,
    /// Pattern of smaller holes, each of which holds.
    pub pattern: Option<PatternAnswer>,
    /// Best height of the plate over the nozzle end, and the height reached with it.
    pub best_height_mm: Option<f64>,
    /// See `best_height_mm`.
    pub best_height_apogee_m: Option<f64>,
    /// The restrictor of the choice "best": holes, bore, height of the plate.
    pub best: Option<BestPlate>,
    /// Hole that behaves on the bench as the fitted (or best) one does in flight.
    pub bench_bore_mm: Option<f64>,
    /// What the bottle over the sink should do with it.
    pub bench: Option<Bench>,
    /// What presses on the fitted (or best) plate.
    pub load: Option<Load>,
    /// Why there is no window, or no pattern, or nothing at all.
    pub why_not: Vec<String>,
}

/// Equal holes that all hold.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PatternAnswer {
    /// Number of holes.
    pub holes: u32,
    /// Diameter of each.
    pub bore_mm: f64,
    /// Height it reaches.
    pub apogee_m: f64,
    /// Number of such holes there is room for.
    pub most: u32,
}

/// A whole restrictor.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct BestPlate {
    /// Number of holes.
    pub holes: u32,
    /// Diameter of each.
    pub bore_mm: f64,
    /// Height over the nozzle end.
    pub height_mm: f64,
    /// Height it reaches.
    pub apogee_m: f64,
}

/// A plate at the mouth of a bottle turned over above a sink.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Bench {
    /// Number of holes.
    pub holes: u32,
    /// Whether it holds at 1 g: "holds", "marginal" or "leaks".
    pub verdict: &'static str,
    /// Whether the holes find room in that bottle.
    pub fits: bool,
    /// Time until the bottle is empty, if it empties.
    pub emptying_s: Option<f64>,
}

/// What presses on a plate.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Load {
    /// Pressure difference once the jet has settled.
    pub release_bar: f64,
    /// At the start of the gas pulse.
    pub gas_pulse_bar: f64,
    /// While the vessel is filled in ten seconds; upward.
    pub filling_bar: f64,
    /// The greatest downward force of the first two.
    pub force_n: f64,
}

/// The launch tube between the stages.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct TubeAnswer {
    /// Outer diameter.
    pub outer_mm: f64,
    /// Wall that was flown: that of the design, or thicker where it must be.
    pub wall_mm: f64,
    /// Wall needed at the best length: for the pressure inside, and for the pressure outside with the end load.
    pub wall_inside_mm: Option<f64>,
    /// See `wall_inside_mm`.
    pub wall_outside_mm: Option<f64>,
    /// Longest length that the vessel has room for and that some wall makes strong enough.
    pub longest_length_mm: Option<f64>,
    /// Shortest length with which the water is seated.
    pub seated_length_mm: Option<f64>,
    /// Length with the greatest height.
    pub best_length_mm: Option<f64>,
    /// That height.
    pub best_apogee_m: Option<f64>,
    /// Mass of the best tube, which rides on the booster.
    pub mass_kg: Option<f64>,
    /// Height that this mass alone takes.
    pub mass_cost_m: Option<f64>,
    /// Share of the gas left in the best tube.
    pub gas_left: Option<f64>,
}

/// The small tube against the real vessel.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SmallTube {
    /// The two holes tried.
    pub tried: [Tried; 2],
    /// What would be a fair test of the fitted (or best) restrictor.
    pub fair: Option<Fair>,
    /// The comparison in words.
    pub words: Vec<String>,
}

/// A hole tried in the small tube.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Tried {
    /// Hole.
    pub hole_mm: f64,
    /// Open share of the tube.
    pub open_share: f64,
    /// Bond number over its limit in the tube.
    pub bond_over_limit: f64,
    /// What it does in the tube.
    pub verdict: &'static str,
    /// The hole with the same open share in the real vessel.
    pub same_share_mm: f64,
    /// Bond number of that over its limit.
    pub same_share_bond_over_limit: Option<f64>,
    /// What that does.
    pub same_share_verdict: Option<&'static str>,
    /// The hole that does in the real vessel what this one does in the tube, whatever its open share.
    pub same_behaviour_mm: Option<f64>,
}

/// What would be a fair test.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Fair {
    /// The hole for the tube, at its own slowing.
    pub hole_mm: f64,
    /// Least bore of a tube with room for that hole and as open as the vessel.
    pub bore_mm: f64,
    /// The slowing at which the first hole tried would do, in g.
    pub slowing_g: f64,
    /// Whether the hole has room in the small tube.
    pub fits: bool,
}
