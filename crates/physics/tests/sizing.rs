//! The searches of sizing on functions whose answers are known.

mod common;

use common::close;
use holdwater_physics::restrictor::holes;
use holdwater_physics::sizing::plate::{self, NoPattern};
use holdwater_physics::sizing::{curve, search, tube};
use holdwater_physics::vessel::collapse;

/// Places on a coarse grid.
fn places(from: f64, to: f64, count: usize) -> Vec<f64> {
    (0..count).map(|k| from + (to - from) * k as f64 / (count - 1) as f64).collect()
}

#[test]
fn closed_form_the_highest_place_of_smooth_kinked_and_cut_off_functions_is_found() {
    let grid = places(0.0, 10.0, 9);
    for top in [0.0, 0.1, 1.25, 3.3, 7.777, 9.99, 10.0] {
        let smooth = search::highest(&grid, 1e-7, &mut |x| Some(5.0 - (x - top) * (x - top))).unwrap();
        close("smooth", smooth.place, top, 1e-4);
        let kinked =
            search::highest(&grid, 1e-7, &mut |x| Some(if x < top { x } else { top - 3.0 * (x - top) })).unwrap();
        close("kinked", kinked.place, top, 1e-6);
        // Nothing beyond the top has an answer.
        let cut = search::highest(&grid, 1e-7, &mut |x| (x <= top).then_some(x)).unwrap();
        close("cut off", cut.place, top, 1e-6);
    }
    assert_eq!(search::highest(&grid, 1e-7, &mut |_| None), None);
    assert_eq!(search::highest(&[], 1e-7, &mut |_| Some(1.0)), None);
}

#[test]
fn closed_form_of_two_peaks_the_higher_one_is_found_though_the_grid_shows_the_lower_one_higher() {
    // At the grid 2 is higher; between its points 7.3 is.
    let peak = |x: f64| (1.0 - (x - 2.0) * (x - 2.0)).max(1.4 - 4.0 * (x - 7.45) * (x - 7.45));
    let found = search::highest(&places(0.0, 10.0, 11), 1e-6, &mut |x| Some(peak(x))).unwrap();
    close("place", found.place, 7.45, 1e-4);
}

#[test]
fn closed_form_the_middle_of_a_plateau_is_taken() {
    let table = |x: f64| Some(100.0 - (3.0 - x).max(0.0) - (x - 7.0).max(0.0));
    let grid = places(0.0, 10.0, 13);
    let peak = search::highest(&grid, 1e-6, &mut |x| table(x)).unwrap();
    let middle = search::middle_of_plateau(&grid, peak, 1e-9, 1e-6, &mut |x| table(x));
    close("middle", middle.place, 5.0, 1e-5);
}

#[test]
fn property_searches_of_any_function_end_and_stay_inside() {
    let mut calls = 0;
    // Noise: no order at all.
    let mut noise = |x: f64| {
        calls += 1;
        let wild = (x.to_bits() ^ (x.to_bits() >> 29)).wrapping_mul(0x9e37_79b9_7f4a_7c15);
        if wild.is_multiple_of(5) { None } else { Some((wild >> 40) as f64) }
    };
    let grid = places(1.0, 2.0, 20);
    let peak = search::highest(&grid, 0.0, &mut noise).unwrap();
    assert!((1.0..=2.0).contains(&peak.place));
    let points = curve::sampled(&grid, 60, 1.001, &mut noise);
    assert!(points.len() <= 60 && points.windows(2).all(|pair| pair[0].0 < pair[1].0));
    let edge = search::edge(1.0, 2.0, 0.0, &mut |x| noise(x).is_some());
    assert!((1.0..=2.0).contains(&edge) && calls < 500);
    let odd = [f64::NAN, f64::INFINITY, -1.0, 0.0];
    for x in odd {
        assert!(search::in_ratios(x, 1.0, 5).len() <= 5);
        assert!(search::highest(&[0.0, 1.0], 1e-3, &mut |_| Some(x)).is_none_or(|peak| peak.height.is_finite()));
        let _ = search::edge(0.0, x, 1e-3, &mut |_| true);
    }
}

#[test]
fn closed_form_a_window_ends_where_the_share_is_reached_and_choking_ends_there_too() {
    let grid: Vec<f64> = places(4e-3, 80e-3, 30);
    // Loss: (4 mm/d)^4 from throttling, (d - 20 mm)/1 m from leaking.
    let throttled = |d: f64| 100.0 - 100.0 * (4e-3 / d).powi(4);
    let height = |d: f64| throttled(d) - 100.0 * (d - 20e-3).max(0.0);
    let best = plate::best_bore(&grid, &mut |d| Some(height(d))).unwrap();
    let (low, high) = plate::window(&grid, best.place, 100.0, 0.01, &mut |d| Some(height(d))).unwrap();
    // Both losses together reach the share a little above 12.65 mm, and at nearly 30 mm.
    let loss = |d: f64| 1.0 - height(d) / 100.0;
    assert!(loss(low) < 0.01 && loss(low - 4e-5) >= 0.01, "{low} {}", loss(low));
    assert!(loss(high) < 0.01 && loss(high + 4e-5) >= 0.01, "{high} {}", loss(high));
    let chokes = plate::chokes_below(&grid, 100.0, 0.01, &mut |d| Some(throttled(d))).unwrap();
    close("chokes", chokes, 4e-3 / 0.01_f64.sqrt().sqrt(), 4e-5);
    assert_eq!(plate::window(&grid, best.place, 200.0, 0.01, &mut |d| Some(height(d))), None);
    assert_eq!(plate::chokes_below(&grid[15..], 100.0, 0.01, &mut |d| Some(throttled(d))), None);
}

