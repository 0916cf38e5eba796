//! Handing a design to somebody else: the link, the code, and the texts for forums.

use std::fs::File;
use std::io::BufReader;
use std::path::Path;

use acceptance::harness::{Ability, Device, Outcome, Page, dist, laptop, phone, visit};
use holdwater_answers::words;
use holdwater_design::{Design, Input, link};

use crate::shown::{DELAY, VERDICT, assert_answers, assert_link_follows, open};

const SHARED: &str = "[data-test=\"shared\"]";
const QR: &str = "[data-test=\"qr\"]";
const BY_HAND: &str = "document.querySelector('.share textarea')";
const FORMATS: [&str; 3] = ["Plain", "Markdown", "BbCode"];

/// Taps *Share*, which answers with its panel.
async fn share(page: &Page) -> Outcome {
    page.tap("[data-test=\"share\"]").await?;
    page.wait_until("document.querySelector('[data-test=\"shared\"]').textContent !== ''").await
}

async fn clipboard(page: &Page) -> Outcome<String> {
    let text = page.ask("return await navigator.clipboard.readText();").await?;
    Ok(text.as_str().unwrap_or_default().to_owned())
}

/// The text of one of the formats, as it arrives where it is pasted.
async fn forum_text(page: &Page, format: &str) -> Outcome<String> {
    let before = clipboard(page).await?;
    page.tap(&format!("[data-test=\"forum-{format}\"]")).await?;
    for _ in 0..100 {
        let text = clipboard(page).await?;
        if text != before {
            return Ok(text);
        }
        page.let_pass(50).await?;
    }
    Err(format!("nothing was copied as {format}").into())
}

/// What somebody reads who points another phone at the screen.
async fn photographed(page: &Page, name: &str) -> Outcome<String> {
    page.center(QR).await?;
    let path = page.screenshot(name).await?;
    let (width, height, grey) = grey_picture(&path)?;
    let mut picture = rqrr::PreparedImage::prepare_from_greyscale(width, height, |x, y| grey[y * width + x]);
    let codes = picture.detect_grids();
    let [code] = &codes[..] else {
        return Err(format!("{} codes are seen in {}", codes.len(), path.display()).into());
    };
    let (_, text) = code.decode().map_err(|error| format!("the code in {} cannot be read: {error}", path.display()))?;
    Ok(text)
}

/// Width, height and brightness of the pixels of a picture.
fn grey_picture(path: &Path) -> Outcome<(usize, usize, Vec<u8>)> {
    let mut reader = png::Decoder::new(BufReader::new(File::open(path)?)).read_info()?;
    let mut bytes = vec![0; reader.output_buffer_size().ok_or("the picture is too large")?];
    let frame = reader.next_frame(&mut bytes)?;
    let samples = frame.color_type.samples();
    let brightness = |pixel: &[u8]| {
        let colours = pixel.len().min(3);
        u8::try_from(pixel.iter().take(colours).map(|part| usize::from(*part)).sum::<usize>() / colours)
    };
    let grey = bytes[..frame.buffer_size()].chunks_exact(samples).map(brightness).collect::<Result<_, _>>()?;
    Ok((usize::try_from(frame.width)?, usize::try_from(frame.height)?, grey))
}

/// A link in which every input differs from its default, the longest that people can make with the fields.
fn longest_link() -> String {
    let mut design = Design::default();
    design.set_name("Möwe 🚀 \"quoted\" & more");
    for input in Input::ALL {
        let row = input.row();
        let value = row.nearest(row.min + 0.371_234_5 * (row.max - row.min));
        assert_eq!(design.set(input, Some(value)), Ok(()), "{}", row.key);
    }
    link::write(&design)
}

