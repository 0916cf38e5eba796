//! The sweep over the delay.

use std::sync::Arc;

use holdwater_answers::Study;
use holdwater_answers::curves::DelayCurves;
use holdwater_design::link;

use crate::aside::{Aside, CURVE_POINTS, What};
use crate::dom::follow;
use crate::flown::Same;
use crate::react::{Memo, RwSignal};

/// Sweeps every new study. The newest wins; the curves of the one before stay until the new ones are complete.
pub fn follow_with_curves(
    study: Memo<Option<Same<Study>>>,
    curves: RwSignal<Arc<DelayCurves>>,
    updating: RwSignal<bool>,
    aside: &Aside,
) {
    aside.hear(What::Curves, move |news| {
        if let (Some(heights), Some(study)) = (news.brought, study.get_untracked()) {
            let mut sweep = study.sweep(CURVE_POINTS);
            sweep.take_flown(&study, &heights);
            curves.set(Arc::new(sweep.curves()));
            updating.set(false);
        }
    });
    let aside = aside.clone();
    follow(move || match study.get() {
        Some(study) => {
            updating.set(true);
            aside.ask(What::Curves, link::write(study.design()), 0.0);
        }
        None => {
            // A link was opened that cannot be flown: the curves of the design before would be those of another.
            aside.forget(What::Curves);
            curves.set(Arc::default());
            updating.set(false);
        }
    });
}
