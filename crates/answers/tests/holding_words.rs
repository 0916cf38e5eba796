//! Question two in words, and what the command line prints of it.

use holdwater_answers::holding::{Holding, HoldingAnswer};
use holdwater_answers::numbers::Answers;
use holdwater_answers::words::{self, Span, Verdict};
use holdwater_answers::{Study, evaluate_json};
use holdwater_design::{Design, Input, link};

fn answers(design: &Design) -> Option<Answers> {
    Study::new(design).ok()?.answers(design.number(Input::Delay)).ok()
}

fn holding(design: &Design) -> Option<HoldingAnswer> {
    let study = Study::new(design).ok()?;
    Holding::complete(&study, design.number(Input::Delay)).answer().cloned()
}

#[test]
fn property_what_cannot_be_sized_says_why() {
    let why = |link: &str| {
        let answer = holding(&link::open(link).design).unwrap();
        (answer.restrictor.why_not.join(" "), answer.choices.len(), answer.restrictor.verdict)
    };
    let (single, choices, verdict) = why("v=1&stages=1&r.bore=20");
    assert!(single.contains("no coast") && choices == 0 && verdict == "holds", "{single} {choices} {verdict}");
    let (falls, choices, _) = why("v=1&delay=12");
    assert!(falls.contains("falling before the release") && choices >= 2, "{falls}");
    let (dry, _, _) = why("v=1&s.water=0");
    assert!(dry.contains("no water"), "{dry}");
    let (soapy, _, _) = why("v=1&tension=15&r.knock=0.05&b.drag=2");
    assert!(soapy.contains("No pattern"), "{soapy}");
}

#[test]
fn property_the_command_line_prints_the_keys_of_the_link_format() {
    let line = evaluate_json("v=1&r.bore=20&r.height=82").unwrap();
    let all: serde_json::Value = serde_json::from_str(&line).unwrap();
    for key in ["choices", "restrictor", "notes", "apogee_m"] {
        assert!(!all[key].is_null(), "{key}");
    }
    for key in ["verdict", "bond", "limit", "leak_l", "hold_bore_mm", "window_mm", "best_bore_mm", "bench_bore_mm"] {
        assert!(!all["restrictor"][key].is_null(), "{key}");
    }
    assert!(all["restrictor"]["pattern"]["holes"].is_u64() && all["restrictor"]["pattern"]["bore_mm"].is_f64());
    for choice in all["choices"].as_array().unwrap() {
        for key in ["choice", "apogee_m", "loss_share", "added_kg", "warning"] {
            assert!(!choice[key].is_null(), "{key}");
        }
    }
}

/// The words of a verdict in one line.
fn sentence(verdict: &Verdict) -> String {
    let piece = |span: &Span| match span {
        Span::Text(words) => words.clone(),
        Span::Number(number, unit) => format!("{number} {unit}"),
    };
    verdict.spans.iter().map(piece).collect()
}

#[test]
fn property_the_verdict_says_what_to_fit_and_what_a_restrictor_does() {
    let design = link::open("v=1").design;
    let window = holding(&design).unwrap().restrictor.window_mm;
    let bare = sentence(&words::verdict_with_window(&answers(&design).unwrap(), 1.0, window));
    assert!(bare.contains("bare costs 24 m of 214 m. Release within 0.34 s, or fit a restrictor of "), "{bare}");
    assert!(bare.ends_with(" mm."), "{bare}");
    let says = |link: &str| {
        let design = link::open(link).design;
        let answers = answers(&design).unwrap();
        let verdict = words::verdict(&answers, design.number(Input::Delay));
        let parts = words::two_parts(&answers).unwrap();
        format!("{} {parts} {}", sentence(&verdict), answers.notes.join(" "))
    };
    let held = says("v=1&r.bore=20&r.height=82");
    assert!(
        held.contains("with the restrictor") && held.contains("It holds.") && held.contains("the mass gains"),
        "{held}"
    );
    let narrow = says("v=1&r.bore=8&r.height=82");
    assert!(narrow.contains("throttle the gas"), "{narrow}");
    let wide = says("v=1&r.bore=45&r.height=82");
    assert!(wide.contains("It leaks") && wide.contains("Release within") && wide.contains("Bond number"), "{wide}");
    let marginal = says("v=1&r.bore=24&r.height=82");
    assert!(marginal.contains("try them on the bench") && marginal.contains("guess"), "{marginal}");
    let gap = says("v=1&r.bore=20&r.height=95");
    assert!(gap.contains("gap of 13 mm"), "{gap}");
    let drowned = says("v=1&r.bore=20&r.height=40");
    assert!(drowned.contains("stand on the plate"), "{drowned}");
}

#[test]
fn property_every_reason_and_caution_is_there() {
    for why in words::why_holding() {
        assert!(!why.title.is_empty() && why.source.ends_with('.') && why.leaves_out.ends_with('.'), "{}", why.title);
    }
    assert!(words::holding_cautions().len() >= 3);
}
