//! Writes every chart and drawing with made-up curves into a folder: `cargo run --example gallery -- FOLDER`.
//!
//! The numbers are plausible and nothing more; the gallery is for looking.

use std::error::Error;
use std::fs;
use std::path::Path;

use holdwater_answers::curves::{DelayCurves, FlightCurves, WaterPicture};
use holdwater_answers::numbers::Event;
use holdwater_physics::rocket::{LaunchTube, Restrictor, Rocket, Stage};
use holdwater_pictures::chart::{ChartLook, draw_delay, draw_flight, thrust_window};
use holdwater_pictures::drawing::{Shape, cutaway, stack, stylesheet, to_svg};
use holdwater_pictures::theme::Theme;
use plotters::prelude::{IntoDrawingArea, SVGBackend};

fn main() -> Result<(), Box<dyn Error>> {
    let folder = std::env::args().nth(1).ok_or("name a folder")?;
    let folder = Path::new(&folder);
    fs::create_dir_all(folder)?;
    for (name, theme) in [("day", Theme::day()), ("dusk", Theme::dusk()), ("sun", Theme::sun())] {
        for (size, width, height) in [("phone", 270.0, 240.0), ("wide", 860.0, 380.0)] {
            let look = ChartLook::for_svg(theme, width, height, 8.0);
            for (kind, curves) in [("coast", falling()), ("dud", dud()), ("calm", calm())] {
                let mut svg = String::new();
                draw_delay(
                    &SVGBackend::with_string(&mut svg, look.backend_size()).into_drawing_area(),
                    &curves,
                    &look,
                )?;
                fs::write(folder.join(format!("delay-{kind}-{size}-{name}.svg")), svg)?;
            }
            let look = ChartLook::for_svg(theme, if width < 400.0 { 374.0 } else { width }, 460.0, 8.0);
            let (flight, events) = flight();
            for (kind, window) in [("whole", None), ("thrust", thrust_window(&flight))] {
                let mut svg = String::new();
                let area = SVGBackend::with_string(&mut svg, look.backend_size()).into_drawing_area();
                draw_flight(&area, &flight, &events, window, &look)?;
                drop(area);
                fs::write(folder.join(format!("flight-{kind}-{size}-{name}.svg")), svg)?;
            }
        }
        let sheet = stylesheet(&theme);
        for (kind, picture) in waters() {
            for (size, width, height) in [("phone", 100.0, 240.0), ("wide", 260.0, 380.0)] {
                let drawing = cutaway(&picture, width, height);
                let svg = to_svg(&drawing.shapes, drawing.view_box, &sheet, &drawing.description);
                fs::write(folder.join(format!("cutaway-{kind}-{size}-{name}.svg")), svg)?;
            }
        }
        for (kind, rocket) in rockets() {
            let drawing = stack(&rocket, 374.0, 520.0);
            let mut shapes = drawing.shapes();
            shapes.extend(drawing.parts.iter().map(|part| Shape::Rect { area: part.hit, class: "button" }));
            let svg = to_svg(&shapes, drawing.view_box, &sheet, &drawing.description);
            fs::write(folder.join(format!("stack-{kind}-phone-{name}.svg")), svg)?;
        }
    }
    Ok(())
}

fn falling() -> DelayCurves {
    let delay_s: Vec<f64> = (0..=150).map(|index| f64::from(index) * 0.02).collect();
    let settled_m: Vec<f64> = delay_s.iter().map(|d| 214.0 + 6.0 * d - 4.5 * d * d).collect();
    let bare_m =
        delay_s.iter().zip(&settled_m).map(|(d, h)| h - 46.0 * (d - 0.25f64).max(0.0) / (1.0 + 0.1 * d)).collect();
    let tube_m = settled_m.iter().zip(&delay_s).map(|(h, d)| h - 9.0 - d).collect();
    DelayCurves { delay_s, settled_m, bare_m, tube_m, latest_release_s: Some(0.36), uncovers_s: Some(0.9) }
}

fn dud() -> DelayCurves {
    let mut curves = falling();
    curves.bare_m = curves.delay_s.iter().map(|d| if *d < 0.9 { 214.0 - 20.0 * d } else { 24.0 }).collect();
    curves.tube_m.clear();
    curves.latest_release_s = Some(2.6);
    curves
}

fn calm() -> DelayCurves {
    let mut curves = falling();
    curves.bare_m = curves.settled_m.iter().map(|h| h - 0.4).collect();
    curves.latest_release_s = None;
    curves
}

