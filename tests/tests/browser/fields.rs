//! Typing into fields: good values, nonsense, and values that contradict one another.

use acceptance::harness::{Device, Outcome, Page, dist, laptop, phone, visit};
use holdwater_answers::evaluate_json;
use holdwater_design::Input;
use serde_json::Value;

use crate::asked::open_all;
use crate::shown::{
    DELAY, STALE, VERDICT, answered, assert_answers, assert_link_follows, number, open, shown, tap_part,
};

const NOZZLE: &str = "[data-test=\"field-s.nozzle\"]";

/// Whether an element lies inside the window and nothing lies over its middle.
async fn is_in_view(page: &Page, css: &str) -> Outcome<bool> {
    let script = format!(
        "(() => {{
            const element = document.querySelector('{css}');
            const box = element.getBoundingClientRect();
            const there = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
            const inside = box.height > 0 && box.top >= 0 && box.bottom <= innerHeight + 0.5;
            return inside && (element.contains(there) || element.parentElement === there);
        }})()"
    );
    Ok(page.evaluate(&script).await? == true)
}

/// The texts of all elements that a selector finds.
async fn texts(page: &Page, css: &str) -> Outcome<Vec<String>> {
    let script = format!("[...document.querySelectorAll('{css}')].map(element => element.textContent)");
    let found = page.evaluate(&script).await?;
    Ok(found.as_array().into_iter().flatten().filter_map(Value::as_str).map(str::to_owned).collect())
}

async fn typed_values_are_answered(device: Device) -> Outcome {
    visit(device, &dist()?, move |page| async move {
        open(&page, "").await?;
        page.type_into(DELAY, "0.35").await?;
        assert_answers(&page, "v=1&delay=0.35").await?;
        assert_link_follows(&page, "delay=0.35").await?;

        tap_part(&page, "SustainerNozzle").await?;
        assert!(is_in_view(&page, VERDICT).await?, "the verdict stays in view while a sheet is open");
        page.type_into(NOZZLE, "10,5").await?;
        assert!(is_in_view(&page, NOZZLE).await?, "and so does the field that is being typed into");
        assert!(is_in_view(&page, VERDICT).await?, "with the verdict that follows");
        let link = assert_link_follows(&page, "s.nozzle=10.5").await?;
        if device.is_touched {
            // The keyboard of the phone takes the lower half of the screen.
            page.leave_height(460).await?;
            page.center(NOZZLE).await?;
            assert!(is_in_view(&page, NOZZLE).await?, "the field is seen above the keyboard");
            assert!(is_in_view(&page, VERDICT).await?, "the verdict is seen above the keyboard");
            page.screenshot("phone-sheet-with-keyboard").await?;
            page.leave_height(device.height).await?;
        }
        page.screenshot(if device.is_touched { "phone-sheet" } else { "laptop-sheet" }).await?;
        page.tap("[data-test=\"sheet-close\"]").await?;
        page.wait_until("document.querySelector('[data-test=\"sheet\"]') === null").await?;
        assert_answers(&page, &link).await?;
        let changed = "document.querySelector('[data-part=\"SustainerNozzle\"]').classList.contains('changed')";
        assert_eq!(page.evaluate(changed).await?, true, "a part with a changed number is marked");
        Ok(())
    })
    .await
}

#[tokio::test]
async fn values_typed_on_a_phone_are_answered_and_linked() -> Outcome {
    typed_values_are_answered(phone()).await
}

#[tokio::test]
async fn values_typed_on_a_laptop_are_answered_and_linked() -> Outcome {
    typed_values_are_answered(laptop()).await
}

#[tokio::test]
async fn every_part_of_the_drawing_opens_its_own_inputs() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        open(&page, "").await?;
        page.wait_for("[data-part]").await?;
        let parts =
            page.evaluate("[...document.querySelectorAll('[data-part]')].map(part => part.dataset.part)").await?;
        let parts: Vec<&str> = parts.as_array().into_iter().flatten().filter_map(Value::as_str).collect();
        let mut keys = Vec::new();
        for part in &parts {
            tap_part(&page, part).await?;
            let title = page.text("#sheet-title").await?;
            let label = format!("document.querySelector('[data-part=\"{part}\"]').getAttribute('aria-label')");
            let label = page.evaluate(&label).await?;
            assert!(label.as_str().is_some_and(|label| label.ends_with(&title)), "{label} opens {title}");
            let ids = "[...document.querySelectorAll('[data-test=\"sheet\"] input')].map(field => field.dataset.test)";
            let ids = page.evaluate(ids).await?;
            keys.extend(ids.as_array().into_iter().flatten().filter_map(Value::as_str).map(str::to_owned));
            page.tap("[data-test=\"sheet-close\"]").await?;
            // The page scrolls back to the part in the next frame; a finger is never that fast.
            page.let_pass(100).await?;
        }
        // Each input of the stack has a field behind exactly one part.
        let drawn = Input::ALL.iter().filter(|input| input.row().part.is_drawn());
        let mut expected: Vec<String> = drawn.map(|input| format!("field-{}", input.row().key)).collect();
        keys.sort();
        expected.sort();
        assert_eq!(keys, expected);
        Ok(())
    })
    .await
}

