//! The coast: the stack slows, and the sustainer's water does what it does.
//!
//! A [`Coast`] is flown once, from the moment drag exceeds the booster's dying thrust, and then asked for the state at any
//! delay: the answer is one step of the method from the last step before that delay, so that every delay sees the
//! same trajectory with full accuracy.

use super::drift::{Drift, FINGER_AT_NOZZLE, Lifted, PART_OVER, Pulse, RIPPLE_OVER, State, TOP, Vessel, WATER_AT_NOSE};
use super::pad::Progress;
use super::record::{Happening, Recorder};
use super::vehicle::Vehicle;
use crate::blowdown::BlowDown;
use crate::bubble::Tube;
use crate::error::{FlightError, Phase};
use crate::interface::FIRST_MODE;
use crate::real::{ln, tanh};
use crate::solver::{Cause, DormandPrince, Effort, Method, Segment, Span, System, integrate};

/// The stack and its water at one moment of the coast.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoastState {
    /// Time, s.
    pub t: f64,
    /// Height over the site, m.
    pub h: f64,
    /// Speed, m/s.
    pub v: f64,
    /// Proper deceleration, m/s2.
    pub deceleration: f64,
    /// Depth of the gas finger, m.
    pub finger: f64,
    /// Lifted water, m3.
    pub lifted: f64,
    /// Height of its centroid over the nozzle end, m.
    pub lifted_height: f64,
    /// Its speed relative to the vessel, m/s, up positive.
    pub lifted_speed: f64,
    /// Whether it lies at the nose.
    pub at_nose: bool,
}

/// One step of the coast and the equations it was taken with.
#[derive(Clone, Copy, Debug)]
struct Piece {
    drift: u32,
    segment: Segment<6>,
}

impl Piece {
    /// The state a while after the start of the step: by a step of the method itself, so that it is as accurate as any other.
    fn state_after(&self, drift: &Drift, ahead: f64) -> State {
        <DormandPrince as Method<Drift, 6, 5>>::attempt(drift, &self.segment.y0, &self.segment.f0, ahead).y
    }
}

/// A coast, flown as far as it was asked for.
#[derive(Clone, Debug)]
pub struct Coast {
    drifts: Vec<Drift>,
    pieces: Vec<Piece>,
    /// End of the booster's thrust: time, height, speed.
    pub burnout: (f64, f64, f64),
    /// Top of the stack's own flight (time, height), if the coast was flown that far.
    pub top: Option<(f64, f64)>,
    /// Mass of the booster's gas after its pulse, kg.
    pub booster_gas_kg: f64,
    /// Time at which the lifted water reached the nose, if it did, with height and speed.
    pub at_nose: Option<(f64, f64, f64)>,
}

/// From where and how a coast is flown.
#[derive(Clone, Copy, Debug)]
pub struct CoastPlan {
    /// The stack on its booster; the burden holds all but the booster's gas.
    pub stack: Vehicle,
    /// The vessel whose water is followed.
    pub vessel: Vessel,
    /// Ripple left on the water, m.
    pub disturbance: f64,
    /// Whether the water is held down.
    pub settled: bool,
    /// Whether the booster still gives off gas.
    pub gas_flows: bool,
    /// How long after the end of thrust to fly, s.
    pub horizon: f64,
}

impl CoastPlan {
    /// The booster's blow-down from a moment on; `None` when its pulse is over.
    fn blow_down(&self, start: &Progress) -> Option<(BlowDown, f64)> {
        let air = self.stack.air.at(start.h);
        BlowDown::start(start.pressure, start.gas_kg, self.stack.volume, self.stack.gas_area(), &air)
    }
}

