//! Charts as tables.

use leptos::prelude::*;

/// Rows of already written numbers.
pub type NumberRows = Vec<Vec<String>>;

/// Rows of fixed length as rows of a table.
#[must_use]
pub fn number_rows<const COLUMNS: usize>(rows: Vec<[String; COLUMNS]>) -> NumberRows {
    rows.into_iter().map(Vec::from).collect()
}

/// A table behind a tap. Its rows are made only while it is open: few open it, and the delay moves often.
#[component]
pub fn NumberTable(
    /// What it shows.
    title: &'static str,
    /// Column heads with units.
    heads: [&'static str; 4],
    /// The rows.
    rows: impl Fn() -> NumberRows + Send + Sync + 'static,
) -> impl IntoView {
    let open = RwSignal::new(false);
    let rows = move || if open.get() { rows() } else { NumberRows::new() };
    let row = |cells: Vec<String>| view! { <tr>{cells.into_iter().map(|cell| view! { <td>{cell}</td> }).collect_view()}</tr> };
    view! {
        <details class="as-table" on:toggle=move |_| open.update(|open| *open = !*open)>
            <summary>{title}</summary>
            <div class="table-box" tabindex="0" role="region" aria-label=title>
                <table>
                    <thead><tr>{heads.map(|head| view! { <th scope="col">{head}</th> }).collect_view()}</tr></thead>
                    <tbody>{move || rows().into_iter().map(row).collect_view()}</tbody>
                </table>
            </div>
        </details>
    }
}
