//! Age: the life of each kind of part from the log, and the chance that today is the day one lets go.

use holdwater_design::parts::{LogEntry, PartInput, PartKind, VesselPart};
use holdwater_design::{Design, Input};
use holdwater_physics::age::fatigue::{Block, equivalent_history};
use holdwater_physics::age::few::{NoBound, shortest_scale};
use holdwater_physics::age::fit::{BadCycles, Estimate, Fit, LogRow, NoFit, fit};
use holdwater_physics::age::today::{self, Basis, Life, Unknown, part_today, today};
use holdwater_physics::age::weibull::{Retire, chance_of_any, chance_of_each, retire_by};
use serde::Serialize;

use super::part::PartAnswer;

/// How sure a bound is that a log with too few failures gives.
const CONFIDENCE: f64 = 0.95;

/// Share of parts that have failed at the scale of a Weibull life: 1 - 1/e.
const AT_SCALE: f64 = 0.632_120_558_828_557_7;

/// Chances of the whole stack.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Age {
    /// Fills planned today.
    pub fills: f64,
    /// Chance accepted for a day.
    pub accepted: f64,
    /// That any part of known life fails in the next fill; `None` if no life is known.
    pub next_fill: Option<f64>,
    /// That any of them fails today.
    pub day: Option<f64>,
    /// That two or more of them fail today.
    pub day_two: Option<f64>,
    /// The place in the list of answers of the part most likely to fail today.
    pub worst: Option<usize>,
    /// Parts of unknown life, equal ones counted each: with any, the true chances are greater.
    pub unknown: usize,
    /// Whether the chances are upper bounds, because a log has too few failures.
    pub at_most: bool,
    /// The lives that were used, one for each set of rows of the log.
    pub lives: Vec<LifeOf>,
}

/// Age and chances of one part.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct PartAge {
    /// Fills behind it, as they were counted.
    pub fills: f64,
    /// The same as fills at the launch pressure of now.
    pub behind: f64,
    /// Its life: a place in [`Age::lives`].
    pub life: usize,
    /// That one of the equal parts fails in the next fill; `None` if the life is unknown.
    pub next_fill: Option<f64>,
    /// That one of them fails today.
    pub day: Option<f64>,
    /// When such a part retires.
    pub retire: Option<RetireBy>,
}

/// When a part retires, in fills at the launch pressure of now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RetireBy {
    /// Even a new one has a greater chance than was accepted.
    NeverUse,
    /// After so many.
    After(u64),
    /// Its chance never exceeds what was accepted.
    NoLimit,
}

/// The life of a kind of part, and where it comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct LifeOf {
    /// The kind whose own rows of the log were used; `None` for all others.
    pub of: Option<PartKind>,
    /// Failures in those rows.
    pub failures: usize,
    /// Parts that are whole in them.
    pub whole: usize,
    /// The life; without one nothing is known.
    pub life: Option<Life>,
    /// The fit, where there is one.
    pub fit: Option<FitNumbers>,
    /// Why the log gives no fit, without full stop.
    pub no_fit: Option<String>,
    /// The fit with the log it comes from, which intervals need.
    fitted: Option<Fit>,
}

/// A fitted Weibull life: best estimates, standard errors, and 95 % intervals by the likelihood ratio.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct FitNumbers {
    /// Shape.
    pub shape: f64,
    /// Its standard error.
    pub shape_se: f64,
    /// Lower and upper end of its interval.
    pub shape_95: (f64, f64),
    /// Scale: fills at which 63.2 % have failed.
    pub scale: f64,
    /// Its standard error.
    pub scale_se: f64,
    /// Lower and upper end of its interval.
    pub scale_95: (f64, f64),
    /// Fills at which one in ten has failed.
    pub b10: f64,
    /// Lower and upper end of its interval.
    pub b10_95: (f64, f64),
}

