//! Fitting a Weibull life to a log: against libraries, closed forms, and what must hold for every log.

#![allow(clippy::disallowed_methods, reason = "expected values come from other functions than the crate's own")]
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a panic is how a test fails")]

mod common;

use std::fs;
use std::path::Path;

use common::{close, close_share};
use holdwater_physics::age::few::{NoBound, most_events, shortest_scale};
use holdwater_physics::age::fit::{BadCycles, Estimate, Fit, LogRow, MOST_ROWS, NoFit, fit};
use holdwater_physics::age::weibull::{Weibull, chance_of_failing, life_at};
use proptest::prelude::*;
use serde_json::Value;

fn table() -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/reference/weibull.json");
    serde_json::from_str(&fs::read_to_string(path).unwrap()).unwrap()
}

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number stands there")
}

fn log_of(value: &Value) -> Vec<LogRow> {
    let row = |row: &Value| LogRow { cycles: number(&row[0]), failed: number(&row[1]) > 0.5 };
    value.as_array().unwrap().iter().map(row).collect()
}

fn failed(cycles: &[f64]) -> Vec<LogRow> {
    cycles.iter().map(|cycles| LogRow { cycles: *cycles, failed: true }).collect()
}

fn whole(cycles: &[f64]) -> Vec<LogRow> {
    cycles.iter().map(|cycles| LogRow { cycles: *cycles, failed: false }).collect()
}

/// Names and fits of all logs in the table.
fn fits() -> Vec<(String, Value, Fit)> {
    let table = table();
    let logs = table["fits"].as_object().unwrap().iter().filter(|(_, entry)| entry.is_object());
    logs.map(|(name, entry)| (name.clone(), entry.clone(), fit(&log_of(&entry["rows"])).unwrap())).collect()
}

#[test]
fn published_nist_handbook_example() {
    // NIST/SEMATECH e-Handbook of Statistical Methods, section 8.4.1; data and answers from memory: shape 1.7208, scale 606.5280.
    let mut log = failed(&[54.0, 187.0, 216.0, 240.0, 244.0, 335.0, 361.0, 373.0, 375.0, 386.0]);
    log.extend(whole(&[500.0; 10]));
    let fit = fit(&log).unwrap();
    close("shape", fit.life.shape(), 1.7208, 5e-5);
    close("scale", fit.life.scale(), 606.528, 5e-4);
    // Worked out in double precision in another language: likelihood, standard errors (as `reliability` 0.9.0 has them), covariance.
    close("likelihood", fit.log_likelihood, -75.134_618_2, 5e-8);
    close("error of the shape", fit.shape_error, 0.502_150_6, 5e-8);
    close("error of the scale", fit.scale_error, 124.910_65, 1e-5);
    close("covariance", fit.covariance, -28.3136, 5e-5);
    close("B10", life_at(&fit.life, 0.1), 164.0224, 5e-5);
    close("median", life_at(&fit.life, 0.5), 490.1738, 5e-5);
}

#[test]
fn published_gross_and_clark_relief_times() {
    // Gross and Clark's 20 relief times, all complete; data and the printed answer (gamma 2.7870, beta -2.1073 of S = exp(-e^beta x^gamma)) from memory.
    let fit = fit(&failed(&[
        1.1, 1.4, 1.3, 1.7, 1.9, 1.8, 1.6, 2.2, 1.7, 2.7, 4.1, 1.8, 1.5, 1.2, 1.4, 3.0, 1.7, 2.3, 1.6, 2.0,
    ]))
    .unwrap();
    close("gamma", fit.life.shape(), 2.7870, 5e-5);
    close("beta", -fit.life.shape() * fit.life.scale().ln(), -2.1073, 5e-5);
}

