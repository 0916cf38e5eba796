//! The water of the cut-away: seated, with the gas finger in it, and lifted.

use holdwater_answers::curves::WaterPicture;

use super::drops::{Lifted, lifted};
use super::shape::Shape;
use super::vessel::{Vessel, positive};

/// Diameter of the gas finger for a bore of 1: the film it leaves at the wall holds 5 % of the section.
const FINGER: f64 = 0.974_679_434_480_896_3;

/// Where metres lie on the paper.
#[derive(Clone, Copy)]
pub struct Paper {
    /// Place of the vessel's axis, px.
    pub axis: f64,
    /// Place of the nozzle end, px.
    pub floor: f64,
    /// Pixels for a metre, the same in both directions.
    pub scale: f64,
}

impl Paper {
    /// Place of a distance from the axis.
    pub fn x(&self, across: f64) -> f64 {
        self.axis + across * self.scale
    }

    /// Place of a height above the nozzle end.
    pub fn y(&self, height: f64) -> f64 {
        self.floor - height * self.scale
    }

    /// Places of points of the vessel.
    pub fn points(&self, points: &[(f64, f64)]) -> Vec<(f64, f64)> {
        points.iter().map(|(across, height)| (self.x(*across), self.y(*height))).collect()
    }
}

/// The picture with whatever is no number or out of the vessel put right.
pub struct Contents {
    /// The vessel.
    pub vessel: Vessel,
    /// Standing height of the seated water, m.
    pub standing: f64,
    /// Height of the gas finger's lowest point, m.
    pub bottom: f64,
    /// Lifted water as an area of the section, m2.
    pub area: f64,
    /// Height of the lifted water, m.
    pub centre: f64,
}

impl Contents {
    /// What a picture shows.
    pub fn new(picture: &WaterPicture) -> Self {
        let vessel = Vessel::new(picture.length_m, picture.bore_m, picture.nozzle_m);
        let standing = positive(picture.standing_m, 0.0).min(vessel.length);
        let finger = positive(picture.finger_m, 0.0).min(standing);
        // The word and the drawing must agree even where rounding does not: covered means water over the nozzle.
        let bottom = match (picture.covered, standing - finger) {
            (false, _) => 0.0,
            (true, bottom) => bottom.max(0.02 * standing),
        };
        let bore = 2.0 * vessel.radius;
        let depth = positive(picture.lifted_m3, 0.0) / (core::f64::consts::PI * vessel.radius * vessel.radius);
        Self {
            vessel,
            standing,
            bottom,
            area: depth.min(vessel.length) * bore,
            centre: positive(picture.lifted_height_m, 0.0).min(vessel.length),
        }
    }
}

/// Seated water around the gas finger, and lifted water above it.
pub fn draw_water(shapes: &mut Vec<Shape>, picture: &WaterPicture, contents: &Contents, paper: &Paper) {
    let Contents { vessel, standing, bottom, area, centre } = contents;
    if *standing > 0.0 {
        let finger = finger_outline(contents, picture.covered);
        let heights = vessel.heights(0.0, *standing);
        let mut outline: Vec<(f64, f64)> = heights.iter().map(|h| (-vessel.half_width(*h), *h)).collect();
        outline.extend(&finger);
        outline.extend(heights.iter().rev().map(|h| (vessel.half_width(*h), *h)));
        shapes.extend(Shape::through(&paper.points(&outline), true, "water"));
        if picture.covered {
            let throat = [
                (-vessel.throat, 0.0),
                (vessel.throat, 0.0),
                (vessel.throat, -vessel.nozzle_length),
                (-vessel.throat, -vessel.nozzle_length),
            ];
            shapes.extend(Shape::through(&paper.points(&throat), true, "water"));
        }
        let edge = vessel.half_width(*standing);
        // Along the wall the film is thinner than a line, which would hide it: only the finger's nose has one.
        let mut surface = finger;
        surface.retain(|point| picture.covered && point.1 <= bottom + FINGER * vessel.radius);
        if *bottom >= *standing {
            surface = vec![(-edge, *standing), (edge, *standing)];
        }
        shapes.extend(Shape::through(&paper.points(&surface), false, "surface"));
    }
    // Less than a drop of a hundredth of the bore is not seen.
    if *area <= 1e-4 * vessel.radius * vessel.radius {
        return;
    }
    if picture.at_nose {
        let low = vessel.length - vessel.pool_depth(*area);
        shapes.extend(Shape::through(&paper.points(&vessel.region(low, vessel.length)), true, "lifted"));
        let edge = vessel.half_width(low);
        shapes.extend(Shape::through(&paper.points(&[(-edge, low), (edge, low)]), false, "surface"));
        return;
    }
    let low = if *bottom < *standing { *bottom } else { *standing };
    match lifted(vessel, *area, *centre, (low, vessel.length), vessel.tube(picture.tube_m)) {
        Lifted::Drops(drops) => shapes.extend(drops.into_iter().map(|(across, height, radius)| Shape::Circle {
            cx: paper.x(across),
            cy: paper.y(height),
            r: radius * paper.scale,
            class: "lifted",
        })),
        Lifted::Slug(low, high) => {
            shapes.extend(Shape::through(&paper.points(&vessel.region(low, high)), true, "lifted"));
        }
    }
}

/// The finger's edge from the left film down around its nose and up to the right film; empty when there is none.
fn finger_outline(contents: &Contents, covered: bool) -> Vec<(f64, f64)> {
    let Contents { vessel, standing, bottom, .. } = contents;
    let depth = standing - bottom;
    if depth <= 1e-9 {
        return Vec::new();
    }
    let nose = if covered { (FINGER * vessel.radius).min(depth) } else { 0.0 };
    let half = |height: f64| {
        let wall = FINGER * vessel.half_width(height);
        let below = bottom + nose - height;
        if below <= 0.0 {
            wall
        } else {
            wall.min(FINGER * vessel.radius * (1.0 - (below / nose).powi(2)).max(0.0).sqrt())
        }
    };
    let mut heights = vessel.heights(*bottom, *standing);
    heights.extend((1..24).map(|step| bottom + nose * (f64::from(step) / 24.0).powi(2)));
    heights.retain(|height| height >= bottom && height <= standing);
    holdwater_physics::order::sort_by_number(&mut heights, |height| *height);
    let left = heights.iter().rev().map(|height| (-half(*height), *height));
    let right = heights.iter().map(|height| (half(*height), *height));
    left.chain(right).collect()
}
