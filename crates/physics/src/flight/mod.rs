//! A whole flight: pad, boost, coast, release, apogee.

mod aloft;
mod coast;
mod launch;
mod pad;
mod plan;
mod record;
mod release;
mod vehicle;

pub use coast::{Coast, CoastState, Vessel};
pub use launch::{Flight, Launch, WaterMode};
pub use record::{Event, Happening, Log, Recorder, Sample, Silent};
pub use release::{Sustainer, SustainerFlight};