async fn the_link_is_copied(device: Device) -> Outcome {
    visit(device, &dist()?, |page| async move {
        page.permit_clipboard(true).await?;
        open(&page, "v=1&name=Plover&s.dry=0.25").await?;
        page.type_into(DELAY, "0.35").await?;
        // At once, before the address bar has followed.
        share(&page).await?;
        assert!(page.text(SHARED).await?.contains("copied"), "{}", page.text(SHARED).await?);
        let copied = clipboard(&page).await?;
        let fragment = assert_link_follows(&page, "delay=0.35").await?;
        assert_eq!(copied, format!("{}#{fragment}", page.url()), "what was copied is what the address bar shows");
        assert_eq!(page.evaluate(&format!("{BY_HAND}.hidden")).await?, true, "nothing is left to do by hand");

        // Whoever gets the link opens it in a browser of his own, which for us is a tab that shares nothing with this one.
        page.new_tab().await?;
        page.client().goto(&copied).await?;
        page.wait_until("document.title === 'Plover · Holdwater'").await?;
        assert_answers(&page, &fragment).await?;
        assert_eq!(page.evaluate("document.querySelector('[data-test=\"notice\"]')").await?, serde_json::Value::Null);
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_phone_copies_the_link_to_what_is_shown() -> Outcome {
    the_link_is_copied(phone()).await
}

#[tokio::test]
async fn a_laptop_copies_the_link_to_what_is_shown() -> Outcome {
    the_link_is_copied(laptop()).await
}

#[tokio::test]
async fn a_link_that_was_not_changed_is_shared_as_it_was_opened() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        page.permit_clipboard(true).await?;
        let damaged = "v=1&name=Plover&wings=4&delay=0.4&s.no";
        open(&page, damaged).await?;
        share(&page).await?;
        assert_eq!(clipboard(&page).await?, format!("{}#{damaged}", page.url()));
        assert_eq!(photographed(&page, "phone-code-damaged").await?, format!("{}#{damaged}", page.url()));
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_browser_that_does_not_let_the_page_copy_leaves_the_text_to_be_copied_by_hand() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        page.permit_clipboard(false).await?;
        open(&page, "v=1&delay=0.4").await?;
        page.type_into(DELAY, "0.45").await?;
        share(&page).await?;
        assert!(page.text(SHARED).await?.contains("Copy this"), "{}", page.text(SHARED).await?);
        let link = page.evaluate(&format!("{BY_HAND}.value")).await?;
        let fragment = assert_link_follows(&page, "delay=0.45").await?;
        assert_eq!(link, format!("{}#{fragment}", page.url()));
        let selected =
            format!("document.activeElement === {BY_HAND} && {BY_HAND}.selectionEnd === {BY_HAND}.value.length");
        page.wait_until(&format!("{selected} && {BY_HAND}.selectionStart === 0")).await?;
        page.screenshot("phone-share-by-hand").await?;

        page.tap("[data-test=\"forum-Markdown\"]").await?;
        page.wait_until(&format!("{BY_HAND}.value.startsWith('### ')")).await?;
        page.wait_until(&selected).await?;

        // Browsers of pages that did not come by https have no clipboard at all.
        page.before_all("Object.defineProperty(Navigator.prototype, 'clipboard', { value: undefined });").await?;
        open(&page, "v=1&delay=0.4").await?;
        assert_eq!(page.evaluate("navigator.clipboard === undefined").await?, true);
        share(&page).await?;
        assert_eq!(page.evaluate(&format!("{BY_HAND}.value")).await?, format!("{}#v=1&delay=0.4", page.url()));
        assert_eq!(page.evaluate("document.getElementById('crash').hidden").await?, true);
        Ok(())
    })
    .await
}

#[tokio::test]
async fn the_link_is_handed_to_other_programs_of_the_device_where_that_is_possible() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        let odd =
            "Object.defineProperty(Navigator.prototype, 'share', { value: async data => { window.sent = data; } });";
        page.before_all(odd).await?;
        open(&page, "v=1&delay=0.4").await?;
        page.type_into(DELAY, "0.5").await?;
        share(&page).await?;
        page.tap("[data-test=\"send\"]").await?;
        page.wait_until("window.sent !== undefined").await?;
        let fragment = assert_link_follows(&page, "delay=0.5").await?;
        assert_eq!(page.evaluate("sent.url").await?, format!("{}#{fragment}", page.url()));
        Ok(())
    })
    .await
}

async fn another_phone_reads_the_code(device: Device, name: &'static str) -> Outcome {
    visit(device, &dist()?, move |page| async move {
        let name = |what: &str| format!("{name}-code-{what}");
        open(&page, "v=1&name=Plover&delay=0.4").await?;
        page.type_into(DELAY, "0.45").await?;
        share(&page).await?;
        let fragment = assert_link_follows(&page, "delay=0.45").await?;
        let link = format!("{}#{fragment}", page.url());
        assert_eq!(photographed(&page, &name("light")).await?, link);
        if page.can(Ability::Colours)? {
            page.prefer_dark(true).await?;
            page.let_pass(300).await?;
            assert_eq!(photographed(&page, &name("dark")).await?, link);
            page.prefer_dark(false).await?;
        }

        page.tap("[data-test=\"more\"]").await?;
        page.tap("[data-test=\"colours-sun\"]").await?;
        assert_eq!(photographed(&page, &name("sun")).await?, link);
        page.tap("[data-test=\"colours-system\"]").await?;
        page.tap("[data-test=\"more\"]").await?;

        // A code that is still seen after a change is the one of the new design.
        page.type_into(DELAY, "0.5").await?;
        let changed = assert_link_follows(&page, "delay=0.5").await?;
        assert_eq!(photographed(&page, &name("changed")).await?, format!("{}#{changed}", page.url()));

        let longest = longest_link();
        open(&page, &longest).await?;
        share(&page).await?;
        assert_eq!(photographed(&page, &name("longest")).await?, format!("{}#{longest}", page.url()));
        Ok(())
    })
    .await
}

#[tokio::test]
async fn the_code_on_a_phone_is_read_from_its_screen_in_every_colour() -> Outcome {
    another_phone_reads_the_code(phone(), "phone").await
}

#[tokio::test]
async fn the_code_on_a_laptop_is_read_from_its_screen_in_every_colour() -> Outcome {
    another_phone_reads_the_code(laptop(), "laptop").await
}

