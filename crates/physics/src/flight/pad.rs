//! From the pad to the end of a stage's water: launch tube, water, and the gas pulse up to a point of choice.

use super::plate::Through;
use super::record::{Happening, Recorder};
use super::vehicle::{
    AscentPhase, GasPhase, PadTubePhase, Vehicle, WaterPhase, gas_event, pad_tube_event, water_event,
};
use crate::blowdown::BlowDown;
use crate::constants::GRAVITY;
use crate::error::{FlightError, Phase};
use crate::gas;
use crate::rocket::{LaunchTube, Stage};
use crate::solver::{Cause, DormandPrince, Effort, Rosenbrock, Segment, Span, Stiff, Stop, System, integrate};

/// Settling times after which a jet counts as settled: the rest of the start has decayed to e^-6 by then.
pub(super) const SETTLED: f64 = 6.0;

/// Longest step of the explicit method while the jet settles, in settling times: beyond it the method is not stable, and finds out
/// by throwing steps away.
const PACE: f64 = 1.0;

/// A phase that is to be flown in steps no longer than this, s.
struct Paced<'a, S> {
    phase: &'a S,
    longest: f64,
}

impl<S: System<N, E>, const N: usize, const E: usize> System<N, E> for Paced<'_, S> {
    fn rates(&self, y: &[f64; N]) -> [f64; N] {
        self.phase.rates(y)
    }

    fn events(&self, y: &[f64; N]) -> [f64; E] {
        self.phase.events(y)
    }

    fn passed_at_start(&self, events: &[f64; E]) -> Option<usize> {
        self.phase.passed_at_start(events)
    }

    fn scale(&self) -> [f64; N] {
        self.phase.scale()
    }

    fn longest_step(&self, _: &[f64; N], _: &[f64; N]) -> f64 {
        self.longest
    }
}

/// Integrates a phase in which water leaves: its jet settles in milliseconds, which the explicit method follows at a tenth of the
/// price; then the stiff one takes over. The steps are the jet's settling time and the stiff method's first attempt, s.
pub(super) fn settle_then_flow<S: Stiff<N, E>, const N: usize, const E: usize>(
    phase: &S,
    start: [f64; N],
    from: f64,
    [settling, stiff_step]: [f64; 2],
    effort: Effort,
    recorder: &mut dyn Recorder,
) -> Result<Stop<N>, FlightError> {
    let mut follow = |segment: &Segment<N>| {
        recorder.step(&segment.path());
        true
    };
    let start_up = Span { from, until: from + SETTLED * settling, first_step: 0.5 * settling };
    let paced = Paced { phase, longest: PACE * settling };
    let stop = integrate(&paced, DormandPrince, start, start_up, effort, &mut follow)
        .map_err(FlightError::solver(Phase::Water))?;
    if stop.cause != Cause::Time {
        return Ok(stop);
    }
    let rest = Span { from: stop.t, until: f64::INFINITY, first_step: stiff_step };
    integrate(phase, Rosenbrock, stop.y, rest, effort, &mut follow).map_err(FlightError::solver(Phase::Water))
}

/// A rocket that stops climbing below this height, m, has hopped on the first kick of its jet and stands on the pad again.
const HOP: f64 = 0.5;

/// The gas and water of a stage at filling.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Filling {
    /// Absolute pressure, Pa.
    pub pressure: f64,
    /// Gas mass, kg.
    pub gas_kg: f64,
    /// Water, m3.
    pub water: f64,
}

impl Filling {
    /// A stage filled at a site; `tube_displacement` is the volume a launch tube's wall takes, m3.
    #[must_use]
    pub fn of(stage: &Stage, ambient_pa: f64, temperature_k: f64, tube_displacement: f64) -> Self {
        let pressure = ambient_pa + stage.fill_gauge_pa;
        let volume = stage.volume_m3 - stage.water_m3 - tube_displacement;
        Self { pressure, gas_kg: gas::mass(pressure, volume, temperature_k), water: stage.water_m3 }
    }
}

/// A stage somewhere on its way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Progress {
    /// Time, s.
    pub t: f64,
    /// Height, m.
    pub h: f64,
    /// Speed, m/s.
    pub v: f64,
    /// Gas pressure, Pa.
    pub pressure: f64,
    /// Gas mass, kg.
    pub gas_kg: f64,
    /// Water left, m3.
    pub water: f64,
    /// Exit speed of the water, m/s.
    pub jet: f64,
}

/// Why a gas pulse was left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PulseEnd {
    /// Drag exceeds thrust.
    Tail,
    /// The pressure is ambient.
    Over,
}

