//! A number with its unit, and its full value for whoever compares.

use std::rc::Rc;

use holdwater_design::measure::{Measure, System};
use holdwater_pictures::chart::scale::number;

use crate::dom::{El, block};
use crate::state::page;

/// How a number is shown.
#[derive(Clone, Copy)]
pub struct Look {
    /// Decimals shown.
    pub decimals: usize,
    /// The unit, unless it stands elsewhere, as in the head of a column.
    pub unit: &'static str,
    /// Whether a plus sign stands before what is above zero.
    pub signed: bool,
    /// Whether the unit stands at the head of the column and not beside the number.
    pub headed: bool,
}

impl Look {
    /// A number with a unit.
    pub const fn of(decimals: usize, unit: &'static str) -> Self {
        Self { decimals, unit, signed: false, headed: false }
    }

    /// A number in a column that names the unit in its head.
    pub const fn under_head(decimals: usize, unit: &'static str) -> Self {
        Self { headed: true, ..Self::of(decimals, unit) }
    }
}

/// A number rounded for reading, in the units of the page; `data-value` holds it to the last bit, metric. A dash stands for none.
pub fn quantity(value: impl Fn() -> Option<f64> + 'static, look: Look) -> El {
    shared_quantity(Rc::new(value), look)
}

fn shared_quantity(value: Rc<dyn Fn() -> Option<f64>>, look: Look) -> El {
    let units = page().units;
    let measure = Measure::ALL.into_iter().find(|measure| measure.symbol(System::Metric) == look.unit);
    let (for_text, for_unit) = (Rc::clone(&value), Rc::clone(&value));
    let unit = move || {
        let symbol = measure.map_or(look.unit, |measure| measure.symbol(units.get()));
        if !look.headed && for_unit().is_some() { symbol.to_owned() } else { String::new() }
    };
    let text = move || {
        let Some(metric) = for_text() else { return "\u{2013}".to_owned() };
        let system = units.get();
        let (shown, decimals) = match measure {
            // A gain is a difference: degrees have no zero to be taken off.
            Some(measure) if look.signed => {
                (measure.difference(system, metric), measure.decimals(system, look.decimals))
            }
            Some(measure) => (measure.shown(system, metric), measure.decimals(system, look.decimals)),
            None => (metric, look.decimals),
        };
        let text = number(shown, decimals);
        if look.signed && metric > 0.0 { format!("+{text}") } else { text }
    };
    block("span", "quantity")
        .attr_live("data-value", move || value().map(|value| value.to_string()))
        .text_live(text)
        .child(block("span", "unit").text("\u{2009}").text_live(unit))
}
