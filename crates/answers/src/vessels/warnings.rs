//! What must be acted on, in sentences: they stand beside question 1 too, since the launch pressure is asked there.

use holdwater_design::parts::PartStage;

use super::age::RetireBy;
use super::part::PartAnswer;
use super::{Vessels, percent};
use crate::digits::trimmed;

pub(super) fn of(vessels: &Vessels) -> Vec<String> {
    let mut warnings = Vec::new();
    for part in &vessels.parts {
        warnings.extend(bursting(part));
    }
    for (_, refused) in vessels.refused() {
        warnings.push(format!("No margin: {} Until it has an answer the stack has none.", refused.message));
    }
    for fill in &vessels.stages {
        if let Some((highest, place)) = fill.highest.filter(|_| fill.is_passed()) {
            warnings.push(format!(
                "The {}'s launch pressure of {} bar is above the {} bar that its weakest part supports with your safety factors: {}.",
                stage_word(fill.stage),
                trimmed(fill.fill_bar, 2),
                trimmed(highest, 2),
                vessels.parts[place].name
            ));
        }
    }
    if let Some(day) = vessels.age.day.filter(|day| *day > vessels.age.accepted) {
        warnings.push(format!(
            "The chance that a part lets go today is {}{} %, more than the {} % you accept.",
            if vessels.age.at_most { "up to " } else { "" },
            percent(day),
            percent(vessels.age.accepted)
        ));
    }
    warnings.extend(retiring(&vessels.parts));
    // Without any part the verdict says so itself.
    for fill in vessels.stages.iter().filter(|fill| !vessels.parts.is_empty() && is_bare(vessels, fill.stage)) {
        warnings.push(format!("No part of the {} is entered, so nothing is known of it.", stage_word(fill.stage)));
    }
    let count = vessels.grounded.len();
    if count > 0 {
        let parts = if count == 1 { "1 part of the booster is" } else { &format!("{count} parts of the booster are") };
        warnings.push(format!("{parts} left out, because a single stage flies."));
    }
    warnings
}

fn is_bare(vessels: &Vessels, stage: PartStage) -> bool {
    !vessels.parts.iter().any(|part| part.stage == stage)
}

/// A part that may burst at its launch pressure.
fn bursting(part: &PartAnswer) -> Option<String> {
    let burst_bar = part.held.as_ref().ok()?.burst_bar.filter(|burst| part.fill_bar >= *burst)?;
    Some(format!(
        "{} may burst from {} bar on, taking the least that is known of its strength, and the launch pressure is {} bar. Burst a like one with \
         water to know, or do not fill it.",
        part.name,
        trimmed(burst_bar, 1),
        trimmed(part.fill_bar, 2)
    ))
}

/// Parts that have come to the age at which they retire, and those whose kind should never have been used.
fn retiring(parts: &[PartAnswer]) -> Vec<String> {
    let (mut old, mut never) = (Vec::new(), Vec::new());
    for part in parts {
        match part.age.retire {
            Some(RetireBy::After(fills)) if part.age.behind > fills as f64 => {
                old.push(format!(
                    "{} ({} fills behind it, retires after {fills})",
                    part.name,
                    trimmed(part.age.behind, 0)
                ));
            }
            Some(RetireBy::NeverUse) => never.push(part.name.as_str()),
            _ => {}
        }
    }
    let old = (!old.is_empty()).then(|| format!("Retire now: {}.", old.join("; ")));
    let never = (!never.is_empty()).then(|| {
        format!("Even when new these have a greater chance of failing than you accept: {}.", never.join("; "))
    });
    old.into_iter().chain(never).collect()
}

fn stage_word(stage: PartStage) -> &'static str {
    stage.word().word
}