/// Gives every part its age and chances, and the stack its own.
pub(super) fn add(design: &Design, parts: &mut [PartAnswer]) -> Age {
    let mut found: Vec<LifeOf> = Vec::new();
    let fills = design.number(Input::FillsToday);
    let accepted = design.number(Input::AcceptedChance) / 100.0;
    // Equal parts stand in the list once each; each piece knows whose it is.
    let (mut pieces, mut owners) = (Vec::new(), Vec::new());
    for (place, answer) in parts.iter_mut().enumerate() {
        let Some(part) = design.parts().get(answer.number - 1) else { continue };
        answer.age.life = life_for(design, part.kind(), &mut found);
        answer.age.fills = part.number(PartInput::Cycles).unwrap_or(0.0);
        answer.age.behind = behind(design, part);
        let life = found[answer.age.life].life.map(|life| life.weibull);
        for _ in 0..answer.count {
            pieces.push(today::Part { life, behind: answer.age.behind });
            owners.push(place);
        }
    }
    let known = pieces.iter().filter(|piece| piece.life.is_some()).count();
    let each = chance_of_each(accepted, u32::try_from(known).unwrap_or(u32::MAX));
    for answer in parts.iter_mut() {
        chances(answer, &found[answer.age.life], fills, each);
    }
    let all = today(&pieces, fills);
    let if_known = |chance: f64| (known > 0).then_some(chance);
    let is_bound = |life: &Life| matches!(life.basis, Basis::Bound { .. });
    Age {
        fills,
        accepted,
        next_fill: if_known(all.next_fill),
        day: if_known(all.day),
        day_two: if_known(all.day_two),
        worst: all.worst.and_then(|(piece, _)| owners.get(piece).copied()),
        unknown: all.unknown,
        at_most: found.iter().filter_map(|found| found.life.as_ref()).any(is_bound),
        lives: found,
    }
}

/// Fills behind a part, turned into fills at the launch pressure of now.
fn behind(design: &Design, part: &VesselPart) -> f64 {
    let cycles = part.number(PartInput::Cycles).unwrap_or(0.0);
    let fill_pa = design.fill_pa(part.stage());
    let Some(bar) = part.number(PartInput::FilledAt) else { return cycles };
    let slopes = design.solid(part).material.fatigue.slopes;
    equivalent_history(&[Block { cycles, gauge_pa: bar * 1e5 }], fill_pa, slopes)
}

fn chances(answer: &mut PartAnswer, found: &LifeOf, fills: f64, each: f64) {
    let count = answer.count;
    let age = &mut answer.age;
    let Some(life) = found.life else { return };
    let piece = today::Part { life: Some(life.weibull), behind: age.behind };
    if let Some(chances) = part_today(&piece, fills) {
        age.next_fill = Some(any_of(count, chances.next_fill));
        age.day = Some(any_of(count, chances.day));
    }
    age.retire = Some(match retire_by(&life.weibull, fills, each) {
        Retire::NeverUse { .. } => RetireBy::NeverUse,
        Retire::After { cycles } => RetireBy::After(cycles),
        Retire::NoLimit => RetireBy::NoLimit,
    });
}

/// The chance that one of several equal parts fails.
fn any_of(count: u32, chance: f64) -> f64 {
    chance_of_any((0..count).map(|_| chance))
}

/// The ends of the 95 % interval of a part's chance for the next fill, where its life was fitted.
///
/// It searches over lives, which takes as long as everything else about the parts, so it is only done for those that are looked at.
pub(super) fn next_fill_95(age: &Age, part: &PartAnswer) -> Option<(f64, f64)> {
    let fit = age.lives.get(part.age.life)?.fitted.as_ref()?;
    let estimate = fit.chance_of_failing(part.age.behind, 1.0);
    Some((any_of(part.count, estimate.low), any_of(part.count, estimate.high)))
}

