//! Flights against an independent integration in SciPy: `tests/reference/trajectories.py` wrote the table from the written model.

mod table;

#[test]
fn tool_scipy_flies_the_same_rockets_to_the_same_heights() {
    table::compare_all("trajectories.json", 28);
}
