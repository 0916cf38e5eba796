//! What flights with a plate must keep: water, gas, momentum; and what no plate can do.

#![allow(clippy::disallowed_methods, reason = "expected values come from other functions than the crate's own")]
#![allow(clippy::unwrap_used, reason = "a panic is how a test fails")]

mod common;

use common::{HORIZON, booster, close, launch, stack};
use holdwater_physics::air::Atmosphere;
use holdwater_physics::constants::GAS_CONSTANT_AIR;
use holdwater_physics::flight::{Happening, Launch, Silent, WaterMode};
use holdwater_physics::rocket::{Restrictor, Rocket};
use holdwater_physics::solver::Effort;
use holdwater_physics::water;
use proptest::prelude::*;

/// A stack that slows hard, with a plate as far above its water as given.
fn with_plate(hole_m: f64, holes: u32, over_water_m: f64) -> Rocket {
    let mut rocket = stack();
    booster(&mut rocket).drag_coefficient = 0.7;
    let height_m = rocket.sustainer.standing_height() + over_water_m;
    rocket.restrictor =
        Some(Restrictor { hole_m, holes, height_m, discharge: None, trusted_share: 0.5, mass_kg: 0.012 });
    rocket
}

/// Mass of everything that flies after burnout, kg.
fn total_mass(rocket: &Rocket, booster_gas_kg: f64) -> f64 {
    let density = water::density(rocket.site.water_temperature_k);
    let pressure = Atmosphere::over_site(30.0, 291.15).at(0.0).pressure_pa + rocket.sustainer.fill_gauge_pa;
    let volume = rocket.sustainer.volume_m3 - rocket.sustainer.water_m3;
    let gas = pressure * volume / (GAS_CONSTANT_AIR * 291.15);
    let dry = rocket.booster.unwrap().dry_kg + rocket.sustainer.dry_kg + rocket.restrictor.unwrap().mass_kg;
    dry + rocket.sustainer.water_m3 * density + gas + booster_gas_kg
}

#[test]
fn conserved_momentum_when_water_lands_at_the_plate_and_at_the_nose() {
    for rocket in [with_plate(0.03, 1, 0.02), with_plate(0.04, 2, 0.004), with_plate(0.03, 1, -0.03)] {
        let launch = launch(&rocket);
        let coast = launch.coast(WaterMode::Free).unwrap();
        let density = water::density(rocket.site.water_temperature_k);
        let total = total_mass(&rocket, coast.booster_gas_kg);
        let mut landings = 0;
        for (t, _, v) in [coast.at_plate, coast.at_nose].into_iter().flatten() {
            // Half a microsecond: 5e-6 m/s of drag and weight.
            let before = coast.at(t - coast.burnout.0 - 2e-7).unwrap();
            let after = coast.at(t - coast.burnout.0 + 2e-7).unwrap();
            let parcel = density * before.lifted;
            close("momentum", total * after.v, total * before.v + parcel * before.lifted_speed, 2e-5);
            close("speed", after.v, v, 2e-5);
            // What leaks anew has had those two tenths of a microsecond to gather speed.
            assert!(after.lifted_speed < 1e-5 && before.lifted_speed > 0.1, "{before:?} {after:?}");
            landings += 1;
        }
        assert!(landings >= 1);
        assert_eq!(coast.at_plate.is_some(), launch.plate().unwrap().gap_m3 > 0.0);
    }
}

#[test]
fn conserved_water_that_leaks_is_lifted_and_as_much_gas_comes_down() {
    for rocket in [with_plate(0.03, 1, 0.0), with_plate(0.05, 1, 0.01), with_plate(0.03, 2, -0.03)] {
        let launch = launch(&rocket);
        let coast = launch.coast(WaterMode::Free).unwrap();
        let (vessel, summary) = (&launch.sustainer().vessel, launch.plate().unwrap());
        let below = 0.5e-3 - summary.above_m3;
        let mut before = 0.0;
        for step in 0..150 {
            let state = coast.at(0.015 * f64::from(step)).unwrap();
            let dug = 0.95 * vessel.area * (state.finger - 1e-3).max(0.0);
            let lifted = match (state.wetted, summary.gap_m3 > 0.0) {
                (false, _) => dug.min(summary.gap_m3),
                (true, true) => state.leaked,
                (true, false) => state.leaked + dug,
            };
            close("lifted", state.lifted, lifted, 1e-12);
            // The end of the leak is met to the tolerance of the reference.
            assert!(
                state.leaked >= before - 1e-11 && state.leaked <= below + 1e-11,
                "{} of {below} after {before}",
                state.leaked
            );
            assert!(state.lifted_height + 0.5 * state.lifted / vessel.area <= vessel.length + 1e-6);
            let gas = launch.sustainer().gas_at_nozzle(&state);
            assert!(gas >= state.leaked && gas <= state.leaked + summary.gap_m3);
            before = state.leaked;
        }
        assert!(before > 0.0);
    }
}

