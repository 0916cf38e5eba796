//! The plate's formulas against published libraries.

mod common;

use std::fs;
use std::path::Path;

use common::{close_share, nozzle_flow, number, orifice_flow, rows};
use holdwater_physics::restrictor::hold::{ONE_HOLE_LIMIT, SEVERAL_HOLES_LIMIT, bond};
use holdwater_physics::restrictor::pressure_loss::{
    air_viscosity, permanent_loss_share, reader_harris_gallagher, resistance,
};
use holdwater_physics::restrictor::series::Throttle;
use holdwater_physics::rocket::circle_area;
use serde_json::Value;

/// The table that libraries gave (see `tests/reference/README.md`).
fn reference() -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/reference/restrictor.json");
    let text = fs::read_to_string(path).unwrap_or_default();
    serde_json::from_str(&text).unwrap_or_default()
}

#[test]
fn tool_bond_numbers_and_limits_of_libraries() {
    let table = reference();
    close_share("one", ONE_HOLE_LIMIT, number(&table["limits"], "one_hole"), 1e-13);
    close_share("several", SEVERAL_HOLES_LIMIT, number(&table["limits"], "several_holes"), 1e-13);
    assert_eq!(rows(&table["bond"]).len(), 12, "the table has shrunk");
    for row in rows(&table["bond"]) {
        let ours = bond(998.2, number(row, "deceleration"), number(row, "hole_m"), 0.072_74);
        close_share("Bo", ours, number(row, "bond"), 1e-12);
    }
}

#[test]
fn tool_a_library_computes_the_same_orifices() {
    let table = reference();
    assert_eq!(rows(&table["orifices"]).len(), 168, "the table has shrunk");
    for row in rows(&table["orifices"]) {
        let [bore, b, re] = ["bore_m", "beta", "reynolds"].map(|key| number(row, key));
        let c = reader_harris_gallagher(b, re, bore);
        // The library's tap terms cancel to 1e-17 only, and powers differ in the last digits.
        close_share("C", c, number(row, "discharge"), 1e-12);
        close_share("share", permanent_loss_share(b, c), number(row, "loss_share"), 1e-12);
        let area = circle_area(bore);
        close_share("K", resistance(c, b * b * area, area) * area * area, number(row, "k_on_bore"), 1e-11);
    }
    for row in rows(&table["air_viscosity"]) {
        // The library's atmosphere has the constants of 1976 to six digits.
        close_share("viscosity", air_viscosity(number(row, "t_k")), number(row, "viscosity_pa_s"), 1e-6);
    }
}

#[test]
fn tool_libraries_find_the_same_pressures() {
    let table = reference();
    for row in rows(&table["flow_function"]) {
        // The library's own difference of powers loses three digits near 1.
        let ratio = number(row, "ratio");
        close_share("Psi", nozzle_flow(ratio), number(row, "psi"), 1e-12);
        close_share("Psi", orifice_flow(ratio), number(row, "psi"), 1e-12);
    }
    assert_eq!(rows(&table["series"]).len(), 96, "the table has shrunk");
    for row in rows(&table["series"]) {
        let throttle = Throttle::new(1.0, number(row, "nozzle_over_holes"));
        close_share("share", throttle.share(1.0 / number(row, "ambient_ratio")), number(row, "share"), 2e-12);
    }
}
