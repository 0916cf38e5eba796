//! Writes every chart and drawing with made-up curves into a folder: `cargo run --example gallery -- FOLDER`.
//!
//! The numbers are plausible and nothing more; the gallery is for looking.

use std::error::Error;
use std::fs;
use std::path::Path;

use holdwater_answers::curves::{BoreCurves, DelayCurves, FlightCurves, NamedLine, WaterPicture};
use holdwater_answers::numbers::Event;
use holdwater_design::measure::System::{self, Metric, Us};
use holdwater_design::measure::said;
use holdwater_design::parts::{PartKind, PartStage};
use holdwater_physics::rocket::{LaunchTube, Restrictor, Rocket, Stage};
use holdwater_pictures::chart::{ChartError, ChartLook, bore_svg, delay_svg, flight_svg, thrust_window};
use holdwater_pictures::drawing::{
    Drawing, PartBar, PartMark, PlateDrawing, Shape, Verdict, cutaway, margins, placed, plate, stack, stylesheet,
    template, to_svg,
};
use holdwater_pictures::theme::Theme;

fn main() -> Result<(), Box<dyn Error>> {
    let folder = std::env::args().nth(1).ok_or("name a folder")?;
    let folder = Path::new(&folder);
    fs::create_dir_all(folder)?;
    for (name, theme, units) in [
        ("day", Theme::day(), Metric),
        ("day-us", Theme::day(), Us),
        ("dusk", Theme::dusk(), Metric),
        ("sun", Theme::sun(), Metric),
    ] {
        charts(folder, name, theme, units)?;
        drawings(folder, name, theme, units)?;
    }
    for (kind, what) in plates() {
        for (name, units) in [("metric", Metric), ("us", Us)] {
            let file = folder.join(format!("template-{kind}-{name}.svg"));
            fs::write(file, template(&what, "Curlew 3 <wet & windy>", units))?;
        }
    }
    Ok(())
}

fn charts(folder: &Path, name: &str, theme: Theme, units: System) -> Result<(), Box<dyn Error>> {
    let write = |kind: &str, size: &str, svg: Result<String, _>| -> Result<(), Box<dyn Error>> {
        svg.map_err(|error: ChartError| error.to_string())
            .and_then(|svg| fs::write(folder.join(format!("{kind}-{size}-{name}.svg")), svg).map_err(|e| e.to_string()))
            .map_err(Into::into)
    };
    for (size, width, height) in
        [("tiny", 270.0, 240.0), ("304", 304.0, 300.0), ("374", 374.0, 320.0), ("860", 860.0, 400.0)]
    {
        let look = ChartLook::new(theme, width, height, ChartLook::FINE).in_units(units);
        for (kind, curves) in [("coast", falling()), ("dud", dud()), ("calm", calm()), ("choices", choices())] {
            write(&format!("delay-{kind}"), size, delay_svg(&curves, &look))?;
        }
        for (kind, curves) in bores() {
            write(&format!("bore-{kind}"), size, bore_svg(&curves, &look))?;
        }
        let look = ChartLook { height_px: 460.0, ..look };
        let (flight, events) = flight();
        for (kind, window) in [("whole", None), ("thrust", thrust_window(&flight))] {
            write(&format!("flight-{kind}"), size, flight_svg(&flight, &events, window, &look))?;
        }
    }
    write("delay-choices", "file", delay_svg(&choices(), &ChartLook::for_file(units)))
}

