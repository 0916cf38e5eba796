//! Charts as tables.

use leptos::prelude::*;

use crate::live::{Live, on, part};

/// Rows of four written numbers.
pub type NumberRows = Vec<[String; 4]>;

/// A table behind a tap. Its rows are made only while it is open: few open it, and the delay moves often.
#[component]
pub fn NumberTable(
    /// What it shows.
    title: &'static str,
    /// Column heads with units.
    heads: [&'static str; 4],
    /// The rows.
    rows: Live<NumberRows>,
) -> impl IntoView {
    let open = RwSignal::new(false);
    let body = move || {
        if open.get() { rows().into_iter().map(row).collect() } else { Vec::new() }
    };
    view! {
        <details class="as-table" on:toggle=on(move |_| open.update(|open| *open = !*open))>
            <summary>{title}</summary>
            <div class="table-box" tabindex="0" role="region" aria-label=title>
                <table>
                    <thead><tr>{heads.map(|head| view! { <th scope="col">{head}</th> })}</tr></thead>
                    <tbody>{part(body)}</tbody>
                </table>
            </div>
        </details>
    }
}

fn row(cells: [String; 4]) -> AnyView {
    view! { <tr>{cells.map(|cell| view! { <td>{cell}</td> })}</tr> }.into_any()
}
