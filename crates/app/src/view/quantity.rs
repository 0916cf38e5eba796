//! A number with its unit, and its full value for whoever compares.

use std::rc::Rc;

use holdwater_pictures::chart::scale::number;

use crate::dom::{El, block};

/// How a number is shown.
#[derive(Clone, Copy)]
pub struct Look {
    /// Decimals shown.
    pub decimals: usize,
    /// The unit, unless it stands elsewhere, as in the head of a column.
    pub unit: &'static str,
    /// Whether a plus sign stands before what is above zero.
    pub signed: bool,
}

impl Look {
    /// A number with a unit.
    pub const fn of(decimals: usize, unit: &'static str) -> Self {
        Self { decimals, unit, signed: false }
    }
}

/// A number rounded for reading; `data-value` holds it to the last bit. A dash stands for none.
pub fn quantity(value: impl Fn() -> Option<f64> + 'static, look: Look) -> El {
    let value: Rc<dyn Fn() -> Option<f64>> = Rc::new(value);
    let (for_text, for_unit) = (Rc::clone(&value), Rc::clone(&value));
    let unit = move || if for_unit().is_some() && !look.unit.is_empty() { look.unit.to_owned() } else { String::new() };
    block("span", "quantity")
        .attr_live("data-value", move || value().map(|value| value.to_string()))
        .text_live(move || shown(for_text(), look))
        .child(block("span", "unit").text("\u{2009}").text_live(unit))
}

fn shown(value: Option<f64>, look: Look) -> String {
    let Some(value) = value else {
        return "\u{2013}".to_owned();
    };
    let text = number(value, look.decimals);
    if look.signed && value > 0.0 { format!("+{text}") } else { text }
}
