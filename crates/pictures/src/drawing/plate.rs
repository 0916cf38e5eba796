//! The restrictor's plate as a workshop draws it: plan, to scale, with its dimensions.

use holdwater_design::measure::System;

use super::cutaway::Drawing;
use super::shape::{Anchor, Area, Shape};
use super::vessel::positive;
use crate::chart::place::text_width;
use crate::shown::{Saying, size_with_unit};

/// Size of text, px.
const TEXT: f64 = 12.0;
/// Height of a row of text, px.
const ROW: f64 = 16.0;

/// A plate with equal round holes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PlateDrawing {
    /// Diameter of the plate, which is the bore of the vessel, m.
    pub bore_m: f64,
    /// Diameter of each hole, m.
    pub hole_m: f64,
    /// Centres of the holes, m from the centre of the plate, to the right and upward.
    pub centres: Vec<(f64, f64)>,
}

/// The narrowest solid piece of a plate, between two holes or between a hole and the edge: both its ends and its width, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Web {
    /// One end.
    pub from: (f64, f64),
    /// The other end.
    pub to: (f64, f64),
    /// Width; negative where holes overlap or cut the edge.
    pub width_m: f64,
}

impl PlateDrawing {
    /// The plate with sizes that can be drawn and without centres that are no numbers.
    pub(super) fn sound(&self) -> Self {
        let bore_m = positive(self.bore_m, 1e-6).min(1e3);
        let hole_m = positive(self.hole_m, 0.0).min(bore_m);
        let reach = 0.5 * (bore_m - hole_m) + 1e-9;
        let mut centres = self.centres.clone();
        centres.retain(|(x, y)| (x * x + y * y).sqrt() <= reach);
        Self { bore_m, hole_m, centres }
    }

    /// Share of the plate's area that the holes leave open.
    #[must_use]
    pub fn open_share(&self) -> f64 {
        self.centres.len() as f64 * (self.hole_m / self.bore_m).powi(2)
    }

    /// The narrowest solid piece; the uppermost one at the left where there are several. `None` without holes.
    #[must_use]
    pub fn web(&self) -> Option<Web> {
        let mut best: Option<(f64, Web)> = None;
        let mut offer = |from: (f64, f64), to: (f64, f64), width_m: f64| {
            // How far to the upper left it lies.
            let place = from.1 + to.1 - from.0 - to.0;
            let better = best.as_ref().is_none_or(|(other, web)| {
                width_m < web.width_m - 1e-7 || width_m < web.width_m + 1e-7 && place > *other + 1e-9
            });
            if better {
                best = Some((place, Web { from, to, width_m }));
            }
        };
        let hole = 0.5 * self.hole_m;
        for (index, a) in self.centres.iter().enumerate() {
            let off = (a.0 * a.0 + a.1 * a.1).sqrt();
            let out = if off > 1e-9 { (a.0 / off, a.1 / off) } else { (-1.0, 0.0) };
            let edge = 0.5 * self.bore_m;
            let rim = (a.0 + hole * out.0, a.1 + hole * out.1);
            offer(rim, (edge * out.0, edge * out.1), edge - off - hole);
            for b in self.centres.iter().skip(index + 1) {
                let (dx, dy) = (b.0 - a.0, b.1 - a.1);
                let apart = (dx * dx + dy * dy).sqrt();
                let share = if apart > 1e-9 { hole / apart } else { 0.0 };
                offer((a.0 + share * dx, a.1 + share * dy), (b.0 - share * dx, b.1 - share * dy), apart - self.hole_m);
            }
        }
        best.map(|(_, web)| web)
    }

    /// Holes and their size in words.
    fn holes_in_words(&self, units: System) -> String {
        let size = sized(units, self.hole_m);
        match self.centres.len() {
            0 => "no holes fit".to_owned(),
            1 => ["hole \u{d8}\u{2009}", &size].concat(),
            count => [&count.to_string(), " \u{d7} \u{d8}\u{2009}", &size].concat(),
        }
    }
}

/// A size with the decimal of mm that a drill needs, and its unit.
fn sized(units: System, metres: f64) -> String {
    size_with_unit(units, metres, 1)
}