impl Coast {
    /// Flies a coast from where drag exceeds thrust.
    pub fn fly(plan: &CoastPlan, start: &Progress, effort: Effort) -> Result<Self, FlightError> {
        let wave = FIRST_MODE / (0.5 * plan.vessel.bore_m);
        let has_water = plan.vessel.standing > 0.0 && !plan.settled;
        let finger = plan.disturbance.min(plan.vessel.standing);
        let ripple = has_water && finger > 0.0 && finger < plan.vessel.standing;
        let pulse = if plan.gas_flows { plan.blow_down(start) } else { None };
        let mut drift = Drift {
            stack: plan.stack,
            vessel: plan.vessel,
            pulse: pulse.map_or(Pulse::Over(start.gas_kg), |(part, _)| Pulse::Flows(part)),
            lifted: if has_water { Lifted::Aloft } else { Lifted::Never },
            finger_done: finger >= plan.vessel.standing,
            ripple,
            first_depth: finger,
            wave,
            depth_factor: tanh(wave * plan.vessel.standing),
            tube: Tube::new(plan.vessel.bore_m, &plan.vessel.water),
        };
        let state = pulse.map_or(0.0, |(_, state)| state);
        let mut y: State = [start.h, start.v, state, if ripple { ln(finger) } else { finger }, 0.0, 0.0];
        let mut t = start.t;
        let mut coast = Self {
            drifts: Vec::with_capacity(6),
            pieces: Vec::with_capacity(48),
            burnout: (t, start.h, start.v),
            top: (start.v <= 0.0).then_some((t, start.h)),
            booster_gas_kg: start.gas_kg,
            at_nose: None,
        };
        // Each event happens once: unchoked, over, ripple, finger, nose, top.
        for _ in 0..12 {
            let flows = matches!(drift.pulse, Pulse::Flows(_));
            let enough = if flows { f64::INFINITY } else { coast.burnout.0 + plan.horizon };
            if t > enough || coast.top.is_some() {
                break;
            }
            let index = coast.drifts.len() as u32;
            coast.drifts.push(drift);
            let first_step = if flows { 4e-3 } else { 1e-1 };
            let span = Span { from: t, until: f64::INFINITY, first_step };
            let pieces = &mut coast.pieces;
            let stop = integrate(&drift, DormandPrince, y, span, effort, &mut |segment| {
                pieces.push(Piece { drift: index, segment: *segment });
                segment.t0 + segment.h <= enough
            })
            .map_err(FlightError::solver(Phase::Coast))?;
            (t, y) = (stop.t, stop.y);
            match stop.cause {
                Cause::Event(PART_OVER) => {
                    let air = plan.stack.air.at(y[0]);
                    match &drift.pulse {
                        Pulse::Flows(part) if part.choked() => {
                            let (next, state) = part.unchoked(y[2], &air);
                            drift.pulse = Pulse::Flows(next);
                            y[2] = state;
                        }
                        _ => {
                            coast.booster_gas_kg = drift.gas_mass(&y);
                            coast.burnout = (t, y[0], y[1]);
                            drift.pulse = Pulse::Over(coast.booster_gas_kg);
                        }
                    }
                }
                Cause::Event(RIPPLE_OVER) => drift.end_ripple(&mut y),
                Cause::Event(FINGER_AT_NOZZLE) => {
                    drift.finger_done = true;
                    drift.ripple = false;
                    y[3] = plan.vessel.standing;
                }
                Cause::Event(WATER_AT_NOSE) => {
                    // Perfectly inelastic: the stack takes over the parcel and its momentum.
                    let parcel = plan.vessel.water.density * drift.lifted_volume(&y);
                    let rest = drift.mass(&y, drift.gas_mass(&y));
                    y[1] += parcel * drift.lifted_speed(&y) / (rest + parcel);
                    drift.lifted = Lifted::AtNose;
                    coast.at_nose = Some((t, y[0], y[1]));
                }
                Cause::Event(TOP) if flows => return Err(FlightError::FallsUnderThrust { t_s: t, height_m: y[0] }),
                Cause::Event(TOP) => coast.top = Some((t, y[0])),
                _ => break,
            }
        }
        Ok(coast)
    }

    /// The state at a delay after the end of thrust; `None` beyond the top of the stack's own flight (or beyond the horizon).
    #[must_use]
    pub fn at(&self, delay: f64) -> Option<CoastState> {
        let t = self.burnout.0 + delay;
        let index = self.pieces.partition_point(|piece| piece.segment.t0 <= t).checked_sub(1)?;
        let piece = &self.pieces[index];
        let ahead = t - piece.segment.t0;
        // The last piece ends at the top or beyond the horizon; rounding may put a delay at its very end.
        if ahead > piece.segment.h * (1.0 + 1e-12) {
            return None;
        }
        let drift = &self.drifts[piece.drift as usize];
        let y = if ahead > 0.0 { piece.state_after(drift, ahead) } else { piece.segment.y0 };
        let (deceleration, _) = drift.deceleration(&y);
        Some(CoastState {
            t,
            h: y[0],
            v: y[1],
            deceleration,
            finger: drift.depth(&y),
            lifted: drift.lifted_volume(&y),
            lifted_height: drift.lifted_height(&y),
            lifted_speed: drift.lifted_speed(&y),
            at_nose: drift.lifted == Lifted::AtNose,
        })
    }

    /// Delays at which the steps of the coast end: where to look for changes of sign.
    pub fn step_ends(&self) -> impl Iterator<Item = f64> + '_ {
        self.pieces.iter().map(|piece| piece.segment.t0 + piece.segment.h - self.burnout.0).filter(|&delay| delay > 0.0)
    }

    /// Lets a recorder follow the coast up to a delay.
    pub fn record(&self, delay: f64, recorder: &mut dyn Recorder) {
        let (t_end, burnout) = (self.burnout.0 + delay, self.burnout.0);
        let mut burnt_out = false;
        for piece in &self.pieces {
            if !burnt_out && piece.segment.t0 >= burnout {
                recorder.event(Happening::Burnout, burnout, self.burnout.1, self.burnout.2);
                burnt_out = true;
            }
            if piece.segment.t0 >= t_end {
                break;
            }
            let ahead = (t_end - piece.segment.t0).min(piece.segment.h);
            if ahead >= piece.segment.h {
                recorder.step(&piece.segment.path());
            } else if ahead > 0.0 {
                let drift = &self.drifts[piece.drift as usize];
                let y1 = piece.state_after(drift, ahead);
                recorder.step(&Segment { h: ahead, y1, f1: drift.rates(&y1), ..piece.segment }.path());
            }
        }
        if !burnt_out {
            recorder.event(Happening::Burnout, burnout, self.burnout.1, self.burnout.2);
        }
        if let Some((t, h, v)) = self.at_nose.filter(|&(t, _, _)| t <= t_end) {
            recorder.event(Happening::WaterAtNose, t, h, v);
        }
    }
}
