//! The release: from the moment the sustainer is let go to its apogee.

use super::aloft::{AloftWaterPhase, VentPhase, aloft_water_event, vent_event};
use super::coast::CoastState;
use super::pad::{self, Progress};
use super::plate::{Ground, Through};
use super::record::{Happening, Recorder};
use super::sustainer::{Sustainer, SustainerFlight};
use super::vehicle::Vehicle;
use crate::blowdown::BlowDown;
use crate::column::Landing;
use crate::error::{FlightError, Phase};
use crate::solver::{Cause, DormandPrince, Effort, Span, System, integrate};

/// Water that is not seated.
#[derive(Clone, Copy, Debug)]
pub(super) struct Parcel {
    pub(super) volume: f64,
    pub(super) height: f64,
    pub(super) speed: f64,
}

/// A released sustainer under way.
#[derive(Clone, Copy, Debug)]
pub(super) struct Body {
    pub(super) t: f64,
    pub(super) h: f64,
    pub(super) v: f64,
    pub(super) seated: f64,
    pub(super) jet: f64,
    pub(super) pressure: f64,
    pub(super) gas_kg: f64,
    pub(super) parcel: Option<Parcel>,
    pub(super) closing: f64,
    /// Where the parcel lands.
    pub(super) ground: Ground,
}

/// What ends a loss of gas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Shut {
    /// The returning parcel.
    Parcel,
    /// The parcel, or seated water that closes over the nozzle.
    Water,
    /// The gas below a plate is gone down to this mass, kg, or water has closed over the nozzle.
    Pocket { gas_above: f64 },
}

/// What happens next.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Next {
    Vent(Shut),
    Water,
    Gas,
    Dud,
    Stuck,
}

impl Sustainer {
    /// Flies from the release at a state of the coast to the apogee. `settled` holds the water down.
    pub fn fly(
        &self,
        state: &CoastState,
        settled: bool,
        effort: Effort,
        recorder: &mut dyn Recorder,
    ) -> Result<SustainerFlight, FlightError> {
        recorder.event(Happening::Release, state.t, state.h, state.v);
        let mut release =
            Release { sustainer: self, effort, recorder, body: self.body(state), dip: self.dip(state), mark: 0.0 };
        let depth = self.vessel.standing - state.finger;
        let free = if state.wetted { self.gas_at_nozzle(state) <= 0.0 } else { depth > release.dip };
        let covered = settled || self.vessel.standing <= 0.0 || free;
        release.mark = ((release.dip - depth) / (0.5 * self.vessel.bore_m)).min(1.0);
        let mut next = if covered { Next::Water } else { Next::Vent(Shut::Water) };
        if let Some(plate) = self.plate.as_ref().filter(|_| state.wetted) {
            next = release.behind_plate(plate, state, covered);
        }
        release.settle_touching();
        if let Some((tube, booster_kg, booster_drag)) = &self.tube {
            let closed = release.tube(tube, *booster_kg, *booster_drag)?;
            if closed {
                next = Next::Water;
            }
        }
        let flight = release.burn(next)?;
        Ok(SustainerFlight { covered, ..flight })
    }

    fn body(&self, state: &CoastState) -> Body {
        let lifted = state.lifted;
        Body {
            t: state.t,
            h: state.h,
            v: state.v,
            seated: self.filling.water - lifted,
            jet: 0.0,
            pressure: self.filling.pressure,
            gas_kg: self.filling.gas_kg,
            parcel: (lifted > 0.0).then_some(Parcel {
                volume: lifted,
                height: state.lifted_height,
                speed: state.lifted_speed,
            }),
            closing: 0.0,
            ground: Ground::Pool,
        }
    }
}

/// A release under way.
pub(super) struct Release<'a> {
    pub(super) sustainer: &'a Sustainer,
    pub(super) effort: Effort,
    pub(super) recorder: &'a mut dyn Recorder,
    pub(super) body: Body,
    /// Depth at which gas breaks through, m.
    pub(super) dip: f64,
    /// Closing progress at which the nozzle is covered again.
    pub(super) mark: f64,
}

