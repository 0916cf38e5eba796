//! What a device keeps: lists of designs that merge without loss, their text, and the way back.

use holdwater_design::shelf::{Entry, History, MOST, Reading, Shelf, read, write};
use holdwater_design::{Design, Input, link};
use proptest::prelude::*;

fn link_of(name: &str, delay: f64) -> String {
    let mut design = Design::default();
    design.set_name(name);
    assert_eq!(design.set(Input::Delay, Some(delay)), Ok(()));
    link::write(&design)
}

/// Something done to a shelf at a time.
#[derive(Clone, Debug)]
enum Act {
    Keep(String, String, String),
    Rename(String, String),
    Pin(String, bool),
    Delete(String),
}

fn done(shelf: &mut Shelf, act: &Act, now_s: u64) {
    match act {
        Act::Keep(id, name, link) => drop(shelf.keep(id, name, link, now_s)),
        Act::Rename(id, name) => drop(shelf.rename(id, name, now_s)),
        Act::Pin(id, pinned) => drop(shelf.pin(id, *pinned, now_s)),
        Act::Delete(id) => drop(shelf.delete(id, now_s)),
    }
}

fn any_act() -> impl Strategy<Value = Act> {
    let id = || "[a-d][0-3]";
    let link = prop_oneof![(0.0..15.0).prop_map(|delay| link_of("x", delay)), ".{0,30}", Just("v=1".to_owned())];
    prop_oneof![
        4 => (id(), ".{0,70}", link).prop_map(|(id, name, link)| Act::Keep(id, name, link)),
        1 => (id(), ".{0,20}").prop_map(|(id, name)| Act::Rename(id, name)),
        1 => (id(), any::<bool>()).prop_map(|(id, pinned)| Act::Pin(id, pinned)),
        2 => id().prop_map(Act::Delete),
    ]
}

fn any_shelf() -> impl Strategy<Value = Shelf> {
    (proptest::collection::vec((any_act(), 0_u64..50), 0..40), any::<bool>()).prop_map(|(acts, foreign)| {
        let mut shelf = Shelf::default();
        for (act, now_s) in acts {
            done(&mut shelf, &act, now_s);
        }
        if foreign {
            shelf.merge(read(sealed("shelf=2&id=new&colour=blue").as_bytes()).shelf);
        }
        shelf
    })
}

/// A line with the checksum of the format, FNV-1a of 64 bits, made here anew.
fn sealed(body: &str) -> String {
    let mut hash = 14_695_981_039_346_656_037_u64;
    for byte in body.bytes() {
        hash = (hash ^ u64::from(byte)).wrapping_mul(1_099_511_628_211);
    }
    format!("{body}&sum={hash:016x}")
}

fn merged(a: &Shelf, b: &Shelf) -> Shelf {
    let mut both = a.clone();
    both.merge(b.clone());
    both
}

fn names(entries: &[&Entry]) -> Vec<String> {
    entries.iter().map(|entry| entry.name.clone()).collect()
}

#[test]
fn property_the_newest_comes_first_and_a_search_finds_every_word() {
    let mut shelf = Shelf::default();
    assert!(shelf.keep("a", "Curlew two", &link_of("Curlew two", 0.4), 10));
    assert!(shelf.keep("b", "Möwe ÄÖ", &link_of("", 0.5), 20));
    assert!(shelf.keep("c", "Curlew one", &link_of("", 0.6), 15));
    assert_eq!(names(&shelf.recent()), ["Möwe ÄÖ", "Curlew one", "Curlew two"]);
    assert_eq!(names(&shelf.search("TWO  curl")), ["Curlew two"]);
    assert_eq!(names(&shelf.search("mÖwe äö")), ["Möwe ÄÖ"]);
    assert_eq!(shelf.search("").len(), 3);
    assert!(shelf.keep("a", "Curlew two", &link_of("Curlew two", 0.7), 30));
    assert_eq!(names(&shelf.recent()), ["Curlew two", "Möwe ÄÖ", "Curlew one"]);
}

