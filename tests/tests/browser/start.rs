//! What opening the page shows, and going back and forward between designs.

use acceptance::harness::{Device, Outcome, dist, laptop, phone, visit};
use holdwater_design::examples::EXAMPLES;

use crate::shown::{VERDICT, assert_answers, assert_link_follows, delay_s, open};

async fn the_default_design_is_answered(device: Device) -> Outcome {
    visit(device, &dist()?, |page| async move {
        open(&page, "").await?;
        assert_answers(&page, "#v=1").await?;
        assert!(page.text(VERDICT).await?.contains("m"), "the verdict names a height");
        assert_eq!(page.evaluate("document.querySelector('[data-test=\"notice\"]')").await?, serde_json::Value::Null);
        assert_eq!(page.evaluate("document.getElementById('crash').hidden").await?, true);
        let first = "document.querySelector('[data-test=\"verdict\"]').getBoundingClientRect()";
        let seen = format!("{first}.top >= 0 && {first}.bottom <= innerHeight");
        assert_eq!(page.evaluate(&seen).await?, true, "the verdict is seen without scrolling");
        page.let_pass(500).await?;
        assert_eq!(page.fragment().await?, "", "looking at the page leaves the address alone");
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_phone_shows_the_default_design_with_the_digits_of_the_command_line() -> Outcome {
    the_default_design_is_answered(phone()).await
}

#[tokio::test]
async fn a_laptop_shows_the_default_design_with_the_digits_of_the_command_line() -> Outcome {
    the_default_design_is_answered(laptop()).await
}

#[tokio::test]
async fn every_example_is_opened_from_the_list_with_the_digits_of_the_command_line() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        open(&page, "").await?;
        // The first is the design that is shown already.
        for example in EXAMPLES.iter().skip(1).chain(&EXAMPLES[..1]) {
            page.tap("[data-test=\"more\"]").await?;
            page.tap(&format!("a.example[href=\"#{}\"]", example.link)).await?;
            page.wait_until("document.getElementById('more').hidden").await?;
            assert_answers(&page, example.link).await?;
            assert_eq!(page.fragment().await?, example.link, "{}", example.title);
        }
        Ok(())
    })
    .await
}

#[tokio::test]
async fn back_and_forward_move_between_links_and_keep_what_was_changed() -> Outcome {
    visit(laptop(), &dist()?, |page| async move {
        let (early, late) = ("v=1&name=early&delay=0.3", "v=1&name=late&delay=0.8");
        open(&page, early).await?;
        assert_answers(&page, early).await?;
        // Within the page, as when a link is pasted over the other in the address bar.
        page.client().goto(&format!("{}#{late}", page.url())).await?;
        page.wait_until("document.title === 'late · Holdwater'").await?;
        assert_answers(&page, late).await?;
        page.type_into(crate::shown::DELAY, "0.55").await?;
        let changed = assert_link_follows(&page, "delay=0.55").await?;

        page.client().back().await?;
        page.wait_until("document.title === 'early · Holdwater'").await?;
        assert_answers(&page, early).await?;
        assert_eq!(page.fragment().await?, early);
        page.client().forward().await?;
        page.wait_until("document.title === 'late · Holdwater'").await?;
        assert_answers(&page, &changed).await?;
        assert!((delay_s(&page).await? - 0.55).abs() < 1e-12);

        page.load_again().await?;
        page.wait_until("document.title === 'late · Holdwater'").await?;
        assert_answers(&page, &changed).await?;
        Ok(())
    })
    .await
}
