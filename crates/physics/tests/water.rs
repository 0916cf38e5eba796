//! Water: density, surface tension, viscosity, vapour pressure.

mod common;

use common::{close, close_share, number, properties, rows};
use holdwater_physics::constants::CELSIUS_ZERO_K;
use holdwater_physics::water::{Water, density, surface_tension, vapour_pressure, viscosity};

#[test]
fn published_surface_tension_of_the_iapws_table() {
    // IAPWS R1-76(2014), table 1, in mN/m. From memory; an installed library returns the same digits.
    let table =
        [(0.01, 75.65), (10.0, 74.22), (20.0, 72.74), (25.0, 71.97), (30.0, 71.19), (40.0, 69.60), (50.0, 67.94)];
    for (celsius, millinewton) in table {
        // Half a unit of the last digit.
        close("mN/m", surface_tension(celsius + CELSIUS_ZERO_K) * 1e3, millinewton, 0.005);
    }
    // iapws 1.5.5 documents these two values of R1-76(2014), ten digits.
    close("300 K", surface_tension(300.0), 0.071_685_962_5, 5e-11);
    close("450 K", surface_tension(450.0), 0.042_891_499_2, 5e-11);
}

#[test]
fn published_viscosity_at_20_celsius() {
    // ISO/TR 3666:1998, the calibration point of all viscometers: 1.0016 mPa s at 20 C. From memory.
    // The short form claims 2.5 %; at the temperatures of a launch it is within 1 %.
    close_share("20 C", viscosity(293.15), 1.0016e-3, 0.01);
}

#[test]
fn tool_two_libraries_give_the_same_water() {
    let table = properties();
    assert_eq!(rows(&table["water"]).len(), 10, "the table has shrunk");
    for row in rows(&table["water"]) {
        let kelvin = number(row, "celsius") + CELSIUS_ZERO_K;
        // Kell's formula is on the temperature scale of 1968 and of its own time's water: 5 g/m3.
        close("density", density(kelvin), number(row, "density_kg_m3"), 0.005);
        // The table has ten decimals.
        close("tension", surface_tension(kelvin), number(row, "tension_n_m"), 5e-11);
        // What the short forms claim.
        close_share("viscosity", viscosity(kelvin), number(row, "viscosity_pa_s"), 0.025);
        close_share("vapour", vapour_pressure(kelvin), number(row, "vapour_pressure_pa"), 1e-3);
    }
}

#[test]
fn limit_a_given_surface_tension_replaces_that_of_clean_water_and_nothing_else() {
    let clean = Water::at(289.15, None);
    let soapy = Water::at(289.15, Some(0.030));
    close("clean", clean.surface_tension, surface_tension(289.15), 0.0);
    assert_eq!(soapy, Water { surface_tension: 0.030, ..clean });
}
