//! How near each part is to what it may bear, the nearest first.

use core::fmt::Write as _;

use holdwater_design::measure::System;

use super::cutaway::Drawing;
use super::shape::{Anchor, Area, Shape, short};
use super::vessel::positive;
use crate::chart::place::{shortened, text_width};
use crate::chart::scale::number;
use crate::shown::Saying;

/// Height of one part's block: words, bar, words, px.
const BLOCK: f64 = 56.0;
/// Top and height of the bar within its block, px.
const BAR: (f64, f64) = (19.0, 14.0);
/// Room below the blocks for the axis, px.
const FOOT: f64 = 26.0;
/// Size of the name, and of other words, px.
const NAME: f64 = 14.0;
const TEXT: f64 = 12.0;

/// What the margin of a part comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// There is margin.
    Holds,
    /// There is little.
    Thin,
    /// There is none.
    Over,
}

impl Verdict {
    /// The word beside the bar.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Holds => "holds",
            Self::Thin => "thin margin",
            Self::Over => "over",
        }
    }

    const fn class(self) -> &'static str {
        match self {
            Self::Holds => "bar holds",
            Self::Thin => "bar near",
            Self::Over => "bar over",
        }
    }
}

/// One part's bar.
#[derive(Clone, Debug, PartialEq)]
pub struct PartBar {
    /// The part's name; shortened where it does not fit.
    pub name: String,
    /// Stress over what is allowed: 1 is the limit.
    pub share: f64,
    /// What that comes to.
    pub verdict: Verdict,
    /// Stress and allowable in words, in the units of the reader.
    pub stress: String,
}

/// Draws a bar of stress against allowable for each part, the weakest first, for a picture of at least the given size in
/// CSS px; it grows with the number of parts.
#[must_use]
pub fn margins(parts: &[PartBar], width: f64, height: f64) -> Drawing {
    let width = positive(width, 240.0).min(8192.0);
    let height = positive(height, 60.0).min(8192.0).max(BLOCK * parts.len() as f64 + FOOT);
    let mut order: Vec<usize> = (0..parts.len()).collect();
    holdwater_physics::order::sort_by_number(&mut order, |index| -known(parts[*index].share));
    let largest = order.first().map_or(0.0, |index| known(parts[*index].share));
    // The limit is always in the picture; what is far over it is cut, or the others could not be read.
    let full = (1.02 * largest).clamp(1.25, 2.5);
    let (left, scale) = (2.0, (width - 4.0) / full);
    let mut shapes = Vec::new();
    for (row, index) in order.iter().enumerate() {
        let part = &parts[*index];
        block(&mut shapes, part, (left, BLOCK * row as f64, width - 2.0), scale);
    }
    axis(&mut shapes, BLOCK * parts.len() as f64, (left, width - 2.0), scale);
    let weakest = order.first().and_then(|index| parts.get(*index));
    Drawing { view_box: Area { x: 0.0, y: 0.0, width, height }, shapes, description: describe(parts, weakest) }
}

/// A share that can be drawn and sorted: what is not known counts as none.
fn known(share: f64) -> f64 {
    if share.is_nan() { 0.0 } else { share.clamp(0.0, 1e6) }
}

fn block(shapes: &mut Vec<Shape>, part: &PartBar, (left, top, right): (f64, f64, f64), scale: f64) {
    let word = match part.share.is_nan() {
        true => "not known".to_owned(),
        false => [&number(100.0 * known(part.share), 0), "\u{2009}%, ", part.verdict.word()].concat(),
    };
    let room = right - left - text_width(&word, TEXT) - 10.0;
    let class = if part.verdict == Verdict::Over { "label act" } else { "label" };
    shapes.push(Shape::text((left, top + 13.0), Anchor::Start, "label part", shortened(&part.name, room, NAME)));
    shapes.push(Shape::text((right, top + 13.0), Anchor::End, class, word));
    let (y, foot) = (top + BAR.0, top + BAR.0 + BAR.1);
    let wanted = left + known(part.share) * scale;
    let end = wanted.min(right);
    if end > left + 0.5 {
        let area = Area { x: left, y, width: end - left, height: BAR.1 };
        shapes.push(Shape::Rect { area, class: part.verdict.class() });
        hatch(shapes, &area, part.verdict);
        shapes.push(Shape::Rect { area, class: "thin" });
        // Two strokes across the end: the bar goes on.
        if wanted > right + 0.5 {
            for x in [right - 12.0, right - 7.0] {
                shapes.push(Shape::line((x - 2.0, foot + 2.0), (x + 2.0, y - 2.0), "outline"));
            }
        }
    }
    let limit = left + scale;
    shapes.push(Shape::line((limit, y - 2.5), (limit, foot + 2.5), "outline"));
    let stress = shortened(&part.stress, right - left, TEXT);
    shapes.push(Shape::text((left, foot + 14.0), Anchor::Start, "label quiet", stress));
}

/// Lines over a bar as one path: none where it holds, falling ones where the margin is thin, crossing ones where there is
/// none.
fn hatch(shapes: &mut Vec<Shape>, area: &Area, verdict: Verdict) {
    let gap = match verdict {
        Verdict::Holds => return,
        Verdict::Thin => 7.0,
        Verdict::Over => 5.0,
    };
    let mut d = String::new();
    let (right, foot) = (area.x + area.width, area.y + area.height);
    let count = (((area.width + area.height) / gap).ceil()).min(2000.0) as u32;
    for index in 1..count {
        // Where the line meets the upper edge, or would.
        let start = area.x - area.height + gap * f64::from(index);
        let (from, to) = (start.max(area.x), (start + area.height).min(right));
        let mut stroke = |flip: bool| {
            let y = |x: f64| if flip { foot - (x - start) } else { area.y + (x - start) };
            // A String takes every write.
            let _ = write!(d, "M{} {}L{} {}", short(from), short(y(from)), short(to), short(y(to)));
        };
        stroke(false);
        if verdict == Verdict::Over {
            stroke(true);
        }
    }
    shapes.push(Shape::Path { d, class: "hatch" });
}

/// Shares of the allowable under the bars.
fn axis(shapes: &mut Vec<Shape>, y: f64, (left, right): (f64, f64), scale: f64) {
    shapes.push(Shape::line((left, y), (right, y), "dimension"));
    for (share, text) in [(0.0, "0"), (0.5, "50\u{2009}%"), (1.0, "allowable")] {
        let x = left + share * scale;
        shapes.push(Shape::line((x, y), (x, y + 4.0), "dimension"));
        let half = 0.5 * text_width(text, TEXT);
        let at = x.min(right - half).max(left + half);
        shapes.push(Shape::text((at, y + 17.0), Anchor::Middle, "label quiet", text));
    }
}

fn describe(parts: &[PartBar], weakest: Option<&PartBar>) -> String {
    let Some(weakest) = weakest else {
        return "Stress against allowable: no parts.".to_owned();
    };
    let count = |verdict| parts.iter().filter(|part| part.verdict == verdict).count();
    let mut text = Saying::new(System::Metric, "Stress of ");
    text.number(parts.len() as f64, 0).say(" parts against what each may bear. The weakest is ").say(&weakest.name);
    text.say(": ").number(100.0 * known(weakest.share), 0).say(" % of its allowable, ");
    text.say(&weakest.stress);
    for (verdict, words) in [(Verdict::Over, " over the limit"), (Verdict::Thin, " with thin margin")] {
        if count(verdict) > 0 {
            text.say("; ").number(count(verdict) as f64, 0).say(words);
        }
    }
    text.end()
}
