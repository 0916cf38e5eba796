//! Plates at the edges, where the answer is known without one.

#![allow(clippy::disallowed_methods, reason = "expected values come from other functions than the crate's own")]
#![allow(clippy::unwrap_used, reason = "a panic is how a test fails")]

mod common;

use common::{apogee, booster, close, close_share, launch, single, stack};
use holdwater_physics::check::refusals;
use holdwater_physics::error::Refusal;
use holdwater_physics::flight::{Launch, WaterMode};
use holdwater_physics::rocket::{LaunchTube, Restrictor, Rocket};

/// The stack of these tests: one that slows hard.
fn draggy() -> Rocket {
    let mut rocket = stack();
    booster(&mut rocket).drag_coefficient = 0.7;
    rocket
}

/// That stack with a plate as far above its water as given.
fn with_plate(hole_m: f64, holes: u32, over_water_m: f64) -> Rocket {
    let rocket = draggy();
    let height_m = rocket.sustainer.standing_height() + over_water_m;
    let plate = Restrictor { hole_m, holes, height_m, discharge: None, trusted_share: 0.5, mass_kg: 0.012 };
    Rocket { restrictor: Some(plate), ..rocket }
}

/// The same rocket without plate, its mass kept.
fn as_heavy(rocket: &Rocket) -> Rocket {
    let mut bare = rocket.bare();
    bare.sustainer.dry_kg += rocket.restrictor.map_or(0.0, |plate| plate.mass_kg);
    bare
}

#[test]
fn limit_many_small_holes_over_a_full_compartment_are_the_settled_ideal_of_equal_mass() {
    let rocket = with_plate(0.010, 40, 0.0);
    let (plated, ideal) = (launch(&rocket), launch(&as_heavy(&rocket)));
    let summary = plated.plate().unwrap();
    assert!(summary.open_share == 0.0 && summary.bond < 0.5 * summary.limit, "{summary:?}");
    // Half the bore is open: it takes 5 Pa while water flows and 180 Pa of 700 kPa at the start of the gas pulse.
    for delay in [0.0, 0.3, 0.6, 1.0, 2.0] {
        let (held, settled) = (apogee(&plated, delay, WaterMode::Free), apogee(&ideal, delay, WaterMode::Settled));
        close("height", held, settled, 0.01);
        close("height", held, apogee(&plated, delay, WaterMode::Settled), 1e-6);
        assert!(held < settled, "the holes take something");
    }
    assert_eq!((plated.uncovers(), plated.latest_release(0.01)), (None, None));
}

#[test]
fn limit_a_plate_that_water_has_not_met_is_a_bare_vessel() {
    // At the nose, and nearly as wide as the bore: the flight is that of the bare vessel until the water lands.
    let mut rocket = with_plate(0.0875, 1, 0.0);
    let plate = rocket.restrictor.as_mut().unwrap();
    plate.height_m = rocket.sustainer.vessel_length();
    let (plated, bare) = (launch(&rocket), launch(&as_heavy(&rocket)));
    let (ours, theirs) = (plated.coast(WaterMode::Free).unwrap(), bare.coast(WaterMode::Free).unwrap());
    let (landing, nose) = (ours.at_plate.unwrap(), theirs.at_nose.unwrap());
    close("landing", landing.0, nose.0, 1e-7);
    close("speed after it", landing.2, nose.2, 1e-6);
    close_share("uncovers", plated.uncovers().unwrap(), bare.uncovers().unwrap(), 1e-6);
    for delay in [0.0, 0.1, 0.25, 0.28, 0.3, 0.4] {
        assert!(delay < landing.0 - ours.burnout.0);
        // A nearly open plate takes a pascal.
        close("height", apogee(&plated, delay, WaterMode::Free), apogee(&bare, delay, WaterMode::Free), 0.003);
    }
}

#[test]
fn limit_a_gap_of_nothing_is_a_flush_plate() {
    for hole_m in [0.019, 0.030] {
        let flush = launch(&with_plate(hole_m, 1, 0.0));
        for over_water_m in [2e-6, -2e-6] {
            let nearly = launch(&with_plate(hole_m, 1, over_water_m));
            for delay in [0.3, 1.0, 2.0] {
                // Two micrometres of water or gas, and the few milliseconds until water meets the plate.
                let (ours, theirs) = (apogee(&nearly, delay, WaterMode::Free), apogee(&flush, delay, WaterMode::Free));
                close("height", ours, theirs, 0.05);
            }
        }
    }
}

