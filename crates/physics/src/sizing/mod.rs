//! What to build: the best bore, the bores that serve, a pattern of holes, the place of the plate, the length of a launch tube.
//!
//! Every answer here is a search on a function `x -> height` that the caller flies; nothing here flies. The searches look coarsely
//! first, then close in on what they have seen, and every loop is bounded. `None` from the function is a flight without an answer.

pub mod curve;
pub mod plate;
pub mod search;
pub mod tube;
