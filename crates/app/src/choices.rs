//! The ways to stage that the first question compares.

use holdwater_answers::numbers::Answers;

/// A way to stage.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// The same flight with the water held down.
    Settled,
    /// The vessel without restrictor and staging tube.
    Bare,
    /// The design with what is fitted to it.
    Fitted,
}

impl Way {
    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Settled => "Settled ideal",
            Self::Bare => "Bare vessel",
            Self::Fitted => "As it stands",
        }
    }

    /// What it is.
    #[must_use]
    pub const fn what(self) -> &'static str {
        match self {
            Self::Settled => "water held down",
            Self::Bare => "nothing fitted",
            Self::Fitted => "with what you fitted",
        }
    }
}

/// A way to stage with its height at the present delay.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Choice {
    /// Which way.
    pub way: Way,
    /// Height, m.
    pub apogee_m: f64,
    /// Height above the settled ideal, m; `None` for the settled ideal itself.
    pub above_settled_m: Option<f64>,
    /// Latest release, s, where it is known for this way and exists.
    pub latest_release_s: Option<f64>,
}

/// The choices for a design: its own answers, and those of the bare vessel if it is not bare itself.
#[must_use]
pub fn choices(own: &Answers, bare: Option<&Answers>) -> Vec<Choice> {
    let settled_m = own.settled_apogee_m;
    let choice = |way, answers: &Answers| Choice {
        way,
        apogee_m: answers.apogee_m,
        above_settled_m: Some(answers.apogee_m - settled_m),
        latest_release_s: answers.latest_release_s,
    };
    let settled = Choice { way: Way::Settled, apogee_m: settled_m, above_settled_m: None, latest_release_s: None };
    let mut all = vec![settled, choice(Way::Bare, bare.unwrap_or(own))];
    all.extend(bare.map(|_| choice(Way::Fitted, own)));
    all
}
