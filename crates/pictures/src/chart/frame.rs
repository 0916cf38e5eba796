//! Where the plot lies in the picture, and which numbers it shows.

/// The plot rectangle in CSS px and the numbers at its edges.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Left edge, CSS px.
    pub left: f64,
    /// Top edge, CSS px.
    pub top: f64,
    /// Right edge, CSS px.
    pub right: f64,
    /// Bottom edge, CSS px.
    pub bottom: f64,
    /// Delay or time at the left and right edges, s.
    pub x_range: (f64, f64),
    /// Value at the bottom and top edges.
    pub y_range: (f64, f64),
}

impl Frame {
    /// Delay (or time) at a horizontal position, held within the range.
    #[must_use]
    pub fn delay_at(&self, px: f64) -> f64 {
        let share = if px.is_finite() { share(px, self.left, self.right).clamp(0.0, 1.0) } else { 0.0 };
        self.x_range.0 + share * (self.x_range.1 - self.x_range.0)
    }

    /// Horizontal position of a delay (or time), CSS px.
    #[must_use]
    pub fn x_of(&self, delay: f64) -> f64 {
        self.left + share(delay, self.x_range.0, self.x_range.1) * (self.right - self.left)
    }

    /// Vertical position of a height (or speed, or acceleration), CSS px.
    #[must_use]
    pub fn y_of(&self, height: f64) -> f64 {
        self.bottom - share(height, self.y_range.0, self.y_range.1) * (self.bottom - self.top)
    }

    /// Width of the plot, CSS px.
    #[must_use]
    pub fn width(&self) -> f64 {
        self.right - self.left
    }

    /// Height of the plot, CSS px.
    #[must_use]
    pub fn height(&self) -> f64 {
        self.bottom - self.top
    }
}

/// Position of a value between two others; the lower one where they are equal.
fn share(value: f64, low: f64, high: f64) -> f64 {
    let span = high - low;
    if span.abs() > f64::MIN_POSITIVE { (value - low) / span } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    const FRAME: Frame =
        Frame { left: 40.0, top: 20.0, right: 240.0, bottom: 180.0, x_range: (0.0, 4.0), y_range: (100.0, 220.0) };

    #[test]
    fn there_and_back() {
        for delay in [0.0, 0.36, 1.7, 4.0] {
            assert!((FRAME.delay_at(FRAME.x_of(delay)) - delay).abs() < 1e-12);
        }
    }

    #[test]
    fn higher_is_further_up_and_fingers_off_the_plot_stay_on_the_axis() {
        assert!(FRAME.y_of(210.0) < FRAME.y_of(120.0));
        assert!(FRAME.delay_at(-500.0).abs() < 1e-12);
        assert!((FRAME.delay_at(1e9) - 4.0).abs() < 1e-12);
    }

    #[test]
    fn an_empty_range_yields_numbers() {
        let flat = Frame { x_range: (2.0, 2.0), y_range: (5.0, 5.0), right: 40.0, ..FRAME };
        assert!(flat.x_of(3.0).is_finite() && flat.y_of(9.0).is_finite() && flat.delay_at(41.0).is_finite());
    }
}
