//! Nothing sticks out of the page to the side, however narrow it is.

use acceptance::harness::{Device, Outcome, Page, dist, laptop, phone, visit};
use serde_json::json;

use crate::shown::{open, tap_part};

/// Long in everything: a name without a space, five digits in every number, all that can be fitted.
const LONG: &str = "v=1&name=WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW&b.vol=12.345&b.bore=104.25\
                    &b.fill=12.345&s.vol=2.3456&s.bore=87.125&s.fill=11.125&s.tube=220.5&delay=0.4321&r.bore=19.125\
                    &oystercatchers-and-other-waders-of-the-flat=12345678901234567890123456789012345678901234567890";

/// What reaches beyond the right edge, unless it lies in a box that scrolls by itself.
const STICKING_OUT: &str = "(() => {
    const edge = document.documentElement.clientWidth;
    const wide = document.documentElement.scrollWidth > edge ? [`the page is ${document.documentElement.scrollWidth} wide`] : [];
    const scrolls = element => element.closest('.table-box, textarea, .spoken, [hidden]') !== null;
    for (const element of document.querySelectorAll('body *')) {
        const box = element.getBoundingClientRect();
        if (box.width > 0 && !scrolls(element) && (box.right > edge + 1 || box.left < -1))
            wide.push(`${element.tagName}.${element.getAttribute('class')} to ${box.right} (${element.textContent.slice(0, 30)})`);
    }
    return wide;
})()";

/// Opens whatever can be opened on the page.
const OPEN_ALL: &str = "(() => {
    for (const details of document.querySelectorAll('details')) details.open = true;
    if (document.getElementById('more').hidden) document.querySelector('[data-test=\"more\"]').click();
    return true;
})()";

async fn assert_nothing_sticks_out(page: &Page, width: u32, what: &str) -> Outcome {
    assert_eq!(page.evaluate(&format!("matchMedia('(width: {width}px)').matches")).await?, true);
    assert_eq!(page.evaluate(STICKING_OUT).await?, json!([]), "at {width} px, {what}");
    Ok(())
}

async fn assert_all_fits(page: &Page, width: u32) -> Outcome {
    for fragment in ["", LONG, "v=1&stages=1", "v=1&s.nozzle=90"] {
        open(page, fragment).await?;
        page.let_pass(200).await?;
        assert_nothing_sticks_out(page, width, fragment).await?;
        page.evaluate(OPEN_ALL).await?;
        page.let_pass(200).await?;
        assert_nothing_sticks_out(page, width, &format!("all opened, {fragment}")).await?;
    }
    open(page, LONG).await?;
    tap_part(page, "StagingTube").await?;
    assert_nothing_sticks_out(page, width, "with a sheet").await
}

async fn nothing_sticks_out(device: Device, picture: &'static str) -> Outcome {
    visit(device, &dist()?, move |page| async move {
        open(&page, "").await?;
        page.let_pass(200).await?;
        page.screenshot(picture).await?;
        assert_all_fits(&page, device.width).await
    })
    .await
}

#[tokio::test]
async fn nothing_sticks_out_on_a_phone_of_390_pixels() -> Outcome {
    nothing_sticks_out(phone(), "width-390").await
}

#[tokio::test]
async fn nothing_sticks_out_on_a_phone_of_320_pixels() -> Outcome {
    nothing_sticks_out(Device { width: 320, height: 568, pixel_ratio: 2.0, ..phone() }, "width-320").await
}

#[tokio::test]
async fn nothing_sticks_out_on_a_laptop() -> Outcome {
    nothing_sticks_out(laptop(), "width-1280").await
}

#[tokio::test]
async fn nothing_sticks_out_on_a_laptop_at_200_percent() -> Outcome {
    // Zooming is just that: half as many pixels, twice as sharp.
    nothing_sticks_out(Device { width: 640, height: 400, pixel_ratio: 2.0, ..laptop() }, "width-1280-zoomed").await
}
