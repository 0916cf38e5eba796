//! What whole flights must keep: water, gas, momentum.

#![allow(clippy::disallowed_methods, reason = "expected values come from other functions than the crate's own")]
#![allow(clippy::unwrap_used, reason = "a panic is how a test fails")]

mod common;

use common::{booster, close, close_share, launch, stack};
use holdwater_physics::air::Atmosphere;
use holdwater_physics::constants::GAS_CONSTANT_AIR;
use holdwater_physics::flight::{Happening, WaterMode};
use holdwater_physics::rocket::{LaunchTube, Rocket};
use holdwater_physics::water;

#[test]
fn conserved_gas_of_the_booster_from_the_pad_to_the_end_of_its_thrust() {
    let tube = LaunchTube { length_m: 0.2, outer_m: 0.0205, wall_m: 0.0 };
    for (exponent, nozzle_m, pad_tube) in [(1.0, 0.0215, None), (1.3, 0.0215, Some(tube)), (1.4, 0.030, Some(tube))] {
        let mut rocket = Rocket { pad_tube, ..stack() };
        rocket.site.expansion_exponent = exponent;
        booster(&mut rocket).nozzle_m = nozzle_m;
        let launch = launch(&rocket);
        let coast = launch.coast(WaterMode::Settled).unwrap();
        let atmosphere = Atmosphere::over_site(30.0, 291.15);
        let full_pa = atmosphere.at(0.0).pressure_pa + 1e6;
        let full_kg = full_pa * 5.1e-3 / (GAS_CONSTANT_AIR * 291.15);
        // Along the tube p V^n, at its end the gas inside it stays behind; while water leaves p V^n again, up to the full volume;
        // then p/m^gamma; at the end the pressure of the air there.
        let swept = pad_tube.map_or(0.0, |tube| tube.outer_area() * tube.length_m);
        let kept = 1.0 - swept / (5.1e-3 + swept);
        let along_tube = (5.1e-3 / (5.1e-3 + swept)).powf(exponent);
        let after_water = full_pa * along_tube * (5.1_f64 / 7.5).powf(exponent);
        let end_pa = 1.0001 * atmosphere.at(coast.burnout.1).pressure_pa;
        let left = full_kg * kept * (end_pa / after_water).powf(1.0 / 1.4);
        // The tolerance of the reference, added up over the steps.
        close_share("gas left", coast.booster_gas_kg, left, 1e-6);
    }
}

#[test]
fn conserved_momentum_when_the_water_lands_at_the_nose() {
    for disturbance_m in [1e-3, 3e-3] {
        let mut rocket = stack();
        rocket.disturbance_m = disturbance_m;
        let launch = launch(&rocket);
        let coast = launch.coast(WaterMode::Free).unwrap();
        let (t, _, v) = coast.at_nose.expect("the water reaches the nose");
        let before = coast.at(t - coast.burnout.0 - 1e-7).unwrap();
        let after = coast.at(t - coast.burnout.0 + 1e-7).unwrap();
        assert!(!before.at_nose && after.at_nose && before.lifted > 1e-4 && before.lifted_speed > 0.5);
        // Everything that flies: dry masses, water, gas of the sustainer, what is left of the booster's.
        let density = water::density(289.15);
        let pressure = Atmosphere::over_site(30.0, 291.15).at(0.0).pressure_pa + 1e6;
        let gas = pressure * 1.5e-3 / (GAS_CONSTANT_AIR * 291.15);
        let total = 0.42 + 0.22 + 0.5e-3 * density + gas + coast.booster_gas_kg;
        let parcel = density * before.lifted;
        // A tenth of a microsecond of weight and drag between the two looks: 3e-6 m/s.
        close("momentum", total * after.v, total * before.v + parcel * before.lifted_speed, 1e-5);
        close("speed", after.v, v, 1e-5);
        assert!(after.lifted_speed == 0.0);
    }
}

#[test]
fn conserved_water_is_seated_lifted_or_gone_and_no_gas_is_made() {
    let launch = launch(&stack());
    let coast = launch.coast(WaterMode::Free).unwrap();
    let vessel = &launch.sustainer().vessel;
    let mut before = (0.0, 0.0);
    for step in 0..200 {
        let state = coast.at(0.013 * f64::from(step)).unwrap();
        // The finger digs out 0.95 of what it passes; neither goes back.
        close("lifted", state.lifted, 0.95 * vessel.area * (state.finger - 1e-3), 1e-9);
        assert!(state.lifted >= before.0 && state.finger >= before.1);
        assert!(state.lifted <= 0.5e-3 && state.finger <= vessel.standing * (1.0 + 1e-12));
        assert!(state.lifted_height <= vessel.length && state.lifted_height >= vessel.standing - 1e-12);
        before = (state.lifted, state.finger);
    }
    for step in 0..60 {
        let (flight, log) = launch.log(0.04 * f64::from(step), WaterMode::Free).unwrap();
        let sustainer = &flight.sustainer;
        assert!((0.0..=1.0).contains(&sustainer.gas_lost), "{}", sustainer.gas_lost);
        // All the water leaves, or the stage says that it was a dud and how much it kept.
        let gone = log.events.iter().any(|event| event.what == Happening::SustainerWaterGone);
        assert_eq!(gone, sustainer.water_gone_t.is_some());
        close("kept", sustainer.water_left, if gone { 0.0 } else { 0.5e-3 }, 1e-9);
        assert_eq!(sustainer.dud, !gone);
    }
}
