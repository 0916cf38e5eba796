//! Vessel parts in designs and links.

#![allow(clippy::unwrap_used, reason = "a panic is how a test fails")]

mod common;

use common::{any_design, any_entry, any_part};
use holdwater_design::link::{Opened, Remark, open, write};
use holdwater_design::measure::{System, check_part};
use holdwater_design::parts::{
    LogEntry, MOST_PARTS, PART_ROWS, PartInput, PartKind, PartMaterial, PartProblem, PartStage, Value, VesselPart,
    usual_parts,
};
use holdwater_design::shelf::LINK_LIMIT;
use holdwater_design::{Design, Input, Problem, log};
use holdwater_physics::vessel::part::Kind;
use proptest::prelude::*;

fn keys(opened: &Opened) -> Vec<&str> {
    opened.complaints.iter().map(|complaint| complaint.key()).collect()
}

fn sentences(text: &str) -> Vec<String> {
    open(text).complaints.iter().map(ToString::to_string).collect()
}

fn with_parts(parts: Vec<VesselPart>) -> Design {
    let mut design = Design::default();
    assert_eq!(design.set_parts(parts), 0);
    design
}

#[test]
fn property_a_part_is_written_by_its_kind_and_what_differs() {
    let mut shell = VesselPart::new(PartKind::Shell);
    assert!(shell.set_name("A 1"));
    assert_eq!(shell.set(PartInput::Stage, Value::Word(PartStage::Booster as usize)), Ok(()));
    assert_eq!(shell.set(PartInput::Wall, Value::Number(Some(0.35))), Ok(()));
    let design = with_parts(vec![shell, VesselPart::new(PartKind::Flat)]);
    let link = write(&design);
    assert!(
        link.starts_with("v=1&p1.kind=shell&p1.stage=booster&p1.name=A%201&p1.wall=0.35&p2.kind=flat&end="),
        "{link}"
    );
    assert_eq!(open(&link).design, design);
}

#[test]
fn property_a_default_of_another_kind_moves_with_the_kind_and_what_is_not_asked_goes() {
    let mut part = VesselPart::new(PartKind::Shell);
    assert_eq!(part.material(), PartMaterial::Pet);
    assert_eq!(part.set(PartInput::Kind, Value::Word(PartKind::Pinned as usize)), Ok(()));
    assert_eq!((part.material(), part.number(PartInput::Wall)), (PartMaterial::Aluminium, Some(1.5)));
    assert_eq!(part.set(PartInput::Wall, Value::Number(Some(0.3))), Ok(()));
    assert_eq!(part.set(PartInput::Pins, Value::Number(Some(8.0))), Ok(()));
    assert_eq!(part.set(PartInput::Kind, Value::Word(PartKind::Shell as usize)), Ok(()));
    // 0.3 is the default of a shell, so both are the same part again.
    assert_eq!(part, VesselPart::new(PartKind::Shell));
    assert_eq!(part.set(PartInput::Strength, Value::Number(Some(50.0))), Err(PartProblem::NotAsked));
    assert_eq!(part.set_text(PartInput::Material, " OWN "), Ok(()));
    assert_eq!(part.set_text(PartInput::Strength, "50,5"), Ok(()));
    part.reset(PartInput::Material);
    assert_eq!(part, VesselPart::new(PartKind::Shell));
}

