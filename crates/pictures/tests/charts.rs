//! Charts drawn to text.

mod common;

use common::{assert_legible, path_points, words};
use holdwater_answers::curves::{DelayCurves, FlightCurves, NamedLine};
use holdwater_answers::numbers::Event;
use holdwater_design::measure::System::{self, Metric, Us};
use holdwater_pictures::chart::{ChartError, ChartLook, Frame, delay_svg, draw_delay, draw_flight, flight_svg};
use holdwater_pictures::theme::Theme;
use plotters::prelude::SVGBackend;

fn curves() -> DelayCurves {
    let delay_s: Vec<f64> = (0..=300).map(|index| f64::from(index) * 0.01).collect();
    let settled_m: Vec<f64> = delay_s.iter().map(|delay| 214.0 - 4.0 * delay).collect();
    let bare_m = delay_s.iter().zip(&settled_m).map(|(delay, height)| height - 28.0 * delay).collect();
    let tube_m = settled_m.iter().map(|height| height - 6.0).collect();
    DelayCurves { delay_s, settled_m, bare_m, tube_m, latest_release_s: Some(0.36), ..DelayCurves::default() }
}

fn delay(curves: &DelayCurves, look: &ChartLook) -> (Result<Frame, ChartError>, String) {
    let mut painted = String::new();
    let backend = SVGBackend::with_string(&mut painted, look.backend_size());
    let frame = draw_delay(backend, curves, look);
    (frame, delay_svg(curves, look).unwrap_or_default())
}

fn look(width: f64, height: f64) -> ChartLook {
    ChartLook::new(Theme::day(), width, height, 2.0)
}

#[test]
fn the_chart_names_its_lines_its_zone_and_its_units() {
    let (frame, svg) = delay(&curves(), &look(860.0, 380.0));
    assert!(frame.is_ok(), "{frame:?}");
    for word in [
        "settled ideal",
        "bare",
        "as fitted",
        "latest release 0.36",
        "lifted water costs more than 1\u{a0}%",
        "delay, s",
        "height, m",
    ] {
        assert!(svg.contains(word), "{word}");
    }
}

#[test]
fn further_choices_have_lines_with_dashes_of_their_own() {
    let line = |name: &str, less: f64| NamedLine {
        name: name.to_owned(),
        heights: curves().settled_m.iter().map(|height| height - less).collect(),
    };
    let none = NamedLine { name: "no answer".to_owned(), heights: vec![f64::NAN; 301] };
    let all = DelayCurves { more: vec![line("best restrictor", 2.0), none, line("best tube", 4.0)], ..curves() };
    let (frame, svg) = delay(&all, &look(860.0, 380.0));
    assert!(frame.is_ok(), "{frame:?}");
    assert!(svg.contains("best restrictor") && svg.contains("best tube") && !svg.contains("no answer"));
    let mut dashes: Vec<&str> =
        svg.split("stroke-dasharray=\"").skip(1).filter_map(|rest| rest.split('"').next()).collect();
    dashes.sort_unstable();
    dashes.dedup();
    assert!(dashes.len() == 4, "{dashes:?}");
    assert!(delay(&all, &look(270.0, 240.0)).0.is_ok());
}

#[test]
fn nothing_is_drawn_outside_the_picture() {
    for (width, height) in [(270.0, 240.0), (860.0, 380.0), (340.0, 200.0)] {
        let look = look(width, height);
        let (_, svg) = delay(&curves(), &look);
        for (x, y) in path_points(&svg) {
            assert!((0.0..=width).contains(&x) && (0.0..=height).contains(&y), "{x} {y}");
        }
    }
}

#[test]
fn the_axis_starts_where_the_question_starts() {
    let (frame, _) = delay(&curves(), &look(270.0, 240.0));
    assert!(frame.is_ok_and(|frame| frame.y_range.0 >= 100.0 && frame.y_range.1 >= 214.0));
    let mut dud = curves();
    dud.bare_m = dud.delay_s.iter().map(|delay| if *delay < 1.0 { 210.0 } else { 20.0 }).collect();
    let (frame, _) = delay(&dud, &look(270.0, 240.0));
    assert!(frame.is_ok_and(|frame| frame.y_range.0.abs() < 1e-9));
}

