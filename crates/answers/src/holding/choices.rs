//! The answer put together: the ways to stage, and what was found about restrictor and tube.

use holdwater_physics::constants::TUBE_DENSITY;
use holdwater_physics::flight::{CoastState, WaterMode};
use holdwater_physics::restrictor::hold;
use holdwater_physics::rocket::{LaunchTube, Restrictor};
use holdwater_physics::sizing::tube::gas_left;

use super::bench;
use super::case::{Case, down, in_mm, mm};
use super::flights::{height, launch};
use super::numbers::{Choice, HoldingAnswer, PatternAnswer, RestrictorAnswer, TubeAnswer, Way};
use super::stages::Found;
use super::words;
use crate::study::Study;

/// A choice is nearly as good as the best one when it loses no more than this share of its height.
pub(super) const NEARLY: f64 = 0.01;

/// Everything, when all has been flown.
pub(super) fn answer(study: &Study, case: &Case, found: &Found) -> HoldingAnswer {
    let design = study.design();
    let subject = subject(case, found);
    let restrictor = restrictor(study, case, found, subject.as_ref());
    let tube = tube(case, found);
    let choices = if case.rocket.booster.is_some() { choices(study, case, found, &restrictor) } else { Vec::new() };
    let place = |choice: Option<&Choice>| choice.and_then(|choice| choices.iter().position(|other| other == choice));
    let best = choices.iter().reduce(|best, next| if next.apogee_m > best.apogee_m { next } else { best });
    let near = |choice: &&Choice| best.is_some_and(|best| choice.apogee_m >= best.apogee_m * (1.0 - NEARLY));
    let simplest = choices.iter().filter(near).min_by_key(|choice| choice.way);
    let (best_choice, simplest_choice) = (place(best), place(simplest));
    let holding_verdict = words::verdict(case, best, simplest);
    let holding_notes = words::notes(case, found, &restrictor, &tube);
    let small_tube = bench::small_tube(case, design, subject.as_ref());
    HoldingAnswer {
        choices,
        best_choice,
        simplest_choice,
        restrictor,
        tube,
        small_tube,
        holding_verdict,
        holding_notes,
    }
}

/// The plate that bench, small tube and load are about: the fitted one, or the best.
fn subject(case: &Case, found: &Found) -> Option<Restrictor> {
    case.rocket.restrictor.or_else(|| {
        let best = found.best_plate?;
        Some(Restrictor { hole_m: mm(best.bore_mm), holes: best.holes, height_m: mm(best.height_mm), ..case.plate })
    })
}

/// The sustainer as it stands at the release, if it comes to that.
fn at_release(study: &Study, case: &Case) -> Option<CoastState> {
    study.launch().coast(WaterMode::Free)?.at(case.delay)
}

fn restrictor(study: &Study, case: &Case, found: &Found, subject: Option<&Restrictor>) -> RestrictorAnswer {
    let summary = study.launch().plate();
    let verdict =
        summary.map_or("none", |plate| bench::word(hold::verdict(plate.bond / plate.limit, plate.trusted_share)));
    let state = at_release(study, case).filter(|_| summary.is_some());
    let holes = case.plate.holes;
    let pulls = case.deceleration > 0.0;
    let bore = |share: f64| Some(down(case.widest_hole(holes, share), 10.0)).filter(|bore| pulls && bore.is_finite());
    let bench = subject.and_then(|plate| bench::on_the_bench(case, study.design(), plate));
    RestrictorAnswer {
        verdict,
        bond: summary.map(|plate| plate.bond),
        limit: hold::limit(holes),
        leak_l: state.map_or(0.0, |state| state.leaked * 1e3),
        gas_at_nozzle_l: state.map_or(0.0, |state| study.launch().sustainer().gas_at_nozzle(&state) * 1e3),
        holes,
        height_mm: in_mm(case.plate.height_m),
        hold_bore_mm: bore(case.plate.trusted_share),
        leaks_from_mm: bore(1.0),
        window_mm: found.window,
        chokes_below_mm: found.chokes_below.map(|bore| down(bore, 10.0)),
        best_bore_mm: found.best.map(|best| best.0),
        best_apogee_m: found.best.map(|best| best.1),
        ideal_apogee_m: case.ideal,
        ballast_gain_m: case.ideal - case.settled,
        pattern: found.pattern.and_then(Result::ok).map(|pattern| PatternAnswer {
            holes: pattern.holes,
            bore_mm: in_mm(pattern.hole_m),
            apogee_m: pattern.height,
            most: pattern.most,
        }),
        best_height_mm: found.plate_height.map(|best| best.0),
        best_height_apogee_m: found.plate_height.map(|best| best.1),
        best: found.best_plate,
        bench_bore_mm: bench.map(|bench| bench.0),
        bench: bench.map(|bench| bench.1),
        load: subject.and_then(|plate| bench::loads(case, plate)),
        why_not: words::why_not(case, found),
    }
}

