//! Energy that pressure stores, and how far to stand.
//!
//! The distance is for blast alone. Fragments, a flying cap, a rocket that leaves its pad and the noise are not covered, and they are what
//! hurts people at these sizes. Distances are the least, never leave, and stand below local law, range rules and licensed practice.

use super::problem::{PartProblem, Quantity};
use crate::constants::GAMMA;
use crate::real::pow;

/// Atmospheric pressure that the stand-off rule takes, Pa.
pub const RULE_AMBIENT_PA: f64 = 101_000.0;

/// Energy of a kilogram of TNT in the stand-off rule, J/kg (PCC-2, equation II-3, as quoted by a second hand).
pub const TNT_J_PER_KG: f64 = 4_266_920.0;

/// Energy up to which the stand-off rule is used here, J.
pub const RULE_LIMIT_J: f64 = 135.5e6;

/// Least distance of the rule, m.
pub const FLOOR_M: f64 = 30.0;

/// Scaled distance of the rule, m/kg^(1/3).
pub const SCALED_DISTANCE: f64 = 20.0;

/// Bulk modulus of water, Pa: the least, that at 0 C, so that its energy is not understated (from memory; 2.18e9 at 20 C).
pub const WATER_BULK_MODULUS_PA: f64 = 1.96e9;

/// Energy that gas gives up when it expands to the ambient pressure, J.
///
/// # Equation
/// E = p V/(gamma - 1) [1 - (pa/p)^((gamma - 1)/gamma)]
///
/// # Symbols
/// p, pa absolute pressure in the vessel and outside, Pa; V gas volume, m3.
///
/// # Range
/// Ideal gas, isentropic, p > pa; nought below.
///
/// # Source
/// Isentropic expansion, as in PCC-2 Article 501 (`pcc2_501`) with its exponents rounded.
///
/// # Example
/// ```
/// let energy = holdwater_physics::vessel::energy::expansion(8e5, 2e-3, 101_325.0);
/// assert!((energy - 1783.501).abs() < 1e-3);
/// ```
#[must_use]
pub fn expansion(pressure_pa: f64, volume_m3: f64, ambient_pa: f64) -> f64 {
    if pressure_pa > ambient_pa {
        let left = pow(ambient_pa / pressure_pa, (GAMMA - 1.0) / GAMMA);
        pressure_pa * volume_m3 / (GAMMA - 1.0) * (1.0 - left)
    } else {
        0.0
    }
}

/// Energy of compressed air as the stand-off rule reckons it, J.
///
/// # Equation
/// E = 2.5 P V [1 - (101000/P)^0.286]
///
/// # Symbols
/// P absolute pressure, Pa; V gas volume, m3.
///
/// # Range
/// Air or nitrogen, P above 101 000 Pa; nought below.
///
/// # Source
/// PCC-2, Article 501, appendix II (`pcc2_501`), as quoted by a second hand; the standard itself was not seen.
///
/// # Example
/// ```
/// let energy = holdwater_physics::vessel::energy::rule_energy(901_000.0, 2e-3);
/// assert!((energy - 2095.764).abs() < 1e-3);
/// ```
#[must_use]
pub fn rule_energy(pressure_pa: f64, volume_m3: f64) -> f64 {
    if pressure_pa > RULE_AMBIENT_PA {
        2.5 * pressure_pa * volume_m3 * (1.0 - pow(RULE_AMBIENT_PA / pressure_pa, 0.286))
    } else {
        0.0
    }
}

/// Mass of TNT with the same energy, kg.
///
/// # Equation
/// m = E/4266920
///
/// # Symbols
/// E energy, J.
///
/// # Range
/// A comparison of energy, not of effect: gas pushes, TNT shatters.
///
/// # Source
/// PCC-2, Article 501, equation II-3 (`pcc2_501`), as quoted by a second hand.
///
/// # Example
/// ```
/// assert!((holdwater_physics::vessel::energy::tnt(18_282_991.0) - 4.284822).abs() < 1e-6);
/// ```
#[must_use]
pub fn tnt(energy_j: f64) -> f64 {
    energy_j / TNT_J_PER_KG
}