fn flight() -> (FlightCurves, Vec<Event>) {
    let mut curves = FlightCurves::default();
    let (mut h, mut v) = (0.0, 0.0);
    for index in 0..6500 {
        let t = f64::from(index) * 0.001;
        let a = match t {
            t if t < 0.19 => 90.0 + 900.0 * t,
            t if t < 0.23 => 420.0 - 8000.0 * (t - 0.19),
            t if t < 1.23 => -9.81 - 0.006 * v * v,
            t if t < 1.62 => 40.0 + 120.0 * (t - 1.23),
            t if t < 1.66 => 150.0,
            _ => -9.81 - 0.004 * v * v,
        };
        v += a * 0.001;
        h += v * 0.001;
        curves.t_s.push(t);
        curves.h_m.push(h);
        curves.v_mps.push(v);
        curves.a_mps2.push(a);
        if v < 0.0 && t > 2.0 {
            break;
        }
    }
    let apogee = curves.t_s.last().copied().unwrap_or(6.0);
    let event = |what, t_s| Event { what, t_s, after_burnout_s: None, h_m: 0.0, v_mps: 0.0 };
    let events = vec![
        event("lift-off", 0.0),
        event("booster water gone", 0.19),
        event("burnout", 0.23),
        event("release", 1.23),
        event("sustainer water gone", 1.62),
        event("sustainer burnout", 1.66),
        event("apogee", apogee),
    ];
    (curves, events)
}

fn waters() -> Vec<(&'static str, WaterPicture)> {
    let seated = WaterPicture {
        length_m: 0.329,
        bore_m: 0.088,
        nozzle_m: 0.009,
        standing_m: 0.082,
        finger_m: 0.0,
        lifted_m3: 0.0,
        lifted_height_m: 0.0,
        at_nose: false,
        covered: true,
        tube_m: None,
        restrictor_m: None,
    };
    let climbing = WaterPicture { finger_m: 0.061, lifted_m3: 1.4e-4, lifted_height_m: 0.19, ..seated };
    let bare = WaterPicture {
        finger_m: 0.082,
        lifted_m3: 4.2e-4,
        lifted_height_m: 0.29,
        at_nose: true,
        covered: false,
        ..seated
    };
    let long = WaterPicture {
        length_m: 1.9,
        bore_m: 0.05,
        standing_m: 0.6,
        finger_m: 0.2,
        lifted_m3: 3e-4,
        lifted_height_m: 1.2,
        ..seated
    };
    vec![
        ("seated", seated),
        ("climbing", climbing),
        ("uncovered", bare),
        ("restrictor", WaterPicture { restrictor_m: Some((0.085, 0.006, 19)), ..seated }),
        (
            "tube",
            WaterPicture {
                tube_m: Some((0.2, 0.0085)),
                finger_m: 0.02,
                lifted_m3: 2e-5,
                lifted_height_m: 0.1,
                ..seated
            },
        ),
        ("long", long),
        ("squat", WaterPicture { length_m: 0.05, bore_m: 0.3, standing_m: 0.02, ..climbing }),
    ]
}

fn rockets() -> Vec<(&'static str, Rocket)> {
    let curlew = holdwater_design::Design::default().rocket();
    let sustainer = curlew.sustainer;
    let booster = curlew.booster.unwrap_or(sustainer);
    let tube = LaunchTube { length_m: 0.22, outer_m: 0.0085, wall_m: 0.001 };
    let plate =
        Restrictor { hole_m: 0.02, holes: 1, height_m: 0.085, discharge: None, trusted_share: 0.5, mass_kg: 0.012 };
    vec![
        ("curlew", curlew),
        (
            "fitted",
            Rocket {
                pad_tube: Some(LaunchTube { length_m: 0.7, outer_m: 0.0205, wall_m: 0.001 }),
                staging_tube: Some(tube),
                restrictor: Some(plate),
                ..curlew
            },
        ),
        ("cluster", Rocket { booster: Some(Stage { sets: 6, volume_m3: 15e-3, water_m3: 5e-3, ..booster }), ..curlew }),
        ("single", Rocket { booster: None, restrictor: Some(plate), ..curlew }),
        (
            "long",
            Rocket {
                booster: Some(Stage { volume_m3: 12e-3, bore_m: 0.07, ..booster }),
                sustainer: Stage { bore_m: 0.05, volume_m3: 4e-3, ..sustainer },
                ..curlew
            },
        ),
    ]
}