#[test]
fn tool_three_libraries_fit_the_same_lives() {
    for (name, entry, fit) in fits() {
        let scipy = &entry["scipy"];
        close_share(&name, fit.life.shape(), number(&scipy["shape"]), 3e-7);
        close_share(&name, fit.life.scale(), number(&scipy["scale"]), 3e-7);
        close_share(&name, fit.log_likelihood, number(&scipy["log_likelihood"]), 1e-9);
        // Optimisers of libraries stop at a step, not at a digit.
        for library in ["lifelines", "reliability"] {
            close_share(&format!("{name}: {library}"), fit.life.shape(), number(&entry[library]["shape"]), 4e-5);
            close_share(&format!("{name}: {library}"), fit.life.scale(), number(&entry[library]["scale"]), 4e-5);
        }
        let reliability = &entry["reliability"];
        close_share(&name, fit.shape_error, number(&reliability["shape_error"]), 2e-4);
        close_share(&name, fit.scale_error, number(&reliability["scale_error"]), 2e-4);
        close_share(&name, fit.covariance, number(&reliability["covariance"]), 2e-3);
    }
}

#[test]
fn tool_likelihood_ratio_intervals_are_those_of_a_nested_search() {
    // The table holds the quantity, maximises over the shape and looks for the root: another way than ours. Six digits, so half a unit is 5e-6 at most.
    let ends = |what: &str, ours: Estimate, theirs: &Value| {
        close_share(what, ours.low, number(&theirs[0]), 6e-6);
        close_share(what, ours.high, number(&theirs[1]), 6e-6);
    };
    for (name, entry, fit) in fits() {
        ends(&name, fit.shape, &entry["shape_interval"]);
        for row in entry["chances"].as_array().unwrap() {
            let ours = fit.chance_of_failing(number(&row["behind"]), number(&row["ahead"]));
            // The value moves more than the parameters do, and those of the table have nine digits.
            close_share(&name, ours.value, number(&row["value"]), 1e-6);
            ends(&format!("{name}: {row}"), ours, &row["interval"]);
        }
        for row in entry["lives"].as_array().unwrap() {
            let ours = fit.life_at(number(&row["share"]));
            close_share(&name, ours.value, number(&row["value"]), 1e-6);
            ends(&format!("{name}: {row}"), ours, &row["interval"]);
        }
    }
}

#[test]
fn tool_most_events_are_half_of_chi_square() {
    for row in table()["events"]["rows"].as_array().unwrap() {
        let events = u32::try_from(row["events"].as_u64().unwrap()).unwrap();
        close_share(&row.to_string(), most_events(events, number(&row["confidence"])), number(&row["mean"]), 1e-9);
    }
}

#[test]
fn closed_form_two_failures_satisfy_their_equation_and_no_shape_beyond_it() {
    // Complete sample of two with ratio e^(2 d): with t = k d the equation is t tanh t = 1, whose root is 1.19967864.
    for (low, high) in [(90.0, 150.0), (10.0, 11.0), (1.0, 400.0)] {
        let fit = fit(&failed(&[low, high])).unwrap();
        let half = 0.5 * (high / low).ln();
        close("t", fit.life.shape() * half, 1.199_678_640_257_734, 1e-11);
        let scale = (0.5 * (low.powf(fit.life.shape()) + high.powf(fit.life.shape()))).powf(1.0 / fit.life.shape());
        close_share("scale", fit.life.scale(), scale, 1e-12);
    }
}

#[test]
fn closed_form_bounds_without_wear_are_those_of_a_poisson_mean() {
    // Shape 1: total cycles over the mean number of failures. One failure: (1 + m) e^-m = 0.05 gives 4.74386452.
    let bound = shortest_scale(&whole(&[100.0, 50.0]), 1.0, 0.95).unwrap();
    close_share("none", bound.shortest.scale(), 150.0 / 20.0_f64.ln(), 1e-13);
    assert_eq!(bound.best, None);
    let mut log = whole(&[100.0]);
    log.extend(failed(&[50.0]));
    let bound = shortest_scale(&log, 1.0, 0.95).unwrap();
    close_share("one", bound.shortest.scale(), 150.0 / 4.743_864_518, 1e-9);
    close_share("best", bound.best.unwrap().scale(), 150.0, 1e-13);
    // Any shape k: the same of x^k.
    let bound = shortest_scale(&whole(&[100.0, 50.0]), 3.0, 0.9).unwrap();
    close_share("wear", bound.shortest.scale(), (1.125e6 / 10.0_f64.ln()).cbrt(), 1e-12);
}

