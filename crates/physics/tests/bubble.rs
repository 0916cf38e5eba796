//! The gas finger: long bubbles in tubes.

#![allow(clippy::disallowed_methods, reason = "expected values come from other functions than the crate's own")]

mod common;

use common::{close, close_share};
use holdwater_physics::bubble::{Tube, froude, froude_inertial};
use holdwater_physics::water::Water;

const WATER: Water = Water { density: 998.2, surface_tension: 0.072_74, viscosity: 1.0016e-3 };
const GRAVITY: f64 = 9.806_65;

fn speed(acceleration: f64, bore_m: f64, water: &Water) -> f64 {
    Tube::new(bore_m, water).bubble_speed(acceleration)
}

#[test]
fn published_wide_tubes_lie_between_davies_and_taylor_and_dumitrescu() {
    // Davies & Taylor 1950, Proc. R. Soc. A 200, 375: 0.328 sqrt(gD). Dumitrescu 1943, ZAMM 23, 139: 0.351. Both from memory.
    let wide = froude(1e5, 1e6);
    assert!(wide > 0.328 && wide < 0.351, "{wide}");
    // White & Beardmore 1962, Chem. Eng. Sci. 17, 351: 0.345, from memory; their scatter and Viana's differ by 2 %.
    close_share("White and Beardmore", wide, 0.345, 0.02);
    // Viana et al. 2003, J. Fluid Mech. 494, 379, abstract (read): 0.34 for large Eo and R > 200. Half a unit of the last digit.
    close("Viana", wide, 0.34, 0.005);
}

#[test]
fn published_both_limits_of_viana_are_met_by_the_full_form() {
    for eotvos in [6.0_f64, 13.458, 65.134, 300.0, 1100.0] {
        // Viana et al. 2003, abstract (read): Fr = 0.34/(1 + 3805/Eo^3.06)^0.58 for R > 200.
        let inertial = 0.34 / (1.0 + 3805.0 / eotvos.powf(3.06)).powf(0.58);
        close_share("short form", froude_inertial(eotvos), inertial, 1e-12);
        // At R = 2000, where a 5 cm bottle under a tenth of a gravity is, the full form has reached its limit; constants of
        // five digits printed as 3805 and as 14.793^3.06 differ by 1e-4.
        close_share("R = 2000", froude(eotvos, 2000.0), inertial, 5e-3);
        close_share("R = 1e5", froude(eotvos, 1e5), inertial, 5e-4);
    }
    for (eotvos, reynolds) in [(30.0_f64, 1.0_f64), (100.0, 1.0), (100.0, 5.0), (1000.0, 1.0)] {
        // The same abstract: Fr = 9.494e-3/(1 + 6197/Eo^2.561)^0.5793 R^1.026 for R < 10. Another fit to the same data: the
        // two forms agree within the scatter of those, given as about 10 %.
        let viscous = 9.494e-3 / (1.0 + 6197.0 / eotvos.powf(2.561)).powf(0.5793) * reynolds.powf(1.026);
        close_share("R < 10", froude(eotvos, reynolds), viscous, 0.15);
    }
}

#[test]
fn closed_form_the_full_correlation_at_points_worked_out_elsewhere() {
    // The formula in Python with doubles, six digits: Eo, R, Fr.
    let table = [
        (10.0, 100.0, 0.121_715),
        (100.0, 10.0, 0.089_696),
        (100.0, 50.0, 0.250_410),
        (100.0, 1000.0, 0.337_768),
        (1000.0, 5.0, 0.049_350),
    ];
    for (eotvos, reynolds, expected) in table {
        close("Fr", froude(eotvos, reynolds), expected, 5e-7);
    }
    // Water at 20 C under gravity: bore, speed of the bubble with five decimals.
    let tubes = [(0.005, 0.005_40), (0.008, 0.032_95), (0.010, 0.065_09), (0.022, 0.156_92), (0.100, 0.336_69)];
    for (bore_m, metres_per_second) in tubes {
        close("speed", speed(GRAVITY, bore_m, &WATER), metres_per_second, 5e-6);
    }
}

#[test]
fn published_wallis_agrees_for_the_bores_of_bottles() {
    // Wallis 1969: Fr = 0.345 (1 - exp(-0.01 Nf/0.345)) (1 - exp((3.37 - Eo)/10)), from memory. For bores from 22 mm on
    // the two correlations, of different data, differ by 2 %.
    for bore_m in [0.022_f64, 0.044, 0.088, 0.105] {
        let eotvos = WATER.density * GRAVITY * bore_m * bore_m / WATER.surface_tension;
        let reynolds = (bore_m.powi(3) * GRAVITY).sqrt() * WATER.density / WATER.viscosity;
        let wallis = 0.345 * (1.0 - (-0.01 * reynolds / 0.345).exp()) * (1.0 - ((3.37 - eotvos) / 10.0).exp());
        close_share("Wallis", froude(eotvos, reynolds), wallis, 0.02);
    }
}

#[test]
fn limit_no_bubble_moves_without_acceleration_or_through_a_capillary() {
    close("no acceleration", speed(0.0, 0.088, &WATER), 0.0, 0.0);
    close("other way round", speed(-5.0, 0.088, &WATER), 0.0, 0.0);
    // Bretherton 1961, J. Fluid Mech. 10, 166: no rise below a Bond number of 0.842 on the radius, Eo = 3.37 (from memory). The
    // correlation keeps a rest there, less than a tenth of the speed in a wide tube.
    assert!(froude(3.37, 1000.0) < 0.034);
    assert!(froude(1.0, 1000.0) < 0.004);
}

#[test]
fn property_a_bubble_is_faster_in_a_wider_vessel_and_under_more_acceleration() {
    let mut before = 0.0;
    for step in 0..60 {
        let now = speed(GRAVITY, 0.004 * 1.1_f64.powi(step), &WATER);
        assert!(now > before, "bore step {step}");
        before = now;
    }
    before = 0.0;
    for step in 0..60 {
        let now = speed(0.05 * 1.2_f64.powi(step), 0.088, &WATER);
        assert!(now > before, "acceleration step {step}");
        before = now;
    }
}
