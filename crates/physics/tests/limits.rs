//! Rockets at the edges, where the answer is known without a flight.

#![allow(clippy::disallowed_methods, reason = "expected values come from other functions than the crate's own")]
#![allow(clippy::unwrap_used, reason = "a panic is how a test fails")]

mod common;

use common::{HORIZON, apogee, booster, close, close_share, event, fly, launch, single, stack};
use holdwater_physics::bubble::Tube;
use holdwater_physics::error::FlightError;
use holdwater_physics::flight::{CoastState, Happening, Launch, Silent, WaterMode};
use holdwater_physics::rocket::{LaunchTube, Rocket, Stage};
use holdwater_physics::solver::Effort;
use holdwater_physics::water::Water;

#[test]
fn limit_a_release_at_burnout_equals_the_settled_ideal() {
    let launch = launch(&stack());
    // The water is followed from where drag exceeds the dying thrust, some hundredths of a second before burnout: the ripple has
    // grown a little, the nozzle is covered, and the difference, of either sign, is below a thousandth.
    let (free, settled) = (apogee(&launch, 0.0, WaterMode::Free), apogee(&launch, 0.0, WaterMode::Settled));
    close_share("height", free, settled, 1e-3);
    close("gas lost", launch.log(0.0, WaterMode::Free).unwrap().0.sustainer.gas_lost, 0.0, 0.0);
}

#[test]
fn limit_a_stack_that_nothing_slows_keeps_its_water() {
    let mut rocket = stack();
    booster(&mut rocket).drag_coefficient = 1e-7;
    rocket.sustainer.drag_coefficient = 1e-7;
    let launch = launch(&rocket);
    for delay in [0.0, 1.0, 3.0, 5.0] {
        let flight = launch.log(delay, WaterMode::Free).unwrap().0;
        // The gas finger needs a deceleration; the proper deceleration is ten million times smaller than with drag.
        close("lifted", flight.release.unwrap().lifted, 0.0, 1e-12);
        close_share("height", flight.sustainer.apogee.1, apogee(&launch, delay, WaterMode::Settled), 1e-9);
    }
    assert_eq!(launch.latest_release(0.01), None);
    assert_eq!(launch.uncovers(), None);
}

#[test]
fn limit_a_tube_long_enough_for_the_water_to_come_back_equals_the_settled_flight() {
    let mut rocket = stack();
    rocket.staging_tube = Some(LaunchTube { length_m: 0.32, outer_m: 0.0085, wall_m: 1e-3 });
    let launch = launch(&rocket);
    for delay in [0.25, 0.3, 0.35, 0.4] {
        let (flight, log) = launch.log(delay, WaterMode::Free).unwrap();
        let (joined, exit) = (event(&log, Happening::WaterRejoined), event(&log, Happening::StagingTubeExit));
        assert!(joined.t < exit.t, "the water is back before the tube is out");
        let (settled, _) = launch.log(delay, WaterMode::Settled).unwrap();
        close("gas lost", flight.sustainer.gas_lost, settled.sustainer.gas_lost, 1e-12);
        // The tube pushes while up to three quarters of the water are still aloft, and gets them as a jolt: a part of the tube's own
        // share of the height (3 %), not of the tenth that the bare vessel loses at the last of these delays.
        close_share("height", flight.sustainer.apogee.1, settled.sustainer.apogee.1, 0.005);
    }
    let bare = common::launch(&stack());
    assert!(bare.loss(0.4) > 0.05, "{}", bare.loss(0.4));
}

#[test]
fn limit_stiller_water_may_be_released_later() {
    let mut before = 0.0;
    for ripple_m in [1e-2, 3e-3, 1e-3, 1e-4, 1e-6, 1e-9, 1e-12] {
        let launch = launch(&Rocket { disturbance_m: ripple_m, ..stack() });
        let latest = launch.latest_release(0.01).expect("this stack loses its water in the end");
        assert!(latest > before, "{ripple_m}: {latest} after {before}");
        before = latest;
    }
    assert!(before > 0.5, "{before}");
}

#[test]
fn limit_water_without_a_ripple_stays() {
    let launch = launch(&Rocket { disturbance_m: 0.0, ..stack() });
    close("lifted", launch.coast(WaterMode::Free).unwrap().at(2.0).unwrap().lifted, 0.0, 0.0);
    close("loss", launch.loss(2.0), 0.0, 1e-9);
}

