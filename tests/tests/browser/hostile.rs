//! Links made to do harm.

use acceptance::harness::{Outcome, Page, dist, phone, visit};
use holdwater_design::link;

use crate::shown::{assert_answers, open};

const NAME: &str = "[data-test=\"name\"]";

/// What would run where a page takes text for something else.
const SCRIPTS: [&str; 14] = [
    "<script>window.ran=1</script>",
    "<img src=x onerror=window.ran=1>",
    "\"><svg onload=window.ran=1>",
    "'-alert(1)-'",
    "javascript:window.ran=1",
    "</title><script>window.ran=1</script>",
    "</textarea><script>window.ran=1</script>",
    "{{constructor.constructor('window.ran=1')()}}",
    "<iframe srcdoc='<script>parent.ran=1</script>'>",
    "<a href=javascript:window.ran=1 autofocus onfocus=window.ran=1>x</a>",
    "<style>@import'//evil.example';*{display:none}</style>",
    "<base href=//evil.example/><link rel=stylesheet href=//evil.example/x>",
    "<meta http-equiv=refresh content=0;url=//evil.example>",
    "</svg><foreignObject><body onload=window.ran=1>",
];

/// Every script in every place where a link has text, plain and encoded once and twice.
fn scripts() -> Vec<String> {
    let mut links = Vec::new();
    for script in SCRIPTS {
        let once: String = script.bytes().map(|byte| format!("%{byte:02X}")).collect();
        let twice = once.replace('%', "%25");
        links.extend([
            format!("v=1&name={script}"),
            format!("v=1&name={once}&delay={once}"),
            format!("v=1&name={twice}&{twice}={twice}"),
            format!("v=1&{script}={script}&delay=';{script}//"),
            format!("{script}&v={script}&end={script}"),
        ]);
    }
    links
}

/// Text that is broken, disguised or no number.
const TEXTS: [&str; 36] = [
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
    "v=1&delay=0x10&s.fill=1e400&b.fill=1_000&s.water=0b1",
    "v=1&delay=-0&site=-0.0&air=-1e-400",
    "v=1&delay=1e308&b.vol=1e308&s.vol=1e308&s.water=1e308&s.fill=1e308",
    "v=1&delay=4.9e-324&s.nozzle=4.9e-324&s.vol=2.2250738585072014e-308",
    "v=1&delay=undefined&s.fill=null&b.fill=[object Object]&s.dry=true",
    "v=1&delay=0.1.2&s.fill=1,000,000&b.fill=1 000&s.dry=٣",
    "v=1&delay[]=1&delay[0]=2&delay[constructor]=3",
    "v=1&[[Prototype]]=1&__defineGetter__=1&valueOf=1&then=1",
    "v=1&name=__proto__&__proto__=__proto__",
    "v=-1&delay=0.2",
    "v=1.0&delay=0.2",
    "v=NaN&delay=0.2",
    "v=1;delay=0.2;name=x",
    "?v=1&delay=0.2",
    "/v=1&delay=0.2/../../etc/passwd",
    "//evil.example/v=1&delay=0.2",
    "v=1&name=%ED%A0%80%ED%B0%80&delay=%F4%90%80%80",
    "v=1&name=%C0%AE%C0%AE%2F%FE%FF&%80=%BF",
    "%76%3D%31%26%64%65%6C%61%79%3D%30%2E%32",
    "v%3D1%26delay%3D0.2%26name%3Dx",
    "v=1+1&name=a+b+++c&delay=+0.2",
];

/// Two designs, the second pinned to be compared with: it is as strange to the page as the first.
const PINNED: [&str; 6] = [
    "v=1&delay=0.2~v=1&name=<script>window.ran=1</script>",
    "v=1&name=one~v=1&name=<img src=x onerror=window.ran=1>&delay=NaN~v=1~~~",
    "~",
    "v=1&name=one~__proto__=1&delay=1e999",
    "v=1&delay=0.3~v=1&s.nozzle=120&s.bore=15&b.water=150&b.vol=0.1&delay=15",
    "~~~~~~~~~~~~~~~~<svg onload=window.ran=1>",
];

/// Links that are only long.
fn long() -> [String; 12] {
    [
        format!("v=1&name={}", "A".repeat(100_000)),
        "%F0%9F%92%A7".repeat(8_000),
        (0..5_000).fold("v=1".to_owned(), |link, key| format!("{link}&k{key}={key}")),
        format!("v=1{}", "&delay=0.3".repeat(3_000)),
        format!("v=1&delay=0.{}1", "0".repeat(20_000)),
        format!("v=1&s.fill={}", "9".repeat(2_000)),
        // An address of more than a mebibyte is none in some browsers, and this one has a beginning.
        format!("v=1&name={}", "x".repeat((1 << 20) - 256)),
        format!("v=1&delay=0.4&{}", "%25".repeat(100_000)),
        format!("v=1&name={}", "%CC%81".repeat(50_000)),
        "&".repeat(200_000),
        "=".repeat(200_000),
        (0..3_000).fold("v=1&delay=0.2~v=1".to_owned(), |link, key| format!("{link}&__proto__.{key}=<b>{key}")),
    ]
}

/// The page runs, ran nothing else, and shows the name as the text it is.
async fn assert_unharmed(page: &Page, fragment: &str) -> Outcome {
    let what: String = fragment.chars().take(80).collect();
    assert_eq!(page.evaluate("document.getElementById('crash').hidden").await?, true, "{what}");
    assert_eq!(page.evaluate("window.ran ?? ({}).polluted ?? null").await?, serde_json::Value::Null, "{what}");
    let planted = "document.querySelectorAll('#app script, #app img, #app iframe, #app base, #app style, #app link, [onload], [onerror], [onfocus], [srcdoc]').length";
    assert_eq!(page.evaluate(planted).await?, 0, "{what}");
    let name = link::open(link::split(fragment).0).design.name().to_owned();
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

/// The same without a visit, by changing what stands in the address bar of the open page.
async fn assert_all_unharmed_in_place(page: &Page, links: &[String]) -> Outcome {
    open(page, "").await?;
    for fragment in links {
        page.type_into(NAME, "alive").await?;
        page.client().execute("location.hash = arguments[0];", vec![fragment.as_str().into()]).await?;
        page.wait_until("document.querySelector('[data-test=\"name\"]').value !== 'alive'").await?;
        assert_unharmed(page, fragment).await?;
    }
    Ok(())
}

#[tokio::test]
async fn no_link_runs_a_script() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        let links = scripts();
        assert!(links.len() >= 70);
        assert_all_unharmed(&page, &links[..35]).await?;
        assert_all_unharmed_in_place(&page, &links[35..]).await
    })
    .await
}

#[tokio::test]
async fn no_text_takes_the_page_down() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        let links: Vec<String> = TEXTS.iter().chain(&PINNED).map(|link| (*link).to_owned()).collect();
        assert_all_unharmed(&page, &links).await
    })
    .await
}

#[tokio::test]
async fn no_link_is_too_long_for_the_page() -> Outcome {
    visit(phone(), &dist()?, |page| async move { assert_all_unharmed(&page, &long()).await }).await
}
