//! What the numbers mean, in sentences.

use holdwater_physics::flight::{Flight, Happening, Launch, WaterMode};
use holdwater_physics::rocket::Rocket;

use crate::numbers::{Answers, Plate};
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
    verdict_with_window(answers, delay_s, None)
}

/// The same when the bores of a restrictor that would serve are known, mm: what to fit is then said with its numbers.
#[must_use]
pub fn verdict_with_window(answers: &Answers, delay_s: f64, window_mm: Option<[f64; 2]>) -> Verdict {
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
    let how = match answers.hardware {
        "bare" => "bare",
        "staging tube" => "with the staging tube",
        "restrictor" => "with the restrictor",
        _ => "as fitted",
    };
    let say = cost(say.text("Coasting ").number(delay_s, 2, "s").text(format!(" {how} ")), answers);
    match &answers.plate {
        Some(plate) => what_the_plate_does(say, answers, plate, delay_s),
        None => when_to_release(say, answers, delay_s, window_mm),
    }
}

/// What coasting costs against the settled ideal of the bare vessel.
fn cost(say: Say, answers: &Answers) -> Say {
    let cost = answers.settled_apogee_m - answers.apogee_m;
    if cost.abs() < 0.05 {
        say.text("costs nothing: ").height(answers.apogee_m).text(".")
    } else if cost > 0.0 {
        say.text("costs ").height(cost).text(" of ").height(answers.settled_apogee_m).text(".")
    } else {
        say.text("gains ").height(-cost).text(" on ").height(answers.settled_apogee_m).text(".")
    }
}

/// Share of the settled ideal's height that is lost.
fn loss(answers: &Answers) -> f64 {
    1.0 - answers.apogee_m / answers.settled_apogee_m
}

/// What to do without a restrictor: when to release, or what to fit.
fn when_to_release(say: Say, answers: &Answers, delay_s: f64, window_mm: Option<[f64; 2]>) -> Verdict {
    // Whole millimetres inside the window, where there are any.
    let window_mm = window_mm.map(|[low, high]| [low.ceil(), high.floor()]).filter(|[low, high]| low < high);
    let hold = |say: Say| match window_mm {
        Some([low, high]) => {
            say.text("fit a restrictor of ").number(low, 0, "mm").text(" to ").number(high, 0, "mm").text(".")
        }
        None => say.text("hold the water down."),
    };
    match answers.latest_release_s {
        Some(latest) if latest < 0.005 => {
            hold(say.text(" The water is lifted before the thrust ends: ")).with(Tone::Act)
        }
        Some(latest) if delay_s > latest || loss(answers) >= PLANNED_LOSS => {
            hold(say.text(" Release within ").number(latest, 2, "s").text(", or ")).with(Tone::Act)
        }
        Some(latest) => say.text(" Latest release ").number(latest, 2, "s").text(" after burnout.").with(Tone::Fine),
        None => say.text(" Lifted water never costs more than 1 % here.").with(Tone::Fine),
    }
}

/// What the restrictor does, and what to change.
fn what_the_plate_does(say: Say, answers: &Answers, plate: &Plate, delay_s: f64) -> Verdict {
    let costly = loss(answers) >= PLANNED_LOSS;
    let late = answers.latest_release_s.filter(|latest| costly && delay_s > *latest);
    if let Some(latest) = late {
        let say = match plate.verdict {
            "holds" if plate.above_l >= 0.005 => say.text(" It holds, but not the water above it."),
            "holds" => say.text(" It holds, but gas from the gap under it reaches the nozzle."),
            "marginal" => say.text(" Its holes are marginal."),
            _ => say.text(" It leaks ").number(plate.leak_l, 2, "L").text("."),
        };
        return say.text(" Release within ").number(latest, 2, "s").text(", or change the plate.").with(Tone::Act);
    }
    let say = match plate.verdict {
        "holds" => say.text(" It holds"),
        "marginal" => say.text(" Its holes are marginal"),
        _ => say.text(" It leaks ").number(plate.leak_l, 2, "L"),
    };
    if costly {
        return say.text(dearest(plate)).with(Tone::Act);
    }
    match (plate.verdict, answers.latest_release_s) {
        ("marginal", _) => say.text(": try them on the bench.").with(Tone::Act),
        ("leaks", Some(latest)) => {
            say.text(", slowly enough. Latest release ").number(latest, 2, "s").text(" after burnout.").with(Tone::Fine)
        }
        ("leaks", None) => say.text(", slowly enough.").with(Tone::Fine),
        _ => say.text(".").with(Tone::Fine),
    }
}