#[test]
fn limit_a_wider_bore_never_leaks_less() {
    for trusted_share in [0.3, 0.5, 0.9] {
        for over_water_m in [0.0, 0.004, -0.02] {
            let mut before = [0.0; 4];
            for hole_mm in [8, 12, 16, 18, 20, 24, 30, 40, 60, 85] {
                let mut rocket = with_plate(f64::from(hole_mm) * 1e-3, 1, over_water_m);
                rocket.restrictor.as_mut().unwrap().trusted_share = trusted_share;
                let launch = launch(&rocket);
                for (delay, before) in [0.1, 0.4, 1.0, 2.0].into_iter().zip(&mut before) {
                    let leaked = launch.coast(WaterMode::Free).unwrap().at(delay).unwrap().leaked;
                    assert!(leaked >= *before, "{hole_mm} mm leaks {leaked} at {delay} s, a smaller hole {before}");
                    *before = leaked;
                }
            }
        }
    }
}

#[test]
fn limit_a_tighter_trust_never_leaks_less_and_full_trust_in_a_held_hole_leaks_nothing() {
    let leaked = |trusted_share: f64| {
        let mut rocket = with_plate(0.020, 1, 0.0);
        rocket.restrictor.as_mut().unwrap().trusted_share = trusted_share;
        launch(&rocket).coast(WaterMode::Free).unwrap().at(1.0).unwrap().leaked
    };
    let amounts: Vec<_> = [0.05, 0.3, 0.5, 0.7, 0.9, 1.0].into_iter().map(leaked).collect();
    assert!(amounts.windows(2).all(|pair| pair[1] <= pair[0]), "{amounts:?}");
    close("leak of a trusted hole", *amounts.last().unwrap(), 0.0, 0.0);
}

#[test]
fn limit_no_delay_is_a_settled_release() {
    for (hole_m, over_water_m) in [(0.010, 0.0), (0.019, 0.01), (0.040, -0.02)] {
        let launch = launch(&with_plate(hole_m, 1, over_water_m));
        close_share("height", apogee(&launch, 0.0, WaterMode::Free), apogee(&launch, 0.0, WaterMode::Settled), 1e-3);
    }
}

#[test]
fn limit_water_on_the_plate_costs_more_than_gas_passing_it() {
    // All water above the plate, or all of it below: water is seventy times denser than the gas.
    let mut below = with_plate(0.020, 1, 0.01);
    below.delay_s = 0.0;
    let mut above = below;
    above.restrictor.as_mut().unwrap().height_m = 0.0;
    let heights = [&above, &below, &as_heavy(&below)].map(|rocket| apogee(&launch(rocket), 0.0, WaterMode::Settled));
    assert!(heights[0] < heights[1] && heights[1] < heights[2], "{heights:?}");
    let loads = [&above, &below].map(|rocket| launch(rocket).plate().unwrap().load_at_jet_pa);
    assert!(loads[0] > 20.0 * loads[1], "{loads:?}");
}

#[test]
fn limit_a_single_stage_pays_for_its_plate_and_gains_nothing() {
    let standing = single().sustainer.standing_height();
    let plate = |hole_m, holes| Restrictor {
        hole_m,
        holes,
        height_m: standing,
        discharge: None,
        trusted_share: 0.5,
        mass_kg: 0.0,
    };
    let height = |restrictor| apogee(&launch(&Rocket { restrictor, ..single() }), 0.0, WaterMode::Free);
    let bare = height(None);
    close("wide open", height(Some(plate(0.010, 40))), bare, 0.01);
    let mut before = bare;
    for hole_m in [0.05, 0.03, 0.02, 0.01, 0.006, 0.004, 0.002] {
        let now = height(Some(plate(hole_m, 1)));
        assert!(now < before, "{hole_m}: {now} after {before}");
        before = now;
    }
    assert!(before < 0.3 * bare);
}

#[test]
fn limit_a_plate_and_a_tube_in_one_vessel_are_refused() {
    let mut rocket = with_plate(0.019, 1, 0.0);
    assert_eq!(refusals(&rocket), vec![]);
    rocket.staging_tube = Some(LaunchTube { length_m: 0.05, outer_m: 0.0085, wall_m: 1e-3 });
    assert_eq!(refusals(&rocket), vec![Refusal::PlateAndStagingTube]);
    assert!(Launch::new(&rocket, 1.0, 0, holdwater_physics::solver::Effort::PAGE).is_err());
}
