//! The built page in a browser: what a person does with it, and what it must answer.
//!
//! Every visit also fails by itself when the page writes an error to the console, which includes every violation of
//! its content-security policy, or when it asks any other host for anything.

mod aside;
mod asked;
mod barriers;
mod compare;
mod damaged;
mod delay;
mod fields;
mod holding;
mod hostile;
mod keep;
mod keyboard;
mod looks;
mod offline;
mod overflow;
mod placed;
mod print;
mod share;
mod shell;
mod shown;
mod start;
mod undo;
mod units;
mod vessels;