#[test]
fn property_what_is_no_allowed_answer_changes_nothing() {
    let mut part = VesselPart::new(PartKind::Dome);
    let before = part.clone();
    for (input, text, problem) in [
        (PartInput::Wall, "x", PartProblem::Number(Problem::NotANumber)),
        (PartInput::Wall, "", PartProblem::Number(Problem::Missing)),
        (PartInput::Wall, "51", PartProblem::Number(Problem::OutOfRange)),
        (PartInput::Cycles, "1.5", PartProblem::Number(Problem::NotWhole)),
        (PartInput::Kind, "ball", PartProblem::NoSuchWord),
        (PartInput::Material, "", PartProblem::NoSuchWord),
        (PartInput::Overlap, "5", PartProblem::NotAsked),
    ] {
        assert_eq!(part.set_text(input, text), Err(problem), "{} {text}", input.row().key);
        assert_eq!(part, before);
    }
    assert!(
        part.set(PartInput::Wall, Value::Word(0)).is_err() && part.set(PartInput::Kind, Value::Number(None)).is_err()
    );
    assert!(
        part.set(PartInput::Material, Value::Word(99)).is_err() && part.set(PartInput::Name, Value::Word(0)).is_err()
    );
    assert_eq!(part, before);
}

#[test]
fn property_complaints_name_key_value_what_is_allowed_and_what_is_used() {
    assert_eq!(
        sentences("v=1&p1.kind=shell&p1.wall=90"),
        ["Wall (p1.wall): \"90\" is out of range. Allowed: 0.05 to 50 mm. Using 0.3 mm meanwhile."]
    );
    assert_eq!(
        sentences("v=1&p2.kind=ball"),
        [
            "Kind (p2.kind): \"ball\" is not a word that is known here. Allowed: shell, dome, splice, screwed, flat, pinned, external, \
          tested. Using Shell meanwhile."
        ]
    );
    assert_eq!(
        sentences("v=1&p1.kind=tested&p1.bore=50"),
        [
            "Bore (p1.bore): \"50\" was not used, since this is not asked of part 1 (known by test only). Allowed for it: kind, stage, \
          name, count, mat, burst, proof, cycles, at."
        ]
    );
    assert_eq!(
        sentences("v=1&p3.wall=1"),
        [
            "p3.kind is not in the link, so it does not say what that part is. Allowed: shell, dome, splice, screwed, flat, pinned, \
          external, tested. Using shell meanwhile."
        ]
    );
    assert_eq!(
        sentences("v=1&p25.kind=shell"),
        ["p25.kind is a part too many, so its value \"shell\" was not used. Allowed: p1 to p24."]
    );
    assert_eq!(
        sentences("v=1&p1.kind=shell&p1.burst=12&p1.burst=13"),
        [
            "p1.burst stands in the link more than once, so its later value \"13\" was not used. Allowed: each key once. Using the \
          first: 12 bar."
        ]
    );
    assert_eq!(
        sentences("v=1&p1.kind=shell&p1.name=a%0ab"),
        [
            "Name (p1.name): \"a\u{fffd}b\" cannot be used as it is. Allowed: 40 characters without line breaks. Using \"ab\" meanwhile."
        ]
    );
    for unknown in
        ["p1.wal", "p0.wall", "p01.wall", "p.wall", "p+1.wall", "P1.wall", "p1.", "p99999999999999999999.wall"]
    {
        assert!(sentences(&format!("v=1&{unknown}=1"))[0].contains("is no key of a link"), "{unknown}");
    }
}

#[test]
fn property_the_order_of_keys_does_not_matter_and_gaps_are_closed_in_words() {
    let opened = open("v=1&p7.overlap=55&p2.wall=0.4&p7.kind=splice&p2.kind=shell");
    assert_eq!(opened.complaints, []);
    assert_eq!(opened.remarks, [Remark::PartsRenumbered, Remark::NoChecksum]);
    let kinds: Vec<_> = opened.design.parts().iter().map(VesselPart::kind).collect();
    assert_eq!(kinds, [PartKind::Shell, PartKind::Splice]);
    assert_eq!(open(&write(&opened.design)).remarks, []);
    // What a link says of a part is complained about by the number in that link.
    assert_eq!(keys(&open("v=1&p7.kind=dome&p7.wall=x")), ["p7.wall"]);
}

