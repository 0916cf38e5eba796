//! Height against delay, flown in slices.

use crate::curves::DelayCurves;
use crate::study::Study;

/// A sweep under way.
#[derive(Clone, Debug)]
pub struct Sweep {
    curves: DelayCurves,
    points: usize,
    longest: f64,
}

impl Sweep {
    pub(crate) fn new(study: &Study, points: usize) -> Self {
        let longest = study.longest_delay();
        let (latest_release_s, uncovers_s) = study.bare_limits();
        Self {
            curves: DelayCurves { latest_release_s, uncovers_s, ..DelayCurves::default() },
            // A single stage has no delay to sweep.
            points: if longest.is_some() { points.max(2) } else { 0 },
            longest: longest.unwrap_or(0.0),
        }
    }

    /// Flies the next `points` delays; true when the sweep is complete.
    pub fn advance(&mut self, study: &Study, points: usize) -> bool {
        for _ in 0..points {
            if self.is_complete() {
                break;
            }
            let (settled, bare, own) = study.heights(self.next_delay());
            self.add(settled, bare, own);
        }
        self.is_complete()
    }

    fn is_complete(&self) -> bool {
        self.curves.delay_s.len() >= self.points
    }

    /// Just short of the very end, where the stack has no speed left and rounding decides. Denser at first, where the water starts to
    /// move and the curve has its corners.
    fn next_delay(&self) -> f64 {
        let part = self.curves.delay_s.len() as f64 / (self.points - 1) as f64;
        self.longest * 0.999 * part * part.sqrt()
    }

    fn add(&mut self, settled: f64, bare: f64, own: Option<f64>) {
        if self.is_complete() {
            return;
        }
        self.curves.delay_s.push(self.next_delay());
        self.curves.settled_m.push(settled);
        self.curves.bare_m.push(bare);
        self.curves.tube_m.extend(own);
    }

    /// The heights flown so far as numbers, for a second copy of the program: settled, bare and as it stands of each delay. Where the vessel is
    /// bare itself, the last two are equal.
    #[must_use]
    pub fn flown_as_numbers(&self) -> Vec<f64> {
        let DelayCurves { settled_m, bare_m, tube_m, .. } = &self.curves;
        let own = if tube_m.is_empty() { bare_m } else { tube_m };
        settled_m.iter().zip(bare_m).zip(own).flat_map(|((settled, bare), own)| [*settled, *bare, *own]).collect()
    }

    /// Takes what a second copy has flown for the same study instead of flying it.
    pub fn take_flown(&mut self, study: &Study, numbers: &[f64]) {
        for heights in numbers.chunks_exact(3) {
            let own = study.has_fittings().then_some(heights[2]);
            self.add(heights[0], heights[1], own);
        }
    }

    /// The curves so far.
    #[must_use]
    pub fn curves(&self) -> DelayCurves {
        self.curves.clone()
    }
}
