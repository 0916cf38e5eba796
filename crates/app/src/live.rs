//! Boxed closures for the views, one type for each kind.
//!
//! The framework's code is compiled anew for every type of closure, and every closure is a type of its own: left
//! unboxed, the views alone weighed more than physics, pictures and framework together. What a box costs when
//! the page is used cannot be measured.

use std::sync::{Arc, Mutex};

use leptos::prelude::*;

/// A value that follows the signals read to make it.
pub type Live<T> = Arc<dyn Fn() -> T + Send + Sync>;

/// A part of the page that is built anew from the signals read to make it.
pub type Part<T> = Arc<Mutex<dyn FnMut() -> T + Send>>;

/// What an event calls.
pub type Handler<E> = Box<dyn FnMut(E)>;

/// A text, attribute or class that follows the signals read to make it.
pub fn live<T: 'static>(make: impl Fn() -> T + Send + Sync + 'static) -> Live<T> {
    Arc::new(make)
}

/// A part of the page that follows the signals read to make it.
pub fn part<T: 'static>(make: impl FnMut() -> T + Send + 'static) -> Part<T> {
    Arc::new(Mutex::new(make))
}

/// A handler of events.
pub fn on<E: 'static>(handle: impl FnMut(E) + 'static) -> Handler<E> {
    Box::new(handle)
}

/// Runs a job now and again whenever a signal read in it has changed.
pub fn follow(job: impl Fn() + 'static) {
    let job: Box<dyn Fn()> = Box::new(job);
    Effect::new(job);
}
