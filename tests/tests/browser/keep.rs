//! Designs kept on the device: by themselves, in a list, in a file; in two tabs, and when the storage is full, forbidden or
//! damaged.

use acceptance::harness::{Device, Outcome, Page, Storage, dist, laptop, phone, visit};
use holdwater_design::{link, shelf};
use serde_json::{Value, json};

use crate::asked::paste;
use crate::shown::{DELAY, assert_answers, assert_link_follows, number, open};

const MORE: &str = "[data-test=\"more\"]";
const NAME: &str = "[data-test=\"name\"]";
const SEARCH: &str = "[data-test=\"recent-search\"]";
const TROUBLE: &str = ".recent .complaint";

/// The names in the list, which is open.
async fn listed(page: &Page) -> Outcome<Vec<String>> {
    let names = "[...document.querySelectorAll('[data-test=\"recent\"] .example-title')].map(name => name.textContent)";
    let names = page.evaluate(names).await?;
    Ok(names.as_array().into_iter().flatten().filter_map(Value::as_str).map(str::to_owned).collect())
}

async fn open_more(page: &Page) -> Outcome {
    if page.evaluate("document.getElementById('more').hidden").await? == true {
        page.tap(MORE).await?;
    }
    Ok(())
}

/// Opens the list and waits until it has these names, in any order.
async fn assert_listed(page: &Page, names: &[&str]) -> Outcome {
    open_more(page).await?;
    let mut expected: Vec<String> = names.iter().map(|name| (*name).to_owned()).collect();
    expected.sort();
    let mut found = Vec::new();
    for _ in 0..60 {
        found = listed(page).await?;
        found.sort();
        if found == expected {
            return Ok(());
        }
        page.let_pass(50).await?;
    }
    assert_eq!(found, expected, "the designs listed (left) and those made (right)");
    Ok(())
}

/// Makes a design by typing, and returns its link.
async fn make(page: &Page, name: &str, delay: &str) -> Outcome<String> {
    open(page, "").await?;
    page.type_into(NAME, name).await?;
    page.type_into(DELAY, delay).await?;
    assert_link_follows(page, &format!("delay={delay}")).await
}

async fn stored(page: &Page) -> Outcome<String> {
    let text = page.evaluate("localStorage.getItem('holdwater.shelf')").await?;
    Ok(text.as_str().unwrap_or_default().to_owned())
}

async fn press_in_row(page: &Page, label: &str) -> Outcome {
    page.tap(&format!("[data-test=\"recent\"] [aria-label=\"{label}\"]")).await
}

