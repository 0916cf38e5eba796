//! Parts and stacks: what they answer, what they refuse, and what may never happen.

#![allow(clippy::expect_used, clippy::panic, reason = "a panic is how a test fails")]

mod common;

use common::{close, close_share};
use holdwater_physics::vessel::answer::{Answer, Note, answer, strength};
use holdwater_physics::vessel::lines::{Factors, Mode};
use holdwater_physics::vessel::material::{Behaviour, Material, Unfit};
use holdwater_physics::vessel::materials::{MaterialName, row};
use holdwater_physics::vessel::part::{Adherend, Adhesive, Dome, Evidence, Kind, Part, Test};
use holdwater_physics::vessel::plate::Edge;
use holdwater_physics::vessel::problem::{PartProblem, Quantity};
use holdwater_physics::vessel::stack::{HighestFill, Loaded, highest_fill, weakest};
use proptest::prelude::*;

const ROOM: f64 = 293.15;
const FACTORS: Factors = Factors::DEFAULT;

fn pet() -> Material {
    row(MaterialName::Pet).material
}

fn metal() -> Material {
    row(MaterialName::Aluminium6061T6).material
}

#[track_caller]
fn ask(part: &Part, pressure: f64) -> Answer {
    answer(part, pressure, ROOM, &FACTORS).expect("this part answers")
}

fn bottle() -> Part {
    Part::new(Kind::Shell { bore_m: 0.088, wall_m: 0.3e-3 }, pet())
}

fn splice(overlap_m: f64) -> Kind {
    let wall = Adherend { wall_m: 0.3e-3, modulus_pa: 2.5e9 };
    let adhesive = Adhesive { thickness_m: 0.3e-3, shear_modulus_pa: 2e6, strength_pa: 1e6 };
    Kind::Splice { bore_m: 0.088, overlap_m, inner: wall, outer: wall, adhesive }
}

fn closure(pins: u32, pin_m: f64, edge_m: f64) -> Kind {
    Kind::Pinned { bore_m: 0.050, wall_m: 0.002, pins, pin_m, edge_m, pin_strength_pa: 200e6 }
}

#[test]
fn closed_form_a_bottle_at_ten_bar() {
    let found = ask(&bottle(), 1e6);
    // By hand: hoop 146.667 MPa against 120 MPa, factor 3.
    assert_eq!((found.mode, found.mode.name(), found.evidence), (Mode::Hoop, "hoop", Evidence::Formula));
    close_share("stress", found.stress_pa, 146.666_667e6, 1e-8);
    close("margin", found.margin, 120.0 / (3.0 * 146.666_667) - 1.0, 1e-8);
    close_share("zero", found.zero_margin_pa, 120e6 * 0.3e-3 / (0.044 * 3.0), 1e-12);
    close_share("burst", found.burst_pa.expect("an estimate"), 120e6 * 0.3e-3 / 0.044, 1e-12);
    assert!(found.notes.has(Note::UncertainStrength) && found.notes.iter().count() == 1);
}

#[test]
fn closed_form_a_metal_tube_thin_and_thick() {
    let thin = ask(&Part::new(Kind::Shell { bore_m: 0.047, wall_m: 0.0015 }, metal()), 2e6);
    close_share("thin hoop", thin.stress_pa, 2e6 * 23.5 / 1.5, 1e-12);
    // Faupel with the least strengths of 49 CFR 178.46 and the balance of half a ring: the latter is less here.
    close_share("burst", thin.burst_pa.expect("an estimate"), 262e6 * 1.5 / 23.5, 1e-9);
    let thick = ask(&Part::new(Kind::Shell { bore_m: 0.080, wall_m: 0.040 }, metal()), 2e6);
    assert_eq!(thick.mode, Mode::VonMises);
    close_share("thick", thick.stress_pa, 2.0 * 2.309_401e6, 1e-6);
    // Faupel at twice the radius: (2 x 241.3/sqrt 3) ln 2 (2 - 241.3/262) = 208.40 MPa.
    close_share("burst", thick.burst_pa.expect("an estimate"), 208.40e6, 1e-4);
}

