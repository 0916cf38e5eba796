//! What the numbers mean, in sentences.

use holdwater_physics::flight::{Flight, Happening, Launch};
use holdwater_physics::rocket::Rocket;

use crate::numbers::Answers;
use crate::study::PLANNED_LOSS;

/// A piece of a sentence.
#[derive(Clone, Debug, PartialEq)]
pub enum Span {
    /// Plain words.
    Text(String),
    /// A number that decides, with its unit ("24", "m"); shown large.
    Number(String, &'static str),
}

/// How the verdict is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// Nothing to do.
    Fine,
    /// Something to act on.
    Act,
}

/// The verdict: one or two sentences.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// Whether something must be done.
    pub tone: Tone,
    /// The words, in order.
    pub spans: Vec<Span>,
}

/// Puts a verdict together.
struct Say(Vec<Span>);

impl Say {
    fn text(mut self, words: impl Into<String>) -> Self {
        self.0.push(Span::Text(words.into()));
        self
    }

    fn number(mut self, value: f64, decimals: usize, unit: &'static str) -> Self {
        self.0.push(Span::Number(format!("{value:.decimals$}"), unit));
        self
    }

    /// A height: to the metre, or finer where a metre is much.
    fn height(self, metres: f64) -> Self {
        let decimals = usize::from(metres.abs() < 10.0);
        self.number(metres, decimals, "m")
    }

    fn with(self, tone: Tone) -> Verdict {
        Verdict { tone, spans: self.0 }
    }
}

/// The verdict on question 1 for a design at its delay.
#[must_use]
pub fn verdict(answers: &Answers, delay_s: f64) -> Verdict {
    let say = Say(Vec::new());
    if answers.burnout.is_none() {
        return say.text("This single stage reaches ").height(answers.apogee_m).text(".").with(Tone::Fine);
    }
    if answers.fell {
        return say
            .text("The stack is falling before the release at ")
            .number(delay_s, 2, "s")
            .text(": it tops out at ")
            .height(answers.apogee_m)
            .text(". Release earlier.")
            .with(Tone::Act);
    }
    let cost = answers.settled_apogee_m - answers.apogee_m;
    let loss = cost / answers.settled_apogee_m;
    let how = match answers.hardware {
        "bare" => "bare",
        "staging tube" => "with the staging tube",
        _ => "as fitted",
    };
    let say = say.text("Coasting ").number(delay_s, 2, "s").text(format!(" {how} "));
    let say = if cost.abs() < 0.05 {
        say.text("costs nothing: ").height(answers.apogee_m).text(".")
    } else if cost > 0.0 {
        say.text("costs ").height(cost).text(" of ").height(answers.settled_apogee_m).text(".")
    } else {
        say.text("gains ").height(-cost).text(" on ").height(answers.settled_apogee_m).text(".")
    };
    let too_late = answers.latest_release_s.is_some_and(|latest| delay_s > latest);
    match answers.latest_release_s {
        Some(latest) if latest < 0.005 => {
            say.text(" The water is lifted before the thrust ends: hold it down.").with(Tone::Act)
        }
        Some(latest) if too_late || loss >= PLANNED_LOSS => {
            say.text(" Release within ").number(latest, 2, "s").text(", or hold the water down.").with(Tone::Act)
        }
        Some(latest) => say.text(" Latest release ").number(latest, 2, "s").text(" after burnout.").with(Tone::Fine),
        None => say.text(" Lifted water never costs more than 1 % here.").with(Tone::Fine),
    }
}

/// The two parts of a delay's effect, always shown apart: what coasting itself gains or costs, and what lifted water takes off.
#[must_use]
pub fn two_parts(answers: &Answers) -> Option<String> {
    answers.burnout?;
    if answers.fell {
        return None;
    }
    let gain = answers.settled_apogee_m - answers.settled_at_burnout_m;
    let cost = answers.settled_apogee_m - answers.apogee_m;
    let coasting = if gain >= 0.0 {
        format!(
            "Coasting itself gains {gain:.1} m over a release at burnout, because a slower stack wastes less on drag"
        )
    } else {
        format!("Coasting itself costs {:.1} m against a release at burnout", -gain)
    };
    let culprit =
        if answers.hardware == "bare" { "the lifted water takes" } else { "lifted water and added mass take" };
    Some(if cost >= 0.05 {
        format!("{coasting}; {culprit} {cost:.1} m off.")
    } else {
        format!("{coasting}; nothing is taken off by lifted water.")
    })
}