#[test]
fn property_a_log_travels_and_what_of_it_cannot_is_named() {
    let mut design = Design::default();
    assert_eq!(design.set_log(&log::read("A 1, 84, failed\n120.5, whole\n\"x,y\", 7, burst\n").entries()), 0);
    let link = write(&design);
    assert!(link.starts_with("v=1&log=A%201%2C84%2Cf%3B120.5%2Cw%3Bx%20y%2C7%2Cf&end="), "{link}");
    assert_eq!(open(&link).design, design);
    assert_eq!(
        sentences("v=1&log=A,84,f;B,many,w;C,5"),
        [
            "Log (log): Line 2: \"many\" is no plain number of cycles. Allowed: rows of part, fills and f (failed) or w (whole), \
             joined by semicolons. Using the other rows.",
            "Log (log): Line 3: \"C\" is no plain number of cycles. Allowed: rows of part, fills and f (failed) or w (whole), \
             joined by semicolons. Using the other rows."
        ]
    );
    // Headings and remarks are for logs that are typed; a link does not lose them in silence.
    for text in ["v=1&log=part,cycles", "v=1&log=A,5,w;%23B,6,w", "v=1&log=A,5,w&log=B,6,w", "v=1&log=A"] {
        assert_eq!(keys(&open(text)), ["log"], "{text}");
    }
}

#[test]
fn property_a_log_beyond_a_link_is_cut_and_counted() {
    let entry = LogEntry { part: "bottle".to_owned(), cycles: 100.0, failed: false };
    let mut design = Design::default();
    let left_out = design.set_log(&vec![entry; 1000]);
    assert!(left_out > 0 && design.log().len() + left_out == 1000 && design.log().len() > 300);
    assert_eq!(open(&write(&design)).design, design);
    for cycles in [0.0, -1.0, f64::NAN, f64::INFINITY, 2e6] {
        assert_eq!(design.set_log(&[LogEntry { part: String::new(), cycles, failed: true }]), 1);
    }
}

#[test]
fn property_parts_beyond_the_most_are_counted() {
    let mut design = Design::default();
    assert_eq!(design.set_parts(vec![VesselPart::new(PartKind::Dome); MOST_PARTS + 3]), 3);
    assert_eq!(design.parts().len(), MOST_PARTS);
}

#[test]
fn property_the_usual_parts_are_shells_and_domes_of_the_stages_that_fly() {
    let mut design = Design::default();
    let names = |design: &Design| usual_parts(design).iter().map(|part| part.name().to_owned()).collect::<Vec<_>>();
    assert_eq!(names(&design), ["Booster shell", "Booster dome", "Sustainer shell", "Sustainer dome"]);
    assert_eq!(design.set(Input::BoosterCount, Some(3.0)), Ok(()));
    assert_eq!(usual_parts(&design)[0].number(PartInput::Count), Some(3.0));
    assert_eq!(design.set(Input::Stages, Some(1.0)), Ok(()));
    assert_eq!(names(&design), ["Sustainer shell", "Sustainer dome"]);
}

#[test]
fn property_a_part_reaches_the_physics_in_si_units() {
    let design = Design::default();
    let shell = VesselPart::new(PartKind::Shell);
    assert_eq!(design.solid(&shell).kind, Kind::Shell { bore_m: 0.088, wall_m: 0.0003 });
    let mut booster = shell.clone();
    assert_eq!(booster.set_text(PartInput::Stage, "booster"), Ok(()));
    assert_eq!(booster.set_text(PartInput::Burst, "12"), Ok(()));
    let solid = design.solid(&booster);
    assert_eq!(solid.kind, Kind::Shell { bore_m: 0.105, wall_m: 0.0003 });
    assert_eq!(solid.burst.map(|test| test.pressure_pa), Some(12e5));
    // Nothing is invented where nothing is known.
    assert_eq!(design.solid(&VesselPart::new(PartKind::Screwed)).kind, Kind::Tested);
    let factors = design.factors();
    assert_eq!(factors, holdwater_physics::vessel::lines::Factors::DEFAULT);
}