/// Energy of water under pressure, J.
///
/// # Equation
/// E = p^2 V/(2 K)
///
/// # Symbols
/// p gauge pressure, Pa; V volume of water, m3; K bulk modulus, Pa.
///
/// # Range
/// Pressures far below K.
///
/// # Source
/// Linear elasticity.
///
/// # Example
/// ```
/// // Two litres at 10 bar: half a joule.
/// let energy = holdwater_physics::vessel::energy::water(1e6, 2e-3);
/// assert!((energy - 0.5102).abs() < 1e-4);
/// ```
#[must_use]
pub fn water(gauge_pa: f64, volume_m3: f64) -> f64 {
    gauge_pa * gauge_pa * volume_m3 / (2.0 * WATER_BULK_MODULUS_PA)
}

/// The wall of a vessel, as a spring.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wall {
    /// Bore, m.
    pub bore_m: f64,
    /// Wall, m.
    pub wall_m: f64,
    /// Modulus, Pa; a low one gives more energy.
    pub modulus_pa: f64,
    /// Poisson's ratio.
    pub poisson: f64,
}

/// Energy in the stretched wall of a thin closed cylinder, J.
///
/// # Equation
/// E = p^2 V r/(t Ew) (5/4 - nu)
///
/// # Symbols
/// p gauge pressure, Ew modulus, Pa; V inside volume, m3; r bore radius, t wall, m; nu Poisson's ratio.
///
/// # Range
/// Thin, elastic, ends left out.
///
/// # Source
/// Linear elasticity: (sh^2 + sa^2 - 2 nu sh sa)/(2 Ew) in each cubic metre of wall, sh = p r/t, sa = sh/2.
///
/// # Example
/// ```
/// use holdwater_physics::vessel::energy::{Wall, wall};
/// let bottle = Wall { bore_m: 0.088, wall_m: 0.3e-3, modulus_pa: 3e9, poisson: 0.37 };
/// assert!((wall(1e6, 2e-3, &bottle) - 86.04).abs() < 0.01);
/// ```
#[must_use]
pub fn wall(gauge_pa: f64, volume_m3: f64, wall: &Wall) -> f64 {
    let stretch = 0.5 * wall.bore_m / (wall.wall_m * wall.modulus_pa);
    gauge_pa * gauge_pa * volume_m3 * stretch * (1.25 - wall.poisson)
}

/// How far to stand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum StandOff {
    /// Within the rule.
    Distance {
        /// The greater of floor and blast distance, m.
        distance_m: f64,
        /// The blast distance alone, m.
        blast_m: f64,
        /// Whether the floor governs.
        by_floor: bool,
    },
    /// More energy than the rule is used for here: no distance is given.
    NotCovered {
        /// Energy, J.
        energy_j: f64,
        /// Energy up to which the rule is used, J.
        limit_j: f64,
    },
}

/// How far to stand from a stored energy, by blast alone.
///
/// # Equation
/// R = max(30, 20 (2 m)^(1/3)), m = E/4266920
///
/// # Symbols
/// E energy, J; m mass of TNT, kg; R distance, m.
///
/// # Range
/// E up to 135.5 MJ. Beyond it the rule has a higher floor and then none, which is not used here: not covered. Blast only: fragments are not covered. For bottles the floor governs.
///
/// # Source
/// PCC-2, Article 501, appendix III (`pcc2_501`), as quoted by a second hand; that fragments are left out, from memory.
///
/// # Example
/// ```
/// use holdwater_physics::vessel::energy::{StandOff, stand_off};
/// let StandOff::Distance { distance_m, .. } = stand_off(18_282_991.0) else { panic!() };
/// assert!((distance_m - 40.9277).abs() < 1e-4);
/// ```
#[must_use]
pub fn stand_off(energy_j: f64) -> StandOff {
    // Written so that what is not a number is not covered either.
    if !(0.0..=RULE_LIMIT_J).contains(&energy_j) {
        return StandOff::NotCovered { energy_j, limit_j: RULE_LIMIT_J };
    }
    let mass = 2.0 * tnt(energy_j);
    let blast_m = if mass > 0.0 { SCALED_DISTANCE * pow(mass, 1.0 / 3.0) } else { 0.0 };
    StandOff::Distance { distance_m: blast_m.max(FLOOR_M), blast_m, by_floor: blast_m <= FLOOR_M }
}

