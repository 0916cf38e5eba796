//! Putting short lists in order.

/// Sorts by a number, smallest first; equal ones keep their order.
///
/// By insertion: the lists of this project have a few dozen entries and are nearly in order, and the standard library's
/// sort weighs five kilobytes in the page for every type it is used with.
pub fn sort_by_number<T>(items: &mut [T], number: impl Fn(&T) -> f64) {
    for end in 1..items.len() {
        let mut place = end;
        while place > 0 && number(&items[place]).total_cmp(&number(&items[place - 1])).is_lt() {
            items.swap(place, place - 1);
            place -= 1;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::sort_by_number;

    #[test]
    fn closed_form_sorts_like_the_standard_library_and_keeps_equals_in_order() {
        let mut items: [(f64, char); 5] = [(3.0, 'a'), (1.0, 'b'), (3.0, 'c'), (-2.0, 'd'), (1.0, 'e')];
        let mut expected = items;
        expected.sort_by(|a, b| a.0.total_cmp(&b.0));
        sort_by_number(&mut items, |item| item.0);
        assert_eq!(items, expected);
        let mut none: [f64; 0] = [];
        sort_by_number(&mut none, |number| *number);
    }
}
