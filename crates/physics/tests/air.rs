//! The air above the site.

mod common;

use common::{close, close_share, number, properties, rows};
use holdwater_physics::air::{Atmosphere, standard_pressure, standard_temperature};
use holdwater_physics::constants::{GAS_CONSTANT_AIR, GRAVITY};

/// Geopotential height of a geometric height: H = r0 Z/(r0 + Z), r0 = 6 356 766 m.
fn geopotential(geometric_m: f64) -> f64 {
    6_356_766.0 * geometric_m / (6_356_766.0 + geometric_m)
}

#[test]
fn published_standard_atmosphere_rows_by_geometric_height() {
    // US Standard Atmosphere 1976, table I: geometric height, K, Pa, kg/m3. From memory, as printed with five digits.
    let table = [
        (0.0, 288.150, 101_325.0, 1.2250),
        (1000.0, 281.651, 89_876.0, 1.1117),
        (2000.0, 275.154, 79_501.0, 1.0066),
        (3000.0, 268.659, 70_121.0, 0.909_25),
    ];
    for (height_m, temperature_k, pressure_pa, density) in table {
        let air = Atmosphere::over_site(0.0, 288.15).at(geopotential(height_m));
        // Half a unit of the last digit of each column.
        close("temperature", air.temperature_k, temperature_k, 5e-4);
        close("pressure", air.pressure_pa, pressure_pa, 0.5);
        close("density", air.density, density, if density < 1.0 { 5e-6 } else { 5e-5 });
    }
}

#[test]
fn published_pressure_at_the_foot_and_the_top_of_the_isothermal_layer() {
    // US Standard Atmosphere 1976, bases of the layers at 11 and 20 km geopotential: 22 632.06 and 5474.889 Pa. From memory.
    // The exponent of the pressure law, 5.25588 as ISO 2533 prints it, is rounded to 1e-6: at 11 km that is worth 3e-7
    // of the pressure, and the gas constant of six digits as much again above it.
    close_share("11 km", standard_pressure(11_000.0), 22_632.06, 1e-6);
    close_share("20 km", standard_pressure(20_000.0), 5474.889, 2e-6);
    close("temperature", standard_temperature(20_000.0), 216.65, 1e-9);
}

#[test]
fn tool_two_libraries_give_the_same_standard_atmosphere() {
    let table = properties();
    assert_eq!(rows(&table["atmosphere"]).len(), 13, "the table has shrunk");
    for row in rows(&table["atmosphere"]) {
        let height_m = number(row, "geopotential_m");
        let air = Atmosphere::over_site(0.0, 288.15).at(height_m);
        close("temperature", air.temperature_k, number(row, "t_k"), 1e-9);
        // The two libraries differ by 1.1e-6 among themselves: rounded constants of the standard.
        close_share("pressure", air.pressure_pa, number(row, "p_pa"), 1.2e-6);
        close_share("pressure", air.pressure_pa, number(row, "ambiance_p_pa"), 1.2e-6);
        close_share("density", air.density, number(row, "rho_kg_m3"), 2e-6);
        // The gas constant enters as its root.
        close_share("speed of sound", air.speed_of_sound(), number(row, "sound_m_s"), 1e-6);
    }
}

#[test]
fn closed_form_pressure_and_density_obey_hydrostatics() {
    let atmosphere = Atmosphere::over_site(0.0, 288.15);
    for height_m in [-400.0, 0.0, 1500.0, 9000.0, 10_999.0, 12_000.0] {
        let air = atmosphere.at(height_m);
        // Central difference over 2 m: its own error is (1 m / 8 km)^2 / 6.
        let slope = 0.5 * (standard_pressure(height_m + 1.0) - standard_pressure(height_m - 1.0));
        if (height_m - 10_999.0).abs() > 2.0 {
            close_share("dp/dh", slope, -air.density * GRAVITY, 1e-6);
        }
        close_share("stated dp/dh", atmosphere.pressure_gradient(&air), -air.density * GRAVITY, 1e-12);
    }
}

#[test]
fn limit_a_standard_day_has_no_offset_and_a_hot_day_changes_density_only() {
    let standard = Atmosphere::over_site(1000.0, 281.65);
    let hot = Atmosphere::over_site(1000.0, 281.65 + 20.0);
    for height_m in [0.0, 250.0, 2000.0] {
        let (cold, warm) = (standard.at(height_m), hot.at(height_m));
        close("no offset", cold.temperature_k, standard_temperature(1000.0 + height_m), 1e-9);
        close("same pressure", warm.pressure_pa, cold.pressure_pa, 0.0);
        close("kept offset", warm.temperature_k - cold.temperature_k, 20.0, 1e-9);
        let ideal = warm.pressure_pa / (GAS_CONSTANT_AIR * warm.temperature_k);
        close_share("ideal gas", warm.density, ideal, 1e-12);
        assert!(warm.density < cold.density);
        assert!(hot.pressure_gradient(&warm) < 0.0);
    }
}
