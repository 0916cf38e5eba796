//! From samples to the few points a line needs on the screen.

use super::Frame;

/// A point of a picture, CSS px.
pub type Point = (f64, f64);

/// The samples as pieces of line inside the plot: broken where a sample is no number, cut at the plot's edges,
/// at most two points for each pixel column, and without points that bend the line by less than `tolerance` px.
#[must_use]
pub fn pieces(frame: &Frame, xs: &[f64], ys: &[f64], columns_per_px: f64, tolerance: f64) -> Vec<Vec<Point>> {
    let mut found = Vec::new();
    let mut run: Vec<Point> = Vec::new();
    for (x, y) in xs.iter().zip(ys) {
        let point = (frame.x_of(*x), frame.y_of(*y));
        if point.0.is_finite() && point.1.is_finite() {
            run.push(point);
        } else {
            found.append(&mut clipped(frame, &std::mem::take(&mut run)));
        }
    }
    found.append(&mut clipped(frame, &run));
    found
        .into_iter()
        .map(|run| simplified(&thinned(&run, columns_per_px), tolerance))
        .filter(|run| run.len() > 1)
        .collect()
}

/// Cuts a line at the edges of the plot.
fn clipped(frame: &Frame, run: &[Point]) -> Vec<Vec<Point>> {
    let mut found: Vec<Vec<Point>> = Vec::new();
    let mut joined = false;
    for pair in run.windows(2) {
        let Some((start, end, start_whole, end_whole)) = cut(frame, pair[0], pair[1]) else {
            joined = false;
            continue;
        };
        match found.last_mut() {
            Some(last) if joined && start_whole => last.push(end),
            _ => found.push(vec![start, end]),
        }
        joined = end_whole;
    }
    found
}

/// The part of a segment inside the plot (Liang and Barsky's method), and whether its ends are the segment's own.
fn cut(frame: &Frame, a: Point, b: Point) -> Option<(Point, Point, bool, bool)> {
    let (dx, dy) = (b.0 - a.0, b.1 - a.1);
    let (mut enter, mut leave) = (0.0f64, 1.0f64);
    let bounds = [(-dx, a.0 - frame.left), (dx, frame.right - a.0), (-dy, a.1 - frame.top), (dy, frame.bottom - a.1)];
    for (slope, room) in bounds {
        if slope.abs() < 1e-12 {
            // Half a thousandth of a pixel of grace: the curve's own highest point lies on the edge.
            if room < -5e-4 {
                return None;
            }
        } else if slope < 0.0 {
            enter = enter.max(room / slope);
        } else {
            leave = leave.min(room / slope);
        }
    }
    if enter > leave {
        return None;
    }
    let at = |share: f64| (a.0 + share * dx, a.1 + share * dy);
    Some((at(enter), at(leave), enter <= 0.0, leave >= 1.0))
}

/// Keeps the lowest and the highest point of each column, in their order, and both ends.
fn thinned(run: &[Point], columns_per_px: f64) -> Vec<Point> {
    let column = |point: &Point| (point.0 * columns_per_px).floor() as i64;
    let mut kept: Vec<Point> = Vec::new();
    for group in run.chunk_by(|a, b| column(a) == column(b)) {
        let (mut low, mut high) = (0, 0);
        for (index, point) in group.iter().enumerate() {
            if point.1 < group[low].1 {
                low = index;
            }
            if point.1 > group[high].1 {
                high = index;
            }
        }
        kept.push(group[low.min(high)]);
        if low != high {
            kept.push(group[low.max(high)]);
        }
    }
    if let (Some(first), Some(last), Some(start), Some(end)) = (run.first(), run.last(), kept.first(), kept.last()) {
        let (lead, tail) = (first != start, last != end);
        if lead {
            kept.insert(0, *first);
        }
        if tail {
            kept.push(*last);
        }
    }
    kept
}

/// Leaves out points closer than the tolerance to the line without them (Douglas and Peucker's method). Backends
/// round to whole pixels: long straight pieces look smooth where many short ones look like stairs.
fn simplified(run: &[Point], tolerance: f64) -> Vec<Point> {
    if run.len() < 3 {
        return run.to_vec();
    }
    let mut keep = vec![false; run.len()];
    keep[0] = true;
    keep[run.len() - 1] = true;
    let mut open = vec![(0, run.len() - 1)];
    while let Some((first, last)) = open.pop() {
        let mut worst = (0, tolerance);
        for index in first + 1..last {
            let off = distance(run[index], run[first], run[last]);
            if off > worst.1 {
                worst = (index, off);
            }
        }
        if worst.0 > 0 {
            keep[worst.0] = true;
            open.push((first, worst.0));
            open.push((worst.0, last));
        }
    }
    run.iter().zip(keep).filter_map(|(point, keep)| keep.then_some(*point)).collect()
}