#[test]
fn property_logs_that_tell_no_life_say_why() {
    assert_eq!(fit(&[]).unwrap_err(), NoFit::NoRows);
    assert_eq!(fit(&whole(&[3.0, 9.0])).unwrap_err(), NoFit::NoFailures { whole: 2, most_cycles: 9.0 });
    let mut log = failed(&[60.0]);
    assert_eq!(fit(&log).unwrap_err(), NoFit::OneFailure { cycles: 60.0, whole: 0 });
    log.extend(whole(&[100.0]));
    assert_eq!(fit(&log).unwrap_err(), NoFit::OneFailure { cycles: 60.0, whole: 1 });
    assert_eq!(fit(&failed(&[80.0; 4])).unwrap_err(), NoFit::AllAlike { failures: 4, cycles: 80.0 });
    let mut log = failed(&[80.0; 2]);
    log.extend(whole(&[80.0, 20.0]));
    assert_eq!(fit(&log).unwrap_err(), NoFit::AllAlike { failures: 2, cycles: 80.0 });
    // Failures of one age among parts that lived longer do have a fit.
    log.extend(whole(&[120.0]));
    assert!(fit(&log).is_ok());
    assert_eq!(fit(&failed(&[80.0, 80.001])).unwrap_err(), NoFit::ShapeBeyond { bound: 200.0 });
    let mut log = failed(&[1e-3, 1e-3, 1e-3]);
    log.extend(failed(&[1e12]));
    assert!(fit(&log).is_ok() || fit(&log) == Err(NoFit::ShapeBeyond { bound: 0.05 }));
    assert_eq!(fit(&whole(&[1.0; MOST_ROWS + 1])).unwrap_err(), NoFit::TooManyRows { rows: MOST_ROWS + 1 });
    for (cycles, why) in [
        (0.0, BadCycles::TooFew(0.0)),
        (-4.0, BadCycles::TooFew(-4.0)),
        (f64::NAN, BadCycles::NotANumber),
        (f64::NEG_INFINITY, BadCycles::TooFew(f64::NEG_INFINITY)),
        (f64::INFINITY, BadCycles::TooMany(f64::INFINITY)),
    ] {
        let log = failed(&[10.0, cycles, 20.0]);
        assert_eq!(fit(&log).unwrap_err(), NoFit::BadRow { row: 2, why });
        assert_eq!(shortest_scale(&log, 2.0, 0.95), Err(NoBound::Log(NoFit::BadRow { row: 2, why })));
    }
    let log = whole(&[10.0]);
    for shape in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert_eq!(shortest_scale(&log, shape, 0.95), Err(NoBound::Shape));
    }
    for confidence in [0.0, 1.0, f64::NAN] {
        assert_eq!(shortest_scale(&log, 2.0, confidence), Err(NoBound::Confidence));
    }
}

#[test]
fn property_a_bound_holds_where_a_fit_does_not() {
    for log in [failed(&[80.0; 4]), failed(&[60.0]), whole(&[50.0; 3]), failed(&[80.0; 1000]), whole(&[1.0; 5000])] {
        for shape in [0.05, 1.0, 2.5, 200.0] {
            let bound = shortest_scale(&log, shape, 0.95).unwrap();
            assert!(bound.best.is_none_or(|best| best.scale() > bound.shortest.scale()));
        }
    }
    // More parts that are whole make the bound longer.
    let scale = |parts: usize| shortest_scale(&vec![whole(&[50.0])[0]; parts], 2.5, 0.95).unwrap().shortest.scale();
    assert!((1..20).all(|parts| scale(parts + 1) > scale(parts)));
}

#[test]
fn limit_many_parts_give_back_the_life_they_were_drawn_from() {
    // Quantiles of a known life instead of chance: the fit comes within a part of a percent.
    for (shape, scale) in [(0.6, 30_000.0), (1.0, 50.0), (2.5, 300.0), (9.0, 1e6)] {
        let life = Weibull::new(shape, scale).unwrap();
        let log: Vec<_> = (0..1000).map(|i| life_at(&life, (f64::from(i) + 0.5) / 1000.0)).collect();
        let fit = fit(&failed(&log)).unwrap();
        close_share("shape", fit.life.shape(), shape, 4e-3);
        close_share("scale", fit.life.scale(), scale, 4e-3);
        // With a thousand failures both intervals are nearly the same: 1.96 standard errors.
        close_share("interval", fit.shape.high - fit.shape.low, 2.0 * 1.96 * fit.shape_error, 4e-3);
        let life = fit.life_at(1.0 - (-1.0_f64).exp());
        close_share("scale", life.value, fit.life.scale(), 1e-12);
        close_share("interval", life.high - life.low, 2.0 * 1.96 * fit.scale_error, 4e-3);
    }
}

