//! The field sheet on paper, and charts and curves as files.

use acceptance::harness::{Ability, Outcome, Page, dist, laptop, phone, visit};
use base64::Engine as _;
use holdwater_answers::vessels::FIELD_CHECKLIST;
use holdwater_answers::{Holding, Study, csv, evaluate_json};
use holdwater_design::{Input, link};
use lopdf::Document;
use serde_json::Value;

use crate::asked::{open_all, settled};
use crate::shown::{DELAY, VERDICT, painted};

const DESIGN: &str = "v=1&name=Godwit&delay=0.45&r.bore=11.5";

/// The pages that the browser prints, as text without white space: lines break where the paper ends.
async fn printed(page: &Page) -> Outcome<Vec<String>> {
    let bytes = base64::engine::general_purpose::STANDARD.decode(page.printed().await?)?;
    let document = Document::load_mem(&bytes)?;
    let text = |number: &u32| Ok(bare(&document.extract_text(&[*number])?));
    document.get_pages().keys().map(text).collect()
}

/// Without white space, and with ligatures of the font taken apart.
fn bare(text: &str) -> String {
    let mut text: String = text.chars().filter(|letter| !letter.is_whitespace()).collect();
    for (joined, apart) in [("\u{fb00}", "ff"), ("\u{fb01}", "fi"), ("\u{fb02}", "fl"), ("\u{fb03}", "ffi")] {
        text = text.replace(joined, apart);
    }
    text
}

#[tokio::test]
async fn the_field_sheet_is_all_that_is_printed() -> Outcome {
    visit(laptop(), &dist()?, |page| async move {
        open_all(&page, "").await?;
        open_all(&page, DESIGN).await?;
        // Printed is what is shown now, not what was opened.
        page.type_into(DELAY, "0.5").await?;
        let fragment = settled(&page).await?;
        let pages = printed(&page).await?;
        assert_eq!(pages.len(), 1, "one page for the field");
        let all = pages.concat();
        let holds = |text: &str| assert!(all.contains(&bare(text)), "`{text}` is not on paper: {pages:?}");
        holds("Godwit");
        holds(&page.text(VERDICT).await?);
        let answers: Value = serde_json::from_str(&evaluate_json(&fragment).map_err(|error| error.join(" "))?)?;
        for event in answers["events"].as_array().ok_or("there are events")? {
            let (what, at) = (event["what"].as_str().unwrap_or(""), event["t_s"].as_f64().unwrap_or(f64::NAN));
            holds(&format!("{what}: {at:.2} s after lift-off"));
        }
        for check in FIELD_CHECKLIST {
            holds(check);
        }
        for warning in answers["notes"].as_array().into_iter().flatten().filter_map(Value::as_str) {
            holds(warning);
        }
        holds("11.5 mm");
        holds(page.client().current_url().await?.as_str());
        for screen in ["Tap a part", "Share", "Pin this design", "Save as"] {
            assert!(!all.contains(&bare(screen)), "`{screen}` is for the screen");
        }
        // Afterwards the page is as before.
        assert_eq!(page.fragment().await?, fragment);
        assert_eq!(page.evaluate("document.querySelector('.field-sheet').checkVisibility()").await?, false);
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_phone_in_dark_colours_prints_dark_on_light() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        page.prefer_dark(true).await?;
        open_all(&page, DESIGN).await?;
        page.evaluate("(window.print = () => { window.asked = true; }, true)").await?;
        page.tap("[data-test=\"more\"]").await?;
        page.tap("[data-test=\"print\"]").await?;
        assert_eq!(page.evaluate("window.asked").await?, true, "the button asks the browser to print");
        page.evaluate("dispatchEvent(new Event('beforeprint'))").await?;
        if page.can(Ability::Printing)? {
            let pages = printed(&page).await?;
            assert!((1..=3).contains(&pages.len()) && pages.concat().contains("Godwit"), "{pages:?}");
        }
        page.on_paper().await?;
        let colours = "(() => { const of = name => getComputedStyle(document.querySelector(name)); \
                       return [of('html').backgroundColor, of('.field-sheet h1').color, of('.field-sheet').display]; })()";
        assert_eq!(page.evaluate(colours).await?, serde_json::json!(["rgb(255, 255, 255)", "rgb(0, 0, 0)", "block"]));
        page.screenshot("phone-on-paper").await?;
        Ok(())
    })
    .await
}

/// A picture is of the size of the canvas and not blank.
async fn assert_picture(page: &Page, chart: &str) -> Outcome {
    page.wait_until(&format!("{} > 500", painted(&format!("#{chart}-canvas")))).await?;
    page.tap(&format!(".saving:has([data-test=\"csv-{chart}\"]) button:nth-child(2)")).await?;
    let bytes = page.downloaded_bytes(&format!("holdwater-{chart}.png")).await?;
    let mut reader = png::Decoder::new(std::io::Cursor::new(bytes)).read_info()?;
    let mut pixels = vec![0; reader.output_buffer_size().ok_or("the picture has a size")?];
    let frame = reader.next_frame(&mut pixels)?;
    let size = format!("(one => [one.width, one.height])(document.getElementById('{chart}-canvas'))");
    assert_eq!(page.evaluate(&size).await?, serde_json::json!([frame.width, frame.height]), "{chart}");
    let first = &pixels[..4];
    let different = pixels.chunks_exact(4).filter(|pixel| *pixel != first).count();
    assert!(different > 500, "{chart} has {different} pixels that are not like the first");
    Ok(())
}

/// A drawing stands by itself: it is read by the browser without a mistake.
async fn assert_drawing(page: &Page, chart: &str) -> Outcome {
    page.tap(&format!("[data-test=\"svg-{chart}\"]")).await?;
    let svg = serde_json::to_string(&page.downloaded(&format!("holdwater-{chart}.svg")).await?)?;
    let root = "documentElement.tagName";
    let read = format!("new DOMParser().parseFromString({svg}, 'image/svg+xml').{root}");
    assert_eq!(page.evaluate(&read).await?, "svg", "{chart}");
    Ok(())
}

/// A table has as many numbers in each row as it has heads.
fn assert_table(chart: &str, text: &str) -> Outcome {
    let rows: Vec<&str> = text.strip_suffix("\r\n").ok_or("the last line ends")?.split("\r\n").collect();
    assert!(rows.len() > 20, "{chart} has {} rows", rows.len());
    let columns = rows[0].split(',').count();
    for row in &rows[1..] {
        let numbers = row.split(',').filter(|cell| cell.is_empty() || cell.parse::<f64>().is_ok()).count();
        assert_eq!((row.split(',').count(), numbers), (columns, columns), "{chart}: {row}");
    }
    Ok(())
}

#[tokio::test]
async fn charts_are_saved_as_pictures_drawings_and_tables() -> Outcome {
    visit(laptop(), &dist()?, |page| async move {
        open_all(&page, DESIGN).await?;
        for chart in ["delay", "bore", "flight"] {
            assert_picture(&page, chart).await?;
            assert_drawing(&page, chart).await?;
            page.tap(&format!("[data-test=\"csv-{chart}\"]")).await?;
            let table = page.downloaded(&format!("holdwater-{chart}.csv")).await?;
            assert_table(chart, &table)?;
            if chart == "bore" {
                let design = link::open(DESIGN).design;
                let study = Study::new(&design).map_err(|_| "the design flies")?;
                let curves = Holding::complete(&study, design.number(Input::Delay)).curves();
                assert_eq!(table, csv::bore(&curves), "the curve of the command line, to the last bit");
            }
        }
        Ok(())
    })
    .await
}
