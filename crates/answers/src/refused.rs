//! Why a design has no answer, in words, with the keys of the inputs that matter.

use holdwater_physics::error::{FlightError, Phase, Refusal, StageName};
use holdwater_physics::solver::SolverError;

use crate::digits::trimmed;

/// Why a design cannot be flown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refused {
    /// Keys of the inputs that contradict one another, for marking the fields.
    pub keys: Vec<&'static str>,
    /// What is wrong, with the numbers, and what is allowed.
    pub message: String,
}

impl Refused {
    fn new(keys: &[&'static str], message: String) -> Self {
        Self { keys: keys.to_vec(), message }
    }
}

/// The words for an error.
pub(crate) fn explain(error: &FlightError) -> Vec<Refused> {
    match error {
        FlightError::Refused(refusals) => refusals.iter().map(explain_refusal).collect(),
        FlightError::StaysOnPad { thrust_n, weight_n } => vec![Refused::new(
            &["b.fill", "s.fill", "b.water", "s.water"],
            format!(
                "The rocket stays on the pad: its thrust of {thrust_n:.1} N never exceeds its weight of {weight_n:.1} N. \
                 More pressure, a wider nozzle or less water lifts it."
            ),
        )],
        FlightError::StallsOnTube { staging, travel_m } => vec![Refused::new(
            if *staging { &["s.tube", "s.tubeod", "s.fill"] } else { &["b.tube", "b.tubeod", "b.fill"] },
            format!(
                "The {} stops on its launch tube after {:.0} mm. A shorter or wider tube or more pressure is needed.",
                if *staging { "sustainer" } else { "rocket" },
                travel_m * 1e3
            ),
        )],
        FlightError::FallsUnderThrust { t_s, height_m } => vec![Refused::new(
            &["b.fill", "b.water", "b.nozzle", "b.dry"],
            format!(
                "The stack stops climbing at {height_m:.1} m after {t_s:.2} s, while its booster still pushes: too little thrust for its weight. \
                 More pressure, less water or a wider nozzle lifts it."
            ),
        )],
        FlightError::StackHasFallen { top_after_burnout_s, height_m } => vec![Refused::new(
            &["delay"],
            format!(
                "The stack reaches its own top of {height_m:.0} m {top_after_burnout_s:.2} s after burnout, before the release."
            ),
        )],
        FlightError::NoCoast => vec![Refused::new(
            &[],
            "The coast with the water held down could not be computed. Please report this link.".to_owned(),
        )],
        FlightError::Solver { phase, error } => vec![Refused::new(
            &[],
            format!(
                "The {} could not be computed: {}. Please report this link.",
                phase_in_words(*phase),
                match error {
                    SolverError::StepTooSmall { t } => format!("the step became too small at {t:.4} s"),
                    SolverError::TooManySteps { t } => format!("the bound on steps was reached at {t:.4} s"),
                    SolverError::BadStart { t } => format!("its start at {t:.4} s makes no sense"),
                }
            ),
        )],
    }
}

fn phase_in_words(phase: Phase) -> &'static str {
    match phase {
        Phase::PadTube => "run along the pad launch tube",
        Phase::Water => "water phase",
        Phase::Gas => "gas pulse",
        Phase::Coast => "coast",
        Phase::StagingTube => "run along the staging tube",
        Phase::Vent => "loss of gas after the release",
        Phase::Ascent => "ascent",
    }
}

fn explain_refusal(refusal: &Refusal) -> Refused {
    let pick = |stage: &StageName, booster: [&'static str; 2], sustainer: [&'static str; 2]| match stage {
        StageName::Booster => ("booster", booster),
        StageName::Sustainer => ("sustainer", sustainer),
    };
    match refusal {
        Refusal::NozzleWiderThanBore { stage, nozzle_m, bore_m } => {
            let (name, keys) = pick(stage, ["b.nozzle", "b.bore"], ["s.nozzle", "s.bore"]);
            Refused::new(
                &keys,
                format!(
                    "The {name}'s nozzle of {} mm is not narrower than its bore of {} mm.",
                    mm(*nozzle_m),
                    mm(*bore_m)
                ),
            )
        }
        Refusal::NoRoomForGas { stage, water_m3, room_m3 } => {
            let (name, keys) = pick(stage, ["b.water", "b.vol"], ["s.water", "s.vol"]);
            Refused::new(
                &keys,
                format!(
                    "The {name} has {} L of water and leaves no room for gas: less than {} L is needed.",
                    litres(*water_m3),
                    litres(room_m3.max(0.0))
                ),
            )
        }
        Refusal::TubeWiderThanNozzle { staging, outer_m, nozzle_m } => Refused::new(
            if *staging { &["s.tubeod", "s.nozzle"] } else { &["b.tubeod", "b.nozzle", "s.nozzle"] },
            format!(
                "The {} launch tube of {} mm does not pass the nozzle of {} mm.",
                if *staging { "staging" } else { "pad" },
                mm(*outer_m),
                mm(*nozzle_m)
            ),
        ),
        Refusal::TubeLongerThanVessel { staging, length_m, vessel_m } => Refused::new(
            if *staging { &["s.tube", "s.vol", "s.bore"] } else { &["b.tube", "b.vol", "b.bore"] },
            format!(
                "The {} launch tube of {} mm is longer than its vessel of {} mm (volume over cross-section).",
                if *staging { "staging" } else { "pad" },
                mm(*length_m),
                mm(*vessel_m)
            ),
        ),
        Refusal::TubeWallTooThick { outer_m, wall_m } => Refused::new(
            &["s.tubewall", "s.tubeod"],
            format!("A wall of {} mm leaves no bore in a launch tube of {} mm.", mm(*wall_m), mm(*outer_m)),
        ),
        Refusal::HolesLeaveNoPlate { hole_m, holes, bore_m } => Refused::new(
            &["r.bore", "r.holes", "s.bore"],
            format!(
                "{holes} {} of {} mm leave no plate in a bore of {} mm.",
                if *holes == 1 { "hole" } else { "holes" },
                mm(*hole_m),
                mm(*bore_m)
            ),
        ),
        Refusal::PlateAndStagingTube => Refused::new(
            &["r.bore", "s.tube"],
            "A restrictor and a launch tube between the stages do not go together: the tube stands where the plate is. \
             Set the hole bore or the length of the tube to 0."
                .to_owned(),
        ),
        Refusal::PlateAboveVessel { height_m, vessel_m } => Refused::new(
            &["r.height", "s.vol", "s.bore"],
            format!(
                "The restrictor at {} mm stands above its vessel, which ends at {} mm.",
                mm(*height_m),
                mm(*vessel_m)
            ),
        ),
    }
}

/// A length in mm with no more digits than it has: one decimal.
fn mm(length_m: f64) -> String {
    trimmed(length_m * 1e3, 1)
}

fn litres(volume_m3: f64) -> String {
    trimmed(volume_m3 * 1e3, 3)
}
