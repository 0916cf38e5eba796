//! The searches, one stage after the other.

use holdwater_physics::flight::{Launch, latest_below};
use holdwater_physics::rocket::LaunchTube;
use holdwater_physics::sizing::plate::{self, NoPattern, Pattern};
use holdwater_physics::sizing::search::{Height, Peak};
use holdwater_physics::sizing::tube::{self, Wall};
use holdwater_physics::sizing::{curve, search};

use super::case::{Case, down, in_mm, mm, up};
use super::flights::{Flights, launch};
use super::numbers::BestPlate;
use crate::study::PLANNED_LOSS;

/// Points of the curve.
const POINTS: usize = 60;
/// Of them, in equal ratios before it is seen where it bends.
const FIRST_POINTS: usize = 34;
/// Bores looked at when the plate has moved.
const LOOKS: usize = 14;
/// Lengths of a tube looked at.
const TUBE_LOOKS: usize = 12;
/// Neighbouring points of the curve are at least so far apart, as a ratio.
const CLOSEST: f64 = 1.004;
/// Share of height that another restrictor must gain to be proposed instead: a fifth of a metre in two hundred.
const WORTH_IT: f64 = 1e-3;
/// Share that one which does not hold must gain on those that do.
const WORTH_A_LEAK: f64 = PLANNED_LOSS;

/// What has been found so far.
#[derive(Clone, Debug, Default)]
pub(super) struct Found {
    /// Bores and heights.
    pub points: Vec<(f64, Option<f64>)>,
    /// Best bore, mm, with its height, m.
    pub best: Option<(f64, f64)>,
    /// The window, mm.
    pub window: Option<[f64; 2]>,
    /// The bore below which holes alone cost too much, m.
    pub chokes_below: Option<f64>,
    /// Best height of the plate, mm, with the height reached, m.
    pub plate_height: Option<(f64, f64)>,
    /// Hole of a pattern, m, and number that the plate has room for.
    pub room: (f64, u32),
    pub pattern: Option<Result<Pattern, NoPattern>>,
    /// The restrictor to build.
    pub best_plate: Option<BestPlate>,
    /// Its boost and coast.
    pub best_launch: Option<Launch>,
    pub plate_latest: Option<f64>,
    /// Longest tube whose wall can stand the pressure, m.
    pub tube_room_m: f64,
    pub tube: FoundTube,
    pub tube_launch: Option<Launch>,
    pub tube_latest: Option<f64>,
}

/// What has been found of the tube.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct FoundTube {
    /// Wall that was flown, m.
    pub wall_m: f64,
    /// Wall needed at the best length.
    pub needed: Option<Wall>,
    /// Longest that fits and stands the pressure, mm.
    pub longest_mm: f64,
    /// Shortest length that seats the water, mm.
    pub seated_mm: Option<f64>,
    /// Best length, mm, and its height, m.
    pub best: Option<(f64, f64)>,
    /// Share of height that water costs at that length.
    pub loss: f64,
}

/// The stages in order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Stage {
    Curve,
    Bore,
    Height,
    Room,
    Pattern,
    Best,
    BestLatest,
    TubeRoom,
    Tube,
    TubeLatest,
    Done,
}

impl Stage {
    pub fn next(self) -> Self {
        match self {
            Self::Curve => Self::Bore,
            Self::Bore => Self::Height,
            Self::Height => Self::Room,
            Self::Room => Self::Pattern,
            Self::Pattern => Self::Best,
            Self::Best => Self::BestLatest,
            Self::BestLatest => Self::TubeRoom,
            Self::TubeRoom => Self::Tube,
            Self::Tube => Self::TubeLatest,
            Self::TubeLatest | Self::Done => Self::Done,
        }
    }

    /// Runs a stage on what was found before it. What it leaves means nothing if the flights were interrupted.
    pub fn run(self, flights: &mut Flights<'_>, found: &mut Found) {
        match self {
            Self::Curve => found.points = points(flights),
            Self::Bore => bore(flights, found),
            Self::Height => found.plate_height = plate_height(flights, found),
            Self::Room => found.room = room(flights),
            Self::Pattern => found.pattern = Some(pattern(flights, found.room)),
            Self::Best => found.best_plate = best_plate(flights, found),
            Self::BestLatest => best_latest(flights, found),
            Self::TubeRoom => found.tube_room_m = strongest_tube(flights.case),
            Self::Tube => found.tube = tube(flights, found.tube_room_m),
            Self::TubeLatest => tube_latest(flights, found),
            Self::Done => {}
        }
    }
}

