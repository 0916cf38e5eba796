//! Where the formulas and constants come from: the list behind the keys in the "Source" sections.

/// How far a source was checked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Seen {
    /// The text itself, or its abstract, was read.
    Text,
    /// An installed library that names this source returns the same numbers.
    Library,
    /// Known from memory; not looked up.
    Memory,
}

/// A published source.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Source {
    /// The key by which the code cites it.
    pub key: &'static str,
    /// Title.
    pub title: &'static str,
    /// Authors or body.
    pub authors: &'static str,
    /// Year of the edition meant.
    pub year: u16,
    /// Journal with volume and pages, publisher, or number of the standard.
    pub locator: &'static str,
    /// How far it was checked for this project.
    pub seen: Seen,
}

/// All sources that the code cites, by key.
pub const SOURCES: &[Source] = &[
    Source {
        key: "buck1981",
        title: "New equations for computing vapor pressure and enhancement factor",
        authors: "A. L. Buck",
        year: 1981,
        locator: "Journal of Applied Meteorology 20, 1527-1532; coefficients of 1996 from the maker's manual",
        seen: Seen::Memory,
    },
    Source {
        key: "chandrasekhar1961",
        title: "Hydrodynamic and Hydromagnetic Stability",
        authors: "S. Chandrasekhar",
        year: 1961,
        locator: "Oxford University Press, chapter X",
        seen: Seen::Memory,
    },
    Source {
        key: "dormand1980",
        title: "A family of embedded Runge-Kutta formulae",
        authors: "J. R. Dormand, P. J. Prince",
        year: 1980,
        locator: "Journal of Computational and Applied Mathematics 6, 19-26",
        seen: Seen::Memory,
    },
    Source {
        key: "gommes2010",
        title: "A more thorough analysis of water rockets: Moist adiabats, transient flows, and inertial forces in a soda bottle",
        authors: "C. J. Gommes",
        year: 2010,
        locator: "American Journal of Physics 78, 236-243, DOI 10.1119/1.3257702",
        seen: Seen::Text,
    },
    Source {
        key: "hairer1996",
        title: "Solving Ordinary Differential Equations II: Stiff and Differential-Algebraic Problems, 2nd edition",
        authors: "E. Hairer, G. Wanner",
        year: 1996,
        locator: "Springer, section IV.7",
        seen: Seen::Memory,
    },
    Source {
        key: "iapws_r1_76",
        title: "Revised Release on Surface Tension of Ordinary Water Substance",
        authors: "International Association for the Properties of Water and Steam",
        year: 2014,
        locator: "IAPWS R1-76(2014)",
        seen: Seen::Library,
    },
    Source {
        key: "iso2533",
        title: "Standard Atmosphere",
        authors: "International Organization for Standardization",
        year: 1975,
        locator: "ISO 2533:1975; identical to the US Standard Atmosphere 1976 in the range used",
        seen: Seen::Library,
    },
    Source {
        key: "kell1975",
        title: "Density, thermal expansivity, and compressibility of liquid water from 0 to 150 C",
        authors: "G. S. Kell",
        year: 1975,
        locator: "Journal of Chemical and Engineering Data 20, 97-105",
        seen: Seen::Memory,
    },
    Source {
        key: "lubin1967",
        title: "The formation of a dip on the surface of a liquid draining from a tank",
        authors: "B. T. Lubin, G. S. Springer",
        year: 1967,
        locator: "Journal of Fluid Mechanics 29, 385-390 (abstract read; the constant from memory)",
        seen: Seen::Text,
    },
    Source {
        key: "naca1135",
        title: "Equations, tables, and charts for compressible flow",
        authors: "Ames Research Staff",
        year: 1953,
        locator: "NACA Report 1135",
        seen: Seen::Library,
    },
    Source {
        key: "prusa2000",
        title: "Hydrodynamics of a water rocket",
        authors: "J. M. Prusa",
        year: 2000,
        locator: "SIAM Review 42, 719-726, DOI 10.1137/S0036144598348223 (abstract and introduction read)",
        seen: Seen::Text,
    },
    Source {
        key: "viana2003",
        title: "Universal correlation for the rise velocity of long gas bubbles in round pipes",
        authors: "F. Viana, R. Pardo, R. Yanez, J. L. Trallero, D. D. Joseph",
        year: 2003,
        locator: "Journal of Fluid Mechanics 494, 379-398, DOI 10.1017/S0022112003006165 (abstract read; constants of the full form from memory)",
        seen: Seen::Text,
    },
    Source {
        key: "vogel",
        title: "The law of the relation between the viscosity of liquids and the temperature",
        authors: "H. Vogel",
        year: 1921,
        locator: "Physikalische Zeitschrift 22, 645; coefficients for water as in textbooks",
        seen: Seen::Memory,
    },
];