/// Distance of two points.
pub(super) fn between(a: Point, b: Point) -> f64 {
    let (dx, dy) = (b.0 - a.0, b.1 - a.1);
    (dx * dx + dy * dy).sqrt()
}

/// Distance of a point from a segment.
fn distance(point: Point, a: Point, b: Point) -> f64 {
    let (dx, dy) = (b.0 - a.0, b.1 - a.1);
    let square = dx * dx + dy * dy;
    let share = if square > 0.0 { ((point.0 - a.0) * dx + (point.1 - a.1) * dy) / square } else { 0.0 };
    let share = share.clamp(0.0, 1.0);
    between(point, (a.0 + share * dx, a.1 + share * dy))
}

/// Cuts a line into dashes. The pattern holds lengths in px, drawn and blank in turn; an empty one draws all.
#[must_use]
pub fn dashed(run: &[Point], pattern: &[f64]) -> Vec<Vec<Point>> {
    if pattern.is_empty() || pattern.iter().any(|length| !(0.1..1e6).contains(length)) {
        return vec![run.to_vec()];
    }
    let mut found = Vec::new();
    let mut dash: Vec<Point> = run.first().copied().into_iter().collect();
    let (mut index, mut left) = (0, pattern[0]);
    for pair in run.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let length = between(a, b);
        let mut done = 0.0;
        while length - done > left {
            done += left;
            let share = done / length;
            let point = (a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1));
            if index % 2 == 0 {
                dash.push(point);
                found.push(std::mem::take(&mut dash));
            }
            index = (index + 1) % (pattern.len() + pattern.len() % 2);
            left = pattern[index % pattern.len()];
            if index % 2 == 0 {
                dash = vec![point];
            }
        }
        left -= length - done;
        if index % 2 == 0 {
            dash.push(b);
        }
    }
    if index % 2 == 0 && dash.len() > 1 {
        found.push(dash);
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    const FRAME: Frame =
        Frame { left: 0.0, top: 0.0, right: 100.0, bottom: 50.0, x_range: (0.0, 1.0), y_range: (0.0, 1.0) };

    fn length(run: &[Point]) -> f64 {
        run.windows(2).map(|pair| between(pair[0], pair[1])).sum()
    }

    #[test]
    fn many_samples_become_few_points_and_keep_their_peak() {
        let xs: Vec<f64> = (0..20_000).map(|index| f64::from(index) / 19_999.0).collect();
        let ys: Vec<f64> = xs.iter().map(|x| if (0.5..0.5005).contains(x) { 1.0 } else { 0.1 }).collect();
        let lines = pieces(&FRAME, &xs, &ys, 1.0, 0.0);
        assert_eq!(lines.len(), 1);
        assert!(lines[0].len() <= 2 * 101 + 2);
        assert!(lines[0].iter().any(|point| point.1 < 0.01), "the short peak is gone");
    }

    #[test]
    fn gaps_break_the_line_and_edges_cut_it() {
        let lines = pieces(&FRAME, &[0.0, 0.2, 0.4, 0.6, 0.8], &[0.1, 0.2, f64::NAN, 0.3, 3.0], 1.0, 0.0);
        assert_eq!(lines.len(), 2);
        let end = lines[1][lines[1].len() - 1];
        assert!(end.1.abs() < 1e-9 && end.0 < 80.0, "{end:?}");
    }

    #[test]
    fn a_line_that_leaves_and_returns_is_two() {
        let lines = pieces(&FRAME, &[0.0, 0.25, 0.5, 0.75, 1.0], &[0.5, 0.5, 2.0, 0.5, 0.5], 1.0, 0.0);
        assert_eq!(lines.len(), 2);
    }

    #[test]
    fn a_straight_line_needs_two_points() {
        let xs: Vec<f64> = (0..500).map(|index| f64::from(index) / 499.0).collect();
        assert_eq!(pieces(&FRAME, &xs, &xs, 1.0, 0.3)[0].len(), 2);
    }

    #[test]
    fn dashes_and_blanks_share_the_length_as_the_pattern_says() {
        let run = [(0.0, 0.0), (33.0, 0.0), (33.0, 67.0)];
        let dashes = dashed(&run, &[6.0, 4.0]);
        let drawn: f64 = dashes.iter().map(|dash| length(dash)).sum();
        assert_eq!(dashes.len(), 10);
        assert!((drawn - 60.0).abs() < 1e-9, "{drawn}");
        assert_eq!(dashed(&run, &[]).len(), 1);
    }
}