/// A stack whose water has a high ripple from the start, in a narrow vessel: its finger is a long bubble as soon as the stack slows.
fn with_a_high_ripple() -> Rocket {
    let mut rocket = Rocket { disturbance_m: 18.8e-3, ..stack() };
    rocket.site.expansion_exponent = 1.099;
    rocket.sustainer = Stage {
        volume_m3: 2.76e-3,
        bore_m: 67.13e-3,
        nozzle_m: 14.85e-3,
        discharge: 0.9035,
        water_m3: 0.976e-3,
        fill_gauge_pa: 476_800.0,
        dry_kg: 0.1669,
        drag_coefficient: 0.364,
        reference_m: 0.090,
        ..rocket.sustainer
    };
    *booster(&mut rocket) = Stage {
        volume_m3: 4.336e-3,
        bore_m: 107.4e-3,
        nozzle_m: 18.96e-3,
        discharge: 0.9965,
        water_m3: 1.773e-3,
        fill_gauge_pa: 1.156e6,
        dry_kg: 0.6498,
        drag_coefficient: 0.6488,
        ..*booster(&mut rocket)
    };
    rocket
}

#[test]
fn tool_a_high_ripple_is_a_long_bubble_at_once() {
    // `tests/reference/trajectories.py --fly` with this design at a delay of 1 s (SciPy 1.17.1, DOP853).
    close("height", apogee(&launch(&with_a_high_ripple()), 1.0, WaterMode::Free), 135.604_510_907, 1e-3);
    let page = Launch::new(&with_a_high_ripple(), HORIZON, 0, Effort::PAGE).unwrap();
    close("height", apogee(&page, 1.0, WaterMode::Free), 135.604_510_907, 0.03);
}

#[test]
fn property_no_finger_is_faster_than_a_long_bubble() {
    for ripple_m in [1e-3, 8e-3, 12e-3, 14e-3, 20e-3, 45e-3] {
        for rocket in [stack(), with_a_high_ripple()] {
            let rocket = Rocket { disturbance_m: ripple_m, ..rocket };
            let water = Water::at(rocket.site.water_temperature_k, None);
            let tube = Tube::new(rocket.sustainer.bore_m, &water);
            let launch = Launch::new(&rocket, HORIZON, 0, Effort::PAGE).unwrap();
            let coast = launch.coast(WaterMode::Free).unwrap();
            let states: Vec<CoastState> = (0..200).map_while(|i| coast.at(0.005 * f64::from(i))).collect();
            for pair in states.windows(2) {
                let rise = pair[1].finger - pair[0].finger;
                // The deceleration falls, but for the water that leaves the stack's mass as it is lifted.
                let fastest = tube.bubble_speed(pair[0].deceleration.max(pair[1].deceleration));
                assert!(rise <= 1.02 * 0.005 * fastest + 1e-7, "{ripple_m}: {rise} at {pair:?}");
            }
        }
    }
}

/// A stack whose sustainer weighs nothing and whose booster is the stage given.
fn with_a_feather_on_top(stage: &Stage) -> Rocket {
    let feather = Stage {
        volume_m3: 1e-9,
        bore_m: 1e-2,
        nozzle_m: 1e-3,
        water_m3: 0.0,
        fill_gauge_pa: 1.0,
        dry_kg: 1e-9,
        ..*stage
    };
    Rocket { booster: Some(*stage), sustainer: feather, ..stack() }
}

#[test]
fn limit_one_stage_flies_like_a_stack_with_a_feather_on_top() {
    for pad_tube in [None, Some(LaunchTube { length_m: 0.2, outer_m: 0.0085, wall_m: 0.0 })] {
        let rocket = Rocket { pad_tube, ..single() };
        let (flight, log) = fly(&rocket, 0.0, WaterMode::Free);
        let burnout = event(&log, Happening::SustainerBurnout);
        let launch = launch(&Rocket { pad_tube, ..with_a_feather_on_top(&rocket.sustainer) });
        let coast = launch.coast(WaterMode::Settled).unwrap();
        // A milligram in 700 g.
        close_share("burnout", coast.burnout.0, burnout.t, 1e-7);
        close_share("height", coast.burnout.1, burnout.h, 1e-6);
        close_share("speed", coast.burnout.2, burnout.v, 1e-6);
        close_share("top", coast.top.unwrap().1, flight.sustainer.apogee.1, 1e-6);
    }
}

#[test]
fn limit_a_sustainer_released_from_rest_on_the_pad_is_a_single_stage() {
    let launch = launch(&stack());
    let rest = CoastState {
        t: 0.0,
        h: 0.0,
        v: 0.0,
        deceleration: 0.0,
        finger: 0.0,
        lifted: 0.0,
        lifted_height: launch.sustainer().vessel.standing,
        lifted_speed: 0.0,
        at_nose: false,
        leaked: 0.0,
        wetted: false,
    };
    let released = launch.sustainer().fly(&rest, false, Effort::REFERENCE, &mut Silent).unwrap();
    let alone = fly(&single(), 0.0, WaterMode::Free).0.sustainer;
    close("height", released.apogee.1, alone.apogee.1, 1e-9);
    close("time", released.apogee.0, alone.apogee.0, 1e-9);
    assert!(released.covered && !released.dud);
}

