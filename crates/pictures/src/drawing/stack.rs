//! The whole rocket on the pad, to scale, with a label to tap for each part.

use holdwater_design::Part;
use holdwater_design::parts::PartStage;
use holdwater_physics::rocket::{LaunchTube, Rocket};

use super::placed::{MarkDrawing, PartMark, spots, weakest_mark};
use super::shape::{Anchor, Area, Shape};
use super::stack_layout::{LABEL_SIZE, Layout};
use super::stack_parts::{body, ground, joint, nozzle, restrictor, tube, vessel, water};
use crate::chart::place::text_width;

/// One part of the rocket: what is drawn, and what is tapped.
#[derive(Clone, Debug, PartialEq)]
pub struct PartDrawing {
    /// Which part.
    pub part: Part,
    /// The word on its label.
    pub word: &'static str,
    /// Whether the rocket has it; a tube or restrictor that it lacks keeps its label, so that one can be fitted.
    pub fitted: bool,
    /// The part itself, back to front.
    pub shapes: Vec<Shape>,
    /// Leader line and words.
    pub label: Vec<Shape>,
    /// The area to tap: at least 44 px in both directions, none over another.
    pub hit: Area,
}

/// The rocket as a drawing of parts.
#[derive(Clone, Debug, PartialEq)]
pub struct StackDrawing {
    /// The picture's rectangle; one unit is one CSS px. Larger than asked for where the labels need it.
    pub view_box: Area,
    /// The parts, back to front.
    pub parts: Vec<PartDrawing>,
    /// The mark of the weakest vessel part, or of the first one where none has a margin.
    pub weakest: Option<MarkDrawing>,
    /// What the drawing shows, in one sentence.
    pub description: String,
}

impl StackDrawing {
    /// Every shape in the order of drawing: parts first, so that no part covers a label.
    #[must_use]
    pub fn shapes(&self) -> Vec<Shape> {
        let drawn = self.parts.iter().flat_map(|part| &part.shapes);
        let mark = self.weakest.iter().flat_map(|mark| mark.label.iter().chain(&mark.shapes));
        drawn.chain(self.parts.iter().flat_map(|part| &part.label)).chain(mark).cloned().collect()
    }
}

/// Draws the rocket, with the weakest of its vessel parts marked, for a picture of about the given size in CSS px.
#[must_use]
pub fn stack(rocket: &Rocket, vessel_parts: &[PartMark], width: f64, height: f64) -> StackDrawing {
    let count = if rocket.booster.is_some() { Part::ALL.iter().filter(|part| part.is_drawn()).count() } else { 7 };
    let count = count + usize::from(!vessel_parts.is_empty());
    let layout = Layout::new(rocket, width, height, count, text_width("restrictor", LABEL_SIZE) + 14.0);
    let mut pieces = vec![ground(&layout)];
    let sustainer = &layout.sustainer;
    if let Some(booster) = &layout.booster {
        pieces.push(body(&layout, booster, Part::BoosterBody, 0.0));
        pieces.push(water(&layout, booster, Part::BoosterWater));
        pieces.push(tube(&layout, booster, Part::PadTube, rocket.pad_tube));
        pieces.push(nozzle(&layout, booster, Part::BoosterNozzle));
        pieces.push(vessel(&layout, booster, Part::BoosterVessel));
        pieces.push(joint(&layout, booster));
    }
    pieces.push(body(&layout, sustainer, Part::SustainerBody, layout.nose));
    pieces.push(water(&layout, sustainer, Part::SustainerWater));
    let standing_on = if layout.booster.is_some() { Part::StagingTube } else { Part::PadTube };
    pieces.push(tube(&layout, sustainer, standing_on, tube_of(rocket, PartStage::Sustainer)));
    pieces.push(nozzle(&layout, sustainer, Part::SustainerNozzle));
    pieces.push(restrictor(&layout, rocket));
    pieces.push(vessel(&layout, sustainer, Part::SustainerVessel));

    let spots = spots(&layout, rocket, vessel_parts);
    let weakest = spots.iter().find(|spot| vessel_parts[spot.place].weakest).or(spots.first());
    let mut heights: Vec<f64> = pieces.iter().map(|piece| piece.ends[0].1).collect();
    heights.extend(weakest.map(|spot| spot.ends[0].1));
    let labels = layout.labels(&heights);
    let weakest = weakest.zip(labels.get(pieces.len()));
    let weakest = weakest.map(|(spot, label)| weakest_mark(&vessel_parts[spot.place], spot, *label));
    let parts = pieces
        .into_iter()
        .zip(labels)
        .map(|(piece, (at_left, hit))| PartDrawing {
            part: piece.part,
            word: piece.part.word(),
            fitted: piece.fitted,
            label: label(piece.part.word(), piece.fitted, hit, at_left, piece.ends[usize::from(!at_left)]),
            shapes: piece.shapes,
            hit,
        })
        .collect();
    StackDrawing { view_box: layout.view_box, parts, weakest, description: describe(rocket) }
}

/// The launch tube that a stage stands on.
pub fn tube_of(rocket: &Rocket, stage: PartStage) -> Option<LaunchTube> {
    match stage {
        PartStage::Sustainer if rocket.booster.is_some() => rocket.staging_tube,
        _ => rocket.pad_tube,
    }
}

fn label(word: &str, fitted: bool, hit: Area, at_left: bool, end: (f64, f64)) -> Vec<Shape> {
    let middle = hit.y + 0.5 * hit.height;
    let edge = if at_left { hit.x + hit.width } else { hit.x };
    let text_x = hit.x + 7.0;
    let mut shapes =
        vec![Shape::line((edge, middle), end, "leader"), Shape::Circle { cx: end.0, cy: end.1, r: 2.0, class: "dot" }];
    if fitted {
        shapes.push(Shape::text((text_x, middle + 0.35 * LABEL_SIZE), Anchor::Start, "label part", word));
    } else {
        shapes.push(Shape::text((text_x, middle - 3.0), Anchor::Start, "label part quiet", word));
        shapes.push(Shape::text((text_x, middle + 13.0), Anchor::Start, "label quiet", "none fitted"));
    }
    shapes
}

fn describe(rocket: &Rocket) -> String {
    let sets = |count: u32| {
        if count > 1 { format!("{count} vessels side by side") } else { "one vessel".to_owned() }
    };
    let mut text = match &rocket.booster {
        Some(booster) => format!(
            "The stack on the pad, nose up, to scale: booster with {}, sustainer with {}",
            sets(booster.sets),
            sets(rocket.sustainer.sets)
        ),
        None => {
            format!("The rocket on the pad, nose up, to scale: a single stage with {}", sets(rocket.sustainer.sets))
        }
    };
    for (fitted, word) in [
        (rocket.pad_tube.is_some(), "a launch tube on the pad"),
        (rocket.staging_tube.is_some(), "a launch tube between the stages"),
        (rocket.restrictor.is_some(), "a restrictor in the sustainer"),
    ] {
        if fitted {
            text.push_str(", ");
            text.push_str(word);
        }
    }
    text.push('.');
    text
}
