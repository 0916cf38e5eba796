//! The parts of a stack as shapes, each with the places where its leader may end.

use holdwater_design::Part;
use holdwater_physics::rocket::{LaunchTube, Rocket};

use super::cutaway::plate_pieces;
use super::shape::{Area, Shape};
use super::stack_layout::{Layout, StageAt};
use super::vessel::positive;

/// A part before its label is placed.
pub struct Piece {
    /// Which part.
    pub part: Part,
    /// Whether the rocket has it.
    pub fitted: bool,
    /// What is drawn.
    pub shapes: Vec<Shape>,
    /// Where its leader ends: at the left and at the right of the rocket's axis, px.
    pub ends: [(f64, f64); 2],
}

/// Leader ends at the outermost vessels, at a share of the radius from their axes.
fn ends(layout: &Layout, stage: &StageAt, share: f64, height: f64) -> [(f64, f64); 2] {
    let across = stage.half_width() - stage.vessel.radius + share * stage.vessel.radius;
    [layout.at(-across, stage.base + height), layout.at(across, stage.base + height)]
}

/// The ground and the pad.
pub fn ground(layout: &Layout) -> Piece {
    let (left, right) = layout.room();
    let (_, foot) = layout.at(0.0, 0.0);
    let y = (foot + 12.0).min(layout.view_box.height - 9.0);
    let lowest = layout.booster.as_ref().unwrap_or(&layout.sustainer);
    let half = layout.length(lowest.half_width()).max(8.0);
    let (middle, _) = layout.at(0.0, 0.0);
    let pad = Area { x: middle - half, y: foot, width: 2.0 * half, height: (y - foot).max(0.0) };
    let mut shapes = vec![Shape::line((left, y), (right, y), "outline")];
    // Short strokes under a line are how a section says solid ground.
    let strokes = ((right - left) / 9.0).floor().clamp(0.0, 200.0) as u32;
    for index in 0..strokes {
        let x = left + 6.0 + 9.0 * f64::from(index);
        shapes.push(Shape::line((x, y + 1.0), (x - 5.0, y + 6.0), "hatch"));
    }
    shapes.push(Shape::Rect { area: pad, class: "thin" });
    Piece { part: Part::Site, fitted: true, shapes, ends: [(left + 4.0, y), (right - 4.0, y)] }
}

/// The vessels of a stage.
pub fn vessel(layout: &Layout, stage: &StageAt, part: Part) -> Piece {
    let outline = stage.vessel.region(0.0, stage.vessel.length);
    let shapes = stage
        .axes
        .iter()
        .filter_map(|axis| Shape::through(&layout.on(stage, *axis, &outline), false, "outline"))
        .collect();
    Piece { part, fitted: true, shapes, ends: ends(layout, stage, 1.0, 0.72 * stage.vessel.length) }
}

/// The water in a stage's vessels.
pub fn water(layout: &Layout, stage: &StageAt, part: Part) -> Piece {
    let mut shapes = Vec::new();
    let standing = stage.standing;
    if standing > 0.0 {
        let region = stage.vessel.region(0.0, standing);
        let edge = stage.vessel.half_width(standing);
        for axis in &stage.axes {
            shapes.extend(Shape::through(&layout.on(stage, *axis, &region), true, "water"));
            let surface = [(-edge, standing), (edge, standing)];
            shapes.extend(Shape::through(&layout.on(stage, *axis, &surface), false, "surface"));
        }
    }
    Piece { part, fitted: standing > 0.0, shapes, ends: ends(layout, stage, 0.6, 0.62 * standing) }
}

/// The nozzles of a stage.
pub fn nozzle(layout: &Layout, stage: &StageAt, part: Part) -> Piece {
    let vessel = &stage.vessel;
    let (bell, low) = (0.5 * (vessel.throat + vessel.radius), -vessel.nozzle_length);
    let bell = bell.min(1.7 * vessel.throat);
    let mut shapes = Vec::new();
    for axis in &stage.axes {
        let outline = [
            (-vessel.throat, 0.0),
            (-vessel.throat, 0.6 * low),
            (-bell, low),
            (bell, low),
            (vessel.throat, 0.6 * low),
            (vessel.throat, 0.0),
        ];
        shapes.extend(Shape::through(&layout.on(stage, *axis, &outline), false, "outline"));
    }
    let across = stage.half_width() - vessel.radius + vessel.throat;
    let height = stage.base + 0.4 * low;
    Piece { part, fitted: true, shapes, ends: [layout.at(-across, height), layout.at(across, height)] }
}