/// Draws the plate in plan, to scale, for a picture of about the given size in CSS px.
#[must_use]
pub fn plate(plate: &PlateDrawing, width: f64, height: f64, units: System) -> Drawing {
    let (width, height) = (positive(width, 130.0).min(8192.0), positive(height, 130.0).min(8192.0));
    let plate = plate.sound();
    let across = ["\u{d8}\u{2009}", &sized(units, plate.bore_m)].concat();
    let holes = plate.holes_in_words(units);
    let web = plate.web();
    let web_words = web.map_or_else(String::new, |web| ["web ", &sized(units, web.width_m.max(0.0))].concat());
    let width = width.max(text_width(&holes, TEXT).max(text_width(&across, TEXT)) + 8.0);
    // Web at the left, holes at the right, in one row where both fit.
    let two_rows = text_width(&web_words, TEXT) + text_width(&holes, TEXT) + 16.0 > width;
    let (top, foot) = (if two_rows { 2.0 * ROW } else { ROW } + 6.0, 14.0 + ROW);
    let scale = ((width - 24.0) / plate.bore_m).min((height - top - foot) / plate.bore_m);
    let radius = 0.5 * plate.bore_m * scale;
    let middle = (0.5 * width, top + 0.5 * (height - top - foot));
    let at = |point: (f64, f64)| (middle.0 + point.0 * scale, middle.1 - point.1 * scale);

    let mut shapes = vec![Shape::Circle { cx: middle.0, cy: middle.1, r: radius, class: "outline" }];
    let hole = 0.5 * plate.hole_m * scale;
    for centre in &plate.centres {
        let (cx, cy) = at(*centre);
        shapes.push(Shape::Circle { cx, cy, r: hole, class: "thin" });
        // The cross that a punch is set on; smaller than that, crosses would fill their holes.
        if hole > 4.0 {
            let arm = 0.4 * hole;
            shapes.push(Shape::line((cx - arm, cy), (cx + arm, cy), "dimension"));
            shapes.push(Shape::line((cx, cy - arm), (cx, cy + arm), "dimension"));
        }
    }
    draw_across(&mut shapes, middle, radius, across);
    if let Some(web) = web {
        let (from, to) = (at(web.from), at(web.to));
        shapes.push(Shape::line(from, to, "outline"));
        let target = (0.5 * (from.0 + to.0), 0.5 * (from.1 + to.1));
        lead(&mut shapes, (3.0, 12.0), Anchor::Start, web_words, target);
    }
    if let Some(last) = rightmost(&plate.centres) {
        let (cx, cy) = at(last);
        let baseline = if two_rows { 12.0 + ROW } else { 12.0 };
        lead(&mut shapes, (width - 3.0, baseline), Anchor::End, holes, (cx + 0.707 * hole, cy - 0.707 * hole));
    } else {
        shapes.push(Shape::text((width - 3.0, 12.0), Anchor::End, "label act", holes));
    }
    Drawing { view_box: Area { x: 0.0, y: 0.0, width, height }, shapes, description: describe(&plate, units) }
}

/// The diameter below the plate, with its extension lines.
fn draw_across(shapes: &mut Vec<Shape>, middle: (f64, f64), radius: f64, words: String) {
    let y = middle.1 + radius + 9.0;
    let (left, right) = (middle.0 - radius, middle.0 + radius);
    for x in [left, right] {
        shapes.push(Shape::line((x, middle.1 + 3.0), (x, y + 3.0), "dimension"));
        shapes.push(Shape::line((x - 3.0, y + 3.0), (x + 3.0, y - 3.0), "dimension"));
    }
    shapes.push(Shape::line((left, y), (right, y), "dimension"));
    shapes.push(Shape::text((middle.0, y + 15.0), Anchor::Middle, "label", words));
}

/// Words with a leader from below their nearer end to what they speak of.
fn lead(shapes: &mut Vec<Shape>, at: (f64, f64), anchor: Anchor, words: String, target: (f64, f64)) {
    let inward = 0.5 * text_width(&words, TEXT);
    let x = if anchor == Anchor::End { at.0 - inward } else { at.0 + inward };
    shapes.push(Shape::line((x, at.1 + 5.0), target, "leader"));
    shapes.push(Shape::Circle { cx: target.0, cy: target.1, r: 2.0, class: "dot" });
    shapes.push(Shape::text(at, anchor, "label", words));
}

/// The hole nearest to the upper right.
fn rightmost(centres: &[(f64, f64)]) -> Option<(f64, f64)> {
    let place = |point: &(f64, f64)| point.0 + point.1;
    centres.iter().copied().reduce(|best, other| if place(&other) > place(&best) + 1e-9 { other } else { best })
}

fn describe(plate: &PlateDrawing, units: System) -> String {
    let mut text = Saying::new(units, "Plan of the restrictor, to scale: a plate ");
    text.size(plate.bore_m, 1);
    match plate.centres.len() {
        0 => text.say(" across with no room for its holes"),
        1 => text.say(" across with one hole of ").size(plate.hole_m, 1),
        count => text.say(" across with ").number(count as f64, 0).say(" holes of ").size(plate.hole_m, 1),
    };
    if let Some(web) = plate.web() {
        text.say(", ").size(web.width_m.max(0.0), 1).say(" of web at least, ");
        text.number(100.0 * plate.open_share(), 1).say(" % of the plate open");
    }
    text.end()
}
