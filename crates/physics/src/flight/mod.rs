//! A whole flight: pad, boost, coast, release, apogee.

mod aloft;
mod coast;
mod drift;
mod launch;
mod pad;
mod plan;
mod plate;
mod plate_coast;
mod plate_release;
mod record;
mod release;
mod staging_tube;
mod sustainer;
mod vehicle;

pub use coast::{Coast, CoastState};
pub use drift::Vessel;
pub use launch::{Flight, Launch, WaterMode};
pub use plan::latest_below;
pub use plate::{Holes, Plate, PlateSummary};
pub use record::{Event, Happening, Log, Recorder, Sample, Silent};
pub use sustainer::{Sustainer, SustainerFlight};
