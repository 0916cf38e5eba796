//! Where equal round holes go on a round plate.
//!
//! A pattern is laid out with its nearest holes one apart, so that all that counts of it is its reach: how far the outermost
//! centre lies from the middle. The pattern with the least reach is then spread until the webs between holes and the web
//! at the wall are equal. Rings for few holes, a lattice of triangles for many. Neither is the densest packing known, but both
//! look like something that a person would drill.

use crate::order::sort_long;
use crate::real::direction;

/// More holes than this are not laid out.
pub const MOST_HOLES: u32 = 2000;

/// Up to here rings are tried.
const MOST_IN_RINGS: u32 = 61;
/// Rings with more holes than this are never the best of so few.
const MOST_IN_ONE_RING: u32 = 24;
/// Rings in one pattern, a hole in the middle counting as one.
const RINGS: usize = 4;

/// Middles of a lattice of triangles: (steps from point to point, first step, second step). A point, a triangle, an edge.
const MIDDLES: [(i64, i64, i64); 3] = [(1, 0, 0), (3, 1, 1), (2, 1, 0)];

/// What rounding may take of a plate that fits exactly.
const ROUNDING: f64 = 1e-12;

/// A pattern with its nearest holes one apart.
#[derive(Clone, Copy)]
enum Pattern {
    /// Holes in each ring from the inside, nought where there is none.
    Rings([u32; RINGS]),
    /// Points of a lattice around one of its [`MIDDLES`].
    Lattice((i64, i64, i64)),
}

/// Greatest common divisor.
fn common(a: u32, b: u32) -> u32 {
    if b == 0 { a } else { common(b, a % b) }
}

/// By how much a ring is turned against the next inner one, as share of a turn: halfway between the directions that meet.
fn turn(inner: u32, outer: u32) -> f64 {
    0.5 * f64::from(common(inner, outer)) / (f64::from(inner) * f64::from(outer))
}

/// Least radius of a ring of holes one apart.
fn ring_radius(holes: u32) -> f64 {
    if holes < 2 { 0.0 } else { 0.5 / direction(0.5 / f64::from(holes)).1 }
}

/// Least radius of a ring around others: inner ones and their radii, from the inside.
fn next_radius(inside: &[(u32, f64)], holes: u32) -> f64 {
    let own = ring_radius(holes);
    let Some(&(inner, radius)) = inside.last() else {
        return own;
    };
    let (cos, sin) = direction(turn(inner, holes));
    let clear = radius * cos + (1.0 - radius * radius * sin * sin).max(0.0).sqrt();
    // The ring after the next is kept away as if it met this one.
    let beyond = inside.iter().rev().nth(1).map_or(0.0, |ring| ring.1 + 1.0);
    own.max(clear).max(radius).max(beyond)
}

/// Radii of rings, from the inside.
fn radii(rings: &[u32]) -> Vec<(u32, f64)> {
    let mut found = Vec::new();
    for &holes in rings.iter().filter(|holes| **holes > 0) {
        let radius = next_radius(&found, holes);
        found.push((holes, radius));
    }
    found
}

/// Tries all rings around those given, and keeps the pattern of least reach.
fn try_rings(inside: &[(u32, f64)], left: u32, best: &mut ([u32; RINGS], f64)) {
    let (inner, reach) = inside.last().copied().unwrap_or((1, 0.0));
    if reach >= best.1 - ROUNDING {
        return;
    }
    if left == 0 {
        let mut rings = [0; RINGS];
        for (place, ring) in rings.iter_mut().zip(inside) {
            *place = ring.0;
        }
        *best = (rings, reach);
        return;
    }
    let rings_left = RINGS.saturating_sub(inside.len()) as u32;
    // The fullest ring still to come takes at least its share.
    if rings_left == 0 || ring_radius(left.div_ceil(rings_left)) >= best.1 - ROUNDING {
        return;
    }
    let widest = if inside.is_empty() { 9 } else { MOST_IN_ONE_RING };
    for holes in inner..=widest.min(left) {
        // What is left must fill a ring at least as full.
        if holes == left || left - holes >= holes {
            let mut rings = inside.to_vec();
            rings.push((holes, next_radius(inside, holes)));
            try_rings(&rings, left - holes, best);
        }
    }
}

