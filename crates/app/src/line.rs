//! Height against delay of a design beside the one at hand, for a line of its own in the chart.

use holdwater_answers::Study;

/// Delays along a line: enough for a line that is only compared with.
const POINTS: usize = 61;

/// A line of heights.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Line {
    delays: Vec<f64>,
    heights: Vec<f64>,
}

impl Line {
    /// The line of a study as it stands.
    pub fn of(study: &Study) -> Self {
        let mut sweep = study.sweep(POINTS);
        // Every call flies at least one point, so that this ends; the bound is for the reader.
        for _ in 0..POINTS {
            if sweep.advance(study, POINTS) {
                break;
            }
        }
        let curves = sweep.curves();
        let heights = if curves.tube_m.is_empty() { curves.bare_m } else { curves.tube_m };
        Self { delays: curves.delay_s, heights }
    }

    /// Its heights at the delays of another chart, m; NaN beyond its own end.
    pub fn at(&self, delays: &[f64]) -> Vec<f64> {
        delays.iter().map(|delay| self.height(*delay)).collect()
    }

    fn height(&self, delay: f64) -> f64 {
        let point = |place: usize| Some((*self.delays.get(place)?, *self.heights.get(place)?));
        let next = self.delays.partition_point(|other| *other < delay);
        let Some((x1, y1)) = point(next) else { return f64::NAN };
        match next.checked_sub(1).and_then(point) {
            Some((x0, y0)) if x1 > x0 => y0 + (y1 - y0) * (delay - x0) / (x1 - x0),
            _ => y1,
        }
    }
}
