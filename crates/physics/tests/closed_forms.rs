//! Whole flights that have a solution on paper.

#![allow(clippy::disallowed_methods, reason = "expected values come from other functions than the crate's own")]
#![allow(clippy::unwrap_used, reason = "a panic is how a test fails")]

mod common;

use common::{booster, close, close_share, event, fly, single, stack};
use holdwater_physics::air::Atmosphere;
use holdwater_physics::constants::{GAS_CONSTANT_AIR, GRAVITY, TUBE_DENSITY};
use holdwater_physics::flight::{Happening, WaterMode};
use holdwater_physics::rocket::{LaunchTube, Rocket, circle_area};
use holdwater_physics::water;

/// Ascent against quadratic drag in air of one density: height and time from a speed v0 and a terminal speed vt.
fn quadratic_ascent(v0: f64, vt: f64) -> (f64, f64) {
    let ratio = v0 / vt;
    (vt * vt / (2.0 * GRAVITY) * (ratio * ratio).ln_1p(), vt / GRAVITY * ratio.atan())
}

/// The single stage with the drag of a ball of lead, or none.
fn with_drag(coefficient: f64) -> Rocket {
    let mut rocket = single();
    rocket.sustainer.drag_coefficient = coefficient;
    rocket
}

/// The single stage in air so hot that neither it nor the gas in the vessel has any mass; pressures are as ever.
fn without_air() -> Rocket {
    let mut rocket = with_drag(0.0);
    rocket.site.air_temperature_k = 1e12;
    rocket
}

#[test]
fn closed_form_ascent_with_quadratic_drag() {
    // The formulas against numbers worked out in Python: v0, vt, height, time.
    for (v0, vt, height, time) in [
        (30.0, 30.0, 31.806_604, 2.402_649_7),
        (50.0, 40.0, 76.762_878, 3.654_888_8),
        (40.0, 30.721_009, 47.711_023, 2.869_083_5),
    ] {
        let (h, t) = quadratic_ascent(v0, vt);
        close("height", h, height, 1e-6);
        close("time", t, time, 1e-7);
    }
    // In real air the density falls on the way up: the flight lies between the formula with the air at the bottom of the
    // ascent and with that at its top. A heavy, draggy, slow rocket keeps both close together.
    let mut rocket = with_drag(5.0);
    rocket.sustainer.fill_gauge_pa = 4e5;
    rocket.sustainer.dry_kg = 0.5;
    let (flight, log) = fly(&rocket, 0.0, WaterMode::Free);
    let start = event(&log, Happening::SustainerBurnout);
    let (top_t, top) = flight.sustainer.apogee;
    let atmosphere = Atmosphere::over_site(30.0, 291.15);
    // What is left at the end of the pulse: dry mass and the gas of the vessel, within the thousandth that it may differ.
    let gas = atmosphere.at(start.h).pressure_pa * 2e-3 / (GAS_CONSTANT_AIR * 200.0);
    let form = |height: f64, gas_kg: f64| {
        let drag = atmosphere.at(height).density * rocket.sustainer.drag_area();
        quadratic_ascent(start.v, (2.0 * (0.5 + gas_kg) * GRAVITY / drag).sqrt())
    };
    // The gas may be between the temperature of the site and 140 K after its expansion.
    let (low, high) = (form(start.h, 0.6 * gas), form(top, 1.5 * gas));
    assert!(start.v > 10.0 && high.0 / low.0 < 1.01, "{low:?} {high:?}");
    assert!(top - start.h > low.0 && top - start.h < high.0, "{low:?} {} {high:?}", top - start.h);
    assert!(top_t - start.t > low.1 && top_t - start.t < high.1, "{low:?} {} {high:?}", top_t - start.t);
}

#[test]
fn closed_form_ascent_without_drag() {
    let (flight, log) = fly(&with_drag(0.0), 0.0, WaterMode::Free);
    let start = event(&log, Happening::SustainerBurnout);
    // v^2/2g and v/g, to the tolerance of the reference (1e-10 per step of 10 m, 10 m/s).
    close("height", flight.sustainer.apogee.1 - start.h, start.v * start.v / (2.0 * GRAVITY), 1e-6);
    close("time", flight.sustainer.apogee.0 - start.t, start.v / GRAVITY, 1e-7);
}

#[test]
fn closed_form_the_rocket_equation_while_water_leaves_under_constant_pressure() {
    // Exponent 0: the pressure stays. A wide vessel has no column, a small nozzle no length to speak of.
    let mut rocket = without_air();
    rocket.site.expansion_exponent = 0.0;
    rocket.sustainer.bore_m = 10.0;
    rocket.sustainer.volume_m3 = 0.1;
    rocket.sustainer.nozzle_m = 0.004;
    rocket.sustainer.discharge = 1.0;
    for (water_m3, dry_kg, gauge) in [(1e-3, 0.5, 1e8), (0.5e-3, 0.5, 1e8), (2e-3, 1.0, 5e7)] {
        rocket.sustainer.water_m3 = water_m3;
        rocket.sustainer.dry_kg = dry_kg;
        rocket.sustainer.fill_gauge_pa = gauge;
        let (_, log) = fly(&rocket, 0.0, WaterMode::Free);
        let end = event(&log, Happening::SustainerWaterGone);
        let density = water::density(rocket.site.water_temperature_k);
        let jet = (2.0 * gauge / density).sqrt();
        let gain = jet * ((dry_kg + density * water_m3) / dry_kg).ln();
        // Weight takes g t. Left: the jet's start, which costs 2 l An (5e-8 m3) of the water, a share of 1e-4 of it at most; and
        // the air outside, thinner by h 12 Pa/m at the top, 3e-5 of the pressure at most.
        close_share("speed", end.v + GRAVITY * end.t, gain, 1e-4);
        close_share("time", end.t, water_m3 / (rocket.sustainer.nozzle_area() * jet), 2e-4);
    }
}

