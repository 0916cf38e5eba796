//! Why a rocket cannot be flown: answers with numbers, never a panic.

use crate::solver::SolverError;

/// Which stage a refusal speaks of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StageName {
    /// The booster.
    Booster,
    /// The sustainer.
    Sustainer,
}

/// Inputs that contradict one another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Refusal {
    /// The nozzle is not narrower than its bore.
    NozzleWiderThanBore {
        /// Which stage.
        stage: StageName,
        /// Nozzle throat, m.
        nozzle_m: f64,
        /// Bore, m.
        bore_m: f64,
    },
    /// Water (and tube) leave no room for gas.
    NoRoomForGas {
        /// Which stage.
        stage: StageName,
        /// Water, m3.
        water_m3: f64,
        /// Internal volume less what a launch tube takes, m3.
        room_m3: f64,
    },
    /// A launch tube does not pass its nozzle.
    TubeWiderThanNozzle {
        /// Whether the tube stands on the booster (or on the pad).
        staging: bool,
        /// Outer diameter, m.
        outer_m: f64,
        /// Nozzle throat, m.
        nozzle_m: f64,
    },
    /// A launch tube is longer than its vessel.
    TubeLongerThanVessel {
        /// Whether the tube stands on the booster (or on the pad).
        staging: bool,
        /// Engaged length, m.
        length_m: f64,
        /// Vessel length, m.
        vessel_m: f64,
    },
    /// A launch tube's wall leaves no bore.
    TubeWallTooThick {
        /// Outer diameter, m.
        outer_m: f64,
        /// Wall, m.
        wall_m: f64,
    },
    /// The holes leave no plate.
    HolesLeaveNoPlate {
        /// Hole diameter, m.
        hole_m: f64,
        /// Number of holes.
        holes: u32,
        /// Bore, m.
        bore_m: f64,
    },
    /// A plate and a staging tube share one vessel: the tube would have to pass the plate.
    PlateAndStagingTube,
    /// The plate stands above its vessel.
    PlateAboveVessel {
        /// Height of the plate, m.
        height_m: f64,
        /// Vessel length, m.
        vessel_m: f64,
    },
}

/// Part of a flight, for messages.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Phase {
    /// On the pad launch tube.
    PadTube,
    /// Water leaves.
    Water,
    /// Gas leaves.
    Gas,
    /// The stack coasts.
    Coast,
    /// On the staging tube.
    StagingTube,
    /// Gas leaves before the water.
    Vent,
    /// Up to the apogee.
    Ascent,
}

/// Why a flight has no answer.
#[derive(Clone, Debug, PartialEq)]
pub enum FlightError {
    /// Inputs contradict one another.
    Refused(Vec<Refusal>),
    /// The thrust never exceeds the weight.
    StaysOnPad {
        /// Greatest thrust, N.
        thrust_n: f64,
        /// Weight at that moment, N.
        weight_n: f64,
    },
    /// The rocket, or the sustainer, stops on its launch tube.
    StallsOnTube {
        /// Whether it is the staging tube.
        staging: bool,
        /// Travel reached, m.
        travel_m: f64,
    },
    /// The stack stops climbing while its booster still pushes.
    FallsUnderThrust {
        /// Time of the top, s.
        t_s: f64,
        /// Height of the top, m.
        height_m: f64,
    },
    /// The release lies beyond the top of the stack's own flight.
    StackHasFallen {
        /// Time of the top after the end of thrust, s.
        top_after_burnout_s: f64,
        /// Height of the top, m.
        height_m: f64,
    },
    /// The coast with the water held down could not be flown, although the one with free water could.
    NoCoast,
    /// The equations could not be integrated.
    Solver {
        /// In which phase.
        phase: Phase,
        /// What happened.
        error: SolverError,
    },
}

impl FlightError {
    /// Attaches the phase to a solver's complaint.
    pub(crate) fn solver(phase: Phase) -> impl Fn(SolverError) -> Self {
        move |error| Self::Solver { phase, error }
    }
}
