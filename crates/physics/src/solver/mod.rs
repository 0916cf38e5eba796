//! Integration of the phases of a flight: steps, events, and the exact step to an event.
//!
//! Two methods share one driver. [`DormandPrince`] flies everything that is smooth; [`Rosenbrock`] flies the
//! water phase, where the jet speed settles thousands of times faster than the vessel empties and an explicit
//! method would need hundreds of steps to stay stable.

mod dormand_prince;
mod events;
mod rosenbrock;

pub use dormand_prince::DormandPrince;
pub use rosenbrock::Rosenbrock;

use events::first_event;

/// Equations of one phase, autonomous: N states, E events.
pub trait System<const N: usize, const E: usize> {
    /// Rates of change. May hold NaN for a state that cannot be; the step is then repeated shorter.
    fn rates(&self, y: &[f64; N]) -> [f64; N];

    /// One number per event, positive before it, nought or below after. An event that is not positive at the start of the phase
    /// waits until it has been, unless [`Self::passed_at_start`] says otherwise.
    fn events(&self, y: &[f64; N]) -> [f64; E];

    /// The event that ends the phase before it begins, because the start has passed it. A rocket on its pad has the speed nought
    /// and waits; a parcel below the surface on which it lands has landed.
    fn passed_at_start(&self, _events: &[f64; E]) -> Option<usize> {
        None
    }

    /// Size against which the error of each state is measured.
    fn scale(&self) -> [f64; N];

    /// Longest step worth trying from a state with its rates, s: systems that end in a kink say how far it is, so that no
    /// trial is wasted beyond it.
    fn longest_step(&self, _y: &[f64; N], _rates: &[f64; N]) -> f64 {
        f64::INFINITY
    }
}

/// A system whose Jacobian is known, for the stiff method.
pub trait Stiff<const N: usize, const E: usize>: System<N, E> {
    /// Row i, column j: how rate i changes with state j.
    fn jacobian(&self, y: &[f64; N]) -> [[f64; N]; N];
}

/// One tentative step.
pub struct Attempt<const N: usize> {
    /// State at its end.
    pub y: [f64; N],
    /// Estimate of its error, per state.
    pub error: [f64; N],
    /// Rates at its end, where the method has them anyway.
    pub rates: Option<[f64; N]>,
}

/// A one-step method.
pub trait Method<S, const N: usize, const E: usize> {
    /// Takes a step of length `h` from `y`, where the rates are `f`.
    fn attempt(system: &S, y: &[f64; N], f: &[f64; N], h: f64) -> Attempt<N>;
}

/// How accurately and how long to integrate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Effort {
    /// Error allowed per step, as a share of each state's size.
    pub tolerance: f64,
    /// Most attempts per phase; reached only by designs that make no sense.
    pub most_attempts: u32,
}

impl Effort {
    /// What the page needs: heights within 0.1 m of the converged value (tested for all examples and for designs around the default).
    pub const PAGE: Self = Self { tolerance: 2e-4, most_attempts: 20_000 };

    /// For references and convergence tests.
    pub const REFERENCE: Self = Self { tolerance: 1e-10, most_attempts: 200_000 };
}

/// A finished step with what is needed to look inside it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Segment<const N: usize> {
    /// Time at its start, s.
    pub t0: f64,
    /// Its length, s.
    pub h: f64,
    /// State at its start.
    pub y0: [f64; N],
    /// Rates at its start.
    pub f0: [f64; N],
    /// State at its end.
    pub y1: [f64; N],
    /// Rates at its end.
    pub f1: [f64; N],
}

impl<const N: usize> Segment<N> {
    /// State at a share of the step, by the cubic through both ends and their rates.
    #[must_use]
    pub fn at(&self, share: f64) -> [f64; N] {
        let (s, r) = (share, 1.0 - share);
        core::array::from_fn(|i| {
            let rise = self.y1[i] - self.y0[i];
            let bend = r * (self.h * self.f0[i] - rise) + s * (rise - self.h * self.f1[i]);
            r * self.y0[i] + s * self.y1[i] + s * r * bend
        })
    }
}

impl<const N: usize> Segment<N> {
    /// Rate of change of one state at a share of the step, by the same cubic.
    #[must_use]
    pub fn slope(&self, state: usize, share: f64) -> f64 {
        let (s, r) = (share, 1.0 - share);
        let mean = (self.y1[state] - self.y0[state]) / self.h;
        let (f0, f1) = (self.f0[state], self.f1[state]);
        r * (r - 2.0 * s) * f0 + s * (s - 2.0 * r) * f1 + 6.0 * s * r * mean
    }
}

impl<const N: usize> Segment<N> {
    /// The first two states alone: by the convention of the flight phases, height and speed.
    #[must_use]
    pub fn path(&self) -> Segment<2> {
        let two = |y: &[f64; N]| [y[0], y[1]];
        Segment { t0: self.t0, h: self.h, y0: two(&self.y0), f0: two(&self.f0), y1: two(&self.y1), f1: two(&self.f1) }
    }
}