#[test]
fn property_a_new_name_reaches_the_link_unless_the_link_is_not_understood() {
    let mut shelf = Shelf::default();
    shelf.keep("a", "old", &link_of("old", 0.4), 1);
    shelf.keep("b", "old", "v=9&strange=1", 2);
    assert!(shelf.rename("a", "new\n", 3) && shelf.rename("b", "new", 3) && !shelf.rename("z", "new", 3));
    assert_eq!(shelf.find("a").map(|entry| entry.link.clone()), Some(link_of("new", 0.4)));
    assert_eq!(shelf.find("b").map(|entry| (entry.name.as_str(), entry.link.as_str())), Some(("new", "v=9&strange=1")));
}

#[test]
fn property_what_was_deleted_comes_back_whole_and_stays_away_otherwise() {
    let mut shelf = Shelf::default();
    shelf.keep("a", "one", &link_of("", 0.4), 10);
    shelf.pin("a", true, 11);
    let other_tab = shelf.clone();
    let deleted = shelf.delete("a", 11).unwrap();
    assert!(shelf.recent().is_empty() && shelf.delete("a", 12).is_none());
    // The other tab still has it, but deleted it stays.
    assert!(merged(&shelf, &other_tab).recent().is_empty());
    assert!(merged(&other_tab, &shelf).recent().is_empty());
    shelf.restore(deleted.clone(), 12);
    let back = merged(&other_tab, &shelf);
    assert_eq!(
        back.find("a").map(|entry| (&entry.name, &entry.link, entry.pinned)),
        Some((&deleted.name, &deleted.link, true))
    );
}

#[test]
fn property_designs_with_the_same_link_are_listed_and_deleted_as_one() {
    let mut shelf = Shelf::default();
    shelf.keep("a", "one", &link_of("", 0.4), 10);
    shelf.keep("b", "two", &link_of("", 0.4), 20);
    assert_eq!(names(&shelf.recent()), ["two"]);
    assert!(shelf.delete("b", 30).is_some());
    assert!(shelf.recent().is_empty());
}

#[test]
fn property_two_tabs_lose_nothing_of_each_other() {
    let mut first = Shelf::default();
    first.keep("a", "shared", &link_of("", 0.1), 1);
    let mut second = first.clone();
    first.keep("b", "of the first", &link_of("", 0.2), 2);
    first.keep("a", "shared, changed", &link_of("", 0.3), 3);
    second.keep("c", "of the second", &link_of("", 0.4), 1);
    second.delete("a", 2);
    let both = merged(&first, &second);
    assert_eq!(names(&both.recent()), ["shared, changed", "of the first", "of the second"]);
    assert_eq!(both, merged(&second, &first));
}

#[test]
fn property_a_clock_that_goes_backwards_loses_no_change() {
    let mut shelf = Shelf::default();
    shelf.keep("a", "x", &link_of("", 0.1), 1_000);
    let old = shelf.clone();
    shelf.keep("a", "x", &link_of("", 0.2), 5);
    assert_eq!(merged(&old, &shelf).find("a").map(|entry| entry.link.clone()), Some(link_of("", 0.2)));
}

#[test]
fn property_a_full_shelf_drops_the_oldest_that_are_not_pinned() {
    let mut shelf = Shelf::default();
    for index in 0..MOST + 10 {
        let id = format!("n{index}");
        assert!(shelf.keep(&id, "", &format!("v=1&delay={index}"), index as u64));
        if index < 5 {
            assert!(shelf.pin(&id, true, index as u64));
        }
    }
    assert_eq!(shelf.recent().len(), MOST);
    assert!((0..5).all(|index| shelf.find(&format!("n{index}")).is_some()));
    assert!((5..15).all(|index| shelf.find(&format!("n{index}")).is_none()));
    let text = write(&shelf);
    assert_eq!(read(text.as_bytes()).shelf, shelf);
    let long: String = (0..5_000)
        .map(|index| sealed(&format!("shelf=1&id=x{index}&used={index}&edit=1&link=v%3D1%26n%3D{index}")) + "\n")
        .collect();
    let reading = read(long.as_bytes());
    assert_eq!((reading.shelf.recent().len(), reading.dropped, reading.skipped.len()), (MOST, 5_000 - MOST, 0));
    assert!(reading.shelf.find("x4999").is_some());
}

