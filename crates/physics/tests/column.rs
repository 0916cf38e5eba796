//! The water column: quasi-steady bottle, balances of momentum and energy, water landing on it.

#![allow(clippy::unwrap_used, reason = "a panic is how a test fails")]

mod common;

use common::{close, close_share};
use holdwater_physics::column::{Column, Landing, Motion};
use holdwater_physics::gas::expansion_rate;
use holdwater_physics::rocket::circle_area;
use holdwater_physics::solver::{Cause, DormandPrince, Effort, Rosenbrock, Span, Stiff, System, integrate};
use proptest::prelude::*;

const AMBIENT: f64 = 101_325.0;
const VOLUME: f64 = 2e-3;
const WATER: f64 = 0.66e-3;
const FILLED: f64 = 601_325.0;

/// A vessel of a bore and a nozzle without losses.
fn column(bore_m: f64, nozzle_m: f64) -> Column {
    Column {
        density: 998.2,
        sets: 1.0,
        bore_area: circle_area(bore_m),
        nozzle_area: circle_area(nozzle_m),
        nozzle_m,
        discharge: 1.0,
    }
}

/// A bottle so wide that its column has no height, with a throat so short that its water has no inertia: the jet is what
/// pressure makes it at every moment.
fn without_inertia(nozzle_m: f64) -> Column {
    Column { nozzle_m: 1e-6, ..column(100.0, nozzle_m) }
}

/// A bottle that runs empty; held, or free and without weight and drag.
///
/// States: water, exit speed, pressure, speed of the vessel, momentum and energy that the jet has carried away, work of the gas less that
/// done on the air outside.
struct Bottle {
    column: Column,
    exponent: f64,
    dry_kg: Option<f64>,
}

impl Bottle {
    fn mass(&self, water: f64) -> f64 {
        self.dry_kg.unwrap_or(f64::INFINITY) + self.column.density * water
    }

    fn motion(&self, y: &[f64; 7]) -> Motion {
        let [water, jet, pressure, ..] = *y;
        let height = self.column.height(water);
        match self.dry_kg {
            None => self.column.held(height, jet, pressure - AMBIENT, 0.0),
            Some(_) => self.column.free(height, jet, pressure - AMBIENT, self.mass(water), 0.0),
        }
    }

    /// Impulse of the thrust on a bottle that is held, from all that left it.
    fn run(&self, effort: Effort) -> ([f64; 7], f64) {
        let first_step = 0.1 * self.column.settling_time(self.column.height(WATER), FILLED - AMBIENT);
        let span = Span { from: 0.0, until: 10.0, first_step };
        let start = [WATER, 0.0, FILLED, 0.0, 0.0, 0.0, 0.0];
        let stop = integrate(self, Rosenbrock, start, span, effort, &mut |_| true).unwrap();
        assert_eq!(stop.cause, Cause::Event(0));
        (stop.y, stop.t)
    }
}

impl System<7, 1> for Bottle {
    fn rates(&self, y: &[f64; 7]) -> [f64; 7] {
        let [water, jet, pressure, speed, ..] = *y;
        let motion = self.motion(y);
        let flow = self.column.nozzle_area * jet;
        let leaves = self.column.density * flow;
        [
            -flow,
            motion.jet_rate,
            expansion_rate(pressure, VOLUME - water, flow, self.exponent),
            motion.acceleration,
            leaves * (speed - jet),
            0.5 * leaves * (speed - jet) * (speed - jet),
            (pressure - AMBIENT) * flow,
        ]
    }

    fn events(&self, y: &[f64; 7]) -> [f64; 1] {
        [y[0]]
    }

    fn scale(&self) -> [f64; 7] {
        [1e-4, 10.0, 1e5, 10.0, 1.0, 100.0, 100.0]
    }
}

impl Stiff<7, 1> for Bottle {
    fn jacobian(&self, y: &[f64; 7]) -> [[f64; 7]; 7] {
        let base = self.rates(y);
        let mut jacobian = [[0.0; 7]; 7];
        for j in 0..4 {
            let mut shifted = *y;
            let step = 1e-7 * self.scale()[j];
            shifted[j] += step;
            let rates = self.rates(&shifted);
            for i in 0..7 {
                jacobian[i][j] = (rates[i] - base[i]) / step;
            }
        }
        jacobian
    }
}

