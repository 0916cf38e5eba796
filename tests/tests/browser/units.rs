//! Metric and US customary units, one switch for all; and the colours for glare, remembered like the units.

use acceptance::harness::{Ability, Device, Key, Outcome, Page, Storage, dist, laptop, phone, visit};
use holdwater_design::measure::{System, field_text, range};
use holdwater_design::{Design, Input, link};
use serde_json::Value;

use crate::shown::{DELAY, VERDICT, assert_answers, assert_link_follows, number, open, tap_part};

const MORE: &str = "[data-test=\"more\"]";
const US: &str = "[data-test=\"units-us\"]";
const METRIC: &str = "[data-test=\"units-metric\"]";
const NOZZLE: &str = "[data-test=\"field-s.nozzle\"]";
const FILL: &str = "[data-test=\"field-s.fill\"]";

/// 25.4 mm by definition of the international inch.
const MM_PER_INCH: f64 = 25.4;
/// By the definitions of the pound (0.45359237 kg), of standard gravity (9.80665 m/s2) and of the inch.
const BAR_PER_PSI: f64 = 0.453_592_37 * 9.806_65 / (0.0254 * 0.0254) / 1e5;

async fn switch(page: &Page, to: &str) -> Outcome {
    page.tap(MORE).await?;
    page.tap(to).await?;
    assert_eq!(page.wait_for(to).await?.attr("aria-pressed").await?.as_deref(), Some("true"));
    page.tap(MORE).await
}

/// Text, value to the last bit and unit of every field that is open.
async fn fields(page: &Page) -> Outcome<Vec<Value>> {
    let script = "[...document.querySelectorAll('.number-box')].map(box => { \
                  const field = box.querySelector('input'); \
                  return [field.dataset.test, field.value, field.dataset.value, box.querySelector('.unit').textContent]; })";
    Ok(page.evaluate(script).await?.as_array().cloned().unwrap_or_default())
}

/// The text in a field, the value it stands for, and the unit beside it.
async fn field(page: &Page, test: &str) -> Outcome<(String, f64, String)> {
    let all = fields(page).await?;
    let found = all.iter().find(|field| field[0] == test).ok_or_else(|| format!("no {test} in {all:?}"))?;
    let text = |index: usize| found[index].as_str().unwrap_or_default().to_owned();
    Ok((text(1), text(2).parse()?, text(3)))
}

