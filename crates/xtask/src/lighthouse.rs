//! `lighthouse`: the page as Lighthouse judges it, on its phone with its slow connection.
//!
//! The scores come from what Lighthouse computes for a slow phone after a quick visit, which is its usual way. One more visit is
//! really slowed down, and tells when all of it stood.
//!
//! It is a step of its own, because it takes minutes and needs node.

use std::path::Path;
use std::process::Command;

use serde_json::Value;

use crate::server::Server;
use crate::setup::{self, Lighthouse};
use crate::workspace::{read, target_dir};
use crate::{Outcome, browser, build, run};

/// Times differ from run to run; the middle one of three is judged.
const RUNS: usize = 3;

/// The four scores and the least that each may be.
const CATEGORIES: [(&str, f64); 4] =
    [("performance", 95.0), ("accessibility", 100.0), ("best-practices", 100.0), ("seo", 100.0)];

/// How the phone and its connection are made slow: computed afterwards, or really.
const COMPUTED: &str = "simulate";
const REAL: &str = "devtools";

/// The figures that are printed beside the scores.
const FIGURES: [(&str, &str); 5] = [
    ("first-contentful-paint", "first text"),
    ("largest-contentful-paint", "largest text or picture"),
    ("interactive", "interactive"),
    ("total-blocking-time", "blocked in between"),
    ("total-byte-weight", "weight"),
];

/// Judges the page in `dist/`, which is built if there is none.
pub fn lighthouse(root: &Path) -> Outcome {
    let tools = setup::for_lighthouse()?;
    if !root.join("dist/index.html").is_file() {
        build::build(root)?;
    }
    judge(root, &tools)
}

/// Judges the page in `dist/` with tools that are there.
pub fn judge(root: &Path, tools: &Lighthouse) -> Outcome {
    let dist = root.join("dist");
    if !dist.join("index.html").is_file() {
        return Err("there is no built page in dist/: run `cargo xtask build` first".to_owned());
    }
    let server = run::timed("compressing the page as a host does", || Server::start_as_host(&dist))?;
    let folder = target_dir(root).join("lighthouse");
    std::fs::create_dir_all(&folder).map_err(|error| format!("{} cannot be made: {error}", folder.display()))?;
    let mut reports = Vec::new();
    for number in 1..=RUNS {
        let file = folder.join(format!("run-{number}.json"));
        run::timed(&format!("run {number} of {RUNS}"), || {
            run::run(&mut command(tools, &server.url(), &file, COMPUTED))?;
            reports.push((Report::read(&file)?, file));
            Ok(())
        })?;
    }
    let slow = folder.join("slow.json");
    run::timed("a visit that is really slow", || run::run(&mut command(tools, &server.url(), &slow, REAL)))?;
    reports.sort_by(|(one, _), (other, _)| one.score("performance").total_cmp(&other.score("performance")));
    let all: Vec<String> = reports.iter().map(|(report, _)| format!("{:.0}", report.score("performance"))).collect();
    let (report, file) = &reports[RUNS / 2];
    println!("\n{}", report.text());
    let slow = Report::read(&slow)?;
    for (mark, what) in [("answered", "the first answer stands"), ("ready", "all of the page stands")] {
        match slow.mark_ms(mark) {
            Some(time) => println!("{time:.0} ms until {what} on a really slow phone"),
            None => println!("the page did not say when {what}"),
        }
    }
    println!("performance of all runs: {}; the one shown is {}", all.join(", "), file.display());
    report.verdict()
}

fn command(tools: &Lighthouse, url: &str, report: &Path, slowed: &str) -> Command {
    let mut command = Command::new(&tools.node);
    // As everywhere, no calls home; and root's browser has no sandbox.
    let sandbox = if browser::is_root() { " --no-sandbox" } else { "" };
    let categories: Vec<_> = CATEGORIES.iter().map(|(name, _)| *name).collect();
    command
        .arg(&tools.script)
        .args([url, "--quiet", "--no-enable-error-reporting", "--form-factor=mobile"])
        .arg(format!("--throttling-method={slowed}"))
        .arg(format!("--only-categories={}", categories.join(",")))
        .arg(format!("--chrome-flags=--headless=new{sandbox}"))
        .arg("--output=json")
        .arg("--output-path")
        .arg(report)
        .env("CHROME_PATH", &tools.chromium);
    command
}

/// What Lighthouse wrote about one run.
struct Report(Value);

impl Report {
    fn read(file: &Path) -> Outcome<Self> {
        let report = serde_json::from_str(&read(file)?).map_err(|error| format!("{}: {error}", file.display()))?;
        Self::of(report)
    }

