//! Links made to do harm.

use acceptance::harness::{Outcome, Page, dist, phone, visit};
use holdwater_design::link;

use crate::shown::{assert_answers, open};

const NAME: &str = "[data-test=\"name\"]";

/// Scripts in every place where a page could take text for something else.
const SCRIPTS: [&str; 10] = [
    "v=1&name=<script>window.ran=1</script>",
    "v=1&name=<img src=x onerror=window.ran=1>",
    "v=1&name=\"><svg onload=window.ran=1>",
    "v=1&name='-alert(1)-'&delay=';alert(1)//",
    "v=1&name=javascript:alert(1)",
    "v=1&name=</title><script>window.ran=1</script>",
    "v=1&name={{constructor.constructor('window.ran=1')()}}",
    "v=1&<img src=x onerror=window.ran=1>=<iframe src=javascript:alert(1)>",
    "v=<svg onload=window.ran=1>&end=<script>window.ran=1</script>",
    "javascript:window.ran=1",
];

/// Text that is broken, disguised or no number.
const TEXTS: [&str; 15] = [
    "v=1&name=%00%01%07%08%0A%0D%1B%7F%C2%85",
    "v=1&name=%E2%80%AEtolip%E2%81%A6%E2%80%A8x",
    "v=1&name=%252525253Cscript%252525253E%2525",
    "v=1&name=%F0%9F%9A%80%F0%9F%91%A9%E2%80%8D%F0%9F%91%A9%E2%80%8D%F0%9F%91%A7a%CC%81%CC%81%CC%81%CC%81",
    "v=1&name=%E0%A4%A&delay=%&s.fill=%zz",
    "v=1&delay=NaN&s.fill=-NaN&b.fill=nan",
    "v=1&delay=1e999&b.vol=-1e999&s.vol=1e-999",
    "v=1&delay=Infinity&s.water=-Infinity",
    "v=1&delay=%EF%BC%91%EF%BC%8E%EF%BC%95&s.water=%D9%A1",
    "v=1&__proto__=1&constructor=2&toString=3&hasOwnProperty=4&__proto__.polluted=5",
    "v=999999999999999999999999&delay=0.2",
    "v=1#v=1#v=2?v=3&delay=0.3",
    "&&&&====&=&;;;&v&=1&delay==0.2",
    "v=1&s.nozzle=120&s.bore=15&b.water=150&b.vol=0.1&delay=15",
    "v=1&stages=1&delay=15&site=5000&b.count=12&b.fill=150&s.fill=150&s.dry=0.02&s.water=0",
];

/// Links that are only long.
fn long() -> [String; 6] {
    [
        format!("v=1&name={}", "A".repeat(100_000)),
        "%F0%9F%92%A7".repeat(8_000),
        (0..5_000).fold("v=1".to_owned(), |link, key| format!("{link}&k{key}={key}")),
        format!("v=1{}", "&delay=0.3".repeat(3_000)),
        format!("v=1&delay=0.{}1", "0".repeat(20_000)),
        format!("v=1&s.fill={}", "9".repeat(2_000)),
    ]
}

/// The page runs, ran nothing else, and shows the name as the text it is.
async fn assert_unharmed(page: &Page, fragment: &str) -> Outcome {
    let what: String = fragment.chars().take(80).collect();
    assert_eq!(page.evaluate("document.getElementById('crash').hidden").await?, true, "{what}");
    assert_eq!(page.evaluate("window.ran ?? ({}).polluted ?? null").await?, serde_json::Value::Null, "{what}");
    let planted = "document.querySelectorAll('#app script, #app img, #app iframe, [onload], [onerror]').length";
    assert_eq!(page.evaluate(planted).await?, 0, "{what}");
    let name = link::open(fragment).design.name().to_owned();
    assert_eq!(page.evaluate("document.querySelector('[data-test=\"name\"]').value").await?, name.as_str(), "{what}");
    let title = if name.trim().is_empty() { "Holdwater".to_owned() } else { format!("{name} · Holdwater") };
    let spaces = "document.title === arguments[0].trim().replace(/[ \\t\\n\\f\\r]+/g, ' ')";
    let titled = page.client().execute(&format!("return {spaces};"), vec![title.into()]).await?;
    assert_eq!(titled, true, "{what}");
    page.type_into(NAME, "alive").await?;
    page.wait_until("document.title === 'alive · Holdwater'").await
}

async fn assert_all_unharmed(page: &Page, links: &[String]) -> Outcome {
    for fragment in links {
        open(page, fragment).await?;
        assert_unharmed(page, fragment).await?;
    }
    // A page that was harmed by one of them in secret would not fly the next design.
    open(page, "v=1&delay=0.3").await?;
    assert_answers(page, "v=1&delay=0.3").await
}

#[tokio::test]
async fn no_link_runs_a_script_or_takes_the_page_down() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        let links: Vec<String> = SCRIPTS.iter().chain(&TEXTS).map(|link| (*link).to_owned()).collect();
        assert_all_unharmed(&page, &links).await?;
        // The same without a visit, by changing what stands in the address bar of the open page.
        for fragment in SCRIPTS {
            page.client().execute("location.hash = arguments[0];", vec![fragment.into()]).await?;
            let arrived = "document.querySelector('[data-test=\"name\"]').value !== 'alive'";
            page.wait_until(arrived).await?;
            assert_unharmed(&page, fragment).await?;
        }
        Ok(())
    })
    .await
}

#[tokio::test]
async fn no_link_is_too_long_for_the_page() -> Outcome {
    visit(phone(), &dist()?, |page| async move { assert_all_unharmed(&page, &long()).await }).await
}