/// The life for a kind of part: from its own rows of the log, or from those that name no kind.
fn life_for(design: &Design, kind: PartKind, found: &mut Vec<LifeOf>) -> usize {
    let names = |entry: &LogEntry, kind: PartKind| entry.part.trim().eq_ignore_ascii_case(kind.word().word);
    let own: Vec<LogRow> = design.log().iter().filter(|entry| names(entry, kind)).map(LogEntry::row).collect();
    let of = (!own.is_empty()).then_some(kind);
    if let Some(place) = found.iter().position(|found| found.of == of) {
        return place;
    }
    let general = |entry: &&LogEntry| !PartKind::ALL.into_iter().any(|kind| names(entry, kind));
    let rows = if own.is_empty() { design.log().iter().filter(general).map(LogEntry::row).collect() } else { own };
    found.push(life_of(design, of, &rows));
    found.len() - 1
}

fn life_of(design: &Design, of: Option<PartKind>, rows: &[LogRow]) -> LifeOf {
    let failures = rows.iter().filter(|row| row.failed).count();
    let whole = rows.len() - failures;
    let shape = design.number(Input::AssumedShape);
    let fitted = fit(rows);
    let (life, no_fit) = match &fitted {
        Ok(fit) => (Some(Life::fitted(fit)), None),
        Err(reason) => {
            // A life that somebody gave speaks before a bound, which it would be pointless to give otherwise.
            let life = match design.get(Input::TypicalLife) {
                Some(typical) => Life::given(typical, Some(shape)),
                None => bounded(rows, shape),
            };
            (life.ok(), Some(no_fit_words(reason)))
        }
    };
    let fit = fitted.ok();
    let numbers = fit.as_ref().map(fit_numbers);
    LifeOf { of, failures, whole, life, fit: numbers, no_fit, fitted: fit }
}

fn bounded(rows: &[LogRow], shape: f64) -> Result<Life, Unknown> {
    shortest_scale(rows, shape, CONFIDENCE).map(|bound| Life::bounded(&bound)).map_err(|problem| match problem {
        NoBound::Log(NoFit::NoRows) => Unknown::NoData,
        NoBound::Log(reason) => Unknown::Log(reason),
        NoBound::Shape | NoBound::Confidence => Unknown::TypicalLife,
    })
}

fn fit_numbers(fit: &Fit) -> FitNumbers {
    let ends = |estimate: Estimate| (estimate.low, estimate.high);
    let b10 = fit.life_at(0.1);
    FitNumbers {
        shape: fit.shape.value,
        shape_se: fit.shape_error,
        shape_95: ends(fit.shape),
        scale: fit.life.scale(),
        scale_se: fit.scale_error,
        scale_95: ends(fit.life_at(AT_SCALE)),
        b10: b10.value,
        b10_95: ends(b10),
    }
}

fn no_fit_words(reason: &NoFit) -> String {
    match reason {
        NoFit::NoRows => "there is no log".to_owned(),
        NoFit::TooManyRows { rows } => format!("the log has {rows} rows, too many to be fitted"),
        NoFit::BadRow { row, why } => match why {
            BadCycles::NotANumber => format!("row {row} has no number of fills"),
            BadCycles::TooFew(cycles) => format!("row {row} has {cycles} fills, too few to count"),
            BadCycles::TooMany(cycles) => format!("row {row} has {cycles} fills, more than any part sees"),
        },
        NoFit::NoFailures { whole, most_cycles } => {
            format!("nothing in it has failed yet ({whole} whole, the oldest after {most_cycles} fills)")
        }
        NoFit::OneFailure { cycles, whole } => {
            format!("one failure (after {cycles} fills, {whole} whole) cannot tell how the chance grows with age")
        }
        NoFit::AllAlike { failures, cycles } => {
            format!(
                "all {failures} failures came after {cycles} fills, the most in the log, so that no shape is too steep"
            )
        }
        NoFit::ShapeBeyond { bound } => format!("it points to a shape beyond {bound}"),
    }
}