async fn what_was_changed_is_found_again(device: Device) -> Outcome {
    visit(device, &dist()?, |page| async move {
        open(&page, "").await?;
        open_more(&page).await?;
        assert_eq!(listed(&page).await?, Vec::<String>::new(), "what was only looked at is not kept");
        let plover = make(&page, "Plover", "0.45").await?;
        // Loaded again with its link it is still the same design, not a second one.
        page.load_again().await?;
        page.wait_until("document.title === 'Plover · Holdwater'").await?;
        page.type_into(DELAY, "0.55").await?;
        let changed = assert_link_follows(&page, "delay=0.55").await?;
        assert_ne!(changed, plover);

        open(&page, "").await?;
        page.wait_until("document.title === 'Holdwater'").await?;
        assert_listed(&page, &["Plover"]).await?;
        page.screenshot(if device.is_touched { "phone-kept" } else { "laptop-kept" }).await?;
        page.tap("[data-test=\"recent\"] a.example").await?;
        page.wait_until("document.title === 'Plover · Holdwater'").await?;
        assert_answers(&page, &changed).await?;
        assert_eq!(page.fragment().await?, changed);
        assert_eq!(page.evaluate("document.getElementById('more').hidden").await?, true);

        // The next day.
        page.restart_browser(Storage::Allowed).await?;
        open(&page, "").await?;
        assert_listed(&page, &["Plover"]).await?;
        let href = page.evaluate("document.querySelector('[data-test=\"recent\"] a').getAttribute('href')").await?;
        assert_eq!(href, format!("#{changed}"));
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_phone_keeps_what_was_changed_without_being_asked() -> Outcome {
    what_was_changed_is_found_again(phone()).await
}

#[tokio::test]
async fn a_laptop_keeps_what_was_changed_without_being_asked() -> Outcome {
    what_was_changed_is_found_again(laptop()).await
}

#[tokio::test]
async fn kept_designs_are_searched_renamed_deleted_and_brought_back() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        for (name, delay) in [("Plover", "0.3"), ("Dunlin", "0.4"), ("Little Stint", "0.5")] {
            make(&page, name, delay).await?;
        }
        open(&page, "").await?;
        assert_listed(&page, &["Plover", "Dunlin", "Little Stint"]).await?;
        page.type_into(SEARCH, "stint LIT").await?;
        assert_listed(&page, &["Little Stint"]).await?;
        page.type_into(SEARCH, "gannet").await?;
        assert_listed(&page, &[]).await?;
        page.evaluate("document.querySelector('[data-test=\"recent-search\"]').select() ?? true").await?;
        page.press(&[acceptance::harness::Key::Delete]).await?;
        assert_listed(&page, &["Plover", "Dunlin", "Little Stint"]).await?;

        press_in_row(&page, "Rename Dunlin").await?;
        assert_eq!(page.client().get_alert_text().await?, "Name of the design");
        page.client().send_alert_text("Sanderling").await?;
        page.client().accept_alert().await?;
        assert_listed(&page, &["Plover", "Sanderling", "Little Stint"]).await?;
        let renamed = "[...document.querySelectorAll('[data-test=\"recent\"] a')].map(a => a.getAttribute('href')) \
                       .find(href => href.includes('Sanderling'))";
        let renamed = page.evaluate(renamed).await?;
        let opened = link::open(renamed.as_str().unwrap_or_default().trim_start_matches('#'));
        assert_eq!((opened.design.name(), opened.complaints.len()), ("Sanderling", 0), "the link has the name as well");
        press_in_row(&page, "Rename Plover").await?;
        page.client().dismiss_alert().await?;
        assert_listed(&page, &["Plover", "Sanderling", "Little Stint"]).await?;

        let deleted = "document.querySelector('[data-test=\"deleted\"]').hidden";
        assert_eq!(page.evaluate(deleted).await?, true);
        press_in_row(&page, "Delete Plover").await?;
        assert_listed(&page, &["Sanderling", "Little Stint"]).await?;
        page.tap("[data-test=\"deleted\"] button").await?;
        assert_listed(&page, &["Plover", "Sanderling", "Little Stint"]).await?;
        assert_eq!(page.evaluate(deleted).await?, true);
        press_in_row(&page, "Delete Sanderling").await?;
        open(&page, "").await?;
        assert_listed(&page, &["Plover", "Little Stint"]).await?;
        Ok(())
    })
    .await
}

#[tokio::test]
async fn two_tabs_lose_neither_design() -> Outcome {
    visit(laptop(), &dist()?, |page| async move {
        let first = page.tab().await?;
        make(&page, "Plover", "0.3").await?;
        let second = page.new_tab().await?;
        let dunlin = make(&page, "Dunlin", "0.4").await?;
        // By turns, each tab with what it last knew of the other.
        page.look_at(&first).await?;
        page.type_into(DELAY, "0.35").await?;
        let plover = assert_link_follows(&page, "delay=0.35").await?;
        page.look_at(&second).await?;
        assert_listed(&page, &["Plover", "Dunlin"]).await?;
        let hrefs = "[...document.querySelectorAll('[data-test=\"recent\"] a')].map(a => a.getAttribute('href'))";
        let hrefs = page.evaluate(hrefs).await?;
        for link in [&plover, &dunlin] {
            assert!(hrefs.as_array().is_some_and(|all| all.contains(&json!(format!("#{link}")))), "{link} in {hrefs}");
        }

        // A tab that was duplicated starts as the same design and becomes one of its own.
        page.duplicate_tab().await?;
        page.wait_until("document.title === 'Dunlin · Holdwater' && document.getElementById('shell') === null").await?;
        page.type_into(NAME, "Curlew").await?;
        page.wait_until("location.hash.includes('name=Curlew')").await?;
        page.look_at(&second).await?;
        page.type_into(DELAY, "0.45").await?;
        assert_link_follows(&page, "delay=0.45").await?;
        assert_listed(&page, &["Plover", "Dunlin", "Curlew"]).await?;

        // Deleted in one tab, it does not come back from another.
        press_in_row(&page, "Delete Plover").await?;
        assert_listed(&page, &["Dunlin", "Curlew"]).await?;
        page.look_at(&first).await?;
        assert_listed(&page, &["Dunlin", "Curlew"]).await?;
        Ok(())
    })
    .await
}

