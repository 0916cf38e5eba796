//! Marks of vessel parts: every part has one, none lies over another, all lie in the picture, whatever the parts.

mod common;

use common::{assert_apart, assert_inside, points};
use holdwater_design::Design;
use holdwater_design::parts::{PartKind, PartStage};
use holdwater_physics::rocket::{Rocket, Stage};
use holdwater_pictures::drawing::{Area, MarkDrawing, PartMark, Shape, Verdict, placed, stack};

fn part(number: usize, kind: PartKind, stage: PartStage, margin: Option<f64>) -> PartMark {
    let verdict = if margin.is_some_and(|margin| margin >= 0.0) { Verdict::Holds } else { Verdict::Over };
    PartMark { number, name: format!("Seam <{number}>"), kind, stage, margin, verdict, weakest: false }
}

/// Numbers that look random and are the same every time.
struct Dice(u32);

impl Dice {
    fn below(&mut self, sides: usize) -> usize {
        self.0 = self.0.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (self.0 >> 8) as usize % sides
    }
}

fn any_parts(dice: &mut Dice, count: usize, stages: &[PartStage]) -> Vec<PartMark> {
    let margins = [None, Some(-0.999), Some(0.0), Some(0.42), Some(12.3), Some(1e300)];
    // Every third list is of one kind alone, which is where places are scarce.
    let only = (dice.below(3) == 0).then(|| dice.below(PartKind::ALL.len()));
    let mut parts: Vec<PartMark> = (1..=count)
        .map(|number| {
            let kind = only.unwrap_or_else(|| dice.below(PartKind::ALL.len()));
            part(number, PartKind::ALL[kind], stages[dice.below(stages.len())], margins[dice.below(margins.len())])
        })
        .collect();
    if let Some(weakest) = parts.iter_mut().find(|part| part.margin.is_some()) {
        weakest.weakest = true;
    }
    parts
}

fn rockets() -> Vec<Rocket> {
    let usual = Design::default().rocket();
    let sized = |volume_m3, bore_m, nozzle_m, sets| Stage { volume_m3, bore_m, nozzle_m, sets, ..usual.sustainer };
    let (tiny, vast) = (sized(1e-4, 0.015, 0.002, 1), sized(0.2, 0.5, 0.12, 12));
    vec![
        usual,
        Rocket { booster: None, ..usual },
        Rocket { booster: Some(vast), sustainer: tiny, ..usual },
        Rocket { booster: Some(tiny), sustainer: vast, ..usual },
        Rocket { booster: None, sustainer: sized(0.2, 0.015, 0.009, 3), ..usual },
    ]
}

fn stages_of(rocket: &Rocket) -> &'static [PartStage] {
    if rocket.booster.is_some() { &PartStage::ALL } else { &[PartStage::Sustainer] }
}

fn assert_parted(hits: &[Area], what: &str) {
    for (index, a) in hits.iter().enumerate() {
        assert!(a.width >= 44.0 && a.height >= 44.0, "{what}: {a:?}");
        for b in &hits[index + 1..] {
            let apart = a.x + a.width <= b.x || b.x + b.width <= a.x || a.y + a.height <= b.y || b.y + b.height <= a.y;
            assert!(apart, "{what}: {a:?} over {b:?}");
        }
    }
}

#[test]
fn property_any_parts_have_one_mark_each_and_none_over_another() {
    let mut dice = Dice(20_261_125);
    for rocket in rockets() {
        for count in 0..=24 {
            let parts = any_parts(&mut dice, count, stages_of(&rocket));
            for (width, height) in [(358.0, 360.0), (288.0, 0.0), (0.0, f64::NAN), (736.0, 400.0)] {
                let drawing = placed(&rocket, &parts, width, height);
                let what = format!("{count} parts in {width} x {height}: {parts:?}");
                assert_inside(&drawing.shapes(), drawing.view_box, &what);
                assert_apart(&drawing.shapes(), &what);
                let mut numbers: Vec<usize> = drawing.marks.iter().map(|mark| mark.number).collect();
                numbers.sort_unstable();
                assert_eq!(numbers, (1..=count).collect::<Vec<_>>(), "{what}");
                let hits: Vec<Area> = drawing.marks.iter().map(|mark| mark.hit).collect();
                assert_parted(&hits, &what);
                let rects: Vec<Shape> = hits.iter().map(|area| Shape::Rect { area: *area, class: "button" }).collect();
                if count > 0 {
                    assert_inside(&rects, drawing.view_box, &what);
                }
            }
        }
    }
}

#[test]
fn property_a_stack_with_parts_marks_one_and_its_labels_stay_apart() {
    let mut dice = Dice(7);
    for rocket in rockets() {
        for count in 0..=24 {
            let parts = any_parts(&mut dice, count, stages_of(&rocket));
            for (width, height) in [(358.0, 544.0), (0.0, 0.0)] {
                let drawing = stack(&rocket, &parts, width, height);
                let what = format!("{count} parts in {width} x {height}: {parts:?}");
                assert_inside(&drawing.shapes(), drawing.view_box, &what);
                assert_apart(&drawing.shapes(), &what);
                let mut hits: Vec<Area> = drawing.parts.iter().map(|part| part.hit).collect();
                hits.extend(drawing.weakest.iter().map(|mark| mark.hit));
                assert_parted(&hits, &what);
                assert_eq!(drawing.weakest.is_some(), count > 0, "{what}");
                let weakest = parts.iter().find(|part| part.weakest);
                if let (Some(part), Some(mark)) = (weakest, &drawing.weakest) {
                    assert_eq!(part.number, mark.number, "{what}");
                }
            }
        }
    }
}