#[test]
fn conserved_no_more_gas_vents_than_the_plate_has_let_down() {
    // Compartments full to the plate, and so much water in them that no dip is met on the way.
    for hole_m in [0.019, 0.022, 0.03, 0.04] {
        let launch = launch(&with_plate(hole_m, 1, 0.0));
        for delay in [0.1, 0.5, 1.0, 2.0] {
            let (flight, log) = launch.log(delay, WaterMode::Free).unwrap();
            let pocket = flight.release.unwrap().leaked;
            let (share, lost) = (pocket / 1.5e-3, flight.sustainer.gas_lost);
            assert!(pocket > 0.0 && !flight.sustainer.covered && lost > 0.0 && lost <= share * (1.0 + 1e-6));
            let gone = log.events.iter().any(|event| event.what == Happening::SustainerWaterGone);
            assert!(gone && flight.sustainer.water_left == 0.0);
        }
    }
}

#[test]
fn conserved_an_emptied_compartment_leaks_no_more_than_there_is_gas_above() {
    // A vessel nearly full of water: the gas above the plate comes down, and no more.
    let mut rocket = with_plate(0.08, 1, 0.0);
    rocket.sustainer.water_m3 = 1.7e-3;
    rocket.restrictor.as_mut().unwrap().height_m = rocket.sustainer.standing_height();
    let launch = launch(&rocket);
    let coast = launch.coast(WaterMode::Free).unwrap();
    let end = coast.at(launch.longest_delay().unwrap()).unwrap();
    close("leaked", end.leaked, 0.3e-3, 1e-12);
}

/// Plates of every kind in sustainers that fly well, on stacks of every drag.
fn any_rocket() -> impl Strategy<Value = Rocket> {
    let plate = (0.02..0.99, 1_u32..60, 0.0..0.32, 0.05..1.0, 0.0..0.1, prop::option::of(0.3..1.0));
    // Not the lightest: what drag stops at once flies higher on a weaker push, and a plate weakens it.
    let stage = (0.2..1.2, 0.2e-3..1.2e-3, 5e5..1.5e6, 6e-3..0.02, 0.15..1.0);
    (plate, stage).prop_map(|((open_root, holes, height_m, trusted_share, mass_kg, discharge), stage)| {
        let (drag, water_m3, fill_gauge_pa, nozzle_m, dry_kg) = stage;
        let mut rocket = stack();
        booster(&mut rocket).drag_coefficient = drag;
        let sustainer = &mut rocket.sustainer;
        (sustainer.water_m3, sustainer.fill_gauge_pa, sustainer.nozzle_m, sustainer.dry_kg) =
            (water_m3, fill_gauge_pa, nozzle_m, dry_kg);
        let hole_m = open_root * sustainer.bore_m / f64::from(holes).sqrt();
        rocket.restrictor = Some(Restrictor { hole_m, holes, height_m, discharge, trusted_share, mass_kg });
        rocket
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn property_no_plate_beats_the_settled_ideal_of_its_mass_and_every_answer_is_finite(rocket in any_rocket()) {
        let Ok(plated) = Launch::new(&rocket, HORIZON, 0, Effort::PAGE) else { return Ok(()) };
        let mut bare = rocket.bare();
        bare.sustainer.dry_kg += rocket.restrictor.map_or(0.0, |plate| plate.mass_kg);
        let ideal = Launch::new(&bare, HORIZON, 0, Effort::PAGE).unwrap();
        for delay in [0.0, 0.2, 0.5, 1.0, 1.7] {
            let settled = ideal.fly(delay, WaterMode::Settled, &mut Silent);
            for mode in [WaterMode::Free, WaterMode::Settled] {
                let (Ok(flight), Ok(settled)) = (plated.fly(delay, mode, &mut Silent), &settled) else { continue };
                let sustainer = &flight.sustainer;
                let numbers = [sustainer.apogee.0, sustainer.apogee.1, sustainer.burnout.0, sustainer.burnout.1];
                prop_assert!(numbers.iter().all(|number| number.is_finite()));
                prop_assert!((0.0..=1.0).contains(&sustainer.gas_lost), "gas lost {}", sustainer.gas_lost);
                let (height, ideal) = (sustainer.apogee.1, settled.sustainer.apogee.1);
                // The tolerance of the page on both.
                prop_assert!(height <= ideal + 0.1 + 1e-3 * ideal, "{height} at {delay}, settled {ideal} ({mode:?})");
            }
        }
    }
}