fn tube(case: &Case, found: &Found) -> TubeAnswer {
    let found = &found.tube;
    let best = found.best.map(|(length, _)| LaunchTube { length_m: mm(length), wall_m: found.wall_m, ..case.tube });
    let wall_m = if best.is_some() { found.wall_m } else { case.tube.wall_m };
    let stage = &case.bare.sustainer;
    TubeAnswer {
        outer_mm: in_mm(case.tube.outer_m),
        wall_mm: in_mm(wall_m),
        wall_inside_mm: found.needed.map(|wall| wall.inside_m * 1e3),
        wall_outside_mm: found.needed.map(|wall| wall.outside_m * 1e3),
        longest_length_mm: (found.longest_mm > 0.0).then(|| down(found.longest_mm * 1e-3, 1.0)),
        seated_length_mm: found.seated_mm,
        best_length_mm: found.best.map(|best| best.0),
        best_apogee_m: found.best.map(|best| best.1),
        mass_kg: best.map(|tube| tube.mass(TUBE_DENSITY)),
        mass_cost_m: best.and_then(|tube| mass_cost(case, tube.mass(TUBE_DENSITY))),
        gas_left: best.map(|tube| gas_left(&tube, stage.volume_m3, stage.water_m3)),
    }
}

/// Height that so much more mass on the booster takes from the settled ideal, m.
fn mass_cost(case: &Case, mass_kg: f64) -> Option<f64> {
    let mut rocket = case.bare;
    rocket.booster.as_mut()?.dry_kg += mass_kg;
    let loaded = height(&launch(&rocket, case.delay)?, case.delay, WaterMode::Settled)?;
    Some(case.settled - loaded.unwrap_or_else(|top| top))
}

fn choices(study: &Study, case: &Case, found: &Found, restrictor: &RestrictorAnswer) -> Vec<Choice> {
    let (bare_latest, _) = study.bare_limits();
    let add = |way: Way, apogee_m: f64, settled: f64, added_kg: f64, latest_release_s: Option<f64>| {
        let loss_share = if settled > 0.0 { 1.0 - apogee_m / settled } else { 0.0 };
        let warning = words::warning(way, case, found, restrictor, latest_release_s);
        Choice {
            choice: words::choice(way, case, found),
            way,
            apogee_m,
            loss_share,
            added_kg,
            latest_release_s,
            warning,
        }
    };
    let (settled_at_burnout, at_burnout) = case.at_burnout;
    let mut all = vec![
        add(Way::AtBurnout, at_burnout, settled_at_burnout, 0.0, bare_latest),
        add(Way::Bare, case.bare_height, case.settled, 0.0, bare_latest),
    ];
    let own = study.latest_release();
    if let Some(plate) = &case.rocket.restrictor {
        all.push(add(Way::ThisRestrictor, case.fitted_height, case.settled, plate.mass_kg, own));
    }
    if let Some(best) = &found.best_plate {
        let (mass, latest) = (case.plate.mass_kg, found.plate_latest);
        all.push(add(Way::BestRestrictor, best.apogee_m, case.settled, mass, latest));
    }
    if let Some(tube) = &case.rocket.staging_tube {
        all.push(add(Way::ThisTube, case.fitted_height, case.settled, tube.mass(TUBE_DENSITY), own));
    }
    if let Some((length, apogee)) = found.tube.best {
        let tube = LaunchTube { length_m: mm(length), wall_m: found.tube.wall_m, ..case.tube };
        all.push(add(Way::BestTube, apogee, case.settled, tube.mass(TUBE_DENSITY), found.tube_latest));
    }
    // A flight without an answer is no choice.
    all.retain(|choice| choice.apogee_m.is_finite());
    all
}
