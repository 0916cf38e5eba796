//! The same program in a web worker: there it has no page and only flies what it is asked to.
//!
//! `searcher.js` calls these, see `crates/xtask/src/searcher.js`.

use std::cell::RefCell;

use wasm_bindgen::prelude::wasm_bindgen;

use super::jobs::{Jobs, News, Question, What};

thread_local! {
    static JOBS: RefCell<Jobs> = RefCell::default();
}

/// Takes a question.
#[wasm_bindgen]
pub fn searcher_ask(number: u32, what: usize, link: String, delay: f64) {
    if let Some(&what) = What::ALL.get(what) {
        JOBS.with_borrow_mut(|jobs| jobs.ask(Question { number, what, link, delay }));
    }
}

/// Flies a slice and says how far it has come; nothing when there is nothing left to do.
#[wasm_bindgen]
pub fn searcher_step() -> Option<Vec<f64>> {
    JOBS.with_borrow_mut(Jobs::step).map(News::numbers)
}
