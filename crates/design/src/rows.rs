//! The table of inputs: the only place where a fact about an input stands.
//!
//! The order of rows is the order of keys in a link. A default, a key or a unit may not change within a
//! version of the link, since links leave defaults out: such a change needs a new version.

use crate::part::Part;
use crate::table::Start::{LeftOut, Value};
use crate::table::Tolerance::{Absolute, Exact, Share};
use crate::table::{Facts, Row, inputs};
use crate::unit::Unit;

inputs! {
    Stages {
        key: "stages", label: "Stages", part: Site, unit: Piece,
        range: 1.0 to 2.0,
        start: Value(2.0), tolerance: Exact, step: 1.0,
        help: "With 1 the sustainer flies from the pad alone. With 2 a booster carries it up \
               first.",
    }
    SiteElevation {
        key: "site", label: "Site elevation", part: Site, unit: Metre,
        range: -430.0 to 5000.0,
        start: Value(30.0), tolerance: Exact, step: 10.0,
        help: "Height of the pad above sea level. It sets the density and the pressure of the \
               air.",
    }
    AirTemperature {
        key: "air", label: "Air temperature", part: Site, unit: Celsius,
        range: -30.0 to 50.0,
        start: Value(18.0), tolerance: Absolute(2.0), step: 1.0,
        help: "Air temperature at the site. The gas in the vessels is taken to be this warm when \
               you launch.",
    }
    WaterTemperature {
        key: "water", label: "Water temperature", part: Site, unit: Celsius,
        range: 0.0 to 60.0,
        start: Value(16.0), tolerance: Absolute(2.0), step: 1.0,
        help: "Temperature of the water you fill. It sets the density and the surface tension of \
               clean water.",
    }
    SurfaceTension {
        key: "tension", label: "Surface tension", part: Site, unit: MillinewtonPerMetre,
        range: 15.0 to 80.0,
        start: LeftOut("clean water at its temperature"), tolerance: Absolute(3.0), step: 1.0,
        help: "Leave this empty for clean water. Soap or dye lowers it, and a restrictor then \
               holds less.",
    }
    ExpansionExponent {
        key: "expand", label: "Expansion exponent", part: Site, unit: One,
        range: 1.0 to 1.4,
        start: Value(1.3), tolerance: Absolute(0.05), step: 0.01,
        help: "How the gas cools while it pushes the water out. 1 keeps its temperature and 1.4 \
               takes up no heat at all.",
    }
    BoosterVolume {
        key: "b.vol", label: "Volume", part: BoosterVessel, unit: Litre,
        range: 0.1 to 200.0,
        start: Value(7.5), tolerance: Share(0.01), step: 0.1,
        help: "Internal volume of all vessels of the booster together. Weigh them empty and \
               brim-full to find it.",
    }
    BoosterBore {
        key: "b.bore", label: "Vessel bore", part: BoosterVessel, unit: Millimetre,
        range: 15.0 to 500.0,
        start: Value(105.0), tolerance: Share(0.005), step: 1.0,
        help: "Internal diameter of each vessel of the booster.",
    }
    BoosterNozzle {
        key: "b.nozzle", label: "Nozzle throat", part: BoosterNozzle, unit: Millimetre,
        range: 2.0 to 120.0,
        start: Value(21.5), tolerance: Share(0.005), step: 0.5,
        help: "Diameter of the narrowest place of each nozzle of the booster.",
    }
    BoosterCount {
        key: "b.count", label: "Vessels in parallel", part: BoosterVessel, unit: Piece,
        range: 1.0 to 12.0,
        start: Value(1.0), tolerance: Exact, step: 1.0,
        help: "Number of equal vessels, each with its own nozzle. They share volume and water \
               equally.",
    }
    BoosterDischarge {
        key: "b.cd", label: "Discharge coefficient", part: BoosterNozzle, unit: One,
        range: 0.5 to 1.0,
        start: Value(0.97), tolerance: Absolute(0.01), step: 0.01,
        help: "Share of the ideal flow that the nozzle lets through. A well rounded one reaches \
               0.97, a sharp hole about 0.6.",
    }
    BoosterWater {
        key: "b.water", label: "Water", part: BoosterWater, unit: Litre,
        range: 0.0 to 150.0,
        start: Value(2.4), tolerance: Share(0.02), step: 0.1,
        help: "Water in all vessels of the booster together.",
    }
    BoosterFill {
        key: "b.fill", label: "Launch pressure", part: BoosterWater, unit: Bar,
        range: 0.5 to 150.0,
        start: Value(10.0), tolerance: Absolute(0.2), step: 0.5,
        help: "Pressure above the air outside when you launch, as your gauge shows it. Fill from \
               a distance.",
    }
    BoosterDry {
        key: "b.dry", label: "Dry mass", part: BoosterBody, unit: Kilogram,
        range: 0.02 to 100.0,
        start: Value(0.42), tolerance: Share(0.02), step: 0.01,
        help: "Mass of the booster without water and gas, with fins, coupler and recovery.",
    }
    BoosterDrag {
        key: "b.drag", label: "Drag coefficient", part: BoosterBody, unit: One,
        range: 0.1 to 2.0,
        start: Value(0.45), tolerance: Share(0.1), step: 0.01,
        help: "Drag coefficient of the whole stack while the booster is on it.",
    }
    BoosterDiameter {
        key: "b.dia", label: "Reference diameter", part: BoosterBody, unit: Millimetre,
        range: 10.0 to 600.0,
        start: Value(110.0), tolerance: Share(0.005), step: 1.0,
        help: "Diameter of the circle to which the drag coefficient of the stack refers, most \
               often the widest tube.",
    }
    PadTubeLength {
        key: "b.tube", label: "Tube length", part: PadTube, unit: Millimetre,
        range: 0.0 to 3000.0,
        start: Value(0.0), tolerance: Share(0.01), step: 10.0,
        help: "Length of the launch tube that stands inside the vessel on the pad. 0 means no \
               tube.",
    }
    PadTubeOuter {
        key: "b.tubeod", label: "Tube outer diameter", part: PadTube, unit: Millimetre,
        range: 2.0 to 120.0,
        start: Value(20.5), tolerance: Share(0.005), step: 0.5,
        help: "Outer diameter of the launch tube on the pad. It must pass the nozzle of the stage \
               that stands there.",
    }
    SustainerVolume {
        key: "s.vol", label: "Volume", part: SustainerVessel, unit: Litre,
        range: 0.1 to 200.0,
        start: Value(2.0), tolerance: Share(0.01), step: 0.1,
        help: "Internal volume of the vessel of the sustainer. Weigh it empty and brim-full to \
               find it.",
    }
    SustainerBore {
        key: "s.bore", label: "Vessel bore", part: SustainerVessel, unit: Millimetre,
        range: 15.0 to 500.0,
        start: Value(88.0), tolerance: Share(0.005), step: 1.0,
        help: "Internal diameter of the vessel of the sustainer. The wider it is, the sooner the \
               water climbs while you coast.",
    }
    SustainerNozzle {
        key: "s.nozzle", label: "Nozzle throat", part: SustainerNozzle, unit: Millimetre,
        range: 2.0 to 120.0,
        start: Value(9.0), tolerance: Share(0.005), step: 0.5,
        help: "Diameter of the narrowest place of the nozzle of the sustainer.",
    }
    SustainerDischarge {
        key: "s.cd", label: "Discharge coefficient", part: SustainerNozzle, unit: One,
        range: 0.5 to 1.0,
        start: Value(0.97), tolerance: Absolute(0.01), step: 0.01,
        help: "Share of the ideal flow that the nozzle lets through. A well rounded one reaches \
               0.97, a sharp hole about 0.6.",
    }
    SustainerWater {
        key: "s.water", label: "Water", part: SustainerWater, unit: Litre,
        range: 0.0 to 150.0,
        start: Value(0.5), tolerance: Share(0.02), step: 0.05,
        help: "Water in the sustainer.",
    }
    SustainerFill {
        key: "s.fill", label: "Launch pressure", part: SustainerWater, unit: Bar,
        range: 0.5 to 150.0,
        start: Value(10.0), tolerance: Absolute(0.2), step: 0.5,
        help: "Pressure above the air outside when you launch, as your gauge shows it. Fill from \
               a distance.",
    }
    SustainerDry {
        key: "s.dry", label: "Dry mass", part: SustainerBody, unit: Kilogram,
        range: 0.02 to 100.0,
        start: Value(0.22), tolerance: Share(0.02), step: 0.01,
        help: "Mass of the sustainer without water and gas, with fins, nose and recovery, but \
               without restrictor.",
    }
    SustainerDrag {
        key: "s.drag", label: "Drag coefficient", part: SustainerBody, unit: One,
        range: 0.1 to 2.0,
        start: Value(0.38), tolerance: Share(0.1), step: 0.01,
        help: "Drag coefficient of the sustainer flying alone.",
    }
    SustainerDiameter {
        key: "s.dia", label: "Reference diameter", part: SustainerBody, unit: Millimetre,
        range: 10.0 to 600.0,
        start: Value(92.0), tolerance: Share(0.005), step: 1.0,
        help: "Diameter of the circle to which the drag coefficient of the sustainer refers, most \
               often its widest tube.",
    }
    StagingTubeLength {
        key: "s.tube", label: "Tube length", part: StagingTube, unit: Millimetre,
        range: 0.0 to 3000.0,
        start: Value(0.0), tolerance: Share(0.01), step: 10.0,
        help: "Length of the tube on top of the booster that stands inside the sustainer. 0 means \
               no tube.",
    }
    StagingTubeOuter {
        key: "s.tubeod", label: "Tube outer diameter", part: StagingTube, unit: Millimetre,
        range: 2.0 to 120.0,
        start: Value(8.5), tolerance: Share(0.005), step: 0.5,
        help: "Outer diameter of the tube between the stages. It must pass the nozzle of the \
               sustainer.",
    }
    StagingTubeWall {
        key: "s.tubewall", label: "Tube wall", part: StagingTube, unit: Millimetre,
        range: 0.1 to 20.0,
        start: Value(1.0), tolerance: Share(0.05), step: 0.1,
        help: "Wall thickness of the tube between the stages. With the length it sets what the \
               tube adds to the booster's mass.",
    }
    Delay {
        key: "delay", label: "Staging delay", part: Timer, unit: Second,
        range: 0.0 to 15.0,
        start: Value(1.0), tolerance: Absolute(0.05), step: 0.05,
        help: "Coast between the end of the booster's thrust and the release of the sustainer.",
    }
    Disturbance {
        key: "disturb", label: "Ripple at burnout", part: SustainerWater, unit: Millimetre,
        range: 0.01 to 20.0,
        start: Value(1.0), tolerance: Share(0.5), step: 0.1,
        help: "Height of the ripple left on the sustainer's water at the end of thrust. Few \
               people know it, so see what twice as much does.",
    }
    RestrictorBore {
        key: "r.bore", label: "Hole bore", part: Restrictor, unit: Millimetre,
        range: 0.0 to 500.0,
        start: Value(0.0), tolerance: Absolute(0.1), step: 0.5,
        help: "Diameter of each hole of the restrictor. 0 means that none is fitted.",
    }
    RestrictorHoles {
        key: "r.holes", label: "Holes", part: Restrictor, unit: Piece,
        range: 1.0 to 2000.0,
        start: Value(1.0), tolerance: Exact, step: 1.0,
        help: "Number of equal holes in the restrictor.",
    }
    RestrictorHeight {
        key: "r.height", label: "Height above nozzle end", part: Restrictor, unit: Millimetre,
        range: 0.0 to 5000.0,
        start: Value(85.0), tolerance: Absolute(1.0), step: 5.0,
        help: "How high the restrictor sits above the nozzle end of the vessel. Fill the water \
               right up to it, since a gap under it costs height.",
    }
    RestrictorDischarge {
        key: "r.cd", label: "Hole discharge coefficient", part: Restrictor, unit: One,
        range: 0.3 to 1.0,
        start: LeftOut("the standard orifice relation"), tolerance: Share(0.05), step: 0.01,
        help: "Share of the ideal flow that the holes let through. Leave this empty unless you \
               measured it.",
    }
    RestrictorShare {
        key: "r.knock", label: "Trusted share of the limit", part: Restrictor, unit: One,
        range: 0.05 to 1.0,
        start: Value(0.5), tolerance: Exact, step: 0.05,
        help: "Share of the ideal surface-tension limit that you trust. Knocks, dirt and slanted \
               holes take the rest.",
    }
    RestrictorMass {
        key: "r.mass", label: "Restrictor mass", part: Restrictor, unit: Gram,
        range: 0.0 to 2000.0,
        start: Value(12.0), tolerance: Share(0.05), step: 1.0,
        help: "Mass that the restrictor adds to the sustainer.",
    }
    TubeBore {
        key: "t.bore", label: "Bore of the small tube", part: SmallTube, unit: Millimetre,
        range: 5.0 to 200.0,
        start: Value(26.0), tolerance: Share(0.005), step: 1.0,
        help: "Internal diameter of the clear tube in which you try restrictors.",
    }
    TubeHole {
        key: "t.hole", label: "First hole tried", part: SmallTube, unit: Millimetre,
        range: 0.5 to 200.0,
        start: Value(12.2), tolerance: Absolute(0.1), step: 0.1,
        help: "Diameter of the hole in the first plate you tried in the small tube.",
    }
    TubeOtherHole {
        key: "t.other", label: "Second hole tried", part: SmallTube, unit: Millimetre,
        range: 0.5 to 200.0,
        start: Value(17.4), tolerance: Absolute(0.1), step: 0.1,
        help: "Diameter of the hole in the second plate you tried in the small tube.",
    }
    TubeDeceleration {
        key: "t.decel", label: "Slowing in the test, in g", part: SmallTube, unit: One,
        range: 0.1 to 20.0,
        start: Value(1.5), tolerance: Share(0.1), step: 0.1,
        help: "How hard the small tube slowed: drag over mass of the rocket that flew it, in \
               multiples of 9.81 m/s2. 1 for a tube turned upside down on the bench.",
    }
    BottleBore {
        key: "t.bottle", label: "Bore of the bottle", part: Bottle, unit: Millimetre,
        range: 15.0 to 500.0,
        start: Value(88.0), tolerance: Share(0.005), step: 1.0,
        help: "Internal diameter of the bottle you turn over above the sink.",
    }
    BottleDepth {
        key: "t.depth", label: "Water in the bottle", part: Bottle, unit: Millimetre,
        range: 10.0 to 2000.0,
        start: Value(200.0), tolerance: Absolute(2.0), step: 10.0,
        help: "Depth of the water in that bottle when you turn it over.",
    }
    Warmth {
        key: "warm", label: "Parts warmer than the air", part: Vessels, unit: Kelvin,
        range: 0.0 to 60.0,
        start: Value(15.0), tolerance: Absolute(5.0), step: 1.0,
        help: "How much warmer than the air the parts get in the sun. PET at 50 \u{b0}C has little more \
               than half its strength.",
    }
    YieldFactor {
        key: "f.yield", label: "Factor on yield", part: Vessels, unit: One,
        range: 1.0 to 20.0,
        start: Value(2.0), tolerance: Exact, step: 0.1,
        help: "Safety factor on the yield strength of a metal, which warns by giving way before it \
               bursts.",
    }
    UltimateFactor {
        key: "f.ult", label: "Factor on strength", part: Vessels, unit: One,
        range: 1.0 to 20.0,
        start: Value(3.0), tolerance: Exact, step: 0.1,
        help: "Safety factor on the strength of whatever breaks without warning, such as plastics, \
               laminates and pins.",
    }
    BondFactor {
        key: "f.bond", label: "Factor on bonds", part: Vessels, unit: One,
        range: 1.0 to 20.0,
        start: Value(4.0), tolerance: Exact, step: 0.1,
        help: "Safety factor on the strength of glue. Nobody sees a bad bond, and peel is not in the \
               formula.",
    }
    BurstFactor {
        key: "f.burst", label: "Factor on measured burst", part: Vessels, unit: One,
        range: 1.0 to 20.0,
        start: Value(2.0), tolerance: Exact, step: 0.1,
        help: "Safety factor on a burst pressure that you measured. The next part is not the one you \
               burst.",
    }
    ProofFactor {
        key: "proof", label: "Proof factor", part: Vessels, unit: One,
        range: 1.0 to 5.0,
        start: Value(1.5), tolerance: Exact, step: 0.1,
        help: "Proof pressure over launch pressure, both above the air outside. 1.5 is common \
               practice.",
    }
    FillsToday {
        key: "fills", label: "Fills planned today", part: Vessels, unit: Piece,
        range: 1.0 to 100.0,
        start: Value(3.0), tolerance: Exact, step: 1.0,
        help: "How often you mean to fill the stack today, flown or not.",
    }
    AcceptedChance {
        key: "accept", label: "Accepted chance a day", part: Vessels, unit: Percent,
        range: 0.0001 to 50.0,
        start: Value(0.1), tolerance: Exact, step: 0.1,
        help: "The chance you accept that any part lets go on a day. It sets after how many fills a \
               part retires.",
    }
    TypicalLife {
        key: "life", label: "Typical life in fills", part: Vessels, unit: Piece,
        range: 1.0 to 1000000.0,
        start: LeftOut("unknown"), tolerance: Share(0.5), step: 10.0,
        help: "Fills that half of such parts outlive, where your log cannot tell. Leave it empty \
               unless you know it.",
    }
    AssumedShape {
        key: "shape", label: "Assumed Weibull shape", part: Vessels, unit: One,
        range: 0.5 to 20.0,
        start: Value(2.5), tolerance: Share(0.3), step: 0.1,
        help: "How steeply the chance grows with age where your log cannot tell. 1 is no wear at all, \
               4 is parts that all fail at one age.",
    }
    TrappedAir {
        key: "airleft", label: "Air left in a water test", part: Field, unit: Percent,
        range: 0.0 to 20.0,
        start: Value(1.0), tolerance: Share(0.5), step: 0.5,
        help: "Share of the volume that stays air when you fill a vessel with water to test it. That \
               air stores nearly all of the energy.",
    }
}
