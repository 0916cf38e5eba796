//! Question two in sentences.

use holdwater_physics::constants::GRAVITY;
use holdwater_physics::rocket::Restrictor;
use holdwater_physics::sizing::plate::NoPattern;

use super::case::{Case, Obstacle};
use super::numbers::{Choice, Fair, RestrictorAnswer, Tried, TubeAnswer, Way};
use super::stages::{Found, highest_point, wall};
use crate::digits::trimmed;
use crate::study::PLANNED_LOSS;

/// A length in millimetres with at most one decimal.
fn mm(millimetres: f64) -> String {
    trimmed(millimetres, 1)
}

fn holes(count: u32) -> String {
    if count == 1 { "one hole".to_owned() } else { format!("{count} holes") }
}

/// A plate with its holes: "one hole of 13.1 mm".
fn plate(count: u32, bore_mm: f64) -> String {
    format!("{} of {} mm", holes(count), mm(bore_mm))
}

/// A way to stage.
pub(super) fn choice(way: Way, case: &Case, found: &Found) -> String {
    let fitted = case.rocket.restrictor;
    match way {
        Way::AtBurnout => "release at burnout, nothing fitted".to_owned(),
        Way::Bare => "coast with nothing fitted".to_owned(),
        Way::ThisRestrictor => {
            let own = fitted.map_or_else(String::new, |own| plate(own.holes, own.hole_m * 1e3));
            format!("coast with this restrictor, {own}")
        }
        Way::BestRestrictor => {
            let best = found.best_plate.map_or_else(String::new, |best| {
                format!("{}, plate at {} mm", plate(best.holes, best.bore_mm), mm(best.height_mm))
            });
            format!("coast with the best restrictor, {best}")
        }
        Way::ThisTube => {
            let length = case.rocket.staging_tube.map_or(0.0, |tube| tube.length_m * 1e3);
            format!("coast with this launch tube, {} mm", mm(length))
        }
        Way::BestTube => {
            let length = found.tube.best.map_or(0.0, |best| best.0);
            format!("coast with the best launch tube, {} mm", mm(length))
        }
    }
}

/// What could go wrong with a way to stage.
pub(super) fn warning(
    way: Way,
    case: &Case,
    found: &Found,
    restrictor: &RestrictorAnswer,
    latest_s: Option<f64>,
) -> String {
    let water = &case.water;
    match way {
        Way::AtBurnout => match latest_s {
            Some(latest) if latest < 0.05 => {
                "A timer that is late by hundredths of a second finds the water lifted.".to_owned()
            }
            Some(latest) => format!("A timer that is more than {latest:.2} s late finds the water lifted."),
            None => "The sustainer is let go at its fastest, where drag takes most and a tilt does most.".to_owned(),
        },
        Way::Bare => match latest_s {
            Some(latest) if case.delay > latest => format!(
                "Released {:.2} s too late: water is lifted, and gas may leave before it. A fast spin, a tilt or a knock lifts it sooner.",
                case.delay - latest
            ),
            Some(latest) if latest - case.delay < 0.02 => {
                "There is no time to spare: any delay of the release finds the water lifted.".to_owned()
            }
            Some(latest) => format!(
                "A timer that is {:.2} s late, a tilt or a knock finds the water lifted.",
                latest - case.delay
            ),
            None => "A tilt or a knock lifts the water sooner than computed.".to_owned(),
        },
        Way::ThisRestrictor => match restrictor.verdict {
            "holds" => held_warning(water.surface_tension),
            "marginal" => "Between the trusted share and the ideal limit nobody knows whether it holds; the leak there is a guess.".to_owned(),
            _ => "It leaks: what it costs grows with every tenth of a second the release is late.".to_owned(),
        },
        Way::BestRestrictor => {
            let best = found.best_plate.map(|best| best.bore_mm > down_to_hold(case, best.holes));
            if best == Some(true) {
                "Wider than what holds: it leaks a little, and more if the release is late. The widest that holds is the safe choice.".to_owned()
            } else {
                held_warning(water.surface_tension)
            }
        }
        Way::ThisTube => {
            let tube = case.rocket.staging_tube.map_or((0.0, 0.0), |tube| (tube.length_m, tube.wall_m));
            match wall(case, tube.0) {
                Some(needed) if needed.needed() <= tube.1 => TUBE_WARNING.to_owned(),
                Some(needed) => format!(
                    "Its wall of {} mm is too thin: {:.1} mm of aluminium are needed with its end taken as closed. {TUBE_WARNING}",
                    mm(tube.1 * 1e3),
                    (needed.needed() * 1e4).ceil() / 10.0
                ),
                None => format!("No aluminium wall of that diameter stands the pressure. {TUBE_WARNING}"),
            }
        }
        Way::BestTube => TUBE_WARNING.to_owned(),
    }
}

const TUBE_WARNING: &str =
    "A bent tube or a seal that binds leaves the sustainer on the booster; a seal that leaks empties it on the pad.";

