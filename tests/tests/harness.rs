//! The harness tried on a toy page: a browser test proves nothing if its tools do not work.

use std::path::PathBuf;

use acceptance::harness::{Ability, Key, Outcome, Page, laptop, phone, visit};

const TOY: &str = r#"<!doctype html>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="icon" href="data:,">
<title>toy</title>
<style>
  #pad { position: fixed; left: 0; top: 300px; width: 300px; height: 100px; touch-action: none; }
  #far { margin-top: 2000px; }
</style>
<p id="hash"></p>
<input id="field" value="1.0">
<div id="pad">pad</div>
<button id="far">0</button>
<script>
  hash.textContent = location.hash;
  window.drag = [];
  let count = 0;
  for (const kind of ['pointerdown', 'pointermove', 'pointerup'])
    pad.addEventListener(kind, e => drag.push([kind, e.pointerType, e.clientX]));
  far.addEventListener('click', e => far.textContent = `${++count} ${e.pointerType}`);
</script>
"#;

/// A folder with the toy page and what is added to it; it goes when the test ends.
struct Toy(PathBuf);

impl Toy {
    fn new(name: &str, addition: &str) -> Outcome<Self> {
        let folder = std::env::temp_dir().join(format!("holdwater-{name}-{}", std::process::id()));
        std::fs::create_dir_all(&folder)?;
        std::fs::write(folder.join("index.html"), format!("{TOY}{addition}"))?;
        Ok(Self(folder))
    }
}

