//! A number with its unit, and its full value for whoever compares.

use holdwater_pictures::chart::scale::number;
use leptos::prelude::*;

use crate::live::{Live, live};

/// A number rounded for reading; `data-value` holds it to the last bit. A dash stands for none.
#[component]
pub fn Quantity(
    /// The number, if there is one.
    value: Live<Option<f64>>,
    /// Decimals shown.
    decimals: usize,
    /// The unit, unless it stands elsewhere, as in the head of a column.
    #[prop(optional)]
    unit: &'static str,
    /// Name for tests.
    #[prop(optional)]
    test: Option<&'static str>,
    /// Whether a plus sign stands before what is above zero.
    #[prop(optional)]
    signed: bool,
) -> impl IntoView {
    let (for_text, for_unit) = (value.clone(), value.clone());
    let text = live(move || shown(for_text(), decimals, signed));
    let exact = live(move || value().map(|value| value.to_string()));
    let unit = live(move || if for_unit().is_some() && !unit.is_empty() { unit } else { "" });
    view! {
        <span class="quantity" data-test=test data-value=exact>{text}<span class="unit">"\u{2009}"{unit}</span></span>
    }
}

fn shown(value: Option<f64>, decimals: usize, signed: bool) -> String {
    let Some(value) = value else {
        return "\u{2013}".to_owned();
    };
    let text = number(value, decimals);
    if signed && value > 0.0 { format!("+{text}") } else { text }
}
