//! A vessel that blows down through its nozzle: one degree of freedom, chosen so that it runs nearly straight in time.
//!
//! Isentropic gas in a fixed volume has one state. Pressure would be the obvious one, but it falls steeply at first and touches the
//! ambient pressure like a square root at the end, where the clock of the coast starts. So the state is
//!
//! * while the throat is sonic, s = sqrt(T0/T), which grows at exactly the constant rate (gamma-1)/(2 tau) and makes pressure, mass and
//!   temperature integer powers: p = p0 s^-7, m = m0 s^-5, T = T0 s^-2 for gamma = 7/5;
//! * afterwards the exit speed, which falls nearly linearly to nought; behind the holes of a plate that speed as a share of the greatest
//!   that the gas could reach, from which all else follows without a search (see [`Throttle`]).

use crate::air::{Air, Atmosphere};
use crate::constants::{GAMMA, GAS_CONSTANT_AIR};
use crate::gas::{self, CRITICAL_RATIO, END_OF_PULSE, NozzleFlow};
use crate::real::{pow, pow_near_one};
use crate::restrictor::series::Throttle;

/// Specific heat at constant pressure, J/(kg K): gamma R/(gamma - 1).
const SPECIFIC_HEAT: f64 = GAMMA / (GAMMA - 1.0) * GAS_CONSTANT_AIR;

/// (1 + END_OF_PULSE)^((gamma - 1)/gamma) - 1: the end of the pulse on the scale of temperature.
const END_IN_TEMPERATURE: f64 = 2.0 / 7.0 * END_OF_PULSE * (1.0 - 5.0 / 14.0 * END_OF_PULSE);

/// A gas space that blows down, and how far it has come.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BlowDown {
    /// Pressure at the start, Pa.
    pressure: f64,
    /// Gas mass at the start, kg.
    mass: f64,
    /// Temperature at the start, K.
    temperature: f64,
    /// Gas space, m3.
    volume: f64,
    /// Effective area of all nozzles, m2.
    area: f64,
    /// Ambient pressure at the start, Pa, and the exit temperature that belongs to it, K.
    ambient: f64,
    exit_temperature: f64,
    /// State below which the equations need not hold: just below that at which the pulse is over.
    slowest: f64,
    /// Whether the throat is sonic.
    choked: bool,
    /// Rate of the state while it is, 1/s.
    rate: f64,
    /// Holes that the gas passes before it comes to the nozzle.
    throttle: Option<Throttle>,
    /// Pressure at the nozzle over that in the vessel while the throat is sonic: 1 without holes.
    share: f64,
}

/// T0 (pa/p0)^((gamma-1)/gamma), K.
fn isentropic_exit(temperature: f64, pressure: f64, air: &Air) -> f64 {
    temperature * pow(air.pressure_pa / pressure, (GAMMA - 1.0) / GAMMA)
}

/// The gas at one state of a blow-down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gas {
    /// Pressure, Pa.
    pub pressure: f64,
    /// Mass, kg.
    pub mass: f64,
    /// Temperature, K.
    pub temperature: f64,
    /// Exit temperature, K, where the throat is not sonic; otherwise nought.
    exit_temperature: f64,
}

/// Exit speed at which the pulse counts as over, m/s.
fn end_speed(exit_temperature: f64) -> f64 {
    (2.0 * SPECIFIC_HEAT * exit_temperature * END_IN_TEMPERATURE).sqrt()
}

impl BlowDown {
    /// A blow-down from the pressure and mass given, with its first state; `None` if there is no pressure to speak of.
    #[must_use]
    pub fn start(pressure: f64, mass: f64, volume: f64, area: f64, air: &Air) -> Option<(Self, f64)> {
        Self::start_behind(None, pressure, mass, volume, area, air)
    }

    /// The same with a plate between gas and nozzle, if there is one.
    #[must_use]
    pub fn start_behind(
        throttle: Option<Throttle>,
        pressure: f64,
        mass: f64,
        volume: f64,
        area: f64,
        air: &Air,
    ) -> Option<(Self, f64)> {
        let over = pressure / air.pressure_pa;
        if over.is_nan() || over <= 1.0 + END_OF_PULSE {
            return None;
        }
        let share = throttle.map_or(1.0, |throttle| throttle.sonic_share);
        let temperature = gas::temperature(pressure, volume, mass);
        let choked = CRITICAL_RATIO * over * share > 1.0;
        let rate = 0.5 * (GAMMA - 1.0) / gas::blowdown_time(volume, area * share, temperature);
        let (ambient, exit_temperature) = (air.pressure_pa, isentropic_exit(temperature, pressure, air));
        let slowest = 0.0;
        let this = Self {
            pressure,
            mass,
            temperature,
            volume,
            area,
            ambient,
            exit_temperature,
            slowest,
            choked,
            rate,
            throttle,
            share,
        };
        if choked { Some((this, 1.0)) } else { Some(this.opened(pressure, mass, temperature, air)) }
    }

