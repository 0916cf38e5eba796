//! Bracketed searches on a function that may be flat, kinked or without an answer in places.

/// Share that golden section keeps of a bracket: (sqrt 5 - 1)/2.
const GOLDEN: f64 = 0.618_033_988_749_894_9;

/// Most evaluations of one closing-in: from metres to nanometres.
const MOST: u32 = 64;

/// Local peaks that are looked into: the highest ones seen.
const PEAKS: usize = 2;

/// A place and the height there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Peak {
    /// Where.
    pub place: f64,
    /// How high.
    pub height: f64,
}

/// What is searched: `None` where there is no answer.
pub type Height<'a> = &'a mut dyn FnMut(f64) -> Option<f64>;

/// Places from low to high in equal ratios, both ends included; the low end alone where there is no way up from it.
///
/// # Example
/// ```
/// let places = holdwater_physics::sizing::search::in_ratios(1.0, 100.0, 3);
/// assert!((places[1] - 10.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn in_ratios(low: f64, high: f64, count: usize) -> Vec<f64> {
    if !(low > 0.0 && high > low && count > 1) {
        return vec![low];
    }
    let ratio = crate::real::pow(high / low, 1.0 / (count - 1) as f64);
    let mut places = Vec::with_capacity(count);
    let mut place = low;
    for _ in 1..count {
        places.push(place);
        place *= ratio;
    }
    places.push(high);
    places
}

fn at(place: f64, height: Height<'_>) -> Option<Peak> {
    height(place).filter(|height| height.is_finite()).map(|height| Peak { place, height })
}

fn higher(one: Option<Peak>, other: Option<Peak>) -> Option<Peak> {
    match (one, other) {
        (Some(a), Some(b)) => Some(if b.height > a.height { b } else { a }),
        (a, b) => a.or(b),
    }
}

/// The highest place of a function: all places given are looked at, and the two highest local peaks among them are closed in on by
/// golden section until their bracket is narrower than the resolution. Between the places the function is taken to have one peak.
///
/// # Example
/// ```
/// use holdwater_physics::sizing::search::highest;
/// // A kink at 2.
/// let peak = highest(&[0.0, 1.0, 3.0, 5.0], 1e-6, &mut |x| Some(-(x - 2.0_f64).abs())).unwrap();
/// assert!((peak.place - 2.0).abs() < 1e-6);
/// ```
#[must_use]
pub fn highest(places: &[f64], resolution: f64, height: Height<'_>) -> Option<Peak> {
    let seen: Vec<Option<Peak>> = places.iter().map(|&place| at(place, height)).collect();
    let level = |index: usize| seen.get(index).copied().flatten().map_or(f64::NEG_INFINITY, |peak| peak.height);
    let mut tops: Vec<usize> = (0..seen.len())
        .filter(|&i| level(i) > f64::NEG_INFINITY && level(i) >= level(i + 1) && (i == 0 || level(i) >= level(i - 1)))
        .collect();
    crate::order::sort_by_number(&mut tops, |&i| -level(i));
    tops.truncate(PEAKS);
    let mut best = None;
    for top in tops {
        let (low, high) = (places[top.saturating_sub(1)], places[(top + 1).min(places.len() - 1)]);
        best = higher(best, higher(seen[top], golden(low, high, resolution, height)));
    }
    best
}

/// The highest place met by golden section in a bracket.
fn golden(low: f64, high: f64, resolution: f64, height: Height<'_>) -> Option<Peak> {
    let (mut low, mut high) = (low, high);
    let level = |peak: &Option<Peak>| peak.map_or(f64::NEG_INFINITY, |peak| peak.height);
    let mut left = at(high - GOLDEN * (high - low), height);
    let mut right = at(low + GOLDEN * (high - low), height);
    let mut best = higher(left, right);
    for _ in 0..MOST {
        let width = high - low;
        if width.is_nan() || width <= resolution {
            break;
        }
        if level(&left) < level(&right) {
            low = high - GOLDEN * (high - low);
            left = right;
            right = at(low + GOLDEN * (high - low), height);
            best = higher(best, right);
        } else {
            high = low + GOLDEN * (high - low);
            right = left;
            left = at(high - GOLDEN * (high - low), height);
            best = higher(best, left);
        }
    }
    best
}

/// The last place between two at which a statement is true, if it is true at the first, false at the second and changes once.
///
/// By halving, because what is behind such statements may jump. The place given back is one at which it was seen to be true.
///
/// # Example
/// ```
/// let edge = holdwater_physics::sizing::search::edge(0.0, 1.0, 1e-9, &mut |x| x * x < 0.5);
/// assert!(edge * edge < 0.5 && (edge - 0.707_106_781).abs() < 1e-8);
/// ```
#[must_use]
pub fn edge(inside: f64, outside: f64, resolution: f64, holds: &mut dyn FnMut(f64) -> bool) -> f64 {
    let (mut yes, mut no) = (inside, outside);
    for _ in 0..MOST {
        let width = (no - yes).abs();
        if width.is_nan() || width <= resolution {
            break;
        }
        let middle = 0.5 * (yes + no);
        if holds(middle) {
            yes = middle;
        } else {
            no = middle;
        }
    }
    yes
}

/// The stretch around a place on which a statement is true: outward over the places given until it is false, then by halving.
#[must_use]
pub fn stretch(places: &[f64], inside: f64, resolution: f64, holds: &mut dyn FnMut(f64) -> bool) -> (f64, f64) {
    let mut one_way = |outward: &mut dyn Iterator<Item = f64>| {
        let mut last = inside;
        for place in outward {
            if !holds(place) {
                return edge(last, place, resolution, holds);
            }
            last = place;
        }
        last
    };
    let high = one_way(&mut places.iter().copied().filter(|&place| place > inside));
    let low = one_way(&mut places.iter().rev().copied().filter(|&place| place < inside));
    (low, high)
}

/// The middle of the stretch around a peak that is as high as the peak but for a share of it: where the height hardly changes, the
/// middle leaves the most room for a drill that runs wide or a number that was a little wrong. The peak itself if its middle is lower
/// than that.
#[must_use]
pub fn middle_of_plateau(places: &[f64], peak: Peak, share: f64, resolution: f64, height: Height<'_>) -> Peak {
    let enough = peak.height - share * peak.height.abs();
    let mut holds = |place: f64| height(place).is_some_and(|height| height >= enough);
    let (low, high) = stretch(places, peak.place, resolution, &mut holds);
    at(0.5 * (low + high), height).filter(|middle| middle.height >= enough).unwrap_or(peak)
}

/// The least whole number between two for which a statement is true, if it stays true from there on; `None` if it is false at the end.
///
/// # Example
/// ```
/// assert_eq!(holdwater_physics::sizing::search::fewest(1, 100, &mut |n| n * n >= 50), Some(8));
/// ```
#[must_use]
pub fn fewest(from: u32, to: u32, enough: &mut dyn FnMut(u32) -> bool) -> Option<u32> {
    if from > to || !enough(to) {
        return None;
    }
    let (mut low, mut high) = (from, to);
    // A number of 32 bits is halved at most 32 times.
    for _ in 0..32 {
        if low >= high {
            break;
        }
        let middle = low + (high - low) / 2;
        if enough(middle) {
            high = middle;
        } else {
            low = middle + 1;
        }
    }
    Some(high)
}