/// Why a phase ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cause {
    /// The event of this index.
    Event(usize),
    /// The time given was reached.
    Time,
    /// The observer had seen enough.
    Observer,
}

/// Where a phase ended.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stop<const N: usize> {
    /// Time, s.
    pub t: f64,
    /// State.
    pub y: [f64; N],
    /// Why.
    pub cause: Cause,
}

/// Why a phase could not be integrated.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SolverError {
    /// The step became too small to move time.
    StepTooSmall {
        /// Time reached, s.
        t: f64,
    },
    /// The bound on attempts was reached.
    TooManySteps {
        /// Time reached, s.
        t: f64,
    },
    /// The start is not a number.
    BadStart {
        /// Time of the start, s.
        t: f64,
    },
}

/// The span of one phase.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// Time at the start, s.
    pub from: f64,
    /// Time at which to end if no event does, s; may be infinite.
    pub until: f64,
    /// Length of the first attempt, s.
    pub first_step: f64,
}

/// Integrates one phase.
///
/// The observer sees every finished step and says whether to go on. An event is looked for on the cubic through
/// the step and then reached by a step of the method itself, corrected by secants: the state there is as accurate as any other
/// and the event is met to half the tolerance, as a share of its own
/// change over the step. Where it ends there, no other event has been passed: those met within the tolerance of this one are still ahead, and
/// the next phase meets them.
pub fn integrate<S, M, const N: usize, const E: usize>(
    system: &S,
    _method: M,
    start: [f64; N],
    span: Span,
    effort: Effort,
    observe: &mut dyn FnMut(&Segment<N>) -> bool,
) -> Result<Stop<N>, SolverError>
where
    S: System<N, E>,
    M: Method<S, N, E>,
{
    let scale = system.scale();
    let mut t = span.from;
    let mut y = start;
    let mut f = system.rates(&y);
    if !(finite(&y) && finite(&f)) {
        return Err(SolverError::BadStart { t });
    }
    let mut before = system.events(&y);
    if let Some(event) = system.passed_at_start(&before) {
        return Ok(Stop { t, y, cause: Cause::Event(event) });
    }
    let mut h = span.first_step;
    let mut attempts = 0;
    loop {
        let left = span.until - t;
        if left <= 0.0 {
            return Ok(Stop { t, y, cause: Cause::Time });
        }
        let wanted = h.min(system.longest_step(&y, &f));
        let last = wanted >= left;
        let length = if last { left } else { wanted };
        if t + length <= t {
            return Err(SolverError::StepTooSmall { t });
        }
        attempts += 1;
        if attempts > effort.most_attempts {
            return Err(SolverError::TooManySteps { t });
        }
        let attempt = M::attempt(system, &y, &f, length);
        let error = error_norm(&attempt.error, &scale) / effort.tolerance;
        // The fourth root serves both methods (their estimates go as the fourth and fifth power of the step) and needs no power function.
        // NaN compares as false: an impossible trial state is rejected like a wrong one.
        let accepted = error <= 1.0 && finite(&attempt.y);
        let change = if error.is_finite() { 0.75 / error.max(1e-8).sqrt().sqrt() } else { 0.2 };
        if !accepted {
            h = length * change.clamp(0.1, 0.7);
            continue;
        }
        let f1 = attempt.rates.unwrap_or_else(|| system.rates(&attempt.y));
        if !finite(&f1) {
            h = length * 0.2;
            continue;
        }
        let segment = Segment { t0: t, h: length, y0: y, f0: f, y1: attempt.y, f1 };
        let after = system.events(&segment.y1);
        if let Some((reached, event)) = first_event::<S, M, N, E>(system, segment, &before, after, effort) {
            if reached.h > 0.0 {
                observe(&reached);
            }
            return Ok(Stop { t: reached.t0 + reached.h, y: reached.y1, cause: Cause::Event(event) });
        }
        if !observe(&segment) {
            return Ok(Stop { t: t + length, y: segment.y1, cause: Cause::Observer });
        }
        t = if last { span.until } else { t + length };
        y = segment.y1;
        f = f1;
        before = after;
        h = length * change.clamp(0.2, 4.0);
    }
}

/// Root mean square of the errors, each against the size of its state.
fn error_norm<const N: usize>(error: &[f64; N], scale: &[f64; N]) -> f64 {
    let mut sum = 0.0;
    for i in 0..N {
        let ratio = error[i] / scale[i];
        sum += ratio * ratio;
    }
    (sum / N as f64).sqrt()
}

fn finite<const N: usize>(y: &[f64; N]) -> bool {
    y.iter().all(|value| value.is_finite())
}
