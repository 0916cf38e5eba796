//! Flight, coast and release of a two-stage water rocket.
//!
//! Pure functions and small data types, SI units, absolute pressures unless a name says gauge. No web, no clock, no
//! random numbers, no input or output. `MODEL.md` beside this crate states what is integrated, equation by equation.

pub mod age;
pub mod air;
pub mod blowdown;
pub mod bubble;
pub mod check;
pub mod column;
pub mod constants;
pub mod dip;
pub mod error;
pub mod flight;
pub mod gas;
pub mod interface;
pub mod order;
pub mod real;
pub mod restrictor;
pub mod rocket;
pub mod sizing;
pub mod solver;
pub mod sources;
pub mod vessel;
pub mod water;
