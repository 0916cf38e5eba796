//! The text for a forum: what it says, and that no name can break out of it.

use holdwater_answers::Study;
use holdwater_answers::forum::{Format, forum_text};
use holdwater_design::measure::System;
use holdwater_design::{Design, Input, link};

mod common;

const FORMATS: [Format; 3] = [Format::Plain, Format::Markdown, Format::BbCode];

fn with(name: &str, values: &[(Input, f64)]) -> Design {
    let mut design = Design::default();
    design.set_name(name);
    for (input, value) in values {
        assert_eq!(design.set(*input, Some(*value)), Ok(()));
    }
    design
}

fn text_of(format: Format, design: &Design) -> String {
    let outcome = Study::new(design).and_then(|study| study.answers(design.number(Input::Delay)));
    let link = format!("https://example.org/holdwater/#{}", link::write(design));
    forum_text(format, design, outcome.as_ref().map_err(Vec::as_slice), None, System::Metric, &link)
}

/// The line of the title, for names whose answers do not matter.
fn title(format: Format, name: &str) -> String {
    let text = forum_text(format, &with(name, &[]), Err(&[]), None, System::Metric, "https://example.org/#v=1");
    text.lines().next().unwrap_or_default().to_owned()
}

#[test]
fn property_the_text_names_what_differs_what_follows_and_what_to_mind() {
    let design = with("Curlew 2", &[(Input::BoosterVolume, 8.0), (Input::Delay, 0.4), (Input::SurfaceTension, 30.0)]);
    let text = text_of(Format::Plain, &design);
    let lines: Vec<&str> = text.lines().collect();
    assert_eq!(lines[0], "Curlew 2");
    for line in [
        "Changed from the default design:",
        "- Booster vessel, volume: 8 L (default 7.5 L)",
        "- Staging delay: 0.4 s (default 1 s)",
        "- Site and flight, surface tension: 30 mN/m (default clean water at its temperature)",
        "Answers:",
        "Cautions:",
    ] {
        assert!(lines.contains(&line), "{line}\n{text}");
    }
    assert!(lines.iter().any(|line| line.starts_with("Coasting 0.40 s bare ")), "{text}");
    assert!(lines.iter().any(|line| line.starts_with("- Apogee: ") && line.ends_with(" m")), "{text}");
    for caution in holdwater_answers::words::cautions() {
        assert!(text.contains(caution), "{caution}");
    }
    let last = lines.last().unwrap();
    assert_eq!(link::open(last).design, design);
}

#[test]
fn property_a_reader_of_us_units_posts_them_and_the_link_stays() {
    let design = with("Curlew 2 m", &[(Input::BoosterFill, 9.0)]);
    let link = "https://example.org/#v=1&b.fill=9";
    let text = forum_text(Format::Plain, &design, Err(&[]), None, System::Us, link);
    assert!(text.starts_with("Curlew 2 m\n"), "a name is nobody's quantity: {text}");
    assert!(text.contains("pressure: 131 psi (default 145 psi)"), "{text}");
    assert!(text.trim_end().ends_with(link), "{text}");
}

#[test]
fn property_the_default_design_has_a_title_and_nothing_changed() {
    for (format, first) in [
        (Format::Plain, "Two-stage water rocket"),
        (Format::Markdown, "### Two-stage water rocket"),
        (Format::BbCode, "[b]Two-stage water rocket[/b]"),
    ] {
        let text = text_of(format, &Design::default());
        assert_eq!(text.lines().next(), Some(first));
        assert!(!text.contains("Changed"), "{text}");
    }
    let single = text_of(Format::Plain, &with("", &[(Input::Stages, 1.0)]));
    assert!(single.starts_with("Single-stage water rocket\n") && !single.contains("staged"), "{single}");
}

#[test]
fn property_a_design_without_answer_says_why() {
    let text = text_of(Format::Markdown, &with("", &[(Input::SustainerNozzle, 100.0)]));
    assert!(text.contains("**No answer**") && text.contains("is not narrower than its bore"), "{text}");
    assert!(text.contains("**Cautions**"));
}

#[test]
fn property_markdown_in_a_name_is_shown_and_not_obeyed() {
    for (name, shown) in [
        ("**bold** _x_ `c`", "### \\*\\*bold\\*\\* \\_x\\_ \\`c\\`"),
        ("[a](http://evil.example)", "### \\[a\\](http:\u{2060}//evil.\u{2060}example)"),
        ("![i](x) <script>", "### \\!\\[i\\](x) \\<script\\>"),
        ("a\\*b &lt; #1", "### a\\\\\\*b \\&lt; \\#1"),
        ("www.evil.example @owner", "### www.\u{2060}evil.\u{2060}example ＠owner"),
        ("a\nb\u{2028}c\u{202e}d", "### abcd"),
        ("  ", "### Two-stage water rocket"),
        ("v1.5, 3:2 (test)", "### v1.5, 3:2 (test)"),
    ] {
        assert_eq!(title(Format::Markdown, name), shown);
    }
}

#[test]
fn property_tags_in_a_name_are_shown_and_not_obeyed() {
    for (name, shown) in [
        ("[/b][url=http://evil.example]x[/url]", "[b]［/b］［url=http:\u{2060}//evil.\u{2060}example］x［/url］[/b]"),
        ("[*]x @owner", "[b]［*］x ＠owner[/b]"),
    ] {
        assert_eq!(title(Format::BbCode, name), shown);
    }
    assert_eq!(title(Format::Plain, "https://evil.example"), "https:\u{2060}//evil.\u{2060}example");
}

#[test]
fn property_a_link_cannot_break_out_of_its_place() {
    let link = "https://example.org/x> [url]<b>\n`*ü\"#v=1&name=a%20b";
    for format in FORMATS {
        let text = forum_text(format, &Design::default(), Err(&[]), None, System::Metric, link);
        let shown = "https://example.org/x%3E%20%5Burl%5D%3Cb%3E%0A%60%2A%C3%BC%22#v=1&name=a%20b";
        let last = text.lines().last().unwrap();
        assert_eq!(
            last.trim_start_matches(['<']).trim_end_matches('>').trim_start_matches("[url]").trim_end_matches("[/url]"),
            shown
        );
    }
}

/// Names drawn from the signs that formats use: the shape of the text around them never changes.
#[test]
fn property_no_name_changes_the_shape_of_the_text() {
    let signs: Vec<char> = "[]()<>*_`~#!|\\/:.@&=+-{}$^ab \n\t\u{2029}\"'1".chars().collect();
    let mut draw = common::Draw(7);
    for _ in 0..2_000 {
        let name: String = (0..30).map(|_| signs[(draw.share() * signs.len() as f64) as usize]).collect();
        for format in FORMATS {
            let text =
                forum_text(format, &with(&name, &[]), Err(&[]), None, System::Metric, "https://example.org/#v=1");
            let plain = forum_text(format, &with("x", &[]), Err(&[]), None, System::Metric, "https://example.org/#v=1");
            assert!(text.lines().skip(1).eq(plain.lines().skip(1)), "{name}");
        }
        let tagged = title(Format::BbCode, &name);
        assert_eq!((tagged.matches('[').count(), tagged.matches(']').count(), tagged.matches('@').count()), (2, 2, 0));
        let marked = title(Format::Markdown, &name);
        assert!(!marked.contains("://") && !marked.contains('@'));
    }
}
