//! Question 2 in slices: some five hundred flights, a few milliseconds per animation frame, once the design has come to rest.

use std::cell::RefCell;
use std::rc::Rc;
use std::sync::Arc;
use std::time::Duration;

use holdwater_answers::Study;
use holdwater_answers::curves::BoreCurves;
use holdwater_answers::holding::{Holding, HoldingAnswer};
use holdwater_design::{Design, Input};

use crate::browser::{NextFrame, WhenQuiet, milliseconds};
use crate::dom::follow;
use crate::flown::SameStudy;
use crate::line::Line;
use crate::react::{Memo, RwSignal};

/// How long the design has to rest before its sizes are searched.
const PAUSE: Duration = Duration::from_millis(200);
/// Flights before the clock is asked again.
const SLICE: usize = 6;
/// Time one animation frame may spend here; the rest belongs to typing and drawing.
const BUDGET_MS: f64 = 6.0;

/// All answers to question 2, with the curve.
#[derive(Clone, Debug, PartialEq)]
pub struct Held {
    /// The answers.
    pub answer: HoldingAnswer,
    /// Height against bore.
    pub curves: BoreCurves,
    /// Height against delay with the best restrictor and with the best launch tube, by name.
    pub lines: Vec<(&'static str, Line)>,
}

/// What holds the water: the last complete answer, and whether it belongs to the design before.
#[derive(Clone, Copy)]
pub struct Holds {
    /// The last complete answer.
    pub held: RwSignal<Option<Arc<Held>>>,
    /// Whether a newer one is on its way.
    pub updating: RwSignal<bool>,
}

impl Holds {
    /// Follows a design. The newest question wins; the answer before stays until the new one is complete.
    pub fn follow(study: Memo<Option<SameStudy>>, delay: Memo<f64>) -> Self {
        let this = Self { held: RwSignal::new(None), updating: RwSignal::new(false) };
        let under_way: Rc<RefCell<Option<(SameStudy, Holding)>>> = Rc::default();
        let next = Rc::new(RefCell::new(None::<NextFrame>));
        let (work, again) = (Rc::clone(&under_way), Rc::clone(&next));
        let frame = NextFrame::new(move || {
            if !this.advance(&work)
                && let Some(frame) = again.borrow().as_ref()
            {
                frame.ask();
            }
        });
        *next.borrow_mut() = Some(frame.clone());
        let dropped = Rc::clone(&under_way);
        let begin = WhenQuiet::new(PAUSE, move || {
            if let Some(study) = study.get_untracked() {
                let holding = Holding::start(&study.0, delay.get_untracked());
                *under_way.borrow_mut() = Some((study, holding));
                frame.ask();
            }
        });
        follow(move || {
            delay.track();
            if study.get().is_some() {
                this.updating.set(true);
                begin.ask();
            } else {
                // A link was opened that cannot be flown: the sizes of the design before would be those of another.
                begin.forget();
                *dropped.borrow_mut() = None;
                this.held.set(None);
                this.updating.set(false);
            }
        });
        this
    }

    /// The bores of a restrictor that would do, where they are known for the design of now.
    pub fn window_now(self) -> Option<[f64; 2]> {
        let fresh = self.held.get().filter(|_| !self.updating.get())?;
        fresh.answer.restrictor.window_mm
    }

    /// Flies for as long as the budget lasts; true when nothing is left to do.
    fn advance(self, under_way: &RefCell<Option<(SameStudy, Holding)>>) -> bool {
        let mut under_way = under_way.borrow_mut();
        let Some((study, holding)) = under_way.as_mut() else { return true };
        let started = milliseconds();
        while !holding.advance(&study.0, SLICE) {
            if milliseconds() - started > BUDGET_MS {
                return false;
            }
        }
        if let Some(answer) = holding.answer().cloned() {
            let lines = lines(study.0.design(), &answer);
            self.held.set(Some(Arc::new(Held { answer, curves: holding.curves(), lines })));
        }
        self.updating.set(false);
        *under_way = None;
        true
    }
}

/// The choices that have no line in the chart yet.
fn lines(design: &Design, answer: &HoldingAnswer) -> Vec<(&'static str, Line)> {
    let with = |values: &[(Input, f64)]| {
        let mut other = design.clone();
        for (input, value) in values {
            other.set(*input, Some(input.row().nearest(*value))).ok()?;
        }
        (other != *design).then(|| Study::new(&other).ok()).flatten()
    };
    let plate = answer.restrictor.best.and_then(|best| {
        with(&[
            (Input::StagingTubeLength, 0.0),
            (Input::RestrictorHoles, f64::from(best.holes)),
            (Input::RestrictorBore, best.bore_mm),
            (Input::RestrictorHeight, best.height_mm),
        ])
    });
    let tube = answer.tube.best_length_mm.and_then(|length| {
        with(&[
            (Input::RestrictorBore, 0.0),
            (Input::StagingTubeOuter, answer.tube.outer_mm),
            (Input::StagingTubeWall, answer.tube.wall_mm),
            (Input::StagingTubeLength, length),
        ])
    });
    let named = [("best plate", plate), ("best tube", tube)];
    named.into_iter().filter_map(|(name, study)| Some((name, Line::of(&study?)))).collect()
}
