//! Questions 3 and 4 in sentences, and the cautions that stand beside their numbers.

use holdwater_physics::age::today::Basis;

use super::age::{LifeOf, RetireBy};
use super::part::PartAnswer;
use super::stand::Stand;
use super::{Vessels, percent, significant};
use crate::digits::trimmed;
use crate::words::{Span, Tone, Verdict};

/// What stands beside every margin.
pub const VESSEL_CAUTIONS: [&str; 4] = [
    "Margins are estimates for clean round parts under steady pressure. Scratches, sunlight, solvents, necks, threads, peel, leaks, landings \
     and flight loads are not covered.",
    "Burst a like part with water to know its strength, and count that instead of the formula.",
    "Fill from a distance, with eye and ear protection, and nobody near a vessel under pressure. Never repair or tighten anything under pressure.",
    "Local codes, club and range rules and licensed practice come first.",
];

/// What stands beside every chance and every retiring age.
pub const AGE_CAUTIONS: [&str; 3] = [
    "Chances are as good as the log and hold for parts made and used alike. What parts share, such as a batch, a hot car or a burst \
     beside them, makes two failures likelier than is said here.",
    "The parts of one vessel count one by one, so the chance that any lets go leans high.",
    "Discard a part by its count of fills, after any hard landing, and when you doubt it. Looks tell nothing.",
];

/// What stands beside every proof pressure.
pub const PROOF_CAUTIONS: [&str; 4] = [
    "Proof-test filled with water and all air out, never with gas alone: the air that is left stores nearly all of the energy.",
    "Stand away or behind cover, with eye and ear protection, and raise the pressure from a distance.",
    "A proof uses up life itself and says nothing about a part that was dropped, heated or filled often since.",
    "This is common practice, not a code. Local codes and licensed practice come first.",
];

/// What stands beside every stored energy and stand-off.
pub const STAND_CAUTIONS: [&str; 4] = [
    "The distance is for blast alone. Fragments, a flying cap and a rocket that leaves its pad are not covered, and they are what hurts people.",
    "It is the least, never leave to come closer. Range and club rules, local codes and licensed practice come first.",
    "Fill from outside that distance by a hose or a line, with eye and ear protection, and keep everybody else farther away.",
    "TNT compares energy, not effect.",
];

/// What to go through at the field, in order.
pub const FIELD_CHECKLIST: [&str; 10] = [
    "Range officer and club rules first: ask before you set up.",
    "Look at every part for scratches, white or cloudy places, cracks and loose glue. When you doubt one, discard it.",
    "Compare the fills behind each part with its retiring age, and add today's.",
    "Keep parts out of the sun until you fill: heat takes their strength.",
    "Put on eye and ear protection, all of you.",
    "Clear the ring and keep it clear until the pressure is gone.",
    "Fill from a distance, slowly, with a gauge you trust and a valve that dumps the pressure from where you stand.",
    "Never lean over, touch, tighten or repair anything under pressure. Dump it first.",
    "If it does not release, dump from a distance, wait, and treat it as full until the gauge says otherwise.",
    "A staged rocket that does not release comes down whole and full: everybody watches it until it is on the ground.",
];

#[derive(Default)]
struct Say(Vec<Span>);

impl Say {
    fn text(mut self, words: impl Into<String>) -> Self {
        self.0.push(Span::Text(words.into()));
        self
    }

    fn number(mut self, number: String, unit: &'static str) -> Self {
        self.0.push(Span::Number(number, unit));
        self
    }

    fn bar(self, bar: f64) -> Self {
        self.number(trimmed(bar, 1), "bar")
    }

    fn with(self, tone: Tone) -> Verdict {
        Verdict { tone, spans: self.0 }
    }
}

/// The verdict on question 3.
#[must_use]
pub fn vessel_verdict(vessels: &Vessels) -> Verdict {
    if vessels.parts.is_empty() {
        return Say::default()
            .text("No parts are entered, so nothing is known of your vessels. Begin with the shell and the domes of each stage.")
            .with(Tone::Act);
    }
    let mut say = Say::default();
    let refused = vessels.refused().count();
    if refused > 0 {
        let parts = if refused == 1 { "1 part has" } else { &format!("{refused} parts have") };
        say = say.text(format!("{parts} no margin, so the stack has none."));
    }
    if let Some((weakest, held)) = vessels.weakest().and_then(|part| Some((part, part.held.as_ref().ok()?))) {
        let others = if refused > 0 { " of the others" } else { "" };
        let margin = format!("{:.2}", held.margin);
        let before = if refused > 0 { " " } else { "" };
        say = if held.margin < 0.0 {
            say.text(format!("{before}{} is too weak: at ", weakest.name))
                .bar(weakest.fill_bar)
                .text(format!(" its margin of safety is {margin}, and it supports "))
                .bar(weakest.highest_fill_bar.unwrap_or(0.0))
                .text(".")
        } else {
            say.text(format!("{before}The weakest{others} is {}: at ", weakest.name))
                .bar(weakest.fill_bar)
                .text(format!(" its margin of safety is {margin}, and it supports "))
                .bar(weakest.highest_fill_bar.unwrap_or(0.0))
                .text(".")
        };
    }
    let say = chance(say, vessels);
    say.with(if vessels.warnings.is_empty() { Tone::Fine } else { Tone::Act })
}