/// Bores to look at: in equal ratios, and where holding and leaking begin.
fn places(case: &Case, looks: usize) -> Vec<f64> {
    let mut places = plate::bores(case.plate.holes, case.bare.sustainer.nozzle_m, case.widest_fit, looks);
    let (Some(&least), Some(&most)) = (places.first(), places.last()) else { return places };
    for share in [case.plate.trusted_share, 1.0] {
        let bore = case.widest_hole(case.plate.holes, share);
        let place = places.partition_point(|&other| other < bore);
        let apart = |other: Option<&f64>| other.is_some_and(|other| (other / bore).max(bore / other) > CLOSEST);
        if bore > least && bore < most && apart(places.get(place)) && apart(places.get(place.wrapping_sub(1))) {
            places.insert(place, bore);
        }
    }
    places
}

fn points(flights: &mut Flights<'_>) -> Vec<(f64, Option<f64>)> {
    let case = flights.case;
    let (holes, height) = (case.plate.holes, case.plate.height_m);
    let places = places(case, FIRST_POINTS);
    curve::sampled(&places, POINTS, CLOSEST, &mut |bore| flights.plate_height(bore, holes, height))
}

/// The best bore for a plate at a height, mm, rounded down to a tenth, with its height, m.
fn best_bore(flights: &mut Flights<'_>, places: &[f64], height: f64) -> Option<(f64, f64)> {
    let holes = flights.case.plate.holes;
    let peak = plate::best_bore(places, &mut |bore| flights.plate_height(bore, holes, height))?;
    let bore = down(peak.place, 10.0);
    Some((bore, flights.plate_height(mm(bore), holes, height)?))
}

fn bore(flights: &mut Flights<'_>, found: &mut Found) {
    let case = flights.case;
    let (holes, height, ideal) = (case.plate.holes, case.plate.height_m, case.ideal);
    let places: Vec<f64> = found.points.iter().map(|point| point.0).collect();
    found.best = best_bore(flights, &places, height);
    let mut held = |bore: f64| flights.held_height(bore, holes, height);
    found.chokes_below = plate::chokes_below(&places, ideal, PLANNED_LOSS, &mut held);
    found.window = found.best.and_then(|(best, _)| {
        let mut free = |bore: f64| flights.plate_height(bore, holes, height);
        let (low, high) = plate::window(&places, mm(best), ideal, PLANNED_LOSS, &mut free)?;
        // Inward, so that both ends cost less than they may.
        let (low, high) = (up(low, 10.0), down(high, 10.0));
        (low <= high).then_some([low, high])
    });
}

/// A best bore, or the widest that holds where that is less and not nought.
fn held_or_best(best: f64, widest: f64) -> f64 {
    if widest > 0.0 { best.min(widest) } else { best }
}

/// Best height of the plate to the millimetre, with the fitted holes, or the best that hold.
fn plate_height(flights: &mut Flights<'_>, found: &Found) -> Option<(f64, f64)> {
    let case = flights.case;
    let stage = &case.bare.sustainer;
    let holes = case.plate.holes;
    let widest = mm(down(case.widest_hole(holes, case.plate.trusted_share), 10.0));
    let hole = if case.plate_fitted() { case.plate.hole_m } else { held_or_best(mm(found.best?.0), widest) };
    let places = plate::plate_heights(stage.standing_height(), stage.vessel_length());
    let peak = plate::best_height(&places, &mut |height| flights.plate_height(hole, holes, height))?;
    let mut height = |height: f64| flights.plate_height(hole, holes, height);
    let best = better(peak.place, &mut height)?;
    // A place away from the water's surface has to be worth it.
    let flush = better(stage.standing_height(), &mut height);
    Some(flush.filter(|flush| best.1 <= flush.1 * (1.0 + WORTH_IT)).unwrap_or(best))
}

