//! The gas: nozzle flow and the blow-down of a vessel.

#![allow(clippy::disallowed_methods, reason = "expected values come from other functions than the crate's own")]
#![allow(clippy::unwrap_used, reason = "a panic is how a test fails")]

mod common;

use common::{close, close_share, number, properties, rows};
use holdwater_physics::air::{Air, Atmosphere};
use holdwater_physics::blowdown::BlowDown;
use holdwater_physics::constants::{GAMMA, GAS_CONSTANT_AIR};
use holdwater_physics::gas::{
    CRITICAL_RATIO, blowdown_time, choked_flow, expansion_rate, mass, open_flow, temperature,
};
use holdwater_physics::rocket::circle_area;
use holdwater_physics::solver::{Cause, DormandPrince, Effort, Span, System, integrate};

const VOLUME: f64 = 2e-3;
const KELVIN: f64 = 293.15;

/// Air that stays at one pressure.
fn air(pressure_pa: f64) -> Air {
    Air { pressure_pa, temperature_k: 288.15, density: pressure_pa / (GAS_CONSTANT_AIR * 288.15) }
}

/// What a vessel at a pressure does through a nozzle of 1 m2 into air of 1 bar: Mach number at the exit, T/T0, mass flow over that
/// of the same vessel with a sonic throat.
fn nozzle(pressure: f64) -> (f64, f64, f64) {
    let air = air(1e5);
    let (pulse, state) = BlowDown::start(pressure, mass(pressure, VOLUME, KELVIN), VOLUME, 1.0, &air).unwrap();
    assert!(!pulse.choked());
    let flow = pulse.flow(state, &pulse.gas(state, &air), &air);
    // Thrust of a nozzle that is not sonic is mass flow times exit speed; the exit's density follows from both.
    let speed = flow.thrust / flow.mass_flow;
    let exit_kelvin = 1e5 * speed / (GAS_CONSTANT_AIR * flow.mass_flow);
    let sonic = choked_flow(pressure, KELVIN, 1e5, 1.0).mass_flow;
    (speed / (GAMMA * GAS_CONSTANT_AIR * exit_kelvin).sqrt(), exit_kelvin / KELVIN, flow.mass_flow / sonic)
}

/// The vessel pressure, over that outside, at which the exit has a Mach number.
fn pressure_ratio(mach: f64) -> f64 {
    let (mut low, mut high) = (1.000_2, 1.0 / CRITICAL_RATIO);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if nozzle(1e5 * middle).0 < mach { low = middle } else { high = middle }
    }
    low
}

#[test]
fn published_naca_1135_subsonic_rows() {
    // NACA Report 1135 (1953), table I: M, p/pt, T/Tt, A/A*. From memory, four digits as printed.
    let table = [
        (0.20, 0.9725, 0.9921, 2.964),
        (0.30, 0.9395, 0.9823, 2.035),
        (0.50, 0.8430, 0.9524, 1.340),
        (0.80, 0.6560, 0.8865, 1.038),
    ];
    for (mach, pressure, kelvin, area) in table {
        let ratio = pressure_ratio(mach);
        let (_, ours, share) = nozzle(1e5 * ratio);
        // Half a unit of the last digit.
        close("p/pt", 1.0 / ratio, pressure, 5e-5);
        close("T/Tt", ours, kelvin, 5e-5);
        close("A/A*", 1.0 / share, area, 5e-4);
    }
}

#[test]
fn published_critical_ratio_and_choked_flow() {
    // NACA Report 1135, table I, M = 1: p/pt = 0.5283, T/Tt = 0.8333. From memory; half a unit of the last digit.
    close("p/pt", CRITICAL_RATIO, 0.5283, 5e-5);
    let air = air(1e5);
    let pulse =
        |ratio: f64| BlowDown::start(1e5 * ratio, mass(1e5 * ratio, VOLUME, KELVIN), VOLUME, 1e-4, &air).unwrap().0;
    assert!(pulse(1.0 / 0.528_25).choked() && !pulse(1.0 / 0.528_35).choked());
    // The number of every textbook: mdot sqrt(Tt)/(A pt) = 0.0404 for air in SI units; from memory, three digits.
    close("mass flow", choked_flow(8e5, KELVIN, 1e5, 1.0).mass_flow * KELVIN.sqrt() / 8e5, 0.0404, 5e-5);
}

