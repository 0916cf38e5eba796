//! A design pinned, changed, swapped and handed on together with the other.

use acceptance::harness::{Device, Outcome, Page, dist, laptop, phone, visit};
use serde_json::Value;

use crate::asked::{evaluated, number_in, numbers, open_all, settled, texts};
use crate::shown::{DELAY, Exact, assert_answers, tap_part};

/// What is compared, and where it stands in the answers of a design.
const LINES: [(&str, &str); 8] = [
    ("Apogee", "/apogee_m"),
    ("Settled ideal", "/settled_apogee_m"),
    ("Latest release", "/latest_release_s"),
    ("Water uncovers the nozzle", "/uncovers_s"),
    ("Speed at burnout", "/burnout/v_mps"),
    ("Height at release", "/release/h_m"),
    ("Sustainer's speed at burnout", "/sustainer/v_burnout_mps"),
    ("Time of apogee", "/apogee_t_s"),
];

const TABLE: &str = "[data-test=\"differences\"]";

/// The two designs of a fragment.
fn both(fragment: &str) -> Outcome<(&str, &str)> {
    let both = fragment.split_once('~').ok_or_else(|| format!("there are not two designs in `{fragment}`"))?;
    Ok(both)
}

/// The page compares the two designs of a fragment, to the last bit.
async fn assert_compares(page: &Page, fragment: &str) -> Outcome {
    let (own, pinned) = both(fragment)?;
    assert_answers(page, own).await?;
    let (this, other) = (evaluated(own)?, evaluated(pinned)?);
    let row = |(_, pointer): &(&str, &str)| -> [Option<Exact>; 3] {
        let of = |answers: &Value| number_in(answers, pointer);
        let difference = of(&this).zip(of(&other)).map(|(this, other)| Exact(this.0 - other.0));
        [of(&this), of(&other), difference]
    };
    let expected: Vec<_> = LINES.iter().flat_map(row).collect();
    assert_eq!(texts(page, &format!("{TABLE} tbody th")).await?, LINES.map(|line| line.0));
    assert_eq!(numbers(page, &format!("{TABLE} tbody .quantity")).await?, expected);
    // Which is the greater is told by a sign as well.
    let signs = texts(page, &format!("{TABLE} tbody td:nth-child(4)")).await?;
    for (sign, difference) in signs.iter().zip(expected.iter().skip(2).step_by(3)) {
        let Some(difference) = difference else { continue };
        assert_eq!(sign.starts_with('+'), difference.0 > 0.0, "{sign} for {difference:?}");
    }
    Ok(())
}

async fn pinned_and_compared(device: Device, picture: &'static str) -> Outcome {
    visit(device, &dist()?, move |page| async move {
        open_all(&page, "v=1&name=Curlew&delay=0.4").await?;
        page.tap("[data-test=\"pin\"]").await?;
        let first = settled(&page).await?;
        let (own, pinned) = both(&first)?;
        assert_eq!(own, pinned, "a design pinned differs from itself in nothing");
        assert_compares(&page, &first).await?;

        page.type_into(DELAY, "0.6").await?;
        // The sentence on top may get another line, and not every browser keeps in place what is below.
        settled(&page).await?;
        tap_part(&page, "SustainerWater").await?;
        page.type_into("[data-test=\"field-s.water\"]", "0.62").await?;
        page.tap("[data-test=\"sheet-close\"]").await?;
        let changed = settled(&page).await?;
        assert_eq!(both(&changed)?.1, pinned, "what is pinned stays");
        assert!(both(&changed)?.0.contains("delay=0.6") && both(&changed)?.0.contains("s.water=0.62"), "{changed}");
        assert_compares(&page, &changed).await?;
        page.center(TABLE).await?;
        page.screenshot(picture).await?;

        let before = page.tab().await?;
        page.new_tab().await?;
        open_all(&page, &changed).await?;
        assert_eq!(page.fragment().await?, changed, "a link that was opened stays what it was");
        assert_compares(&page, &changed).await?;
        assert_eq!(texts(&page, "[data-test=\"notice\"]").await?, [""; 0], "with no complaint");
        page.look_at(&before).await?;

        page.tap("[data-test=\"swap\"]").await?;
        let swapped = settled(&page).await?;
        assert_eq!(both(&swapped)?, (both(&changed)?.1, both(&changed)?.0));
        assert_compares(&page, &swapped).await?;
        page.tap("[data-test=\"swap\"]").await?;
        assert_eq!(settled(&page).await?, changed);

        page.tap("[data-test=\"unpin\"]").await?;
        let alone = settled(&page).await?;
        assert_eq!(alone, both(&changed)?.0);
        assert_eq!(texts(&page, TABLE).await?, [""; 0]);
        assert_answers(&page, &alone).await
    })
    .await
}

#[tokio::test]
async fn a_phone_pins_a_design_and_compares() -> Outcome {
    pinned_and_compared(phone(), "phone-compare").await
}

#[tokio::test]
async fn a_laptop_pins_a_design_and_compares() -> Outcome {
    pinned_and_compared(laptop(), "laptop-compare").await
}

#[tokio::test]
async fn a_name_with_a_tilde_is_one_design() -> Outcome {
    visit(laptop(), &dist()?, |page| async move {
        open_all(&page, "").await?;
        page.type_into("[data-test=\"name\"]", "~ 2 ~").await?;
        let fragment = settled(&page).await?;
        assert!(!fragment.contains('~'), "{fragment}");
        open_all(&page, &fragment).await?;
        assert_eq!(page.evaluate("document.title").await?, "~ 2 ~ \u{b7} Holdwater");
        assert_eq!(texts(&page, TABLE).await?, [""; 0]);
        Ok(())
    })
    .await
}
