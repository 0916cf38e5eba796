//! What a rocket must satisfy before it is flown: contradictions between inputs, named.

use crate::error::{Refusal, StageName};
use crate::rocket::{LaunchTube, Restrictor, Rocket, Stage};

/// Everything that contradicts in a rocket; empty when it can be flown.
#[must_use]
pub fn refusals(rocket: &Rocket) -> Vec<Refusal> {
    let mut found = Vec::new();
    let (on_pad, name) = match &rocket.booster {
        Some(booster) => (booster, StageName::Booster),
        None => (&rocket.sustainer, StageName::Sustainer),
    };
    if let Some(booster) = &rocket.booster {
        check_stage(booster, StageName::Booster, 0.0, &mut found);
    }
    let taken = rocket.staging_tube.map_or(0.0, |tube| tube.length_m * (tube.outer_area() - tube.inner_area()));
    check_stage(&rocket.sustainer, StageName::Sustainer, taken, &mut found);
    if let Some(tube) = &rocket.pad_tube {
        check_tube(tube, on_pad, false, &mut found);
        // The pad tube's gas counts as ullage, but its volume must exist: water and tube share the vessel.
        let room = on_pad.volume_m3 - on_pad.sets_f64() * tube.length_m * tube.outer_area();
        if on_pad.water_m3 >= room {
            found.push(Refusal::NoRoomForGas { stage: name, water_m3: on_pad.water_m3, room_m3: room });
        }
    }
    if let Some(tube) = &rocket.staging_tube {
        check_tube(tube, &rocket.sustainer, true, &mut found);
    }
    if let Some(plate) = &rocket.restrictor {
        check_plate(plate, &rocket.sustainer, &mut found);
        if rocket.staging_tube.is_some() {
            found.push(Refusal::PlateAndStagingTube);
        }
    }
    found
}

fn check_stage(stage: &Stage, name: StageName, taken_m3: f64, found: &mut Vec<Refusal>) {
    if stage.nozzle_m >= stage.bore_m {
        found.push(Refusal::NozzleWiderThanBore { stage: name, nozzle_m: stage.nozzle_m, bore_m: stage.bore_m });
    }
    // A share of a percent must stay: with less, pressure follows every drop and no answer means anything.
    let room = stage.volume_m3 * 0.995 - taken_m3;
    if stage.water_m3 >= room {
        found.push(Refusal::NoRoomForGas { stage: name, water_m3: stage.water_m3, room_m3: room });
    }
}

fn check_tube(tube: &LaunchTube, stage: &Stage, staging: bool, found: &mut Vec<Refusal>) {
    if tube.outer_m > stage.nozzle_m {
        found.push(Refusal::TubeWiderThanNozzle { staging, outer_m: tube.outer_m, nozzle_m: stage.nozzle_m });
    }
    if tube.length_m > stage.vessel_length() {
        found.push(Refusal::TubeLongerThanVessel { staging, length_m: tube.length_m, vessel_m: stage.vessel_length() });
    }
    if 2.0 * tube.wall_m >= tube.outer_m {
        found.push(Refusal::TubeWallTooThick { outer_m: tube.outer_m, wall_m: tube.wall_m });
    }
}

fn check_plate(plate: &Restrictor, stage: &Stage, found: &mut Vec<Refusal>) {
    let open = f64::from(plate.holes) * plate.hole_m * plate.hole_m;
    if open >= stage.bore_m * stage.bore_m {
        found.push(Refusal::HolesLeaveNoPlate { hole_m: plate.hole_m, holes: plate.holes, bore_m: stage.bore_m });
    }
    if plate.height_m > stage.vessel_length() {
        found.push(Refusal::PlateAboveVessel { height_m: plate.height_m, vessel_m: stage.vessel_length() });
    }
}
