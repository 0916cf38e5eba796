//! The two integrators: their order, stability, and the way they meet events.

#![allow(clippy::disallowed_methods, reason = "expected values come from other functions than the crate's own")]
#![allow(clippy::unwrap_used, reason = "a panic is how a test fails")]

mod common;

use common::close;
use core::f64::consts::PI;
use holdwater_physics::solver::{
    Cause, DormandPrince, Effort, Method, Rosenbrock, Segment, SolverError, Span, Stiff, Stop, System, integrate,
};
use std::cell::Cell;

/// A swing of two states and the growth of a third to a limit, all with known solutions: cos t, -sin t, 1/(1 + e^-t).
struct Known;

impl Known {
    const START: [f64; 3] = [1.0, 0.0, 0.5];

    fn solution(t: f64) -> [f64; 3] {
        [t.cos(), -t.sin(), 1.0 / (1.0 + (-t).exp())]
    }
}

impl System<3, 1> for Known {
    fn rates(&self, y: &[f64; 3]) -> [f64; 3] {
        [y[1], -y[0], y[2] * (1.0 - y[2])]
    }

    fn events(&self, y: &[f64; 3]) -> [f64; 1] {
        // Bent, so that no straight line meets it.
        [y[0] * y[0] * y[0] - 0.125]
    }

    fn scale(&self) -> [f64; 3] {
        [1.0; 3]
    }
}

impl Stiff<3, 1> for Known {
    fn jacobian(&self, y: &[f64; 3]) -> [[f64; 3]; 3] {
        [[0.0, 1.0, 0.0], [-1.0, 0.0, 0.0], [0.0, 0.0, 1.0 - 2.0 * y[2]]]
    }
}

fn furthest(ours: &[f64; 3], theirs: &[f64; 3]) -> f64 {
    ours.iter().zip(theirs).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max)
}

/// Error after two seconds in steps of one length.
fn error<M: Method<Known, 3, 1>>(steps: u32) -> f64 {
    let h = 2.0 / f64::from(steps);
    let mut y = Known::START;
    for _ in 0..steps {
        y = M::attempt(&Known, &y, &Known.rates(&y), h).y;
    }
    furthest(&y, &Known::solution(2.0))
}

/// Order found by halving the step.
fn order<M: Method<Known, 3, 1>>(steps: u32) -> f64 {
    (error::<M>(steps) / error::<M>(2 * steps)).log2()
}

#[test]
fn converges_dormand_prince_with_order_five() {
    for steps in [8, 16, 32] {
        close("order", order::<DormandPrince>(steps), 5.0, 0.25);
    }
    // Order alone would also be had with a coefficient off by little at a large distance: the error itself is small.
    assert!(error::<DormandPrince>(64) < 2e-9, "{}", error::<DormandPrince>(64));
}

#[test]
fn converges_rosenbrock_with_order_four() {
    for steps in [16, 32, 64] {
        close("order", order::<Rosenbrock>(steps), 4.0, 0.25);
    }
    assert!(error::<Rosenbrock>(128) < 1e-7, "{}", error::<Rosenbrock>(128));
}

#[test]
fn converges_the_error_estimates_with_one_order_less_than_the_method_plus_one() {
    fn estimate<M: Method<Known, 3, 1>>(h: f64) -> f64 {
        let y = Known::solution(0.4);
        let attempt = M::attempt(&Known, &y, &Known.rates(&y), h);
        furthest(&attempt.error, &[0.0; 3])
    }
    for h in [0.2, 0.1, 0.05] {
        let explicit = (estimate::<DormandPrince>(h) / estimate::<DormandPrince>(0.5 * h)).log2();
        let implicit = (estimate::<Rosenbrock>(h) / estimate::<Rosenbrock>(0.5 * h)).log2();
        // Explicit: order five with an estimate of order four; implicit: four with three. Local errors go with one power more.
        close("explicit", explicit, 5.0, 0.5);
        close("implicit", implicit, 4.0, 0.5);
    }
}

/// y' = lambda (y - cos t) - sin t, t' = 1: the solution cos t, with everything beside it dying at the rate lambda.
struct Stiffness(f64);

impl System<2, 0> for Stiffness {
    fn rates(&self, y: &[f64; 2]) -> [f64; 2] {
        [self.0 * (y[0] - y[1].cos()) - y[1].sin(), 1.0]
    }

    fn events(&self, _y: &[f64; 2]) -> [f64; 0] {
        []
    }

    fn scale(&self) -> [f64; 2] {
        [1.0; 2]
    }
}

impl Stiff<2, 0> for Stiffness {
    fn jacobian(&self, y: &[f64; 2]) -> [[f64; 2]; 2] {
        [[self.0, self.0 * y[1].sin() - y[1].cos()], [0.0, 0.0]]
    }
}

