//! The vessel parts on the rocket: a numbered mark for each, at a place where such a part sits.
//!
//! A part knows its stage and not its height. Marks of a kind are spread over the places where that kind belongs, so
//! places are schematic and every picture of them says so.

use holdwater_design::parts::{PartKind, PartStage};
use holdwater_physics::rocket::Rocket;

use super::margins::Verdict;
use super::shape::{Anchor, Area, Shape};
use super::stack::tube_of;
use super::stack_layout::{LABEL_SIZE, Layout, StageAt};
use super::stack_parts::{body, joint, nozzle, tube, vessel};
use crate::chart::place::spread;
use crate::chart::scale::number;
use holdwater_design::{Part, find};

/// Room for a mark on the rocket, and for that of the weakest part, px.
const SPOT: f64 = 9.0;
const WEAKEST_SPOT: f64 = 17.0;
/// Width of a mark beside the rocket, which has to hold a margin in heavy type and the word "weakest", px.
const COLUMN: f64 = 114.0;

/// A part to be marked.
#[derive(Clone, Debug, PartialEq)]
pub struct PartMark {
    /// Its number in the list.
    pub number: usize,
    /// What it is called.
    pub name: String,
    /// What it is.
    pub kind: PartKind,
    /// Where it is.
    pub stage: PartStage,
    /// Its margin of safety; `None` where it has none, because its numbers contradict each other.
    pub margin: Option<f64>,
    /// What that comes to.
    pub verdict: Verdict,
    /// Whether no other part has less margin.
    pub weakest: bool,
}

impl PartMark {
    /// Its margin as it is written.
    fn margin_text(&self) -> Option<String> {
        self.margin.map(|margin| number(margin.min(9999.0), if margin < 10.0 { 2 } else { 0 }))
    }

    /// Its margin and what that comes to, as short as can be.
    fn judged(&self) -> String {
        match (self.margin_text(), self.verdict) {
            (None, _) => "no margin".to_owned(),
            (Some(margin), Verdict::Holds) => ["margin ", &margin].concat(),
            (Some(margin), Verdict::Thin) => [&margin, " thin"].concat(),
            (Some(margin), Verdict::Over) => [&margin, " over"].concat(),
        }
    }

    /// A short word for what it is.
    fn word(&self) -> &'static str {
        match self.kind {
            PartKind::Screwed => "coupling",
            PartKind::External => "tube",
            kind => kind.word().word,
        }
    }
}

/// The mark of one part: what is drawn on the rocket, and what is tapped beside it.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkDrawing {
    /// The part's number in the list.
    pub number: usize,
    /// Number, what it is, name, stage and margin in words.
    pub name: String,
    /// The mark on the rocket: a dot; two rings for the weakest part; a cross for one without a margin.
    pub shapes: Vec<Shape>,
    /// Leader line and words.
    pub label: Vec<Shape>,
    /// The area to tap: at least 44 px in both directions, none over another.
    pub hit: Area,
}

/// The rocket's vessels with the marks of their parts.
#[derive(Clone, Debug, PartialEq)]
pub struct PlacedDrawing {
    /// The picture's rectangle; one unit is one CSS px.
    pub view_box: Area,
    /// The rocket, back to front.
    pub shapes: Vec<Shape>,
    /// A mark for each part whose stage flies.
    pub marks: Vec<MarkDrawing>,
}

impl PlacedDrawing {
    /// Every shape in the order of drawing.
    #[must_use]
    pub fn shapes(&self) -> Vec<Shape> {
        let labels = self.marks.iter().flat_map(|mark| &mark.label);
        self.shapes.iter().chain(labels).chain(self.marks.iter().flat_map(|mark| &mark.shapes)).cloned().collect()
    }
}

/// Where a part is on the paper: its place in the list, and a point at the left and at the right of the axis, px.
pub struct Spot {
    /// Place in the list.
    pub place: usize,
    /// The two points.
    pub ends: [(f64, f64); 2],
}

/// Draws the vessels with a mark for each part, for a picture of about the given size in CSS px; it grows with the number of parts.
#[must_use]
pub fn placed(rocket: &Rocket, parts: &[PartMark], width: f64, height: f64) -> PlacedDrawing {
    // Room for a rocket at least, however few its parts.
    let layout = Layout::new(rocket, width, height, parts.len().max(6), COLUMN);
    let sustainer = &layout.sustainer;
    let mut pieces = vec![body(&layout, sustainer, Part::SustainerBody, layout.nose)];
    if let Some(booster) = &layout.booster {
        pieces.push(body(&layout, booster, Part::BoosterBody, 0.0));
        pieces.push(nozzle(&layout, booster, Part::BoosterNozzle));
        pieces.push(vessel(&layout, booster, Part::BoosterVessel));
        pieces.push(joint(&layout, booster));
    }
    pieces.push(tube(&layout, sustainer, Part::StagingTube, tube_of(rocket, PartStage::Sustainer)));
    pieces.push(nozzle(&layout, sustainer, Part::SustainerNozzle));
    pieces.push(vessel(&layout, sustainer, Part::SustainerVessel));

    let spots = spots(&layout, rocket, parts);
    let heights: Vec<f64> = spots.iter().map(|spot| spot.ends[0].1).collect();
    let marks = spots
        .iter()
        .zip(layout.labels(&heights))
        .map(|(spot, (at_left, hit))| {
            let part = &parts[spot.place];
            let second = match part.margin_text().filter(|_| part.weakest) {
                Some(margin) => [&margin, " weakest"].concat(),
                None => part.judged(),
            };
            mark(part, spot, at_left, hit, (part.word(), second))
        })
        .collect();
    let shapes = pieces.into_iter().flat_map(|piece| piece.shapes).collect();
    PlacedDrawing { view_box: layout.view_box, shapes, marks }
}

