//! The page searched with axe-core for what keeps people from using it, in all its colours and with all of it open.

use acceptance::harness::{Ability, Device, Outcome, Page, dist, laptop, phone, visit};
use serde_json::Value;
use xtask::cache::Cache;
use xtask::tools;

use crate::asked::{open_all, settled, texts};

/// A full page: a restrictor, parts of which one is broken, a log, a pinned design.
const FULL: &str = "v=1&name=Dunlin&delay=0.6&r.bore=12&p1.kind=shell&p2.kind=splice&p2.wall=45&p3.kind=dome&p3.stage=booster\
                    &log=bottle,84,f;bottle,120,w~v=1&delay=0.4";
/// One that cannot be flown, with a link that says something unknown.
const REFUSED: &str = "v=1&s.nozzle=90&curlew=7";

/// Opens whatever can be opened.
const OPEN_ALL: &str = "(() => {
    for (const details of document.querySelectorAll('details')) details.open = true;
    if (document.getElementById('more').hidden) document.querySelector('[data-test=\"more\"]').click();
    return true;
})()";

/// Every violation of WCAG 2.2 A and AA and of good practice, as lines with the elements that it is found in.
const SEARCH: &str = "
    const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
    const { violations } = await axe.run(document, { runOnly: { type: 'tag', values: tags }, resultTypes: ['violations'] });
    return violations.map(one => `${one.id} (${one.impact}), ${one.nodes.length} times: ${one.help}: ` + one.nodes.slice(0, 4)
        .map(node => `${node.target.join(' ')} ${node.html.slice(0, 160)} ${[...node.any, ...node.all, ...node.none][0]?.message ?? ''}`)
        .join(' | '));";

async fn search(page: &Page, axe: &str, found: &mut Vec<String>, what: &str) -> Outcome {
    page.evaluate(OPEN_ALL).await?;
    settled(page).await?;
    page.client().execute(axe, Vec::new()).await?;
    let violations = page.ask(SEARCH).await?;
    for line in violations.as_array().ok_or("there is a list")?.iter().filter_map(Value::as_str) {
        found.push(format!("{what}: {line}"));
    }
    Ok(())
}

async fn there_are_no_barriers(device: Device) -> Outcome {
    let path = tools::axe().path(&Cache::of_this_user()?);
    let Ok(axe) = std::fs::read_to_string(&path) else {
        println!("SKIPPED: axe-core is not in the cache; with npm, `cargo xtask test browser` fetches it");
        return Ok(());
    };
    visit(device, &dist()?, move |page| async move {
        let mut found = Vec::new();
        let has_dark = page.can(Ability::Colours)?;
        for colours in ["day", "dark", "glare"] {
            match (has_dark, colours) {
                (true, _) => page.prefer_dark(colours == "dark").await?,
                (false, "dark") => continue,
                (false, _) => {}
            }
            for (name, fragment) in [("default", ""), ("full", FULL), ("refused", REFUSED)] {
                open_all(&page, fragment).await?;
                if colours == "glare" {
                    page.tap("[data-test=\"more\"]").await?;
                    page.tap("[data-test=\"colours-sun\"]").await?;
                }
                search(&page, &axe, &mut found, &format!("{colours}, {name}")).await?;
                if name == "full" {
                    page.tap("[data-test=\"share\"]").await?;
                    page.evaluate(
                        "document.querySelector('[data-part=\"Restrictor\"]').dispatchEvent(\
                                   new MouseEvent('click', { bubbles: true }))",
                    )
                    .await?;
                    search(&page, &axe, &mut found, &format!("{colours}, with a sheet and shared")).await?;
                }
            }
        }
        assert!(texts(&page, "main").await?.len() == 1);
        if found.is_empty() { Ok(()) } else { Err(found.join("\n").into()) }
    })
    .await
}

#[tokio::test]
async fn a_phone_meets_no_barriers_in_any_colours() -> Outcome {
    there_are_no_barriers(phone()).await
}

#[tokio::test]
async fn a_laptop_meets_no_barriers_in_any_colours() -> Outcome {
    there_are_no_barriers(laptop()).await
}
