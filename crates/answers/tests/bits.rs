//! The same link gives the same digits on every device: the answers to the example designs, digit for digit, natively and in
//! WebAssembly. JSON prints the shortest decimal that gives the same bits back, so equal text is equal bits.
//!
//! The file beside this test is our own output, frozen to compare machines and to notice changes; it proves nothing about physics.
//! `HOLDWATER_REWRITE=1 cargo test -p holdwater-answers --test bits` writes it anew.

use holdwater_answers::evaluate_json;
use holdwater_design::examples::EXAMPLES;

const FROZEN: &str = include_str!("bits.jsonl");

fn now() -> String {
    EXAMPLES
        .iter()
        .map(|example| match evaluate_json(example.link) {
            Ok(line) => line + "\n",
            Err(complaints) => complaints.join("; ") + "\n",
        })
        .collect()
}

fn compare() {
    for ((example, ours), frozen) in EXAMPLES.iter().zip(now().lines()).zip(FROZEN.lines()) {
        assert_eq!(ours, frozen, "{}", example.title);
    }
    assert_eq!(FROZEN.lines().count(), EXAMPLES.len(), "an example without its frozen line");
}

#[cfg(not(target_arch = "wasm32"))]
#[test]
fn regress_the_examples_print_the_frozen_digits_natively() {
    if std::env::var_os("HOLDWATER_REWRITE").is_some() {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/bits.jsonl");
        assert!(std::fs::write(path, now()).is_ok(), "the frozen answers cannot be written");
        return;
    }
    compare();
}

#[cfg(target_arch = "wasm32")]
#[wasm_bindgen_test::wasm_bindgen_test]
fn regress_the_examples_print_the_frozen_digits_in_wasm() {
    compare();
}