#[test]
fn the_frame_lies_where_the_lines_are() {
    let (frame, _) = delay(&curves(), &look(270.0, 240.0));
    let Ok(frame) = frame else { panic!("{frame:?}") };
    assert!(frame.left > 0.0 && frame.right < 270.0 && frame.top > 0.0 && frame.bottom < 240.0);
    assert!(frame.width() > 150.0 && frame.height() > 150.0, "{frame:?}");
    assert!((frame.delay_at(frame.x_of(0.36)) - 0.36).abs() < 1e-9);
}

#[test]
fn odd_curves_are_refused_or_drawn_but_never_break() {
    let odd = [
        DelayCurves::default(),
        DelayCurves { delay_s: vec![1.0], bare_m: vec![2.0], ..DelayCurves::default() },
        DelayCurves { delay_s: vec![0.0, 1.0], bare_m: vec![f64::NAN; 2], ..DelayCurves::default() },
        DelayCurves { delay_s: vec![1.0, 1.0], bare_m: vec![5.0, 6.0], ..DelayCurves::default() },
    ];
    for curves in odd {
        assert_eq!(delay(&curves, &look(270.0, 240.0)).0, Err(ChartError::NothingToDraw), "{curves:?}");
    }
    let drawn = [
        DelayCurves { bare_m: vec![7.0; 301], ..curves() },
        DelayCurves { bare_m: vec![1e300; 301], ..curves() },
        DelayCurves { settled_m: vec![f64::INFINITY; 301], latest_release_s: Some(f64::NAN), ..curves() },
        DelayCurves { latest_release_s: Some(0.0), ..curves() },
        DelayCurves { latest_release_s: Some(-5.0), ..curves() },
        DelayCurves { tube_m: vec![200.0; 3], ..curves() },
    ];
    for curves in drawn {
        assert!(delay(&curves, &look(270.0, 240.0)).0.is_ok());
    }
    for (width, height) in [(0.0, 0.0), (90.0, 240.0), (270.0, 40.0), (f64::NAN, 240.0)] {
        assert_eq!(delay(&curves(), &look(width, height)).0, Err(ChartError::TooSmall), "{width} x {height}");
    }
}

fn flight() -> (FlightCurves, Vec<Event>) {
    let t_s: Vec<f64> = (0..=6000).map(|index| f64::from(index) * 0.001).collect();
    let h_m = t_s.iter().map(|t| 70.0 * t - 5.0 * t * t).collect();
    let v_mps = t_s.iter().map(|t| 70.0 - 10.0 * t).collect();
    let a_mps2 = t_s.iter().map(|t| if *t < 0.2 { 900.0 } else { -10.0 }).collect();
    let event = |what, t_s| Event { what, t_s, after_burnout_s: None, h_m: 0.0, v_mps: 0.0 };
    let events = vec![event("lift-off", 0.0), event("burnout", 0.2), event("release", 1.2), event("apogee", 6.0)];
    (FlightCurves { t_s, h_m, v_mps, a_mps2 }, events)
}

fn fly(window: Option<(f64, f64)>, look: &ChartLook) -> (Result<[Frame; 3], ChartError>, String) {
    let (curves, events) = flight();
    let mut painted = String::new();
    let backend = SVGBackend::with_string(&mut painted, look.backend_size());
    let frames = draw_flight(backend, &curves, &events, window, look);
    (frames, flight_svg(&curves, &events, window, look).unwrap_or_default())
}

#[test]
fn three_panels_share_one_time_axis() {
    let (frames, svg) = fly(None, &look(374.0, 460.0));
    let Ok(frames) = frames else { panic!("{frames:?}") };
    assert!(frames[0].bottom < frames[1].top && frames[1].bottom < frames[2].top);
    assert!((frames[0].left - frames[2].left).abs() < 1e-12 && frames[0].x_range == frames[2].x_range);
    for word in ["height, m", "speed, m/s", "acceleration, m/s", "burnout", "apogee"] {
        assert!(svg.contains(word), "{word}");
    }
}

