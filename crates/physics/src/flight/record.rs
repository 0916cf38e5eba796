//! What a flight leaves behind: events and, if wanted, samples for charts.

use crate::solver::Segment;

/// Things that happen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Happening {
    /// The rocket leaves the pad.
    LiftOff,
    /// The pad launch tube is out.
    PadTubeExit,
    /// The booster's water is gone.
    BoosterWaterGone,
    /// The booster's thrust has ended; the coast begins.
    Burnout,
    /// Lifted water has reached the nose.
    WaterAtNose,
    /// The sustainer is let go.
    Release,
    /// The staging tube is out.
    StagingTubeExit,
    /// The nozzle, open to gas, is covered again.
    NozzleCovered,
    /// Gas reaches the nozzle again.
    NozzleUncovered,
    /// Lifted water has come back to the seated water.
    WaterRejoined,
    /// The sustainer's water is gone.
    SustainerWaterGone,
    /// The sustainer's thrust has ended.
    SustainerBurnout,
    /// All gas has left before the water.
    GasGone,
    /// The highest point.
    Apogee,
}

/// Something that happened, and when.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Event {
    /// What.
    pub what: Happening,
    /// Time after the valve opens, s.
    pub t: f64,
    /// Height over the site, m.
    pub h: f64,
    /// Speed, m/s.
    pub v: f64,
}

/// Follows a flight.
pub trait Recorder {
    /// Sees height and speed in every step of every phase.
    fn step(&mut self, path: &Segment<2>);
    /// Is told what happens.
    fn event(&mut self, what: Happening, t: f64, h: f64, v: f64);
}

/// Follows nothing: for sweeps.
#[derive(Clone, Copy, Debug)]
pub struct Silent;

impl Recorder for Silent {
    fn step(&mut self, _path: &Segment<2>) {}
    fn event(&mut self, _what: Happening, _t: f64, _h: f64, _v: f64) {}
}

/// A point of the trace.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sample {
    /// Time, s.
    pub t: f64,
    /// Height, m.
    pub h: f64,
    /// Speed, m/s.
    pub v: f64,
    /// Rate of change of speed, m/s2.
    pub a: f64,
}

/// Keeps events and, if asked, samples.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Log {
    /// Events in order.
    pub events: Vec<Event>,
    /// Samples in order; empty unless asked for.
    pub samples: Vec<Sample>,
    /// Points per step; 0 for none.
    pub points_per_step: u32,
}

impl Recorder for Log {
    fn step(&mut self, segment: &Segment<2>) {
        if self.points_per_step == 0 {
            return;
        }
        for k in 0..=self.points_per_step {
            let share = f64::from(k) / f64::from(self.points_per_step);
            let y = segment.at(share);
            let a = segment.slope(1, share);
            self.samples.push(Sample { t: segment.t0 + share * segment.h, h: y[0], v: y[1], a });
        }
    }

    fn event(&mut self, what: Happening, t: f64, h: f64, v: f64) {
        self.events.push(Event { what, t, h, v });
    }
}