fn chance(say: Say, vessels: &Vessels) -> Say {
    let age = &vessels.age;
    let Some(day) = age.day else {
        return say.text(" Nothing is known of the chance that one lets go: keep a log of fills and failures.");
    };
    let fills = if age.fills < 1.5 { "1 fill".to_owned() } else { format!("{} fills", age.fills) };
    let at_most = if age.at_most { "at most " } else { "" };
    let say =
        say.text(format!(" The chance that one lets go in today\'s {fills} is {at_most}")).number(percent(day), "%");
    match age.unknown {
        0 => say.text("."),
        1 => say.text(", without 1 part of unknown life."),
        unknown => say.text(format!(", without {unknown} parts of unknown life.")),
    }
}

/// What each stage may be filled to and what sets it.
#[must_use]
pub fn stage_sentences(vessels: &Vessels) -> Vec<String> {
    let sentence = |fill: &super::StageFill| {
        let stage = fill.stage.word().label;
        let launch = trimmed(fill.fill_bar, 2);
        match fill.highest {
            None => {
                format!("{stage}: nothing is known of what it may be filled to. Its launch pressure is {launch} bar.")
            }
            Some((bar, place)) => format!(
                "{stage}: {} {} bar, set by {}. Its launch pressure is {launch} bar.",
                if fill.complete { "highest fill" } else { "not more than" },
                trimmed(bar, 1),
                vessels.parts[place].name
            ),
        }
    };
    vessels.stages.iter().map(sentence).collect()
}

/// A part\'s answer in a sentence.
#[must_use]
pub fn part_sentence(part: &PartAnswer) -> String {
    let held = match &part.held {
        Ok(held) => held,
        Err(refused) => return refused.message.clone(),
    };
    let burst = match held.burst_bar {
        Some(burst) => format!(" It may burst from {} bar on.", trimmed(burst, 1)),
        None => " Where it bursts is not known.".to_owned(),
    };
    let compared = if held.is_pressure {
        format!("{} bar against {} bar", trimmed(10.0 * held.stress_mpa, 1), trimmed(10.0 * held.allowable_mpa, 1))
    } else {
        format!("{} MPa against {} MPa", significant(held.stress_mpa), significant(held.allowable_mpa))
    };
    let what = if held.is_pressure { format!("by its {}", held.stress) } else { format!("stress ({})", held.stress) };
    format!(
        "{}: {what} {compared}, factor {}, margin of safety {}. It supports {} bar.{burst}",
        part.name,
        trimmed(held.factor, 2),
        format_args!("{:.2}", held.margin),
        trimmed(part.highest_fill_bar.unwrap_or(0.0), 1)
    )
}

/// A part\'s proof test in a sentence; its cautions stand beside it.
#[must_use]
pub fn proof_sentence(part: &PartAnswer) -> String {
    let proof = match &part.proof {
        Ok(proof) => proof,
        Err(refused) => return format!("No proof can be planned. {}", refused.message),
    };
    let bar = trimmed(proof.pressure_bar, 1);
    if proof.bursts {
        return format!("A proof at {bar} bar is expected to burst it. Lower the launch pressure or make it stronger.");
    }
    if proof.harmful {
        return format!(
            "A proof at {bar} bar would use {} % of its strength and do harm itself. Lower the launch pressure or make it stronger.",
            trimmed(100.0 * proof.share_of_strength, 0)
        );
    }
    let (least, most) = proof.costs_fills;
    let costs = if trimmed(least, 0) == trimmed(most, 0) {
        format!("about {}", trimmed(least, 0))
    } else {
        format!("{} to {}", trimmed(least, 0), trimmed(most, 0))
    };
    format!(
        "Proof: {bar} bar, filled with water. Passed, it supports about {} fills at launch pressure; the test itself costs the life of {costs} fills.",
        trimmed(proof.supports_fills, 0)
    )
}