#[test]
fn a_window_shows_its_part_only() {
    let (frames, svg) = fly(Some((0.0, 0.5)), &look(374.0, 460.0));
    assert!(frames.is_ok_and(|frames| (frames[0].x_range.1 - 0.5).abs() < 1e-9 && frames[0].y_range.1 < 60.0));
    assert!(!words(&svg).iter().any(|(text, _)| text == "apogee"));
    assert_eq!(fly(Some((50.0, 60.0)), &look(374.0, 460.0)).0, Err(ChartError::NothingToDraw));
}

#[test]
fn long_records_become_short_drawings() {
    let (_, svg) = fly(None, &look(374.0, 460.0));
    let points = path_points(&svg).len();
    assert!(points < 6000, "{points} points for 18000 samples");
}

/// Shapes of the delay curves that crowd the picture in different ways.
fn crowded() -> Vec<DelayCurves> {
    let steep =
        DelayCurves { bare_m: curves().delay_s.iter().map(|d| 214.0 - 60.0 * d.min(1.2)).collect(), ..curves() };
    let mut all = Vec::new();
    for base in [curves(), DelayCurves { tube_m: Vec::new(), ..steep }] {
        for latest_release_s in [None, Some(0.0), Some(0.36), Some(2.9)] {
            for uncovers_s in [None, Some(0.39), Some(3.0)] {
                all.push(DelayCurves { latest_release_s, uncovers_s, ..base.clone() });
            }
        }
    }
    all
}

#[test]
fn words_neither_collide_nor_leave_the_picture_in_either_system() {
    for (index, curves) in crowded().iter().enumerate() {
        for (width, height) in [
            (176.0, 352.0),
            (246.0, 352.0),
            (270.0, 240.0),
            (304.0, 260.0),
            (320.0, 260.0),
            (374.0, 300.0),
            (860.0, 380.0),
        ] {
            for units in [Metric, Us] {
                let (frame, svg) = delay(curves, &look(width, height).in_units(units));
                assert!(frame.is_ok(), "{index}: {frame:?}");
                assert_legible(&svg, width, height, &format!("{index} at {width} x {height} {units:?}"));
            }
        }
    }
    for (width, height) in [(304.0, 460.0), (374.0, 460.0), (860.0, 460.0)] {
        for window in [None, Some((0.0, 0.5))] {
            for units in [Metric, Us] {
                let (_, svg) = fly(window, &look(width, height).in_units(units));
                assert_legible(&svg, width, height, &format!("{width} {window:?} {units:?}"));
            }
        }
    }
}

#[test]
fn the_name_of_the_zone_hides_no_curve() {
    for (index, curves) in crowded().iter().enumerate() {
        for width in [176.0, 246.0, 270.0, 304.0, 320.0, 374.0, 860.0] {
            let (frame, svg) = delay(curves, &look(width, 260.0));
            let Ok(frame) = frame else { panic!("{frame:?}") };
            for (text, area) in words(&svg).iter().filter(|(_, area)| area[1] > frame.top && area[3] < frame.bottom) {
                if area[2] < frame.left || area[0] > frame.right {
                    continue;
                }
                for (delay, height) in curves.delay_s.iter().zip(&curves.bare_m) {
                    let (x, y) = (frame.x_of(*delay), frame.y_of(*height));
                    let hidden = area[0] < x && x < area[2] && area[1] < y && y < area[3];
                    assert!(!hidden, "{index} at {width}: {text} {area:?} over {x} {y}");
                }
            }
        }
    }
}

#[test]
fn the_uncovering_is_marked_where_it_happens() {
    let marked = DelayCurves { uncovers_s: Some(0.5), ..curves() };
    for (width, phrase) in [
        (176.0, "uncovered from 0.50\u{2009}s"),
        (246.0, "bare: uncovered from 0.50\u{2009}s"),
        (860.0, "bare: nozzle uncovered from 0.50\u{2009}s"),
    ] {
        let (frame, svg) = delay(&marked, &look(width, 300.0));
        let Ok(frame) = frame else { panic!("{frame:?}") };
        assert!(words(&svg).iter().any(|(text, area)| text == phrase && area[1] > frame.bottom), "{svg}");
        let x = frame.x_of(0.5);
        assert!(path_points(&svg).iter().filter(|point| (point.0 - x).abs() < 0.3).count() >= 4);
        assert!(!delay(&curves(), &look(width, 300.0)).1.contains("uncovered"));
    }
}

