//! Whatever parts and logs a design holds, questions 3 and 4 are answered with finite numbers or a reason, and soon.

#![allow(clippy::unwrap_used, reason = "a panic is how a test fails")]
#![allow(clippy::disallowed_methods, reason = "what is drawn need not agree bit for bit between machines")]

mod common;

use std::time::Instant;

use common::{Draw, cases};
use holdwater_answers::vessels::{
    age_sentences, part_sentence, proof_sentence, stage_sentences, stand_sentences, stand_verdict, vessel_verdict,
};
use holdwater_answers::words::{Span, Verdict};
use holdwater_answers::{Vessels, stand};
use holdwater_design::Design;
use holdwater_design::link::{open, write};
use holdwater_design::parts::{Form, LogEntry, MOST_PARTS, PartInput, PartKind, PartMaterial, Value, VesselPart};
use serde_json::Value as Json;

fn said(verdict: &Verdict) -> String {
    let piece = |span: &Span| match span {
        Span::Text(words) => words.clone(),
        Span::Number(number, unit) => format!("{number} {unit}"),
    };
    verdict.spans.iter().map(piece).collect()
}

fn drawn(draw: &mut Draw) -> Design {
    let mut design = draw.any();
    let count = (draw.share() * (MOST_PARTS as f64 + 0.99)) as usize;
    let parts: Vec<_> = (0..count).map(|_| drawn_part(draw)).collect();
    assert_eq!(design.set_parts(parts), 0);
    let rows = (draw.share() * 40.0) as usize;
    let entry = |draw: &mut Draw| LogEntry {
        part: ["", "A", "shell", "splice"][(draw.share() * 3.99) as usize].to_owned(),
        cycles: (draw.share() * 12.0 - 2.0).exp(),
        failed: draw.share() < 0.4,
    };
    let log: Vec<_> = (0..rows).map(|_| entry(draw)).collect();
    assert_eq!(design.set_log(&log), 0);
    design
}

fn drawn_part(draw: &mut Draw) -> VesselPart {
    let pick = |draw: &mut Draw, count: usize| (draw.share() * (count as f64 - 0.01)) as usize;
    let kind = PartKind::ALL[pick(draw, PartKind::ALL.len())];
    let mut part = VesselPart::new(kind);
    for input in PartInput::ALL {
        if input == PartInput::Kind || !part.asks(input) || draw.share() < 0.5 {
            continue;
        }
        let value = match (input.row().form, input.facts(kind)) {
            (Form::Words(words, ..), _) => Value::Word(pick(draw, words.len())),
            (_, Some(facts)) => {
                Value::Number(Some(facts.nearest(facts.min + draw.share() * draw.share() * (facts.max - facts.min))))
            }
            _ => continue,
        };
        assert_eq!(part.set(input, value), Ok(()));
    }
    part
}

fn assert_finite(json: &Json, name: &str) {
    match json {
        Json::Array(items) => items.iter().for_each(|item| assert_finite(item, name)),
        Json::Object(fields) => fields.iter().for_each(|(key, field)| assert_finite(field, &format!("{name}.{key}"))),
        // A number that is none is written as null; these are always numbers.
        Json::Null => assert!(
            ![
                "fills_behind",
                "part_c",
                "fill_bar",
                "energy_j",
                "tnt_kg",
                "without_water_j",
                "proof_water_j",
                "proof_gas_j"
            ]
            .iter()
            .any(|key| name.rsplit('.').next() == Some(*key)),
            "{name}"
        ),
        _ => {}
    }
}

#[test]
fn property_any_parts_are_answered_with_finite_numbers_or_a_reason() {
    let mut draw = Draw(7);
    for _ in 0..cases(400) {
        let design = drawn(&mut draw);
        let link = write(&design);
        let found = Vessels::of(&design);
        for (place, part) in found.parts.iter().enumerate() {
            if let Ok(held) = &part.held {
                let numbers =
                    [held.stress_mpa, held.allowable_mpa, held.factor, held.margin, part.highest_fill_bar.unwrap()];
                assert!(numbers.iter().all(|number| number.is_finite()) && held.margin >= -1.0, "{part:?} #{link}");
                assert!(held.burst_bar.is_none_or(|burst| burst.is_finite() && burst >= 0.0), "{part:?} #{link}");
            }
            let chances = [part.age.next_fill, part.age.day];
            assert!(chances.iter().flatten().all(|chance| (0.0..=1.0).contains(chance)), "{part:?} #{link}");
            if let (Some((low, high)), Some(next)) = (found.next_fill_95(place), part.age.next_fill) {
                assert!(low <= next * (1.0 + 1e-9) + 1e-12 && next <= high * (1.0 + 1e-9) + 1e-12, "{part:?} #{link}");
            }
            for sentence in [part_sentence(part), proof_sentence(part)] {
                assert!(
                    sentence.ends_with('.') && !sentence.contains("NaN") && !sentence.contains("inf "),
                    "{sentence} #{link}"
                );
            }
        }
        let margins: Vec<_> = found.weakest_first.iter().filter_map(|place| found.parts[*place].margin()).collect();
        assert!(margins.is_sorted(), "{margins:?}");
        assert_finite(&serde_json::to_value((found.numbers(), stand(&design).numbers())).unwrap(), "");
        for sentence in
            [age_sentences(&found), stage_sentences(&found), found.warnings.clone(), stand_sentences(&stand(&design))]
                .concat()
        {
            assert!(
                sentence.ends_with('.') && !sentence.contains("NaN") && !sentence.contains('!'),
                "{sentence} #{link}"
            );
        }
        for verdict in [vessel_verdict(&found), stand_verdict(&stand(&design))] {
            let words = said(&verdict);
            assert!(words.ends_with('.') && !words.contains("NaN") && !words.contains("  "), "{words} #{link}");
        }
        // The link elsewhere says the same.
        assert_eq!(Vessels::of(&open(&link).design), found);
    }
}

#[test]
fn property_a_full_design_is_answered_in_milliseconds() {
    let mut design = Design::default();
    let mut draw = Draw(11);
    let parts = (0..MOST_PARTS).map(|place| {
        let mut part = VesselPart::new(PartKind::ALL[place % PartKind::ALL.len()]);
        assert_eq!(part.set(PartInput::Material, Value::Word(PartMaterial::Aluminium as usize)), Ok(()));
        assert_eq!(part.set(PartInput::Cycles, Value::Number(Some((200.0 * draw.share()).round()))), Ok(()));
        part
    });
    let parts: Vec<_> = parts.collect();
    design.set_parts(parts);
    let entry = |cycles: f64| LogEntry { part: String::new(), cycles, failed: draw.share() < 0.5 };
    let log: Vec<_> = (1..=30).map(|row| f64::from(row) * 11.0).map(entry).collect();
    assert_eq!(design.set_log(&log), 0);
    let start = Instant::now();
    for _ in 0..10 {
        assert!(Vessels::of(&design).age.day.is_some());
    }
    let each = start.elapsed() / 10;
    println!("{each:?}");
    // Unoptimised, on a busy machine; optimised it is far less.
    assert!(each.as_millis() < 200, "{each:?}");
}
