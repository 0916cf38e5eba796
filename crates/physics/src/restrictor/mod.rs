//! A restrictor: a plate with holes across the vessel, that keeps the water down while the rocket coasts.
//!
//! Surface tension closes a small hole ([`hold`]); a wider one leaks ([`leak`]). Gas has to pass the holes later, which costs
//! pressure ([`pressure_loss`], [`series`]) and loads the plate ([`load`]). What to try on a bench is in [`bench`] and
//! [`similarity`], where the holes go is in [`holes`].
//!
//! Everything here is a formula of the plate alone. The flight with a plate is in [`crate::flight`].

pub mod bench;
pub mod hold;
pub mod holes;
pub mod leak;
pub mod load;
pub mod pressure_loss;
pub mod series;
pub mod similarity;

pub use hold::{Verdict, open_share, verdict};
pub use leak::Leak;

/// A number held between two bounds; what is not a number is held at the lower one, which `clamp` would pass on.
fn held(x: f64, low: f64, high: f64) -> f64 {
    if x > high {
        high
    } else if x > low {
        x
    } else {
        low
    }
}
