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
            let done = self.curves.delay_s.len();
            if done >= self.points {
                break;
            }
            // Just short of the very end, where the stack has no speed left and rounding decides.
            // Denser at first, where the water starts to move and the curve has its corners.
            let part = done as f64 / (self.points - 1) as f64;
            let delay = self.longest * 0.999 * part * part.sqrt();
            let (settled, bare, tube) = study.heights(delay);
            self.curves.delay_s.push(delay);
            self.curves.settled_m.push(settled);
            self.curves.bare_m.push(bare);
            self.curves.tube_m.extend(tube);
        }
        self.curves.delay_s.len() >= self.points
    }

    /// The curves so far.
    #[must_use]
    pub fn curves(&self) -> DelayCurves {
        self.curves.clone()
    }
}