/// Of the two whole millimetres next to a place the one with the greater height, mm, and that height.
fn better(place: f64, height: Height<'_>) -> Option<(f64, f64)> {
    let mut reached = |at: f64| if at > 0.0 { Some((at, height(mm(at))?)) } else { None };
    match (reached(down(place, 1.0)), reached(up(place, 1.0))) {
        (Some(low), Some(high)) => Some(if high.1 > low.1 { high } else { low }),
        (low, high) => low.or(high),
    }
}

/// The widest hole of several that holds, in tenths of a millimetre, and how many the plate has room for.
fn room(flights: &mut Flights<'_>) -> (f64, u32) {
    let case = flights.case;
    let bore = case.bare.sustainer.bore_m;
    let hole = mm(down(case.widest_hole(2, case.plate.trusted_share).min(plate::widest_that_fits(2, bore)), 10.0));
    let narrow = hole.is_nan() || hole < plate::NARROWEST_HOLE;
    (hole, if narrow { 0 } else { flights.room(hole, bore) })
}

fn pattern(flights: &mut Flights<'_>, (hole, most): (f64, u32)) -> Result<Pattern, NoPattern> {
    let case = flights.case;
    let height = case.plate.height_m;
    let nozzle = case.bare.sustainer.nozzle_m;
    plate::pattern(hole, nozzle, most, &mut |holes| flights.plate_height(hole, holes, height))
}

/// The restrictor to build. It holds, unless none that holds comes near the best; of those the fitted one, unless another is worth it.
fn best_plate(flights: &mut Flights<'_>, found: &Found) -> Option<BestPlate> {
    let case = flights.case;
    let own = case.plate;
    let widest = mm(down(case.widest_hole(own.holes, own.trusted_share), 10.0));
    let height = found.plate_height.map_or(own.height_m, |(height, _)| mm(height));
    let mut sized = vec![(own.height_m, found.best)];
    if (height - own.height_m).abs() > 1e-9 {
        sized.push((height, best_bore(flights, &places(case, LOOKS), height)));
    }
    let (mut held, mut open) = (None, None);
    let mut add = |flights: &mut Flights<'_>, holes: u32, hole_m: f64, height_m: f64, holds: bool| {
        let Some(apogee_m) = flights.plate_height(hole_m, holes, height_m).filter(|_| hole_m > 0.0) else { return };
        let next = BestPlate { holes, bore_mm: in_mm(hole_m), height_mm: in_mm(height_m), apogee_m };
        let best = if holds { &mut held } else { &mut open };
        if best.is_none_or(|best: BestPlate| apogee_m > best.apogee_m * (1.0 + WORTH_IT)) {
            *best = Some(next);
        }
    };
    if case.plate_fitted() {
        add(flights, own.holes, own.hole_m, own.height_m, own.hole_m <= widest);
    }
    for (at, best) in sized {
        let Some((bore, _)) = best else { continue };
        add(flights, own.holes, mm(bore).min(widest), at, true);
        add(flights, own.holes, mm(bore), at, mm(bore) <= widest);
        if let Some(Ok(pattern)) = &found.pattern {
            add(flights, pattern.holes, pattern.hole_m, at, true);
        }
    }
    match (held, open) {
        (Some(held), Some(open)) if open.apogee_m <= held.apogee_m * (1.0 + WORTH_A_LEAK) => Some(held),
        (held, open) => open.or(held),
    }
}

/// Horizon that the latest release is looked for in, s.
fn horizon() -> f64 {
    holdwater_design::Input::Delay.row().max
}

fn latest(flights: &mut Flights<'_>, launch: &Launch, tube: bool) -> Option<f64> {
    let longest = launch.longest_delay()?;
    latest_below(longest, PLANNED_LOSS, &mut |delay| flights.loss(launch, tube, delay))
}

fn best_latest(flights: &mut Flights<'_>, found: &mut Found) {
    let Some(best) = found.best_plate else { return };
    let case = flights.case;
    let rocket = case.with_plate(mm(best.bore_mm), best.holes, mm(best.height_mm));
    if found.best_launch.is_none() {
        found.best_launch = launch(&rocket, horizon());
    }
    found.plate_latest = found.best_launch.as_ref().and_then(|launch| latest(flights, launch, false));
}

