//! The dip over a nozzle that draws water.

#![allow(clippy::disallowed_methods, reason = "expected values come from other functions than the crate's own")]

mod common;

use common::{close, close_share};
use holdwater_physics::dip::depth;

#[test]
fn published_lubin_and_springer_between_the_two_readings_of_miloh_and_tyvand() {
    for (flow, acceleration) in [(1e-4_f64, 9.806_65_f64), (2.5e-3, 100.0), (1e-2, 400.0)] {
        let unit = (flow * flow / acceleration).powf(0.2);
        // Lubin & Springer 1967, J. Fluid Mech. 29, 385: 0.69 (Q^2/g)^(1/5); the constant from memory, two digits.
        close("Lubin and Springer", depth(flow, acceleration) / unit, 0.69, 0.005);
        // Miloh & Tyvand 1992, Phys. Fluids A 4, 1368, abstract (read): critical Froude number 15^(-1/2) of an impulsively started sink;
        // its definition was not seen, and its two readings are 0.62 and 0.82.
        let share = depth(flow, acceleration) / unit;
        assert!(share > 0.62 && share < 0.82, "{share}");
    }
}

#[test]
fn closed_form_one_litre_a_second_under_gravity() {
    // By hand: Q^2/g = 1e-6/9.80665 = 1.019716e-7 m5; its fifth root is 0.0399665 m; times 0.69 is 0.0275769 m.
    close("depth", depth(1e-3, 9.806_65), 0.027_576_9, 1e-7);
}

#[test]
fn limit_no_flow_has_no_dip_and_no_acceleration_has_no_floor() {
    close_share("scaling", depth(32.0e-3, 50.0), 4.0 * depth(1e-3, 50.0), 1e-12);
    assert!(depth(0.0, 10.0) < 1e-12, "{}", depth(0.0, 10.0));
    assert!(depth(1e-3, 0.0).is_infinite() && depth(1e-3, -1.0).is_infinite());
}
