//! What several test files need: rockets to fly, tables to read, and one way to say "close".

#![allow(
    dead_code,
    clippy::expect_used,
    reason = "every test file uses its own part of this one, and a panic is how a test fails"
)]

use std::fs;
use std::path::Path;

use holdwater_physics::constants::{GAMMA, GAS_CONSTANT_AIR};
use holdwater_physics::flight::{Event, Flight, Happening, Launch, Log, WaterMode};
use holdwater_physics::gas::{CRITICAL_RATIO, choked_flow, open_flow};
use holdwater_physics::real::{exp_m1, ln};
use holdwater_physics::rocket::{Rocket, Site, Stage};
use holdwater_physics::solver::Effort;
use serde_json::Value;

/// Longest delay the tests ask for, s.
pub const HORIZON: f64 = 15.0;

/// Fails unless two numbers differ by no more than a tolerance; not a number differs from everything.
#[track_caller]
pub fn close(what: &str, ours: f64, theirs: f64, tolerance: f64) {
    let difference = (ours - theirs).abs();
    assert!(difference <= tolerance, "{what}: {ours} is {difference:e} from {theirs}, allowed {tolerance:e}");
}

/// The same with a tolerance that is a share of the number expected.
#[track_caller]
pub fn close_share(what: &str, ours: f64, theirs: f64, share: f64) {
    close(what, ours, theirs, share * theirs.abs());
}

/// A two-stage rocket of bottles, much like the one the page starts with.
pub fn stack() -> Rocket {
    Rocket {
        site: Site {
            elevation_m: 30.0,
            air_temperature_k: 291.15,
            water_temperature_k: 289.15,
            surface_tension_n_m: None,
            expansion_exponent: 1.3,
        },
        booster: Some(Stage {
            volume_m3: 7.5e-3,
            bore_m: 0.105,
            nozzle_m: 0.0215,
            sets: 1,
            discharge: 0.97,
            water_m3: 2.4e-3,
            fill_gauge_pa: 1e6,
            dry_kg: 0.42,
            drag_coefficient: 0.45,
            reference_m: 0.110,
        }),
        sustainer: Stage {
            volume_m3: 2e-3,
            bore_m: 0.088,
            nozzle_m: 0.009,
            sets: 1,
            discharge: 0.97,
            water_m3: 0.5e-3,
            fill_gauge_pa: 1e6,
            dry_kg: 0.22,
            drag_coefficient: 0.38,
            reference_m: 0.092,
        },
        pad_tube: None,
        staging_tube: None,
        restrictor: None,
        delay_s: 1.0,
        disturbance_m: 1e-3,
    }
}

/// The sustainer of [`stack`] on its own.
pub fn single() -> Rocket {
    Rocket { booster: None, ..stack() }
}

/// The booster of a rocket that has one.
#[track_caller]
pub fn booster(rocket: &mut Rocket) -> &mut Stage {
    rocket.booster.as_mut().expect("this rocket has a booster")
}

/// Boost and coast of a rocket, as exactly as it goes.
#[track_caller]
pub fn launch(rocket: &Rocket) -> Launch {
    Launch::new(rocket, HORIZON, 0, Effort::REFERENCE).expect("this rocket flies")
}

/// A whole flight with its events.
#[track_caller]
pub fn fly(rocket: &Rocket, delay: f64, mode: WaterMode) -> (Flight, Log) {
    launch(rocket).log(delay, mode).expect("this rocket flies")
}

/// Height of the top at a delay, m.
#[track_caller]
pub fn apogee(launch: &Launch, delay: f64, mode: WaterMode) -> f64 {
    launch.log(delay, mode).expect("this rocket flies").0.sustainer.apogee.1
}

/// The first event of a kind.
#[track_caller]
pub fn event(log: &Log, what: Happening) -> Event {
    *log.events.iter().find(|event| event.what == what).expect("this happens in this flight")
}

/// Mass flow of an isentropic orifice per area p/sqrt(R T) at a ratio of pressures (NACA Report 1135), written with powers of that ratio,
/// as the crate does nowhere.
#[allow(clippy::disallowed_methods, reason = "an expected value comes from other functions than the crate's own")]
pub fn orifice_flow(ratio: f64) -> f64 {
    let r = ratio.max((2.0 / (GAMMA + 1.0)).powf(GAMMA / (GAMMA - 1.0)));
    // 1 - r^((gamma-1)/gamma) without the loss of its digits.
    let spent = -(r.ln() * (GAMMA - 1.0) / GAMMA).exp_m1();
    r.powf(1.0 / GAMMA) * (2.0 * GAMMA / (GAMMA - 1.0) * spent).sqrt()
}

/// Mass flow per area p/sqrt(R T) of the nozzle that the flight uses, at a ratio of pressures.
pub fn nozzle_flow(ratio: f64) -> f64 {
    let (pressure, kelvin, area) = (8e5, 250.0, 6e-5);
    let flow = if ratio <= CRITICAL_RATIO {
        choked_flow(pressure, kelvin, ratio * pressure, area)
    } else {
        // Exactly as the blow-down says it: from the exit speed.
        let spent = -exp_m1(ln(ratio) * (GAMMA - 1.0) / GAMMA);
        let speed = (2.0 * GAMMA / (GAMMA - 1.0) * GAS_CONSTANT_AIR * kelvin * spent).sqrt();
        open_flow(speed, kelvin * (1.0 - spent), ratio * pressure, area)
    };
    flow.mass_flow / (area * pressure) * (GAS_CONSTANT_AIR * kelvin).sqrt()
}

/// The table of properties that published libraries gave (see `tests/reference/README.md`).
pub fn properties() -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/reference/properties.json");
    let text = fs::read_to_string(path).expect("the reference table is part of the project");
    serde_json::from_str(&text).expect("the reference table is JSON")
}

/// The rows of one part of that table.
pub fn rows(table: &Value) -> &[Value] {
    table["rows"].as_array().expect("the table has rows")
}

/// A number of one row.
#[track_caller]
pub fn number(row: &Value, key: &str) -> f64 {
    row[key].as_f64().expect("the row has this number")
}