/// The places of the numbers along an axis, against the frame: 0.3048 m to the foot.
fn assert_axis(svg: &str, frame: &Frame, metres: f64) {
    let of_axis = |area: &[f64; 4]| area[2] < frame.left && area[1] > frame.top - 12.0 && area[3] < frame.bottom + 12.0;
    let mut seen = 0;
    for (text, area) in words(svg).iter().filter(|(_, area)| of_axis(area)) {
        let Ok(number) = text.replace('\u{2212}', "-").parse::<f64>() else { continue };
        assert!((area[1] + 0.45 * 12.0 - frame.y_of(number * metres)).abs() < 0.1, "{text} {area:?}");
        seen += 1;
    }
    assert!(seen >= 2, "{seen} numbers");
}

#[test]
fn closed_form_axes_in_feet_are_round_and_frames_stay_metric() {
    let feet = 0.3048;
    for (units, metres) in [(Metric, 1.0), (Us, feet)] {
        let (frame, svg) = delay(&curves(), &look(374.0, 300.0).in_units(units));
        let Ok(frame) = frame else { panic!("{frame:?}") };
        assert_axis(&svg, &frame, metres);
        assert!((190.0..230.0).contains(&frame.y_range.1), "{frame:?}");
        let (frames, svg) = fly(None, &look(374.0, 460.0).in_units(units));
        let Ok(frames) = frames else { panic!("{frames:?}") };
        frames.iter().for_each(|frame| assert_axis(&svg, frame, metres));
    }
    let (_, svg) = fly(None, &look(374.0, 460.0).in_units(Us));
    for word in ["height, ft", "speed, ft/s", "acceleration, ft/s\u{b2}"] {
        assert!(words(&svg).iter().any(|(text, _)| text == word), "{word}");
    }
}

#[test]
fn a_file_stands_alone() {
    let look = |units: System| ChartLook::for_file(units);
    let Ok(svg) = delay_svg(&curves(), &look(Us)) else { panic!("no file") };
    assert!(svg.starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\"") && svg.ends_with("</svg>\n"));
    assert!(
        svg.contains(" width=\"900\"") && svg.contains(" height=\"560\"") && svg.contains("viewBox=\"0 0 900 560\"")
    );
    assert!(svg.contains("<title>Height against delay") && svg.contains(&Theme::day().paper.css()));
    assert!(!svg.contains("style") && !svg.contains("class") && !svg.contains("NaN"));
    let nasty = NamedLine { name: "<b> & \u{0}\"".to_owned(), heights: curves().settled_m };
    let Ok(svg) = delay_svg(&DelayCurves { more: vec![nasty], ..curves() }, &look(Metric)) else { panic!("no file") };
    assert!(svg.contains("&lt;b&gt; &amp; \"") && !svg.contains('\u{0}') && !svg.contains("<b>"), "{svg}");
    assert_eq!(delay_svg(&DelayCurves::default(), &look(Metric)), Err(ChartError::NothingToDraw));
}

/// Both ways to draw are of the same marks: every text is in both.
#[test]
fn a_backend_is_given_what_the_file_holds() {
    let look = look(374.0, 300.0);
    let mut painted = String::new();
    let backend = SVGBackend::with_string(&mut painted, look.backend_size());
    assert!(draw_delay(backend, &curves(), &look).is_ok());
    let Ok(file) = delay_svg(&curves(), &look) else { panic!("no file") };
    for (text, _) in words(&file) {
        assert!(painted.contains(&text), "{text}");
    }
}

#[test]
fn what_cannot_be_drawn_leaves_blank_paper() {
    let look = look(374.0, 300.0);
    let mut painted = String::new();
    let backend = SVGBackend::with_string(&mut painted, look.backend_size());
    assert!(draw_delay(backend, &DelayCurves::default(), &look).is_err());
    assert_eq!(painted.matches("<polygon").count(), 1, "{painted}");
}