#[test]
fn closed_form_closures_and_splice() {
    let flat = |edge| Part::new(Kind::Flat { bore_m: 0.1, thickness_m: 0.006, edge }, metal());
    let clamped = ask(&flat(Edge::Clamped), 1e6);
    assert_eq!(clamped.mode, Mode::BendingAtEdge);
    close("edge", clamped.stress_pa, 52.0833e6, 50.0);
    let supported = ask(&flat(Edge::Supported), 1e6);
    assert_eq!(supported.mode, Mode::BendingAtCentre);
    close("centre", supported.stress_pa, 86.718_75e6, 1.0);
    // Eight steel pins of 4 mm: shear 19.53 of 200/3 MPa; bearing 30.68 of 241.3/2 MPa; tear-out 10.23 of 139/2 MPa. Shear governs.
    let pinned = ask(&Part::new(closure(8, 0.004, 0.008), metal()), 1e6);
    assert_eq!(pinned.mode, Mode::PinShear);
    close("pins", pinned.margin, 200.0 / (3.0 * 19.531_25) - 1.0, 1e-9);
    let near_edge = ask(&Part::new(closure(8, 0.004, 0.0025), metal()), 1e6);
    assert_eq!(near_edge.mode, Mode::TearOut);
    // Load p r/2 is 22 kN/m at 10 bar, mean shear 0.44 MPa on 50 mm; w l/2 = 0.025 sqrt((2e6/3e-4)(2/750000)) = 3.3333.
    let bond = ask(&Part::new(splice(0.05), pet()), 1e6);
    assert_eq!(bond.mode.name(), "shear at the ends");
    close_share("peak", bond.stress_pa, 0.44e6 * 3.333_333 / 0.997_459, 1e-5);
    assert!(bond.notes.has(Note::PeelNotCovered));
}

#[test]
fn closed_form_a_launch_tube_under_outside_pressure() {
    let tube = |length_m| Part::new(Kind::External { outer_m: 0.020, wall_m: 0.001, length_m }, metal());
    let found = ask(&tube(0.05), 1e6);
    // Long tube by hand: 2 x 68.9e9/0.8911 x (1/20)^3 = 19.33 MPa. Hoop compression 2 x 100/19 MPa of 241.3/2 is farther off than 19.33/4.
    assert_eq!(found.mode, Mode::Collapse);
    close_share("collapse", found.allowable_pa, 2.0 * 68.9e9 / 0.8911 / 8000.0, 1e-12);
    assert!(found.notes.has(Note::TakenAsClosed));
    // Three metres buckle as a column before they collapse.
    let slender = strength(&tube(3.0), ROOM, &FACTORS).expect("sound");
    assert_eq!(slender.governing.mode, Mode::Column);
    assert!(matches!(
        answer(&tube(3.0), 5e6, ROOM, &FACTORS),
        Err(PartProblem::PressureBeyondCollapse { pressure_pa, collapse_pa }) if pressure_pa > collapse_pa
    ));
}

#[test]
fn property_a_measured_burst_stands_in_place_of_the_formula_and_says_so() {
    let test = Some(Test { pressure_pa: 11e5, temperature_k: ROOM });
    let found = ask(&Part { burst: test, ..bottle() }, 5e5);
    assert_eq!((found.evidence, found.mode), (Evidence::MeasuredBurst, Mode::Burst));
    close("margin", found.margin, 11.0 / (2.0 * 5.0) - 1.0, 1e-12);
    close("burst", found.burst_pa.expect("measured"), 11e5, 1e-6);
    assert!(found.notes.has(Note::MeasuredBurstOverrides) && !found.notes.has(Note::UncertainStrength));
    assert_eq!(found.formula_margin, Some(ask(&bottle(), 5e5).margin));
    // Hot it is less; cold it is not more; beyond what is known, nothing.
    let part = Part { burst: test, ..bottle() };
    let at = |kelvin| answer(&part, 5e5, kelvin, &FACTORS).expect("sound").zero_margin_pa;
    close_share("hot", at(313.15), 0.8 * at(ROOM), 1e-12);
    close("cold", at(263.15), at(ROOM), 1e-9);
    close("softened", at(360.0), 0.0, 0.0);
    assert!(answer(&part, 5e5, 360.0, &FACTORS).expect("sound").notes.has(Note::HotterThanKnown));
}