/// Drives a stage along the pad launch tube.
pub(super) fn pad_tube(
    vehicle: &Vehicle,
    filling: &Filling,
    tube: &LaunchTube,
    effort: Effort,
    recorder: &mut dyn Recorder,
) -> Result<Progress, FlightError> {
    let sets = vehicle.column.sets;
    let mut carried = *vehicle;
    carried.burden += filling.gas_kg + vehicle.column.density * filling.water;
    let phase = PadTubePhase {
        vehicle: carried,
        tube_area: sets * tube.outer_area(),
        length: tube.length_m,
        gas_volume: vehicle.volume - filling.water,
    };
    let air = vehicle.air.at(0.0);
    let (thrust_n, weight_n) = (phase.force(filling.pressure, &air), carried.burden * GRAVITY);
    if thrust_n <= weight_n {
        return Err(FlightError::StaysOnPad { thrust_n, weight_n });
    }
    recorder.event(Happening::LiftOff, 0.0, 0.0, 0.0);
    let acceleration = (thrust_n - weight_n) / carried.burden;
    let span = Span { from: 0.0, until: f64::INFINITY, first_step: 0.2 * (2.0 * tube.length_m / acceleration).sqrt() };
    let stop = integrate(&phase, DormandPrince, [0.0, 0.0, filling.pressure], span, effort, &mut |segment| {
        recorder.step(&segment.path());
        true
    })
    .map_err(FlightError::solver(Phase::PadTube))?;
    let [h, v, pressure] = stop.y;
    if stop.cause != Cause::Event(pad_tube_event::EXIT) {
        return Err(FlightError::StallsOnTube { staging: false, travel_m: h });
    }
    recorder.event(Happening::PadTubeExit, stop.t, h, v);
    let volume = phase.gas_volume + phase.tube_area * tube.length_m;
    let lost = phase.tube_area * tube.length_m / volume;
    Ok(Progress { t: stop.t, h, v, pressure, gas_kg: filling.gas_kg * (1.0 - lost), water: filling.water, jet: 0.0 })
}

/// Drives a stage by its water until it is gone, or stuck. A rocket at rest on the pad is held until it lifts. What is more than
/// `below` stands on the plate of a stage that has one.
pub(super) fn water(
    vehicle: &Vehicle,
    start: &Progress,
    below: f64,
    effort: Effort,
    recorder: &mut dyn Recorder,
) -> Result<Progress, FlightError> {
    let mut now = *start;
    if now.water <= 0.0 {
        return Ok(now);
    }
    let start_on_pad = now.h <= 0.0 && now.v <= 0.0;
    let on_plate = vehicle.holes.is_some() && now.water > below;
    let through = Through::of(vehicle.holes.as_ref(), on_plate, now.gas_kg, vehicle.column.density);
    let until = if on_plate { below } else { 0.0 };
    let mut phase = WaterPhase { vehicle: *vehicle, gas_kg: now.gas_kg, through, until, held: start_on_pad };
    let mut settling = settling_time(vehicle, &now, &phase.through);
    // Lift-off, perhaps a hop on the jet's first kick and back to the pad, lift-off when lighter, gas behind water through the holes of a
    // plate: no start has more parts.
    for _ in 0..12 {
        let start = [now.h, now.v, now.water, now.jet, now.pressure];
        if phase.held && phase.lifts(&start) {
            recorder.event(Happening::LiftOff, now.t, now.h, now.v);
            phase.held = false;
        }
        // Drag holds the water back more than the gas pushes: a jet that would start backwards has stopped already.
        if now.jet <= 0.0 && phase.rates(&start)[3] <= 0.0 {
            return Ok(Progress { jet: 0.0, ..now });
        }
        let stop = settle_then_flow(&phase, start, now.t, [settling, 2.0 * SETTLED * settling], effort, recorder)?;
        let [h, v, water, jet, pressure] = stop.y;
        // On the pad it has not moved: a last digit of rounding would count as flying, and it would fall through the ground.
        let (h, v) = if phase.held { (now.h, now.v) } else { (h, v) };
        now = Progress { t: stop.t, h, v, water: water.max(0.0), jet, pressure, ..now };
        match stop.cause {
            Cause::Event(water_event::TURNS) if phase.held => {
                recorder.event(Happening::LiftOff, now.t, now.h, now.v);
                phase.held = false;
            }
            Cause::Event(water_event::TURNS) if start_on_pad && now.h < HOP => {
                now = Progress { h: 0.0, v: 0.0, ..now };
                phase.held = true;
            }
            Cause::Event(water_event::GONE) if phase.until > 0.0 => {
                phase.until = 0.0;
                phase.through = Through::of(vehicle.holes.as_ref(), false, now.gas_kg, vehicle.column.density);
                settling = settling_time(vehicle, &now, &phase.through);
            }
            Cause::Event(water_event::GONE) => return Ok(Progress { water: 0.0, jet: 0.0, ..now }),
            Cause::Event(water_event::TURNS) => return Ok(Progress { v: 0.0, jet: 0.0, ..now }),
            _ => return Ok(Progress { jet: 0.0, ..now }),
        }
    }
    Ok(Progress { jet: 0.0, ..now })
}

