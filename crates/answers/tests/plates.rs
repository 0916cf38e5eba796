//! Flights with a restrictor against an independent integration in SciPy: `tests/reference/plates.py` wrote the table from the written
//! model.

mod table;

#[test]
fn tool_scipy_flies_the_same_plates_to_the_same_heights() {
    table::compare_all("plates.json", 94);
}
