//! The inside of a vessel in section: a cylinder with a domed nose and rounded shoulders down to the nozzle.
//!
//! The physics knows a plain cylinder of the vessel's volume. Heights are drawn as they are; only the corners are
//! rounded, so that up to some per cent of the volume at either end is missing from the drawing.

/// Steps in which an arc is drawn.
const STEPS: u32 = 16;

/// A vessel standing on its nozzle; lengths in m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vessel {
    /// Internal length.
    pub length: f64,
    /// Half the internal diameter.
    pub radius: f64,
    /// Half the nozzle throat.
    pub throat: f64,
    /// Length of the nozzle below the vessel.
    pub nozzle_length: f64,
    shoulder: f64,
    dome: f64,
}

impl Vessel {
    /// A vessel of the given size; whatever is no positive number becomes a very small one.
    pub fn new(length: f64, bore: f64, nozzle: f64) -> Self {
        let length = positive(length, 1e-6);
        let bore = positive(bore, 1e-6);
        Self {
            length,
            radius: 0.5 * bore,
            throat: 0.5 * positive(nozzle, 1e-9).min(bore),
            nozzle_length: 0.14 * bore,
            shoulder: (0.3 * bore).min(0.25 * length),
            dome: (0.42 * bore).min(0.3 * length),
        }
    }

    /// Half the inner width at a height.
    pub fn half_width(&self, height: f64) -> f64 {
        let arc = |share: f64| (1.0 - share * share).max(0.0).sqrt();
        if height < 0.0 {
            self.throat
        } else if height < self.shoulder {
            self.throat + (self.radius - self.throat) * arc(1.0 - height / self.shoulder)
        } else if height > self.length - self.dome {
            self.radius * arc(((height - self.length + self.dome) / self.dome).min(1.0))
        } else {
            self.radius
        }
    }

    /// Heights between two others at which the wall should be sampled: close where it bends.
    pub fn heights(&self, low: f64, high: f64) -> Vec<f64> {
        let mut found = vec![low];
        let mut push = |height: f64| {
            if height > low && height < high {
                found.push(height);
            }
        };
        // Steps that shrink towards the flat ends, where an arc bends most for its height.
        for step in 0..=STEPS {
            let share = f64::from(step) / f64::from(STEPS);
            push(self.shoulder * share * share);
        }
        for step in 0..=STEPS {
            let share = 1.0 - f64::from(step) / f64::from(STEPS);
            push(self.length - self.dome * share * share);
        }
        found.push(high);
        found
    }

    /// Outline between two heights, from the lower left up and down again at the right.
    pub fn region(&self, low: f64, high: f64) -> Vec<(f64, f64)> {
        let heights = self.heights(low, high);
        let left = heights.iter().map(|height| (-self.half_width(*height), *height));
        let right = heights.iter().rev().map(|height| (self.half_width(*height), *height));
        left.chain(right).collect()
    }

    /// Top and half the outer diameter of a tube of the given length and diameter, held inside the vessel; zeros for
    /// none.
    pub fn tube(&self, tube: Option<(f64, f64)>) -> (f64, f64) {
        let Some((length, outer)) = tube else {
            return (0.0, 0.0);
        };
        let top = positive(length, 0.0).min(self.length);
        let fits = self.half_width(top).max(self.throat).min(self.radius);
        (top, (0.5 * positive(outer, 0.0)).min(fits))
    }

    /// Depth of a pool against the nose whose section has the given area.
    pub fn pool_depth(&self, area: f64) -> f64 {
        let steps = 256;
        let step = self.length / f64::from(steps);
        let mut filled = 0.0;
        for index in 0..steps {
            let slice = 2.0 * self.half_width(self.length - (f64::from(index) + 0.5) * step) * step;
            if filled + slice >= area {
                return (f64::from(index) + (area - filled).max(0.0) / slice.max(1e-30)) * step;
            }
            filled += slice;
        }
        self.length
    }
}

/// The value, or the least one where it is smaller or no number.
pub fn positive(value: f64, least: f64) -> f64 {
    if value.is_finite() { value.max(least) } else { least }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn walls_join_without_steps() {
        let vessel = Vessel::new(0.33, 0.088, 0.009);
        for height in [0.0, vessel.shoulder, vessel.length - vessel.dome] {
            let jump = vessel.half_width(height + 1e-9) - vessel.half_width(height - 1e-9);
            assert!(jump.abs() < 1e-4, "{height}: {jump}");
        }
        assert!(vessel.half_width(vessel.length) < 1e-6);
    }

    #[test]
    fn a_pool_has_its_area() {
        let vessel = Vessel::new(0.33, 0.088, 0.009);
        let area = 0.1 * 0.33 * 0.088;
        let depth = vessel.pool_depth(area);
        let steps = 4000;
        let step = depth / f64::from(steps);
        let drawn: f64 = (0..steps)
            .map(|index| 2.0 * vessel.half_width(vessel.length - (f64::from(index) + 0.5) * step) * step)
            .sum();
        assert!((drawn / area - 1.0).abs() < 0.01, "{}", drawn / area);
    }

    #[test]
    fn odd_sizes_stay_numbers() {
        let vessel = Vessel::new(f64::NAN, -1.0, f64::INFINITY);
        assert!(vessel.region(0.0, vessel.length).iter().all(|point| point.0.is_finite() && point.1.is_finite()));
    }
}