    /// This blow-down with a throat that is not sonic, from a state of its gas on, with the state that belongs to it.
    fn opened(&self, pressure: f64, mass: f64, temperature: f64, air: &Air) -> (Self, f64) {
        let (ambient, exit_temperature) = (air.pressure_pa, isentropic_exit(temperature, pressure, air));
        let slowest = 0.9
            * match &self.throttle {
                None => end_speed(exit_temperature),
                Some(throttle) => throttle.end_of_pulse(END_IN_TEMPERATURE),
            };
        let this = Self { pressure, mass, temperature, ambient, exit_temperature, slowest, choked: false, ..*self };
        let state = match &self.throttle {
            None => (2.0 * SPECIFIC_HEAT * (temperature - this.exit_temperature(air))).sqrt(),
            Some(throttle) => throttle.exit_share(this.exit_temperature(air) / temperature),
        };
        (this, state)
    }

    /// Whether the throat is sonic.
    #[must_use]
    pub fn choked(&self) -> bool {
        self.choked
    }

    /// The unchoked blow-down that follows this one at its last state.
    #[must_use]
    pub fn unchoked(&self, state: f64, air: &Air) -> (Self, f64) {
        let Gas { mass, temperature, .. } = self.gas(state, air);
        // Exactly the critical pressure: the event has been met to rounding only.
        self.opened(air.pressure_pa / (CRITICAL_RATIO * self.share), mass, temperature, air)
    }

    /// Temperature to which the gas cools on its way to the ambient pressure, K: T0 (pa/p0)^((gamma-1)/gamma).
    ///
    /// The ambient pressure changes by a fraction of a percent during a pulse, so that the power is taken once, at the start.
    fn exit_temperature(&self, air: &Air) -> f64 {
        self.exit_temperature * pow_near_one(air.pressure_pa / self.ambient - 1.0, (GAMMA - 1.0) / GAMMA)
    }

    /// The gas at a state.
    #[must_use]
    pub fn gas(&self, state: f64, air: &Air) -> Gas {
        if self.choked {
            let r2 = 1.0 / (state * state);
            let r5 = r2 * r2 / state;
            return Gas {
                pressure: self.pressure * r5 * r2,
                mass: self.mass * r5,
                temperature: self.temperature * r2,
                exit_temperature: 0.0,
            };
        }
        let ambient_temperature = self.exit_temperature(air);
        let (temperature, exit_temperature) = match &self.throttle {
            None => (ambient_temperature + state * state.abs() / (2.0 * SPECIFIC_HEAT), ambient_temperature),
            Some(throttle) => {
                let cooling = 1.0 - state * state.abs();
                let temperature = ambient_temperature / (cooling * throttle.passage(cooling).0);
                (temperature, temperature * cooling)
            }
        };
        let share = temperature / self.temperature;
        let mass = self.mass * share * share * share.sqrt();
        Gas { pressure: self.pressure * mass / self.mass * share, mass, temperature, exit_temperature }
    }

    /// What the nozzles do at a state.
    #[must_use]
    pub fn flow(&self, state: f64, gas: &Gas, air: &Air) -> NozzleFlow {
        if self.choked {
            gas::choked_flow(gas.pressure * self.share, gas.temperature, air.pressure_pa, self.area)
        } else {
            gas::open_flow(self.exit_speed(state, gas), gas.exit_temperature, air.pressure_pa, self.area)
        }
    }

    /// Exit speed where the throat is not sonic, m/s.
    fn exit_speed(&self, state: f64, gas: &Gas) -> f64 {
        if self.throttle.is_none() { state } else { state * (2.0 * SPECIFIC_HEAT * gas.temperature).sqrt() }
    }