#[test]
fn property_a_damaged_line_is_told_of_and_the_others_survive() {
    let mut shelf = Shelf::default();
    for (index, id) in ["a", "b", "c"].into_iter().enumerate() {
        shelf.keep(id, id, &link_of(id, 0.5), index as u64);
    }
    let text = write(&shelf).replacen("name=b", "name=8", 1).replace('\n', "\r\n");
    let Reading { shelf: rest, skipped, dropped } = read(text.as_bytes());
    assert_eq!(names(&rest.recent()), ["c", "a"]);
    assert_eq!((skipped.len(), dropped), (1, 0));
    assert_eq!(skipped[0].line, 2);
    assert!(
        skipped[0].to_string().starts_with("Line 2 was damaged or is no design, so it was left out: \"shelf=1&id=b")
    );
}

#[test]
fn property_lines_of_a_newer_page_are_kept_as_they_are() {
    let newer = [
        sealed("shelf=2&id=q&link=whatever"),
        sealed("shelf=1&id=q&used=1&edit=1&link=v%3D1&mood=good"),
        sealed("shelf=1&id=Q&used=1&edit=1&link=v%3D1"),
    ];
    let reading = read(newer.join("\n").as_bytes());
    assert!(reading.skipped.is_empty() && reading.shelf.recent().is_empty());
    let mut shelf = Shelf::default();
    shelf.keep("a", "", "v=1", 1);
    shelf.merge(reading.shelf);
    let text = write(&shelf);
    assert!(newer.iter().all(|line| text.lines().any(|written| written == line)), "{text}");
}

#[test]
fn property_a_list_of_links_is_a_shelf_too() {
    let link = link_of("Curlew", 0.4);
    let text =
        format!("\u{feff}https://example.org/holdwater/#{link}\n\n{link}\nhttps://example.org/?v=1\nhello\n#{link}x\n");
    let reading = read(text.as_bytes());
    assert_eq!(names(&reading.shelf.recent()), ["Curlew"]);
    assert_eq!(reading.shelf.recent()[0].link, link);
    assert_eq!(reading.skipped.iter().map(|skipped| skipped.line).collect::<Vec<_>>(), [4, 5, 6]);
}

#[test]
fn property_what_cannot_be_kept_is_refused() {
    let mut shelf = Shelf::default();
    for id in ["", "A", "a b", "ä", &"a".repeat(33)] {
        assert!(!shelf.keep(id, "", "v=1", 1), "{id}");
    }
    assert!(!shelf.keep("a", "", &"x".repeat(40_001), 1));
    assert_eq!(shelf, Shelf::default());
}

fn back(history: &mut History) -> Option<String> {
    history.undo().map(str::to_owned)
}

fn again(history: &mut History) -> Option<String> {
    history.redo().map(str::to_owned)
}

fn owned(text: Option<&str>) -> Option<String> {
    text.map(str::to_owned)
}

#[test]
fn property_quick_edits_of_one_thing_are_one_step() {
    let mut history = History::new("0");
    history.note("1", "delay", 1_000);
    history.note("2", "delay", 1_500);
    history.note("3", "delay", 2_400);
    history.note("4", "b.vol", 2_500);
    history.note("5", "b.vol", 9_000);
    assert_eq!(
        [back(&mut history), back(&mut history), back(&mut history)],
        [Some("4"), Some("3"), Some("0")].map(owned)
    );
    assert!(!history.can_undo() && history.can_redo());
    assert_eq!([back(&mut history), again(&mut history)], [None, Some("3")].map(owned));
    // What follows a step back is a step of its own, and ends what could be taken again.
    history.note("6", "delay", 2_400);
    assert_eq!([again(&mut history), back(&mut history), back(&mut history)], [None, Some("3"), Some("0")].map(owned));
}