/// What of a restrictor costs most, and what to do about it.
fn dearest(plate: &Plate) -> &'static str {
    let most = plate.mass_cost_m.max(plate.holes_cost_m).max(plate.water_cost_m);
    if plate.holes_cost_m >= most {
        "; its holes throttle the gas: make them wider, or more."
    } else if plate.mass_cost_m >= most {
        "; its mass costs the height: make it lighter."
    } else {
        "; gas that leaves before the water costs the height."
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
    if let Some(plate) = &answers.plate {
        return Some([&coasting, "; of the restrictor, ", &three_parts(plate), "."].concat());
    }
    let culprit =
        if answers.hardware == "bare" { "the lifted water takes" } else { "lifted water and added mass take" };
    Some(if cost >= 0.05 {
        format!("{coasting}; {culprit} {cost:.1} m off.")
    } else {
        match answers.hardware {
            "bare" => format!("{coasting}; nothing is taken off by lifted water."),
            _ => format!("{coasting}; nothing is taken off."),
        }
    })
}

/// What mass, holes and water of a restrictor cost, in words.
fn three_parts(plate: &Plate) -> String {
    let part = |name: &str, costs: &str, gains: &str, cost: f64| match cost {
        cost if cost >= 0.05 => format!("{name} {costs} {cost:.1} m"),
        cost if cost <= -0.05 => format!("{name} {gains} {:.1} m", -cost),
        _ => format!("{name} {costs} nothing"),
    };
    let parts = [
        part("the mass", "costs", "gains", plate.mass_cost_m),
        part("the holes", "cost", "gain", plate.holes_cost_m),
        part("the water", "costs", "gains", plate.water_cost_m),
    ];
    parts.join(", ")
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
            let share = match 100.0 * sustainer.gas_lost {
                percent if percent < 1.0 => "less than 1 %".to_owned(),
                percent => format!("{percent:.0} %"),
            };
            notes
                .push(format!("The nozzle is not covered at the release: {share} of the gas leaves before the water."));
        }
    }
    if let Some(plate) = &answers.plate {
        plate_notes(launch, plate, &mut notes);
    }
    let fastest = answers.events.iter().map(|event| event.v_mps).fold(0.0, f64::max);
    if fastest > 250.0 {
        notes.push(format!(
            "At {fastest:.0} m/s the drag coefficient is no longer the one of slow flight: the true height is lower."
        ));
    }
    notes
}

/// A gap or a layer of water less than this is not spoken of, m.
const NOT_WORTH_A_WORD: f64 = 1e-3;

/// What should be known of the restrictor that is fitted.
fn plate_notes(launch: &Launch, plate: &Plate, notes: &mut Vec<String>) {
    let area = launch.sustainer().vessel.area * 1e3;
    let (gap, above) = (plate.gap_l / area, plate.above_l / area);
    if gap > NOT_WORTH_A_WORD {
        notes.push(format!(
            "Between water and plate is a gap of {:.0} mm, {:.2} L. Its gas reaches the nozzle and leaves first: fill right up to the plate.",
            gap * 1e3,
            plate.gap_l
        ));
    }
    if above > NOT_WORTH_A_WORD {
        notes.push(format!(
            "{:.2} L of water stand on the plate. It does not hold them: they climb as in a bare vessel, and pass the holes later.",
            plate.above_l
        ));
    }
    if launch.coast(WaterMode::Free).is_none() {
        return;
    }
    let stands = format!("Bond number {:.1} of an ideal limit of {:.1}", plate.bond, plate.limit);
    match plate.verdict {
        "marginal" => notes.push(format!(
            "The holes are marginal ({stands}): below the limit of calm water and sharp edges, above the share of it that you trust. \
             The leak in between is a guess."
        )),
        "leaks" => notes.push(format!(
            "The holes leak ({stands}): {:.2} L have climbed past the plate at the release, and as much gas has come down.",
            plate.leak_l
        )),
        _ => {}
    }
    let share = launch.rocket().restrictor.map_or(0.0, |plate| f64::from(plate.holes) * plate.hole_m * plate.hole_m);
    let bore = launch.rocket().sustainer.bore_m;
    if share > 0.5625 * bore * bore || share < 0.01 * bore * bore {
        notes.push(
            "The open share lies outside the range of the standard orifice relation; the loss of the holes is that of its nearest end."
                .to_owned(),
        );
    }
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

/// Why question 2 is answered so.
#[must_use]
pub fn why_holding() -> &'static [crate::why::Why] {
    &crate::why::HOLDING
}

/// The cautions that stand beside the answers to question 2.
#[must_use]
pub fn holding_cautions() -> &'static [&'static str] {
    &crate::why::HOLDING_CAUTIONS
}

/// The cautions that stand beside every number that could be acted on.
#[must_use]
pub fn cautions() -> &'static [&'static str] {
    &crate::why::CAUTIONS
}