    /// A run that went wrong leaves a report as well.
    fn of(report: Value) -> Outcome<Self> {
        match report["runtimeError"]["message"].as_str() {
            Some(error) => Err(format!("Lighthouse could not judge the page: {error}")),
            None => Ok(Self(report)),
        }
    }

    /// A score out of a hundred; nothing for one that is not there, which passes no bar.
    fn score(&self, category: &str) -> f64 {
        (100.0 * self.0["categories"][category]["score"].as_f64().unwrap_or(0.0)).round()
    }

    /// The scores, the figures, and every audit that is not perfect, worst first.
    fn text(&self) -> String {
        let scores = CATEGORIES.iter().map(|(name, least)| {
            let score = self.score(name);
            format!("{score:>5} {name}{}\n", if score < *least { format!(": below {least}") } else { String::new() })
        });
        let figures = FIGURES.iter().filter_map(|(id, what)| {
            let audit = &self.0["audits"][id];
            let (value, unit) = (audit["numericValue"].as_f64()?, audit["numericUnit"].as_str()?);
            let unit = if unit == "millisecond" { "ms" } else { unit };
            Some(format!("{value:>9.0} {unit:<4} {what}\n"))
        });
        let audits = self.below_one().into_iter().map(|(score, id)| {
            let audit = &self.0["audits"][id];
            let part = |key: &str| audit[key].as_str().unwrap_or_default();
            format!("{score:>5.2} {id}: {} {}\n", part("title"), part("displayValue"))
        });
        scores.chain(figures).chain(audits).collect()
    }

    fn below_one(&self) -> Vec<(f64, &str)> {
        let audits = self.0["audits"].as_object().into_iter().flatten();
        let scored = audits.filter_map(|(id, audit)| Some((audit["score"].as_f64()?, id.as_str())));
        let mut below: Vec<_> = scored.filter(|(score, _)| *score < 1.0).collect();
        below.sort_by(|(one, _), (other, _)| one.total_cmp(other));
        below
    }

    /// A moment that `boot.js` notes.
    fn mark_ms(&self, name: &str) -> Option<f64> {
        let marks = self.0["audits"]["user-timings"]["details"]["items"].as_array()?;
        marks.iter().find(|mark| mark["name"] == name)?["startTime"].as_f64()
    }

    fn verdict(&self) -> Outcome {
        let failed: Vec<String> = CATEGORIES
            .iter()
            .filter(|(name, least)| self.score(name) < *least)
            .map(|(name, least)| format!("{name} is {} and must be {least}", self.score(name)))
            .collect();
        if failed.is_empty() { Ok(()) } else { Err(failed.join("; ")) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn report(performance: f64) -> Report {
        let perfect = json!({ "score": 1 });
        let categories = json!({
            "performance": { "score": performance }, "accessibility": perfect, "best-practices": perfect, "seo": perfect,
        });
        let audits = json!({
            "interactive": { "score": 0.9, "title": "Time to Interactive", "displayValue": "2.0 s",
                "numericValue": 2000.4, "numericUnit": "millisecond" },
            "dom-size": { "score": 0, "title": "DOM size" },
            "viewport": { "score": 1 },
            "user-timings": { "score": null, "details": { "items": [{ "name": "ready", "startTime": 1900.5 }] } },
            "manual": { "score": null },
        });
        Report::of(json!({ "categories": categories, "audits": audits })).unwrap()
    }

    #[test]
    fn a_report_is_judged_by_its_scores_and_read_worst_first() {
        assert_eq!(report(0.95).verdict(), Ok(()));
        assert_eq!(report(0.944).verdict(), Err("performance is 94 and must be 95".to_owned()));
        assert_eq!(report(1.0).mark_ms("ready"), Some(1900.5));
        let text = report(0.5).text();
        assert!(text.starts_with("   50 performance: below 95\n  100 accessibility\n"), "{text}");
        assert!(text.contains("     2000 ms   interactive\n"), "{text}");
        assert!(text.ends_with(" 0.00 dom-size: DOM size \n 0.90 interactive: Time to Interactive 2.0 s\n"), "{text}");
    }

    #[test]
    fn what_lighthouse_did_not_judge_fails() {
        assert!(Report(json!({})).verdict().unwrap_err().contains("seo is 0 and must be 100"));
        let error = json!({ "runtimeError": { "message": "no page" } });
        assert!(Report::of(error).err().unwrap().contains("no page"));
    }
}
