//! The long jobs: sweeps and searches, each flown a little at a time.

use holdwater_answers::holding::Holding;
use holdwater_answers::{Study, Sweep};
use holdwater_design::link;

use crate::line::Line;

/// Delays along the chart: close enough for every bend to show on a wide screen.
pub const CURVE_POINTS: usize = 161;
/// Flights of a slice: a millisecond or two on a slow phone.
const SLICE: usize = 6;

/// What can be asked for, the most urgent first. Of each only the newest question counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// Heights of a design against delay.
    Curves,
    /// The line of the pinned design.
    PinnedLine,
    /// The flights of question 2.
    Sizes,
    /// The line of the best restrictor.
    PlateLine,
    /// The line of the best launch tube.
    TubeLine,
}

impl What {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::Curves, Self::PinnedLine, Self::Sizes, Self::PlateLine, Self::TubeLine];
}

/// A question.
#[derive(Clone, Debug)]
pub struct Question {
    /// Rises with every question.
    pub number: u32,
    /// What is asked for.
    pub what: What,
    /// The design.
    pub link: String,
    /// Its delay, s.
    pub delay: f64,
}

/// How far a question has come.
#[derive(Debug)]
pub struct News {
    /// The question's number.
    pub number: u32,
    /// What was asked for.
    pub what: What,
    /// Flights flown so far.
    pub flown: usize,
    /// What they brought, once all are flown.
    pub brought: Option<Vec<f64>>,
}

impl News {
    /// As numbers, for the way from the worker to the page.
    pub fn numbers(self) -> Vec<f64> {
        let is_last = f64::from(u8::from(self.brought.is_some()));
        let mut numbers = vec![f64::from(self.number), f64::from(self.what as u8), self.flown as f64, is_last];
        numbers.extend(self.brought.into_iter().flatten());
        numbers
    }

    /// From numbers; nothing if they are none of ours.
    pub fn read(numbers: &[f64]) -> Option<Self> {
        let (&[number, what, flown, is_last], rest) = numbers.split_first_chunk()?;
        let what = *What::ALL.get(what as usize)?;
        Some(Self {
            number: number as u32,
            what,
            flown: flown as usize,
            brought: (is_last > 0.0).then(|| rest.to_vec()),
        })
    }
}

/// A job under way.
#[derive(Debug)]
struct Job {
    number: u32,
    study: Study,
    way: Way,
}

#[derive(Debug)]
enum Way {
    Sweep(Sweep),
    Line(Sweep),
    Search(Box<Holding>),
}

impl Job {
    /// Begins with a question; nothing for a design that does not fly.
    fn begin(question: &Question) -> Option<Self> {
        let study = Study::new(&link::open(&question.link).design).ok()?;
        let way = match question.what {
            What::Curves => Way::Sweep(study.sweep(CURVE_POINTS)),
            What::Sizes => Way::Search(Box::new(Holding::start(&study, question.delay))),
            What::PinnedLine | What::PlateLine | What::TubeLine => Way::Line(study.sweep(Line::POINTS)),
        };
        Some(Self { number: question.number, study, way })
    }

    /// Flies a slice.
    fn advance(&mut self, what: What) -> News {
        let study = &self.study;
        let (flown, brought) = match &mut self.way {
            Way::Sweep(sweep) => (0, sweep.advance(study, SLICE).then(|| sweep.flown_as_numbers())),
            Way::Line(sweep) => (0, sweep.advance(study, SLICE).then(|| Line::of(sweep).numbers())),
            Way::Search(search) => {
                let is_done = search.advance(study, SLICE);
                (search.flown(), is_done.then(|| search.flown_as_numbers()))
            }
        };
        News { number: self.number, what, flown, brought }
    }
}

/// What there is to do of one kind.
#[derive(Debug, Default)]
enum Stage {
    #[default]
    Nothing,
    Asked(Question),
    Begun(Box<Job>),
}

/// The jobs that wait or are under way.
#[derive(Debug, Default)]
pub struct Jobs([Stage; What::ALL.len()]);

impl Jobs {
    /// Takes a question; an older one for the same is dropped, with what has been flown for it. One without a link only drops.
    pub fn ask(&mut self, question: Question) {
        let place = question.what as usize;
        self.0[place] = if question.link.is_empty() { Stage::Nothing } else { Stage::Asked(question) };
    }

    /// Flies a slice of the most urgent job; nothing when none is left.
    pub fn step(&mut self) -> Option<News> {
        let what = What::ALL.into_iter().find(|what| !matches!(self.0[*what as usize], Stage::Nothing))?;
        let stage = &mut self.0[what as usize];
        let news = match stage {
            Stage::Nothing => return None,
            Stage::Asked(question) => {
                let (number, job) = (question.number, Job::begin(question));
                let brought = job.is_none().then(Vec::new);
                *stage = job.map_or(Stage::Nothing, |job| Stage::Begun(Box::new(job)));
                News { number, what, flown: 0, brought }
            }
            Stage::Begun(job) => job.advance(what),
        };
        if news.brought.is_some() {
            *stage = Stage::Nothing;
        }
        Some(news)
    }
}
