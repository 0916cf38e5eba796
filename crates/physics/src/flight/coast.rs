//! The coast: the stack slows, and the sustainer's water does what it does.
//!
//! A [`Coast`] is flown once, from the moment drag exceeds the booster's dying thrust, and then asked for the state at any
//! delay: the answer is one step of the method from the last step before that delay, so that every delay sees the
//! same trajectory with full accuracy.

use super::drift::{
    BARE, Drift, EVENTS, FINGER_AT_NOZZLE, Lifted, PART_OVER, PLATE_LIMIT, PLATED, Pulse, RIPPLE_OVER, State, TOP,
    Vessel, WATER_AT_NOSE,
};
use super::pad::Progress;
use super::plate::Plate;
use super::plate_coast::{PlateCoast, Start};
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
    /// Part of the lifted water that has leaked through a plate, m3.
    pub leaked: f64,
    /// Whether there is a plate that water has met: what is lifted is above it.
    pub wetted: bool,
}

/// One step of the coast and the equations it was taken with.
#[derive(Clone, Copy, Debug)]
struct Piece<const N: usize> {
    drift: u32,
    segment: Segment<N>,
}

impl<const N: usize> Piece<N> {
    /// The state a while after the start of the step: by a step of the method itself, so that it is as accurate as any other.
    fn state_after(&self, drift: &Drift<N>, ahead: f64) -> State<N> {
        <DormandPrince as Method<Drift<N>, N, EVENTS>>::attempt(drift, &self.segment.y0, &self.segment.f0, ahead).y
    }
}

/// The steps of a coast and the equations they were taken with.
#[derive(Clone, Debug)]
struct Track<const N: usize> {
    drifts: Vec<Drift<N>>,
    pieces: Vec<Piece<N>>,
}

/// The same for either kind of vessel.
#[derive(Clone, Debug)]
enum Flown {
    Bare(Track<BARE>),
    Plated(Track<PLATED>),
}

/// A coast, flown as far as it was asked for.
#[derive(Clone, Debug)]
pub struct Coast {
    flown: Flown,
    /// End of the booster's thrust: time, height, speed.
    pub burnout: (f64, f64, f64),
    /// Top of the stack's own flight (time, height), if the coast was flown that far.
    pub top: Option<(f64, f64)>,
    /// Mass of the booster's gas after its pulse, kg.
    pub booster_gas_kg: f64,
    /// Time at which the lifted water reached the nose, if it did, with height and speed.
    pub at_nose: Option<(f64, f64, f64)>,
    /// Time at which water met the plate above its gap, if it did, with height and speed.
    pub at_plate: Option<(f64, f64, f64)>,
}

/// From where and how a coast is flown.
#[derive(Clone, Copy, Debug)]
pub struct CoastPlan {
    /// The stack on its booster; the burden holds all but the booster's gas.
    pub stack: Vehicle,
    /// The vessel whose water is followed.
    pub vessel: Vessel,
    /// The plate in it.
    pub plate: Option<Plate>,
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

/// What happened on a coast while it was flown.
struct Marks {
    burnout: (f64, f64, f64),
    top: Option<(f64, f64)>,
    booster_gas_kg: f64,
    at_nose: Option<(f64, f64, f64)>,
    at_plate: Option<(f64, f64, f64)>,
}

impl<const N: usize> Track<N> {
    /// Flies a coast from where drag exceeds thrust.
    fn fly(plan: &CoastPlan, start: &Progress, effort: Effort) -> Result<(Self, Marks), FlightError> {
        let Vessel { bore_m, area, length, standing, water } = plan.vessel;
        let wave = FIRST_MODE / (0.5 * bore_m);
        let (plate, ceiling, finger_end) = match &plan.plate {
            None => (None, length, standing),
            Some(plate) => {
                let Start { plate, ceiling, finger_end } = PlateCoast::start(plate, area, length, standing);
                (Some(plate), ceiling, finger_end)
            }
        };
        let has_water = standing > 0.0 && !plan.settled;
        let finger = plan.disturbance.min(finger_end);
        let ripple = has_water && finger > 0.0 && finger < finger_end;
        let pulse = if plan.gas_flows { plan.blow_down(start) } else { None };
        let mut drift = Drift {
            stack: plan.stack,
            vessel: plan.vessel,
            pulse: pulse.map_or(Pulse::Over(start.gas_kg), |(part, _)| Pulse::Flows(part)),
            lifted: if has_water { Lifted::Aloft } else { Lifted::Never },
            origin: standing,
            ceiling,
            finger_end,
            finger_done: false,
            ripple,
            first_depth: finger,
            wave,
            depth_factor: tanh(wave * finger_end),
            tube: Tube::new(bore_m, &water),
            plate,
        };
        let mut y = [0.0; N];
        let state = pulse.map_or(0.0, |(_, state)| state);
        y[..4].copy_from_slice(&[start.h, start.v, state, if ripple { ln(finger) } else { finger }]);
        if finger >= finger_end {
            drift.end_finger(&mut y);
        }
        let mut t = start.t;
        let mut track = Self { drifts: Vec::with_capacity(6), pieces: Vec::with_capacity(48) };
        let mut marks = Marks {
            burnout: (t, start.h, start.v),
            top: (start.v <= 0.0).then_some((t, start.h)),
            booster_gas_kg: start.gas_kg,
            at_nose: None,
            at_plate: None,
        };
        // Each event happens once: unchoked, over, ripple, finger, nose, top; and two limits of a plate, and landing on it.
        for _ in 0..16 {
            let flows = matches!(drift.pulse, Pulse::Flows(_));
            let enough = if flows { f64::INFINITY } else { marks.burnout.0 + plan.horizon };
            if t > enough || marks.top.is_some() {
                break;
            }
            let index = track.drifts.len() as u32;
            track.drifts.push(drift);
            let first_step = if flows { 4e-3 } else { 1e-1 };
            let span = Span { from: t, until: f64::INFINITY, first_step };
            let pieces = &mut track.pieces;
            let stop = integrate(&drift, DormandPrince, y, span, effort, &mut |segment| {
                pieces.push(Piece { drift: index, segment: *segment });
                segment.t0 + segment.h <= enough
            })
            .map_err(FlightError::solver(Phase::Coast))?;
            (t, y) = (stop.t, stop.y);
            match stop.cause {
                Cause::Event(TOP) if flows => {
                    return Err(FlightError::FallsUnderThrust { t_s: t, height_m: y[0] });
                }
                Cause::Event(TOP) => marks.top = Some((t, y[0])),
                Cause::Event(PART_OVER) => {
                    let air = plan.stack.air.at(y[0]);
                    match &drift.pulse {
                        Pulse::Flows(part) if part.choked() => {
                            let (next, state) = part.unchoked(y[2], &air);
                            drift.pulse = Pulse::Flows(next);
                            y[2] = state;
                        }
                        _ => {
                            marks.booster_gas_kg = drift.gas_mass(&y);
                            marks.burnout = (t, y[0], y[1]);
                            drift.pulse = Pulse::Over(marks.booster_gas_kg);
                        }
                    }
                }
                Cause::Event(RIPPLE_OVER) => drift.end_ripple(&mut y),
                Cause::Event(FINGER_AT_NOZZLE) => drift.end_finger(&mut y),
                Cause::Event(PLATE_LIMIT) => drift.meet_limit(&mut y),
                Cause::Event(WATER_AT_NOSE) => {
                    let nose = drift.land(&mut y);
                    *(if nose { &mut marks.at_nose } else { &mut marks.at_plate }) = Some((t, y[0], y[1]));
                }
                _ => break,
            }
        }
        Ok((track, marks))
    }

