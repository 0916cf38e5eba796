//! Questions 3 and 4: parts entered, broken and mended, a log pasted, fills counted, the stand-off read.

use acceptance::harness::{Device, Outcome, Page, dist, laptop, phone, visit};
use holdwater_answers::vessels::{
    AGE_CAUTIONS, FIELD_CHECKLIST, PROOF_CAUTIONS, STAND_CAUTIONS, VESSEL_CAUTIONS, Vessels, age_sentences,
    part_sentence, proof_sentence, stage_sentences, stand, stand_sentences, stand_verdict, vessel_verdict,
};
use holdwater_design::link;
use holdwater_design::parts::{MOST_PARTS, PartInput, PartKind};
use serde_json::Value;

use crate::asked::{evaluated, lines_in, list, open_all, paste, plain, said, settled, texts, unfold, written};
use crate::shown::{assert_answers, tap_part};

const KIND: &str = "[data-test=\"part-5-kind\"]";
const SEAM: &str = "[data-test=\"part-5-name\"]";
const WALL: &str = "[data-test=\"part-5-wall\"]";
const OVERLAP: &str = "[data-test=\"part-5-overlap\"]";
const LOG: &str = "[data-test=\"part-log\"]";
const FILL: &str = "[data-test=\"field-s.fill\"]";

/// Questions 3 and 4 on the page are what the fragment answers; returns what the command line prints.
async fn assert_vessels(page: &Page, fragment: &str) -> Outcome<Value> {
    assert_answers(page, fragment).await?;
    let design = link::open(fragment).design;
    let (vessels, stand) = (Vessels::of(&design), stand(&design));
    assert_eq!(said(page, "vessel-verdict").await?, plain(&vessel_verdict(&vessels)));
    let all_written = |lines: Vec<String>| lines.iter().map(|line| written(line)).collect::<Vec<_>>();
    assert_eq!(list(page, "vessel-warnings").await?, all_written(vessels.warnings.clone()));
    assert_eq!(list(page, "stage-fills").await?, all_written(stage_sentences(&vessels)));
    assert_eq!(list(page, "ages").await?, all_written(age_sentences(&vessels)));
    let each: Vec<String> = vessels.parts.iter().map(|part| written(&part_sentence(part))).collect();
    assert_eq!(texts(page, ".part-list .says").await?, each, "a sentence for each part, in the order of the link");
    let proofs = vessels.parts.iter().map(|part| written(&format!("{}. {}", part.name, proof_sentence(part))));
    assert_eq!(list(page, "proofs").await?, proofs.collect::<Vec<_>>());
    assert_eq!(said(page, "stand-verdict").await?, plain(&stand_verdict(&stand)));
    assert_eq!(texts(page, ".stand > .plain > li").await?, all_written(stand_sentences(&stand)));

    // The drawing has a bar for each part with a margin, the weakest first, and names all parts.
    let held = vessels.parts.iter().filter(|part| part.held.is_ok()).count();
    assert_eq!(texts(page, "[data-test=\"margins\"] rect.bar").await?.len(), held);
    let mut named = texts(page, "[data-test=\"margins\"] .label.part").await?;
    assert_eq!(named.first(), vessels.weakest().map(|part| &part.name), "the weakest comes first");
    named.sort();
    let mut names: Vec<String> = vessels.parts.iter().map(|part| part.name.clone()).collect();
    names.sort();
    assert_eq!(named, names);

    let answers = evaluated(fragment)?;
    let weakest = answers["vessel"]["weakest"].as_str().ok_or("something is the weakest")?;
    assert!(said(page, "vessel-verdict").await?.contains(weakest), "{weakest} is named");
    for stage in answers["vessel"]["stages"].as_array().into_iter().flatten() {
        let highest = stage["highest_fill_bar"].as_f64().ok_or("there is a highest fill")?;
        let short = format!("{highest:.1}").trim_end_matches(".0").to_owned();
        let fills = list(page, "stage-fills").await?;
        assert!(fills.iter().any(|line| line.contains(&format!(" {short} bar, set by"))), "{short} in {fills:?}");
    }
    assert_stand(page, &answers["standoff"]).await?;
    Ok(answers)
}