/// Work of a gas that expands from one volume to another, less that done on the air outside, J.
fn work(pressure: f64, ambient: f64, from: f64, to: f64, exponent: f64) -> f64 {
    let gas = pressure * from / (exponent - 1.0) * (1.0 - (from / to).powf(exponent - 1.0));
    gas - ambient * (to - from)
}

#[test]
fn closed_form_a_pad_tube_gives_the_work_of_the_gas() {
    for drag in [0.0, 0.38] {
        let mut rocket = with_drag(drag);
        let tube = LaunchTube { length_m: 0.25, outer_m: 0.0085, wall_m: 0.0 };
        rocket.pad_tube = Some(tube);
        let (flight, log) = fly(&rocket, 0.0, WaterMode::Free);
        let exit = event(&log, Happening::PadTubeExit);
        close("travel", exit.h, 0.25, 1e-7);
        let stage = &rocket.sustainer;
        let ambient = Atmosphere::over_site(30.0, 291.15).at(0.0).pressure_pa;
        let pressure = ambient + stage.fill_gauge_pa;
        let gas = pressure * 1.5e-3 / (GAS_CONSTANT_AIR * 291.15);
        let mass = stage.dry_kg + 0.5e-3 * water::density(289.15) + gas;
        let swept = tube.outer_area() * tube.length_m;
        let energy = work(pressure, ambient, 1.5e-3, 1.5e-3 + swept, 1.3) - mass * GRAVITY * 0.25;
        let speed = (2.0 * energy / mass).sqrt();
        if drag == 0.0 {
            // The air outside is thinner by 3 Pa at the top of the tube: 2e-6 of the pressure.
            close_share("speed", exit.v, speed, 2e-6);
        } else {
            // Drag can take half of what its greatest force does along the tube.
            let most = 0.5 * 1.25 * speed * speed * stage.drag_area() * 0.25 / (mass * speed);
            assert!(exit.v < speed && exit.v > speed - most, "{} {speed}", exit.v);
        }
        // The gas in the tube stays behind.
        close("gas lost", flight.sustainer.gas_lost, swept / (1.5e-3 + swept), 1e-9);
    }
}

#[test]
fn closed_form_a_staging_tube_parts_two_bodies_with_the_work_of_the_gas() {
    let mut rocket = stack();
    rocket.sustainer.drag_coefficient = 0.0;
    booster(&mut rocket).drag_coefficient = 0.0;
    let tube = LaunchTube { length_m: 0.22, outer_m: 0.0085, wall_m: 1e-3 };
    rocket.staging_tube = Some(tube);
    let (flight, log) = fly(&rocket, 1.0, WaterMode::Settled);
    let (release, exit) = (event(&log, Happening::Release), event(&log, Happening::StagingTubeExit));
    let atmosphere = Atmosphere::over_site(30.0, 291.15);
    let (swept, inside) = (tube.outer_area() * tube.length_m, circle_area(0.0065) * tube.length_m);
    let pressure = atmosphere.at(0.0).pressure_pa + 1e6;
    let space = 1.5e-3 - swept + inside;
    let gas = pressure * space / (GAS_CONSTANT_AIR * 291.15);
    let sustainer = 0.22 + 0.5e-3 * water::density(289.15) + gas;
    // The booster: dry mass, tube, and the gas that its pulse has left at the ambient pressure of a hundred metres.
    let left = common::launch(&rocket).coast(WaterMode::Settled).unwrap().booster_gas_kg;
    let spent = 0.42 + TUBE_DENSITY * (swept - inside) + left;
    let reduced = sustainer * spent / (sustainer + spent);
    let energy = work(pressure, atmosphere.at(release.h).pressure_pa, space, space + swept, 1.3);
    let apart = (2.0 * energy / reduced).sqrt();
    // Both fall alike meanwhile; the lighter one takes the larger part of the speed. The air outside changes by 20 Pa: 1e-5 of
    // the pressure.
    let expected = release.v - GRAVITY * (exit.t - release.t) + apart * reduced / sustainer;
    close("speed", exit.v - release.v, expected - release.v, 1e-5 * apart);
    close("gas lost", flight.sustainer.gas_lost, inside / (space + swept), 1e-9);
}

#[test]
fn closed_form_a_stack_without_drag_coasts_like_a_stone() {
    let mut rocket = stack();
    booster(&mut rocket).drag_coefficient = 0.0;
    let launch = common::launch(&rocket);
    let coast = launch.coast(WaterMode::Free).unwrap();
    let (t, h, v) = coast.burnout;
    for delay in [0.0, 0.3, 1.0, 2.5] {
        let state = coast.at(delay).unwrap();
        close("time", state.t, t + delay, 1e-9);
        close("height", state.h, h + v * delay - 0.5 * GRAVITY * delay * delay, 1e-6);
        close("speed", state.v, v - GRAVITY * delay, 1e-7);
    }
    let (top_t, top) = coast.top.unwrap();
    close("top", top, h + v * v / (2.0 * GRAVITY), 1e-6);
    close("time", top_t, t + v / GRAVITY, 1e-7);
}
