//! Question 2: some five hundred flights, once the design has come to rest.

use std::sync::Arc;
use std::time::Duration;

use holdwater_answers::Study;
use holdwater_answers::curves::BoreCurves;
use holdwater_answers::holding::{Holding, HoldingAnswer};
use holdwater_design::{Design, Input, link};

use crate::aside::{Aside, News, What};
use crate::browser::WhenQuiet;
use crate::dom::follow;
use crate::flown::Same;
use crate::line::Line;
use crate::react::{Memo, RwSignal, StoredValue};

/// How long the design has to rest before its sizes are searched.
const PAUSE: Duration = Duration::from_millis(200);

/// All answers to question 2, with the curve.
#[derive(Clone, Debug, PartialEq)]
pub struct Held {
    /// The answers.
    pub answer: HoldingAnswer,
    /// Height against bore.
    pub curves: BoreCurves,
}

/// What holds the water: the last complete answer, and whether it belongs to the design before.
#[derive(Clone, Copy)]
pub struct Holds {
    /// The last complete answer.
    pub held: RwSignal<Option<Arc<Held>>>,
    /// Whether it belongs to the design before.
    pub updating: RwSignal<bool>,
    /// Flights flown so far for the newer one.
    pub flown: RwSignal<usize>,
    /// Whether the reader has stopped the search.
    pub stopped: RwSignal<bool>,
    /// Height against delay with the best restrictor and with the best launch tube.
    pub lines: [RwSignal<Line>; 2],
    study: Memo<Option<Same<Study>>>,
    delay: Memo<f64>,
    aside: StoredValue<Aside>,
}

impl Holds {
    /// Knows nothing yet.
    pub fn new(study: Memo<Option<Same<Study>>>, delay: Memo<f64>, aside: &Aside) -> Self {
        let this = Self {
            held: RwSignal::new(None),
            updating: RwSignal::new(false),
            flown: RwSignal::new(0),
            stopped: RwSignal::new(false),
            lines: [RwSignal::default(), RwSignal::default()],
            study,
            delay,
            aside: StoredValue::new(aside.clone()),
        };
        aside.hear(What::Sizes, move |news| this.hear(news));
        aside.hear_line(What::PlateLine, this.lines[0]);
        aside.hear_line(What::TubeLine, this.lines[1]);
        this
    }

    /// Follows the design. The newest question wins; the answer before stays until the new one is complete.
    pub fn follow(self) {
        let begin = WhenQuiet::new(PAUSE, move || {
            // Unless it was stopped before it began.
            if !self.stopped.get_untracked() {
                self.search();
            }
        });
        follow(move || {
            self.delay.track();
            self.drop_search();
            self.stopped.put(false);
            let flies = self.study.get().is_some();
            // While a finger moves the delay this is so already, and the chart that follows it is not painted anew.
            self.updating.put(flies);
            if flies {
                begin.ask();
            } else {
                // A link was opened that cannot be flown: the sizes of the design before would be those of another.
                begin.forget();
                self.held.set(None);
            }
        });
    }

    /// Who flies for it.
    pub fn aside(self) -> Aside {
        self.aside.get_value()
    }

    /// The bores of a restrictor that would do, where they are known for the design of now.
    pub fn window_now(self) -> Option<[f64; 2]> {
        let fresh = self.held.get().filter(|_| !self.updating.get())?;
        fresh.answer.restrictor.window_mm
    }

    /// Searches the sizes of the design of now.
    pub fn search(self) {
        if let Some(study) = self.study.get_untracked() {
            self.stopped.set(false);
            self.ask(What::Sizes, study.design());
        }
    }

    /// Stops the search; the answer before stays, marked as such.
    pub fn stop(self) {
        self.drop_search();
        self.stopped.set(true);
    }

    fn drop_search(self) {
        self.flown.put(0);
        for what in [What::Sizes, What::PlateLine, What::TubeLine] {
            self.aside.with_value(|aside| aside.forget(what));
        }
    }

    fn ask(self, what: What, design: &Design) {
        self.aside.with_value(|aside| aside.ask(what, link::write(design), self.delay.get_untracked()));
    }

    fn hear(self, news: News) {
        let Some(numbers) = news.brought else { return self.flown.set(news.flown) };
        let Some(study) = self.study.get_untracked() else { return };
        let mut holding = Holding::start(&study, self.delay.get_untracked());
        holding.take_flown(&numbers);
        holding.advance(&study, usize::MAX);
        let Some(answer) = holding.answer().cloned() else { return };
        for ((what, design), line) in best_designs(study.design(), &answer).into_iter().zip(self.lines) {
            line.set(Line::default());
            if let Some(design) = design {
                self.ask(what, &design);
            }
        }
        self.held.set(Some(Arc::new(Held { answer, curves: holding.curves() })));
        self.updating.set(false);
    }
}

/// The choices that have no line in the chart yet.
fn best_designs(design: &Design, answer: &HoldingAnswer) -> [(What, Option<Design>); 2] {
    let with = |values: &[(Input, f64)]| {
        let mut other = design.clone();
        for (input, value) in values {
            other.set(*input, Some(input.row().nearest(*value))).ok()?;
        }
        (other != *design).then_some(other)
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
    [(What::PlateLine, plate), (What::TubeLine, tube)]
}