impl Release<'_> {
    fn density(&self) -> f64 {
        self.sustainer.vehicle.column.density
    }

    /// Mass that moves with the vessel, kg.
    fn mass(&self) -> f64 {
        self.sustainer.vehicle.burden + self.body.gas_kg + self.density() * self.body.seated
    }

    /// Gas space, m3.
    pub(super) fn gas_volume(&self) -> f64 {
        let aloft = self.body.parcel.map_or(0.0, |parcel| parcel.volume);
        self.sustainer.vehicle.volume - self.body.seated - aloft
    }

    /// What flies, with everything but gas and parcel as its burden.
    pub(super) fn loaded(&self) -> Vehicle {
        let mut vehicle = self.sustainer.vehicle;
        vehicle.burden += self.density() * self.body.seated;
        vehicle
    }

    pub(super) fn tell(&mut self, what: Happening) {
        self.recorder.event(what, self.body.t, self.body.h, self.body.v);
    }

    /// A parcel that lies on the surface already is no parcel.
    fn settle_touching(&mut self) {
        if let Some(parcel) = self.body.parcel {
            let column = &self.sustainer.vehicle.column;
            let underside = parcel.height - 0.5 * parcel.volume / column.bore_area;
            if underside - self.body.ground.level(column, self.body.seated) <= 1e-9 {
                self.join();
            }
        }
    }

    /// The parcel comes back to the seated water: no rebound, momentum of everything kept.
    pub(super) fn join(&mut self) {
        let Some(parcel) = self.body.parcel.take() else {
            return;
        };
        let column = self.sustainer.vehicle.column;
        let landing = Landing {
            mass_kg: self.mass(),
            height_m: column.height(self.body.seated),
            speed: self.body.v,
            jet: self.body.jet,
            parcel_m3: parcel.volume,
            parcel_speed: self.body.v + parcel.speed,
        };
        (self.body.v, self.body.jet) = if self.body.jet > 0.0 {
            column.join(&landing)
        } else {
            // Nothing flows yet: the nozzle is closed or open to gas, and all bodies share one speed.
            let mass = column.density * parcel.volume;
            ((landing.mass_kg * landing.speed + mass * landing.parcel_speed) / (landing.mass_kg + mass), 0.0)
        };
        // On a plate the parcel stands above what was seated.
        self.body.ground = self.body.ground.with_below(self.body.seated);
        self.body.seated += parcel.volume;
        self.tell(Happening::WaterRejoined);
    }

    /// Gas leaves before the water.
    fn vent(&mut self, shut: Shut) -> Result<Next, FlightError> {
        let Sustainer { vehicle, vessel, .. } = self.sustainer;
        self.body.jet = 0.0;
        let air = vehicle.air.at(self.body.h);
        let mut pulse =
            BlowDown::start(self.body.pressure, self.body.gas_kg, self.gas_volume(), vehicle.gas_area(), &air);
        // Choked, then not; below a plate it goes on when the parcel has landed on that.
        for _ in 0..4 {
            let pocket = matches!(shut, Shut::Pocket { .. });
            let Some((part, state)) = pulse.filter(|_| pocket || self.body.parcel.is_some()) else {
                break;
            };
            let parcel = self.body.parcel;
            let surface = self.body.ground.level(&vehicle.column, self.body.seated);
            let (close_at, gas_above) = match shut {
                Shut::Parcel => (None, 0.0),
                Shut::Water => ((surface > self.dip).then_some(self.mark), 0.0),
                Shut::Pocket { gas_above } => (Some(self.mark), gas_above),
            };
            let phase = VentPhase {
                vehicle: self.loaded(),
                pulse: part,
                parcel: parcel.map_or(0.0, |parcel| parcel.volume),
                surface,
                bore_m: vessel.bore_m,
                close_at,
                gas_above,
            };
            let Body { t, h, v, closing, .. } = self.body;
            let span = Span { from: t, until: f64::INFINITY, first_step: 0.02 * part.time_scale() };
            let (height, fall) = parcel.map_or((0.0, 0.0), |parcel| (parcel.height, parcel.speed));
            let start = [h, v, state, height, fall, closing];
            let recorder = &mut *self.recorder;
            let stop = integrate(&phase, DormandPrince, start, span, self.effort, &mut |segment| {
                recorder.step(&segment.path());
                true
            })
            .map_err(FlightError::solver(Phase::Vent))?;
            let y = stop.y;
            let air = vehicle.air.at(y[0]);
            let gas = part.gas(y[2], &air);
            self.body = Body {
                t: stop.t,
                h: y[0],
                v: y[1],
                pressure: gas.pressure,
                gas_kg: gas.mass,
                parcel: parcel.map(|parcel| Parcel { height: y[3], speed: y[4], ..parcel }),
                closing: y[5],
                ..self.body
            };
            match stop.cause {
                Cause::Event(vent_event::PART_OVER) => pulse = part.choked().then(|| part.unchoked(y[2], &air)),
                Cause::Event(vent_event::JOINED) => {
                    self.join();
                    if !pocket {
                        return Ok(Next::Water);
                    }
                    pulse = Some((part, y[2]));
                }
                Cause::Event(vent_event::TOP) => return Ok(Next::Stuck),
                Cause::Event(vent_event::CLOSED | vent_event::POCKET_EMPTY) => {
                    self.tell(Happening::NozzleCovered);
                    return Ok(Next::Water);
                }
                _ => break,
            }
        }
        let all_gone = self.body.parcel.is_some() || matches!(shut, Shut::Pocket { .. });
        Ok(if all_gone { Next::Dud } else { Next::Water })
    }

    /// Water leaves while a parcel is aloft.
    fn aloft_water(&mut self) -> Result<Next, FlightError> {
        let Some(parcel) = self.body.parcel else {
            return Ok(Next::Water);
        };
        let vehicle = &self.sustainer.vehicle;
        let column = &vehicle.column;
        // Below a plate that has let down its gas, too little may be seated to begin with.
        if column.height(self.body.seated) <= self.dip {
            return Ok(Next::Vent(Shut::Parcel));
        }
        let below = self.body.ground.below();
        let on_plate = vehicle.holes.is_some() && self.body.seated > below;
        let phase = AloftWaterPhase {
            vehicle: *vehicle,
            gas_kg: self.body.gas_kg,
            parcel: parcel.volume,
            through: Through::of(vehicle.holes.as_ref(), on_plate, self.body.gas_kg, column.density),
            ground: self.body.ground,
            until: if on_plate { self.dip.max(column.height(below)) } else { self.dip },
        };
        let settling = pad::settling_time(vehicle, &self.progress(), &phase.through);
        let Body { t, h, v, seated, jet, pressure, .. } = self.body;
        let start = [h, v, seated, jet, pressure, parcel.height, parcel.speed];
        // As in `pad::water`: a jet that would start backwards has stopped already.
        if jet <= 0.0 && phase.rates(&start)[3] <= 0.0 {
            return Ok(Next::Stuck);
        }
        let steps = [settling, pad::SETTLED * settling];
        let stop = pad::settle_then_flow(&phase, start, t, steps, self.effort, self.recorder)?;
        let y = stop.y;
        let parcel = Some(Parcel { height: y[5], speed: y[6], ..parcel });
        self.body = Body { t: stop.t, h: y[0], v: y[1], seated: y[2], jet: y[3], pressure: y[4], parcel, ..self.body };
        match stop.cause {
            Cause::Event(aloft_water_event::JOINED) => {
                self.join();
                Ok(Next::Water)
            }
            Cause::Event(aloft_water_event::DIP) if phase.until > self.dip => {
                // None is left on the plate: from now on gas passes it, whatever the last digit of the water says.
                self.body.seated = self.body.seated.min(below);
                Ok(Next::Water)
            }
            Cause::Event(aloft_water_event::DIP) => {
                // The column comes to rest in its vessel, which takes over its momentum.
                let column = &self.sustainer.vehicle.column;
                let relative = column.density * column.nozzle_area * column.height(self.body.seated) * self.body.jet;
                self.body.v -= relative / self.mass();
                self.body.jet = 0.0;
                self.tell(Happening::NozzleUncovered);
                Ok(Next::Vent(Shut::Parcel))
            }
            _ => Ok(Next::Stuck),
        }
    }

    /// All that follows the release or the tube's exit.
    fn burn(&mut self, first: Next) -> Result<SustainerFlight, FlightError> {
        let mut next = first;
        let mut water_gone_t = None;
        // Vent, water, water below a plate, vent again, water, gas: no flight has more phases than this.
        for _ in 0..8 {
            // Falling already, perhaps because returning water struck: what follows would fly downwards.
            if self.body.v < 0.0 {
                next = Next::Stuck;
            }
            next = match next {
                Next::Vent(shut) => self.vent(shut)?,
                Next::Water if self.body.parcel.is_some() => self.aloft_water()?,
                Next::Water => {
                    let done = pad::water(
                        &self.sustainer.vehicle,
                        &self.progress(),
                        self.body.ground.below(),
                        self.effort,
                        self.recorder,
                    )?;
                    self.body = Body {
                        t: done.t,
                        h: done.h,
                        v: done.v,
                        seated: done.water,
                        pressure: done.pressure,
                        jet: 0.0,
                        ..self.body
                    };
                    if self.body.seated > 0.0 { Next::Stuck } else { Next::Gas }
                }
                Next::Gas | Next::Dud | Next::Stuck => break,
            };
        }
        let gas_lost = 1.0 - self.body.gas_kg / self.sustainer.filling.gas_kg;
        let had_water = self.sustainer.filling.water > 0.0;
        if next == Next::Gas {
            if had_water {
                self.tell(Happening::SustainerWaterGone);
            }
            water_gone_t = Some(self.body.t);
            let (done, _) =
                pad::gas_pulse(&self.sustainer.vehicle, &self.progress(), false, self.effort, self.recorder)?;
            self.body = Body { t: done.t, h: done.h, v: done.v, gas_kg: done.gas_kg, ..self.body };
            self.tell(Happening::SustainerBurnout);
        } else {
            if next == Next::Dud {
                self.tell(Happening::GasGone);
            }
            // Whatever is still aloft comes along.
            self.body.jet = 0.0;
            self.join();
        }
        let burnout = (self.body.t, self.body.v);
        let mut vehicle = self.loaded();
        vehicle.burden += self.body.gas_kg;
        let apogee = pad::ascent(&vehicle, (self.body.t, self.body.h, self.body.v), self.effort, self.recorder)?;
        self.recorder.event(Happening::Apogee, apogee.0, apogee.1, 0.0);
        Ok(SustainerFlight {
            covered: true,
            gas_lost,
            water_gone_t,
            burnout,
            water_left: self.body.seated,
            dud: next == Next::Dud,
            apogee,
        })
    }

    fn progress(&self) -> Progress {
        let Body { t, h, v, pressure, gas_kg, seated, jet, .. } = self.body;
        Progress { t, h, v, pressure, gas_kg, water: seated, jet }
    }
}
