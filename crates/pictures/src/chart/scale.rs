//! Round numbers for axes, and numbers as text.

/// An axis: its ends and the numbers written along it.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// Numbers written along the axis, within its ends.
    pub ticks: Vec<f64>,
    /// Decimals that tell neighbouring ticks apart.
    pub decimals: usize,
}

/// Lowest and highest of the numbers in the given curves; `None` when there is none.
#[must_use]
pub fn extent<'a>(curves: impl IntoIterator<Item = &'a [f64]>) -> Option<(f64, f64)> {
    let mut found: Option<(f64, f64)> = None;
    for &value in curves.into_iter().flatten().filter(|value| value.is_finite()) {
        found = Some(found.map_or((value, value), |(low, high)| (low.min(value), high.max(value))));
    }
    found
}

/// The round step (1, 2 or 5 times a power of ten) that divides a span into at most the given number of parts.
#[must_use]
pub fn round_step(span: f64, parts: usize) -> f64 {
    let wanted = span.abs() / parts.max(1) as f64;
    if !wanted.is_finite() || wanted < 1e-12 {
        return 1.0;
    }
    // By steps and not by logarithm: the powers come out exact, and the same on every platform.
    let mut power = 1.0;
    while power * 10.0 <= wanted {
        power *= 10.0;
    }
    while power > wanted {
        power /= 10.0;
    }
    let lead = wanted / power;
    // A hair of slack, so that a span of exactly five tens is not given twenties by rounding.
    let factor = [1.0, 2.0, 5.0].into_iter().find(|factor| lead <= factor * (1.0 + 1e-9)).unwrap_or(10.0);
    factor * power
}

impl Axis {
    /// An axis around the given numbers that begins and ends at round ones or halfway between them.
    #[must_use]
    pub fn around(low: f64, high: f64, parts: usize) -> Self {
        // A curve that hardly moves must not be blown up until its rounding shows.
        let least = (low.abs().max(high.abs()).min(1e9) * 0.02).max(0.1);
        let (low, high) = widened(low, high, least);
        let step = round_step(high - low, parts);
        let snapped = |grid: f64| {
            let (below, above) = ((low / grid + 1e-9).floor(), (high / grid - 1e-9).ceil());
            Self::stepped(below * grid, above * grid, step)
        };
        // Half steps leave less of the plot empty; an axis needs two numbers all the same.
        let close = snapped(0.5 * step);
        if close.ticks.len() > 1 { close } else { snapped(step) }
    }

    /// An axis with zero in it, at its very end if the curve goes below it by no more than rounding does.
    #[must_use]
    pub fn with_zero(low: f64, high: f64, parts: usize) -> Self {
        let low = if low > -1e-3 * high { 0.0 } else { low.min(0.0) };
        Self::around(low, high.max(0.0), parts)
    }

    /// An axis with exactly the given ends and round numbers between them.
    #[must_use]
    pub fn between(low: f64, high: f64, parts: usize) -> Self {
        let (low, high) = widened(low, high, 1e-3);
        Self::stepped(low, high, round_step(high - low, parts))
    }

    fn stepped(low: f64, high: f64, step: f64) -> Self {
        let first = (low / step - 1e-6).ceil();
        let ticks = (0..64)
            .map(|index| (first + f64::from(index)) * step)
            .take_while(|tick| *tick <= high + step * 1e-6)
            // Minus zero would be written with its sign.
            .map(|tick| if tick.abs() < step * 1e-6 { 0.0 } else { tick })
            .collect();
        Self { low, high, ticks, decimals: decimals_of(step) }
    }

    /// Text of each tick.
    #[must_use]
    pub fn labels(&self) -> Vec<String> {
        self.ticks.iter().map(|tick| number(*tick, self.decimals)).collect()
    }
}

/// Round numbers (1, 2, 5 times powers of ten) between two positive ones for an axis of ratios, with their texts; even
/// steps where the ends lie so close together that there are fewer than three of those.
#[must_use]
pub fn ratio_ticks(low: f64, high: f64) -> Vec<(f64, String)> {
    let (low, high) = (low.clamp(1e-9, 1e9), high.clamp(1e-9, 1e9));
    let mut found: Vec<(f64, String)> = Vec::new();
    let mut power = 1e-9;
    while power <= high {
        for tick in [1.0, 2.0, 5.0].map(|lead| lead * power) {
            if tick >= low * (1.0 - 1e-9) && tick <= high * (1.0 + 1e-9) {
                found.push((tick, number(tick, decimals_of(power))));
            }
        }
        power *= 10.0;
    }
    if found.len() < 3 {
        let axis = Axis::between(low, high, 4);
        found = axis.ticks.iter().copied().zip(axis.labels()).collect();
    }
    found.retain(|(tick, _)| *tick > 0.0);
    found
}