#[test]
fn property_a_field_of_a_part_is_checked_in_the_units_of_the_reader() {
    let check = |input, text| check_part((3, PartKind::Pinned), input, text, System::Us, Some(1.5));
    assert_eq!(check(PartInput::Wall, "1/16 in"), Some(Ok(Some(1.5875))));
    assert_eq!(check(PartInput::PinStrength, "300 MPa"), Some(Ok(Some(300.0))));
    assert!(check(PartInput::Name, "x").is_none());
    let complaint = check(PartInput::Wall, "9").unwrap().unwrap_err();
    assert_eq!(complaint.key, "p3.wall");
    assert_eq!(
        complaint.to_string(),
        "Wall (p3.wall): \"9\" is out of range. Allowed: 0.001969 to 1.968 in. Using 0.059055 in meanwhile."
    );
}

#[test]
fn property_the_longest_link_fits_what_a_device_keeps() {
    let mut part = VesselPart::new(PartKind::Splice);
    part.set_name(&"\u{1f680}".repeat(40));
    assert_eq!(part.set_text(PartInput::Material, "own"), Ok(()));
    for row in &PART_ROWS {
        if let Some(facts) = row.input.facts(PartKind::Splice).filter(|_| part.asks(row.input)) {
            let value =
                if facts.is_whole() { facts.max } else { facts.nearest(facts.min + (facts.max - facts.min) / 7.0) };
            assert_eq!(part.set(row.input, Value::Number(Some(value))), Ok(()));
        }
    }
    let mut design = with_parts(vec![part; MOST_PARTS]);
    design.set_name(&"\u{1f680}".repeat(60));
    for input in Input::ALL {
        let row = input.row();
        let value = if row.is_whole() { row.max } else { row.nearest(row.min + (row.max - row.min) / 7.0) };
        assert_eq!(design.set(input, Some(value)), Ok(()));
    }
    design.set_log(&vec![LogEntry { part: "\u{1f680}".repeat(40), cycles: 1e3 / 7.0, failed: true }; 1000]);
    let link = write(&design);
    assert!(link.len() <= LINK_LIMIT, "{}", link.len());
    assert_eq!(open(&link).design, design);
}

proptest! {
    #[test]
    fn property_any_parts_come_back(parts in proptest::collection::vec(any_part(), 0..=MOST_PARTS)) {
        let design = with_parts(parts);
        let opened = open(&write(&design));
        prop_assert_eq!(&opened.design, &design);
        prop_assert_eq!((opened.complaints, opened.remarks), (vec![], vec![]));
        for part in design.parts() {
            // Whatever the table allows the physics takes or refuses by name.
            let _ = design.solid(part).check();
        }
    }

    #[test]
    fn property_any_log_comes_back(entries in proptest::collection::vec(any_entry(), 0..60)) {
        let mut design = Design::default();
        let left_out = design.set_log(&entries);
        prop_assert_eq!(design.log().len() + left_out, entries.len());
        let opened = open(&write(&design));
        prop_assert_eq!(&opened.design, &design);
        prop_assert_eq!((opened.complaints, opened.remarks), (vec![], vec![]));
    }

    #[test]
    fn property_any_text_for_any_answer_is_taken_or_named(part in any_part(), key in 0..PartInput::COUNT, text in any::<String>()) {
        let mut part = part;
        let input = PartInput::ALL[key];
        let before = part.clone();
        if part.set_text(input, &text).is_err() && input != PartInput::Name {
            prop_assert_eq!(&part, &before);
        }
        let design = with_parts(vec![part]);
        prop_assert_eq!(open(&write(&design)).design, design);
    }

    #[test]
    fn property_designs_with_parts_are_equal_only_to_themselves(one in any_design(3, 3), other in any_design(3, 3)) {
        prop_assert_eq!(write(&one) == write(&other), one == other);
    }
}