/// What a sustainer is fitted with.
pub(crate) fn hardware(rocket: &Rocket) -> &'static str {
    match (rocket.booster.is_some(), rocket.restrictor.is_some(), rocket.staging_tube.is_some()) {
        (false, _, _) => "single stage",
        (true, true, true) => "restrictor and staging tube",
        (true, true, false) => "restrictor",
        (true, false, true) => "staging tube",
        (true, false, false) => "bare",
    }
}

/// Something that happens, in the trade's words.
pub(crate) fn happening(what: Happening) -> &'static str {
    match what {
        Happening::LiftOff => "lift-off",
        Happening::PadTubeExit => "off the pad launch tube",
        Happening::BoosterWaterGone => "booster water gone",
        Happening::Burnout => "burnout, coast begins",
        Happening::WaterAtNose => "lifted water at the nose",
        Happening::Release => "release",
        Happening::StagingTubeExit => "off the staging tube",
        Happening::NozzleCovered => "water closes over the nozzle",
        Happening::NozzleUncovered => "gas reaches the nozzle again",
        Happening::WaterRejoined => "lifted water back down",
        Happening::SustainerWaterGone => "sustainer water gone",
        Happening::SustainerBurnout => "sustainer burnout",
        Happening::GasGone => "gas gone, water still aboard",
        Happening::Apogee => "apogee",
    }
}

/// Warnings and remarks on a flight.
pub(crate) fn notes(launch: &Launch, flight: Option<&Flight>, answers: &Answers, delay_s: f64) -> Vec<String> {
    let mut notes = Vec::new();
    if answers.fell {
        let top = answers.apogee_t_s - answers.burnout.map_or(0.0, |burnout| burnout.t_s);
        notes.push(format!(
            "The stack reaches its own top {top:.2} s after burnout and is falling when the release comes at {delay_s} s. \
             The height given is that of the stack; the sustainer would be let go nose down."
        ));
    }
    if let Some(flight) = flight {
        let sustainer = &flight.sustainer;
        if sustainer.dud {
            notes.push(
                "All gas leaves before the water: the sustainer has no thrust and carries its water up and down again."
                    .to_owned(),
            );
        } else if sustainer.water_left > 0.0 {
            notes.push(format!(
                "The pressure runs out with {:.2} L of water still in the last stage. Less water or more pressure is needed.",
                sustainer.water_left * 1e3
            ));
        }
        if flight.release.is_some() && !sustainer.covered {
            notes.push(format!(
                "The nozzle is not covered at the release: {:.0} % of the gas leaves before the water.",
                100.0 * sustainer.gas_lost
            ));
        }
    }
    if launch.rocket().restrictor.is_some() {
        notes.push(
            "The restrictor counts with its mass only: its hold and its loss are not computed yet. Read this as the bare vessel."
                .to_owned(),
        );
    }
    let fastest = answers.events.iter().map(|event| event.v_mps).fold(0.0, f64::max);
    if fastest > 250.0 {
        notes.push(format!(
            "At {fastest:.0} m/s the drag coefficient is no longer the one of slow flight: the true height is lower."
        ));
    }
    notes
}

/// Why question 1 is answered so.
#[must_use]
pub fn why_coast() -> &'static [crate::why::Why] {
    &crate::why::COAST
}

/// Why question 5 is answered so.
#[must_use]
pub fn why_flight() -> &'static [crate::why::Why] {
    &crate::why::FLIGHT
}

/// The cautions that stand beside every number that could be acted on.
#[must_use]
pub fn cautions() -> &'static [&'static str] {
    &crate::why::CAUTIONS
}
