//! A restrictor in its vessel: what does not change in flight, what it takes from the pressure, and where returning water lands on it.

use super::launch::{Launch, WaterMode};
use crate::column::Column;
use crate::constants::GAS_CONSTANT_AIR;
use crate::real::pow;
use crate::restrictor::leak::Leak;
use crate::restrictor::series::Throttle;
use crate::restrictor::{hold, pressure_loss};
use crate::rocket::{Restrictor, Site, Stage, circle_area};
use crate::water::Water;

/// Pressure of one standard atmosphere, Pa (ISO 2533).
const ONE_ATMOSPHERE: f64 = 101_325.0;

/// Water that ends as near to the plate as this, m, ends at it.
const FLUSH: f64 = 1e-9;

/// A restrictor in its vessel as it was filled.
#[derive(Clone, Copy, Debug)]
pub struct Plate {
    /// Height above the nozzle end, m.
    pub height: f64,
    /// Water below it at filling, m3.
    pub below: f64,
    /// Water that stands on it at filling, m3.
    pub above: f64,
    /// Gas space between the water and it at filling, m3.
    pub gap: f64,
    /// Most water that can leak up through it, m3: all that is below, or as much as there is gas above to come down.
    pub most_leaked: f64,
    /// Its holes while the stack slows.
    pub leak: Leak,
    /// Share of it that is trusted.
    pub trusted_share: f64,
    /// What it takes from the pressure.
    pub holes: Holes,
}

impl Plate {
    /// The plate of a stage with the gas given at filling.
    #[must_use]
    pub fn new(plate: &Restrictor, stage: &Stage, site: &Site, water: &Water, ambient_pa: f64) -> Self {
        let flush = (plate.height_m - stage.standing_height()).abs() < FLUSH;
        let room_below = if flush { stage.water_m3 } else { stage.bore_area() * plate.height_m };
        let below = stage.water_m3.min(room_below);
        let above = stage.water_m3 - below;
        let gas = GasAtFilling {
            pressure: ambient_pa + stage.fill_gauge_pa,
            ambient: ambient_pa,
            temperature: site.air_temperature_k,
        };
        let at_one_atmosphere = ONE_ATMOSPHERE / (GAS_CONSTANT_AIR * gas.temperature);
        Self {
            height: plate.height_m,
            below,
            above,
            gap: room_below - below,
            most_leaked: below.min(stage.volume_m3 - room_below - above).max(0.0),
            leak: Leak::new(plate.holes, plate.hole_m, plate.trusted_share, water, gas.density(), at_one_atmosphere),
            trusted_share: plate.trusted_share,
            holes: Holes::new(plate, stage, water, &gas),
        }
    }
}

/// The gas of a stage at filling.
struct GasAtFilling {
    pressure: f64,
    ambient: f64,
    temperature: f64,
}

impl GasAtFilling {
    fn density(&self) -> f64 {
        self.pressure / (GAS_CONSTANT_AIR * self.temperature)
    }
}

/// What the holes of a plate take from the pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Holes {
    /// Pressure taken by gas, per density of the gas and square of the jet's speed.
    pub gas_loss: f64,
    /// The same for water.
    pub water_loss: f64,
    /// Holes and nozzle in series for the gas pulse.
    pub throttle: Throttle,
}

impl Holes {
    fn new(plate: &Restrictor, stage: &Stage, water: &Water, gas: &GasAtFilling) -> Self {
        let open_area = f64::from(plate.holes) * circle_area(plate.hole_m);
        let bore_area = stage.bore_area();
        let beta = pressure_loss::beta(open_area, bore_area);
        let jet = Column::of(stage, water.density).steady_speed(gas.pressure - gas.ambient);
        let flow = stage.nozzle_area() * jet;
        let discharge = |density: f64, viscosity: f64| {
            let reynolds = pressure_loss::reynolds(density, flow, viscosity, stage.bore_m);
            let standard = || pressure_loss::reader_harris_gallagher(beta, reynolds, stage.bore_m);
            plate.discharge.unwrap_or_else(standard)
        };
        let of_gas = discharge(gas.density(), pressure_loss::air_viscosity(gas.temperature));
        let of_water = discharge(water.density, water.viscosity);
        let per_jet = 0.5 * stage.nozzle_area() * stage.nozzle_area();
        Self {
            gas_loss: per_jet * pressure_loss::resistance(of_gas, open_area, bore_area),
            water_loss: per_jet * pressure_loss::resistance(of_water, open_area, bore_area),
            throttle: Throttle::new(of_gas * open_area, stage.discharge * stage.nozzle_area()),
        }
    }
}

/// What passes a plate while water leaves the nozzle, ready for the column equation.
#[derive(Clone, Copy, Debug)]
pub enum Through {
    /// There is no plate.
    Nothing,
    /// Gas: the number is the loss times the mass of gas, which its space turns into a density.
    Gas(f64),
    /// Water that still stands on the plate: the number is the loss times its density.
    Water(f64),
}

