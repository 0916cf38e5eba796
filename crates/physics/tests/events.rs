//! Events that happen nearly at once: none is lost, whichever is named first.

#![allow(clippy::unwrap_used, reason = "a panic is how a test fails")]

use holdwater_physics::real::exp;
use holdwater_physics::solver::{Cause, DormandPrince, Effort, Method, Rosenbrock, Span, Stiff, System, integrate};
use proptest::prelude::*;

/// Time, and something that dies away; events at marks of the time, each bent by what dies.
#[derive(Clone, Debug)]
struct Marks {
    marks: [f64; 5],
    bends: [f64; 5],
    done: [bool; 5],
}

impl System<2, 5> for Marks {
    fn rates(&self, y: &[f64; 2]) -> [f64; 2] {
        [1.0, -3.0 * y[1]]
    }

    fn events(&self, y: &[f64; 2]) -> [f64; 5] {
        let event = |i: usize| (self.marks[i] - y[0]) * (1.0 + self.bends[i] * y[1]);
        core::array::from_fn(|i| if self.done[i] { 1.0 } else { event(i) })
    }

    fn scale(&self) -> [f64; 2] {
        [1.0; 2]
    }

    fn longest_step(&self, _: &[f64; 2], _: &[f64; 2]) -> f64 {
        0.5
    }
}

impl Stiff<2, 5> for Marks {
    fn jacobian(&self, _: &[f64; 2]) -> [[f64; 2]; 2] {
        [[0.0, 0.0], [0.0, -3.0]]
    }
}

/// Flies from event to event until all have happened, and says how far from its mark each did.
fn all_happen<M: Method<Marks, 2, 5> + Copy>(method: M, mut system: Marks, effort: Effort) -> [f64; 5] {
    let (mut t, mut y) = (0.0, [0.0, 1.0]);
    let mut off = [f64::NAN; 5];
    for _ in 0..5 {
        let span = Span { from: t, until: 10.0, first_step: 0.3 };
        let stop = integrate(&system, method, y, span, effort, &mut |segment| segment.h > 0.0).unwrap();
        let Cause::Event(event) = stop.cause else { panic!("lost: {system:?} {stop:?}") };
        assert!(!system.done[event], "{event} comes twice");
        system.done[event] = true;
        off[event] = stop.y[0] - system.marks[event];
        assert!(system.events(&stop.y).iter().all(|&other| other > 0.0), "passed: {system:?} {stop:?}");
        (t, y) = (stop.t, stop.y);
    }
    off
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn property_events_of_one_tolerance_all_happen(
        start in 0.05..1.5f64,
        apart in prop::array::uniform5(-1.0..1.0f64),
        closeness in 0.0..17.0f64,
        bends in prop::array::uniform5(0.0..5.0f64),
        exact in any::<bool>(),
    ) {
        let small = 0.04 * exp(-core::f64::consts::LN_10 * closeness);
        let system = Marks { marks: apart.map(|apart| start + small * apart), bends, done: [false; 5] };
        let effort = if exact { Effort::REFERENCE } else { Effort::PAGE };
        for off in [all_happen(DormandPrince, system.clone(), effort), all_happen(Rosenbrock, system, effort)] {
            // Half the tolerance of what a step of half a second changes, at the flattest place of an event.
            let allowed = 2.0 * effort.tolerance;
            prop_assert!(off.iter().all(|off| off.abs() <= allowed), "{off:?}");
        }
    }
}

#[test]
fn limit_equal_events_happen_one_after_the_other() {
    for bends in [[0.0; 5], [0.0, 1.0, 2.0, 3.0, 4.0], [4.0, 0.0, 4.0, 0.0, 1.0]] {
        let system = Marks { marks: [0.7; 5], bends, done: [false; 5] };
        all_happen(DormandPrince, system.clone(), Effort::PAGE);
        all_happen(Rosenbrock, system, Effort::REFERENCE);
    }
}

/// A thrown stone; one that starts on or below the ground lies there.
struct Stone;

impl System<2, 2> for Stone {
    fn rates(&self, y: &[f64; 2]) -> [f64; 2] {
        [y[1], -10.0]
    }

    fn events(&self, y: &[f64; 2]) -> [f64; 2] {
        [y[0], y[1]]
    }

    fn passed_at_start(&self, events: &[f64; 2]) -> Option<usize> {
        (events[0] <= 0.0).then_some(0)
    }

    fn scale(&self) -> [f64; 2] {
        [1.0; 2]
    }
}

#[test]
fn limit_what_the_start_has_passed_ends_the_phase_there_if_the_system_says_so() {
    let span = Span { from: 3.0, until: 9.0, first_step: 0.1 };
    for height in [0.0, -1e-16, -2.0] {
        let mut steps = 0;
        let stop = integrate(&Stone, DormandPrince, [height, 4.0], span, Effort::PAGE, &mut |_| {
            steps += 1;
            true
        });
        let stop = stop.unwrap();
        assert_eq!((stop.t, stop.y, stop.cause, steps), (3.0, [height, 4.0], Cause::Event(0), 0));
    }
    // The speed may be nought: it falls from rest, and its speed has no event any more.
    let stop = integrate(&Stone, DormandPrince, [5.0, 0.0], span, Effort::PAGE, &mut |_| true).unwrap();
    assert_eq!(stop.cause, Cause::Event(0));
    assert!((stop.t - 4.0).abs() < 1e-3, "{}", stop.t);
}