fn down_to_hold(case: &Case, holes: u32) -> f64 {
    super::case::down(case.widest_hole(holes, case.plate.trusted_share), 10.0)
}

fn held_warning(surface_tension: f64) -> String {
    format!(
        "Soap, grease, a knock or a slanted hole lets go sooner; computed for {:.1} mN/m. A plate that comes loose blocks the nozzle.",
        surface_tension * 1e3
    )
}

/// The best choice, and the simplest that comes near it.
pub(super) fn verdict(case: &Case, best: Option<&Choice>, simplest: Option<&Choice>) -> String {
    if case.obstacle == Some(Obstacle::SingleStage) {
        return "A single stage has no coast, so nothing need hold its water.".to_owned();
    }
    let (Some(best), Some(simplest)) = (best, simplest) else {
        return "None of the ways to stage has an answer.".to_owned();
    };
    let first = format!("Highest: {}, {:.0} m.", best.choice, best.apogee_m);
    if best.way == simplest.way {
        return format!("{first} Nothing simpler comes within 1 %.");
    }
    let short = best.apogee_m - simplest.apogee_m;
    let short = if short < 0.05 { "as high".to_owned() } else { format!("{short:.1} m lower") };
    format!("{first} Simpler and within 1 %: {}, {short}.", simplest.choice)
}

/// Remarks and warnings.
pub(super) fn notes(case: &Case, found: &Found, restrictor: &RestrictorAnswer, tube: &TubeAnswer) -> Vec<String> {
    let mut notes = Vec::new();
    let grams = case.plate.mass_kg * 1e3;
    if case.obstacle.is_none() && restrictor.ballast_gain_m > 0.05 {
        notes.push(format!(
            "The {} g of the restrictor alone, as ballast, would gain {:.1} m. That part is not the holding.",
            trimmed(grams, 1),
            restrictor.ballast_gain_m
        ));
    }
    if let (Some(plate), Some(hold), Some(best)) =
        (case.rocket.restrictor, restrictor.hold_bore_mm, restrictor.best_bore_mm)
        && restrictor.verdict == "leaks"
    {
        notes.push(format!(
            "The fitted {} leaks: the widest that holds is {} mm, the best here {} mm.",
            plate_of(&plate),
            mm(hold),
            mm(best)
        ));
    }
    if let Some(load) = &restrictor.load {
        let up = if load.filling_bar >= 0.005 {
            format!(", and {:.2} bar up if you fill in ten seconds", load.filling_bar)
        } else {
            String::new()
        };
        notes.push(format!(
            "The plate and what holds it must stand {:.0} N down ({:.2} bar across it){up}. Water that strikes it at the release comes on top \
             and is not in the number: prove it in the closed vessel, filled with water.",
            load.force_n.ceil(),
            load.release_bar.max(load.gas_pulse_bar)
        ));
    }
    if case.obstacle.is_none() && found.tube_room_m <= 0.0 {
        notes.push(format!(
            "No aluminium launch tube of {} mm stands {:.0} bar with its end taken as closed, so none is proposed.",
            mm(tube.outer_mm),
            case.bare.sustainer.fill_gauge_pa * 1e-5
        ));
    }
    if let (Some(length), None) = (tube.best_length_mm, tube.seated_length_mm) {
        notes.push(format!(
            "No launch tube that the vessel has room for brings all water back in time: at {} mm it still costs {:.1} %.",
            mm(length),
            100.0 * found.tube.loss
        ));
    }
    if let (Some(inside), Some(outside), Some(length)) =
        (tube.wall_inside_mm, tube.wall_outside_mm, tube.best_length_mm)
    {
        let needed = inside.max(outside);
        notes.push(format!(
            "A launch tube of {} mm in aluminium 6061-T6 needs a wall of {:.1} mm: factor 2 on yield for the pressure inside it, 4 on collapse and \
             buckling with its end taken as closed. Scratches, welds and side loads are not covered. Prove it with water.",
            mm(length),
            (needed * 10.0).ceil() / 10.0
        ));
    }
    notes
}

fn plate_of(own: &Restrictor) -> String {
    plate(own.holes, own.hole_m * 1e3)
}