#[test]
fn closed_form_the_widest_holes_just_fit() {
    for count in [2, 3, 7, 12, 19, 61, 150] {
        for bore in [0.02, 0.088, 0.3] {
            let widest = plate::widest_that_fits(count, bore);
            if widest < 1e-4 {
                continue;
            }
            assert!(
                holes::fits(count, widest * 0.9999, bore, plate::web(widest * 0.9999)),
                "{count} in {bore}: {widest}"
            );
            assert!(
                !holes::fits(count, widest * 1.0002, bore, plate::web(widest * 1.0002)),
                "{count} in {bore}: {widest}"
            );
        }
    }
    assert!(plate::widest_that_fits(1, 0.088) < 0.088 && plate::widest_that_fits(1, 0.003) > 0.0);
}

#[test]
fn closed_form_a_pattern_has_the_fewest_holes_that_come_within_a_thousandth() {
    let height = |holes: u32| 200.0 * (1.0 - 0.5 / f64::from(holes * holes));
    let found = plate::pattern(3e-3, 9e-3, 300, &mut |holes| Some(height(holes))).unwrap();
    let goal = height(300) * 0.999;
    assert!(height(found.holes) >= goal && height(found.holes - 1) < goal, "{found:?}");
    let narrow = plate::pattern(0.4e-3, 9e-3, 300, &mut |_| Some(1.0));
    assert_eq!(narrow, Err(NoPattern::TooNarrow { hole_m: 0.4e-3 }));
    // A quarter of a 12 mm nozzle through holes of 2 mm: nine.
    let few = plate::pattern(2e-3, 12e-3, 5, &mut |_| Some(1.0));
    assert_eq!(few, Err(NoPattern::TooFewFit { most: 5, needed: 9 }));
    assert_eq!(plate::pattern(2e-3, 9e-3, 50, &mut |_| None), Err(NoPattern::NoFlight));
}

#[test]
fn closed_form_the_wall_of_a_tube_stands_hoop_stress_and_collapse_with_its_factors() {
    let (outer, length, pressure) = (0.04, 0.3, 2e6);
    let wall = tube::wall(outer, length, pressure, 293.15).unwrap();
    // Thin: p r/t = yield/2.
    let thin = pressure * 0.5 * (outer - 2.0 * wall.inside_m) / (241.3e6 / 2.0);
    close("hoop", wall.inside_m, thin, 0.06 * thin);
    let collapse = collapse::collapse(68.9e9, 0.33, wall.outside_m, outer, length);
    close("collapse", collapse / 4.0, pressure, 0.01 * pressure);
    assert!(wall.needed() >= wall.inside_m && wall.needed() >= wall.outside_m);
    // More pressure and more length never need less.
    let mut before = 0.0;
    for pressure in [1e5, 1e6, 3e6, 6e6] {
        let now = tube::wall(outer, length, pressure, 293.15).unwrap().needed();
        assert!(now >= before);
        before = now;
    }
    assert!(
        tube::wall(outer, 1.5, 1e6, 293.15).unwrap().needed() >= tube::wall(outer, 0.1, 1e6, 293.15).unwrap().needed()
    );
    assert_eq!(tube::wall(0.006, 2.0, 5e6, 293.15), None);
    assert_eq!(tube::wall(f64::NAN, 0.3, 1e6, 293.15), None);
}

#[test]
fn closed_form_the_shortest_length_is_the_edge_and_plate_heights_hold_the_surface() {
    let lengths = tube::lengths(0.4, 12);
    let shortest = tube::shortest(&lengths, &mut |length| length >= 0.123).unwrap();
    assert!((0.123..0.1235).contains(&shortest), "{shortest}");
    assert_eq!(tube::shortest(&lengths, &mut |_| true), Some(0.01));
    assert_eq!(tube::shortest(&lengths, &mut |_| false), None);
    assert!(tube::lengths(0.005, 12).is_empty());
    let heights = plate::plate_heights(0.08, 0.33);
    assert!(heights.contains(&0.08) && heights.windows(2).all(|pair| pair[0] < pair[1]));
    assert!(plate::plate_heights(0.0, 0.0).is_empty());
}