/// Energy, TNT and distance are what the command line prints, as they are rounded for reading.
async fn assert_stand(page: &Page, standoff: &Value) -> Outcome {
    let big = texts(page, "[data-test=\"stand-verdict\"] .deciding").await?;
    let printed = ["energy_j", "tnt_kg", "distance_m"].map(|key| standoff[key].as_f64().unwrap_or(f64::NAN));
    let [energy_j, tnt_kg, distance_m] = printed;
    for (shown, (value, unit)) in big.iter().zip([(energy_j, "J"), (1e3 * tnt_kg, "g"), (distance_m.ceil(), "m")]) {
        let (number, symbol) = shown.split_once('\u{2009}').ok_or("a number and its unit")?;
        let number: f64 = number.parse()?;
        assert!(symbol == unit && (number / value - 1.0).abs() < 0.006, "{shown} for {value} {unit}");
    }
    assert_eq!(big.len(), 3, "{big:?}");
    Ok(())
}

/// Every caution stands on the page beside its numbers.
async fn assert_cautions(page: &Page) -> Outcome {
    let beside = [
        (".vessels > .beside > li", &VESSEL_CAUTIONS[..]),
        (".age > .beside > li", &AGE_CAUTIONS),
        (".proofs .beside > li", &PROOF_CAUTIONS),
        (".stand > .beside > li", &STAND_CAUTIONS),
        (".stand .checklist > li", &FIELD_CHECKLIST),
    ];
    for (css, cautions) in beside {
        assert_eq!(texts(page, css).await?, cautions, "{css}");
    }
    Ok(())
}

/// The usual parts and a splice with a name.
async fn enter_parts(page: &Page) -> Outcome {
    page.tap("[data-test=\"usual-parts\"]").await?;
    page.wait_for("[data-test=\"part-4\"]").await?;
    page.tap("[data-test=\"part-add\"]").await?;
    unfold(page, "[data-test=\"part-5\"]").await?;
    let splice = PartKind::ALL.iter().position(|kind| *kind == PartKind::Splice).unwrap_or(0);
    page.wait_for(KIND).await?.select_by_value(&splice.to_string()).await?;
    page.wait_for(OVERLAP).await?;
    page.type_into(SEAM, "Seam").await?;
    assert_eq!(texts(page, "[data-test=\"part-5\"]").await?, ["Seam"]);
    Ok(())
}

