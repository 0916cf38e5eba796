//! Why the answers are what they are: relation, source, and what is left out; and the cautions.

/// Why an answer is what it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Why {
    /// What is computed.
    pub title: &'static str,
    /// The relation, in plain text.
    pub relation: &'static str,
    /// Where it comes from.
    pub source: &'static str,
    /// What it leaves out.
    pub leaves_out: &'static str,
}

/// Question 1: how long may it coast?
pub const COAST: [Why; 5] = [
    Why {
        title: "Why the water climbs",
        relation: "Gravity acts on vessel and water alike and cancels. What the water feels is the vessel's own deceleration, \
                   ge = (drag - remaining thrust) / mass. It points to the nose, so the water hangs from the nozzle end with gas below it in that sense, \
                   and a ripple grows at n = sqrt((k ge - \u{3c3} k\u{b3}/\u{3c1}) tanh kh), k = 1.8412/R.",
        source: "Rayleigh-Taylor instability with surface tension, e.g. Chandrasekhar, Hydrodynamic and Hydromagnetic Stability (1961), ch. X.",
        leaves_out: "Swirl, tilt and shaking, which start the climb earlier. The ripple at the end of thrust is an input.",
    },
    Why {
        title: "How fast it climbs",
        relation: "A gas finger goes down at U = Fr sqrt(ge D), Fr = 0.34 for wide vessels, less where surface tension counts; \
                   the water it pushes aside flies to the nose.",
        source: "Viana, Pardo, Y\u{e1}nez, Trallero and Joseph, J. Fluid Mech. 494 (2003) 379-398; its full constants are quoted from memory.",
        leaves_out: "Lifted water is followed as one parcel. In flight it is many drops; they arrive spread out.",
    },
    Why {
        title: "When the nozzle is uncovered",
        relation: "Gas breaks through when less than h = 0.69 (Q\u{b2}/a)^(1/5) of water stands over the nozzle, and never needs more than half the standing height.",
        source: "Lubin and Springer, J. Fluid Mech. 29 (1967) 385-390; the constant from memory.",
        leaves_out: "A swirling column draws gas earlier.",
    },
    Why {
        title: "What it costs",
        relation: "Water that has climbed falls back when the released sustainer accelerates. Until it is back, the jet runs on what is left, or gas \
                   leaves first. Latest release: the longest delay such that every shorter one costs less than 1 % of the settled ideal at the same delay.",
        source: "Balances of mass, momentum and energy, written out in MODEL.md beside the physics; compared with an independent integration in SciPy.",
        leaves_out: "Spray, foam and water that sticks to the wall.",
    },
    Why {
        title: "Why coasting itself can gain",
        relation: "The settled ideal is the same flight with the water held down. It often rises with the delay: a stack that has slowed wastes \
                   less of the sustainer's push on drag. Lifted water is what costs.",
        source: "Follows from drag rising with the square of the speed.",
        leaves_out: "Wind and tilt: a stack that coasts long leans over, and a leaning release throws height away.",
    },
];

/// Question 5: what will the flight look like?
pub const FLIGHT: [Why; 3] = [
    Why {
        title: "Thrust",
        relation: "Water: \u{3c1} (h b + ln) du/dt = p - pa + \u{3c1} h a - \u{3c1} u\u{b2} (1 - b\u{b2})/(2 Cd\u{b2}), F = \u{3c1} An (u\u{b2} (1 - b) + h du/dt), b = An/A. \
                   Gas: isentropic, choked while p > 1.893 pa.",
        source: "Unsteady Bernoulli equation (Prusa, SIAM Review 42 (2000) 719-726 for the water rocket); NACA Report 1135 (1953).",
        leaves_out: "Gas mixed into the jet near the end, which lowers the thrust a little.",
    },
    Why {
        title: "Expansion",
        relation: "p V^n = const while water leaves, n between 1 (isothermal) and 1.4 (dry adiabatic).",
        source: "Gommes, Am. J. Phys. 78 (2010) 236-243: moist air lies between the two.",
        leaves_out: "The fog that forms in the vessel follows its own path; n is an average.",
    },
    Why {
        title: "Drag and air",
        relation: "D = 1/2 \u{3c1} v\u{b2} Cd S in the standard atmosphere with your temperature.",
        source: "ISO 2533:1975, the same as the US Standard Atmosphere 1976 here.",
        leaves_out: "Wind, tilt, spin and wobble. Published comparisons for single stages find heights 4 to 10 % under such predictions.",
    },
];

/// The cautions that stand beside every number that could be acted on.
pub const CAUTIONS: [&str; 5] = [
    "Pressurised vessels kill. Fill and release from a distance, with eye and ear protection, and nobody near a vessel under pressure.",
    "Proof-test every part filled with water, never with gas alone, and discard parts by their count of fills, not by their looks.",
    "Never repair, tighten or touch anything under pressure.",
    "A staged rocket that does not release comes down whole. Plan the range for that.",
    "These numbers are estimates. Local codes, club and range rules and licensed practice come first.",
];
