//! The sweep over the delay, a few milliseconds per animation frame.

use std::cell::RefCell;
use std::rc::Rc;
use std::sync::Arc;

use holdwater_answers::Sweep;
use holdwater_answers::curves::DelayCurves;

use crate::browser::{NextFrame, milliseconds};
use crate::dom::follow;
use crate::flown::SameStudy;
use crate::react::{Memo, RwSignal};

/// Delays along the chart: close enough for every bend to show on a wide screen.
const POINTS: usize = 161;
/// Delays flown before the clock is asked again.
const SLICE: usize = 4;
/// Time one animation frame may spend here; the rest belongs to typing and drawing.
const BUDGET_MS: f64 = 5.0;

/// Sweeps every new study. The newest wins; the curves of the one before stay until the new ones are complete.
pub fn follow_with_curves(
    study: Memo<Option<SameStudy>>,
    curves: RwSignal<Arc<DelayCurves>>,
    updating: RwSignal<bool>,
) {
    let under_way: Rc<RefCell<Option<(SameStudy, Sweep)>>> = Rc::default();
    let slices = Slices { under_way: Rc::clone(&under_way), curves, updating };
    let next = Rc::new(RefCell::new(None::<NextFrame>));
    let again = Rc::clone(&next);
    let frame = NextFrame::new(move || {
        if !slices.advance()
            && let Some(frame) = again.borrow().as_ref()
        {
            frame.ask();
        }
    });
    *next.borrow_mut() = Some(frame.clone());
    follow(move || {
        let Some(study) = study.get() else {
            // A link was opened that cannot be flown: the curves of the design before would be those of another.
            *under_way.borrow_mut() = None;
            curves.set(Arc::default());
            updating.set(false);
            return;
        };
        let sweep = study.0.sweep(POINTS);
        *under_way.borrow_mut() = Some((study, sweep));
        updating.set(true);
        frame.ask();
    });
}

struct Slices {
    under_way: Rc<RefCell<Option<(SameStudy, Sweep)>>>,
    curves: RwSignal<Arc<DelayCurves>>,
    updating: RwSignal<bool>,
}

impl Slices {
    /// Flies for as long as the budget lasts; true when nothing is left to do.
    fn advance(&self) -> bool {
        let mut under_way = self.under_way.borrow_mut();
        let Some((study, sweep)) = under_way.as_mut() else {
            return true;
        };
        let started = milliseconds();
        while !sweep.advance(&study.0, SLICE) {
            if milliseconds() - started > BUDGET_MS {
                return false;
            }
        }
        self.curves.set(Arc::new(sweep.curves()));
        self.updating.set(false);
        *under_way = None;
        true
    }
}