/// Logs of two to thirty rows, whose failures are not all alike.
fn any_log() -> impl Strategy<Value = Vec<LogRow>> {
    let row = (1_u32..2000, any::<bool>()).prop_map(|(cycles, failed)| LogRow { cycles: f64::from(cycles), failed });
    prop::collection::vec(row, 2..30)
}

fn is_number_in_order(estimate: Estimate) -> bool {
    estimate.low <= estimate.value && estimate.value <= estimate.high && estimate.high.is_finite()
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn property_no_neighbour_is_likelier_than_the_fit(log in any_log(), along in -0.3..0.3_f64, across in -0.3..0.3_f64) {
        if let Ok(fit) = fit(&log) {
            let neighbour = Weibull::new((fit.life.shape() * (1.0 + along)).clamp(0.05, 200.0), fit.life.scale() * (1.0 + across)).unwrap();
            prop_assert!(fit.log_likelihood_of(&neighbour) <= fit.log_likelihood + 1e-9 * fit.log_likelihood.abs());
            let itself = fit.log_likelihood_of(&fit.life);
            prop_assert!((itself - fit.log_likelihood).abs() <= 1e-9 * itself.abs().max(1.0));
        }
    }

    #[test]
    fn property_other_units_scale_the_scale_and_nothing_else(log in any_log(), factor in 0.1..1000.0_f64) {
        let scaled: Vec<_> = log.iter().map(|row| LogRow { cycles: row.cycles * factor, ..*row }).collect();
        if let (Ok(one), Ok(other)) = (fit(&log), fit(&scaled)) {
            prop_assert!((other.life.shape() / one.life.shape() - 1.0).abs() < 1e-9);
            prop_assert!((other.life.scale() / one.life.scale() / factor - 1.0).abs() < 1e-9);
            let (a, b) = (one.chance_of_failing(50.0, 5.0), other.chance_of_failing(50.0 * factor, 5.0 * factor));
            prop_assert!((b.high / a.high - 1.0).abs() < 1e-6 && (b.value / a.value - 1.0).abs() < 1e-8);
        } else {
            prop_assert_eq!(fit(&log).is_ok(), fit(&scaled).is_ok());
        }
    }

    #[test]
    fn property_the_order_of_rows_changes_no_digit(log in any_log()) {
        let mut turned = log.clone();
        turned.reverse();
        prop_assert_eq!(fit(&log), fit(&turned));
    }

    #[test]
    fn property_every_log_ends_in_numbers_or_a_reason(
        cycles in prop::collection::vec((any::<f64>(), any::<bool>()), 0..8),
        good in any_log(), behind in any::<f64>(), ahead in any::<f64>(), share in any::<f64>(),
    ) {
        let wild: Vec<_> = cycles.into_iter().map(|(cycles, failed)| LogRow { cycles, failed }).collect();
        for log in [wild, good] {
            if let Ok(fit) = fit(&log) {
                prop_assert!(is_number_in_order(fit.shape) && fit.scale_error.is_finite() && fit.shape_error > 0.0);
                prop_assert!(is_number_in_order(fit.chance_of_failing(behind, ahead)), "{:?}", fit.chance_of_failing(behind, ahead));
                prop_assert!(is_number_in_order(fit.life_at(share)), "{:?}", fit.life_at(share));
            }
        }
    }

    #[test]
    fn property_the_interval_holds_the_estimate_of_the_plain_formula(log in any_log(), behind in 0.0..3000.0_f64, ahead in 0.5..50.0_f64) {
        if let Ok(fit) = fit(&log) {
            let (ours, plain) = (fit.chance_of_failing(behind, ahead), chance_of_failing(&fit.life, behind, ahead));
            prop_assert!((ours.value / plain - 1.0).abs() < 1e-9);
            prop_assert!(is_number_in_order(ours) && ours.high <= 1.0 && ours.low >= 0.0);
        }
    }
}
