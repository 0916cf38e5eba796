//! A number with its unit, and its full value for whoever compares.

use holdwater_pictures::chart::scale::number;
use leptos::prelude::*;

/// A number rounded for reading; `data-value` holds it to the last bit. A dash stands for what does not exist.
#[component]
pub fn Quantity(
    /// The number, if there is one.
    #[prop(into)]
    value: Signal<Option<f64>>,
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
    let shown = move || value.get().map_or_else(|| "\u{2013}".to_owned(), |value| with_sign(value, decimals, signed));
    let exact = move || value.get().map(|value| value.to_string());
    let unit = move || (value.get().is_some() && !unit.is_empty()).then(|| view! { <span class="unit">"\u{2009}"{unit}</span> });
    view! { <span class="quantity" data-test=test data-value=exact>{shown}{unit}</span> }
}

fn with_sign(value: f64, decimals: usize, signed: bool) -> String {
    let text = number(value, decimals);
    if signed && value > 0.0 { format!("+{text}") } else { text }
}