#[tokio::test]
async fn nonsense_is_answered_beside_the_field_and_the_last_good_answer_stays_marked() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        // The verdict says what was found for the water, too, as soon as that is known.
        open_all(&page, "v=1&delay=0.4").await?;
        assert_answers(&page, "v=1&delay=0.4").await?;
        let (good, verdict) = (shown(&page).await?, page.text(VERDICT).await?);
        let complaint = "[data-test=\"complaint-delay\"]";
        assert_eq!(page.text(STALE).await?, "");
        // Nothing that could be used stands in the field on the way: typing 99 would pass through 9.
        for nonsense in ["soon", "-1", ".4.1", "x"] {
            page.type_into(DELAY, nonsense).await?;
            let said = page.text(complaint).await?;
            assert!(said.contains(nonsense), "{said}");
            assert!(said.contains(&Input::Delay.row().allowed()), "{said}");
            assert!(!page.text(STALE).await?.is_empty(), "the answer is marked as one for earlier values");
            assert_eq!(
                page.evaluate("document.querySelector('[data-test=\"delay-input\"]').ariaInvalid").await?,
                "true"
            );
            page.let_pass(400).await?;
            assert_eq!(shown(&page).await?, good, "the last good answer stays");
            assert_eq!(page.text(VERDICT).await?, verdict);
        }
        let below = "document.querySelector('[data-test=\"complaint-delay\"]').getBoundingClientRect().top \
                     - document.querySelector('[data-test=\"delay-input\"]').getBoundingClientRect().bottom";
        let distance = number(&page, below).await?;
        assert!((-1.0..40.0).contains(&distance), "the complaint stands right below the field: {distance} px");
        page.screenshot("phone-nonsense").await?;
        let link = page.fragment().await?;
        assert!(link.contains("delay=0.4&"), "the link keeps the last good value: {link}");

        page.type_into(DELAY, "0.6").await?;
        assert_eq!(page.text(complaint).await?, "");
        assert_eq!(page.text(STALE).await?, "");
        assert_link_follows(&page, "delay=0.6").await?;
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_nozzle_wider_than_its_vessel_is_refused_by_name_and_can_be_put_right() -> Outcome {
    visit(laptop(), &dist()?, |page| async move {
        let impossible = "v=1&s.nozzle=90";
        let reasons = evaluate_json(impossible).expect_err("it must be refused");
        assert!(reasons.iter().any(|reason| reason.contains("90 mm") && reason.contains("88 mm")), "{reasons:?}");

        open(&page, "").await?;
        assert_answers(&page, "v=1").await?;
        let good = shown(&page).await?;
        tap_part(&page, "SustainerNozzle").await?;
        page.type_into(NOZZLE, "90").await?;
        page.wait_for(".refusals li").await?;
        assert_eq!(texts(&page, ".refusals li").await?, reasons);
        assert!(!page.text(STALE).await?.is_empty(), "the answer is marked as one for earlier values");
        let invalid = "document.querySelector('[data-test=\"field-s.nozzle\"]').ariaInvalid";
        assert_eq!(page.evaluate(invalid).await?, "true");
        assert_eq!(shown(&page).await?, good);
        page.screenshot("laptop-refused").await?;
        page.type_into(NOZZLE, "11").await?;
        assert_link_follows(&page, "s.nozzle=11").await?;
        assert_eq!(texts(&page, ".refusals li").await?, Vec::<String>::new());

        // Opened from a link there is no earlier answer to fall back on.
        open(&page, impossible).await?;
        page.wait_for(".refusals li").await?;
        assert_eq!(texts(&page, ".refusals li").await?, reasons);
        let said = page.text("main").await?;
        assert!(!said.contains("last good values"), "there are no earlier values to speak of");
        assert!(!said.contains("single stage"), "two stages that cannot be flown are not one");
        page.screenshot("laptop-refused-link").await?;
        tap_part(&page, "SustainerNozzle").await?;
        page.type_into(NOZZLE, "9").await?;
        assert_answers(&page, "v=1").await?;
        assert_eq!(shown(&page).await?, answered("v=1")?);
        Ok(())
    })
    .await
}