fn widened(low: f64, high: f64, least: f64) -> (f64, f64) {
    // Beyond a billion nothing of ours is meant, and differences lose their last digits.
    let held = |value: f64| value.clamp(-1e9, 1e9);
    let (low, high) = (held(low), held(high));
    let (low, high) = if low.is_finite() && high.is_finite() { (low.min(high), low.max(high)) } else { (0.0, 1.0) };
    let missing = least - (high - low);
    if missing > 0.0 { (low - 0.5 * missing, high + 0.5 * missing) } else { (low, high) }
}

fn decimals_of(step: f64) -> usize {
    let mut decimals = 0;
    let mut scaled = step;
    while scaled < 0.999_999 && decimals < 9 {
        scaled *= 10.0;
        decimals += 1;
    }
    decimals
}

/// A number as text, with a true minus sign and never a negative zero.
#[must_use]
pub fn number(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return "\u{2013}".to_owned();
    }
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(rest) if rest.chars().all(|c| c == '0' || c == '.') => rest.to_owned(),
        Some(rest) => format!("\u{2212}{rest}"),
        None => text,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_are_round_and_cover_the_curve() {
        let axis = Axis::around(118.3, 214.2, 5);
        assert_eq!(axis.labels(), ["120", "140", "160", "180", "200", "220"]);
        assert!((axis.low - 110.0).abs() < 1e-9 && (axis.high - 220.0).abs() < 1e-9);
    }

    #[test]
    fn decimals_follow_the_step() {
        assert_eq!(Axis::between(0.0, 0.4, 4).labels(), ["0.0", "0.1", "0.2", "0.3", "0.4"]);
        assert_eq!(Axis::between(0.0, 15.0, 3).labels(), ["0", "5", "10", "15"]);
        assert_eq!(Axis::between(0.0, 0.1, 2).labels(), ["0.00", "0.05", "0.10"]);
    }

    #[test]
    fn odd_ranges_yield_axes_with_ticks() {
        for (low, high) in
            [(0.0, 0.0), (f64::NAN, 3.0), (5.0, -5.0), (-1e-300, 1e-300), (0.0, 1e9), (0.0, 1e300), (210.0, 210.01)]
        {
            for axis in [Axis::around(low, high, 4), Axis::between(low, high, 4)] {
                assert!(axis.low.is_finite() && axis.high > axis.low, "{low} {high}");
                assert!((1..=12).contains(&axis.ticks.len()), "{low} {high} {axis:?}");
            }
        }
    }

    #[test]
    fn a_small_dip_below_zero_takes_little_room() {
        let axis = Axis::with_zero(-25.0, 410.0, 4);
        assert_eq!(axis.labels(), ["0", "200", "400"]);
        assert!((-100.0..=-25.0).contains(&axis.low), "{axis:?}");
        assert!(Axis::with_zero(-0.001, 57.0, 4).low.abs() < 1e-12);
        assert!(Axis::with_zero(-150.0, 410.0, 4).low <= -150.0);
    }

    #[test]
    fn numbers_carry_a_true_minus_and_no_negative_zero() {
        assert_eq!(number(-9.81, 1), "\u{2212}9.8");
        assert_eq!(number(-0.04, 1), "0.0");
        assert_eq!(number(f64::NAN, 1), "\u{2013}");
    }

    #[test]
    fn ratios_have_round_numbers_with_the_decimals_they_need() {
        let texts = |low, high| ratio_ticks(low, high).into_iter().map(|(_, text)| text).collect::<Vec<_>>();
        assert_eq!(texts(0.4, 60.0), ["0.5", "1", "2", "5", "10", "20", "50"]);
        assert_eq!(texts(12.0, 19.0), ["12", "14", "16", "18"]);
        for (low, high) in [(0.0, 1.0), (-5.0, f64::INFINITY), (f64::NAN, f64::NAN), (3.0, 3.0)] {
            assert!(ratio_ticks(low, high).len() <= 64, "{low} {high}");
        }
    }

    #[test]
    fn extent_leaves_out_what_is_no_number() {
        assert_eq!(extent([&[1.0, f64::NAN, 3.0][..], &[f64::INFINITY][..]]), Some((1.0, 3.0)));
        assert_eq!(extent([&[][..]]), None);
    }
}
