//! Stacks of everything the inputs allow: every coordinate lies in the picture, every label can be tapped.

mod common;

use common::assert_inside;
use holdwater_design::Part;
use holdwater_physics::rocket::{LaunchTube, Restrictor, Rocket, Site, Stage};
use holdwater_pictures::drawing::{Area, Shape, StackDrawing, stack};

fn stage(volume_m3: f64, bore_m: f64, nozzle_m: f64, sets: u32, water_m3: f64) -> Stage {
    Stage {
        volume_m3,
        bore_m,
        nozzle_m,
        sets,
        discharge: 0.97,
        water_m3,
        fill_gauge_pa: 1e6,
        dry_kg: 0.3,
        drag_coefficient: 0.4,
        reference_m: 0.1,
    }
}

fn rocket(booster: Option<Stage>, sustainer: Stage, fitted: bool) -> Rocket {
    let tube = LaunchTube { length_m: 3.0, outer_m: 0.12, wall_m: 0.02 };
    let restrictor =
        Restrictor { hole_m: 0.02, holes: 2000, height_m: 5.0, discharge: None, trusted_share: 0.5, mass_kg: 0.01 };
    Rocket {
        site: Site {
            elevation_m: 30.0,
            air_temperature_k: 291.15,
            water_temperature_k: 289.15,
            surface_tension_n_m: None,
            expansion_exponent: 1.3,
        },
        booster,
        sustainer,
        pad_tube: fitted.then_some(tube),
        staging_tube: fitted.then_some(tube),
        restrictor: fitted.then_some(restrictor),
        delay_s: 1.0,
        disturbance_m: 1e-3,
    }
}

fn assert_labels(drawing: &StackDrawing, what: &str) {
    let hits: Vec<Area> = drawing.parts.iter().map(|part| part.hit).collect();
    for (index, a) in hits.iter().enumerate() {
        assert!(a.width >= 44.0 && a.height >= 44.0, "{what}: {a:?}");
        for b in &hits[index + 1..] {
            let apart = a.x + a.width <= b.x || b.x + b.width <= a.x || a.y + a.height <= b.y || b.y + b.height <= a.y;
            assert!(apart, "{what}: {a:?} over {b:?}");
        }
    }
    let rects: Vec<Shape> = hits.iter().map(|area| Shape::Rect { area: *area, class: "button" }).collect();
    assert_inside(&rects, drawing.view_box, what);
}

#[test]
fn every_stack_stays_in_its_picture_and_can_be_tapped() {
    let stages: Vec<Stage> = [(1e-4, 0.015), (1e-4, 0.5), (2e-3, 0.088), (0.2, 0.015), (0.2, 0.5)]
        .into_iter()
        .flat_map(|(volume, bore)| {
            [(0.002, 1, 0.0), (0.12, 12, 1.0), (0.009, 3, 0.3)]
                .map(|(nozzle, sets, share)| stage(volume, bore, nozzle, sets, share * volume))
        })
        .collect();
    for booster in stages.iter().copied().map(Some).chain([None]) {
        for sustainer in &stages {
            for fitted in [false, true] {
                let rocket = rocket(booster, *sustainer, fitted);
                for (width, height) in [(374.0, 520.0), (0.0, 0.0)] {
                    let drawing = stack(&rocket, &[], width, height);
                    let what = format!("{booster:?} {sustainer:?} {fitted} {width} x {height}");
                    assert_inside(&drawing.shapes(), drawing.view_box, &what);
                    assert_labels(&drawing, &what);
                }
            }
        }
    }
}

#[test]
fn every_part_has_its_label_and_a_single_stage_has_no_booster() {
    let sustainer = stage(2e-3, 0.088, 0.009, 1, 5e-4);
    let two = stack(&rocket(Some(stage(7.5e-3, 0.105, 0.0215, 1, 2.4e-3)), sustainer, false), &[], 374.0, 520.0);
    for part in Part::ALL {
        let times = two.parts.iter().filter(|drawn| drawn.part == part).count();
        assert_eq!(times, usize::from(part.is_drawn()), "{part:?}");
    }
    let one = stack(&rocket(None, sustainer, true), &[], 374.0, 520.0);
    assert!(one.parts.iter().all(|drawn| !matches!(
        drawn.part,
        Part::BoosterVessel
            | Part::BoosterNozzle
            | Part::BoosterWater
            | Part::BoosterBody
            | Part::Timer
            | Part::StagingTube
    )));
    assert_eq!(one.parts.len(), 7);
}

#[test]
fn twelve_sets_are_twelve_vessels() {
    let booster = stage(12e-3, 0.1, 0.02, 12, 4e-3);
    let drawing = stack(&rocket(Some(booster), stage(2e-3, 0.088, 0.009, 1, 5e-4), false), &[], 374.0, 520.0);
    let vessels = drawing.parts.iter().find(|part| part.part == Part::BoosterVessel);
    assert_eq!(vessels.map(|part| part.shapes.len()), Some(12));
}