/// The rings of least reach below a reach; that reach where there are none.
fn best_rings(holes: u32, below: f64) -> ([u32; RINGS], f64) {
    let mut best = ([0; RINGS], below);
    if holes <= MOST_IN_RINGS {
        try_rings(&[], holes, &mut best);
    }
    best
}

/// Points of a lattice as (square of the distance from the middle, steps along both axes), in steps; at least the nearest so many.
fn lattice((scale, first, second): (i64, i64, i64), holes: u32) -> Vec<(i64, i64, i64)> {
    // A circle around n points has the radius 0.525 sqrt(n); the axes are askew, and the middle is off by up to one.
    let side = (0.607 * f64::from(holes.min(MOST_HOLES)).sqrt()) as i64 + 3;
    let steps = || -side..=side;
    steps()
        .flat_map(|a| steps().map(move |b| (scale * a + first, scale * b + second)))
        .map(|(a, b)| (a * a + a * b + b * b, a, b))
        .collect()
}

/// Reach of a lattice with a number of holes, and whether its outermost shell is complete.
fn lattice_reach(middle: (i64, i64, i64), holes: u32) -> (f64, bool) {
    let points = lattice(middle, holes);
    let holes = holes as usize;
    let inside = |norm: i64| points.iter().filter(|point| point.0 <= norm).count();
    let mut high = points.iter().map(|point| point.0).max().unwrap_or(0);
    if holes > points.len() {
        return (f64::INFINITY, false);
    }
    // The least square of a radius that holds as many points as there are holes, by halving.
    let mut low = -1;
    while high - low > 1 {
        let middle = low + (high - low) / 2;
        if inside(middle) >= holes { high = middle } else { low = middle }
    }
    ((high as f64).sqrt() / middle.0 as f64, inside(high) == holes)
}

/// The pattern of least reach.
fn best_pattern(holes: u32) -> (Pattern, f64) {
    let mut best = (MIDDLES[0], f64::INFINITY, false);
    for middle in MIDDLES {
        let (reach, complete) = lattice_reach(middle, holes);
        if reach < best.1 - ROUNDING || (complete && reach <= best.1 + ROUNDING) {
            best = (middle, reach, complete);
        }
    }
    let (middle, reach, complete) = best;
    // Of equals, complete shells look better than rings, and rings better than shells with gaps.
    let below = if complete { reach } else { reach + 3.0 * ROUNDING };
    let (rings, smaller) = best_rings(holes, below);
    if rings[0] > 0 { (Pattern::Rings(rings), smaller) } else { (Pattern::Lattice(middle), reach) }
}

/// The widest reach that a plate allows, in distances of neighbours; `None` where not even one hole fits.
fn room(hole_m: f64, bore_m: f64, web_m: f64) -> Option<f64> {
    let web = web_m.max(0.0);
    let room = 0.5 * (bore_m - hole_m - 2.0 * web) / (hole_m + web);
    (hole_m > 0.0 && room.is_finite() && room >= -ROUNDING).then_some(room + ROUNDING)
}

/// The best pattern, if it fits.
fn pattern_that_fits(holes: u32, hole_m: f64, bore_m: f64, web_m: f64) -> Option<(Pattern, f64)> {
    let room = room(hole_m, bore_m, web_m)?;
    let (pattern, reach) = (1..=MOST_HOLES).contains(&holes).then(|| best_pattern(holes))?;
    (reach <= room).then_some((pattern, reach))
}

/// Whether equal holes fit on a plate with a web of at least the one given between each other and to the wall.
///
/// With the patterns of [`centres`]; a denser packing may fit where this says no.
#[must_use]
pub fn fits(holes: u32, hole_m: f64, bore_m: f64, web_m: f64) -> bool {
    holes == 0 || pattern_that_fits(holes, hole_m, bore_m, web_m).is_some()
}