#[test]
fn property_a_proof_counts_only_when_chosen_or_alone() {
    let test = Some(Test { pressure_pa: 9e5, temperature_k: ROOM });
    let part = Part { proof: test, ..bottle() };
    assert_eq!(ask(&part, 5e5).evidence, Evidence::Formula);
    close("beside", ask(&part, 5e5).proof_margin.expect("a proof"), 9.0 / (1.5 * 5.0) - 1.0, 1e-12);
    let chosen = ask(&Part { counted: Some(Evidence::Proof), ..part }, 10e5);
    assert!(chosen.notes.has(Note::ProofOverrides) && chosen.notes.has(Note::AboveProof));
    let alone = Part { kind: Kind::Tested, ..part };
    assert_eq!((ask(&alone, 5e5).evidence, ask(&alone, 5e5).burst_pa), (Evidence::Proof, None));
    let contradiction = Part { burst: Some(Test { pressure_pa: 8e5, temperature_k: ROOM }), ..part };
    assert!(ask(&contradiction, 3e5).notes.has(Note::ProofAboveBurst));
    // Evidence that is not there is not made up.
    for (part, wanted) in [
        (Part::new(Kind::Tested, pet()), None),
        (Part { counted: Some(Evidence::MeasuredBurst), ..part }, Some(Evidence::MeasuredBurst)),
        (Part { counted: Some(Evidence::Formula), ..alone }, Some(Evidence::Formula)),
    ] {
        assert_eq!(answer(&part, 5e5, ROOM, &FACTORS), Err(PartProblem::NoEvidence { wanted }));
    }
    let coupling = Part::new(Kind::Screwed { rated_pa: 8e5 }, metal());
    let rated = ask(&coupling, 8e5);
    assert!(rated.evidence == Evidence::Rating && rated.notes.has(Note::RatingMayBeForLiquid));
    close("rating", rated.margin, 0.0, 1e-12);
}

