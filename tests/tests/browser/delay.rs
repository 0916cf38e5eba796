//! Moving the delay: finger, mouse, slider, buttons and keys.

use acceptance::harness::{Ability, Key, Outcome, Page, Point, dist, laptop, phone, visit};
use holdwater_design::Input;

use crate::asked::open_all;
use crate::shown::{CHART, DELAY, Exact, assert_answers, assert_link_follows, delay_s, number, open};

const SLIDER: &str = "[data-test=\"delay-slider\"]";
const START_S: f64 = 1.0;

/// Opens the default design and waits for everything that moves the chart when it arrives.
async fn open_at_rest(page: &Page) -> Outcome {
    open_all(page, "").await?;
    page.wait_until("document.querySelector('[data-test=\"best-apogee\"]')?.dataset.value !== undefined").await?;
    let drawn = "document.querySelector('.marker-line').getBoundingClientRect().x \
                 > document.querySelector('[data-test=\"delay-chart\"]').getBoundingClientRect().x + 1";
    page.wait_until(drawn).await?;
    page.center_at_rest(".marker-line").await?;
    Ok(())
}

/// The point at this share of the chart's width, half way up.
async fn on_chart(page: &Page, share: f64) -> Outcome<Point> {
    let (_, y) = page.center_at_rest(CHART).await?;
    let rect = "document.querySelector('[data-test=\"delay-chart\"]').getBoundingClientRect()";
    let x = number(page, &format!("{rect}.x + {share} * {rect}.width")).await?;
    Ok((x, y))
}

/// Where the line that marks the delay stands, CSS px from the left of the window.
async fn marker_x(page: &Page) -> Outcome<f64> {
    number(page, "document.querySelector('.marker-line').getBoundingClientRect().x").await
}

/// The field, the chart and the slider all tell the same delay; returns it.
async fn agreed_delay_s(page: &Page) -> Outcome<f64> {
    let delay = delay_s(page).await?;
    let chart = "document.querySelector('[data-test=\"delay-chart\"]').getAttribute('aria-valuenow')";
    for source in [
        "document.querySelector('[data-test=\"delay-input\"]').value",
        "document.querySelector('.delay-slider').value",
        chart,
    ] {
        assert_eq!(Exact(number(page, source).await?), Exact(delay), "{source}");
    }
    Ok(delay)
}

/// The delay is the last whole hundredth before the stack starts to fall; returns it.
async fn assert_is_last(page: &Page) -> Outcome<f64> {
    let longest = number(page, "document.querySelector('[data-test=\"delay-chart\"]').ariaValueMax").await?;
    let last = delay_s(page).await?;
    assert!((longest - 0.0101..=longest).contains(&last), "{last} s, where the chart ends at {longest} s");
    agreed_delay_s(page).await
}

