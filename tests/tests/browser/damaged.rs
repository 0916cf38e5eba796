//! Links that came to harm on their way.

use acceptance::harness::{Outcome, dist, phone, visit};
use holdwater_design::link;
use serde_json::Value;

use crate::shown::{DELAY, assert_answers, assert_link_follows, open};

/// A key nobody knows, a value that is no number, one out of range, and an end that was cut off.
const DAMAGED: &str = "v=1&name=Plover&wings=4&s.fill=lots&b.dry=900&delay=0.4&s.dry=0.25&end=zzzzzz&s.no";

#[tokio::test]
async fn a_damaged_link_is_used_as_far_as_it_goes_and_kept_as_it_came() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        open(&page, DAMAGED).await?;
        assert_answers(&page, "v=1&delay=0.4&s.dry=0.25").await?;
        assert_eq!(page.evaluate("document.querySelector('[data-test=\"name\"]').value").await?, "Plover");

        let lines =
            page.evaluate("[...document.querySelectorAll('[data-test=\"notice\"] li')].map(line => line.innerText)");
        let lines = lines.await?;
        let lines: Vec<&str> = lines.as_array().into_iter().flatten().filter_map(Value::as_str).collect();
        for key in ["wings", "s.fill", "b.dry", "s.no", "(end)"] {
            assert!(lines.iter().any(|line| line.contains(key)), "{key} is not named in {lines:?}");
        }
        let complaints: Vec<String> = link::open(DAMAGED).complaints.iter().map(ToString::to_string).collect();
        assert_eq!(lines, complaints, "the page says what every other reader of links says");
        let original = "document.querySelector('[data-test=\"notice\"] textarea').value";
        assert_eq!(page.evaluate(original).await?, DAMAGED);
        page.screenshot("phone-damaged").await?;

        page.let_pass(1000).await?;
        assert_eq!(page.fragment().await?, DAMAGED, "nothing was changed, so the address is left alone");
        page.type_into(DELAY, "0.5").await?;
        let mended = assert_link_follows(&page, "delay=0.5").await?;
        assert_eq!(link::open(&mended).complaints, Vec::new());
        assert_eq!(page.evaluate(original).await?, DAMAGED, "the link as it came is still at hand");

        page.tap("[data-test=\"notice-close\"]").await?;
        page.wait_until("document.querySelector('[data-test=\"notice\"]') === null").await?;
        assert_answers(&page, &mended).await?;
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_link_written_by_hand_is_met_with_a_quiet_remark() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        open(&page, "v=1&delay=0.4").await?;
        let notice = page.text("[data-test=\"notice\"]").await?;
        assert!(notice.contains("no checksum"), "{notice}");
        let alarming = "document.querySelector('[data-test=\"notice\"]').classList.contains('act')";
        assert_eq!(page.evaluate(alarming).await?, false);
        assert_answers(&page, "v=1&delay=0.4").await?;
        Ok(())
    })
    .await
}