#[test]
fn property_bad_sizes_are_refused_by_name() {
    let refused = |kind| Part::new(kind, metal()).check().expect_err("this part is refused");
    assert!(matches!(
        refused(Kind::Shell { bore_m: 0.05, wall_m: 0.03 }),
        PartProblem::WallWiderThanRadius { wall_m, radius_m } if wall_m > radius_m
    ));
    assert!(matches!(
        refused(Kind::External { outer_m: 0.02, wall_m: 0.01, length_m: 0.1 }),
        PartProblem::WallWiderThanRadius { .. }
    ));
    assert_eq!(refused(splice(0.0)), PartProblem::NoOverlap { overlap_m: 0.0 });
    assert!(matches!(
        refused(Kind::Flat { bore_m: 0.05, thickness_m: 0.03, edge: Edge::Clamped }),
        PartProblem::PlateThickerThanRadius { .. }
    ));
    assert!(matches!(refused(closure(42, 0.004, 0.008)), PartProblem::PinsLeaveNoTube { .. }));
    assert!(matches!(refused(closure(8, 0.004, 0.002)), PartProblem::PinCutsEdge { .. }));
    for (crown_m, knuckle_m) in [(0.2, 0.02), (0.1, 0.003), (0.02, 0.01), (0.06, 0.07)] {
        let shape = Dome::Torisphere { crown_m, knuckle_m };
        assert!(matches!(
            refused(Kind::Dome { bore_m: 0.1, wall_m: 0.001, shape }),
            PartProblem::DomeNotCovered { .. }
        ));
    }
    let named = |kind| match refused(kind) {
        PartProblem::OutOfRange { what, .. } => what,
        other => panic!("{other:?}"),
    };
    for bad in [f64::NAN, -0.001, 0.0, f64::INFINITY] {
        assert_eq!(named(Kind::Shell { bore_m: bad, wall_m: 0.001 }), Quantity::Bore);
        assert_eq!(named(Kind::Shell { bore_m: 0.1, wall_m: bad }), Quantity::Wall);
        assert_eq!(named(Kind::Screwed { rated_pa: bad }), Quantity::RatedPressure);
        assert_eq!(named(Kind::External { outer_m: 0.02, wall_m: 0.001, length_m: bad }), Quantity::Length);
        assert_eq!(named(closure(8, bad, 0.008)), Quantity::PinDiameter);
        for (pressure, temperature, what) in [(bad, ROOM, Quantity::Pressure), (1e5, bad, Quantity::Temperature)] {
            let problem = answer(&bottle(), pressure, temperature, &FACTORS).expect_err("refused");
            assert!(matches!(problem, PartProblem::OutOfRange { what: named, .. } if named == what));
        }
        let factors = Factors { proof: bad, ..FACTORS };
        assert!(matches!(
            answer(&bottle(), 1e5, ROOM, &factors),
            Err(PartProblem::OutOfRange { what: Quantity::Factor, .. })
        ));
    }
    assert_eq!(named(closure(0, 0.004, 0.008)), Quantity::PinCount);
}

#[test]
fn property_what_shatters_is_refused_and_own_rows_are_checked() {
    for name in [MaterialName::Upvc, MaterialName::Abs, MaterialName::Acrylic] {
        // Not even a measured burst makes it fit.
        let burst = Some(Test { pressure_pa: 1e7, temperature_k: ROOM });
        let part = Part { burst, ..Part::new(bottle().kind, row(name).material) };
        assert_eq!(answer(&part, 1e5, ROOM, &FACTORS), Err(PartProblem::UnfitMaterial { reason: Unfit::Shatters }));
    }
    let own = Material::own(300e6, 70e9, 0.3, 2700.0, 400.0);
    assert!(Part::new(bottle().kind, own).check().is_ok());
    for bad in [
        Material { hoop_pa: f64::NAN, ..own },
        Material { modulus_pa: -1.0, ..own },
        Material { poisson: 0.5, ..own },
        Material { behaviour: Behaviour::DuctileMetal { ultimate_pa: 200e6 }, ..own },
    ] {
        assert!(matches!(Part::new(bottle().kind, bad).check(), Err(PartProblem::OutOfRange { .. })));
    }
    // A softening temperature that is no number leaves no strength at all.
    let soft = Material::own(300e6, 70e9, 0.3, 2700.0, f64::NAN);
    close("nothing left", soft.derating.share(400.0), 0.0, 0.0);
}