    /// The state at a time; `None` beyond the last step.
    fn at(&self, t: f64) -> Option<CoastState> {
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
        let (leaked, wetted) = drift.plate_state(&y);
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
            leaked,
            wetted,
        })
    }

    /// The steps up to a time, the last one cut off there.
    fn paths(&self, t_end: f64) -> impl Iterator<Item = Segment<2>> + '_ {
        let started = self.pieces.iter().take_while(move |piece| piece.segment.t0 < t_end);
        started.map(move |piece| {
            let ahead = t_end - piece.segment.t0;
            if ahead >= piece.segment.h {
                return piece.segment.path();
            }
            let drift = &self.drifts[piece.drift as usize];
            let y1 = piece.state_after(drift, ahead);
            Segment { h: ahead, y1, f1: drift.rates(&y1), ..piece.segment }.path()
        })
    }

    /// Times at which the steps end.
    fn step_ends(&self) -> impl Iterator<Item = f64> + '_ {
        self.pieces.iter().map(|piece| piece.segment.t0 + piece.segment.h)
    }
}

impl Coast {
    /// Flies a coast from where drag exceeds thrust.
    pub fn fly(plan: &CoastPlan, start: &Progress, effort: Effort) -> Result<Self, FlightError> {
        let (flown, marks) = if plan.plate.is_some() {
            let (track, marks) = Track::fly(plan, start, effort)?;
            (Flown::Plated(track), marks)
        } else {
            let (track, marks) = Track::fly(plan, start, effort)?;
            (Flown::Bare(track), marks)
        };
        let Marks { burnout, top, booster_gas_kg, at_nose, at_plate } = marks;
        Ok(Self { flown, burnout, top, booster_gas_kg, at_nose, at_plate })
    }

    /// The state at a delay after the end of thrust; `None` beyond the top of the stack's own flight (or beyond the horizon).
    #[must_use]
    pub fn at(&self, delay: f64) -> Option<CoastState> {
        let t = self.burnout.0 + delay;
        match &self.flown {
            Flown::Bare(track) => track.at(t),
            Flown::Plated(track) => track.at(t),
        }
    }

    /// Delays at which the steps of the coast end: where to look for changes of sign.
    #[must_use]
    pub fn step_ends(&self) -> Vec<f64> {
        let ends: Vec<f64> = match &self.flown {
            Flown::Bare(track) => track.step_ends().collect(),
            Flown::Plated(track) => track.step_ends().collect(),
        };
        ends.iter().map(|end| end - self.burnout.0).filter(|&delay| delay > 0.0).collect()
    }

    /// Lets a recorder follow the coast up to a delay.
    pub fn record(&self, delay: f64, recorder: &mut dyn Recorder) {
        let t_end = self.burnout.0 + delay;
        match &self.flown {
            Flown::Bare(track) => track.paths(t_end).for_each(|path| recorder.step(&path)),
            Flown::Plated(track) => track.paths(t_end).for_each(|path| recorder.step(&path)),
        }
        let (t, h, v) = self.burnout;
        recorder.event(Happening::Burnout, t, h, v);
        if let Some((t, h, v)) = self.at_nose.filter(|&(t, _, _)| t <= t_end) {
            recorder.event(Happening::WaterAtNose, t, h, v);
        }
    }
}
