//! The page without a pointer.

use acceptance::harness::{Key, Outcome, dist, laptop, visit};

use crate::shown::{CHART, DELAY, assert_answers, open};

/// What has the focus, and whether that can be seen: an outline, or for a part of the drawing a stroke much wider
/// than those of the others. What is out of the window or under something else cannot be seen.
const FOCUSED: &str = "(() => {
    const element = document.activeElement;
    const data = element.dataset ?? {};
    const name = data.test ?? data.part ?? element.id ?? '';
    const style = getComputedStyle(element);
    const outlined = style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2;
    const stroke = part => parseFloat(getComputedStyle(part.querySelector('.button')).strokeWidth);
    const other = [...document.querySelectorAll('[data-part]')].find(part => part !== element);
    const stroked = data.part !== undefined && stroke(element) >= 2 * stroke(other);
    const box = element.getBoundingClientRect();
    const inside = box.bottom > 0 && box.top < innerHeight && box.right > 0 && box.left < innerWidth;
    return [name || element.tagName, (outlined || stroked) && inside, element.outerHTML.slice(0, 120)];
})()";

/// More stops than the page has.
const STOPS: usize = 120;

#[tokio::test]
async fn tab_reaches_everything_in_turn_and_shows_where_it_is() -> Outcome {
    visit(laptop(), &dist()?, |page| async move {
        open(&page, "").await?;
        page.wait_for("[data-part]").await?;
        let mut reached = Vec::new();
        for _ in 0..STOPS {
            page.press(&[Key::Tab]).await?;
            let focused = page.evaluate(FOCUSED).await?;
            let name = focused[0].as_str().unwrap_or_default().to_owned();
            if name == "BODY" || reached.first() == Some(&name) {
                break;
            }
            assert_eq!(focused[1], true, "the focus cannot be seen on {}", focused[2]);
            reached.push(name);
        }
        assert!(reached.len() < STOPS, "the focus never comes to an end: {reached:?}");
        let parts =
            page.evaluate("[...document.querySelectorAll('[data-part]')].map(part => part.dataset.part)").await?;
        let parts = parts.as_array().cloned().unwrap_or_default();
        assert!(!parts.is_empty());
        let parts = parts.iter().filter_map(serde_json::Value::as_str);
        let fixed = ["name", "share", "more", "delay-chart", "delay-slider", "delay-input", "way-Settled", "way-Bare"];
        for name in fixed.into_iter().chain(parts) {
            assert!(reached.iter().any(|stop| stop == name), "Tab does not reach {name}: {reached:?}");
        }
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_part_is_opened_changed_and_closed_without_a_pointer() -> Outcome {
    visit(laptop(), &dist()?, |page| async move {
        open(&page, "").await?;
        page.wait_for("[data-part=\"SustainerBody\"]").await?;
        let focus = |css: &str| format!("document.querySelector('{css}').focus() ?? true");
        page.evaluate(&focus(CHART)).await?;
        page.evaluate(&focus("[data-part=\"SustainerBody\"]")).await?;
        page.press(&[Key::Enter]).await?;
        page.wait_until("document.activeElement.id === 'sheet-title'").await?;
        for _ in 0..10 {
            page.press(&[Key::Tab]).await?;
            if page.evaluate("document.activeElement.dataset.test").await? == "field-s.dry" {
                break;
            }
        }
        assert_eq!(page.evaluate("document.activeElement.dataset.test").await?, "field-s.dry");
        page.press(&[Key::Control, Key::Home]).await?;
        page.press(&[Key::Shift, Key::End]).await?;
        page.client().active_element().await?.send_keys("0.3").await?;
        assert_answers(&page, "v=1&s.dry=0.3").await?;
        page.press(&[Key::Escape]).await?;
        page.wait_until("document.querySelector('[data-test=\"sheet\"]') === null").await?;
        // The drawing gets more room when the sheet closes, and the focus has to outlive that it is drawn anew.
        page.let_pass(300).await?;
        page.wait_until("document.activeElement.dataset.part === 'SustainerBody'").await?;

        page.press(&[Key::Space]).await?;
        // The heading gets the keyboard a frame after the sheet is there.
        page.wait_until("document.activeElement.id === 'sheet-title'").await?;
        page.press(&[Key::Escape]).await?;
        page.wait_until("document.querySelector('[data-test=\"sheet\"]') === null").await?;
        page.type_into(DELAY, "0.2").await?;
        page.press(&[Key::Enter]).await?;
        assert_answers(&page, "v=1&s.dry=0.3&delay=0.2").await?;
        Ok(())
    })
    .await
}