/// Fills the storage to the last character, and empties it by a key.
const FILL: &str = "(() => {
    let text = 'x'.repeat(1 << 20);
    let number = 0;
    while (text.length > 0) {
        try { localStorage.setItem(`filler${number}`, text); number += 1; } catch { text = text.slice(text.length / 2 + 1 | 0); }
    }
    return number;
})()";

#[tokio::test]
async fn a_full_storage_is_told_and_the_page_goes_on() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        make(&page, "Plover", "0.3").await?;
        let before = stored(&page).await?;
        assert!(number(&page, FILL).await? > 3.0);
        // At once: half of it might be shorter than the name before, and fit.
        paste(&page, NAME, "Ringed plover with a longer name").await?;
        page.type_into(DELAY, "0.4").await?;
        let link = assert_link_follows(&page, "delay=0.4").await?;
        open_more(&page).await?;
        let said = page.text(TROUBLE).await?;
        assert!(said.contains("full") && said.contains("link"), "{said}");
        assert_eq!(stored(&page).await?, before, "what was kept before is still whole");
        page.tap(MORE).await?;
        page.load_again().await?;
        page.wait_until("document.title.startsWith('Ringed plover')").await?;
        assert_answers(&page, &link).await?;

        // As soon as there is room again, it is kept, and nobody is warned any more.
        page.evaluate("Object.keys(localStorage).filter(key => key.startsWith('filler')).forEach(key => localStorage.removeItem(key)) ?? true").await?;
        page.type_into(DELAY, "0.5").await?;
        assert_link_follows(&page, "delay=0.5").await?;
        open_more(&page).await?;
        assert_eq!(page.text(TROUBLE).await?, "");
        assert!(listed(&page).await?.contains(&"Ringed plover with a longer name".to_owned()));

        // Full and emptied without loading the page anew.
        page.evaluate(FILL).await?;
        page.type_into(NAME, "Ringed plover with a name that is longer still").await?;
        page.wait_until(&format!("document.querySelector('{TROUBLE}').textContent !== ''")).await?;
        page.evaluate("Object.keys(localStorage).filter(key => key.startsWith('filler')).forEach(key => localStorage.removeItem(key)) ?? true").await?;
        page.type_into(NAME, "Knot").await?;
        page.wait_until(&format!("document.querySelector('{TROUBLE}').textContent === ''")).await?;
        assert!(stored(&page).await?.contains("Knot"));
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_forbidden_storage_is_told_and_the_page_goes_on() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        // As set by people who let no page keep anything.
        page.restart_browser(Storage::Forbidden).await?;
        open(&page, "v=1&name=Plover&delay=0.4").await?;
        let denied = "(() => { try { return localStorage === null; } catch (error) { return error.name; } })()";
        assert_eq!(page.evaluate(denied).await?, "SecurityError", "the browser forbids it");
        assert_answers(&page, "v=1&delay=0.4").await?;
        page.type_into(DELAY, "0.5").await?;
        let link = assert_link_follows(&page, "delay=0.5").await?;
        open_more(&page).await?;
        let said = page.text(TROUBLE).await?;
        assert!(said.contains("forbidden") && said.contains("link"), "{said}");
        for button in ["units-us", "colours-sun", "units-metric", "colours-system"] {
            page.tap(&format!("[data-test=\"{button}\"]")).await?;
        }
        assert_eq!(page.fragment().await?, link);
        page.tap("[data-test=\"undo-2\"]").await?;
        assert_link_follows(&page, "delay=0.4").await?;
        page.load_again().await?;
        page.wait_until("document.title === 'Plover · Holdwater'").await?;
        assert_eq!(page.evaluate("document.getElementById('crash').hidden").await?, true);
        Ok(())
    })
    .await
}