#[test]
fn property_the_stack_is_as_strong_as_its_weakest_part() {
    let parts = [
        Part::new(Kind::Shell { bore_m: 0.050, wall_m: 0.0015 }, metal()),
        bottle(),
        Part::new(splice(0.05), pet()),
        Part::new(Kind::Screwed { rated_pa: 8e5 }, metal()),
    ];
    let loaded = parts.each_ref().map(|part| Loaded { part, pressure_pa: 3e5, temperature_k: ROOM });
    let found = weakest(&loaded, &FACTORS);
    let margins = parts.each_ref().map(|part| ask(part, 3e5).margin);
    let least = margins.iter().copied().fold(f64::INFINITY, f64::min);
    let (place, weak) = found.weakest.expect("there are parts");
    close("least", weak.margin, least, 0.0);
    close("its place", margins[place], least, 0.0);
    assert_eq!(found.margin(), Some(weak.margin));
    // At the highest fill the margin of the stack is nought, and the same part sets it.
    let HighestFill { pressure_pa, part } = highest_fill(&loaded, &FACTORS).expect("sound").expect("parts");
    assert_eq!(part, place);
    let full = loaded.map(|load| Loaded { pressure_pa, ..load });
    close("nought", weakest(&full, &FACTORS).margin().expect("a margin"), 0.0, 1e-12);
    // One refused part leaves the stack without a margin and without a fill.
    let brittle = Part::new(bottle().kind, row(MaterialName::Acrylic).material);
    let with_bad = [loaded[0], Loaded { part: &brittle, ..loaded[0] }];
    let found = weakest(&with_bad, &FACTORS);
    assert!(found.margin().is_none() && found.refused.len() == 1 && found.refused[0].0 == 1);
    assert!(highest_fill(&with_bad, &FACTORS).is_err_and(|(place, _)| place == 1));
    assert!(weakest(&[], &FACTORS).margin().is_none());
    assert_eq!(highest_fill(&[], &FACTORS), Ok(None));
}

/// A kind of part, with every wall in it times a factor.
fn kind(which: u8, bore_m: f64, share: f64, thicker: f64, other: f64) -> Kind {
    let wall_m = 0.5 * bore_m * share * thicker;
    let outer_m = bore_m;
    match which {
        0 => Kind::Shell { bore_m, wall_m },
        1 => Kind::Dome { bore_m, wall_m, shape: Dome::Hemisphere },
        2 => Kind::Dome { bore_m, wall_m, shape: Dome::Ellipsoid },
        3 => {
            let shape = Dome::Torisphere { crown_m: 0.9 * bore_m, knuckle_m: (0.06 + 0.5 * other) * bore_m };
            Kind::Dome { bore_m, wall_m, shape }
        }
        4 => Kind::Splice {
            bore_m,
            overlap_m: 0.01 + other,
            inner: Adherend { wall_m, modulus_pa: 2.5e9 },
            outer: Adherend { wall_m: 0.9 * wall_m, modulus_pa: 1e10 },
            adhesive: Adhesive { thickness_m: 3e-4, shear_modulus_pa: 1e7, strength_pa: 4e6 },
        },
        5 => {
            Kind::Flat { bore_m, thickness_m: wall_m, edge: if other > 0.5 { Edge::Clamped } else { Edge::Supported } }
        }
        6 => Kind::Pinned {
            bore_m,
            wall_m,
            pins: 6,
            pin_m: 0.05 * bore_m,
            edge_m: (0.03 + other) * bore_m,
            pin_strength_pa: 150e6,
        },
        7 => Kind::External { outer_m, wall_m, length_m: 0.02 + 2.0 * other },
        _ => Kind::Screwed { rated_pa: 1e5 + 1e6 * other },
    }
}

fn material(which: u8) -> Material {
    let names = [
        MaterialName::Pet,
        MaterialName::Polycarbonate,
        MaterialName::Aluminium6061T6,
        MaterialName::GlassEpoxy,
        MaterialName::CarbonEpoxy,
    ];
    row(names[usize::from(which) % names.len()]).material
}

/// Highest fill of one part, Pa; nothing asked of the pressure.
fn fill(part: &Part, temperature: f64) -> f64 {
    strength(part, temperature, &FACTORS).expect("this part is sound").governing.zero_margin()
}

