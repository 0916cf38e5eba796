use super::complaint::LISTED;
use super::*;
use crate::rows::Input;

fn sentences(text: &str) -> Vec<String> {
    open(text).complaints.iter().map(ToString::to_string).collect()
}

#[test]
fn the_default_design_is_the_version_and_a_checksum() {
    let link = write(&Design::default());
    assert!(link.starts_with("v=1&end="), "{link}");
    assert_eq!(link.len(), "v=1&end=".len() + 6);
}

#[test]
fn an_empty_text_is_the_default_design_without_complaint() {
    for text in ["", " ", "#", "https://example.org/holdwater/"] {
        let opened = open(text);
        assert_eq!(opened.design, Design::default());
        assert_eq!((opened.complaints, opened.remarks), (vec![], vec![]));
    }
}

#[test]
fn only_changed_values_are_written_in_the_order_of_the_table() {
    let mut design = Design::default();
    assert!(design.set_name("Low tide"));
    assert_eq!(design.set(Input::Delay, Some(0.4)), Ok(()));
    assert_eq!(design.set(Input::BoosterVolume, Some(8.0)), Ok(()));
    let link = write(&design);
    assert!(link.starts_with("v=1&name=Low%20tide&b.vol=8&delay=0.4&end="), "{link}");
}

#[test]
fn a_written_link_holds_nothing_a_forum_would_take_for_markup() {
    let mut design = Design::default();
    assert!(design.set_name("a*b|c+d[e](f)<g>\"h\"#i"));
    let link = write(&design);
    assert!(link.chars().all(|c| c.is_ascii_alphanumeric() || "-_.%=&".contains(c)), "{link}");
    assert_eq!(open(&link).design, design);
}

#[test]
fn a_link_without_checksum_gets_a_quiet_remark_only() {
    let opened = open("v=1&delay=0.4");
    assert_eq!((opened.complaints, opened.remarks), (vec![], vec![Remark::NoChecksum]));
    assert_eq!(opened.design.get(Input::Delay), Some(0.4));
}

#[test]
fn a_wrong_checksum_is_announced_and_the_design_opens_all_the_same() {
    let opened = open("v=1&delay=0.4&end=abcdef");
    assert_eq!(opened.complaints, [LinkComplaint::Altered { given: "abcdef".to_owned() }]);
    assert_eq!(opened.design.get(Input::Delay), Some(0.4));
    assert!(sentences("v=1&end=a")[0].starts_with("This link seems to have been cut short or altered"));
}

#[test]
fn a_value_slipped_in_behind_the_checksum_is_announced() {
    let link = format!("{}&delay=0.4", write(&Design::default()));
    assert_eq!(open(&link).complaints.first().map(LinkComplaint::key), Some("end"));
}

#[test]
fn rewriting_that_does_not_change_the_design_is_survived() {
    let mut design = Design::default();
    assert!(design.set_name("Möwe am Meer"));
    let link = write(&design);
    for mangled in [
        link.replace("%20", "+"),
        link.replace("%20", " ").replace("%C3%B6", "ö"),
        link.replace('&', "&amp;"),
        format!("(https://example.org/#{link})."),
        format!(" {link}\n"),
        link.replace("&end", "&\nend"),
    ] {
        let opened = open(&mangled);
        assert_eq!((opened.complaints, opened.remarks), (vec![], vec![]), "{mangled}");
        assert_eq!(opened.design, design, "{mangled}");
        assert_eq!(opened.original, mangled);
    }
}

#[test]
fn a_parameter_added_by_a_messenger_is_the_only_thing_complained_about() {
    let link = format!("{}&sent.by=somebody", write(&Design::default()));
    let opened = open(&link);
    assert_eq!(opened.complaints.iter().map(LinkComplaint::key).collect::<Vec<_>>(), ["sent.by"]);
}

#[test]
fn complaints_name_key_value_what_is_allowed_and_what_is_used() {
    assert_eq!(
        sentences("v=1&b.nozzle=900"),
        ["Nozzle throat (b.nozzle): \"900\" is out of range. Allowed: 2 to 120 mm. Using 21.5 mm meanwhile."]
    );
    assert_eq!(
        sentences("v=1&b.nozle=20"),
        [
            "\"b.nozle\" is no key of a link, so its value \"20\" was not used. Allowed: the keys in the table of inputs."
        ]
    );
    assert_eq!(
        sentences("v=1&delay=0.4&delay=0.5"),
        ["delay stands in the link more than once, so its later value \"0.5\" was not used. \
          Allowed: each key once. Using the first: 0.4 s."]
    );
    assert_eq!(
        sentences("delay=0.4"),
        ["This link does not say its version (v). Allowed: v=1. Reading it as version 1."]
    );
    assert_eq!(
        sentences("v=2&delay=0.4"),
        ["This link has version (v) \"2\", which this page does not know. Allowed: up to 1. \
          Reading it as version 1; a reload may bring a newer page."]
    );
}

#[test]
fn a_repeated_checksum_or_version_is_complained_about() {
    assert_eq!(open("v=1&v=2").complaints.iter().map(LinkComplaint::key).collect::<Vec<_>>(), ["v"]);
    let twice = format!("{}&end=000000", write(&Design::default()));
    assert!(!open(&twice).complaints.is_empty());
}

#[test]
fn an_over_long_name_is_cut_with_a_complaint() {
    let opened = open(&format!("v=1&name={}", "n".repeat(61)));
    assert_eq!(opened.design.name(), "n".repeat(60));
    assert_eq!(opened.complaints.iter().map(LinkComplaint::key).collect::<Vec<_>>(), ["name"]);
}

#[test]
fn a_flood_of_bad_keys_is_counted_rather_than_listed() {
    let flood: String = (0..100_000).map(|number| format!("&x{number}=1")).collect();
    let complaints = open(&format!("v=1{flood}&end=000000")).complaints;
    assert_eq!(complaints.first().map(LinkComplaint::key), Some("end"));
    assert_eq!(complaints.last(), Some(&LinkComplaint::More(100_000 - LISTED)));
    assert_eq!(complaints.len(), LISTED + 2);
}

#[test]
fn every_complaint_is_one_line_whatever_the_link_holds() {
    for text in ["v=%0a&%0a=%0d&name=%0a&delay=%0a&delay=%0a&end=%0a", "%E2%80%A8=1"] {
        assert!(sentences(text).iter().all(|sentence| sentence.lines().count() == 1), "{text}");
    }
}