impl Through {
    /// What passes the holes, if there are any.
    #[must_use]
    pub fn of(holes: Option<&Holes>, water_on_plate: bool, gas_kg: f64, density: f64) -> Self {
        match holes {
            None => Self::Nothing,
            Some(holes) if water_on_plate => Self::Water(holes.water_loss * density),
            Some(holes) => Self::Gas(holes.gas_loss * gas_kg),
        }
    }

    /// Pressure it takes per square of the jet's speed at a gas space, kg/m3.
    #[must_use]
    pub fn loss(&self, gas_volume: f64) -> f64 {
        match *self {
            Self::Nothing => 0.0,
            Self::Gas(gas) => gas / gas_volume,
            Self::Water(water) => water,
        }
    }

    /// Rate of change of that with the water in the vessel, kg/m6: more water leaves the gas less space.
    #[must_use]
    pub fn loss_per_water(&self, gas_volume: f64) -> f64 {
        match *self {
            Self::Gas(gas) => gas / (gas_volume * gas_volume),
            Self::Nothing | Self::Water(_) => 0.0,
        }
    }
}

/// Where returning water lands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Ground {
    /// On the seated water.
    Pool,
    /// On a plate, or on the water that stands on it.
    Plate {
        /// Height of the plate over the nozzle end, m.
        height: f64,
        /// Seated water below it, m3; more than this stands on it.
        below: f64,
    },
}

impl Ground {
    /// Height of what the parcel lands on, m.
    #[must_use]
    pub fn level(&self, column: &Column, seated: f64) -> f64 {
        match *self {
            Self::Pool => column.height(seated),
            Self::Plate { height, below } => height + column.height((seated - below).max(0.0)),
        }
    }

    /// Seated water that passes the nozzle without passing a plate first, m3: all of it below a plate or without one.
    #[must_use]
    pub fn below(&self) -> f64 {
        match *self {
            Self::Pool => f64::INFINITY,
            Self::Plate { below, .. } => below,
        }
    }

    /// The same ground when only so much seated water is below.
    #[must_use]
    pub fn with_below(self, most: f64) -> Self {
        match self {
            Self::Pool => Self::Pool,
            Self::Plate { height, below } => Self::Plate { height, below: below.min(most) },
        }
    }
}

/// What can be said about a plate without a delay.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlateSummary {
    /// Bond number of one hole at the deceleration just after burnout.
    pub bond: f64,
    /// Bond number at which an ideal hole of such a plate lets go.
    pub limit: f64,
    /// Share of that limit that is trusted.
    pub trusted_share: f64,
    /// Share of the holes that is open at that deceleration, from 0 (holds) to 1 (leaks freely).
    pub open_share: f64,
    /// Gas space between water and plate at filling, m3.
    pub gap_m3: f64,
    /// Water that stands on the plate at filling, m3.
    pub above_m3: f64,
    /// Pressure difference over the plate once the sustainer's jet has settled, at filling pressure on the site, Pa.
    pub load_at_jet_pa: f64,
    /// The same at the start of the gas pulse, if no gas is lost before, Pa.
    pub load_at_gas_pa: f64,
}

impl Launch {
    /// What can be said about the restrictor; `None` without one, the Bond number nought for a single stage.
    #[must_use]
    pub fn plate(&self) -> Option<PlateSummary> {
        let holes = self.rocket().restrictor.as_ref()?.holes;
        let sustainer = self.sustainer();
        let plate = sustainer.plate.as_ref()?;
        let burnout = self.coast(WaterMode::Free).and_then(|coast| coast.at(0.0));
        let over_limit = burnout.map_or(0.0, |state| plate.leak.bond_over_limit(state.deceleration.max(0.0)));
        let limit = hold::limit(holes);
        let (vehicle, filling) = (&sustainer.vehicle, &sustainer.filling);
        let ambient = vehicle.air.at(0.0).pressure_pa;
        let through = Through::of(Some(&plate.holes), plate.above > 0.0, filling.gas_kg, vehicle.column.density);
        let loss = through.loss(vehicle.volume - filling.water);
        let share_of_plate = loss / (loss + vehicle.column.density * vehicle.column.exit_loss());
        let expanded = (vehicle.volume - filling.water) / vehicle.volume;
        let after_water = filling.pressure * pow(expanded, vehicle.exponent);
        Some(PlateSummary {
            bond: limit * over_limit,
            limit,
            trusted_share: plate.trusted_share,
            open_share: hold::open_share(over_limit, plate.trusted_share),
            gap_m3: plate.gap,
            above_m3: plate.above,
            load_at_jet_pa: (filling.pressure - ambient).max(0.0) * share_of_plate,
            load_at_gas_pa: after_water * (1.0 - plate.holes.throttle.share(after_water / ambient)),
        })
    }
}