proptest! {
    #[test]
    fn property_margins_are_finite_and_fall_with_pressure_and_heat(
        which in 0_u8..9, of in 0_u8..5, bore in 0.01_f64..0.5, share in 0.003_f64..0.45, other in 0.0_f64..1.0,
        pressure in 1e3_f64..5e6, more in 1.0_f64..3.0, kelvin in 230.0_f64..380.0, warmer in 0.0_f64..60.0, tested in 0_u8..3,
    ) {
        let test = Some(Test { pressure_pa: 1e6, temperature_k: ROOM });
        let part = Part { burst: test.filter(|_| tested == 1), proof: test.filter(|_| tested == 2),
            ..Part::new(kind(which, bore, share, 1.0, other), material(of)) };
        match answer(&part, pressure, kelvin, &FACTORS) {
            // Only a tube that has collapsed has no margin; it stays so at more pressure and in more heat.
            Err(problem) => {
                let collapsed = matches!(problem, PartProblem::PressureBeyondCollapse { .. });
                prop_assert!(collapsed, "{:?}", problem);
                prop_assert!(answer(&part, pressure * more, kelvin, &FACTORS).is_err());
                prop_assert!(answer(&part, pressure, kelvin + warmer, &FACTORS).is_err());
            }
            Ok(found) => {
                for value in [found.margin, found.stress_pa, found.allowable_pa, found.zero_margin_pa] {
                    prop_assert!(value.is_finite());
                }
                prop_assert!(found.margin >= -1.0);
                prop_assert!(found.burst_pa.is_none_or(|burst| burst.is_finite() && burst >= found.zero_margin_pa));
                let says = found.allowable_pa / (found.factor * found.stress_pa) - 1.0;
                prop_assert!((found.margin - says).abs() <= 1e-9 * (1.0 + says.abs()));
                for (pressure, kelvin) in [(pressure * more, kelvin), (pressure, kelvin + warmer)] {
                    if let Ok(worse) = answer(&part, pressure, kelvin, &FACTORS) {
                        prop_assert!(worse.margin <= found.margin);
                    }
                }
                // At the pressure of no margin the margin is nought.
                if found.zero_margin_pa >= 1.0 {
                    let there = answer(&part, found.zero_margin_pa, kelvin, &FACTORS).expect("below collapse");
                    prop_assert!(there.margin.abs() < 1e-12);
                }
            }
        }
    }

    #[test]
    fn property_more_wall_never_lowers_the_margin(
        which in 0_u8..8, of in 0_u8..5, bore in 0.01_f64..0.5, share in 0.003_f64..0.45, thicker in 1.0_f64..2.0, other in 0.0_f64..1.0,
        kelvin in 250.0_f64..340.0,
    ) {
        let thin = Part::new(kind(which, bore, share, 1.0, other), material(of));
        let thick = Part { kind: kind(which, bore, share, thicker, other), ..thin };
        prop_assert!(fill(&thick, kelvin) >= fill(&thin, kelvin) * (1.0 - 1e-12));
    }

    #[test]
    fn property_a_wall_across_the_thin_limit_loses_nothing(
        share in 0.08_f64..0.12, step in 0.0_f64..0.02, sphere in any::<bool>(),
    ) {
        let part = |share: f64| Part::new(kind(u8::from(sphere), 0.1, share, 1.0, 0.0), metal());
        prop_assert!(fill(&part(share + step), ROOM) >= fill(&part(share), ROOM) * (1.0 - 1e-12));
    }

    #[test]
    fn property_no_numbers_whatever_make_a_panic_or_a_nan(
        which in 0_u8..9, of in 0_u8..5,
        numbers in prop::array::uniform4(prop_oneof![any::<f64>(), Just(f64::NAN), Just(0.0), 1e-5_f64..1.0, 0.01_f64..10.0]),
        pressure in prop_oneof![any::<f64>(), 1.0_f64..1e9], kelvin in prop_oneof![any::<f64>(), 200.0_f64..500.0],
    ) {
        let [bore, share, thicker, other] = numbers;
        let part = Part::new(kind(which, bore, share, thicker, other), material(of));
        if let Ok(found) = answer(&part, pressure, kelvin, &FACTORS) {
            prop_assert!(found.margin.is_finite() && found.zero_margin_pa.is_finite() && found.stress_pa.is_finite());
        }
    }
}
