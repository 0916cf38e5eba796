//! The design flown: what follows from the fields, computed once for all views.
//!
//! Boost and coast do not depend on the delay. They are flown again only when another input changes; moving the
//! delay asks the same [`Study`] anew, which is what keeps a finger on the chart within one frame.

use std::ops::Deref;
use std::rc::Rc;
use std::sync::Arc;

use holdwater_answers::curves::{DelayCurves, WaterPicture};
use holdwater_answers::numbers::Answers;
use holdwater_answers::vessels::Vessels;
use holdwater_answers::{Refused, Study};
use holdwater_design::{Design, Input, Part};
use holdwater_physics::rocket::Rocket;

use crate::aside::Aside;
use crate::held::Holds;
use crate::react::{Memo, RwSignal};
use crate::sweep::follow_with_curves;

/// A value that is only equal to itself: comparing two flights number by number would cost more than it saves.
#[derive(Debug)]
pub struct Same<T>(Rc<T>);

impl<T> Same<T> {
    /// A value of its own.
    pub fn new(value: T) -> Self {
        Self(Rc::new(value))
    }
}

impl<T> Clone for Same<T> {
    fn clone(&self) -> Self {
        Self(Rc::clone(&self.0))
    }
}

impl<T> PartialEq for Same<T> {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

impl<T> Deref for Same<T> {
    type Target = T;

    fn deref(&self) -> &T {
        &self.0
    }
}

/// The last design that could be flown, and why the present one cannot.
#[derive(Clone, Debug, Default, PartialEq)]
struct Boost {
    opened: u32,
    study: Option<Same<Study>>,
    refused: Vec<Refused>,
}

/// Answers of the last values that had any, and why the present ones have none.
#[derive(Clone, Debug, Default, PartialEq)]
struct Asked {
    opened: u32,
    answers: Option<Same<Answers>>,
    refused: Vec<Refused>,
}

/// Everything that follows from a design.
#[derive(Clone, Copy)]
pub struct Flown {
    boost: Memo<Boost>,
    asked: Memo<Asked>,
    /// The delay of the design, s.
    pub delay: Memo<f64>,
    /// The study of the last design that could be flown.
    pub study: Memo<Option<Same<Study>>>,
    /// All answers at the delay.
    pub answers: Memo<Option<Same<Answers>>>,
    /// All answers for the bare vessel at the delay; `None` when the design is bare itself.
    pub bare: Memo<Option<Same<Answers>>>,
    /// The rocket as it stands on the pad, for drawing it; the delay is no part of that.
    pub rocket: Memo<Rocket>,
    /// The sustainer's water at the delay.
    pub picture: Memo<Option<WaterPicture>>,
    /// Height against delay; of the design before while the new one is being swept.
    pub curves: RwSignal<Arc<DelayCurves>>,
    /// Whether the curves belong to the design before.
    pub updating: RwSignal<bool>,
    /// What holds the water.
    pub holds: Holds,
    /// The parts that hold the pressure.
    pub vessels: Memo<Arc<Vessels>>,
}

impl Flown {
    /// Follows a design from now on. `opened` counts the links opened: what one of them could not be flown for is not answered
    /// with the flight of another.
    pub fn follow(design: Memo<Design>, opened: RwSignal<u32>, aside: &Aside) -> Self {
        let delay = Memo::new(move |_| design.with(|design| design.number(Input::Delay)));
        let timeless = Memo::new(move |_| what_flies(&design.read()));
        let boost = Memo::new(move |before: Option<&Boost>| fly(&timeless.read(), opened.get(), before));
        let study = Memo::new(move |_| boost.with(|boost| boost.study.clone()));
        let asked =
            Memo::new(move |before: Option<&Asked>| ask(study.get().as_ref(), delay.get(), opened.get(), before));
        let bare_study = Memo::new(move |_| bare_design(&timeless.read()).and_then(|bare| fly(&bare, 0, None).study));
        let bare = Memo::new(move |_| ask(bare_study.get().as_ref(), delay.get(), 0, None).answers);
        let picture = Memo::new(move |_| study.with(|study| study.as_ref()?.picture(delay.get())));
        let rocket = Memo::new(move |_| timeless.with(Design::rocket));
        let (curves, updating) = (RwSignal::default(), RwSignal::new(false));
        let answers = Memo::new(move |_| asked.with(|asked| asked.answers.clone()));
        let holds = Holds::new(study, delay, aside);
        let vessels = Memo::new(move |_| design.with(|design| Arc::new(Vessels::of(design))));
        Self { boost, asked, delay, study, answers, bare, rocket, picture, curves, updating, holds, vessels }
    }

