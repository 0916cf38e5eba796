//! The chores of this project, one module each; `cargo xtask` is their only door.
//!
//! It is a library as well as a program because the acceptance tests use the same static server
//! and the same browser as the commands do.

pub mod bench;
pub mod browser;
pub mod build;
pub mod cache;
pub mod doctor;
pub mod engines;
pub mod evaluate;
pub mod finish_dist;
pub mod fuzz;
pub mod glue;
pub mod lighthouse;
pub mod order;
pub mod places;
pub mod run;
pub mod serve;
pub mod server;
pub mod setup;
pub mod slim;
pub mod strip_names;
pub mod tally;
pub mod test;
pub mod tidy;
pub mod tools;
pub mod wasm_file;
pub mod weight;
pub mod workspace;

/// The result of a chore: whoever runs it reads the error as it stands, so it is a sentence.
pub type Outcome<T = ()> = Result<T, String>;