#[test]
fn published_a_static_bottle_in_its_quasi_steady_limit() {
    // No paper gives a thrust trace with all its inputs. In its place the textbook model (Bernoulli, p V^n = const), put into numbers by
    // adaptive quadrature in Python: n, nozzle, time of the water, speed at start and end, thrust at start and end, impulse.
    let table = [
        (1.0, 0.022, 0.062_799_31, 31.651_276, 24.580_746, 380.132_71, 229.267_73, 18.310_946),
        (1.4, 0.022, 0.066_600_66, 31.651_276, 22.016_538, 380.132_71, 183.929_28, 17.362_686),
        (1.0, 0.009, 0.375_245_29, 31.651_276, 24.580_746, 63.617_25, 38.369_19, 18.310_946),
    ];
    for (exponent, nozzle_m, time, u_start, u_end, f_start, f_end, impulse) in table {
        let column = without_inertia(nozzle_m);
        // Half a unit of the last digit of each column.
        let start = column.steady_speed(FILLED - AMBIENT);
        close("speed at the start", start, u_start, 5e-7);
        close("thrust at the start", column.density * column.nozzle_area * start * start, f_start, 5e-6);
        let bottle = Bottle { column, exponent, dry_kg: None };
        let (y, t) = bottle.run(Effort::REFERENCE);
        // What is left of the jet's inertia: it follows the pressure l/u = 5e-7 m/(25 m/s) = 2e-8 s late, at the end by that time
        // its own slowing of 100 to 170 m/s2.
        close("time", t, time, 5e-9 + 2e-8);
        close("speed at the end", y[1], u_end, 5e-7 + 4e-6);
        close("thrust at the end", bottle.motion(&y).thrust, f_end, 5e-6 + 7e-5);
        // Held, the jet carries away all impulse that the bottle got.
        close("impulse", -y[4], impulse, 5e-7 + 2e-6);
    }
}

#[test]
fn limit_a_heavy_vessel_moves_like_a_held_one() {
    let column = column(0.088, 0.009);
    let held = column.held(0.1, 20.0, 5e5, 0.0);
    let heavy = column.free(0.1, 20.0, 5e5, 1e9, 0.0);
    close("acceleration", heavy.acceleration, 0.0, 1e-6);
    close_share("jet", heavy.jet_rate, held.jet_rate, 1e-8);
    close_share("thrust", heavy.thrust, held.thrust, 1e-8);
    // The other way round: the acceleration of a free vessel, given to a held one, makes the same jet.
    let free = column.free(0.1, 20.0, 5e5, 0.8, 3.0);
    let driven = column.held(0.1, 20.0, 5e5, free.acceleration);
    close_share("jet", driven.jet_rate, free.jet_rate, 1e-12);
    close_share("thrust", driven.thrust, free.thrust, 1e-12);
    close_share("m a = F - D", 0.8 * free.acceleration, free.thrust - 3.0, 1e-12);
}

#[test]
fn limit_a_settled_jet_runs_at_the_quasi_steady_speed_and_a_closed_one_pushes_nothing() {
    let column = column(0.088, 0.009);
    let jet = column.steady_speed(5e5);
    close("no change", column.held(0.0, jet, 5e5, 0.0).jet_rate, 0.0, 1e-6);
    close("no pressure", column.steady_speed(-1.0), 0.0, 0.0);
    // Bernoulli with both speeds and a discharge coefficient: u = Cd sqrt(2 dp/(rho (1 - b^2))).
    let lossy = Column { discharge: 0.97, ..column };
    let b = (0.009_f64 / 0.088).powi(2);
    close_share("speed", lossy.steady_speed(5e5), 0.97 * (2.0 * 5e5 / (998.2 * (1.0 - b * b))).sqrt(), 1e-12);
}

#[test]
fn conserved_momentum_and_energy_of_a_free_bottle_that_runs_empty() {
    for (bore_m, nozzle_m, dry_kg) in [(0.088, 0.009, 0.22), (0.088, 0.022, 0.1), (0.050, 0.022, 0.5)] {
        let column = column(bore_m, nozzle_m);
        let bottle = Bottle { column, exponent: 1.3, dry_kg: Some(dry_kg) };
        let ([water, jet, pressure, speed, momentum, energy, work], _) = bottle.run(Effort::REFERENCE);
        let own = bottle.mass(water) * speed;
        assert!(own > 1.0, "it flies");
        // What the vessel has and what the jet took away make nought, as at the start. The column's own part has gone with it.
        close("momentum", own + momentum, 0.0, 1e-7 * own);
        // The gas has paid for the motion of vessel and jet. The water of the throat is in the inertia of the jet, not in the mass.
        let throat = 0.5 * column.density * column.nozzle_area * column.throat_length() * jet * jet;
        close_share("energy", 0.5 * own * speed + energy + throat, work, 1e-7);
        close_share("p V^n", pressure * VOLUME.powf_13(), FILLED * (VOLUME - WATER).powf_13(), 1e-7);
    }
}