async fn parts_are_entered_broken_and_mended(device: Device, picture: &'static str) -> Outcome {
    visit(device, &dist()?, move |page| async move {
        open_all(&page, "v=1&name=Avocet").await?;
        assert!(said(&page, "vessel-verdict").await?.starts_with("No parts are entered"));
        enter_parts(&page).await?;
        let fragment = settled(&page).await?;
        let whole = assert_vessels(&page, &fragment).await?;
        assert_eq!(whole["vessel"]["parts"].as_array().map(Vec::len), Some(5));
        assert_cautions(&page).await?;
        page.center("[data-test=\"margins\"]").await?;
        page.screenshot(picture).await?;

        // An overlap of nothing is no allowed value: the field says so and the last good one counts.
        page.type_into(OVERLAP, "0").await?;
        let complaint = page.text("#part-5-overlap-complaint").await?;
        assert!(complaint.contains("1 to 500 mm") && complaint.contains("40 mm"), "{complaint}");
        assert_eq!(page.wait_for(OVERLAP).await?.attr("aria-invalid").await?.as_deref(), Some("true"));
        assert_eq!(settled(&page).await?, fragment);
        page.type_into(OVERLAP, "40").await?;
        assert_eq!(page.text("#part-5-overlap-complaint").await?, "");

        // A wall wider than the radius is allowed by itself and contradicts the bore.
        page.type_into(WALL, "45").await?;
        let broken = settled(&page).await?;
        let answers = assert_vessels(&page, &broken).await?;
        let warnings = list(&page, "vessel-warnings").await?;
        assert!(warnings.iter().any(|line| line.contains("Seam: its wall of 45 mm is wider")), "{warnings:?}");
        assert_eq!(answers["vessel"]["least_margin"], Value::Null);
        for place in 0..4 {
            let (now, before) = (&answers["vessel"]["parts"][place], &whole["vessel"]["parts"][place]);
            assert_eq!(now["margin"], before["margin"], "the others still answer");
        }
        page.type_into(WALL, "0.3").await?;
        assert_eq!(assert_vessels(&page, &settled(&page).await?).await?, whole);

        // However soon it follows upon typing, a tap is taken back alone.
        page.type_into(WALL, "0.31").await?;
        page.type_into(WALL, "0.3").await?;
        page.tap(".part-list li:nth-child(5) [data-test=\"part-remove\"]").await?;
        let fragment = settled(&page).await?;
        assert!(!fragment.contains("p5."), "{fragment}");
        assert_vessels(&page, &fragment).await?;
        page.tap("[data-test=\"undo\"]").await?;
        assert_eq!(assert_vessels(&page, &settled(&page).await?).await?, whole, "the part is back");
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_phone_enters_parts_breaks_one_and_mends_it() -> Outcome {
    parts_are_entered_broken_and_mended(phone(), "phone-vessels").await
}

#[tokio::test]
async fn a_laptop_enters_parts_breaks_one_and_mends_it() -> Outcome {
    parts_are_entered_broken_and_mended(laptop(), "laptop-vessels").await
}

/// A log as a spreadsheet gives it: a line of heads, 30 parts, and between them three lines that say nothing.
fn log() -> String {
    let mut lines = vec!["part\tfills\tstate".to_owned()];
    for place in 0..30 {
        let state = if place % 3 == 0 { "failed" } else { "whole" };
        lines.push(format!("bottle\t{}\t{state}", 40 + 7 * place));
    }
    lines.insert(5, "bottle\tmany\twhole".to_owned());
    lines.insert(12, "bottle\t-3\tfailed".to_owned());
    lines.insert(20, "bottle\t80\tperhaps".to_owned());
    lines.join("\n")
}

async fn a_log_is_pasted_and_fills_are_counted(device: Device) -> Outcome {
    visit(device, &dist()?, move |page| async move {
        open_all(&page, "v=1&name=Avocet").await?;
        enter_parts(&page).await?;
        paste(&page, LOG, &log()).await?;
        let complaints = list(&page, "log-complaints").await?;
        let lines = ["Line 6: \"many\"", "Line 13: \"-3\"", "Line 21: \"perhaps\""];
        assert_eq!(complaints.len(), lines.len(), "{complaints:?}");
        assert!(complaints.iter().zip(lines).all(|(said, line)| said.starts_with(line)), "{complaints:?}");
        let fragment = settled(&page).await?;
        assert_eq!(link::open(&fragment).design.log().len(), 30);
        assert_eq!(page.evaluate(&format!("document.querySelector('{LOG}').value")).await?, log(), "as it was pasted");
        let answers = assert_vessels(&page, &fragment).await?;
        let today = answers["vessel"]["fail_today"].as_f64().ok_or("there is a chance")?;
        let verdict = said(&page, "vessel-verdict").await?;
        let chance = texts(&page, "[data-test=\"vessel-verdict\"] .deciding").await?.pop().unwrap_or_default();
        let percent: f64 = chance.trim_end_matches("\u{2009}%").parse()?;
        assert!((percent / (100.0 * today) - 1.0).abs() < 0.006, "{percent} % for {today}");
        assert!(verdict.contains("lets go in today's 3 fills"), "{verdict}");
        let two = answers["vessel"]["fail_today_two"].as_f64().ok_or("there is a chance of two")?;
        assert!(said(&page, "two-failures").await?.contains(&format!("{two:.2e}")), "{two:e}");

        // Today's fills go behind every part, and undo takes them back.
        let cycles = |fragment: &str| -> Vec<Option<f64>> {
            link::open(fragment).design.parts().iter().map(|part| part.number(PartInput::Cycles)).collect()
        };
        page.tap("[data-test=\"add-fills\"]").await?;
        let counted = settled(&page).await?;
        assert_eq!(cycles(&counted), [Some(3.0); 5]);
        let older = assert_vessels(&page, &counted).await?;
        assert!(older["vessel"]["fail_today"].as_f64() > Some(today), "three fills later it is likelier");
        page.tap("[data-test=\"undo\"]").await?;
        let undone = settled(&page).await?;
        assert_eq!(cycles(&undone), [Some(0.0); 5]);
        assert_eq!(undone, fragment);
        assert_eq!(assert_vessels(&page, &undone).await?, answers);

        page.new_tab().await?;
        open_all(&page, &fragment).await?;
        assert_eq!(assert_vessels(&page, &fragment).await?, answers, "the same in another tab");
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_phone_pastes_a_log_and_counts_fills() -> Outcome {
    a_log_is_pasted_and_fills_are_counted(phone()).await
}

#[tokio::test]
async fn a_laptop_pastes_a_log_and_counts_fills() -> Outcome {
    a_log_is_pasted_and_fills_are_counted(laptop()).await
}

#[tokio::test]
async fn a_fill_beyond_the_highest_is_warned_of_beside_question_one() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        open_all(&page, "v=1&name=Avocet").await?;
        enter_parts(&page).await?;
        let answers = assert_vessels(&page, &settled(&page).await?).await?;
        let stages = answers["vessel"]["stages"].as_array().cloned().unwrap_or_default();
        let sustainer = stages.iter().find(|stage| stage["stage"] == "sustainer").ok_or("the sustainer flies")?;
        let beyond = sustainer["highest_fill_bar"].as_f64().ok_or("it has a highest fill")?.ceil() + 1.0;
        let warning = format!("The sustainer's launch pressure of {beyond} bar is above");
        let warned = |lines: Vec<String>| lines.iter().any(|line| line.starts_with(&warning));
        assert!(!warned(list(&page, "notes").await?));
        tap_part(&page, "SustainerWater").await?;
        page.type_into(FILL, &beyond.to_string()).await?;
        page.tap("[data-test=\"sheet-close\"]").await?;
        let fragment = settled(&page).await?;
        let answers = assert_vessels(&page, &fragment).await?;
        let notes = list(&page, "notes").await?;
        assert!(warned(notes.clone()), "{notes:?}");
        assert_eq!(notes, lines_in(&answers, "/notes"), "the command line says the same");
        assert!(warned(list(&page, "vessel-warnings").await?));
        page.new_tab().await?;
        open_all(&page, &fragment).await?;
        assert!(warned(list(&page, "notes").await?), "whoever opens the link is warned as well");
        assert_eq!(assert_vessels(&page, &fragment).await?, answers);
        Ok(())
    })
    .await
}

#[tokio::test]
async fn strength_and_stand_off_are_said_in_us_units_and_the_link_stays_metric() -> Outcome {
    visit(laptop(), &dist()?, |page| async move {
        open_all(&page, "v=1&name=Avocet").await?;
        enter_parts(&page).await?;
        let fragment = settled(&page).await?;
        let answers = assert_vessels(&page, &fragment).await?;
        page.tap("[data-test=\"more\"]").await?;
        page.tap("[data-test=\"units-us\"]").await?;
        page.tap("[data-test=\"more\"]").await?;
        settled(&page).await?;
        let each = texts(&page, ".part-list .says").await?;
        assert!(each.iter().all(|line| line.contains(" psi") && line.contains(" ksi")), "{each:?}");
        let fills = list(&page, "stage-fills").await?;
        assert!(fills.iter().all(|line| line.contains(" psi") && !line.contains(" bar")), "{fills:?}");
        let stand = said(&page, "stand-verdict").await?;
        assert!(["ft\u{b7}lbf", "lb", "ft"].iter().any(|unit| stand.contains(unit)), "{stand}");
        assert!(!stand.contains("\u{2009}m ") && !stand.contains("\u{2009}J"), "{stand}");
        let unit =
            "document.querySelector('[data-test=\"part-5-wall\"]').parentElement.querySelector('.unit').textContent";
        assert_eq!(page.evaluate(unit).await?, "in");
        assert_eq!(page.fragment().await?, fragment, "the link knows no units");
        page.type_into(WALL, "0.5 mm").await?;
        let changed = settled(&page).await?;
        assert!(changed.split('&').any(|pair| pair == "p5.wall=0.5"), "{changed}");
        page.tap("[data-test=\"undo\"]").await?;
        assert_eq!(settled(&page).await?, fragment);
        page.tap("[data-test=\"more\"]").await?;
        page.tap("[data-test=\"units-metric\"]").await?;
        page.tap("[data-test=\"more\"]").await?;
        assert_eq!(assert_vessels(&page, &settled(&page).await?).await?, answers);
        Ok(())
    })
    .await
}

#[tokio::test]
async fn as_many_parts_as_a_link_holds_and_no_more() -> Outcome {
    visit(laptop(), &dist()?, |page| async move {
        open_all(&page, "").await?;
        for _ in 0..MOST_PARTS {
            page.tap("[data-test=\"part-add\"]").await?;
        }
        let fragment = settled(&page).await?;
        assert_eq!(link::open(&fragment).design.parts().len(), MOST_PARTS);
        let disabled = page.wait_for("[data-test=\"part-add\"]").await?.attr("disabled").await?;
        assert!(disabled.is_some(), "no more can be added");
        assert!(list(&page, "vessel-warnings").await?.iter().any(|line| line.contains("No part of the booster")));
        Ok(())
    })
    .await
}
