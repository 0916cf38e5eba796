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
    /// Height up to which there is gas at the nozzle, m.
    pub gas: f64,
    /// Height of a plate that holds the water, m.
    pub plate: Option<f64>,
    /// Whether all water below the plate hangs from it.
    pub hangs: bool,
    /// Lifted water as an area of the section, m2.
    pub area: f64,
    /// Height of the lifted water, m.
    pub centre: f64,
    /// Water that leaked through the plate as an area of the section, m2.
    pub leaked: f64,
}

impl Contents {
    /// What a picture shows.
    pub fn new(picture: &WaterPicture) -> Self {
        let vessel = Vessel::new(picture.length_m, picture.bore_m, picture.nozzle_m);
        let standing = positive(picture.standing_m, 0.0).min(vessel.length);
        let finger = positive(picture.finger_m, 0.0).min(standing);
        let bore = 2.0 * vessel.radius;
        let section = core::f64::consts::PI * vessel.radius * vessel.radius;
        let depth = |volume: f64| (positive(volume, 0.0) / section).min(vessel.length);
        let gas = depth(picture.gas_at_nozzle_m3);
        // Water that is lifted off an open nozzle is not held, whatever is fitted.
        let plate = picture
            .restrictor_m
            .map(|(height, ..)| positive(height, 0.0).min(vessel.length))
            .filter(|_| picture.covered || gas > 0.0);
        let gas = plate.map_or(0.0, |plate| gas.min(plate));
        let above = plate.is_some_and(|plate| standing > plate + 1e-9);
        let hangs = gas > 0.0 && !above && (finger <= 1e-9 || finger >= standing - gas - 1e-9);
        let lowest = match plate {
            Some(plate) if above => plate,
            _ if hangs => standing,
            _ => gas,
        };
        // The word and the drawing must agree even where rounding does not: covered means water over the nozzle.
        let bottom = match (picture.covered || gas > 0.0, (standing - finger).max(lowest)) {
            (false, _) => 0.0,
            (true, bottom) => bottom.max(gas + 0.02 * (standing - gas).max(0.0)),
        };
        Self {
            standing,
            bottom,
            gas,
            plate,
            hangs,
            area: depth(picture.lifted_m3) * bore,
            centre: positive(picture.lifted_height_m, 0.0).min(vessel.length),
            leaked: plate.map_or(0.0, |_| depth(picture.leaked_m3) * bore),
            vessel,
        }
    }

    /// Lowest and highest point of the water that hangs from the plate; `None` when none does.
    pub fn hanging(&self) -> Option<(f64, f64)> {
        self.plate.filter(|plate| self.hangs && *plate > self.gas).map(|plate| (self.gas, plate))
    }

    /// Whether all seated water is in the room below the plate, so that it cannot rise past it.
    pub fn plate_is_roof(&self) -> bool {
        self.plate.is_some() && self.above().is_none()
    }

    /// Height of the plate when water stands above it.
    fn above(&self) -> Option<f64> {
        self.plate.filter(|plate| self.standing > plate + 1e-9)
    }
}

/// Seated water around the gas finger, what hangs from a plate, and lifted and leaked water above it.
pub fn draw_water(shapes: &mut Vec<Shape>, picture: &WaterPicture, contents: &Contents, paper: &Paper) {
    let Contents { vessel, standing, bottom, gas, plate, hangs, area, centre, leaked } = contents;
    let region = |low: f64, high: f64, class| Shape::through(&paper.points(&vessel.region(low, high)), true, class);
    let surface = |height: f64| {
        let edge = vessel.half_width(height);
        Shape::through(&paper.points(&[(-edge, height), (edge, height)]), false, "surface")
    };
    let mut low = *gas;
    if let Some((low, high)) = contents.hanging() {
        shapes.extend(region(low, high, "water"));
    } else if let Some(plate) = contents.above() {
        shapes.extend(region(low, plate, "water"));
        low = plate;
    }
    if !hangs && *standing > low {
        draw_seated(shapes, contents, picture.covered || plate.is_some(), low, paper);
    }
    if *gas > 0.0 {
        shapes.extend(surface(*gas));
    } else if *standing > 0.0 && picture.covered {
        shapes.extend(region(-vessel.nozzle_length, -1e-9, "water"));
    }
    // Water in the room below a plate cannot rise past it; water above it goes where it would without one.
    let (low, ceiling) = match plate {
        Some(plate) if contents.above().is_none() => (*gas, *plate),
        _ => (bottom.min(*standing), vessel.length),
    };
    // Less than a drop of a hundredth of the bore is not seen.
    let seen = |area: f64| area > 1e-4 * vessel.radius * vessel.radius;
    let tube = vessel.tube(picture.tube_m);
    let shed = |shapes: &mut Vec<Shape>, area: f64, centre: f64, low: f64, high: f64| match lifted(
        vessel,
        area,
        centre,
        (low, high),
        tube,
    ) {
        Lifted::Drops(drops) => shapes.extend(drops.into_iter().map(|(across, height, radius)| Shape::Circle {
            cx: paper.x(across),
            cy: paper.y(height),
            r: radius * paper.scale,
            class: "lifted",
        })),
        Lifted::Slug(low, high) => shapes.extend(region(low, high, "lifted")),
    };
    if seen(*area) && !hangs && ceiling > low {
        if picture.at_nose {
            let depth = if ceiling < vessel.length { area / (2.0 * vessel.radius) } else { vessel.pool_depth(*area) };
            let foot = (ceiling - depth).max(low);
            shapes.extend(region(foot, ceiling, "lifted"));
            shapes.extend(surface(foot));
        } else {
            shed(shapes, *area, *centre, low, ceiling);
        }
    }
    if let Some(plate) = plate.filter(|plate| seen(*leaked) && *plate < vessel.length) {
        let room = vessel.length - plate;
        let middle = if *centre > plate { *centre } else { plate + 0.35 * room };
        shed(shapes, *leaked, middle, plate, vessel.length);
    }
}

/// Water from a height up to its standing height, around the gas finger.
fn draw_seated(shapes: &mut Vec<Shape>, contents: &Contents, covered: bool, low: f64, paper: &Paper) {
    let Contents { vessel, standing, bottom, .. } = contents;
    let finger = finger_outline(contents, covered);
    let heights = vessel.heights(low, *standing);
    let mut outline: Vec<(f64, f64)> = heights.iter().map(|h| (-vessel.half_width(*h), *h)).collect();
    outline.extend(&finger);
    outline.extend(heights.iter().rev().map(|h| (vessel.half_width(*h), *h)));
    shapes.extend(Shape::through(&paper.points(&outline), true, "water"));
    let edge = vessel.half_width(*standing);
    // Along the wall the film is thinner than a line, which would hide it: only the finger's nose has one.
    let mut surface = finger;
    surface.retain(|point| covered && point.1 <= bottom + FINGER * vessel.radius);
    if *bottom >= *standing {
        surface = vec![(-edge, *standing), (edge, *standing)];
    }
    shapes.extend(Shape::through(&paper.points(&surface), false, "surface"));
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
