//! A design: what was answered to every input, and the rocket it describes.

use holdwater_physics::rocket::{LaunchTube, Restrictor, Rocket, Site, Stage};

use crate::check::{Complaint, check_value};
use crate::parts::{LogEntry, MOST_PARTS, VesselPart, cleaned};
use crate::rows::Input;
use crate::text::disturbs;

/// Most characters in the name of a design.
pub const NAME_LIMIT: usize = 60;

/// The answers to all inputs, in the units of the link, a name, the parts that hold the pressure, and a log of such parts.
///
/// Every value is within the range of its row at all times: [`Design::set`] lets nothing else in. That is
/// why neither the link nor the rocket made from a design can fail.
#[derive(Clone, Debug, PartialEq)]
pub struct Design {
    name: String,
    values: [Option<f64>; Input::COUNT],
    parts: Vec<VesselPart>,
    log: Vec<LogEntry>,
}

impl Default for Design {
    fn default() -> Self {
        Self {
            name: String::new(),
            values: Input::ALL.map(|input| input.row().default()),
            parts: Vec::new(),
            log: Vec::new(),
        }
    }
}

impl Design {
    /// The name of the design; empty when it has none.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Names the design. Characters that would break or reorder a line are dropped, and what is
    /// longer than [`NAME_LIMIT`] characters is cut; the answer tells whether the name was taken unchanged.
    pub fn set_name(&mut self, name: &str) -> bool {
        self.name = name.chars().filter(|c| !disturbs(*c)).take(NAME_LIMIT).collect();
        self.name == name
    }

    /// The value of an input in the unit of the link; `None` when an optional one is left out.
    #[must_use]
    pub fn get(&self, input: Input) -> Option<f64> {
        self.values[input as usize]
    }

    /// The value of an input in the unit of the link.
    ///
    /// For an optional input that is left out this is the least allowed value, since there is no other
    /// number to name: ask [`Design::get`] for those.
    #[must_use]
    pub fn number(&self, input: Input) -> f64 {
        self.get(input).unwrap_or(input.row().min)
    }

    /// Sets an input to a value in the unit of the link, or leaves an optional one out.
    ///
    /// # Errors
    ///
    /// A [`Complaint`] when the value is not allowed; the design then stays as it was.
    pub fn set(&mut self, input: Input, value: Option<f64>) -> Result<(), Complaint> {
        match check_value(input, value) {
            Ok(value) => {
                self.values[input as usize] = value;
                Ok(())
            }
            Err(problem) => {
                let given = value.map(|number| number.to_string()).unwrap_or_default();
                Err(Complaint { input, given, problem, used: self.get(input) })
            }
        }
    }

    /// Sets an input back to its default.
    pub fn reset(&mut self, input: Input) {
        self.values[input as usize] = input.row().default();
    }

    /// Whether an input has its default value.
    #[must_use]
    pub fn is_default(&self, input: Input) -> bool {
        self.get(input) == input.row().default()
    }

    /// The inputs that differ from their defaults, in the order of the table.
    pub fn changed(&self) -> impl Iterator<Item = Input> {
        Input::ALL.into_iter().filter(|input| !self.is_default(*input))
    }

    /// The parts that hold the pressure; the link numbers them from 1.
    #[must_use]
    pub fn parts(&self) -> &[VesselPart] {
        &self.parts
    }

    /// Replaces all parts. Those beyond [`MOST_PARTS`] are left out; the answer tells how many.
    pub fn set_parts(&mut self, parts: impl IntoIterator<Item = VesselPart>) -> usize {
        let mut parts = parts.into_iter();
        self.parts = parts.by_ref().take(MOST_PARTS).collect();
        parts.count()
    }

    /// A part by its place in the list, to be changed.
    pub fn part_mut(&mut self, place: usize) -> Option<&mut VesselPart> {
        self.parts.get_mut(place)
    }

    /// The log of like parts.
    #[must_use]
    pub fn log(&self) -> &[LogEntry] {
        &self.log
    }