fn tube_latest(flights: &mut Flights<'_>, found: &mut Found) {
    let Some((length, _)) = found.tube.best else { return };
    if found.tube_launch.is_none() {
        found.tube_launch = launch(&flights.case.with_tube(mm(length), found.tube.wall_m), horizon());
    }
    found.tube_latest = found.tube_launch.as_ref().and_then(|launch| latest(flights, launch, true));
}

/// Longest tube that the vessel has room for, m.
fn longest_tube(case: &Case, wall_m: f64) -> f64 {
    let stage = &case.bare.sustainer;
    let tube = LaunchTube { wall_m, ..case.tube };
    let metal = tube.outer_area() - tube.inner_area();
    // A little less than is refused.
    let room = 0.999 * (0.995 * stage.volume_m3 - stage.water_m3) / metal;
    mm(down(stage.vessel_length().min(room), 1.0).min(holdwater_design::Input::StagingTubeLength.row().max))
}

/// The wall that the tube of a case needs at a length.
pub(super) fn wall(case: &Case, length_m: f64) -> Option<Wall> {
    let pressure = case.bare.sustainer.fill_gauge_pa;
    tube::wall(case.tube.outer_m, length_m, pressure, case.bare.site.air_temperature_k)
}

/// The longest tube of its diameter that some wall makes strong enough, m. The longer, the sooner it buckles.
fn strongest_tube(case: &Case) -> f64 {
    let longest = mm(down(case.bare.sustainer.vessel_length(), 1.0));
    let mut stands = |length: f64| wall(case, length).is_some();
    match (stands(longest), stands(tube::SHORTEST)) {
        (true, _) => longest,
        (false, true) => mm(down(search::edge(tube::SHORTEST, longest, 1e-3, &mut stands), 1.0)),
        (false, false) => 0.0,
    }
}

fn tube(flights: &mut Flights<'_>, strongest_m: f64) -> FoundTube {
    let case = flights.case;
    let thick = |wall: Wall| mm(up(wall.needed(), 10.0));
    let mut found = FoundTube { wall_m: case.tube.wall_m, ..FoundTube::default() };
    // The wall depends on the length, and the best length, a little, on the mass of the wall: it may grow once with the best length, and
    // then to what the longest tube needs, which is enough for any.
    let longest = longest_tube(case, found.wall_m).min(strongest_m);
    for last_resort in [false, true] {
        sized_lengths(flights, &mut found, strongest_m);
        found.needed = found.best.and_then(|(length, _)| wall(case, mm(length)));
        let Some(thicker) = found.needed.map(thick).filter(|&thicker| thicker > found.wall_m) else { return found };
        let sure = if last_resort { wall(case, longest).map_or(thicker, thick) } else { thicker };
        if 2.0 * sure >= case.tube.outer_m {
            return found;
        }
        found.wall_m = sure;
    }
    sized_lengths(flights, &mut found, strongest_m);
    found.needed = found.best.and_then(|(length, _)| wall(case, mm(length)));
    found
}

/// Shortest and best length at the present wall, to the millimetre.
fn sized_lengths(flights: &mut Flights<'_>, found: &mut FoundTube, strongest_m: f64) {
    let wall = found.wall_m;
    let longest = longest_tube(flights.case, wall).min(strongest_m);
    found.longest_mm = longest * 1e3;
    let lengths = tube::lengths(longest, TUBE_LOOKS);
    let mut seats =
        |length: f64| flights.tube(length, wall).is_some_and(|outcome| outcome.seated && outcome.loss < PLANNED_LOSS);
    found.seated_mm = tube::shortest(&lengths, &mut seats).map(|length| up(length, 1.0));
    let mut height =
        |length: f64| flights.tube(length, wall).filter(|outcome| !outcome.fell).map(|outcome| outcome.height);
    found.best =
        tube::best_length(&lengths, &mut height).and_then(|peak| better(peak.place, &mut |length| height(length)));
    found.loss = found.best.and_then(|(length, _)| flights.tube(mm(length), wall)).map_or(0.0, |outcome| outcome.loss);
}

/// Highest point of the curve.
pub(super) fn highest_point(points: &[(f64, Option<f64>)]) -> Option<Peak> {
    let peaks = points.iter().filter_map(|point| Some(Peak { place: point.0, height: point.1? }));
    peaks.reduce(|a, b| if b.height > a.height { b } else { a })
}
