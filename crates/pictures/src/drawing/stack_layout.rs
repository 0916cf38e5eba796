//! Where the pieces of a stack lie on the paper, and where their labels go.

use holdwater_design::parts::PartStage;
use holdwater_physics::rocket::{Rocket, Stage};

use super::shape::Area;
use super::vessel::{Vessel, positive};
use crate::chart::place::spread;

/// Least side of a target for a finger, px.
pub const TARGET: f64 = 44.0;
/// Size of a label's text, px.
pub const LABEL_SIZE: f64 = 14.0;
/// Room below the rocket for pad and ground, px.
const GROUND: f64 = 22.0;
/// Most sets drawn side by side.
const MOST_SETS: u32 = 12;

/// One stage on the paper.
pub struct StageAt {
    /// One of its equal vessels.
    pub vessel: Vessel,
    /// Standing height of its water, m.
    pub standing: f64,
    /// Axes of its vessels, m from the rocket's axis.
    pub axes: Vec<f64>,
    /// Height of its nozzle ends above the lowest nozzle's exit, m.
    pub base: f64,
}

impl StageAt {
    fn new(stage: &Stage, base: f64) -> Self {
        let sets = stage.sets.clamp(1, MOST_SETS);
        // A vessel of a kilometre is the longest that any input makes.
        let length = positive(stage.vessel_length(), 1e-6).min(2000.0);
        let vessel = Vessel::new(length, positive(stage.bore_m, 1e-6).min(2.0), stage.nozzle_m);
        let pitch = 2.16 * vessel.radius;
        let middle = 0.5 * (f64::from(sets) - 1.0);
        let axes = (0..sets).map(|index| (f64::from(index) - middle) * pitch).collect();
        let standing = positive(stage.standing_height(), 0.0).min(length);
        Self { vessel, standing, axes, base: base + vessel.nozzle_length }
    }

    /// Half the width of all vessels together, m.
    pub fn half_width(&self) -> f64 {
        self.axes.last().copied().unwrap_or(0.0) + self.vessel.radius
    }

    /// Height of the vessels' top, m.
    pub fn top(&self) -> f64 {
        self.base + self.vessel.length
    }

    /// Height of the nozzles' exit, m.
    pub fn exit(&self) -> f64 {
        self.base - self.vessel.nozzle_length
    }

    /// Span and height of a fin, m.
    pub fn fin(&self) -> (f64, f64) {
        let span = 0.8 * self.vessel.radius;
        (span, (1.5 * span).min(0.5 * self.vessel.length))
    }
}

/// A rocket on the paper.
pub struct Layout {
    /// The whole picture.
    pub view_box: Area,
    /// The booster, if there is one.
    pub booster: Option<StageAt>,
    /// The sustainer.
    pub sustainer: StageAt,
    /// Height of the nose above the sustainer's vessels, m.
    pub nose: f64,
    axis: f64,
    floor: f64,
    scale: f64,
    column: f64,
}

impl Layout {
    /// Lays a rocket out in a picture of at least the given size; it grows where the labels, each at least so wide,
    /// need more.
    pub fn new(rocket: &Rocket, width: f64, height: f64, labels: usize, least_column: f64) -> Self {
        let booster = rocket.booster.as_ref().map(|stage| StageAt::new(stage, 0.0));
        let mut sustainer = StageAt::new(&rocket.sustainer, 0.0);
        if let Some(booster) = &booster {
            sustainer.base += booster.top() + 0.5 * booster.vessel.radius.max(sustainer.vessel.radius);
        }
        let nose = 1.4 * sustainer.vessel.radius.max(0.8 * sustainer.half_width().min(3.0 * sustainer.vessel.radius));
        let widest = [booster.as_ref(), Some(&sustainer)]
            .into_iter()
            .flatten()
            .map(|stage| 2.0 * (stage.half_width() + stage.fin().0))
            .fold(0.0, f64::max);
        let tallest = sustainer.top() + nose;

        let width = positive(width, 2.0 * least_column + 60.0).min(8192.0);
        let column = (0.25 * width).max(least_column).min(150.0);
        let height = positive(height, labels.div_ceil(2) as f64 * (TARGET + 2.0) + 4.0).min(8192.0);
        let (room_x, room_y) = (width - 2.0 * column - 24.0, height - GROUND - 10.0);
        let scale = (room_x / widest).min(room_y / tallest);
        Self {
            view_box: Area { x: 0.0, y: 0.0, width, height },
            booster,
            sustainer,
            nose,
            axis: 0.5 * width,
            floor: height - GROUND - 0.5 * (room_y - scale * tallest),
            scale,
            column,
        }
    }

    /// A point of the rocket on the paper.
    pub fn at(&self, across: f64, height: f64) -> (f64, f64) {
        (self.axis + across * self.scale, self.floor - height * self.scale)
    }

    /// The height above the lowest nozzle's exit that a place on the paper stands for, m.
    pub fn height_at(&self, y: f64) -> f64 {
        (self.floor - y) / self.scale
    }

    /// A stage, if it flies.
    pub fn stage(&self, stage: PartStage) -> Option<&StageAt> {
        match stage {
            PartStage::Booster => self.booster.as_ref(),
            PartStage::Sustainer => Some(&self.sustainer),
        }
    }

    /// Points of one vessel of a stage on the paper.
    pub fn on(&self, stage: &StageAt, axis: f64, points: &[(f64, f64)]) -> Vec<(f64, f64)> {
        points.iter().map(|(across, height)| self.at(axis + across, stage.base + height)).collect()
    }

    /// Length on the paper, px.
    pub fn length(&self, metres: f64) -> f64 {
        metres * self.scale
    }

    /// Left and right end of the room for the rocket, px.
    pub fn room(&self) -> (f64, f64) {
        (self.column + 6.0, self.view_box.width - self.column - 6.0)
    }

    /// Lays out the labels of parts that lie at the given heights (px): alternately left and right from the top, as
    /// near to their parts as they can be. Leaders within a column keep the order of their parts and do not cross.
    pub fn labels(&self, heights: &[f64]) -> Vec<(bool, Area)> {
        let mut order: Vec<usize> = (0..heights.len()).collect();
        holdwater_physics::order::sort_by_number(&mut order, |index| heights[*index]);
        let mut found = vec![(true, self.view_box); heights.len()];
        for side in 0..2 {
            let column: Vec<usize> = order.iter().copied().skip(side).step_by(2).collect();
            let wanted: Vec<(f64, f64)> = column.iter().map(|index| (heights[*index], TARGET + 2.0)).collect();
            let centres = spread(&wanted, 2.0, self.view_box.height - 2.0);
            for (index, centre) in column.into_iter().zip(centres) {
                let x = if side == 0 { 1.0 } else { self.view_box.width - self.column };
                let area = Area { x, y: centre - 0.5 * TARGET, width: self.column - 1.0, height: TARGET };
                found[index] = (side == 0, area);
            }
        }
        found
    }
}