    /// Replaces the log. Names lose what separates fields; rows beyond what a link holds and rows whose cycles are no number of
    /// fills are left out, and the answer tells how many.
    pub fn set_log(&mut self, entries: &[LogEntry]) -> usize {
        let taken = cleaned(entries);
        self.log = taken.entries;
        taken.left_out
    }

    /// The rocket this design describes, in SI units.
    ///
    /// With one stage there is no booster and no tube between the stages, whatever was entered for
    /// them; the tube on the pad then drives the sustainer.
    #[must_use]
    pub fn rocket(&self) -> Rocket {
        let two_stages = self.number(Input::Stages) > 1.5;
        Rocket {
            site: self.site(),
            booster: two_stages.then(|| self.booster()),
            sustainer: self.sustainer(),
            pad_tube: self.pad_tube(),
            staging_tube: self.staging_tube().filter(|_| two_stages),
            restrictor: self.restrictor(),
            delay_s: self.si(Input::Delay),
            disturbance_m: self.si(Input::Disturbance),
        }
    }

    pub(crate) fn si(&self, input: Input) -> f64 {
        input.row().unit.to_si(self.number(input))
    }

    fn optional_si(&self, input: Input) -> Option<f64> {
        self.get(input).map(|value| input.row().unit.to_si(value))
    }

    /// A whole number of things; counts are checked to be whole and small, so nothing is cut off here.
    fn count(&self, input: Input) -> u32 {
        self.number(input) as u32
    }

    fn site(&self) -> Site {
        Site {
            elevation_m: self.si(Input::SiteElevation),
            air_temperature_k: self.si(Input::AirTemperature),
            water_temperature_k: self.si(Input::WaterTemperature),
            surface_tension_n_m: self.optional_si(Input::SurfaceTension),
            expansion_exponent: self.si(Input::ExpansionExponent),
        }
    }

    fn booster(&self) -> Stage {
        Stage {
            volume_m3: self.si(Input::BoosterVolume),
            bore_m: self.si(Input::BoosterBore),
            nozzle_m: self.si(Input::BoosterNozzle),
            sets: self.count(Input::BoosterCount),
            discharge: self.si(Input::BoosterDischarge),
            water_m3: self.si(Input::BoosterWater),
            fill_gauge_pa: self.si(Input::BoosterFill),
            dry_kg: self.si(Input::BoosterDry),
            drag_coefficient: self.si(Input::BoosterDrag),
            reference_m: self.si(Input::BoosterDiameter),
        }
    }

    fn sustainer(&self) -> Stage {
        Stage {
            volume_m3: self.si(Input::SustainerVolume),
            bore_m: self.si(Input::SustainerBore),
            nozzle_m: self.si(Input::SustainerNozzle),
            sets: 1,
            discharge: self.si(Input::SustainerDischarge),
            water_m3: self.si(Input::SustainerWater),
            fill_gauge_pa: self.si(Input::SustainerFill),
            dry_kg: self.si(Input::SustainerDry),
            drag_coefficient: self.si(Input::SustainerDrag),
            reference_m: self.si(Input::SustainerDiameter),
        }
    }

    fn pad_tube(&self) -> Option<LaunchTube> {
        // The pad tube stays on the ground and is filled through, so its wall and mass play no part.
        let tube =
            LaunchTube { length_m: self.si(Input::PadTubeLength), outer_m: self.si(Input::PadTubeOuter), wall_m: 0.0 };
        Some(tube).filter(|tube| tube.length_m > 0.0)
    }

    fn staging_tube(&self) -> Option<LaunchTube> {
        let tube = LaunchTube {
            length_m: self.si(Input::StagingTubeLength),
            outer_m: self.si(Input::StagingTubeOuter),
            wall_m: self.si(Input::StagingTubeWall),
        };
        Some(tube).filter(|tube| tube.length_m > 0.0)
    }