impl Drop for Toy {
    fn drop(&mut self) {
        // What stays in the temporary folder is cleared away by the system.
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

/// Width and height of the inside of the window, and how fine it is; that of a phone where the engine cannot be.
async fn screen(page: &Page) -> Outcome<String> {
    let ratio = if page.has(Ability::PixelRatio) { "devicePixelRatio" } else { "3" };
    let screen = page.evaluate(&format!("[innerWidth, innerHeight, {ratio}].join()")).await?;
    Ok(screen.as_str().unwrap_or_default().to_owned())
}

#[tokio::test]
async fn a_phone_is_small_sharp_and_touched() -> Outcome {
    let toy = Toy::new("phone", "")?;
    visit(phone(), &toy.0, |page| async move {
        page.open_fragment("v=1&x=2").await?;
        assert_eq!(page.text("#hash").await?, "#v=1&x=2");
        assert_eq!(page.fragment().await?, "v=1&x=2");
        assert_eq!(screen(&page).await?, "390,844,3");
        page.needs(Ability::Touch)?;
        page.prefer_dark(true).await?;
        assert_eq!(page.evaluate("matchMedia('(pointer: coarse)').matches").await?, true);
        let dark = "matchMedia('(prefers-color-scheme: dark)').matches";
        assert_eq!(page.evaluate(dark).await?, true);
        page.prefer_dark(false).await?;
        assert_eq!(page.evaluate(dark).await?, false);

        page.touch_drag((20.0, 350.0), (260.0, 350.0)).await?;
        page.wait_until("drag.some(event => event[0] === 'pointerup')").await?;
        let moves = "drag.filter(e => e[0] === 'pointermove' && e[1] === 'touch').length";
        assert!(page.evaluate(moves).await?.as_u64() >= Some(6), "the finger moves in steps");
        assert_eq!(page.evaluate("drag.at(-1)[2]").await?, 260);

        page.tap("#far").await?;
        assert_eq!(page.text("#far").await?, "1 touch", "it is scrolled to and touched");
        let picture = std::fs::read(page.screenshot("harness-phone").await?)?;
        assert!(picture.starts_with(b"\x89PNG"));
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_laptop_has_a_mouse_and_a_keyboard() -> Outcome {
    let toy = Toy::new("laptop", "")?;
    visit(laptop(), &toy.0, |page| async move {
        if page.has(Ability::SlowDown) {
            page.slow_down(2.0).await?;
        }
        page.open_fragment("").await?;
        assert_eq!(page.evaluate("[innerWidth, innerHeight].join()").await?, "1280,800");
        page.type_into("#field", "2.5").await?;
        assert_eq!(page.evaluate("field.value").await?, "2.5", "the old text is replaced");
        page.tap("#far").await?;
        assert_eq!(page.text("#far").await?, "1 mouse");
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_mouse_drags_and_keys_are_pressed_together() -> Outcome {
    let toy = Toy::new("keys", "")?;
    visit(laptop(), &toy.0, |page| async move {
        page.open_fragment("").await?;
        page.mouse_drag((20.0, 350.0), (260.0, 350.0)).await?;
        let moves = "drag.filter(e => e[0] === 'pointermove' && e[1] === 'mouse').length";
        assert!(page.evaluate(moves).await?.as_u64() >= Some(6), "the mouse moves in steps");
        assert_eq!(page.evaluate("[drag.at(-1)[0], drag.at(-1)[2]].join()").await?, "pointerup,260");
        page.tap_at((30.0, 350.0)).await?;
        assert_eq!(page.evaluate("[drag.at(-1)[0], drag.at(-1)[2]].join()").await?, "pointerup,30");

        page.press(&[Key::Tab]).await?;
        page.wait_until("document.activeElement.id === 'far'").await?;
        page.press(&[Key::Shift, Key::Tab]).await?;
        page.wait_until("document.activeElement === field").await?;
        page.press(&[Key::Right]).await?;
        assert_eq!(page.evaluate("document.activeElement === field").await?, true, "Shift was let go");
        Ok(())
    })
    .await
}

#[tokio::test]
async fn the_page_has_a_clock_of_its_own_a_keyboard_on_the_screen_and_a_say() -> Outcome {
    let toy = Toy::new("say", "")?;
    visit(phone(), &toy.0, |page| async move {
        page.open_fragment("").await?;
        page.evaluate("setTimeout(() => window.rang = true, 300) > 0").await?;
        page.let_pass(400).await?;
        assert_eq!(page.evaluate("window.rang").await?, true, "a shorter timer ends first");
        page.leave_height(400).await?;
        assert_eq!(screen(&page).await?, "390,400,3");
        assert_eq!(page.ask("return await Promise.resolve([1, 2]);").await?, serde_json::json!([1, 2]));
        let failed = page.ask("throw new Error('leak');").await.expect_err("it threw").to_string();
        assert!(failed.contains("leak"), "{failed}");
        Ok(())
    })
    .await
}

#[tokio::test]
async fn an_error_on_the_console_fails_the_visit_unless_forgiven() -> Outcome {
    let toy = Toy::new("console", "<script>console.error('leak at the seam')</script>")?;
    let ended = visit(phone(), &toy.0, |page| async move { page.open_fragment("").await }).await;
    let message = ended.expect_err("the error must be noticed").to_string();
    assert!(message.contains("leak at the seam"), "{message}");

    visit(phone(), &toy.0, |page| async move {
        page.forgive("leak at the seam");
        page.open_fragment("").await
    })
    .await
}

#[tokio::test]
async fn a_request_to_another_host_fails_the_visit() -> Outcome {
    // Nobody listens on this port, and asking is already the offence.
    let toy = Toy::new("stranger", "<script>fetch('http://127.0.0.1:9/x').catch(() => 0)</script>")?;
    let ended = visit(phone(), &toy.0, |page| async move {
        page.forgive("127.0.0.1:9");
        page.open_fragment("").await
    });
    let message = ended.await.expect_err("the request must be noticed").to_string();
    assert!(message.contains("request to another host: http://127.0.0.1:9/x"), "{message}");
    Ok(())
}

#[tokio::test]
async fn a_stopped_server_is_offline_and_a_failed_assertion_closes_the_browser() -> Outcome {
    let toy = Toy::new("offline", "")?;
    let ended = visit(phone(), &toy.0, |page| async move {
        page.open_fragment("").await?;
        page.stop_server();
        page.forgive("ERR_CONNECTION_REFUSED");
        let reached = page.client().goto(&format!("{}?again", page.url())).await;
        // WebKit says that it went there, and shows why it could not.
        let is_there = reached.is_ok() && page.evaluate("document.getElementById('hash') !== null").await? == true;
        assert!(is_there, "offline: {reached:?}");
        Ok(())
    });
    let message = ended.await.expect_err("there is no network left").to_string();
    assert!(message.contains("panicked") && message.contains("offline"), "{message}");
    Ok(())
}
