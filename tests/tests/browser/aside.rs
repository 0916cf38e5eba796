//! Sweeps and searches beside the page: in a worker, and in the page's own frames where there is none.

use acceptance::harness::{Outcome, dist, laptop, phone, visit};

use crate::asked::{evaluated, number_in, open_all, said, settled, value};
use crate::shown::DELAY;

const DESIGN: &str = "v=1&r.bore=20&delay=0.6";

/// Counts the workers and what they are asked, and can hold the search for sizes back.
const WATCHED: &str = "window.workers = 0; window.asked = 0; window.hold = false;
const Real = window.Worker;
window.Worker = class extends Real {
  constructor(...all) { super(...all); window.workers += 1; }
  postMessage(message) {
    if (Array.isArray(message)) window.asked += 1;
    if (!(window.hold && Array.isArray(message) && message[1] === 2)) super.postMessage(message);
  }
};";

/// Stops the search, and takes it up again.
const STOP: &str = "[data-test=\"search-stop\"]";

#[tokio::test]
async fn sizes_are_searched_in_one_worker_and_the_newest_question_wins() -> Outcome {
    visit(laptop(), &dist()?, |page| async move {
        page.before_all(WATCHED).await?;
        open_all(&page, DESIGN).await?;
        for delay in ["0.2", "0.9", "0.4"] {
            page.type_into(DELAY, delay).await?;
            page.let_pass(230).await?;
        }
        let fragment = settled(&page).await?;
        let answers = evaluated(&fragment)?;
        assert_eq!(value(&page, "best-apogee").await?, number_in(&answers, "/restrictor/best_apogee_m"));
        assert_eq!(page.evaluate("window.workers").await?, 1);
        assert!(page.evaluate("window.asked").await?.as_u64().is_some_and(|asked| asked > 4));
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_search_is_stopped_and_taken_up_again() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        page.before_all(WATCHED).await?;
        open_all(&page, DESIGN).await?;
        let before = said(&page, "holding-verdict").await?;
        page.evaluate("(window.hold = true)").await?;
        page.type_into(DELAY, "1.1").await?;
        page.wait_until("document.querySelector('.updating-line').hidden === false").await?;
        page.tap_at(page.center_at_rest(STOP).await?).await?;
        page.wait_until("document.querySelector('.updating-line').textContent.startsWith('Stopped')").await?;
        assert_eq!(said(&page, "holding-verdict").await?, before);
        page.evaluate("(window.hold = false) === false").await?;
        page.tap_at(page.center_at_rest(STOP).await?).await?;
        let fragment = settled(&page).await?;
        let answers = evaluated(&fragment)?;
        assert_eq!(value(&page, "best-apogee").await?, number_in(&answers, "/restrictor/best_apogee_m"));
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_search_stopped_before_it_begins_does_not_begin() -> Outcome {
    visit(laptop(), &dist()?, |page| async move {
        open_all(&page, DESIGN).await?;
        // Soon after, so that the design has had no time to rest.
        let typed = format!(
            "(() => {{ const field = document.querySelector('{DELAY}'); field.value = '1.1'; \
             field.dispatchEvent(new Event('input', {{ bubbles: true }})); \
             setTimeout(() => document.querySelector('{STOP}').click(), 20); \
             return true; }})()"
        );
        assert_eq!(page.evaluate(&typed).await?, true);
        page.let_pass(600).await?;
        let text = page.evaluate("document.querySelector('.updating-line').textContent").await?;
        assert!(text.as_str().is_some_and(|text| text.starts_with("Stopped")), "{text}");
        Ok(())
    })
    .await
}

#[tokio::test]
async fn without_a_worker_the_page_searches_by_itself() -> Outcome {
    // One browser has none, in the other its script does not arrive.
    let lost = "const Real = window.Worker;
window.Worker = class extends Real { constructor(address, options) { super(address.replace('searcher', 'lost'), options); } };";
    for odd in ["delete window.Worker", lost] {
        visit(laptop(), &dist()?, |page| async move {
            page.forgive("404");
            page.before_all(odd).await?;
            open_all(&page, DESIGN).await?;
            page.wait_until("document.querySelector('[data-test=\"best-apogee\"]').dataset.value !== undefined")
                .await?;
            let answers = evaluated(DESIGN)?;
            assert_eq!(value(&page, "best-apogee").await?, number_in(&answers, "/restrictor/best_apogee_m"));
            Ok(())
        })
        .await?;
    }
    Ok(())
}