/// Time in which the jet of a stage settles, s.
pub(super) fn settling_time(vehicle: &Vehicle, now: &Progress, through: &Through) -> f64 {
    let column = &vehicle.column;
    let overpressure = now.pressure - vehicle.air.at(now.h).pressure_pa;
    let bare = column.settling_time(column.height(now.water), overpressure);
    let exit = column.density * column.exit_loss();
    // A plate slows the jet and steadies it: the time falls with the root of the loss.
    match through.loss(vehicle.volume - now.water) {
        0.0 => bare,
        loss => bare * (exit / (exit + loss)).sqrt(),
    }
}

/// Drives a stage by its gas until the pulse is over or, if asked, drag exceeds thrust.
pub(super) fn gas_pulse(
    vehicle: &Vehicle,
    start: &Progress,
    stop_at_tail: bool,
    effort: Effort,
    recorder: &mut dyn Recorder,
) -> Result<(Progress, PulseEnd), FlightError> {
    let mut now = *start;
    let mut held = now.h <= 0.0 && now.v <= 0.0;
    let (throttle, air) = (vehicle.holes.map(|holes| holes.throttle), vehicle.air.at(now.h));
    let mut pulse =
        BlowDown::start_behind(throttle, now.pressure, now.gas_kg, vehicle.volume, vehicle.gas_area(), &air);
    let mut hardest = None;
    // Held, choked, unchoked, tail: no pulse has more parts than this.
    for _ in 0..8 {
        let Some((part, state)) = pulse else { break };
        let air = vehicle.air.at(now.h);
        let gas = part.gas(state, &air);
        let thrust = part.flow(state, &gas, &air).thrust;
        let weight = (vehicle.burden + gas.mass) * GRAVITY;
        if held && thrust > weight {
            recorder.event(Happening::LiftOff, now.t, now.h, now.v);
            held = false;
        }
        // The gas pushes hardest at its start.
        hardest.get_or_insert((thrust, weight));
        let watch_tail = stop_at_tail && !held;
        if watch_tail && thrust <= vehicle.drag(&air, now.v) {
            return Ok((now, PulseEnd::Tail));
        }
        let phase = GasPhase { vehicle: *vehicle, pulse: part, held, watch_tail };
        let span = Span { from: now.t, until: f64::INFINITY, first_step: 0.05 * part.time_scale() };
        let stop = integrate(&phase, DormandPrince, [now.h, now.v, state], span, effort, &mut |segment| {
            recorder.step(&segment.path());
            true
        })
        .map_err(FlightError::solver(Phase::Gas))?;
        let [h, v, state] = stop.y;
        let air = vehicle.air.at(h);
        let gas = part.gas(state, &air);
        now = Progress { t: stop.t, h, v, pressure: gas.pressure, gas_kg: gas.mass, ..now };
        match stop.cause {
            Cause::Event(gas_event::PART_OVER) => pulse = part.choked().then(|| part.unchoked(state, &air)),
            Cause::Event(gas_event::TAIL) => return Ok((now, PulseEnd::Tail)),
            Cause::Event(gas_event::TURNS) if held => {
                recorder.event(Happening::LiftOff, now.t, now.h, now.v);
                held = false;
                pulse = Some((part, state));
            }
            Cause::Event(gas_event::TURNS) => {
                now.v = 0.0;
                break;
            }
            _ => break,
        }
    }
    if held {
        let (thrust_n, weight_n) = hardest.unwrap_or((0.0, (vehicle.burden + now.gas_kg) * GRAVITY));
        return Err(FlightError::StaysOnPad { thrust_n, weight_n });
    }
    Ok((now, PulseEnd::Over))
}

/// Flies up to the top, without thrust.
pub(super) fn ascent(
    vehicle: &Vehicle,
    start: (f64, f64, f64),
    effort: Effort,
    recorder: &mut dyn Recorder,
) -> Result<(f64, f64), FlightError> {
    let (t, h, v) = start;
    if v <= 0.0 {
        return Ok((t, h));
    }
    let phase = AscentPhase { vehicle: *vehicle };
    let span = Span { from: t, until: f64::INFINITY, first_step: 0.05 * v / GRAVITY };
    let stop = integrate(&phase, DormandPrince, [h, v], span, effort, &mut |segment| {
        recorder.step(&segment.path());
        true
    })
    .map_err(FlightError::solver(Phase::Ascent))?;
    Ok((stop.t, stop.y[0]))
}
