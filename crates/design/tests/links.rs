//! What must hold for every link and every text that claims to be one.

mod common;

use common::any_design;
use holdwater_design::link::{open, write};
use holdwater_design::parts::{MOST_PARTS, PART_ROWS};
use holdwater_design::{Input, check};
use proptest::prelude::*;

fn any_key() -> impl Strategy<Value = String> {
    let known: Vec<_> = Input::ALL.iter().map(|input| input.row().key).chain(["v", "name", "log", "end"]).collect();
    let of_parts: Vec<_> = PART_ROWS.iter().map(|row| row.key).collect();
    prop_oneof![
        proptest::sample::select(known).prop_map(str::to_owned),
        (0..28_u32, proptest::sample::select(of_parts)).prop_map(|(number, key)| format!("p{number}.{key}")),
        "[a-z0-9.%+]{0,8}"
    ]
}

fn any_pairs() -> impl Strategy<Value = String> {
    let value = prop_oneof![
        "shell|dome|own|al|a,5,f;b,7,w;c",
        "-?[0-9]{0,4}[.,]?[0-9]{0,4}",
        "(%[0-9a-fA-F]{0,2}|[ -~]){0,12}"
    ];
    proptest::collection::vec((any_key(), value), 0..40).prop_map(|pairs| {
        let pairs: Vec<_> = pairs.into_iter().map(|(key, value)| format!("{key}={value}")).collect();
        pairs.join("&")
    })
}

/// What must hold of whatever was opened: it can be flown, shown and shared.
fn assert_usable(text: &str) {
    let opened = open(text);
    assert_eq!(opened.original, text);
    let _ = opened.design.rocket();
    let again = open(&write(&opened.design));
    assert_eq!(again.design, opened.design);
    assert_eq!((again.complaints, again.remarks), (vec![], vec![]));
    for complaint in opened.complaints {
        assert_eq!(complaint.to_string().lines().count(), 1, "{complaint}");
    }
}

proptest! {
    #[test]
    fn any_text_opens_without_panic(text in any::<String>()) {
        assert_usable(&text);
    }

    #[test]
    fn any_pairs_of_keys_and_values_open_without_panic(text in any_pairs()) {
        assert_usable(&text);
    }

    #[test]
    fn any_text_can_be_checked_for_any_input(text in any::<String>()) {
        for input in Input::ALL {
            if let Err(complaint) = check(input, &text) {
                prop_assert_eq!(complaint.to_string().lines().count(), 1);
            }
        }
    }

    #[test]
    fn any_design_comes_back_and_is_written_again_byte_for_byte(design in any_design(MOST_PARTS, 40)) {
        let link = write(&design);
        let opened = open(&link);
        prop_assert_eq!(&opened.design, &design);
        prop_assert_eq!((opened.complaints, opened.remarks), (vec![], vec![]));
        prop_assert_eq!(write(&opened.design), link);
    }
}

proptest! {
    // Every case opens hundreds of cut links, so fewer cases say as much.
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn a_link_cut_anywhere_is_noticed(design in any_design(2, 2)) {
        let link = write(&design);
        // The empty text is the default design by definition, so one character is the shortest cut link.
        for length in 1..link.len() {
            let opened = open(&link[..length]);
            prop_assert!(!opened.complaints.is_empty() || !opened.remarks.is_empty(), "{}", &link[..length]);
        }
    }

    #[test]
    fn a_link_with_one_character_altered_is_noticed(
        design in any_design(2, 2), at in any::<prop::sample::Index>(), digit in "[0-9]"
    ) {
        let link = write(&design);
        let at = at.index(link.len());
        let altered = format!("{}{digit}{}", &link[..at], &link[at + 1..]);
        let opened = open(&altered);
        let same = opened.design == design;
        prop_assert!(same || !opened.complaints.is_empty() || !opened.remarks.is_empty(), "{}", altered);
    }
}
