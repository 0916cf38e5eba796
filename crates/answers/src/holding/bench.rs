//! What to try before flying: the bench hole, the bottle over the sink, the small tube; and what presses on the plate.

use holdwater_design::{Design, Input};
use holdwater_physics::constants::GRAVITY;
use holdwater_physics::restrictor::bench::{self, Bottle};
use holdwater_physics::restrictor::similarity::{Case as Trial, Measures, fair_test};
use holdwater_physics::restrictor::{Verdict, load};
use holdwater_physics::rocket::{Restrictor, circle_area};

use super::case::{Case, down, mm, up};
use super::flights::launch;
use super::numbers::{Bench, Fair, Load, SmallTube, Tried};
use super::words;

/// Time in which a vessel is filled, for the load of filling, s.
const FILLING_S: f64 = 10.0;

/// The verdict in its word.
pub(super) fn word(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Holds => "holds",
        Verdict::Marginal => "marginal",
        Verdict::Leaks => "leaks",
    }
}

fn si(design: &Design, input: Input) -> f64 {
    input.row().unit.to_si(design.number(input))
}

/// The hole for the bench, mm, and what the user's bottle does with it.
pub(super) fn on_the_bench(case: &Case, design: &Design, plate: &Restrictor) -> Option<(f64, Bench)> {
    let hole = down(bench::hole(plate.hole_m, case.deceleration), 10.0);
    if hole.is_nan() || hole <= 0.0 {
        return None;
    }
    let bottle = Bottle { bore_m: si(design, Input::BottleBore), water_m: si(design, Input::BottleDepth) };
    let expected = bench::expectation(&bottle, plate.holes, mm(hole), plate.trusted_share, &case.water);
    let bench = Bench {
        holes: plate.holes,
        verdict: word(expected.verdict),
        fits: expected.fits,
        emptying_s: expected.emptying_s,
    };
    Some((hole, bench))
}

/// A layer of water on the plate thinner than this, m, has passed before the jet has settled.
const THIN_LAYER: f64 = 1e-3;

/// What presses on a plate.
pub(super) fn loads(case: &Case, plate: &Restrictor) -> Option<Load> {
    let stage = &case.bare.sustainer;
    let layer = stage.standing_height() - plate.height_m;
    let height_m = if layer > 0.0 && layer < THIN_LAYER { stage.standing_height() } else { plate.height_m };
    let launch = launch(&case.with_plate(plate.hole_m, plate.holes, height_m), 0.0)?;
    let summary = launch.plate()?;
    let holes = launch.sustainer().plate.as_ref()?.holes;
    let per_jet = 0.5 * stage.nozzle_area() * stage.nozzle_area();
    let filling = &launch.sustainer().filling;
    let ratio = filling.pressure / (filling.pressure - stage.fill_gauge_pa);
    // Water that stands on the plate is what passes first, else gas that is still as thin as the air outside.
    let (density, loss) = if summary.above_m3 > 0.0 {
        (case.water.density, holes.water_loss)
    } else {
        (filling.gas_kg / (stage.volume_m3 - stage.water_m3) / ratio, holes.gas_loss)
    };
    let above = stage.volume_m3 - (stage.bore_area() * height_m).max(stage.water_m3);
    let filling_pa = load::difference_of_filling(density, above.max(0.0), ratio, FILLING_S, loss / per_jet);
    let open = f64::from(plate.holes) * circle_area(plate.hole_m);
    let largest = summary.load_at_jet_pa.max(summary.load_at_gas_pa);
    Some(Load {
        release_bar: summary.load_at_jet_pa * 1e-5,
        gas_pulse_bar: summary.load_at_gas_pa * 1e-5,
        filling_bar: filling_pa * 1e-5,
        force_n: load::force(largest, stage.bore_area(), open),
    })
}

/// The two holes of the small tube against the real vessel.
pub(super) fn small_tube(case: &Case, design: &Design, plate: Option<&Restrictor>) -> SmallTube {
    let slowing = design.number(Input::TubeDeceleration) * GRAVITY;
    let bore_m = si(design, Input::TubeBore);
    let in_tube = |hole: Input| Trial {
        bore_m,
        hole_m: si(design, hole),
        holes: 1,
        deceleration: slowing,
        trusted_share: case.plate.trusted_share,
    };
    let trials = [in_tube(Input::TubeHole), in_tube(Input::TubeOtherHole)];
    let tried = trials.map(|trial| try_hole(case, &trial));
    let vessel = plate.map(|plate| Trial {
        bore_m: case.bare.sustainer.bore_m,
        hole_m: plate.hole_m,
        holes: plate.holes,
        deceleration: case.deceleration,
        trusted_share: plate.trusted_share,
    });
    let fair = vessel.and_then(|vessel| fair_test(&vessel, &trials[0])).map(|fair| Fair {
        hole_mm: down(fair.hole_m, 10.0),
        bore_mm: up(fair.bore_m, 1.0),
        slowing_g: fair.deceleration / GRAVITY,
        fits: fair.hole_m < bore_m,
    });
    let words = words::small_tube(case, &tried, fair.as_ref(), plate, bore_m, slowing);
    SmallTube { tried, fair, words }
}

fn try_hole(case: &Case, trial: &Trial) -> Tried {
    let Measures { open_fraction, bond_over_limit, verdict, .. } = trial.measures(&case.water);
    let vessel_bore = case.bare.sustainer.bore_m;
    let pulls = case.deceleration > 0.0;
    let same_share = Trial::with_open_fraction(vessel_bore, open_fraction, case.deceleration, trial.trusted_share);
    let measures = pulls.then(|| same_share.measures(&case.water));
    Tried {
        hole_mm: trial.hole_m * 1e3,
        open_share: open_fraction,
        bond_over_limit,
        verdict: word(verdict),
        same_share_mm: same_share.hole_m * 1e3,
        same_share_bond_over_limit: measures.map(|measures| measures.bond_over_limit),
        same_share_verdict: measures.map(|measures| word(measures.verdict)),
        same_behaviour_mm: pulls.then(|| trial.hole_m * (trial.deceleration / case.deceleration).sqrt() * 1e3),
    }
}