fn drawings(folder: &Path, name: &str, theme: Theme, units: System) -> Result<(), Box<dyn Error>> {
    let sheet = stylesheet(&theme);
    let write = |file: String, drawing: &Drawing| {
        fs::write(folder.join(file), to_svg(&drawing.shapes, drawing.view_box, &sheet, &drawing.description))
    };
    for (size, width) in [("374", 374.0), ("180", 180.0), ("560", 560.0)] {
        for (kind, what) in plates() {
            write(format!("plate-{kind}-{size}-{name}.svg"), &plate(&what, width, 0.9 * width, units))?;
        }
        if size != "180" {
            write(format!("margins-{size}-{name}.svg"), &margins(&parts(units), width, 0.0))?;
        }
    }
    for (kind, picture) in waters() {
        for (size, width, height) in [("100", 100.0, 240.0), ("260", 260.0, 380.0)] {
            write(format!("cutaway-{kind}-{size}-{name}.svg"), &cutaway(&picture, width, height, units))?;
        }
    }
    for (kind, rocket) in rockets() {
        let drawing = stack(&rocket, &marks(&rocket), 374.0, 520.0);
        let mut shapes = drawing.shapes();
        shapes.extend(drawing.parts.iter().map(|part| Shape::Rect { area: part.hit, class: "button" }));
        let svg = to_svg(&shapes, drawing.view_box, &sheet, &drawing.description);
        fs::write(folder.join(format!("stack-{kind}-374-{name}.svg")), svg)?;
        let drawing = placed(&rocket, &marks(&rocket), 358.0, 360.0);
        let svg = to_svg(&drawing.shapes(), drawing.view_box, &sheet, "Vessel parts on the stack");
        fs::write(folder.join(format!("placed-{kind}-358-{name}.svg")), svg)?;
    }
    Ok(())
}

/// Three vessel parts of every kind, one of them without a margin.
fn marks(rocket: &Rocket) -> Vec<PartMark> {
    let mark = |(index, kind): (usize, PartKind)| PartMark {
        number: index + 1,
        name: kind.word().label.to_owned(),
        kind,
        stage: if rocket.booster.is_some() && index % 3 > 0 { PartStage::Booster } else { PartStage::Sustainer },
        margin: (index != 3).then_some(0.31 * ((index * 7) % 24) as f64 - 0.2),
        verdict: [Verdict::Over, Verdict::Thin, Verdict::Holds][((index * 7) % 24).min(2)],
        weakest: index == 0,
    };
    [PartKind::ALL; 3].into_iter().flatten().enumerate().map(mark).collect()
}

fn choices() -> DelayCurves {
    let mut curves = falling();
    let less = |loss: f64, slope: f64| {
        curves.delay_s.iter().zip(&curves.settled_m).map(|(d, h)| h - loss - slope * d).collect::<Vec<f64>>()
    };
    let line = |name: &str, heights| NamedLine { name: name.to_owned(), heights };
    curves.more = vec![line("best restrictor", less(3.0, 0.2)), line("best tube", less(5.0, 3.0))];
    curves
}

fn bores() -> Vec<(&'static str, BoreCurves)> {
    let bore_m: Vec<f64> = (0..=120).map(|index| 1e-3 * 3.0 * 1.025f64.powi(index)).collect();
    let height = |bore: f64| {
        let (choke, leak) = ((5e-3 / bore).powi(4), ((bore - 0.019) / 0.02).max(0.0));
        212.0 - 70.0 * choke / (1.0 + choke) - 44.0 * leak * leak / (1.0 + leak * leak)
    };
    let height_m: Vec<f64> = bore_m.iter().map(|bore| height(*bore)).collect();
    let one = BoreCurves {
        holes: 1,
        ideal_m: 212.6,
        bare_m: 189.0,
        holds_below_m: 0.0134,
        leaks_above_m: 0.019,
        chokes_below_m: Some(0.0095),
        share: 0.01,
        window_m: Some((0.0095, 0.0232)),
        best_m: Some((0.0181, height(0.0181))),
        fitted_m: Some((0.020, height(0.020))),
        bore_m,
        height_m,
    };
    let edge = BoreCurves {
        holes: 37,
        holds_below_m: 0.0031,
        leaks_above_m: 0.0036,
        chokes_below_m: Some(0.0034),
        window_m: None,
        best_m: Some((0.0576, 205.0)),
        fitted_m: Some((0.0576, 205.0)),
        ..one.clone()
    };
    let dud = BoreCurves {
        height_m: one
            .height_m
            .iter()
            .zip(&one.bore_m)
            .map(|(h, b)| if *b < 4e-3 { f64::NAN } else { h - 4.0 })
            .collect(),
        bare_m: 12.0,
        chokes_below_m: None,
        fitted_m: None,
        ..one.clone()
    };
    vec![("one", one), ("edge", edge), ("dud", dud)]
}

