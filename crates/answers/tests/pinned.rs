//! What the command line prints of a link that holds two designs.

use holdwater_answers::evaluate_json;
use serde_json::Value;

fn printed(link: &str) -> Value {
    evaluate_json(link).ok().and_then(|line| serde_json::from_str(&line).ok()).unwrap_or_default()
}

#[test]
fn property_a_pinned_design_stands_under_a_key_of_its_own_and_changes_nothing_else() {
    let (own, pinned) = ("v=1&delay=0.4", "v=1&delay=0.6&s.dry=0.25");
    let mut both = printed(&format!("https://example.org/#{own}~{pinned}"));
    let other = both.as_object_mut().unwrap().remove("pinned");
    assert_eq!(other, Some(printed(pinned)));
    assert_eq!(both, printed(own));
    assert!(both["apogee_m"].is_f64());
    assert!(!evaluate_json(own).unwrap().contains("pinned"));
}

#[test]
fn property_a_tilde_in_a_name_is_no_second_design() {
    assert_eq!(evaluate_json("v=1&name=High~Low"), evaluate_json("v=1&name=High%7ELow"));
}

#[test]
fn property_a_complaint_says_which_design_it_is_about() {
    assert_eq!(
        evaluate_json("v=1~v=1&delay=x").unwrap_err(),
        evaluate_json("v=1&delay=x").unwrap_err().iter().map(|c| format!("the pinned design: {c}")).collect::<Vec<_>>()
    );
}