#[test]
fn converges_rosenbrock_on_a_stiff_line_in_steps_ten_thousand_times_too_long_for_an_explicit_method() {
    let line = Stiffness(-1e5);
    let run = |start: f64, steps: u32| {
        let h = 1.0 / f64::from(steps);
        let mut y = [start, 0.0];
        for _ in 0..steps {
            y = <Rosenbrock as Method<Stiffness, 2, 0>>::attempt(&line, &y, &line.rates(&y), h).y;
        }
        (y[0] - 1.0_f64.cos()).abs()
    };
    // Starting on the solution, and a whole unit beside it, which a stiffly accurate method forgets at once.
    for start in [1.0, 2.0] {
        assert!(run(start, 10) < 1e-6, "{}", run(start, 10));
        assert!(run(start, 40) < 1e-8, "{}", run(start, 40));
    }
    // The same by the driver, from a start beside the solution, in few attempts.
    let span = Span { from: 0.0, until: 1.0, first_step: 1e-6 };
    let seen = Cell::new(0);
    let effort = Effort { tolerance: 1e-6, most_attempts: 200 };
    let stop = integrate(&line, Rosenbrock, [2.0, 0.0], span, effort, &mut |_| {
        seen.set(seen.get() + 1);
        true
    });
    close("end", stop.unwrap().y[0], 1.0_f64.cos(), 1e-5);
    assert!(seen.get() < 60, "{} steps", seen.get());
    // The explicit method cannot: it is held to steps of 3e-5 and runs into the bound.
    let explicit = integrate(&line, DormandPrince, [2.0, 0.0], span, effort, &mut |_| true);
    assert!(matches!(explicit, Err(SolverError::TooManySteps { .. })), "{explicit:?}");
}

fn to_the_event<M: Method<Known, 3, 1>>(method: M, tolerance: f64) -> Stop<3> {
    let span = Span { from: 0.0, until: 9.0, first_step: 0.5 };
    let effort = Effort { tolerance, most_attempts: 100_000 };
    integrate(&Known, method, Known::START, span, effort, &mut |_| true).unwrap()
}

#[test]
fn converges_the_time_of_an_event_and_the_event_is_met_to_the_tolerance() {
    // cos t = 1/2 at pi/3.
    for tolerance in [1e-4, 1e-6, 1e-8, 1e-10] {
        let explicit = to_the_event(DormandPrince, tolerance);
        let implicit = to_the_event(Rosenbrock, tolerance);
        for stop in [explicit, implicit] {
            assert_eq!(stop.cause, Cause::Event(0));
            // Half the tolerance as a share of its change in the step, which is at most the whole way from 0.875 to -1.125.
            close("event", Known.events(&stop.y)[0], 0.0, tolerance);
            // A few steps, each with an error of the tolerance.
            close("time", stop.t, PI / 3.0, 10.0 * tolerance);
        }
    }
}

/// A stone thrown up: height and speed; events: on the ground, at a mark on the way down, at the top.
struct Stone;

impl System<2, 3> for Stone {
    fn rates(&self, y: &[f64; 2]) -> [f64; 2] {
        [y[1], -10.0]
    }

    fn events(&self, y: &[f64; 2]) -> [f64; 3] {
        [y[0], y[0] + 5.0, y[1]]
    }

    fn scale(&self) -> [f64; 2] {
        [1.0, 1.0]
    }
}

#[test]
fn closed_form_the_first_of_several_events_in_one_step_wins_and_one_not_yet_armed_waits() {
    let effort = Effort { tolerance: 1e-10, most_attempts: 100 };
    // One step would take it past all three.
    let span = Span { from: 1.0, until: 100.0, first_step: 50.0 };
    let up = integrate(&Stone, DormandPrince, [15.0, 10.0], span, effort, &mut |_| true).unwrap();
    assert_eq!(up.cause, Cause::Event(2));
    close("top", up.t, 2.0, 1e-9);
    close("height", up.y[0], 20.0, 1e-9);
    // From rest at the top: that event is over, the ground is next, sqrt(2 h/g) later.
    let down = integrate(&Stone, DormandPrince, up.y, Span { from: up.t, ..span }, effort, &mut |_| true).unwrap();
    assert_eq!(down.cause, Cause::Event(0));
    close("ground", down.t, 4.0, 1e-6);
    // On the ground at the start: the event of the ground is not armed, so the mark below is the first to come.
    let deeper = integrate(&Stone, DormandPrince, [0.0, -1e-9], span, effort, &mut |_| true).unwrap();
    assert_eq!(deeper.cause, Cause::Event(1));
    close("mark", deeper.t, 2.0, 1e-6);
}

#[test]
fn limit_a_span_ends_on_time_or_when_the_observer_has_seen_enough_and_nonsense_is_named() {
    let effort = Effort::PAGE;
    let span = Span { from: 0.0, until: 0.25, first_step: 0.1 };
    let stop = integrate(&Known, DormandPrince, Known::START, span, effort, &mut |_| true).unwrap();
    assert_eq!(stop.cause, Cause::Time);
    close("time", stop.t, 0.25, 0.0);
    let stop = integrate(&Known, DormandPrince, Known::START, span, effort, &mut |_| false).unwrap();
    assert_eq!(stop.cause, Cause::Observer);
    let nonsense = integrate(&Known, DormandPrince, [f64::NAN, 0.0, 0.0], span, effort, &mut |_| true);
    assert_eq!(nonsense, Err(SolverError::BadStart { t: 0.0 }));
}

#[test]
fn converges_the_cubic_inside_a_step_with_order_four_and_its_slope_is_its_derivative() {
    let off = |h: f64| {
        let (y0, y1) = (Known::solution(0.7), Known::solution(0.7 + h));
        let segment = Segment { t0: 0.7, h, y0, f0: Known.rates(&y0), y1, f1: Known.rates(&y1) };
        for state in 0..3 {
            let slope = (segment.at(0.301)[state] - segment.at(0.299)[state]) / (0.002 * h);
            // Central difference of a cubic: off by its third derivative times (0.001 h)^2 / 6.
            close("slope", segment.slope(state, 0.3), slope, 1e-6);
            close("start", segment.at(0.0)[state], y0[state], 0.0);
            close("end", segment.at(1.0)[state], y1[state], 1e-15);
        }
        furthest(&segment.at(0.5), &Known::solution(0.7 + 0.5 * h))
    };
    close("order", (off(0.4) / off(0.2)).log2(), 4.0, 0.2);
}
