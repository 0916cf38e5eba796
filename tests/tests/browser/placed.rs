//! Vessel parts on the drawings: every part has a mark, and a touch on it opens the part.

use acceptance::harness::{Device, Key, Outcome, Page, dist, laptop, phone, visit};
use serde_json::Value;

use crate::asked::{open_all, texts};

const PARTS: &str = "v=1&p1.kind=shell&p1.stage=booster&p1.name=Drum&p2.kind=dome&p3.kind=splice&p3.stage=booster\
                     &p3.name=Body%20seam&p4.kind=splice&p4.wall=45";

/// What an assistive technology reads of the marks at `css`, in the order of the drawing.
async fn names(page: &Page, css: &str) -> Outcome<Vec<String>> {
    let script =
        format!("[...document.querySelectorAll('{css} [data-mark]')].map(one => one.getAttribute('aria-label'))");
    let all = page.evaluate(&script).await?;
    Ok(all.as_array().into_iter().flatten().filter_map(Value::as_str).map(str::to_owned).collect())
}

/// The list shows the inputs of a part, in view and with the keyboard on its head.
async fn assert_open(page: &Page, number: usize) -> Outcome {
    page.wait_for(&format!("[data-test=\"part-{number}-kind\"]")).await?;
    let head = format!("document.querySelector('[data-test=\"part-{number}\"]')");
    page.wait_until(&format!(
        "document.activeElement === {head} && {head}.parentElement.open && {head}.getBoundingClientRect().top >= 0 && \
         {head}.getBoundingClientRect().bottom <= innerHeight"
    ))
    .await
}

async fn marks_open_their_parts(device: Device) -> Outcome {
    visit(device, &dist()?, |page| async move {
        open_all(&page, "v=1").await?;
        assert_eq!(names(&page, "").await?, Vec::<String>::new(), "without parts there is no mark");

        open_all(&page, PARTS).await?;
        let mut all = names(&page, ".places").await?;
        all.sort();
        assert_eq!(all.len(), 4, "{all:?}");
        assert!(all[0].starts_with("Part 1 shell, ") && all[0].contains(": Drum, booster, margin "), "{all:?}");
        assert!(all[1].starts_with("Part 2 dome, ") && all[1].contains(": Dome 2, sustainer, margin "), "{all:?}");
        assert!(all[2].starts_with("Part 3 splice, ") && all[2].contains(" weakest: Body seam, booster, margin "));
        assert_eq!(all[3], "Part 4 splice, no margin: Splice 4, sustainer");
        let on_stack = names(&page, ".stack").await?;
        assert!(on_stack.len() == 1 && on_stack[0].starts_with("Part 3 weakest, "), "{on_stack:?}");
        assert!(texts(&page, ".places [data-mark] title").await?.contains(&all[2]), "and it is shown on hovering");

        page.tap(".places [data-mark=\"1\"]").await?;
        assert_open(&page, 1).await?;
        // An open part stays open.
        page.tap(".places [data-mark=\"1\"]").await?;
        assert_open(&page, 1).await?;

        // From the stack by the keyboard.
        page.evaluate("document.querySelector('.stack [data-mark]').focus()").await?;
        page.press(&[Key::Enter]).await?;
        assert_open(&page, 3).await?;
        Ok(())
    })
    .await
}

#[tokio::test]
async fn marks_open_their_parts_on_a_phone() -> Outcome {
    marks_open_their_parts(phone()).await
}

#[tokio::test]
async fn marks_open_their_parts_on_a_laptop() -> Outcome {
    marks_open_their_parts(laptop()).await
}
