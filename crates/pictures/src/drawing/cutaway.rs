//! The sustainer in section, with its water where it is at one moment of the coast.

use holdwater_answers::curves::WaterPicture;
use holdwater_design::measure::{Measure, System};

use super::contents::{Contents, Paper, draw_water};
use super::dimensions::{ROW, TEXT, decimals_of, draw_dimensions, length, length_with_unit};
use super::shape::{Anchor, Area, Shape};
use super::vessel::{Vessel, positive};
use crate::chart::place::text_width;
use crate::shown::{Saying, titled};

/// A drawing with what it shows in words.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// The picture's rectangle; one unit is one CSS px at the size asked for.
    pub view_box: Area,
    /// Shapes from back to front.
    pub shapes: Vec<Shape>,
    /// What the drawing shows, in one sentence.
    pub description: String,
}

/// Below this width dimensions are bare numbers and their unit is written once, px.
const NARROW: f64 = 170.0;

/// Draws the sustainer's vessel upright, nozzle down, to scale in both directions.
#[must_use]
pub fn cutaway(picture: &WaterPicture, width: f64, height: f64, units: System) -> Drawing {
    let (width, height) = (positive(width, 84.0).min(8192.0), positive(height, 120.0).min(8192.0));
    let narrow = width < NARROW;
    let contents = Contents::new(picture);
    let vessel = &contents.vessel;

    let dimension = |word: &str, metres: f64| {
        if narrow { length(units, metres) } else { [word, " ", &length_with_unit(units, metres)].concat() }
    };
    let finger = contents.standing - contents.bottom;
    let mut marks = Vec::with_capacity(2);
    if let Some((low, high)) = contents.hanging() {
        marks.push((dimension("hangs", high - low), low, high));
    } else {
        marks.push((dimension("standing", contents.standing), 0.0, contents.standing));
    }
    if contents.gas > 1e-6 {
        marks.push((dimension("gas", contents.gas), 0.0, contents.gas));
    } else if finger > 1e-6 && picture.covered {
        // Where the finger has reached the nozzle its depth is the standing height.
        marks.push((dimension("finger", finger), contents.bottom, contents.standing));
    }
    let label_width = marks.iter().map(|(text, ..)| text_width(text, TEXT)).fold(0.0, f64::max);
    let (left, right) = (16.0, 26.0 + label_width);
    let (word, class) = match (picture.covered, contents.gas > 1e-6) {
        (_, true) => ("gas at nozzle", "label"),
        (true, _) => ("covered", "label"),
        (false, _) => ("uncovered", "label act"),
    };
    // Seven digits of millimetres in a very narrow picture: then the picture grows.
    let width = width.max(left + right + 8.0).max(text_width(word, TEXT) + 4.0);
    let (top, foot) = (ROW + 6.0, if narrow { 2.0 * ROW + 6.0 } else { ROW + 8.0 });
    let (room_x, room_y) = (width - left - right, height - top - foot);
    let scale = (room_x / (2.0 * vessel.radius)).min(room_y / (vessel.length + vessel.nozzle_length));
    let slack = room_y - scale * (vessel.length + vessel.nozzle_length);
    let paper =
        Paper { axis: left + 0.5 * room_x, floor: height - foot - scale * vessel.nozzle_length - 0.5 * slack, scale };

    let mut shapes = Vec::new();
    draw_water(&mut shapes, picture, &contents, &paper);
    draw_fittings(&mut shapes, picture, vessel, &paper);
    draw_walls(&mut shapes, vessel, &paper);
    draw_dimensions(&mut shapes, vessel, &paper, &marks, (top, height - foot));
    let long = if narrow { length_with_unit(units, vessel.length) } else { dimension("length", vessel.length) };
    let text_left = (paper.x(-vessel.radius) - 12.0).min(width - text_width(&long, TEXT) - 2.0).max(2.0);
    shapes.push(Shape::text((text_left, paper.y(vessel.length) - 6.0), Anchor::Start, "label", long));
    let state_y = paper.y(-vessel.nozzle_length) + ROW;
    let half = 0.5 * text_width(word, TEXT) + 1.0;
    shapes.push(Shape::text((paper.axis.max(half).min(width - half), state_y), Anchor::Middle, class, word));
    if narrow {
        let unit = titled("sizes", Measure::Size, units);
        let half = 0.5 * text_width(&unit, TEXT) + 1.0;
        let x = paper.axis.max(half).min(width - half);
        shapes.push(Shape::text((x, state_y + ROW - 1.0), Anchor::Middle, "label quiet", unit));
    }
    let description = describe(picture, &contents, units);
    Drawing { view_box: Area { x: 0.0, y: 0.0, width, height }, shapes, description }
}