    /// From now on sweeps and searches whatever is to be flown. The first answer needs neither.
    pub fn begin(self) {
        follow_with_curves(self.study, self.curves, self.updating, &self.holds.aside());
        self.holds.follow();
    }

    /// Whether nothing has been flown that could be shown.
    pub fn is_empty(&self) -> bool {
        self.study.with(Option::is_none)
    }

    /// Whether the fields contradict one another, so that the answers shown are those of before.
    #[must_use]
    pub fn is_refused(&self) -> bool {
        self.boost.with(|boost| !boost.refused.is_empty()) || self.asked.with(|asked| !asked.refused.is_empty())
    }

    /// Why the design cannot be flown.
    #[must_use]
    pub fn refusals(&self) -> Vec<Refused> {
        let mut all = self.boost.with(|boost| boost.refused.clone());
        all.extend(self.asked.with(|asked| asked.refused.clone()));
        all
    }

    /// The longest delay worth showing; `None` when nothing is staged.
    #[must_use]
    pub fn longest_delay(&self) -> Option<f64> {
        self.study.with(|study| study.as_ref()?.longest_delay())
    }

    /// The delay for a place on the chart: within it, and in hundredths of a second, the finest a timer is set to.
    #[must_use]
    pub fn delay_within(&self, delay_s: f64) -> f64 {
        let longest = self.study.with_untracked(|study| study.as_ref()?.longest_delay());
        let inside = delay_s.max(0.0).min(longest.unwrap_or(f64::MAX));
        // Divided and not multiplied, so that the field shows 0.29 and not 0.29000000000000004.
        let tidy = (inside * 100.0).round() / 100.0;
        // At the very end rounding up would land past the top of the stack's flight.
        let tidy = if tidy > inside && longest.is_some_and(|longest| tidy > longest) { tidy - 0.01 } else { tidy };
        Input::Delay.row().nearest((tidy * 100.0).round() / 100.0)
    }
}

/// The design as far as flights and sizes depend on it: moving the delay, renaming, or the parts that hold the pressure must not fly
/// them again.
fn what_flies(design: &Design) -> Design {
    let mut timeless = design.clone();
    timeless.reset(Input::Delay);
    timeless.set_name("");
    timeless.set_parts([]);
    timeless.set_log(&[]);
    for input in Input::of_part(Part::Vessels).chain(Input::of_part(Part::Field)) {
        timeless.reset(input);
    }
    timeless
}

/// The design without restrictor and staging tube; `None` if it has neither.
fn bare_design(design: &Design) -> Option<Design> {
    let mut bare = design.clone();
    bare.reset(Input::RestrictorBore);
    bare.reset(Input::StagingTubeLength);
    (bare != *design).then_some(bare)
}

fn fly(design: &Design, opened: u32, before: Option<&Boost>) -> Boost {
    let before = before.filter(|boost| boost.opened == opened);
    match Study::new(design) {
        Ok(study) => Boost { opened, study: Some(Same::new(study)), refused: Vec::new() },
        Err(refused) => Boost { opened, study: before.and_then(|boost| boost.study.clone()), refused },
    }
}

fn ask(study: Option<&Same<Study>>, delay_s: f64, opened: u32, before: Option<&Asked>) -> Asked {
    let kept = || before.filter(|asked| asked.opened == opened).and_then(|asked| asked.answers.clone());
    match study.map(|study| study.answers(delay_s)) {
        Some(Ok(answers)) => Asked { opened, answers: Some(Same::new(answers)), refused: Vec::new() },
        Some(Err(refused)) => Asked { opened, answers: kept(), refused },
        None => Asked { opened, answers: kept(), refused: Vec::new() },
    }
}