#[test]
fn property_dragging_there_and_back_leaves_no_step() {
    let mut history = History::new("0");
    history.note("1", "", 0);
    for (time, link) in ["2", "3", "1"].into_iter().enumerate() {
        history.note(link, "delay", time as u64);
    }
    assert_eq!([back(&mut history), back(&mut history)], [Some("0"), None].map(owned));
}

proptest! {
    #[test]
    fn property_a_written_shelf_reads_as_the_same(shelf in any_shelf()) {
        let text = write(&shelf);
        let reading = read(text.as_bytes());
        prop_assert_eq!(&reading.shelf, &shelf);
        prop_assert!(reading.skipped.is_empty() && reading.dropped == 0);
        prop_assert_eq!(write(&reading.shelf), text);
    }

    #[test]
    fn property_merging_does_not_depend_on_order_and_twice_is_once(a in any_shelf(), b in any_shelf(), c in any_shelf()) {
        prop_assert_eq!(merged(&a, &b), merged(&b, &a));
        prop_assert_eq!(merged(&merged(&a, &b), &c), merged(&a, &merged(&b, &c)));
        prop_assert_eq!(merged(&merged(&a, &b), &b), merged(&a, &b));
        prop_assert_eq!(merged(&a, &a), a);
    }

    #[test]
    fn property_a_change_is_newer_than_what_it_changed(shelf in any_shelf(), act in any_act(), now_s in 0_u64..60) {
        let mut changed = shelf.clone();
        done(&mut changed, &act, now_s);
        prop_assert_eq!(merged(&shelf, &changed), changed);
    }

    #[test]
    fn property_any_bytes_are_read(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        let reading = read(&bytes);
        prop_assert_eq!(read(write(&reading.shelf).as_bytes()).shelf, reading.shelf);
    }

    #[test]
    fn property_a_shelf_with_bytes_knocked_out_is_read(shelf in any_shelf(), hits in proptest::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..6)) {
        let mut bytes = write(&shelf).into_bytes();
        for (place, byte) in hits {
            if !bytes.is_empty() {
                let index = place.index(bytes.len());
                bytes[index] = byte;
            }
        }
        let reading = read(&bytes);
        for skipped in &reading.skipped {
            prop_assert_eq!(skipped.to_string().lines().count(), 1);
        }
        // Whatever was read was there before.
        prop_assert!(reading.shelf.recent().iter().all(|entry| shelf.find(&entry.id) == Some(*entry)));
    }

    #[test]
    fn property_any_body_with_a_right_checksum_is_read(body in "shelf=[12](&(id|used|gone|edit|pin|name|link)=[a-z0-9%+]{0,6}){0,7}") {
        let reading = read(sealed(&body).as_bytes());
        prop_assert_eq!(read(write(&reading.shelf).as_bytes()).shelf, reading.shelf);
    }

    #[test]
    fn property_a_history_goes_back_and_forth_the_same_way(edits in proptest::collection::vec((0_u8..5, 0_u8..3, 0_u64..3_000, 0_u8..6), 0..500)) {
        let mut history = History::new("start");
        let mut present = "start".to_owned();
        let mut now_ms = 0;
        for (link, what, pause, kind) in edits {
            now_ms += pause;
            let moved = match kind {
                0 => back(&mut history),
                1 => again(&mut history),
                _ => {
                    history.note(&link.to_string(), ["", "a", "b"][what as usize], now_ms);
                    Some(link.to_string())
                }
            };
            present = moved.unwrap_or(present);
            let mut there = history.clone();
            let mut back = Vec::new();
            while let Some(link) = there.undo() {
                back.push(link.to_owned());
            }
            prop_assert!(back.len() <= 200);
            back.pop();
            while let Some(link) = back.pop() {
                prop_assert_eq!(there.redo(), Some(link.as_str()));
            }
            if history.can_undo() {
                prop_assert_eq!(there.redo(), Some(present.as_str()));
            }
        }
    }
}
