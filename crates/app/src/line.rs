//! Height against delay of a design beside the one at hand, for a line of its own in the chart.

use holdwater_answers::Sweep;

/// A line of heights.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Line {
    delays: Vec<f64>,
    heights: Vec<f64>,
}

impl Line {
    /// Delays along a line: enough for one that is only compared with.
    pub const POINTS: usize = 61;

    /// The line of a sweep, of the design as it stands.
    pub fn of(sweep: &Sweep) -> Self {
        let curves = sweep.curves();
        let heights = if curves.tube_m.is_empty() { curves.bare_m } else { curves.tube_m };
        Self { delays: curves.delay_s, heights }
    }

    /// Whether there is no point in it.
    pub fn is_empty(&self) -> bool {
        self.delays.is_empty()
    }

    /// As numbers: a delay and its height in turns.
    pub fn numbers(&self) -> Vec<f64> {
        self.delays.iter().zip(&self.heights).flat_map(|(delay, height)| [*delay, *height]).collect()
    }

    /// From such numbers.
    pub fn read(numbers: &[f64]) -> Self {
        let (pairs, _) = numbers.as_chunks::<2>();
        Self { delays: pairs.iter().map(|pair| pair[0]).collect(), heights: pairs.iter().map(|pair| pair[1]).collect() }
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
