//! Why questions 3 and 4 are answered so: relation, source, and what is left out.

use crate::why::Why;

/// Margins and proofs.
pub const WHY_VESSELS: [Why; 4] = [
    Why {
        title: "Stress and margin",
        relation: "Each part has its own stress, such as p r/t round a thin shell and p r/(2t) along it, or Lame\'s for a thick one. Margin of safety = \
                   allowable/(factor x stress) - 1; the least one counts.",
        source: "Roark\'s Formulas for Stress and Strain, 7th ed. (2002), tables of shells and plates, from memory. The factors are common practice.",
        leaves_out: "Scratches, sunlight, solvents, creep, necks, threads, welds, leaks, landings, and the sharp stress where a dome meets a shell.",
    },
    Why {
        title: "Bonds",
        relation: "Mean shear p r/(2l) times the peak at the ends of the overlap, which stiff glue makes worse.",
        source: "Volkersen, Luftfahrtforschung 15 (1938), from memory.",
        leaves_out: "Peel and voids, which open most splices.",
    },
    Why {
        title: "Heat",
        relation: "Strength falls along straight lines between points: PET from 23 \u{b0}C to nothing at 75 \u{b0}C. Parts in the sun are warmer than the air.",
        source: "Glass transition of PET at 75 \u{b0}C from a university\'s page on the material; the fall below it is an assumption.",
        leaves_out: "Uneven heating, such as one side in the sun.",
    },
    Why {
        title: "Proof",
        relation: "Factor times launch pressure, filled with water; harmful above 0.8 of the strength. In a cooler test the pressure is raised as the strength is.",
        source: "Common practice; the 0.8 is that of 49 CFR 178.46 for aluminium gas cylinders, from memory.",
        leaves_out: "What happens to the part afterwards.",
    },
];

/// Chances.
pub const WHY_AGE: [Why; 3] = [
    Why {
        title: "Chance of failing",
        relation: "A Weibull life: a part with c fills behind it fails in the next m with 1 - R(c + m)/R(c), R = exp(-(c/scale)^shape).",
        source: "Weibull, J. Appl. Mech. 18 (1951) 293-297.",
        leaves_out: "What parts share: one batch, one hot car, one burst beside another part.",
    },
    Why {
        title: "From the log",
        relation: "Maximum likelihood with whole parts as lower bounds of their lives; intervals by the likelihood ratio. Without two failures a 95 % \
                   bound for an assumed shape.",
        source: "Cohen, Technometrics 7 (1965) 579-588; Meeker and Escobar, Statistical Methods for Reliability Data (1998); from memory.",
        leaves_out: "With few failures the shape comes out too great on average.",
    },
    Why {
        title: "Fills at another pressure",
        relation: "n fills at p count as n (p/p now)^m, with the worse of two slopes m between which that of the material lies.",
        source: "Basquin (1910) and Miner (1945), from memory. The slopes of plastics are an assumption.",
        leaves_out: "Order of the fills, rest between them, and how long each was held.",
    },
];

/// Stored energy and stand-off.
pub const WHY_STAND: [Why; 2] = [
    Why {
        title: "Stored energy",
        relation: "E = p V/(\u{3b3} - 1) (1 - (pa/p)^((\u{3b3} - 1)/\u{3b3})), V the gas over the water, all stages together.",
        source: "Isentropic expansion, as in ASME PCC-2 Article 501.",
        leaves_out: "Energy in the stretched walls, which is far less.",
    },
    Why {
        title: "Stand-off",
        relation: "R = max(30 m, 20 (2 m)^(1/3)), m in kg of TNT at 4266920 J/kg.",
        source: "ASME PCC-2 Article 501, appendix III, as quoted by a second hand; the standard itself was not seen.",
        leaves_out: "Fragments and everything else that flies.",
    },
];
