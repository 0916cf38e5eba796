//! What has been flown while sizes are searched, so that no flight is flown twice, here or by whoever is told.

/// What was asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Question {
    /// Hole, holes and height of a plate; the water free.
    Plate(u64, u32, u64),
    /// The same with the water held down: what the holes alone cost.
    HeldPlate(u64, u32, u64),
    /// Length and wall of a tube.
    Tube(u64, u64),
    /// Loss at a delay, with the best plate.
    PlateLoss(u64),
    /// Loss at a delay, with the best tube.
    TubeLoss(u64),
    /// How many holes of a diameter the plate has room for.
    Room(u64),
}

/// A flight as far as sizing needs it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Outcome {
    /// Height reached, of the stack alone if it falls first, m; for a plate's room the number of holes.
    pub height: f64,
    /// Whether the stack falls before the release.
    pub fell: bool,
    /// Share of height that water costs against the same flight with held water, where that was asked.
    pub loss: f64,
    /// Whether no gas left before the water but what stays in the tube.
    pub seated: bool,
}

/// What has been flown, in order of the questions.
#[derive(Clone, Debug, Default)]
pub(super) struct Memory(Vec<(Question, Option<Outcome>)>);

/// Numbers that a question and its outcome are written with.
const ROW: usize = 7;

impl Memory {
    /// Number of flights remembered.
    pub fn len(&self) -> usize {
        self.0.len()
    }

    fn place(&self, question: Question) -> Result<usize, usize> {
        self.0.binary_search_by(|(asked, _)| asked.cmp(&question))
    }

    /// What a question was answered with, if it was asked before.
    pub fn recall(&self, question: Question) -> Option<Option<Outcome>> {
        self.place(question).ok().map(|place| self.0[place].1)
    }

    /// Remembers the answer to a question. The first one stays.
    pub fn keep(&mut self, question: Question, outcome: Option<Outcome>) {
        if let Err(place) = self.place(question) {
            self.0.insert(place, (question, outcome));
        }
    }

    /// Everything remembered as numbers, for a second copy of the program.
    pub fn numbers(&self) -> Vec<f64> {
        self.0.iter().flat_map(|(question, outcome)| row(*question, *outcome)).collect()
    }

    /// Remembers what a second copy has flown. Rows that are none are passed over: what they would have told is flown again.
    pub fn keep_numbers(&mut self, numbers: &[f64]) {
        for row in numbers.chunks_exact(ROW) {
            if let Some((question, outcome)) = read(row) {
                self.keep(question, outcome);
            }
        }
    }
}

fn row(question: Question, outcome: Option<Outcome>) -> [f64; ROW] {
    let (kind, one, holes, two) = match question {
        Question::Plate(hole, holes, height) => (0.0, hole, holes, height),
        Question::HeldPlate(hole, holes, height) => (1.0, hole, holes, height),
        Question::Tube(length, wall) => (2.0, length, 0, wall),
        Question::PlateLoss(delay) => (3.0, delay, 0, 0),
        Question::TubeLoss(delay) => (4.0, delay, 0, 0),
        Question::Room(hole) => (5.0, hole, 0, 0),
    };
    let flag = |on: bool, value: f64| if on { value } else { 0.0 };
    let flags = outcome.map_or(0.0, |outcome| 1.0 + flag(outcome.fell, 2.0) + flag(outcome.seated, 4.0));
    let (height, loss) = outcome.map_or((0.0, 0.0), |outcome| (outcome.height, outcome.loss));
    [kind, f64::from_bits(one), f64::from(holes), f64::from_bits(two), flags, height, loss]
}

fn read(row: &[f64]) -> Option<(Question, Option<Outcome>)> {
    let &[kind, one, holes, two, flags, height, loss] = row else { return None };
    let (one, holes, two) = (one.to_bits(), holes as u32, two.to_bits());
    let question = match kind as u32 {
        0 => Question::Plate(one, holes, two),
        1 => Question::HeldPlate(one, holes, two),
        2 => Question::Tube(one, two),
        3 => Question::PlateLoss(one),
        4 => Question::TubeLoss(one),
        5 => Question::Room(one),
        _ => return None,
    };
    let flags = flags as u32;
    let outcome = Outcome { height, fell: flags & 2 != 0, loss, seated: flags & 4 != 0 };
    Some((question, (flags & 1 != 0).then_some(outcome)))
}