#[tokio::test]
async fn a_finger_drags_the_delay_along_the_chart_and_still_scrolls_the_page() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        open_at_rest(&page).await?;
        let (from, to) = (on_chart(&page, 0.85).await?, on_chart(&page, 0.5).await?);
        let watch = "(() => {
            window.passed = new Set();
            const field = document.querySelector('[data-test=\"delay-input\"]');
            const note = () => passed.add(field.getAttribute('data-value'));
            new MutationObserver(note).observe(field, { attributeFilter: ['data-value'] });
            return true;
        })()";
        page.evaluate(watch).await?;
        page.touch_drag(from, to).await?;
        let passed = number(&page, "passed.size").await?;
        assert!(passed >= 4.0, "the numbers follow while the finger moves, not only in the end: {passed}");
        let delay = agreed_delay_s(&page).await?;
        assert!((delay - START_S).abs() > 0.1, "the delay is still {delay} s");
        let off = marker_x(&page).await? - to.0;
        assert!(off.abs() < 2.0, "the marker lies {off} px beside the finger");
        assert_link_follows(&page, &format!("delay={delay}")).await?;

        page.needs(Ability::TouchScroll)?;
        let before = number(&page, "scrollY").await?;
        page.touch_drag(to, (to.0, to.1 - 200.0)).await?;
        page.let_pass(300).await?;
        let scrolled = number(&page, "scrollY").await? - before;
        assert!(scrolled > 100.0, "a finger that goes up the chart scrolls the page: {scrolled} px");
        assert_eq!(Exact(delay_s(&page).await?), Exact(delay), "scrolling is not dragging");
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_finger_moves_the_slider_and_presses_minus_and_plus() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        open_at_rest(&page).await?;
        let (_, y) = page.center_at_rest(SLIDER).await?;
        let start = marker_x(&page).await?;
        page.touch_drag((start, y), (start + 60.0, y)).await?;
        let moved = marker_x(&page).await? - start;
        assert!((moved - 60.0).abs() < 3.0, "the thumb lies under the marker and takes it along: {moved} px");
        let delay = agreed_delay_s(&page).await?;
        assert!(delay > START_S, "{delay}");
        assert_link_follows(&page, &format!("delay={delay}")).await?;

        let row = Input::Delay.row();
        page.center_at_rest(".delay-value .step:first-of-type").await?;
        page.tap(".delay-value .step:first-of-type").await?;
        assert_eq!(Exact(agreed_delay_s(&page).await?), Exact(row.stepped(delay, -1)));
        for _ in 0..2 {
            // The sentence on top may have more lines with other numbers, and move the buttons.
            page.center_at_rest(".delay-value .step:last-of-type").await?;
            page.tap(".delay-value .step:last-of-type").await?;
        }
        let plus = row.stepped(row.stepped(delay, -1), 2);
        assert_eq!(Exact(agreed_delay_s(&page).await?), Exact(plus));
        assert_link_follows(&page, &format!("delay={plus}")).await?;
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_mouse_drags_the_delay_along_the_chart_and_presses_the_slider() -> Outcome {
    visit(laptop(), &dist()?, |page| async move {
        open_at_rest(&page).await?;
        let (from, to) = (on_chart(&page, 0.8).await?, on_chart(&page, 0.4).await?);
        page.mouse_drag(from, to).await?;
        let off = marker_x(&page).await? - to.0;
        assert!(off.abs() < 3.0, "the marker lies {off} px beside the pointer");
        let delay = agreed_delay_s(&page).await?;
        assert_link_follows(&page, &format!("delay={delay}")).await?;

        page.tap(SLIDER).await?;
        let pressed = agreed_delay_s(&page).await?;
        assert!(pressed > delay, "the middle of the slider is later than {delay} s: {pressed} s");
        assert_link_follows(&page, &format!("delay={pressed}")).await?;

        // Beyond the plot there are no more delays, and none below zero.
        let (left, right) = (on_chart(&page, 0.0).await?, on_chart(&page, 1.0).await?);
        page.mouse_drag(to, (left.0 - 30.0, left.1)).await?;
        assert_eq!(Exact(agreed_delay_s(&page).await?), Exact(0.0));
        page.mouse_drag(to, (right.0 + 5.0, right.1)).await?;
        assert_is_last(&page).await?;
        Ok(())
    })
    .await
}

#[tokio::test]
async fn keys_move_the_delay_on_the_chart_in_the_field_and_on_the_slider() -> Outcome {
    visit(laptop(), &dist()?, |page| async move {
        open(&page, "").await?;
        let row = Input::Delay.row();
        let focus = |css: &str| format!("document.querySelector('{css}').focus() ?? true");
        page.evaluate(&focus(CHART)).await?;
        for (keys, presses) in [
            (&[Key::Right][..], 1),
            (&[Key::Up], 2),
            (&[Key::Left], 1),
            (&[Key::Down], 0),
            (&[Key::Shift, Key::Right], 5),
        ] {
            page.press(keys).await?;
            assert_eq!(Exact(agreed_delay_s(&page).await?), Exact(row.stepped(START_S, presses)), "{keys:?}");
        }
        page.press(&[Key::Home]).await?;
        assert_eq!(Exact(agreed_delay_s(&page).await?), Exact(0.0));
        assert_link_follows(&page, "delay=0").await?;
        page.press(&[Key::End]).await?;
        let last = assert_is_last(&page).await?;
        assert_link_follows(&page, &format!("delay={last}")).await?;

        page.type_into(DELAY, "0.4").await?;
        page.press(&[Key::Up]).await?;
        assert_eq!(Exact(agreed_delay_s(&page).await?), Exact(row.stepped(0.4, 1)));
        page.press(&[Key::Down]).await?;
        page.evaluate(&focus(SLIDER)).await?;
        page.press(&[Key::Right]).await?;
        assert_eq!(Exact(agreed_delay_s(&page).await?), Exact(0.41), "the slider goes by hundredths");
        page.press(&[Key::Home]).await?;
        assert_answers(&page, "v=1&delay=0").await?;
        Ok(())
    })
    .await
}
