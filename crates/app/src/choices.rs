//! The ways to stage that the first question compares.

use holdwater_answers::numbers::Answers;

/// Which way to stage.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// The same flight with the water held down.
    Settled,
    /// The vessel without restrictor and staging tube.
    Bare,
    /// The design with what is fitted to it.
    Fitted,
}

/// One way to stage, with its height at the present delay.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Choice {
    /// Which way.
    pub way: Way,
    /// Its name.
    pub name: &'static str,
    /// What it is.
    pub what: &'static str,
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
    let choice = |way, name, what, answers: &Answers| Choice {
        way,
        name,
        what,
        apogee_m: answers.apogee_m,
        above_settled_m: Some(answers.apogee_m - settled_m),
        latest_release_s: answers.latest_release_s,
    };
    let mut all = vec![Choice {
        way: Way::Settled,
        name: "Settled ideal",
        what: "water held down",
        apogee_m: settled_m,
        above_settled_m: None,
        latest_release_s: None,
    }];
    all.push(choice(Way::Bare, "Bare vessel", "nothing fitted", bare.unwrap_or(own)));
    if bare.is_some() {
        all.push(choice(Way::Fitted, "As it stands", "with what you fitted", own));
    }
    all
}
