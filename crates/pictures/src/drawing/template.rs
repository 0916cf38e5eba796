//! A drill or print template of the restrictor's plate at true size.
//!
//! It is a file of its own and is printed far from our stylesheets, so every element carries its own colours. Its geometry is in mm
//! in every system of units; its words name both.

use core::fmt::Write as _;

use holdwater_design::measure::System;

use super::plate::PlateDrawing;
use super::shape::{escaped, short};
use crate::chart::place::{shortened, wrapped};
use crate::shown::size_with_unit;

/// Blank edge that printers leave, mm.
const MARGIN: f64 = 10.0;
/// Least width of the page, for the words, mm.
const LEAST: f64 = 120.0;
/// Size of text, and of the name, mm.
const TEXT: f64 = 3.4;
const NAME: f64 = 5.0;
/// Height of a row of text, mm.
const ROW: f64 = 5.2;
/// Length of the bar that the print is checked with, mm.
const BAR: f64 = 50.0;

/// The template as an SVG file whose units are millimetres; print it at 100 %. The name is the design's, any text.
#[must_use]
pub fn template(plate: &PlateDrawing, name: &str, units: System) -> String {
    let plate = plate.sound();
    let (across, radius) = (1000.0 * plate.bore_m, 500.0 * plate.bore_m);
    let width = (across + 2.0 * MARGIN).max(LEAST);
    let room = width - 2.0 * MARGIN;
    let title = shortened(name, room, NAME);
    let words = wrapped(&words_of(&plate, units), room, TEXT);
    let bar = both(units, 1e-3 * BAR, 0);
    let check = ["Print at 100 %, not fitted to the page. Then measure: this bar is ", &bar, " long."].concat();
    let check = wrapped(&check, room, TEXT);
    let words_top = MARGIN + NAME + 3.0;
    let plate_top = words_top + ROW * words.len() as f64 + 6.0;
    let bar_top = plate_top + across + 9.0;
    let check_top = bar_top + 6.0;
    let height = check_top + ROW * check.len() as f64 + MARGIN - 3.0;
    let (cx, cy) = (0.5 * width, plate_top + radius);

    // A String takes every write.
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}mm\" height=\"{h}mm\" viewBox=\"0 0 {w} {h}\" \
         font-family=\"system-ui, sans-serif\" font-size=\"{TEXT}\" fill=\"#000\">\n\
         <title>Restrictor of {}</title>\n\
         <rect width=\"{w}\" height=\"{h}\" fill=\"#fff\"/>\n\
         <text x=\"{MARGIN}\" y=\"{}\" font-size=\"{NAME}\">{}</text>\n",
        escaped(name),
        short(MARGIN + 0.8 * NAME),
        escaped(&title),
        w = short(width),
        h = short(height),
    );
    rows(&mut out, &words, words_top);
    let _ = writeln!(
        out,
        "<g fill=\"none\" stroke=\"#000\" stroke-width=\"0.2\">\n\
         <circle class=\"plate\" cx=\"{x}\" cy=\"{y}\" r=\"{}\"/>",
        short(radius),
        x = short(cx),
        y = short(cy)
    );
    let hole = 500.0 * plate.hole_m;
    let arm = (0.6 * hole).clamp(0.6, 3.0);
    let mut crosses = cross((cx, cy), radius + 4.0);
    for (x, y) in &plate.centres {
        let (x, y) = (cx + 1000.0 * x, cy - 1000.0 * y);
        let _ = writeln!(out, "<circle class=\"hole\" cx=\"{}\" cy=\"{}\" r=\"{}\"/>", short(x), short(y), short(hole));
        crosses.push_str(&cross((x, y), arm));
    }
    let _ = writeln!(out, "<path class=\"cross\" stroke-width=\"0.1\" d=\"{crosses}\"/>");
    let (left, right) = (short(MARGIN), short(MARGIN + BAR));
    let _ = writeln!(
        out,
        "<line class=\"bar\" x1=\"{left}\" y1=\"{y}\" x2=\"{right}\" y2=\"{y}\" stroke-width=\"0.3\"/>",
        y = short(bar_top)
    );
    let mut ticks = String::new();
    for step in 0..=5 {
        let tall = if step % 5 == 0 { 2.0 } else { 1.2 };
        let x = short(MARGIN + 10.0 * f64::from(step));
        let _ = write!(ticks, "M{x} {}V{}", short(bar_top - tall), short(bar_top + tall));
    }
    let _ = writeln!(out, "<path d=\"{ticks}\"/>\n</g>");
    let (x, y) = (short(MARGIN + BAR + 2.0), short(bar_top + 1.2));
    let _ = writeln!(out, "<text x=\"{x}\" y=\"{y}\">{bar}</text>");
    rows(&mut out, &check, check_top);
    out.push_str("</svg>\n");
    out
}

fn words_of(plate: &PlateDrawing, units: System) -> String {
    let size = |metres: f64| both(units, metres, 1);
    let across = ["Plate \u{d8}\u{a0}", &size(plate.bore_m), ", as wide as the bore of the vessel; "].concat();
    let holes = match plate.centres.len() {
        0 => "no holes fit.".to_owned(),
        1 => ["one hole \u{d8}\u{a0}", &size(plate.hole_m), "."].concat(),
        count => [&count.to_string(), " holes \u{d8}\u{a0}", &size(plate.hole_m), "."].concat(),
    };
    let web = plate.web().map_or_else(String::new, |web| [" Least web ", &size(web.width_m.max(0.0)), "."].concat());
    [across, holes, web].concat()
}

/// A size in the units of the reader and, where those are others, in mm as well; not broken from its unit.
fn both(units: System, metres: f64, decimals: usize) -> String {
    let size = |units| size_with_unit(units, metres, decimals).replace('\u{2009}', "\u{a0}");
    match units {
        System::Metric => size(units),
        System::Us => [&size(units), " (", &size(System::Metric), ")"].concat(),
    }
}

/// Rows of text from a height downward.
fn rows(out: &mut String, rows: &[String], top: f64) {
    for (index, row) in rows.iter().enumerate() {
        let y = short(top + ROW * index as f64 + TEXT);
        let _ = writeln!(out, "<text x=\"{MARGIN}\" y=\"{y}\">{}</text>", escaped(row));
    }
}

/// Path data of two lines that cross at a point.
fn cross(at: (f64, f64), arm: f64) -> String {
    let (left, right, top, foot) = (short(at.0 - arm), short(at.0 + arm), short(at.1 - arm), short(at.1 + arm));
    let (x, y) = (short(at.0), short(at.1));
    format!("M{left} {y}H{right}M{x} {top}V{foot}")
}
