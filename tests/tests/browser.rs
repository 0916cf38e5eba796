//! The built page in a browser.

use acceptance::harness::{Outcome, dist, phone, visit};

#[tokio::test]
async fn the_page_starts_below_any_path() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        page.open_fragment("").await?;
        page.wait_until("document.getElementById('shell') === null").await?;
        assert_eq!(page.evaluate("document.getElementById('crash').hidden").await?, true);
        Ok(())
    })
    .await
}
