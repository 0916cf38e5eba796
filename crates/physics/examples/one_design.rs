//! Flies one two-stage rocket and prints what happens.
//!
//! `cargo run --release -p holdwater-physics --example one_design`

use holdwater_physics::flight::{Launch, WaterMode};
use holdwater_physics::rocket::{Rocket, Site, Stage};
use holdwater_physics::solver::Effort;

fn main() {
    let rocket = Rocket {
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
    };
    match Launch::new(&rocket, rocket.delay_s, 0, Effort::PAGE) {
        Ok(launch) => {
            for mode in [WaterMode::Settled, WaterMode::Free] {
                for delay in [0.0, 0.35, 0.7, 1.0] {
                    match launch.log(delay, mode) {
                        Ok((flight, log)) => {
                            println!(
                                "{mode:?} {delay} s: apogee {:.3} m, gas lost {:.4}, {:?}",
                                flight.sustainer.apogee.1, flight.sustainer.gas_lost, flight.release
                            );
                            if delay > 0.9 {
                                for event in &log.events {
                                    println!(
                                        "  {:8.4} s {:8.3} m {:8.3} m/s  {:?}",
                                        event.t, event.h, event.v, event.what
                                    );
                                }
                            }
                        }
                        Err(error) => println!("{mode:?}: {error:?}"),
                    }
                }
            }
        }
        Err(error) => println!("{error:?}"),
    }
}
