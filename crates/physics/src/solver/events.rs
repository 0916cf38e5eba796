//! The first event inside a finished step, and the step that ends there.

use super::{Effort, Method, Segment, System};

/// The step up to the first event inside it, and which event that is. No other event has been passed at its end.
///
/// Two events may lie so close together that the cubic takes the later one for the first. The step to it then passes the
/// other, which the next phase would never see; so the shortened step is searched again. Events within one tolerance may pass each
/// other in turns: when one comes up twice, halving decides.
pub(super) fn first_event<S, M, const N: usize, const E: usize>(
    system: &S,
    mut segment: Segment<N>,
    before: &[f64; E],
    mut after: [f64; E],
    effort: Effort,
) -> Option<(Segment<N>, usize)>
where
    S: System<N, E>,
    M: Method<S, N, E>,
{
    // As a share of the event's change over the step: a step is a few hundredths of a second, so that even the
    // page's tolerance places an event to microseconds.
    let met = 0.5 * effort.tolerance;
    let mut tried = [false; E];
    let mut found = None;
    while let Some((event, share)) = first_crossing(system, &segment, before, &after, met) {
        if tried[event] {
            return Some(halve::<S, M, N, E>(system, &segment, before, event, met));
        }
        tried[event] = true;
        segment = reach::<S, M, N, E>(system, &segment, event, share, before[event], after[event], met);
        found = Some((segment, event));
        after = system.events(&segment.y1);
        after[event] = 1.0;
    }
    found
}

/// The step shortened, to a share of `met`, to where no event has been passed yet, and one that has been passed just after that.
fn halve<S, M, const N: usize, const E: usize>(
    system: &S,
    segment: &Segment<N>,
    before: &[f64; E],
    passed_at_end: usize,
    met: f64,
) -> (Segment<N>, usize)
where
    S: System<N, E>,
    M: Method<S, N, E>,
{
    let mut first = (part::<S, M, N, E>(system, segment, 0.0), passed_at_end);
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..60 {
        if high - low <= met {
            break;
        }
        let middle = 0.5 * (low + high);
        let shorter = part::<S, M, N, E>(system, segment, middle);
        let after = system.events(&shorter.y1);
        match (0..E).find(|&event| before[event] > 0.0 && after[event] <= 0.0) {
            Some(event) => (high, first.1) = (middle, event),
            None => (low, first.0) = (middle, shorter),
        }
    }
    first
}

/// The same step of the method, a share as long.
fn part<S, M, const N: usize, const E: usize>(system: &S, segment: &Segment<N>, share: f64) -> Segment<N>
where
    S: System<N, E>,
    M: Method<S, N, E>,
{
    let h = share * segment.h;
    let y1 = M::attempt(system, &segment.y0, &segment.f0, h).y;
    Segment { h, y1, f1: system.rates(&y1), ..*segment }
}

/// The first event that happens inside the step, and at which share of it.
fn first_crossing<S: System<N, E>, const N: usize, const E: usize>(
    system: &S,
    segment: &Segment<N>,
    before: &[f64; E],
    after: &[f64; E],
    met: f64,
) -> Option<(usize, f64)> {
    let mut first: Option<(usize, f64)> = None;
    for event in 0..E {
        // Written so that an event that has become NaN counts as not reached.
        if before[event] > 0.0 && after[event] <= 0.0 {
            let share = locate(|share| system.events(&segment.at(share))[event], before[event], after[event], met);
            if first.is_none_or(|(_, earliest)| share < earliest) {
                first = Some((event, share));
            }
        }
    }
    first
}

/// Root of a function that is positive at 0 and not positive at 1, to the share `met` of its change (Illinois form of the false position).
fn locate(function: impl Fn(f64) -> f64, at_zero: f64, at_one: f64, met: f64) -> f64 {
    let mut bracket = Bracket::new(at_zero, at_one);
    let small = met * (at_zero - at_one);
    let mut share = bracket.next();
    for _ in 0..50 {
        let value = function(share);
        if value.abs() <= small || !bracket.narrow(share, value) {
            break;
        }
        share = bracket.next();
    }
    share
}

/// Two shares of a step between which an event happens, with its values there.
struct Bracket {
    above: (f64, f64),
    below: (f64, f64),
    last_was_above: Option<bool>,
}

impl Bracket {
    fn new(at_zero: f64, at_one: f64) -> Self {
        Self { above: (0.0, at_zero), below: (1.0, at_one), last_was_above: None }
    }

    /// Where the line through both ends is nought.
    fn next(&self) -> f64 {
        let ((a, fa), (b, fb)) = (self.above, self.below);
        (a * fb - b * fa) / (fb - fa)
    }

    /// Takes a new end; false if there is nothing left between the two.
    fn narrow(&mut self, share: f64, value: f64) -> bool {
        // The value of an end that stays put twice is halved (Illinois): it would hold the next guess back.
        let above = value > 0.0;
        let stays = if above { &mut self.below } else { &mut self.above };
        if self.last_was_above == Some(above) {
            stays.1 *= 0.5;
        }
        *(if above { &mut self.above } else { &mut self.below }) = (share, value);
        self.last_was_above = Some(above);
        let next = self.next();
        next > self.above.0 && next < self.below.0
    }
}

/// Steps of the method itself to the event that the cubic has found, until it is met to a share of its change in the step.
fn reach<S, M, const N: usize, const E: usize>(
    system: &S,
    segment: &Segment<N>,
    event: usize,
    guess: f64,
    before: f64,
    after: f64,
    met: f64,
) -> Segment<N>
where
    S: System<N, E>,
    M: Method<S, N, E>,
{
    let step = |share: f64| part::<S, M, N, E>(system, segment, share);
    let small = met * (before - after);
    let mut bracket = Bracket::new(before, after);
    let mut share = guess;
    let mut reached = step(share);
    for _ in 0..12 {
        let value = system.events(&reached.y1)[event];
        if value.is_nan() || value.abs() <= small || !bracket.narrow(share, value) {
            break;
        }
        share = bracket.next();
        reached = step(share);
    }
    reached
}
