//! Charts drawn to text.

use holdwater_answers::curves::{DelayCurves, FlightCurves, NamedLine};
use holdwater_answers::numbers::Event;
use holdwater_pictures::chart::{ChartError, ChartLook, Frame, draw_delay, draw_flight};
use holdwater_pictures::theme::Theme;
use plotters::prelude::{IntoDrawingArea, SVGBackend};

fn curves() -> DelayCurves {
    let delay_s: Vec<f64> = (0..=300).map(|index| f64::from(index) * 0.01).collect();
    let settled_m: Vec<f64> = delay_s.iter().map(|delay| 214.0 - 4.0 * delay).collect();
    let bare_m = delay_s.iter().zip(&settled_m).map(|(delay, height)| height - 28.0 * delay).collect();
    let tube_m = settled_m.iter().map(|height| height - 6.0).collect();
    DelayCurves { delay_s, settled_m, bare_m, tube_m, latest_release_s: Some(0.36), ..DelayCurves::default() }
}

fn delay(curves: &DelayCurves, look: &ChartLook) -> (Result<Frame, ChartError>, String) {
    let mut svg = String::new();
    let area = SVGBackend::with_string(&mut svg, look.backend_size()).into_drawing_area();
    let frame = draw_delay(&area, curves, look);
    drop(area);
    (frame, svg)
}

fn look(width: f64, height: f64) -> ChartLook {
    ChartLook::for_svg(Theme::day(), width, height, 2.0)
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
    // More pieces of line than without them: they are dashed.
    let pieces = |svg: &str| svg.matches("<polyline").count();
    assert!(pieces(&svg) > pieces(&delay(&curves(), &look(860.0, 380.0)).1) + 40);
    assert!(delay(&all, &look(270.0, 240.0)).0.is_ok());
}

#[test]
fn nothing_is_drawn_outside_the_picture() {
    for (width, height) in [(270.0, 240.0), (860.0, 380.0), (340.0, 200.0)] {
        let look = look(width, height);
        let (_, svg) = delay(&curves(), &look);
        let (right, bottom) = look.backend_size();
        for points in svg.split("points=\"").skip(1).filter_map(|rest| rest.split('"').next()) {
            for pair in points.split_whitespace() {
                let mut numbers = pair.split(',').filter_map(|text| text.parse::<i64>().ok());
                let (x, y) = (numbers.next().unwrap_or(-1), numbers.next().unwrap_or(-1));
                assert!((0..=i64::from(right)).contains(&x) && (0..=i64::from(bottom)).contains(&y), "{pair}");
            }
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
    let mut svg = String::new();
    let area = SVGBackend::with_string(&mut svg, look.backend_size()).into_drawing_area();
    let frames = draw_flight(&area, &curves, &events, window, look);
    drop(area);
    (frames, svg)
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
    assert!(!svg.contains("apogee"));
    assert_eq!(fly(Some((50.0, 60.0)), &look(374.0, 460.0)).0, Err(ChartError::NothingToDraw));
}

#[test]
fn long_records_become_short_drawings() {
    let (_, svg) = fly(None, &look(374.0, 460.0));
    let points = svg.matches(',').count();
    assert!(points < 6000, "{points} points for 18000 samples");
}
