//! Taking changes back and taking them again.

use acceptance::harness::{Key, Outcome, Page, dist, laptop, phone, visit};
use holdwater_design::examples::EXAMPLES;
use holdwater_design::link;

use crate::asked::paste;
use crate::shown::{CHART, DELAY, assert_answers, assert_link_follows, delay_s, number, open};

const UNDO: &str = "[data-test=\"undo\"]";
const NAME: &str = "[data-test=\"name\"]";

/// Changes of one thing that follow each other within a second are one step.
const LONGER_THAN_A_STEP_MS: u32 = 1_100;

/// Whether there is something to take back (the button on top is seen) and something to take again.
async fn ways(page: &Page) -> Outcome<(bool, bool)> {
    let back = page.evaluate("document.querySelector('[data-test=\"undo\"]').offsetParent !== null").await?;
    let again = page.evaluate("!document.querySelector('[data-test=\"redo\"]').disabled").await?;
    Ok((back == true, again == true))
}

#[tokio::test]
async fn keys_take_back_a_drag_as_one_step_and_the_address_bar_follows() -> Outcome {
    visit(laptop(), &dist()?, |page| async move {
        open(&page, "v=1&name=Plover&delay=0.4").await?;
        assert_answers(&page, "v=1&delay=0.4").await?;
        assert_eq!(ways(&page).await?, (false, false), "a link just opened leaves nothing to take back");

        let (_, y) = page.center(CHART).await?;
        let rect = "document.querySelector('[data-test=\"delay-chart\"]').getBoundingClientRect()";
        let at = |share: f64| format!("{rect}.x + {share} * {rect}.width");
        let (from, to) = (number(&page, &at(0.3)).await?, number(&page, &at(0.7)).await?);
        page.evaluate(
            "(() => { window.passed = new Set(); const field = document.querySelector('[data-test=\"delay-input\"]'); \
             new MutationObserver(() => passed.add(field.dataset.value)).observe(field, { attributeFilter: ['data-value'] }); \
             return true; })()",
        )
        .await?;
        page.mouse_drag((from, y), (to, y)).await?;
        let dragged = delay_s(&page).await?;
        assert!(dragged > 0.5, "{dragged} s");
        assert!(number(&page, "passed.size").await? >= 4.0, "the drag was many changes");
        assert_link_follows(&page, &format!("delay={dragged}")).await?;

        page.let_pass(LONGER_THAN_A_STEP_MS).await?;
        // At once, because what is typed slowly is more than one step.
        paste(&page, DELAY, "0.25").await?;
        page.type_into(NAME, "Dunlin").await?;
        page.wait_until("document.title === 'Dunlin · Holdwater'").await?;

        // In the field of the name, where the browser has an undo of its own.
        page.press_letter(&[Key::Control], 'z').await?;
        page.wait_until("document.title === 'Plover · Holdwater'").await?;
        assert_link_follows(&page, "delay=0.25").await?;
        page.press_letter(&[Key::Control], 'z').await?;
        assert_link_follows(&page, &format!("delay={dragged}")).await?;
        page.press_letter(&[Key::Control], 'z').await?;
        let first = assert_link_follows(&page, "delay=0.4").await?;
        assert_eq!(link::open(&first).design.name(), "Plover");
        assert_eq!(ways(&page).await?, (false, true), "that was all");
        page.press_letter(&[Key::Control], 'z').await?;
        assert_eq!(page.evaluate("document.querySelector('[data-test=\"delay-input\"]').value").await?, "0.4");

        page.press_letter(&[Key::Control, Key::Shift], 'z').await?;
        assert_link_follows(&page, &format!("delay={dragged}")).await?;
        page.press_letter(&[Key::Control], 'y').await?;
        assert_link_follows(&page, "delay=0.25").await?;
        page.press_letter(&[Key::Control], 'y').await?;
        page.wait_until("document.title === 'Dunlin · Holdwater'").await?;
        assert_eq!(ways(&page).await?, (true, false));

        // After another change there is nothing to take again.
        page.press_letter(&[Key::Control], 'z').await?;
        paste(&page, DELAY, "0.6").await?;
        assert_link_follows(&page, "delay=0.6").await?;
        assert_eq!(ways(&page).await?, (true, false));
        page.press_letter(&[Key::Control], 'y').await?;
        assert!((delay_s(&page).await? - 0.6).abs() < 1e-12);
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_finger_takes_back_with_the_button_on_top_and_again_with_the_one_under_more() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        open(&page, "").await?;
        assert_eq!(ways(&page).await?, (false, false));
        // Plus pressed in haste is one step; a value typed later is another.
        page.tap_in_haste(".delay-value .step:last-of-type", 3).await?;
        let pressed = delay_s(&page).await?;
        assert!(pressed > 1.0);
        page.let_pass(LONGER_THAN_A_STEP_MS).await?;
        paste(&page, DELAY, "0.3").await?;
        assert_link_follows(&page, "delay=0.3").await?;
        page.screenshot("phone-undo").await?;
        page.tap(UNDO).await?;
        assert_link_follows(&page, &format!("delay={pressed}")).await?;
        page.tap(UNDO).await?;
        page.wait_until("document.querySelector('[data-test=\"delay-input\"]').value === '1'").await?;
        assert_answers(&page, "v=1").await?;
        assert_eq!(ways(&page).await?, (false, true));

        page.tap("[data-test=\"more\"]").await?;
        page.tap("[data-test=\"redo\"]").await?;
        page.tap("[data-test=\"redo\"]").await?;
        assert_link_follows(&page, "delay=0.3").await?;
        assert_eq!(ways(&page).await?, (true, false));
        page.tap("[data-test=\"undo-2\"]").await?;
        assert_link_follows(&page, &format!("delay={pressed}")).await?;
        Ok(())
    })
    .await
}