/// Tube and restrictor.
fn draw_fittings(shapes: &mut Vec<Shape>, picture: &WaterPicture, vessel: &Vessel, paper: &Paper) {
    if picture.tube_m.is_some() {
        let (top, half) = vessel.tube(picture.tube_m);
        let (y, x) = (paper.y(top), paper.x(-half));
        let area = Area { x, y, width: 2.0 * half * paper.scale, height: paper.y(-vessel.nozzle_length) - y };
        shapes.push(Shape::Rect { area, class: "tube" });
    }
    if let Some((height, hole, holes)) = picture.restrictor_m {
        let height = positive(height, 0.0).min(vessel.length);
        let wall = vessel.half_width(height);
        for (from, to) in plate_pieces(wall, positive(hole, 0.0), holes) {
            // At least 2 px, or a thin plate would vanish from a long vessel's drawing.
            let thick = (0.025 * vessel.radius * paper.scale).max(2.0);
            let (x, y) = (paper.x(from), paper.y(height) - 0.5 * thick);
            let y = y.max(paper.y(vessel.length)).min(paper.y(-vessel.nozzle_length) - thick);
            shapes.push(Shape::Rect {
                area: Area { x, y, width: (to - from) * paper.scale, height: thick },
                class: "plate",
            });
        }
    }
}

/// The solid pieces of a plate in section, cut through its middle row of holes.
pub(super) fn plate_pieces(half_width: f64, hole: f64, holes: u32) -> Vec<(f64, f64)> {
    let row = (f64::from(holes.max(1))).sqrt().round().max(1.0);
    // Below a fortieth of the width holes run together in any drawing, and more of them say nothing more.
    let fits = (1.9 * half_width / hole.max(1e-9)).floor().clamp(1.0, 20.0);
    let count = row.min(fits);
    let hole = hole.min(1.98 * half_width / count);
    let solid = (2.0 * half_width - count * hole) / (count + 1.0);
    (0..=count as u32)
        .map(|index| {
            let from = -half_width + f64::from(index) * (solid + hole);
            (from, from + solid)
        })
        .collect()
}

fn draw_walls(shapes: &mut Vec<Shape>, vessel: &Vessel, paper: &Paper) {
    let mut outline = vec![(-vessel.throat, -vessel.nozzle_length)];
    outline.extend(vessel.region(0.0, vessel.length));
    outline.push((vessel.throat, -vessel.nozzle_length));
    shapes.extend(Shape::through(&paper.points(&outline), false, "outline"));
}

fn describe(picture: &WaterPicture, contents: &Contents, units: System) -> String {
    let vessel = &contents.vessel;
    let size = |text: &mut Saying, words: &str, metres: f64| {
        text.say(words).size(metres, decimals_of(metres));
    };
    let litres = |cubic_metres: f64| 1000.0 * positive(cubic_metres, 0.0);
    let mut text = Saying::new(units, "");
    size(&mut text, "Cut-away of the sustainer, nozzle down, ", vessel.length);
    size(&mut text, " long and ", 2.0 * vessel.radius);
    if let Some((low, high)) = contents.hanging() {
        size(&mut text, " across: ", high - low);
        text.say(" of water hang from the restrictor");
    } else {
        size(&mut text, " across: water stands ", contents.standing);
        text.say(" high");
    }
    let finger = contents.standing - contents.bottom;
    if !contents.hangs && finger > 1e-6 {
        size(&mut text, " with a gas finger ", finger);
        text.say(" deep");
    }
    let lifted = litres(picture.lifted_m3);
    if lifted > 0.0005 && !contents.hangs {
        text.say(", ").of(Measure::Volume, lifted, 3);
        match picture.at_nose {
            true if contents.plate_is_roof() => text.say(" lies under the restrictor"),
            true => text.say(" lies at the nose"),
            false => text.say(" has climbed to ").size(contents.centre, decimals_of(contents.centre)),
        };
    }
    let leaked = litres(picture.leaked_m3);
    if leaked > 0.0005 && contents.plate.is_some() {
        text.say(", ").of(Measure::Volume, leaked, 3).say(" has leaked through the restrictor");
    }
    if contents.gas > 1e-6 {
        size(&mut text, "; ", contents.gas);
        text.say(" of gas at the nozzle");
    } else {
        text.say(if picture.covered { "; the nozzle is covered" } else { "; the nozzle is uncovered" });
    }
    text.end()
}
