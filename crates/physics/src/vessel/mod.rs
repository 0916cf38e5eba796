//! Strength of the parts that hold pressure, their proof, the energy they store and how far to stand.
//!
//! People act on these numbers, so every choice leans to the safe side, and what is not covered is said.
//!
//! Covered: static, evenly spread pressure on clean round parts of one material: shells, domes, bonded splices, screwed
//! and flat and pinned closures, tubes under outside pressure, and parts of which only a test is known.
//!
//! Not covered: scratches, notches, sunlight, solvents and age of the material; creep under pressure that stays for hours; peel and
//! voids of bonds; moulded necks and petal feet of bottles; threads; welds; leaks; impact, landing, flight loads and bending; the sharp
//! stress where a dome meets a shell; cold below freezing. Cycles are counted elsewhere. Fragments are in no distance given here.
//! Local law, the rules of the range and licensed practice stand above every number.

pub mod answer;
pub mod collapse;
pub mod energy;
pub mod joint;
pub mod lines;
pub mod material;
pub mod materials;
pub mod part;
pub mod plate;
pub mod problem;
pub mod proof;
pub mod stack;
pub mod stress;
