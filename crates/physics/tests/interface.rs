//! The water's surface when the vessel slows.

#![allow(clippy::disallowed_methods, reason = "expected values come from other functions than the crate's own")]

mod common;

use common::{close, close_share};
use core::f64::consts::PI;
use holdwater_physics::interface::{BARE_LIMIT, FIRST_MODE, bond, growth_rate, growth_rate_at};

const GRAVITY: f64 = 9.806_65;
const DENSITY: f64 = 998.2;
const TENSION: f64 = 0.072_74;
/// First axisymmetric mode of a round vessel: first zero of J1.
const AXISYMMETRIC: f64 = 3.831_705_970_207_512;

/// The same with the gas above taken along, as in Chandrasekhar 1961, ch. X.
fn with_gas(k: f64, depth_m: f64, acceleration: f64, gas_density: f64) -> f64 {
    let coth = 1.0 / (k * depth_m).tanh();
    let drive = (DENSITY - gas_density) * acceleration - TENSION * k * k;
    (k * drive / ((DENSITY + gas_density) * coth)).max(0.0).sqrt()
}

#[test]
fn published_zero_of_the_bessel_derivative() {
    // Abramowitz & Stegun, table 9.5: j'(1,1) = 1.84118, from memory; half a unit of the last digit.
    close("j'", FIRST_MODE, 1.841_18, 5e-6);
    close("Bond", BARE_LIMIT, FIRST_MODE * FIRST_MODE, 1e-12);
}

#[test]
fn published_bare_vessels_hold_water_up_to_ten_millimetres() {
    // Extrand 2017, Langmuir 33, 12903, abstract (read): tubes open below keep water up to a critical diameter of 10 to 15 mm.
    // The limit of a surface free to slide is the least favourable one, so it must lie at the lower end: within 1 mm.
    let limit_m = 2.0 * FIRST_MODE * (0.072 / (998.0 * GRAVITY)).sqrt();
    close("critical diameter", limit_m, 0.010, 0.001);
    // The growth rate changes from nought to more exactly there.
    let radius_m = FIRST_MODE * (TENSION / (DENSITY * GRAVITY)).sqrt();
    close("Bond number there", bond(DENSITY, GRAVITY, radius_m, TENSION), BARE_LIMIT, 1e-9);
    close("held", growth_rate(GRAVITY, 0.2, 0.999 * radius_m, TENSION, DENSITY), 0.0, 0.0);
    assert!(growth_rate(GRAVITY, 0.2, 1.001 * radius_m, TENSION, DENSITY) > 0.0);
}

#[test]
fn closed_form_growth_rates_with_the_gas_left_out() {
    // The formula with a gas of 1.2 kg/m3, worked out in Python with doubles: mode, radius, depth, 1/s with four decimals.
    let table = [
        (FIRST_MODE, 0.0085, 10.0, 37.1402),
        (AXISYMMETRIC, 0.011, 10.0, 18.2068),
        (FIRST_MODE, 0.0205, 10.0, 28.7389),
        (FIRST_MODE, 0.0205, 0.05, 28.7353),
        (FIRST_MODE, 0.045, 10.0, 19.8820),
        (FIRST_MODE, 0.045, 0.05, 19.5524),
        (AXISYMMETRIC, 0.045, 10.0, 28.0729),
    ];
    for (mode, radius_m, depth_m, expected) in table {
        let k: f64 = mode / radius_m;
        close("with gas", with_gas(k, depth_m, GRAVITY, 1.2), expected, 6e-5);
        let ours = growth_rate_at(k, (k * depth_m).tanh(), GRAVITY, TENSION / DENSITY);
        close("without gas", ours, with_gas(k, depth_m, GRAVITY, 0.0), 1e-9);
        // Left out are a share 1.2/998 of the drive, which counts as much more as surface tension leaves less of it, and the
        // same share of the mass; the rate goes with the root of both.
        let left = 1.0 - TENSION * k * k / (DENSITY * GRAVITY);
        close_share("gas neglected", ours, expected, 0.5 * 1.2 / DENSITY * (1.0 / left + 1.0) * 1.05);
    }
}

#[test]
fn closed_form_cut_off_and_fastest_wave_of_a_plane_surface() {
    // Capillary length 2.72595 mm: no growth below a wavelength of 17.138 mm, the fastest at 29.684 mm with 37.1555 1/s (1.2 kg/m3
    // of gas, which takes 0.12 % off); at ten gravities 9.38684 mm and 208.9406 1/s.
    let rate = |wavelength: f64, acceleration: f64| {
        growth_rate_at(2.0 * PI / wavelength, 1.0, acceleration, TENSION / DENSITY)
    };
    close("below", rate(0.017_12, GRAVITY), 0.0, 0.0);
    assert!(rate(0.017_15, GRAVITY) > 0.0);
    let fastest = rate(0.029_684, GRAVITY);
    close_share("one gravity", fastest, 37.1555, 0.002);
    close_share("ten gravities", rate(0.009_386_84, 10.0 * GRAVITY), 208.9406, 0.002);
    assert!(fastest > rate(0.0292, GRAVITY) && fastest > rate(0.0302, GRAVITY));
}

#[test]
fn limit_shallow_water_is_slow_and_an_unslowed_vessel_keeps_its_water() {
    close("no acceleration", growth_rate(0.0, 0.1, 0.044, TENSION, DENSITY), 0.0, 0.0);
    close("thrust", growth_rate(-3.0, 0.1, 0.044, TENSION, DENSITY), 0.0, 0.0);
    // Depth goes to nought: n^2 -> n(deep)^2 k h.
    let (deep, k, depth_m) = (growth_rate(GRAVITY, 10.0, 0.044, TENSION, DENSITY), FIRST_MODE / 0.044, 1e-4);
    // tanh x = x (1 - x^2/3), x = 0.004.
    close_share("film", growth_rate(GRAVITY, depth_m, 0.044, TENSION, DENSITY), deep * (k * depth_m).sqrt(), 1e-5);
}
