//! A curve with its points where it bends.

use super::search::Height;

/// A curve through places given and as many more as make up a count, each put where the curve bends most.
///
/// A gap in the answers counts as a bend as large as the whole curve, so that its edge is found. No two points come closer than
/// the ratio given.
///
/// # Example
/// ```
/// use holdwater_physics::sizing::curve::sampled;
/// let points = sampled(&[1.0, 2.0, 4.0, 8.0, 16.0], 9, 1.01, &mut |x| Some(if x < 5.0 { x } else { 5.0 }));
/// let near_the_kink = points.iter().filter(|(x, _)| (4.0..=8.0).contains(x)).count();
/// assert!(points.len() == 9 && near_the_kink >= 4);
/// ```
#[must_use]
pub fn sampled(start: &[f64], count: usize, closest: f64, height: Height<'_>) -> Vec<(f64, Option<f64>)> {
    let mut ask = |place: f64| (place, height(place).filter(|height| height.is_finite()));
    let mut points: Vec<(f64, Option<f64>)> = start.iter().map(|&place| ask(place)).collect();
    for _ in points.len()..count {
        let Some(gap) = worst_gap(&points, closest) else { break };
        let middle = (points[gap].0 * points[gap + 1].0).sqrt();
        points.insert(gap + 1, ask(middle));
    }
    points
}

/// The gap between neighbours beside which the curve bends most and that may still be halved.
fn worst_gap(points: &[(f64, Option<f64>)], closest: f64) -> Option<usize> {
    let heights = points.iter().filter_map(|point| point.1);
    let (least, most) = heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, m), h| (l.min(h), m.max(h)));
    let whole = (most - least).max(0.0);
    let mut worst = None;
    let mut size = 0.0;
    for gap in 0..points.len().saturating_sub(1) {
        if points[gap + 1].0 < points[gap].0 * closest * closest {
            continue;
        }
        let bend = bend_at(points, gap, whole).max(bend_at(points, gap + 1, whole));
        // Between equal bends the wider gap comes first.
        let width = points[gap + 1].0 / points[gap].0 - 1.0;
        let badness = bend * width.sqrt();
        if badness > size {
            (worst, size) = (Some(gap), badness);
        }
    }
    worst
}

/// How far a point is from the line through its neighbours.
fn bend_at(points: &[(f64, Option<f64>)], index: usize, whole: f64) -> f64 {
    if index == 0 || index + 1 >= points.len() {
        return 0.0;
    }
    let [(x0, before), (x, here), (x1, after)] = [points[index - 1], points[index], points[index + 1]];
    match (before, here, after) {
        (Some(before), Some(here), Some(after)) => (here - before - (after - before) * (x - x0) / (x1 - x0)).abs(),
        (None, None, None) => 0.0,
        _ => whole,
    }
}