fn plates() -> Vec<(&'static str, PlateDrawing)> {
    let ring = |pitch: f64| {
        let mut centres = vec![(0.0, 0.0)];
        for (x, y) in
            [(1.0, 0.0), (0.5, 0.866_025), (-0.5, 0.866_025), (-1.0, 0.0), (-0.5, -0.866_025), (0.5, -0.866_025)]
        {
            centres.push((pitch * x, pitch * y));
        }
        centres
    };
    let mut many = Vec::new();
    for row in -8i32..=8 {
        for column in -8i32..=8 {
            let at = (0.0078 * (f64::from(column) + 0.5 * f64::from(row)), 0.0078 * 0.866_025 * f64::from(row));
            if at.0 * at.0 + at.1 * at.1 < 0.0395 * 0.0395 {
                many.push(at);
            }
        }
    }
    let bore_m = 0.088;
    vec![
        ("one", PlateDrawing { bore_m, hole_m: 0.02, centres: vec![(0.0, 0.0)] }),
        ("seven", PlateDrawing { bore_m, hole_m: 0.012, centres: ring(0.024) }),
        ("many", PlateDrawing { bore_m, hole_m: 0.0055, centres: many }),
        ("none", PlateDrawing { bore_m: 0.2, hole_m: 0.02, centres: Vec::new() }),
    ]
}

fn parts(units: System) -> Vec<PartBar> {
    let part = |name: &str, share, verdict, stress: &str| PartBar {
        name: name.to_owned(),
        share,
        verdict,
        stress: said(stress, units),
    };
    vec![
        part("booster shell", 0.52, Verdict::Holds, "hoop stress 41 of 79 MPa allowable"),
        part(
            "sleeve over the middle splice of the booster, second winding",
            0.93,
            Verdict::Thin,
            "shear 1.9 of 2.0 MPa allowable",
        ),
        part("sustainer end closure", 1.31, Verdict::Over, "bending 118 of 90 MPa allowable"),
        part("screwed coupling", 4.4, Verdict::Over, "12.1 of 2.8 bar rated"),
        part("launch tube", f64::NAN, Verdict::Holds, "wall not given"),
    ]
}

fn falling() -> DelayCurves {
    let delay_s: Vec<f64> = (0..=150).map(|index| f64::from(index) * 0.02).collect();
    let settled_m: Vec<f64> = delay_s.iter().map(|d| 214.0 + 6.0 * d - 4.5 * d * d).collect();
    let bare_m =
        delay_s.iter().zip(&settled_m).map(|(d, h)| h - 46.0 * (d - 0.25f64).max(0.0) / (1.0 + 0.1 * d)).collect();
    let tube_m = settled_m.iter().zip(&delay_s).map(|(h, d)| h - 9.0 - d).collect();
    DelayCurves {
        delay_s,
        settled_m,
        bare_m,
        tube_m,
        latest_release_s: Some(0.36),
        uncovers_s: Some(0.9),
        more: Vec::new(),
    }
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
        ..WaterPicture::default()
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
            "hanging",
            WaterPicture {
                restrictor_m: Some((0.085, 0.02, 1)),
                gas_at_nozzle_m3: 1e-4,
                leaked_m3: 8e-5,
                finger_m: 0.082,
                ..seated
            },
        ),
        (
            "gap",
            WaterPicture {
                restrictor_m: Some((0.13, 0.02, 1)),
                finger_m: 0.04,
                lifted_m3: 6e-5,
                lifted_height_m: 0.11,
                ..seated
            },
        ),
        (
            "overfilled",
            WaterPicture {
                restrictor_m: Some((0.06, 0.006, 19)),
                finger_m: 0.015,
                lifted_m3: 6e-5,
                lifted_height_m: 0.25,
                ..seated
            },
        ),
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