/// The mark on a whole stack of the part to look at first.
pub fn weakest_mark(part: &PartMark, spot: &Spot, (at_left, hit): (bool, Area)) -> MarkDrawing {
    let word = if part.weakest { "weakest" } else { part.word() };
    mark(part, spot, at_left, hit, (word, part.judged()))
}

fn mark(part: &PartMark, spot: &Spot, at_left: bool, hit: Area, (word, second): (&str, String)) -> MarkDrawing {
    let first = [&part.number.to_string(), " ", word].concat();
    // Begins with the words on the mark, which are what somebody says who steers by voice.
    let mut name = ["Part ", &first, ", ", &second, ": ", &part.name, ", ", part.stage.word().word].concat();
    if let Some(margin) = part.margin_text().filter(|_| !find::holds(&second, "margin")) {
        name.push_str(", margin ");
        name.push_str(&margin);
    }
    let (x, y) = spot.ends[usize::from(!at_left)];
    let middle = hit.y + 0.5 * hit.height;
    let edge = if at_left { hit.x + hit.width } else { hit.x };
    let ring = |r, class| Shape::Circle { cx: x, cy: y, r, class };
    let frame = |class| Shape::Rect {
        area: Area { x: hit.x + 2.5, y: hit.y + 2.5, width: hit.width - 5.0, height: hit.height - 5.0 },
        class,
    };
    let mut label = vec![Shape::line((edge, middle), (x, y), "leader")];
    let mut shapes = Vec::new();
    if part.margin.is_none() {
        label.push(frame("absent"));
        for side in [-4.0, 4.0] {
            shapes.push(Shape::line((x - side, y - 4.0), (x + side, y + 4.0), "outline"));
        }
    } else if part.weakest {
        label.push(frame("thin"));
        shapes.extend([ring(7.5, "tube"), ring(4.0, "outline")]);
    } else {
        shapes.push(ring(3.0, "dot"));
    }
    let class = match part.verdict {
        Verdict::Over => "label act",
        Verdict::Thin => "label",
        Verdict::Holds => "label quiet",
    };
    let text_x = hit.x + 7.0;
    label.push(Shape::text((text_x, middle + 0.35 * LABEL_SIZE - 8.0), Anchor::Start, "label part", first));
    label.push(Shape::text((text_x, middle + 13.0), Anchor::Start, class, second));
    MarkDrawing { number: part.number, name, shapes, label, hit }
}

/// Where the parts are, those of stages that do not fly left out; no two at one height where there is room.
pub fn spots(layout: &Layout, rocket: &Rocket, parts: &[PartMark]) -> Vec<Spot> {
    let mut found = Vec::new();
    for at in PartStage::ALL {
        let Some(stage) = layout.stage(at) else { continue };
        let own: Vec<usize> = (0..parts.len()).filter(|place| parts[*place].stage == at).collect();
        let kinds: Vec<PartKind> = own.iter().map(|place| parts[*place].kind).collect();
        let tube = tube_of(rocket, at).map_or(0.25 * stage.vessel.length, |tube| 0.5 * tube.length_m);
        let wanted: Vec<(f64, f64)> = (0..own.len())
            .map(|index| {
                let height = height_of(stage, &kinds, index, tube);
                let room = if parts[own[index]].weakest { WEAKEST_SPOT } else { SPOT };
                (layout.at(0.0, stage.base + height).1, room)
            })
            .collect();
        let (top, foot) = (layout.at(0.0, stage.top()).1 - 3.0, layout.at(0.0, stage.exit()).1 + 3.0);
        for ((place, kind), y) in own.into_iter().zip(kinds).zip(spread(&wanted, top, foot)) {
            let vessel = &stage.vessel;
            let across = match kind {
                PartKind::External => 0.5 * vessel.throat,
                PartKind::Tested => 0.0,
                _ => vessel.half_width(layout.height_at(y) - stage.base),
            };
            let across = stage.half_width() - vessel.radius + across;
            let end = |side: f64| (layout.at(side * across, 0.0).0, y);
            found.push(Spot { place, ends: [end(-1.0), end(1.0)] });
        }
    }
    found
}

/// The height in its vessel at which a part of its kind sits, m.
fn height_of(stage: &StageAt, kinds: &[PartKind], index: usize, tube: f64) -> f64 {
    use PartKind::{Dome, External, Shell, Splice, Tested};
    let length = stage.vessel.length;
    let knuckle = 0.12 * (2.0 * stage.vessel.radius).min(length);
    let kind = kinds[index];
    let is_end = |kind| !matches!(kind, Shell | Splice | Dome | External | Tested);
    let like = |other: &&PartKind| **other == kind || is_end(kind) && is_end(**other);
    let rank = kinds[..index].iter().filter(like).count();
    let of = |kind| kinds.iter().filter(|other| **other == kind).count() as f64;
    match kind {
        // Splices divide the cylinder; shells are what they divide it into.
        Splice => length * (rank as f64 + 1.0) / (of(Splice) + 1.0),
        Shell => {
            let pieces = of(Shell).max(of(Splice) + 1.0);
            let piece = ((rank as f64 + 0.5) * pieces / of(Shell)).floor();
            length * (piece + 0.5) / pieces
        }
        Dome if rank % 2 == 0 => length - knuckle,
        Dome => knuckle,
        External => tube.min(length),
        Tested => 0.5 * length,
        // Other ends are at the nozzle first.
        _ if rank % 2 == 0 => 0.0,
        _ => length,
    }
}