/// The launch tube that stands in a stage, or the place for one.
pub fn tube(layout: &Layout, stage: &StageAt, part: Part, fitted: Option<LaunchTube>) -> Piece {
    let vessel = &stage.vessel;
    let mut shapes = Vec::new();
    let mut top = 0.2 * stage.standing;
    let mut half = 0.5 * vessel.throat;
    if let Some(tube) = &fitted {
        (top, half) = vessel.tube(Some((tube.length_m, tube.outer_m)));
        for axis in &stage.axes {
            let (x, y) = layout.at(axis - half, stage.base + top);
            let area =
                Area { x, y, width: layout.length(2.0 * half), height: layout.length(top + vessel.nozzle_length) };
            shapes.push(Shape::Rect { area, class: "tube" });
        }
        top *= 0.85;
    }
    let share = 0.8 * half / vessel.radius;
    Piece { part, fitted: fitted.is_some(), shapes, ends: ends(layout, stage, share, top) }
}

/// The sustainer's restrictor, or the place for one.
pub fn restrictor(layout: &Layout, rocket: &Rocket) -> Piece {
    let stage = &layout.sustainer;
    let vessel = &stage.vessel;
    let fitted = rocket.restrictor.filter(|restrictor| restrictor.hole_m > 0.0);
    // Where none is fitted the leader points at where one would do most: the water's surface.
    let height = fitted.map_or(stage.standing, |restrictor| positive(restrictor.height_m, 0.0)).min(vessel.length);
    let wall = vessel.half_width(height);
    let mut shapes = Vec::new();
    if let Some(restrictor) = &fitted {
        let thick = layout.length(0.02 * vessel.radius).max(2.0);
        for axis in &stage.axes {
            for (from, to) in plate_pieces(wall, restrictor.hole_m, restrictor.holes) {
                let (x, y) = layout.at(axis + from, stage.base + height);
                let area = Area { x, y: y - 0.5 * thick, width: layout.length(to - from), height: thick };
                shapes.push(Shape::Rect { area, class: "plate" });
            }
        }
    } else {
        for axis in &stage.axes {
            let line = layout.on(stage, *axis, &[(-wall, height), (wall, height)]);
            shapes.extend(Shape::through(&line, false, "absent"));
        }
    }
    Piece {
        part: Part::Restrictor,
        fitted: fitted.is_some(),
        shapes,
        ends: ends(layout, stage, 0.9 * wall / vessel.radius, height),
    }
}

/// What holds the stages together until the timer lets go.
pub fn joint(layout: &Layout, booster: &StageAt) -> Piece {
    let sustainer = &layout.sustainer;
    let (below, above) = (booster.half_width(), sustainer.half_width());
    let low = booster.top() - (0.4 * booster.vessel.radius).min(0.25 * booster.vessel.length);
    let high = sustainer.base + (0.2 * sustainer.vessel.radius).min(0.2 * sustainer.vessel.length);
    let outline = [(-below, low), (-above, high), (above, high), (below, low)].map(|(x, y)| layout.at(x, y));
    let mut shapes: Vec<Shape> = Vec::new();
    shapes.extend(Shape::through(&outline[..2], false, "thin"));
    shapes.extend(Shape::through(&outline[2..], false, "thin"));
    // The timer's box beside the nozzle: drawn no smaller than it can be seen.
    let gap = sustainer.exit() - booster.top();
    let side = layout.length(0.5 * gap).clamp(4.0, 14.0);
    let across = 0.45 * below.min(above);
    let (x, y) = layout.at(across, booster.top() + 0.75 * gap);
    shapes.push(Shape::Rect {
        area: Area { x: x - 0.5 * side, y: y - 0.5 * side, width: side, height: side },
        class: "tube",
    });
    let wall = 0.5 * (below + above);
    let height = 0.5 * (low + high);
    let left = layout.at(-wall, height);
    Piece { part: Part::Timer, fitted: true, shapes, ends: [left, (x, left.1.min(y))] }
}

/// Fins at the foot and, on the uppermost stage, the nose.
pub fn body(layout: &Layout, stage: &StageAt, part: Part, nose: f64) -> Piece {
    let (span, tall) = stage.fin();
    let half = stage.half_width();
    let mut shapes = Vec::new();
    for side in [-1.0, 1.0] {
        let fin = [(half, tall * 1.4), (half + span, 0.3 * tall), (half + span, -0.1 * tall), (half, 0.3 * tall)]
            .map(|(across, height)| layout.at(side * across, stage.base + height.max(-stage.vessel.nozzle_length)));
        shapes.extend(Shape::through(&fin, true, "thin"));
    }
    let mut ends =
        [layout.at(-half - span, stage.base + 0.15 * tall), layout.at(half + span, stage.base + 0.15 * tall)];
    if nose > 0.0 {
        let low = stage.top() - (0.42 * 2.0 * stage.vessel.radius).min(0.3 * stage.vessel.length);
        let rise = stage.top() + nose - low;
        let arc: Vec<(f64, f64)> = (0..=24)
            .map(|step| {
                let share = f64::from(step) / 12.0 - 1.0;
                layout.at(share * half, low + rise * (1.0 - share * share))
            })
            .collect();
        shapes.extend(Shape::through(&arc, false, "thin"));
        ends = [8, 16].map(|step: usize| arc.get(step).copied().unwrap_or(ends[0]));
    }
    Piece { part, fitted: true, shapes, ends }
}
