//! Designs, parts and logs drawn at random.

#![allow(dead_code, clippy::unwrap_used, reason = "every test file uses its own part; a panic is how a test fails")]

use holdwater_design::parts::{Form, LogEntry, PartInput, PartKind, Value, VesselPart};
use holdwater_design::{Design, Facts, Input};
use proptest::prelude::*;

/// Any allowed value, often the default and often one of the ends of its range.
pub fn any_value(facts: Facts) -> BoxedStrategy<Option<f64>> {
    let within = (facts.min..=facts.max).prop_map(move |value| Some(facts.nearest(value)));
    prop_oneof![Just(facts.default()), Just(Some(facts.min)), Just(Some(facts.max)), within].boxed()
}

/// Any part: of any kind, each answer given half of the time.
pub fn any_part() -> impl Strategy<Value = VesselPart> {
    let answers = proptest::collection::vec((any::<bool>(), 0.0..=1.0_f64), PartInput::COUNT);
    (proptest::sample::select(PartKind::ALL.to_vec()), ".{0,45}", answers).prop_map(|(kind, name, answers)| {
        let mut part = VesselPart::new(kind);
        part.set_name(&name);
        for (input, (given, share)) in PartInput::ALL.into_iter().zip(answers) {
            if !given || input == PartInput::Kind || !part.asks(input) {
                continue;
            }
            let value = match (input.row().form, input.facts(kind)) {
                (Form::Words(words, ..), _) => Value::Word((share * (words.len() as f64 - 0.01)) as usize),
                (_, Some(facts)) => Value::Number(Some(facts.nearest(facts.min + share * (facts.max - facts.min)))),
                _ => continue,
            };
            assert_eq!(part.set(input, value), Ok(()), "{}", input.row().key);
        }
        part
    })
}

/// Any row of a log, with any name.
pub fn any_entry() -> impl Strategy<Value = LogEntry> {
    let cycles = prop_oneof![(1_u32..1000).prop_map(f64::from), 1e-3..1e6_f64];
    (prop_oneof!["[A-Za-z0-9 ]{0,8}", ".{0,45}"], cycles, any::<bool>()).prop_map(|(part, cycles, failed)| LogEntry {
        part,
        cycles,
        failed,
    })
}

/// Any design with up to so many parts and rows of a log.
pub fn any_design(parts: usize, rows: usize) -> impl Strategy<Value = Design> {
    let values: Vec<_> = Input::ALL.iter().map(|input| any_value(input.row().facts)).collect();
    let parts = proptest::collection::vec(any_part(), 0..=parts);
    let log = proptest::collection::vec(any_entry(), 0..=rows);
    (".{0,70}", values, parts, log).prop_map(|(name, values, parts, log)| {
        let mut design = Design::default();
        design.set_name(&name);
        for (input, value) in Input::ALL.into_iter().zip(values) {
            assert_eq!(design.set(input, value), Ok(()));
        }
        assert_eq!(design.set_parts(parts), 0);
        design.set_log(&log);
        design
    })
}