/// What the proof that a part has passed is worth now, in a sentence; its cautions stand beside it.
#[must_use]
pub fn passed_sentence(part: &PartAnswer) -> Option<String> {
    let passed = part.passed?;
    let enough = if passed.margin < 0.0 { "less than" } else { "enough for" };
    Some(format!(
        "The proof it passed supports {} bar now, {enough} its launch pressure of {} bar, and about {} fills at that when it was new from the test.",
        trimmed(passed.supports_bar, 1),
        trimmed(part.fill_bar, 2),
        trimmed(passed.supports_fills, 0)
    ))
}

/// Where the chances come from: a sentence or two for each life that was used, and when parts retire.
#[must_use]
pub fn age_sentences(vessels: &Vessels) -> Vec<String> {
    let mut sentences: Vec<String> = vessels.age.lives.iter().map(life_sentence).collect();
    for part in &vessels.parts {
        if let Some(retire) = part.age.retire {
            let behind = trimmed(part.age.behind, 0);
            sentences.push(match retire {
                RetireBy::NeverUse => format!("{}: even a new one has a greater chance than you accept.", part.name),
                RetireBy::After(fills) => format!("{}: {behind} fills behind it, retires after {fills}.", part.name),
                RetireBy::NoLimit => {
                    format!("{}: {behind} fills behind it, its chance does not pass what you accept.", part.name)
                }
            });
        }
    }
    sentences
}

fn life_sentence(life: &LifeOf) -> String {
    let whose = match life.of {
        Some(kind) => format!("{} by its own rows", kind.word().label),
        None => "Parts by the log".to_owned(),
    };
    let parts = |count: usize| if count == 1 { "1 part".to_owned() } else { format!("{count} parts") };
    if let Some(fit) = &life.fit {
        return format!(
            "{whose}: {} failed and {} whole give a shape of {} (95 %: {} to {}) and a scale of {} fills (95 %: {} to {}).",
            parts(life.failures),
            life.whole,
            trimmed(fit.shape, 2),
            trimmed(fit.shape_95.0, 2),
            trimmed(fit.shape_95.1, 2),
            significant(fit.scale),
            significant(fit.scale_95.0),
            significant(fit.scale_95.1)
        );
    }
    let reason = life.no_fit.as_deref().unwrap_or("there is no log");
    match life.life.map(|life| life.basis) {
        Some(Basis::Given { typical_cycles, shape }) => format!(
            "{whose}: {reason}. You gave a typical life of {typical_cycles} fills, taken with a shape of {shape}; the chances are as good as that."
        ),
        Some(Basis::Bound { confidence, shape }) => format!(
            "{whose}: {reason}. Chances are upper bounds ({} % sure) if the shape is {shape}.",
            trimmed(100.0 * confidence, 0)
        ),
        _ => format!(
            "{whose}: {reason}, and no typical life is given. Nothing is known of the chance; a margin alone says nothing about fills."
        ),
    }
}

pub(super) fn basis_word(life: &LifeOf) -> &'static str {
    match life.life.map(|life| life.basis) {
        Some(Basis::Fitted { .. }) => "fitted",
        Some(Basis::Bound { .. }) => "bound",
        Some(Basis::Given { .. }) => "given",
        None => "unknown",
    }
}

/// The verdict on question 4.
#[must_use]
pub fn stand_verdict(stand: &Stand) -> Verdict {
    let say = Say::default()
        .text("Filled, the stack stores ")
        .number(significant(stand.energy_j), "J")
        .text(", as much as ")
        .number(significant(1e3 * stand.tnt_kg), "g")
        .text(" of TNT. ");
    match stand.distance_m {
        Some(distance) => say
            .text("Stand ")
            .number(trimmed(distance.ceil(), 0), "m")
            .text(" away or more: that is for blast alone, and fragments fly farther.")
            .with(Tone::Act),
        None => say
            .text("That is more than the stand-off rule covers: no distance is given. Ask somebody licensed.")
            .with(Tone::Act),
    }
}

/// What else is to say of stored energy.
#[must_use]
pub fn stand_sentences(stand: &Stand) -> Vec<String> {
    let mut sentences = Vec::new();
    if let Some(blast) = stand.blast_m.filter(|_| stand.by_floor) {
        sentences.push(format!("By blast alone {} m would do; the rule never goes below 30 m.", significant(blast)));
    }
    sentences.push(format!(
        "Without any water in them the vessels would store {} J at the same pressure.",
        significant(stand.without_water_j)
    ));
    sentences.push(format!(
        "Tested to {} times the launch pressure they store {} J filled with water, and {} J with gas alone. That is why proof tests use water.",
        trimmed(stand.proof_factor, 2),
        significant(stand.proof_water_j),
        significant(stand.proof_gas_j)
    ));
    sentences
}