#[tokio::test]
async fn of_a_damaged_storage_the_good_lines_survive_and_the_rest_is_put_aside() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        for (name, delay) in [("Plover", "0.3"), ("Dunlin", "0.4"), ("Knot", "0.5")] {
            make(&page, name, delay).await?;
        }
        let damage = "(() => {
            const lines = localStorage.getItem('holdwater.shelf').split('\\n');
            const index = lines.findIndex(line => line.includes('Dunlin'));
            lines[index] = lines[index].replace('Dunlin', 'Dun\\u0000\\ud800lin');
            lines.push('{\"not\": \"ours\"}', '<script>window.ran=1</script>', '\\u0007'.repeat(5000));
            localStorage.setItem('holdwater.shelf', lines.join('\\n'));
            return lines[index].length;
        })()";
        page.evaluate(damage).await?;
        open(&page, "").await?;
        assert_listed(&page, &["Plover", "Knot"]).await?;
        let said = page.text(TROUBLE).await?;
        assert!(said.contains('4') && said.contains("put aside"), "{said}");
        let aside = page.evaluate("localStorage.getItem('holdwater.shelf.damaged')").await?;
        assert!(aside.as_str().is_some_and(|aside| aside.contains("lin&link=") && aside.contains("ours")), "{aside}");
        page.tap(MORE).await?;
        make(&page, "Curlew", "0.6").await?;
        open(&page, "").await?;
        assert_listed(&page, &["Plover", "Knot", "Curlew"]).await?;
        assert_eq!(page.text(TROUBLE).await?, "", "said once");
        let aside = page.evaluate("localStorage.getItem('holdwater.shelf.damaged')").await?;
        assert!(aside.as_str().is_some_and(|aside| aside.contains("lin&link=")), "it is still there: {aside}");

        for (key, text) in
            [("shelf", "\\u0000"), ("shelf", "[object Object]"), ("units", "furlongs"), ("colours", "mauve")]
        {
            page.evaluate(&format!("localStorage.setItem('holdwater.{key}', '{text}') ?? true")).await?;
            page.evaluate("sessionStorage.setItem('holdwater.current', '../../<x>') ?? true").await?;
            open(&page, "v=1&delay=0.4").await?;
            assert_answers(&page, "v=1&delay=0.4").await?;
        }
        make(&page, "Whimbrel", "0.7").await?;
        assert_listed(&page, &["Whimbrel"]).await?;
        Ok(())
    })
    .await
}

#[tokio::test]
async fn all_designs_go_into_a_file_and_come_out_of_it_on_another_device() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        let plover = make(&page, "Plover & Söhne <b>", "0.3").await?;
        make(&page, "Dunlin", "0.4").await?;
        open_more(&page).await?;
        page.tap("[data-test=\"save-all\"]").await?;
        let saved = page.downloaded("holdwater-designs.txt").await?;
        let reading = shelf::read(saved.as_bytes());
        assert_eq!(reading.skipped, Vec::new());
        let links: Vec<_> = reading.shelf.recent().iter().map(|entry| entry.link.clone()).collect();
        assert!(links.len() == 2 && links.contains(&plover), "{links:?}");

        // Another device is one that has forgotten everything, and has a design of its own.
        page.evaluate("localStorage.clear() ?? sessionStorage.clear() ?? true").await?;
        make(&page, "Knot", "0.6").await?;
        open_more(&page).await?;
        let file = std::env::temp_dir().join(format!("holdwater-designs-{}.txt", std::process::id()));
        std::fs::write(&file, format!("{saved}this line is none\n"))?;
        let field = page.wait_for("[data-test=\"take-in\"]").await?;
        field.send_keys(&file.display().to_string()).await?;
        assert_listed(&page, &["Plover & Söhne <b>", "Dunlin", "Knot"]).await?;
        let said = page.text(TROUBLE).await?;
        assert!(said.contains('1') && said.contains("left out"), "{said}");
        // The same file once more changes nothing.
        field.send_keys(&file.display().to_string()).await?;
        page.let_pass(300).await?;
        assert_listed(&page, &["Plover & Söhne <b>", "Dunlin", "Knot"]).await?;

        // Any file may be chosen by mistake.
        std::fs::write(&file, [0_u8, 255, 254, 13, 10, 128].repeat(20_000))?;
        field.send_keys(&file.display().to_string()).await?;
        page.wait_until(&format!("document.querySelector('{TROUBLE}').textContent.match(/^2000[01] lines/) !== null"))
            .await?;
        std::fs::remove_file(&file)?;
        open(&page, "").await?;
        assert_listed(&page, &["Plover & Söhne <b>", "Dunlin", "Knot"]).await?;
        Ok(())
    })
    .await
}