#[test]
fn limit_several_vessels_in_parallel_are_one_of_their_areas_together() {
    // Four vessels of half the bore and half the nozzle: the same areas, the same height. Only the throat is half as long.
    let mut rocket = stack();
    let one = launch(&rocket).coast(WaterMode::Settled).unwrap().burnout;
    let stage = booster(&mut rocket);
    (stage.sets, stage.bore_m, stage.nozzle_m) = (4, 0.5 * stage.bore_m, 0.5 * stage.nozzle_m);
    let four = launch(&rocket).coast(WaterMode::Settled).unwrap().burnout;
    // That shortens the start of the jet by 5 mm / 45 m/s = 0.1 ms of the 0.2 s.
    close("burnout", four.0, one.0, 3e-4);
    close_share("speed", four.2, one.2, 2e-3);
    assert!(four.0 < one.0);
}

#[test]
fn limit_too_heavy_a_rocket_stays_on_the_pad_and_a_tube_without_force_stalls() {
    let mut rocket = single();
    rocket.sustainer.dry_kg = 50.0;
    let refused = Launch::new(&rocket, HORIZON, 0, Effort::PAGE).unwrap().fly(0.0, WaterMode::Free, &mut Silent);
    match refused {
        // The water has run out without lifting it (twice pressure times area is 122 N), and the gas, which has cooled and
        // expanded by then, pushes 1.267876 p A - pa A.
        Err(FlightError::StaysOnPad { thrust_n, weight_n }) => {
            let pressure = 1.101e6 * 0.75_f64.powf(1.3);
            let area = rocket.sustainer.nozzle_area() * 0.97;
            close_share("thrust", thrust_n, (1.267_876 * pressure - 1.01e5) * area, 1e-3);
            close_share("weight", weight_n, 50.0 * 9.806_65, 1e-3);
        }
        other => panic!("{other:?}"),
    }
    // With little pressure the water stops first.
    rocket.sustainer.volume_m3 = 0.51e-3;
    let refused = Launch::new(&rocket, HORIZON, 0, Effort::PAGE).unwrap().fly(0.0, WaterMode::Free, &mut Silent);
    match refused {
        Err(FlightError::StaysOnPad { thrust_n, weight_n }) => {
            // 2 Cd^2 dp An less a share b, and all the water.
            close_share("thrust", thrust_n, 2.0 * 1e6 * 0.97 * 0.97 * rocket.sustainer.nozzle_area(), 0.02);
            close_share("weight", weight_n, 50.5 * 9.806_65, 1e-3);
        }
        other => panic!("{other:?}"),
    }
    let mut tube = stack();
    tube.pad_tube = Some(LaunchTube { length_m: 0.2, outer_m: 0.002, wall_m: 0.0 });
    let refused = Launch::new(&tube, HORIZON, 0, Effort::PAGE).map(|_| ());
    assert!(matches!(refused, Err(FlightError::StaysOnPad { .. })), "{refused:?}");
}

#[test]
fn limit_a_release_beyond_the_top_of_the_stack_is_named_with_that_top() {
    let launch = launch(&stack());
    let (t, h) = launch.coast(WaterMode::Free).unwrap().top.unwrap();
    let burnout = launch.coast(WaterMode::Free).unwrap().burnout.0;
    assert!(launch.fly(t - burnout - 1e-6, WaterMode::Free, &mut Silent).is_ok());
    let late = launch.fly(t - burnout + 1e-3, WaterMode::Free, &mut Silent);
    assert_eq!(late, Err(FlightError::StackHasFallen { top_after_burnout_s: t - burnout, height_m: h }));
}

#[test]
fn limit_without_water_only_gas_drives_and_nothing_can_be_lifted() {
    let mut rocket = stack();
    rocket.sustainer.water_m3 = 0.0;
    let launch = launch(&rocket);
    for delay in [0.0, 1.0] {
        close("loss", launch.loss(delay), 0.0, 0.0);
        let flight = launch.log(delay, WaterMode::Free).unwrap().0;
        assert!(flight.sustainer.covered && flight.release.unwrap().lifted == 0.0);
        close("gas lost", flight.sustainer.gas_lost, 0.0, 0.0);
    }
    assert_eq!((launch.latest_release(0.01), launch.uncovers()), (None, None));
}
