//! Pictures of the page for people to look at; what can be checked in them is that the colours are what was asked for.

use acceptance::harness::{Ability, Device, Outcome, dist, laptop, phone, visit};

use crate::shown::{CHART, assert_answers, number, open, painted};

/// The brightness of the paper, 0 to 255.
const BRIGHTNESS: &str = "(() => {
    const colour = getComputedStyle(document.documentElement).backgroundColor;
    return colour.match(/[0-9.]+/g).slice(0, 3).reduce((sum, part) => sum + Number(part) / 3, 0);
})()";

async fn pictures(device: Device, name: &'static str) -> Outcome {
    visit(device, &dist()?, move |page| async move {
        open(&page, "").await?;
        assert_answers(&page, "v=1").await?;
        let has_dark = page.can(Ability::Colours)?;
        for dark in if has_dark { &[false, true][..] } else { &[false] } {
            let dark = *dark;
            if has_dark {
                page.prefer_dark(dark).await?;
            }
            page.let_pass(300).await?;
            let brightness = number(&page, BRIGHTNESS).await?;
            assert_eq!(brightness < 128.0, dark, "the paper has a brightness of {brightness}");
            page.wait_until(&format!("{} > 500", painted(&format!("{CHART} canvas")))).await?;
            let colours = if dark { "dark" } else { "light" };
            page.screenshot(&format!("{name}-{colours}")).await?;
            for (part, css) in [("stack", ".stack-room"), ("flight", ".flight-chart")] {
                page.center(css).await?;
                page.screenshot(&format!("{name}-{colours}-{part}")).await?;
            }
            page.evaluate("scrollTo(0, 0) ?? true").await?;
        }
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_phone_shows_the_page_in_light_and_in_dark_colours() -> Outcome {
    pictures(phone(), "phone").await
}

#[tokio::test]
async fn a_laptop_shows_the_page_in_light_and_in_dark_colours() -> Outcome {
    pictures(laptop(), "laptop").await
}