    /// Rate of change of the state of a vessel that climbs at a speed, 1/s or m/s2.
    ///
    /// # Equation
    /// Choked: ds/dt = (gamma-1)/(2 tau). Otherwise, from ue^2 = 2 cp (T - Te):
    /// due/dt = -cp (gamma-1) T A pa/(R Te m) - (cp/ue) dTe/dt, with dTe/dt = (gamma-1)/gamma Te (dpa/dt)/pa. Behind holes, with
    /// f = ue/sqrt(2 cp T), e = 1 - f^2 and z of [`Throttle::passage`], from p = pa (e z)^(-gamma/(gamma-1)):
    /// df/dt = -(gamma A pa sqrt(2 cp T)/(R Te m) + (dpa/dt)/(pa f)) (gamma-1)/(2 gamma)/(1/e + (dz/de)/z), Te the temperature in the exit.
    ///
    /// # Symbols
    /// tau time constant of [`gas::blowdown_time`], s; ue exit speed, m/s; T, Te temperature in vessel and exit, K; m gas mass, kg; A effective area,
    /// m2; pa ambient pressure, Pa.
    ///
    /// # Range
    /// Isentropic, fixed volume.
    ///
    /// # Source
    /// Derived from mass and energy balance of the vessel; the choked part is the textbook closed form (`naca1135`).
    ///
    /// # Example
    /// ```
    /// use holdwater_physics::{air::Atmosphere, blowdown::BlowDown};
    /// let atmosphere = Atmosphere::over_site(0.0, 288.15);
    /// let air = atmosphere.at(0.0);
    /// let (pulse, s) = BlowDown::start(8e5, 0.02, 2e-3, 6e-5, &air).unwrap();
    /// let gas = pulse.gas(s, &air);
    /// assert!(pulse.rate(s, &gas, &air, &atmosphere, 0.0) > 0.0);
    /// ```
    #[must_use]
    pub fn rate(&self, state: f64, gas: &Gas, air: &Air, atmosphere: &Atmosphere, climb: f64) -> f64 {
        if self.choked {
            return self.rate;
        }
        let specific_flow = self.area * air.pressure_pa / (GAS_CONSTANT_AIR * gas.exit_temperature);
        let ambient_rate = climb * atmosphere.pressure_gradient(air) / air.pressure_pa;
        if let Some(throttle) = &self.throttle {
            let emptying = GAMMA / gas.mass * specific_flow * (2.0 * SPECIFIC_HEAT * gas.temperature).sqrt();
            let cooling = 1.0 - state * state.abs();
            let slope = 1.0 / cooling + throttle.passage(cooling).1;
            return -(emptying + ambient_rate / state.max(self.slowest)) * (GAMMA - 1.0) / (2.0 * GAMMA * slope);
        }
        let cooling = (GAMMA - 1.0) * gas.temperature / gas.mass * specific_flow;
        let exit_rate = (GAMMA - 1.0) / GAMMA * gas.exit_temperature * ambient_rate;
        // The second term keeps the speed from nought while the vessel climbs; the end of the pulse comes long before it counts.
        -SPECIFIC_HEAT * (cooling + exit_rate / state.max(self.slowest))
    }

    /// Positive while this part of the blow-down lasts: until the throat is no longer sonic, or until the pressure is ambient.
    #[must_use]
    pub fn remaining(&self, state: f64, gas: &Gas, air: &Air) -> f64 {
        if self.choked {
            CRITICAL_RATIO * (gas.pressure * self.share) / air.pressure_pa - 1.0
        } else if self.throttle.is_none() {
            state / end_speed(gas.exit_temperature) - 1.0
        } else {
            // The same in terms of the temperature in the vessel; the sign is that of the state.
            let over = gas.temperature / self.exit_temperature(air) - 1.0;
            over.signum() * (over.abs() / END_IN_TEMPERATURE).sqrt() - 1.0
        }
    }

    /// Three quarters of the time to standstill at the present rate, s: towards the end the equations bend ever more sharply (1/ue), which
    /// long steps would pass without noticing.
    #[must_use]
    pub fn time_left(&self, state: f64, rate: f64) -> f64 {
        if self.choked || rate >= 0.0 { f64::INFINITY } else { 0.75 * state / -rate }
    }

    /// Size of the state, for the integrator.
    #[must_use]
    pub fn scale(&self) -> f64 {
        if self.choked {
            1.0
        } else if self.throttle.is_none() {
            100.0
        } else {
            0.13
        }
    }

    /// Time in which the state moves by much, s.
    #[must_use]
    pub fn time_scale(&self) -> f64 {
        1.0 / self.rate
    }
}