/// A vessel, or all equal vessels of a stage together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vessel {
    /// Gauge pressure, Pa.
    pub gauge_pa: f64,
    /// Inside volume, m3.
    pub volume_m3: f64,
    /// Gas in it, m3; the whole volume when it is filled without water.
    pub gas_m3: f64,
    /// Its wall, if known.
    pub wall: Option<Wall>,
}

/// What vessels store together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stored {
    /// Isentropic expansion of the gas to the ambient pressure, J.
    pub gas_j: f64,
    /// The energy the stand-off is reckoned with: the rule's, or the former where that is greater (high sites), J.
    pub rule_j: f64,
    /// TNT with that energy, kg.
    pub tnt_kg: f64,
    /// How far to stand.
    pub stand_off: StandOff,
    /// The same vessels full of water at the same pressure: the water and the air trapped in it, J.
    pub water_filled_j: f64,
    /// Stretched walls, the same with water and with gas, J; walls that are not known count as nought.
    pub walls_j: f64,
}

/// What vessels store together, summed: both stages of a stack.
///
/// `air_share` is the share of the volume that stays air when they are filled with water for a proof.
pub fn stored(vessels: &[Vessel], ambient_pa: f64, air_share: f64) -> Result<Stored, PartProblem> {
    Quantity::Ambient.check(ambient_pa)?;
    Quantity::AirShare.check(air_share)?;
    let (mut gas_j, mut rule_j, mut water_filled_j, mut walls_j) = (0.0, 0.0, 0.0, 0.0);
    for vessel in vessels {
        check(vessel)?;
        let (gauge, volume) = (vessel.gauge_pa, vessel.volume_m3);
        let gas = expansion(gauge + ambient_pa, vessel.gas_m3, ambient_pa);
        gas_j += gas;
        rule_j += rule_energy(gauge + RULE_AMBIENT_PA, vessel.gas_m3).max(gas);
        let air = air_share * volume;
        water_filled_j += water(gauge, volume - air) + expansion(gauge + ambient_pa, air, ambient_pa);
        walls_j += vessel.wall.map_or(0.0, |known| wall(gauge, volume, &known));
    }
    Ok(Stored { gas_j, rule_j, tnt_kg: tnt(rule_j), stand_off: stand_off(rule_j), water_filled_j, walls_j })
}

fn check(vessel: &Vessel) -> Result<(), PartProblem> {
    Quantity::Pressure.check(vessel.gauge_pa)?;
    Quantity::Volume.check(vessel.volume_m3)?;
    Quantity::Volume.check(vessel.gas_m3)?;
    if vessel.gas_m3 > vessel.volume_m3 {
        return Err(PartProblem::OutOfRange {
            what: Quantity::Volume,
            value: vessel.gas_m3,
            low: 0.0,
            high: vessel.volume_m3,
        });
    }
    if let Some(wall) = &vessel.wall {
        Quantity::Bore.check(wall.bore_m)?;
        Quantity::Wall.check(wall.wall_m)?;
        Quantity::Modulus.check(wall.modulus_pa)?;
        Quantity::Poisson.check(wall.poisson)?;
    }
    Ok(())
}