#[tokio::test]
async fn a_link_too_long_for_any_code_says_so_and_the_code_can_be_saved() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        open(&page, "v=1&delay=0.4").await?;
        share(&page).await?;
        page.tap(".code-place button").await?;
        let saved = page.downloaded("holdwater-code.svg").await?;
        let drawn = page.evaluate("document.querySelector('.qr-ink').getAttribute('d')").await?;
        assert!(saved.starts_with("<svg xmlns=") && saved.contains(drawn.as_str().unwrap_or("?")), "{saved}");

        open(&page, &format!("v=1&delay=0.4&{}", "x".repeat(4_000))).await?;
        share(&page).await?;
        let said = page.text(".code-place .complaint").await?;
        assert!(said.contains("Send the link instead"), "{said}");
        assert_eq!(page.evaluate("document.querySelector('[data-test=\"qr\"]')").await?, serde_json::Value::Null);
        Ok(())
    })
    .await
}

/// Without the marks of a format and the joiners that nobody sees.
fn bare(text: &str) -> String {
    text.chars().filter(|c| !matches!(c, '\\' | '\u{2060}')).collect()
}

#[tokio::test]
async fn a_forum_gets_what_was_changed_what_comes_out_the_cautions_and_the_link_in_each_format() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        page.permit_clipboard(true).await?;
        open(&page, "v=1&name=Plover&s.dry=0.25&b.fill=9&delay=0.4").await?;
        page.type_into(DELAY, "0.45").await?;
        let fragment = assert_link_follows(&page, "delay=0.45").await?;
        share(&page).await?;
        let verdict = page.text(VERDICT).await?.replace('\u{2009}', " ");
        for format in FORMATS {
            let text = forum_text(&page, format).await?;
            let read = bare(&text);
            assert!(read.contains("Plover"), "{text}");
            let changed = ["Dry mass: 0.25 kg", "aunch pressure: 9 bar", "taging delay: 0.45 s"];
            for (words, key) in changed.into_iter().zip(["s.dry", "b.fill", "delay"]) {
                let line = read.lines().find(|line| line.to_lowercase().contains(&words.to_lowercase()));
                let line = line.ok_or_else(|| format!("`{words}` is not in {text}"))?;
                let row = Input::ALL.iter().map(|input| input.row()).find(|row| row.key == key);
                let row = row.ok_or_else(|| format!("there is no input {key}"))?;
                assert!(line.contains(&row.show(row.default())), "the default beside it: {line}");
            }
            assert_eq!(read.matches("(default ").count(), 3, "nothing but what differs: {text}");
            let said = verdict.split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(read.contains(&said), "the page says `{said}`, the text is {text}");
            for caution in words::cautions() {
                assert!(read.contains(&bare(caution)), "`{caution}` is not in {text}");
            }
            let link = format!("{}#{fragment}", page.url());
            let end = text.trim_end().trim_end_matches("[/url]").trim_end_matches(['>', ')']);
            assert!(end.ends_with(&link), "the link is last and whole: {text}");
        }
        assert!(page.text(SHARED).await?.contains("text is copied"));
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_hostile_name_stays_a_name_in_every_format() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        page.permit_clipboard(true).await?;
        let name = "](http://evil.example) @everyone **b** <img src=x> [url]x[/url] `c`";
        let fragment = {
            let mut design = Design::default();
            design.set_name(name);
            link::write(&design)
        };
        open(&page, &fragment).await?;
        let shown = page.evaluate("document.querySelector('[data-test=\"name\"]').value").await?;
        assert_eq!(shown, link::open(&fragment).design.name());
        // A line of its own would be a heading or a quotation; pasted breaks do not come through the field either.
        assert!(!shown.as_str().unwrap_or_default().contains('\n'));
        share(&page).await?;
        for format in FORMATS {
            let text = forum_text(&page, format).await?;
            let title = text.lines().next().unwrap_or_default();
            assert!(!text.contains("@everyone"), "nobody is called: {text}");
            assert!(
                !title.contains("http://evil") && !title.contains("evil.example"),
                "no address of its own: {title}"
            );
            match format {
                "Markdown" => {
                    for mark in ["](", "**", "<img", "`c`"] {
                        for (at, _) in title.match_indices(mark) {
                            assert!(title[..at].ends_with('\\'), "`{mark}` formats in {title}");
                        }
                    }
                }
                "BbCode" => {
                    let inner = title.trim_start_matches("[b]").trim_end_matches("[/b]");
                    assert!(!inner.contains(['[', ']']), "a tag in {title}");
                }
                _ => {}
            }
            assert_eq!(text.matches("http://").count(), 1, "one link, ours: {text}");
            let address = format!("{}#v=1&name=", page.url());
            assert!(text.contains(&address), "{text}");
            let last = text.rsplit_once(&address).map(|(_, rest)| rest.to_owned()).unwrap_or_default();
            assert!(!last.trim_end().trim_end_matches("[/url]").contains(['[', ']', '<', '\n']), "{last}");
        }
        Ok(())
    })
    .await
}