#[tokio::test]
async fn after_an_example_was_opened_undo_brings_the_design_before_it_back() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        open(&page, "v=1&name=Plover&delay=0.4").await?;
        page.type_into(DELAY, "0.45").await?;
        let mine = assert_link_follows(&page, "delay=0.45").await?;
        let example = &EXAMPLES[1];
        page.tap("[data-test=\"more\"]").await?;
        page.tap(&format!("a.example[href=\"#{}\"]", example.link)).await?;
        assert_answers(&page, example.link).await?;
        assert_eq!(page.fragment().await?, example.link);

        page.tap(UNDO).await?;
        page.wait_until("document.title === 'Plover · Holdwater'").await?;
        assert_answers(&page, &mine).await?;
        page.let_pass(400).await?;
        assert_eq!(page.fragment().await?, mine, "the link of before, byte for byte");
        page.load_again().await?;
        page.wait_until("document.title === 'Plover · Holdwater'").await?;
        assert_answers(&page, &mine).await?;
        Ok(())
    })
    .await
}

#[tokio::test]
async fn undo_leaves_no_nonsense_in_the_fields() -> Outcome {
    visit(laptop(), &dist()?, |page| async move {
        open(&page, "v=1&delay=0.4").await?;
        // At once, because what is typed slowly is more than one step.
        paste(&page, DELAY, "0.6").await?;
        paste(&page, NAME, "Dunlin").await?;
        paste(&page, DELAY, "soon").await?;
        page.wait_until("document.querySelector('[data-test=\"delay-input\"]').ariaInvalid === 'true'").await?;
        page.press_letter(&[Key::Control], 'z').await?;
        page.wait_until("document.title === 'Holdwater'").await?;
        assert_eq!(page.evaluate("document.querySelector('[data-test=\"delay-input\"]').value").await?, "0.6");
        page.press_letter(&[Key::Control], 'z').await?;
        assert_link_follows(&page, "delay=0.4").await?;
        Ok(())
    })
    .await
}