#[test]
fn tool_a_library_gives_the_same_isentropic_ratios() {
    let table = properties();
    close("critical", CRITICAL_RATIO, number(&table["isentropic"], "critical_pressure_ratio"), 5e-11);
    let subsonic = rows(&table["isentropic"]).iter().filter(|row| number(row, "mach") < 0.999);
    assert_eq!(subsonic.clone().count(), 5);
    for row in subsonic {
        // The table has ten digits.
        let ratio = 1.0 / number(row, "p_p0");
        let (mach, kelvin, share) = nozzle(1e5 * ratio);
        close_share("Mach", mach, number(row, "mach"), 1e-8);
        close("T/T0", kelvin, number(row, "t_t0"), 1e-9);
        close_share("A/A*", 1.0 / share, number(row, "a_astar"), 1e-8);
    }
}

#[test]
fn closed_form_thrust_of_a_sonic_nozzle() {
    // F = A (p* (1 + gamma) - pa) and, into vacuum, 1.267876 p A; mass flow of 9 mm at 8 bar, 293.15 K and R = 287.05: 0.1201328 kg/s.
    let area = circle_area(0.009);
    for (pressure, ambient) in [(8e5, 0.0), (8e5, 1e5), (2e5, 1e5)] {
        let flow = choked_flow(pressure, KELVIN, ambient, area);
        let critical = (2.0_f64 / 2.4).powf(3.5) * pressure;
        close_share("thrust", flow.thrust, area * (critical * 2.4 - ambient), 1e-12);
    }
    // R = 287.053 instead of 287.05 makes 5.2e-6.
    close_share("mass flow", choked_flow(8e5, KELVIN, 1e5, area).mass_flow, 0.120_132_8, 6e-6);
}

#[test]
fn limit_both_flows_are_one_where_the_throat_ceases_to_be_sonic() {
    let exit_kelvin = KELVIN * 2.0 / 2.4;
    let sonic = choked_flow(1e5 / CRITICAL_RATIO, KELVIN, 1e5, 1e-4);
    let open = open_flow((GAMMA * GAS_CONSTANT_AIR * exit_kelvin).sqrt(), exit_kelvin, 1e5, 1e-4);
    close_share("mass flow", open.mass_flow, sonic.mass_flow, 1e-12);
    close_share("thrust", open.thrust, sonic.thrust, 1e-12);
    assert!(BlowDown::start(1e5, 2e-3, VOLUME, 1e-4, &air(1e5)).is_none(), "no pressure, no pulse");
}

/// A vessel held in still air: the state of its blow-down alone, until its pressure has fallen to a mark.
struct Held {
    pulse: BlowDown,
    air: Air,
    until: f64,
}

impl System<1, 2> for Held {
    fn rates(&self, y: &[f64; 1]) -> [f64; 1] {
        let gas = self.pulse.gas(y[0], &self.air);
        [self.pulse.rate(y[0], &gas, &self.air, &Atmosphere::over_site(0.0, 288.15), 0.0)]
    }

    fn events(&self, y: &[f64; 1]) -> [f64; 2] {
        let gas = self.pulse.gas(y[0], &self.air);
        let over = if self.pulse.choked() { self.pulse.remaining(y[0], &gas, &self.air) } else { 1.0 };
        [over, gas.pressure / self.until - 1.0]
    }

    fn scale(&self) -> [f64; 1] {
        [self.pulse.scale()]
    }
}

/// Blows a vessel of 2 L at 8 bar and 293.15 K down through 9 mm: time, share of the mass left, temperature.
fn blow_down(ambient: f64, until: f64) -> (f64, f64, f64) {
    let air = air(ambient);
    let full = mass(8e5, VOLUME, KELVIN);
    let mut part = BlowDown::start(8e5, full, VOLUME, circle_area(0.009), &air);
    let mut t = 0.0;
    while let Some((pulse, state)) = part {
        let held = Held { pulse, air, until };
        let span = Span { from: t, until: 10.0, first_step: 1e-3 };
        let stop = integrate(&held, DormandPrince, [state], span, Effort::REFERENCE, &mut |_| true).unwrap();
        t = stop.t;
        if stop.cause == Cause::Event(1) {
            let gas = pulse.gas(stop.y[0], &air);
            close_share("pressure", gas.pressure, until, 1e-8);
            close_share("ideal gas", gas.temperature, temperature(gas.pressure, VOLUME, gas.mass), 1e-9);
            return (t, gas.mass / full, gas.temperature);
        }
        assert_eq!(stop.cause, Cause::Event(0));
        part = Some(pulse.unchoked(stop.y[0], &air));
    }
    panic!("there is pressure at the start")
}