    fn restrictor(&self) -> Option<Restrictor> {
        let restrictor = Restrictor {
            hole_m: self.si(Input::RestrictorBore),
            holes: self.count(Input::RestrictorHoles),
            height_m: self.si(Input::RestrictorHeight),
            discharge: self.optional_si(Input::RestrictorDischarge),
            trusted_share: self.si(Input::RestrictorShare),
            mass_kg: self.si(Input::RestrictorMass),
        };
        Some(restrictor).filter(|restrictor| restrictor.hole_m > 0.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::Problem;

    fn with(values: &[(Input, f64)]) -> Design {
        let mut design = Design::default();
        for (input, value) in values {
            assert_eq!(design.set(*input, Some(*value)), Ok(()));
        }
        design
    }

    #[test]
    fn the_default_design_has_changed_nothing() {
        assert_eq!(Design::default().changed().count(), 0);
        assert_eq!(Design::default().name(), "");
    }

    #[test]
    fn a_changed_input_is_listed_until_it_is_reset() {
        let mut design = with(&[(Input::Delay, 0.4), (Input::BoosterVolume, 8.0)]);
        assert_eq!(design.changed().collect::<Vec<_>>(), [Input::BoosterVolume, Input::Delay]);
        design.reset(Input::Delay);
        assert_eq!(design.changed().collect::<Vec<_>>(), [Input::BoosterVolume]);
    }

    #[test]
    fn a_value_that_is_not_allowed_changes_nothing() {
        let mut design = with(&[(Input::Delay, 0.4)]);
        for value in [Some(f64::NAN), Some(-1.0), Some(f64::INFINITY), None] {
            let complaint = design.set(Input::Delay, value).err();
            assert_eq!(complaint.map(|c| c.used), Some(Some(0.4)));
        }
        let problem = design.set(Input::RestrictorHoles, Some(2.5)).err().map(|c| c.problem);
        assert_eq!(problem, Some(Problem::NotWhole));
        assert_eq!(design, with(&[(Input::Delay, 0.4)]));
    }

    #[test]
    fn the_default_design_becomes_a_rocket_in_si_units() {
        let rocket = Design::default().rocket();
        assert_eq!(rocket.site.air_temperature_k.to_bits(), (18.0_f64 + 273.15).to_bits());
        assert_eq!(rocket.site.surface_tension_n_m, None);
        assert_eq!(rocket.booster.map(|stage| stage.volume_m3), Some(0.0075));
        assert_eq!(rocket.booster.map(|stage| stage.fill_gauge_pa), Some(1e6));
        assert_eq!(rocket.sustainer.nozzle_m.to_bits(), 0.009_f64.to_bits());
        assert_eq!(rocket.sustainer.sets, 1);
        assert_eq!((rocket.pad_tube, rocket.staging_tube, rocket.restrictor), (None, None, None));
        assert_eq!(rocket.disturbance_m.to_bits(), 0.001_f64.to_bits());
    }

    #[test]
    fn a_single_stage_keeps_the_pad_tube_and_the_restrictor_but_no_staging_tube() {
        let rocket = with(&[
            (Input::Stages, 1.0),
            (Input::PadTubeLength, 250.0),
            (Input::StagingTubeLength, 200.0),
            (Input::RestrictorBore, 20.0),
        ])
        .rocket();
        assert_eq!((rocket.booster, rocket.staging_tube), (None, None));
        assert_eq!(rocket.pad_tube, Some(LaunchTube { length_m: 0.25, outer_m: 0.0205, wall_m: 0.0 }));
        assert_eq!(rocket.restrictor.map(|restrictor| restrictor.mass_kg), Some(0.012));
    }

    #[test]
    fn given_tubes_and_tension_reach_the_rocket() {
        let rocket = with(&[(Input::StagingTubeLength, 200.0), (Input::SurfaceTension, 30.0)]).rocket();
        assert_eq!(rocket.staging_tube, Some(LaunchTube { length_m: 0.2, outer_m: 0.0085, wall_m: 0.001 }));
        assert_eq!(rocket.site.surface_tension_n_m, Some(0.03));
    }

    #[test]
    fn a_name_is_cut_by_characters_and_loses_what_breaks_a_line() {
        let mut design = Design::default();
        assert!(design.set_name("Möwe 🚀"));
        assert!(!design.set_name(&"ü".repeat(61)));
        assert_eq!(design.name(), "ü".repeat(60));
        assert!(!design.set_name("a\nb\u{0}c"));
        assert_eq!(design.name(), "abc");
    }
}
