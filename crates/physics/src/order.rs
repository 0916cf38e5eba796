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

/// Sorts a list that may be long. Equal ones do not keep their order.
///
/// Shell's method with shrinking gaps: no faster than it has to be, and small.
pub fn sort_long<T>(items: &mut [T], is_before: impl Fn(&T, &T) -> bool) {
    let mut gap = items.len();
    while gap > 1 {
        gap = if gap == 2 { 1 } else { gap * 5 / 11 };
        for end in gap..items.len() {
            let mut place = end;
            while place >= gap && is_before(&items[place], &items[place - gap]) {
                items.swap(place, place - gap);
                place -= gap;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{sort_by_number, sort_long};

    #[test]
    fn closed_form_a_long_list_is_sorted_like_by_the_standard_library() {
        let mut value = 1_u32;
        for length in [0, 1, 2, 3, 4, 10, 100, 1000] {
            let mut items: Vec<u32> = Vec::new();
            for _ in 0..length {
                value = value.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                items.push(value >> 23);
            }
            let mut expected = items.clone();
            expected.sort_unstable();
            sort_long(&mut items, |one, other| one < other);
            assert_eq!(items, expected);
        }
    }

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
