//! Our flights against the rows of a table that an independent integration wrote.

#![allow(clippy::expect_used, reason = "a panic is how a test fails")]

use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use holdwater_design::{Design, Input};
use holdwater_physics::error::FlightError;
use holdwater_physics::flight::{Happening, Launch, WaterMode};
use holdwater_physics::solver::Effort;
use serde_json::Value;

/// Largest difference allowed in height, m. The reference is good to 1e-4 m; our own tolerance of 1e-10 leaves millimetres.
const HEIGHT: f64 = 0.005;
/// Largest difference allowed in time, s.
const TIME: f64 = 2e-4;
/// Largest difference allowed in speed, m/s.
const SPEED: f64 = 5e-3;
/// Largest difference allowed in shares.
const SHARE: f64 = 1e-4;

struct Compare {
    name: String,
    differences: String,
}

impl Compare {
    fn close(&mut self, what: &str, ours: f64, theirs: &Value, tolerance: f64) {
        let Some(theirs) = theirs.as_f64() else {
            return;
        };
        let difference = (ours - theirs).abs();
        if difference.is_nan() || difference > tolerance {
            let _ = writeln!(self.differences, "{}: {what} {ours} here, {theirs} in the table", self.name);
        }
    }
}

fn design(overrides: &Value) -> Design {
    let mut design = Design::default();
    for (key, value) in overrides.as_object().into_iter().flatten() {
        let input = Input::from_key(key).unwrap_or_else(|| panic!("the table has an unknown key {key}"));
        design.set(input, value.as_f64()).unwrap_or_else(|complaint| panic!("{complaint}"));
    }
    design
}

/// Compares one row; the differences in words, or nothing.
fn compare(row: &Value) -> String {
    let mode = if row["mode"] == "settled" { WaterMode::Settled } else { WaterMode::Free };
    let mut compare = Compare { name: format!("{} ({})", row["name"], row["mode"]), differences: String::new() };
    let results = &row["results"];
    let design = design(&row["overrides"]);
    let delay = design.number(Input::Delay);
    let launch = match Launch::new(&design.rocket(), Input::Delay.row().max, 0, Effort::REFERENCE) {
        Ok(launch) => launch,
        Err(error) => return format!("{}: {error:?}\n", compare.name),
    };
    if let Some(coast) = launch.coast(mode) {
        compare.close("burnout t", coast.burnout.0, &results["burnout"]["t"], TIME);
        compare.close("burnout h", coast.burnout.1, &results["burnout"]["h"], HEIGHT);
        compare.close("burnout v", coast.burnout.2, &results["burnout"]["v"], SPEED);
        let deceleration = coast.at(0.0).map_or(f64::NAN, |state| state.deceleration);
        compare.close("deceleration", deceleration, &results["coast_decel"], 1e-3);
    }
    if mode == WaterMode::Free {
        assert_eq!(launch.uncovers().is_none(), results["uncovers_s"].is_null(), "{}", compare.name);
        compare.close("uncovers", launch.uncovers().unwrap_or(f64::NAN), &results["uncovers_s"], TIME);
    }
    match launch.log(delay, mode) {
        Ok((flight, log)) => {
            let sustainer = &flight.sustainer;
            compare.close("apogee", sustainer.apogee.1, &results["apogee_m"], HEIGHT);
            compare.close("apogee t", sustainer.apogee.0, &results["apogee_t"], 1e-3);
            compare.close("gas lost", sustainer.gas_lost, &results["gas_lost"], SHARE);
            assert_eq!(Some(sustainer.dud), results["dud"].as_bool(), "{}", compare.name);
            let start = flight.release.map_or(0.0, |state| state.t);
            if let Some(state) = flight.release.filter(|_| mode == WaterMode::Free) {
                let theirs = &results["release"];
                compare.close("finger", state.finger, &theirs["finger_m"], 2e-5);
                compare.close("lifted", state.lifted, &theirs["lifted_m3"], 2e-7);
                if state.lifted > 0.0 {
                    compare.close("parcel", state.lifted_height, &theirs["parcel_m"], 2e-4);
                    compare.close("its speed", state.lifted_speed, &theirs["parcel_mps"], 2e-3);
                }
                compare.close("dip", launch.sustainer().dip(&state), &theirs["dip_m"], 2e-5);
                assert_eq!(Some(sustainer.covered), theirs["covered"].as_bool(), "{}", compare.name);
                let theirs = &results["plate"];
                compare.close("leaked", state.leaked, &theirs["leaked_m3"], 1e-8);
                compare.close(
                    "gas below the plate",
                    launch.sustainer().gas_at_nozzle(&state),
                    &theirs["gas_at_nozzle_m3"],
                    2e-7,
                );
                let bond = launch.plate().map_or(f64::NAN, |plate| plate.bond);
                compare.close("Bond number", bond, &theirs["bond_burnout"], 1e-3);
                assert_eq!(theirs["wetted"].as_bool().unwrap_or(false), state.wetted, "{}", compare.name);
            }
            if let Some(gone) = sustainer.water_gone_t {
                compare.close("water", gone - start, &results["sustainer"]["water_s"], TIME);
                compare.close("gas pulse", sustainer.burnout.0 - gone, &results["sustainer"]["gas_s"], 5e-4);
            }
            compare.close("burnout speed", sustainer.burnout.1, &results["sustainer"]["v_burnout"], SPEED);
            assert!(log.events.iter().any(|event| event.what == Happening::Apogee));
        }
        Err(FlightError::StackHasFallen { height_m, .. }) => {
            compare.close("top of the stack", height_m, &results["apogee_m"], HEIGHT);
        }
        Err(error) => return format!("{}: {error:?}\n", compare.name),
    }
    compare.differences
}

/// Flies every row of a table of the reference folder, which has at least so many.
pub fn compare_all(file: &str, at_least: usize) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/reference").join(file);
    let text = fs::read_to_string(path).expect("the reference table is part of the project");
    let table: Value = serde_json::from_str(&text).expect("the reference table is JSON");
    let rows = table["rows"].as_array().expect("the reference table has rows");
    assert!(rows.len() >= at_least, "the reference table has shrunk");
    let differences: String = rows.iter().map(compare).collect();
    assert!(differences.is_empty(), "\n{differences}");
}