/// The most equal holes that fit, up to [`MOST_HOLES`].
#[must_use]
pub fn most_that_fit(hole_m: f64, bore_m: f64, web_m: f64) -> u32 {
    let Some(room) = room(hole_m, bore_m, web_m) else {
        return 0;
    };
    let in_lattice = MIDDLES.iter().map(|middle| {
        let inside = |point: &(i64, i64, i64)| (point.0 as f64).sqrt() / middle.0 as f64 <= room;
        lattice(*middle, MOST_HOLES).into_iter().filter(inside).count()
    });
    let most = in_lattice.max().unwrap_or(0).min(MOST_HOLES as usize) as u32;
    let below = room + 2.0 * ROUNDING;
    (most + 1..=MOST_IN_RINGS).rev().find(|holes| best_rings(*holes, below).1 <= room).unwrap_or(most.max(1))
}

/// Centres of equal holes, m, with the middle of the plate as origin; `None` if they do not fit.
///
/// # Equation
/// Distance of neighbours = (D + d)/(2 (1 + reach)), which makes the webs between holes and at the wall equal
///
/// # Symbols
/// D bore, d hole, m; reach of the pattern in distances of neighbours.
///
/// # Range
/// Up to [`MOST_HOLES`]; the web asked for is the least one.
///
/// # Source
/// Geometry.
///
/// # Example
/// ```
/// // One in the middle and six around it.
/// let seven = holdwater_physics::restrictor::holes::centres(7, 0.010, 0.050, 0.002).unwrap();
/// assert_eq!(seven[0], (0.0, 0.0));
/// assert!((seven[1].0.hypot(seven[1].1) - 0.015).abs() < 1e-15);
/// ```
#[must_use]
pub fn centres(holes: u32, hole_m: f64, bore_m: f64, web_m: f64) -> Option<Vec<(f64, f64)>> {
    if holes == 0 {
        return Some(Vec::new());
    }
    let (pattern, reach) = pattern_that_fits(holes, hole_m, bore_m, web_m)?;
    let pitch = 0.5 * (bore_m + hole_m) / (1.0 + reach);
    let unit = match pattern {
        Pattern::Rings(rings) => in_rings(&rings),
        Pattern::Lattice(middle) => in_lattice(middle, holes),
    };
    Some(unit.into_iter().map(|(x, y)| (pitch * x, pitch * y)).collect())
}

/// Centres of holes in rings.
fn in_rings(rings: &[u32]) -> Vec<(f64, f64)> {
    let mut found = Vec::new();
    let mut start = 0.25;
    let mut inner = None;
    for (holes, radius) in radii(rings) {
        start += inner.map_or(0.0, |inner| turn(inner, holes));
        inner = Some(holes);
        for hole in 0..holes {
            let turns = start + f64::from(hole) / f64::from(holes);
            let (cos, sin) = direction(turns - turns.floor());
            found.push((radius * cos, radius * sin));
        }
    }
    found
}

/// Centres of holes on a lattice: whole shells from the inside, and of the last one as many as are left, spread around it.
fn in_lattice(middle: (i64, i64, i64), holes: u32) -> Vec<(f64, f64)> {
    let mut points = lattice(middle, holes);
    let place = |point: &(i64, i64, i64)| {
        let (a, b, scale) = (point.1 as f64, point.2 as f64, middle.0 as f64);
        ((a + 0.5 * b) / scale, 0.75_f64.sqrt() * b / scale)
    };
    let turned = |point: &(i64, i64, i64)| around(place(point));
    sort_long(&mut points, |p, q| p.0.cmp(&q.0).then_with(|| turned(p).total_cmp(&turned(q))).is_lt());
    let holes = holes as usize;
    let last = points.get(holes.saturating_sub(1)).map_or(0, |point| point.0);
    let mut found: Vec<_> = points.iter().take_while(|point| point.0 < last).map(place).collect();
    let shell: Vec<_> = points.iter().filter(|point| point.0 == last).map(place).collect();
    let left = holes.saturating_sub(found.len());
    found.extend((0..left).filter_map(|index| shell.get(index * shell.len() / left)));
    found
}

/// Grows with the direction of a point around the origin, without being its angle.
fn around((x, y): (f64, f64)) -> f64 {
    let share = x / (x.abs() + y.abs()).max(f64::MIN_POSITIVE);
    if y < 0.0 { 3.0 + share } else { 1.0 - share }
}