/// Why there is no window, no pattern, or nothing at all.
pub(super) fn why_not(case: &Case, found: &Found) -> Vec<String> {
    if let Some(obstacle) = case.obstacle {
        return vec![
            match obstacle {
                Obstacle::SingleStage => "A single stage has no coast, so there is nothing to size.",
                Obstacle::NoWater => "There is no water in the sustainer, so there is nothing to hold.",
                Obstacle::Falls => "The stack is falling before the release. Choose a shorter delay first.",
                Obstacle::NotSlowing => "The stack does not slow at burnout, so its water stays where it is.",
                Obstacle::DoesNotFly => "With the mass of the restrictor aboard this design does not fly.",
            }
            .to_owned(),
        ];
    }
    let mut reasons = Vec::new();
    if found.window.is_none() {
        reasons.push(no_window(case, found));
    }
    match found.pattern {
        Some(Err(NoPattern::TooNarrow { hole_m })) => reasons.push(format!(
            "No pattern: several holes would hold up to {:.1} mm only, too fine to drill and to keep open.",
            hole_m * 1e3
        )),
        Some(Err(NoPattern::TooFewFit { most, needed })) => reasons
            .push(format!("No pattern: the plate has room for {} that hold, and the gas needs {needed}.", holes(most))),
        Some(Err(NoPattern::NoFlight)) => reasons.push("No pattern: with one this design has no answer.".to_owned()),
        Some(Ok(_)) | None => {}
    }
    reasons
}

fn no_window(case: &Case, found: &Found) -> String {
    let least = highest_point(&found.points);
    let Some(best) = least else {
        return format!(
            "No bore has an answer: {} with a quarter of the nozzle's area leave no plate.",
            holes(case.plate.holes)
        );
    };
    let loss = 100.0 * (1.0 - best.height / case.ideal);
    let hold = case.widest_hole(case.plate.holes, case.plate.trusted_share);
    let standing = case.bare.sustainer.standing_height();
    let gap = case.plate.height_m - standing;
    let advice = if gap > 2e-3 {
        format!("The gap of {} mm between water and plate is the first thing to close", mm(gap * 1e3))
    } else if -gap > 2e-3 {
        format!("The {} mm of water on the plate are not held by it: set it to the water's surface", mm(-gap * 1e3))
    } else if case.plate.holes == 1 && best.place < 1.3 * hold {
        "What holds is too narrow for the gas: several smaller holes let more through".to_owned()
    } else {
        "Less drag on the stack, a shorter delay or several smaller holes bring one".to_owned()
    };
    format!(
        "No bore of {} costs less than {:.0} %: the least is {loss:.1} %, at {} mm. {advice}.",
        holes(case.plate.holes),
        100.0 * PLANNED_LOSS,
        mm(best.place * 1e3)
    )
}

/// The small tube in words: what each hole did there and would do here, which result carries over, and what would be a fair test.
pub(super) fn small_tube(
    case: &Case,
    tried: &[Tried; 2],
    fair: Option<&Fair>,
    plate: Option<&Restrictor>,
    bore_m: f64,
    slowing: f64,
) -> Vec<String> {
    let mut words: Vec<String> = tried.iter().map(|hole| tried_words(hole, bore_m, slowing)).collect();
    if case.deceleration <= 0.0 {
        words.push("Here nothing pulls the water away, so there is nothing to compare.".to_owned());
        return words;
    }
    for hole in tried {
        if let (Some(bond), Some(verdict)) = (hole.same_share_bond_over_limit, hole.same_share_verdict) {
            let carries = if verdict == hole.verdict { "that carries over" } else { "the test says nothing about it" };
            words.push(format!(
                "The same open share of {:.0} % in your vessel is a hole of {} mm at {:.2} g: {:.2} of the limit, it {}; {carries}. \
                 What does carry over is the hole, corrected for the slowing: {} mm here behaves like {} mm there.",
                100.0 * hole.open_share,
                mm(hole.same_share_mm),
                case.deceleration / GRAVITY,
                bond,
                does(verdict),
                mm(hole.same_behaviour_mm.unwrap_or(0.0)),
                mm(hole.hole_mm)
            ));
        }
    }
    if let (Some(fair), Some(plate)) = (fair, plate) {
        let room = if fair.fits { "" } else { ", which it has no room for" };
        words.push(format!(
            "A fair test of {} here needs a hole of {} mm in that tube at its own slowing{room}; a tube of {} mm bore would then be as open as your vessel. \
             Or the hole of {} mm at {:.1} g. It tells whether the hole holds, not how fast it leaks.",
            plate_of(plate),
            mm(fair.hole_mm),
            mm(fair.bore_mm),
            mm(tried[0].hole_mm),
            fair.slowing_g
        ));
    }
    words
}

fn does(verdict: &str) -> &'static str {
    match verdict {
        "holds" => "holds",
        "marginal" => "is marginal",
        _ => "leaks",
    }
}

fn tried_words(hole: &Tried, bore_m: f64, slowing: f64) -> String {
    if hole.open_share >= 1.0 {
        return format!("A hole of {} mm leaves no plate in a tube of {} mm.", mm(hole.hole_mm), mm(bore_m * 1e3));
    }
    format!(
        "In the small tube of {} mm at {:.2} g the hole of {} mm opens {:.0} % and stands at {:.2} of the limit: it {}.",
        mm(bore_m * 1e3),
        slowing / GRAVITY,
        mm(hole.hole_mm),
        100.0 * hole.open_share,
        hole.bond_over_limit,
        does(hole.verdict)
    )
}