/// The middle of a mark on the rocket.
fn middle(mark: &MarkDrawing) -> (f64, f64) {
    let all: Vec<(f64, f64)> = mark.shapes.iter().flat_map(points).collect();
    let mean = |value: fn(&(f64, f64)) -> f64| all.iter().map(value).sum::<f64>() / all.len() as f64;
    (mean(|point| point.0), mean(|point| point.1))
}

#[test]
fn marks_lie_where_such_parts_sit() {
    use PartKind::{Dome, External, Flat, Shell, Splice, Tested};
    let kinds = [Shell, Splice, Splice, Dome, Dome, Flat, External, Tested];
    let stage = PartStage::Sustainer;
    let parts: Vec<_> = kinds.iter().zip(1..).map(|(kind, number)| part(number, *kind, stage, Some(1.0))).collect();
    let booster = part(9, Shell, PartStage::Booster, Some(1.0));
    let parts = [&parts[..], &[booster]].concat();
    let drawing = placed(&Design::default().rocket(), &parts, 358.0, 900.0);
    let at = |number: usize| drawing.marks.iter().find(|mark| mark.number == number).map_or((0.0, 0.0), middle);
    let [shell, low, high, nose, foot, flat, tube, _, booster] = std::array::from_fn(|index| at(index + 1));
    let order = [nose, high, shell, low, foot, flat, booster];
    assert!(order.windows(2).all(|pair| pair[0].1 < pair[1].1), "from the nose down: {order:?}");
    let axis = 0.5 * drawing.view_box.width;
    let across = |point: (f64, f64)| (point.0 - axis).abs();
    assert!(across(tube) < across(low) && across(flat) < across(low) && across(at(8)) < 1e-9);
    // Two splices divide the cylinder in three, with the shell between.
    assert!((high.1 + low.1 - 2.0 * shell.1).abs() < 1e-9, "{high:?} {low:?} {shell:?}");

    // Nothing of a stage that does not fly is marked.
    let single = Rocket { booster: None, ..Design::default().rocket() };
    let marks = placed(&single, &parts, 358.0, 900.0).marks;
    assert!(marks.len() == 8 && marks.iter().all(|mark| mark.number != 9));
}

#[test]
fn marks_on_the_rocket_stay_apart_where_there_is_room() {
    for kind in PartKind::ALL {
        let parts: Vec<_> = (1..=24).map(|number| part(number, kind, PartStage::Booster, Some(1.0))).collect();
        let drawing = placed(&Design::default().rocket(), &parts, 358.0, 0.0);
        let mut heights: Vec<f64> = drawing.marks.iter().map(|mark| middle(mark).1).collect();
        heights.sort_by(f64::total_cmp);
        assert!(heights.windows(2).all(|pair| pair[1] - pair[0] > 6.0), "{kind:?}: {heights:?}");
    }
}

#[test]
fn the_weakest_and_the_refused_differ_in_shape_and_word() {
    let stage = PartStage::Booster;
    let mut parts = vec![
        part(1, PartKind::Shell, stage, Some(0.42)),
        part(2, PartKind::Splice, stage, None),
        part(3, PartKind::Dome, stage, Some(0.9)),
    ];
    parts[0].weakest = true;
    let rocket = Design::default().rocket();
    let drawing = placed(&rocket, &parts, 358.0, 0.0);
    let mark = |number: usize| drawing.marks.iter().find(|mark| mark.number == number).cloned();
    let words = |number: usize| -> Vec<String> {
        let text = |shape: Shape| if let Shape::Text { text, .. } = shape { Some(text) } else { None };
        mark(number).into_iter().flat_map(|mark| mark.label).filter_map(text).collect()
    };
    let rings = |number: usize| {
        let shapes = mark(number).into_iter().flat_map(|mark| mark.shapes);
        shapes.filter(|shape| matches!(shape, Shape::Circle { .. })).count()
    };
    assert_eq!(
        [words(1), words(2), words(3)].concat(),
        ["1 shell", "0.42 weakest", "2 splice", "no margin", "3 dome", "margin 0.90"]
    );
    assert_eq!([rings(1), rings(2), rings(3)], [2, 0, 1], "two rings, a cross, a dot");
    let name = "Part 1 shell, 0.42 weakest: Seam <1>, booster, margin 0.42";
    assert_eq!(mark(1).map(|mark| mark.name).as_deref(), Some(name));
    let on_stack = stack(&rocket, &parts, 358.0, 544.0).weakest.map(|mark| mark.name);
    assert_eq!(on_stack.as_deref(), Some("Part 1 weakest, margin 0.42: Seam <1>, booster"));

    // Where no part has a margin the stack shows the first of them.
    let refused = stack(&rocket, &parts[1..2], 358.0, 544.0).weakest;
    assert_eq!(refused.map(|mark| mark.name).as_deref(), Some("Part 2 splice, no margin: Seam <2>, booster"));
}