#[test]
fn closed_form_choked_blow_down_takes_the_time_and_leaves_the_state_of_the_formula() {
    // p = p0 (1 + (gamma - 1) t/(2 tau))^(-2 gamma/(gamma - 1)), R = 287.05: from 8 bar to 1.8929292 bar, where 1 bar outside ends the
    // sonic throat, in 0.1809341 s; isothermal p = p0 exp(-t/tau) would take 0.2281237 s.
    let (t, share, kelvin) = blow_down(1e5, 1.893e5);
    let tau = blowdown_time(VOLUME, circle_area(0.009), KELVIN);
    close("time", t, 2.0 * tau / 0.4 * ((8.0_f64 / 1.893).powf(1.0 / 7.0) - 1.0), 1e-9);
    close("mass", share, (1.893_f64 / 8.0).powf(1.0 / 1.4), 1e-9);
    close("temperature", kelvin, KELVIN * (1.893_f64 / 8.0).powf(0.4 / 1.4), 1e-6);
    // R = 287.053 makes 5.2e-6 of the time.
    let whole = |share: f64| 2.0 * tau / 0.4 * (share.powf(-1.0 / 7.0) - 1.0);
    close("isentropic", whole(1.892_929_2 / 8.0), 0.180_934_1, 1e-6);
    close("isothermal", tau * (8.0_f64 / 1.892_929_2).ln(), 0.228_123_7, 1.3e-6);
}

#[test]
fn closed_form_whole_blow_down_to_ambient_pressure() {
    // Python, another integrator: 0.3102 s to 1.001 times 1.01325 bar. Isentropic, a share (p/p0)^(1/gamma) of the mass is left, which goes
    // to 0.2285699 as the last thousandth of the pressure goes too.
    let (t, share, _) = blow_down(101_325.0, 1.001 * 101_325.0);
    close("time", t, 0.3102, 5e-5);
    close("mass", share, (1.001 * 101_325.0 / 8e5_f64).powf(1.0 / 1.4), 1e-9);
    close("all but gone", share * 1.001_f64.powf(-1.0 / 1.4), 0.228_569_9, 5e-8);
    // Isentropic from 8 bar to 1 bar: 161.832 K; stopped 0.01 % above, which is 0.005 K.
    let (_, _, kelvin) = blow_down(1e5, 1.0001e5);
    close("temperature", kelvin, 161.832, 0.006);
}

#[test]
fn conserved_mass_balance_with_the_nozzle_flow_gives_the_same_blow_down() {
    // Nothing but dm/dt = -mdot(p, T) and p/m^gamma = const, in small steps of the classical method of order four.
    let area = circle_area(0.009);
    let full = mass(8e5, VOLUME, KELVIN);
    let rate = |gas: f64| {
        let pressure = 8e5 * (gas / full).powf(1.4);
        -choked_flow(pressure, temperature(pressure, VOLUME, gas), 1e5, area).mass_flow
    };
    let (t, share, _) = blow_down(1e5, 2e5);
    let (steps, mut gas) = (400, full);
    let h = t / f64::from(steps);
    for _ in 0..steps {
        let k1 = rate(gas);
        let k2 = rate(gas + 0.5 * h * k1);
        let k3 = rate(gas + 0.5 * h * k2);
        let k4 = rate(gas + h * k3);
        gas += h / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + k4);
    }
    close("mass", gas / full, share, 1e-9);
}

#[test]
fn conserved_gas_in_a_fixed_volume_stays_isentropic() {
    for ambient in [1e5, 3e5] {
        let air = air(ambient);
        let full = mass(8e5, VOLUME, KELVIN);
        let (pulse, start) = BlowDown::start(8e5, full, VOLUME, 6e-5, &air).unwrap();
        let (next, open) = pulse.unchoked((8e5 * CRITICAL_RATIO / ambient).powf(1.0 / 7.0), &air);
        for part in 0..20 {
            let part = f64::from(part) / 20.0;
            for gas in [pulse.gas(start + 0.2 * part, &air), next.gas(open * part, &air)] {
                close_share("p/m^gamma", gas.pressure / gas.mass.powf(1.4), 8e5 / full.powf(1.4), 1e-12);
                close_share("ideal", gas.temperature, temperature(gas.pressure, VOLUME, gas.mass), 1e-12);
            }
        }
    }
}

#[test]
fn conserved_a_fixed_gas_keeps_p_v_to_the_n() {
    for exponent in [1.0, 1.3, 1.4] {
        // dp/dV from p V^n = const by central difference; its own error is (1e-4)^2.
        let (volume, step) = (1.5e-3, 1.5e-7);
        let law = |v: f64| 6e5 * (volume / v).powf(exponent);
        let slope = (law(volume + step) - law(volume - step)) / (2.0 * step);
        close_share("dp/dV", expansion_rate(6e5, volume, 1.0, exponent), slope, 1e-7);
    }
}
