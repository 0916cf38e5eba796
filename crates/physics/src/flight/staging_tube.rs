//! Along the launch tube between the stages: the release that costs no water.

use super::aloft::{StagingTubePhase, staging_tube_event};
use super::record::Happening;
use super::release::{Body, Parcel, Release};
use crate::error::{FlightError, Phase};
use crate::rocket::LaunchTube;
use crate::solver::{Cause, DormandPrince, Span, integrate};

impl Release<'_> {
    /// Along the staging tube. True if the nozzle is covered at its end.
    pub(super) fn tube(
        &mut self,
        tube: &LaunchTube,
        booster_kg: f64,
        booster_drag_area: f64,
    ) -> Result<bool, FlightError> {
        let area = self.sustainer.vehicle.column.bore_area;
        let inside = tube.inner_area() * tube.length_m;
        let gas_volume = self.gas_volume() - (tube.outer_area() * tube.length_m - inside);
        let mut travel = 0.0;
        let mut apart = 0.0;
        for _ in 0..4 {
            let mut vehicle = self.loaded();
            vehicle.burden += self.body.gas_kg;
            let parcel = self.body.parcel;
            let phase = StagingTubePhase {
                vehicle,
                booster_kg,
                booster_drag_area,
                tube_area: tube.outer_area(),
                length: tube.length_m,
                gas_volume,
                parcel: parcel.map_or(0.0, |p| p.volume),
                surface: self.body.seated / area,
                bore_m: self.sustainer.vessel.bore_m,
            };
            let Body { h, v, pressure, closing, .. } = self.body;
            let (height, fall) = parcel.map_or((0.0, 0.0), |p| (p.height, p.speed));
            let start = [h, v, travel, apart, pressure, height, fall, closing];
            let span = Span { from: self.body.t, until: f64::INFINITY, first_step: 1e-3 };
            let recorder = &mut *self.recorder;
            let stop = integrate(&phase, DormandPrince, start, span, self.effort, &mut |segment| {
                recorder.step(&segment.path());
                true
            })
            .map_err(FlightError::solver(Phase::StagingTube))?;
            let y = stop.y;
            (travel, apart) = (y[2], y[3]);
            let parcel = parcel.map(|p| Parcel { height: y[5], speed: y[6], ..p });
            self.body = Body { t: stop.t, h: y[0], v: y[1], pressure: y[4], closing: y[7], parcel, ..self.body };
            match stop.cause {
                Cause::Event(staging_tube_event::JOINED) => {
                    let before = self.body.v;
                    self.join();
                    apart += self.body.v - before;
                }
                Cause::Event(staging_tube_event::EXIT) => {
                    let volume = gas_volume + tube.outer_area() * tube.length_m;
                    self.body.gas_kg *= 1.0 - inside / volume;
                    self.tell(Happening::StagingTubeExit);
                    let can_close = self.body.seated / area > self.dip;
                    return Ok(self.body.parcel.is_none() || (can_close && self.body.closing >= self.mark));
                }
                _ => break,
            }
        }
        Err(FlightError::StallsOnTube { staging: true, travel_m: travel })
    }
}
