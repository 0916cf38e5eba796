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

/// Question 2: what holds the water?
pub const HOLDING: [Why; 8] = [
    Why {
        title: "What a hole holds",
        relation: "Surface tension closes a hole while Bo = \u{3c1} ge (d/2)\u{b2}/\u{3c3} is below 14.68 (one hole) or 5.78 (several, where one can give what \
                   another takes). You trust a share of that: below it holds, up to the limit is marginal, above leaks.",
        source: "Maxwell, Capillary action, on the experiment of Duprez: the squares of the first zeros of J1 and J0, from memory.",
        leaves_out: "Vibration, tilt, slanted or wet edges, soap and grease. The trusted share stands for all of them; try it on the bench.",
    },
    Why {
        title: "How fast it leaks",
        relation: "Q = 0.262 sqrt(ge d\u{2075}) per hole, less where surface tension narrows the hole and where the gas is dense. As much gas comes down, sits at the \
                   nozzle and leaves first.",
        source: "Clanet and Searby, J. Fluid Mech. 510 (2004) 145-168 (emptying of bottles), with the factors of Viana et al. (2003) and Wallis (1969); constants from memory.",
        leaves_out: "Between holding and leaking the flow is a smooth guess, because nobody has measured it.",
    },
    Why {
        title: "What the holes cost",
        relation: "While water leaves, gas follows it down through the holes: \u{394}p = 1/2 \u{3c1}g (Q/(C Ao))\u{b2} (1 - \u{3b2}\u{2074}) \u{3c9}, the permanent loss. In the gas pulse holes and \
                   nozzle are two orifices in series.",
        source: "ISO 5167-2:2003 with the coefficient of Reader-Harris and Gallagher; NACA Report 1135 for the gas.",
        leaves_out: "Swirl and a plate that bends. Outside the range of the relation (\u{3b2} 0.1 to 0.75) its nearest end is used.",
    },
    Why {
        title: "Why a share of open area does not carry over",
        relation: "What holds is a hole, not a share. The Bond number knows the diameter of one hole and nothing of the vessel: the same open share in a vessel three \
                   times as wide is a hole three times as wide, and nine times the Bond number.",
        source: "Follows from the definition of the Bond number.",
        leaves_out: "What does carry over from a small tube is the hole, multiplied by the square root of the ratio of the decelerations; only whether it holds, not how fast it leaks.",
    },
    Why {
        title: "How window, best bore and pattern are found",
        relation: "Each bore is flown: from a quarter of the nozzle's area to what leaves a plate, more closely where the curve bends. The window is where leak and throttling together cost less \
                   than 1 % of the same flight with as much ballast, held water and no plate. A pattern has holes that each hold, a web of 1 mm or 0.3 d, and the fewest of them \
                   within 0.1 % of the most that fit.",
        source: "Bracketed searches on the flights themselves; each number printed is the flight of the rounded part.",
        leaves_out: "Bores outside the window may serve too where the curve rises again; the window is the stretch around the best bore.",
    },
    Why {
        title: "Why the plate belongs at the water's surface",
        relation: "Gas in a gap under the plate comes to the nozzle and leaves first; water on the plate is free to climb. The height has a kink at the standing height.",
        source: "Flights at each height.",
        leaves_out: "A tilted plate, and water that is poured in short.",
    },
    Why {
        title: "Bench and sink",
        relation: "A hole d at ge behaves at 1 g like d sqrt(ge/g). A bottle turned over with it holds, or empties in T = (\u{3c0}/4) D\u{b2} L/Q.",
        source: "Equal Bond number; Clanet and Searby (2004).",
        leaves_out: "A soft bottle that breathes, and a plate that is not level.",
    },
    Why {
        title: "The launch tube between the stages",
        relation: "F = (p - pa) \u{3c0} dt\u{b2}/4 pushes the sustainer off; nothing leaves while it does, and the water has that time to come back. Its mass rides on the booster, and the gas inside it is lost. \
                   Wall: hoop stress inside, collapse 2 E/(1 - \u{3bd}\u{b2}) (t/D)\u{b3} and end load outside.",
        source: "Balances of force and volume; Timoshenko and Gere (1961) and Roark for the wall, from memory; factors 2 on yield and 4 on buckling are common practice.",
        leaves_out: "Friction of the seal, a bent tube, and a sustainer that tips on it.",
    },
];

/// Cautions beside the answers to question 2.
pub const HOLDING_CAUTIONS: [&str; 3] = [
    "A plate that comes loose under pressure blocks the nozzle or leaves with it. Prove plate and fixing in the closed vessel, filled with water, from a distance.",
    "Drilling, glueing or pinning a plate into a vessel weakens the vessel: prove and count it anew as another part.",
    "Bench tests are done without pressure. Never look into a nozzle or turn a filled vessel over by hand while it is under pressure.",
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
