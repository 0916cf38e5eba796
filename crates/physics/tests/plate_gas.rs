//! Gas that passes the holes of a plate before the nozzle.

#![allow(clippy::disallowed_methods, reason = "expected values come from other functions than the crate's own")]
#![allow(clippy::unwrap_used, reason = "a panic is how a test fails")]

mod common;

use common::{close, close_share, orifice_flow};
use holdwater_physics::air::{Air, Atmosphere};
use holdwater_physics::blowdown::BlowDown;
use holdwater_physics::constants::{GAMMA, GAS_CONSTANT_AIR};
use holdwater_physics::gas;
use holdwater_physics::restrictor::series::Throttle;

const NOZZLE: f64 = 6e-5;
const VOLUME: f64 = 2e-3;
const KELVIN: f64 = 291.15;

fn air() -> Air {
    Atmosphere::over_site(30.0, KELVIN).at(0.0)
}

fn start(pressure: f64, holes: f64) -> (BlowDown, f64) {
    let mass = gas::mass(pressure, VOLUME, KELVIN);
    BlowDown::start_behind(Some(Throttle::new(holes, NOZZLE)), pressure, mass, VOLUME, NOZZLE, &air()).unwrap()
}

#[test]
fn closed_form_holes_and_nozzle_pass_the_same_mass() {
    for holes_per_nozzle in [0.1, 0.4, 0.9, 1.0, 2.0, 6.0, 40.0] {
        let holes = holes_per_nozzle * NOZZLE;
        let throttle = Throttle::new(holes, NOZZLE);
        for over in [1.0002, 1.01, 1.2, 1.8, 1.95, 2.4, 5.0, 12.0, 60.0] {
            let share = throttle.share(over);
            let (through_holes, through_nozzle) =
                (holes * orifice_flow(share), NOZZLE * share * orifice_flow(1.0 / (over * share)));
            close_share("mass", through_holes, through_nozzle, 1e-8);
            // What the blow-down gives off at that pressure is the same.
            let pressure = over * air().pressure_pa;
            let (pulse, state) = start(pressure, holes);
            let gas = pulse.gas(state, &air());
            close_share("pressure", gas.pressure, pressure, 1e-9);
            let flow = pulse.flow(state, &gas, &air());
            close_share("flow", flow.mass_flow, through_holes * pressure / (GAS_CONSTANT_AIR * KELVIN).sqrt(), 1e-8);
        }
    }
}

#[test]
fn closed_form_the_rate_of_the_state_is_that_of_the_pressure() {
    // gamma (p/m) dm/dt for a vessel that does not climb.
    for holes_per_nozzle in [0.2, 0.8, 3.0] {
        for over in [1.001, 1.1, 1.5, 2.5, 9.0] {
            let pressure = over * air().pressure_pa;
            let (pulse, state) = start(pressure, holes_per_nozzle * NOZZLE);
            let gas = pulse.gas(state, &air());
            let flow = pulse.flow(state, &gas, &air());
            let rate = pulse.rate(state, &gas, &air(), &Atmosphere::over_site(30.0, KELVIN), 0.0);
            let step = 1e-6 * state;
            let slope =
                (pulse.gas(state + step, &air()).pressure - pulse.gas(state - step, &air()).pressure) / (2.0 * step);
            close_share("pressure", slope * rate, -GAMMA * gas.pressure / gas.mass * flow.mass_flow, 1e-5);
        }
    }
}

#[test]
fn closed_form_the_state_follows_a_climb_through_thinner_air() {
    // With no gas leaving, pressure and mass would stay: the state moves only as the ambient pressure does. So the rate at a
    // climb less that at rest, times the slope of the pressure, is what the air does to the pressure at a fixed state.
    let atmosphere = Atmosphere::over_site(30.0, KELVIN);
    for over in [1.01, 1.4] {
        let (pulse, state) = start(over * air().pressure_pa, 2.0 * NOZZLE);
        let at = |height: f64, state: f64| pulse.gas(state, &atmosphere.at(height)).pressure;
        let climb = 50.0;
        let rate = |climb: f64| pulse.rate(state, &pulse.gas(state, &air()), &air(), &atmosphere, climb);
        let step = 1e-6 * state;
        let by_state = (at(0.0, state + step) - at(0.0, state - step)) / (2.0 * step) * (rate(climb) - rate(0.0));
        let by_air = (at(0.5, state) - at(-0.5, state)) * climb;
        close_share("pressure", by_state, -by_air, 1e-5);
    }
}

#[test]
fn limit_very_wide_holes_are_none() {
    for over in [1.05, 1.7, 3.0, 10.0] {
        let pressure = over * air().pressure_pa;
        let mass = gas::mass(pressure, VOLUME, KELVIN);
        let (bare, bare_state) = BlowDown::start(pressure, mass, VOLUME, NOZZLE, &air()).unwrap();
        let (wide, wide_state) = start(pressure, 1e4 * NOZZLE);
        let (bare_gas, wide_gas) = (bare.gas(bare_state, &air()), wide.gas(wide_state, &air()));
        let (bare_flow, wide_flow) =
            (bare.flow(bare_state, &bare_gas, &air()), wide.flow(wide_state, &wide_gas, &air()));
        close_share("mass flow", wide_flow.mass_flow, bare_flow.mass_flow, 1e-7);
        close_share("thrust", wide_flow.thrust, bare_flow.thrust, 1e-7);
        assert_eq!(bare.choked(), wide.choked());
    }
}

#[test]
fn limit_narrow_holes_set_the_flow() {
    // Sonic in the holes at twice the critical pressure and more: their own choked flow, whatever the nozzle.
    let holes = 0.05 * NOZZLE;
    for over in [4.0, 20.0] {
        let (pulse, state) = start(over * air().pressure_pa, holes);
        let flow = pulse.flow(state, &pulse.gas(state, &air()), &air());
        let alone = gas::choked_flow(over * air().pressure_pa, KELVIN, air().pressure_pa, holes);
        close_share("mass flow", flow.mass_flow, alone.mass_flow, 1e-9);
        assert!(flow.thrust < alone.thrust, "the plate takes the rest of the push");
    }
}

#[test]
fn closed_form_the_sonic_part_hands_over_without_a_jump() {
    for holes_per_nozzle in [0.3, 1.0, 4.0] {
        let throttle = Throttle::new(holes_per_nozzle * NOZZLE, NOZZLE);
        let (pulse, _) = start(10.0 * air().pressure_pa, holes_per_nozzle * NOZZLE);
        // The state at which the pressure below the plate is critical: p = p0 s^-7.
        let critical = air().pressure_pa / (gas::CRITICAL_RATIO * throttle.sonic_share);
        let last = (10.0 * air().pressure_pa / critical).powf(1.0 / 7.0);
        let before = pulse.gas(last, &air());
        close("end", pulse.remaining(last, &before, &air()), 0.0, 1e-12);
        let (next, state) = pulse.unchoked(last, &air());
        let after = next.gas(state, &air());
        close_share("pressure", after.pressure, before.pressure, 1e-9);
        close_share("mass", after.mass, before.mass, 1e-9);
        let (first, second) = (pulse.flow(last, &before, &air()), next.flow(state, &after, &air()));
        close_share("thrust", second.thrust, first.thrust, 1e-7);
    }
}