async fn one_switch_for_all(device: Device) -> Outcome {
    visit(device, &dist()?, move |page| async move {
        open(&page, "v=1&name=Plover&delay=0.4").await?;
        page.type_into(DELAY, "0.45").await?;
        let link = assert_link_follows(&page, "delay=0.45").await?;
        let verdict = page.text(VERDICT).await?;
        switch(&page, US).await?;
        assert_eq!(page.fragment().await?, link, "the link stays metric, byte for byte");
        assert_answers(&page, &link).await?;
        assert_ne!(page.text(VERDICT).await?, verdict, "the sentence is in feet");
        assert!(page.text(VERDICT).await?.contains("ft"), "{}", page.text(VERDICT).await?);
        let apogee = page.evaluate("document.querySelector('[data-test=\"apogee\"]')?.textContent ?? ''").await?;
        assert!(apogee.as_str().is_some_and(|text| text.contains("ft")), "{apogee}");

        tap_part(&page, "SustainerNozzle").await?;
        let (text, value, unit) = field(&page, "field-s.nozzle").await?;
        assert_eq!((value.to_string().as_str(), unit.as_str()), ("9", "in"));
        assert!((text.parse::<f64>()? * MM_PER_INCH - 9.0).abs() < 5e-4, "{text} in");
        page.tap("[data-test=\"sheet-close\"]").await?;
        page.let_pass(100).await?;
        tap_part(&page, "SustainerWater").await?;
        let (text, value, unit) = field(&page, "field-s.fill").await?;
        assert_eq!(unit, "psi");
        assert!((text.parse::<f64>()? * BAR_PER_PSI - value).abs() < 5e-3, "{text} psi, {value} bar");
        page.screenshot(if device.is_touched { "phone-us" } else { "laptop-us" }).await?;
        // Plus goes by round amounts of what is shown.
        page.type_into(FILL, "100").await?;
        page.press(&[Key::Up]).await?;
        let (text, ..) = field(&page, "field-s.fill").await?;
        let stepped = text.parse::<f64>()?;
        assert!(stepped > 100.0 && stepped.fract() == 0.0, "{text} psi");
        page.tap("[data-test=\"sheet-close\"]").await?;

        // The device remembers; links do not know.
        page.let_pass(400).await?;
        let changed = page.fragment().await?;
        assert!(!changed.contains("us") && !changed.contains("psi") && !changed.contains("unit"), "{changed}");
        page.load_again().await?;
        page.wait_until("document.title === 'Plover · Holdwater'").await?;
        tap_part(&page, "SustainerNozzle").await?;
        assert_eq!(field(&page, "field-s.nozzle").await?.2, "in");
        page.tap("[data-test=\"sheet-close\"]").await?;
        page.restart_browser(Storage::Allowed).await?;
        open(&page, &link).await?;
        assert!(page.text(VERDICT).await?.contains("ft"), "the next day as well");
        assert_eq!(page.fragment().await?, link);
        switch(&page, METRIC).await?;
        assert_eq!(page.text(VERDICT).await?, verdict, "the same words as at first");
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_phone_shows_and_remembers_us_units_and_the_link_stays_metric() -> Outcome {
    one_switch_for_all(phone()).await
}

#[tokio::test]
async fn a_laptop_shows_and_remembers_us_units_and_the_link_stays_metric() -> Outcome {
    one_switch_for_all(laptop()).await
}

#[tokio::test]
async fn units_may_be_typed_whichever_are_shown() -> Outcome {
    visit(laptop(), &dist()?, |page| async move {
        for system in [METRIC, US] {
            open(&page, "").await?;
            switch(&page, system).await?;
            tap_part(&page, "SustainerWater").await?;
            for (typed, bar) in
                [("145 psi", 145.0 * BAR_PER_PSI), ("3 bar", 3.0), ("0.5 MPa", 5.0), ("72,5psi", 72.5 * BAR_PER_PSI)]
            {
                page.type_into(FILL, typed).await?;
                let (_, value, _) = field(&page, "field-s.fill").await?;
                assert!((value / bar - 1.0).abs() < 1e-4, "{typed} is {value} bar and not {bar}");
                let link = assert_link_follows(&page, &format!("s.fill={value}")).await?;
                // Leaving the field tidies its text and leaves the value alone.
                page.type_into(DELAY, "0.5").await?;
                assert_eq!(field(&page, "field-s.fill").await?.1.to_bits(), value.to_bits(), "{typed}");
                let again = link::open(&link).design;
                let input = Input::ALL.into_iter().find(|input| input.row().key == "s.fill");
                assert_eq!(input.and_then(|input| again.get(input)), Some(value));
            }
            page.tap("[data-test=\"sheet-close\"]").await?;
            tap_part(&page, "SustainerNozzle").await?;
            for (typed, millimetres) in [("1/2 in", 12.7), ("9.5 mm", 9.5), ("1 cm", 10.0), ("3/8\"", 9.525)] {
                page.type_into(NOZZLE, typed).await?;
                let (_, value, _) = field(&page, "field-s.nozzle").await?;
                assert!((value - millimetres).abs() < 1e-9, "{typed} is {value} mm and not {millimetres}");
                assert_link_follows(&page, &format!("s.nozzle={value}")).await?;
            }
            page.tap("[data-test=\"sheet-close\"]").await?;
        }
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_unit_that_is_none_is_answered_with_those_that_are() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        for (switch_to, system) in [(METRIC, System::Metric), (US, System::Us)] {
            open(&page, "").await?;
            switch(&page, switch_to).await?;
            tap_part(&page, "SustainerWater").await?;
            let row = Input::ALL.iter().map(|input| input.row()).find(|row| row.key == "s.fill");
            let allowed = range(row.ok_or("there is such an input")?, system);
            for (typed, named) in [("5 parsecs", "parsecs"), ("5 kg", "mass"), ("3 <b>", "<b>"), ("1e3 bar", "e3")] {
                page.type_into(FILL, typed).await?;
                let said = page.text("[data-test=\"complaint-s.fill\"]").await?;
                assert!(said.contains(named) && said.contains(&allowed), "{typed}: {said}");
                assert!(said.contains("units understood are bar") && said.contains("psi"), "{typed}: {said}");
                let invalid = "document.querySelector('[data-test=\"field-s.fill\"]').ariaInvalid";
                assert_eq!(page.evaluate(invalid).await?, "true");
            }
        }
        Ok(())
    })
    .await
}

#[tokio::test]
async fn switching_back_and_forth_changes_nothing() -> Outcome {
    visit(laptop(), &dist()?, |page| async move {
        let mut design = Design::default();
        design.set_name("Odd numbers");
        let odd = |input: Input| {
            let row = input.row();
            row.default().map(|value| row.nearest(value * 1.012_345_67 + row.step * 0.173_21))
        };
        for input in Input::ALL.into_iter().filter(|input| input.row().key != "stages") {
            if let Some(value) = odd(input) {
                assert_eq!(design.set(input, Some(value)), Ok(()));
            }
        }
        let fragment = link::write(&design);
        open(&page, &fragment).await?;
        page.wait_for(VERDICT).await?;
        let values = |fields: &[Value]| fields.iter().map(|field| (field[0].clone(), field[2].clone())).collect::<Vec<_>>();
        let before = fields(&page).await?;
        for _ in 0..3 {
            switch(&page, US).await?;
            assert_eq!(values(&fields(&page).await?), values(&before));
            switch(&page, METRIC).await?;
            assert_eq!(fields(&page).await?, before, "texts, values and units");
        }
        page.let_pass(400).await?;
        assert_eq!(page.fragment().await?, fragment);

        // Not even touching every field in the other units does, nor a change elsewhere.
        switch(&page, US).await?;
        let parts = page.evaluate("[...document.querySelectorAll('[data-part]')].map(part => part.dataset.part)").await?;
        for part in parts.as_array().into_iter().flatten().filter_map(Value::as_str) {
            tap_part(&page, part).await?;
            let touch = "document.querySelectorAll('[data-test=\"sheet\"] input').forEach(field => { field.focus(); field.blur(); }) ?? true";
            page.evaluate(touch).await?;
            for open in fields(&page).await? {
                let key = open[0].as_str().unwrap_or_default().trim_start_matches("field-").to_owned();
                let Some(input) = Input::ALL.into_iter().find(|input| input.row().key == key) else { continue };
                let text = design.get(input).map(|value| field_text(input.row().unit, System::Us, value));
                assert_eq!(open[1], text.unwrap_or_default(), "{key}");
            }
            page.tap("[data-test=\"sheet-close\"]").await?;
            page.let_pass(100).await?;
        }
        page.type_into(DELAY, "0.5").await?;
        page.let_pass(1000).await?;
        let delay = Input::ALL.into_iter().find(|input| input.row().key == "delay").ok_or("there is a delay")?;
        assert_eq!(design.set(delay, Some(0.5)), Ok(()));
        assert_eq!(page.fragment().await?, link::write(&design), "only what was typed has changed");
        Ok(())
    })
    .await
}

#[tokio::test]
async fn the_colours_for_glare_are_chosen_by_hand_and_remembered() -> Outcome {
    visit(phone(), &dist()?, |page| async move {
        let contrast = "(() => {
            const style = getComputedStyle(document.body);
            const light = colour => colour.match(/[0-9.]+/g).slice(0, 3)
                .map(part => part / 255).map(part => part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4)
                .reduce((sum, part, index) => sum + part * [0.2126, 0.7152, 0.0722][index], 0);
            const paper = light(getComputedStyle(document.documentElement).backgroundColor);
            const ink = light(style.color);
            return (Math.max(paper, ink) + 0.05) / (Math.min(paper, ink) + 0.05);
        })()";
        let picture = "document.querySelector('[data-test=\"delay-chart\"] canvas').toDataURL()";
        if page.can(Ability::Colours)? {
            page.prefer_dark(true).await?;
        }
        open(&page, "").await?;
        assert_answers(&page, "v=1").await?;
        let (dusk, dusk_picture) = (number(&page, contrast).await?, page.evaluate(picture).await?);
        page.tap(MORE).await?;
        page.tap("[data-test=\"colours-sun\"]").await?;
        page.tap(MORE).await?;
        page.wait_until(&format!("{picture} !== {dusk_picture}")).await?;
        let sun = number(&page, contrast).await?;
        assert!(sun > 18.0 && sun >= dusk, "black on white, or nearly: {sun}, where dusk has {dusk}");
        page.screenshot("phone-sun").await?;
        page.load_again().await?;
        page.wait_until("document.documentElement.dataset.theme === 'sun'").await?;
        assert_eq!(page.fragment().await?, "", "no link knows of colours");
        page.tap(MORE).await?;
        page.tap("[data-test=\"colours-system\"]").await?;
        page.load_again().await?;
        page.wait_until("document.getElementById('shell') === null").await?;
        assert_eq!(page.evaluate("document.documentElement.dataset.theme ?? 'none'").await?, "none");
        Ok(())
    })
    .await
}