/// x^1.3 by roots alone, so that it owes nothing to the crate's own power.
trait Power {
    fn powf_13(self) -> f64;
}

impl Power for f64 {
    fn powf_13(self) -> f64 {
        // 1.3 = 1 + 1/4 + 1/20; Newton's method for the fifth root.
        let quarter = self.sqrt().sqrt();
        let mut root = quarter;
        for _ in 0..60 {
            root -= (root.powi(5) - quarter) / (5.0 * root.powi(4));
        }
        self * quarter * root
    }
}

/// Momentum and kinetic energy of vessel, column and parcel.
fn totals(column: &Column, landing: &Landing) -> (f64, f64) {
    let Landing { mass_kg, height_m, speed, jet, parcel_m3, parcel_speed } = *landing;
    let parcel = column.density * parcel_m3;
    let inside = column.density * column.nozzle_area * height_m * jet;
    let b = column.contraction();
    let energy = 0.5 * mass_kg * speed * speed - inside * speed
        + 0.5 * inside * b * jet
        + 0.5 * column.density * column.nozzle_area * column.throat_length() * jet * jet
        + 0.5 * parcel * parcel_speed * parcel_speed;
    (mass_kg * speed - inside + parcel * parcel_speed, energy)
}

proptest! {
    #[test]
    fn conserved_momentum_when_water_lands_on_a_moving_column_and_no_energy_is_made(
        bore_m in 0.02..0.2_f64, narrowing in 0.05..0.95_f64, height_m in 0.001..0.5_f64, dry_kg in 0.02..20.0_f64,
        speed in -50.0..200.0_f64, jet in 0.0..60.0_f64, parcel_height in 0.0..0.5_f64, falls in 0.0..20.0_f64,
    ) {
        let column = column(bore_m, bore_m * narrowing);
        let seated = column.density * column.bore_area * height_m;
        let parcel_m3 = column.bore_area * parcel_height;
        let before = Landing { mass_kg: dry_kg + seated, height_m, speed, jet, parcel_m3, parcel_speed: speed - falls };
        let (v, u) = column.join(&before);
        let after = Landing {
            mass_kg: before.mass_kg + column.density * parcel_m3,
            height_m: height_m + parcel_height,
            speed: v,
            jet: u,
            parcel_m3: 0.0,
            parcel_speed: 0.0,
        };
        let ((p0, e0), (p1, e1)) = (totals(&column, &before), totals(&column, &after));
        let size = after.mass_kg * (speed.abs() + jet + falls + 1.0);
        prop_assert!((p1 - p0).abs() <= 1e-10 * size, "momentum {p0} became {p1}");
        prop_assert!(e1 <= e0 + 1e-10 * size * size / after.mass_kg, "energy {e0} became {e1}");
    }
}

#[test]
fn limit_water_that_lands_without_relative_speed_changes_nothing_and_a_heavy_vessel_is_not_moved() {
    let column = column(0.088, 0.009);
    // The surface sinks at b u: a parcel that moves with it joins without a jolt, if the vessel's column moves as one.
    let (speed, jet) = (20.0, 25.0);
    let at_surface = speed - column.contraction() * jet;
    let landing = Landing { mass_kg: 1.0, height_m: 0.08, speed, jet, parcel_m3: 1e-4, parcel_speed: at_surface };
    let (v, u) = column.join(&landing);
    close("vessel", v, speed, 1e-9);
    close("jet", u, jet, 1e-9);
    let (v, _) = column.join(&Landing { mass_kg: 1e9, parcel_speed: 5.0, ..landing });
    close("heavy", v, speed, 1e-6);
}

#[test]
fn limit_both_methods_run_the_same_bottle_empty() {
    // A gentle bottle, which the explicit method can follow: the two share nothing but the equations.
    let bottle = Bottle { column: column(0.088, 0.022), exponent: 1.2, dry_kg: Some(0.3) };
    let (implicit, t) = bottle.run(Effort::REFERENCE);
    let span = Span { from: 0.0, until: 10.0, first_step: 1e-5 };
    let start = [WATER, 0.0, FILLED, 0.0, 0.0, 0.0, 0.0];
    let stop = integrate(&bottle, DormandPrince, start, span, Effort::REFERENCE, &mut |_| true).unwrap();
    close("time", t, stop.t, 1e-9);
    for ((ours, theirs), size) in implicit.iter().zip(stop.y).zip(bottle.scale()) {
        close("state", *ours, theirs, 1e-6 * size);
    }
}
