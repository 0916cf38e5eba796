//! Keeping words apart.

/// Mean width of a character as a share of the text's size: wide for most system fonts, short for none but the widest.
const EM_SHARE: f64 = 0.58;

/// Width of a text, CSS px, on the safe side: no backend tells the same width, and some cannot tell at all.
#[must_use]
pub fn text_width(text: &str, size: f64) -> f64 {
    text.chars().count() as f64 * EM_SHARE * size
}

/// Centres of boxes along an axis, as near as may be to the wanted ones, without overlap and within the ends.
/// Each box is its wanted centre and its length. Where there is no room for all, they share it evenly.
#[must_use]
pub fn spread(boxes: &[(f64, f64)], low: f64, high: f64) -> Vec<f64> {
    let mut order: Vec<usize> = (0..boxes.len()).collect();
    holdwater_physics::order::sort_by_number(&mut order, |index| boxes[*index].0);
    let total: f64 = boxes.iter().map(|(_, length)| length).sum();
    let squeeze = if total > high - low && total > 0.0 { (high - low).max(0.0) / total } else { 1.0 };
    let mut centres = vec![0.0; boxes.len()];
    let mut edge = low;
    for &index in &order {
        let half = 0.5 * boxes[index].1 * squeeze;
        let wanted = if boxes[index].0.is_finite() { boxes[index].0 } else { low };
        centres[index] = wanted.max(edge + half);
        edge = centres[index] + half;
    }
    let mut edge = high;
    for &index in order.iter().rev() {
        let half = 0.5 * boxes[index].1 * squeeze;
        centres[index] = centres[index].min(edge - half);
        edge = centres[index] - half;
    }
    centres
}

/// Words in rows no wider than the given width; a word wider than that has its own row.
#[must_use]
pub fn wrapped(text: &str, width: f64, size: f64) -> Vec<String> {
    let mut rows: Vec<String> = Vec::new();
    // At plain spaces only: a no-break space holds a number and its unit together.
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        match rows.last_mut() {
            Some(row) if text_width(row, size) + text_width(word, size) + EM_SHARE * size <= width => {
                row.push(' ');
                row.push_str(word);
            }
            _ => rows.push(word.to_owned()),
        }
    }
    rows
}

/// The text, cut with an ellipsis where it is wider than the given width.
#[must_use]
pub fn shortened(text: &str, width: f64, size: f64) -> String {
    if text_width(text, size) <= width {
        return text.to_owned();
    }
    let most = (width / (EM_SHARE * size)).floor().clamp(1.0, 1e4) as usize;
    let mut kept: String = text.chars().take(most.saturating_sub(1)).collect();
    kept.truncate(kept.trim_end().len());
    kept.push('\u{2026}');
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_with_room_stay_where_they_belong() {
        let centres = spread(&[(90.0, 14.0), (20.0, 14.0)], 0.0, 120.0);
        assert!((centres[0] - 90.0).abs() < 1e-12 && (centres[1] - 20.0).abs() < 1e-12);
    }

    #[test]
    fn crowded_labels_part_and_stay_inside() {
        for wanted in [[5.0, 6.0, 7.0], [118.0, 119.0, 150.0], [60.0, 60.0, 60.0], [f64::NAN, 3.0, 1e9]] {
            let boxes = wanted.map(|centre| (centre, 26.0));
            let mut centres = spread(&boxes, 0.0, 120.0);
            centres.sort_by(f64::total_cmp);
            assert!(centres[0] >= 13.0 - 1e-9 && centres[2] <= 107.0 + 1e-9, "{centres:?}");
            assert!(centres.windows(2).all(|pair| pair[1] - pair[0] >= 26.0 - 1e-9), "{centres:?}");
        }
    }

    #[test]
    fn too_many_labels_share_the_room() {
        let centres = spread(&[(0.0, 30.0); 8], 0.0, 120.0);
        assert!(centres.iter().all(|centre| (0.0..=120.0).contains(centre)));
        assert!(centres.windows(2).all(|pair| (pair[1] - pair[0]).abs() > 14.9));
    }

    #[test]
    fn long_texts_end_in_an_ellipsis_and_fit() {
        assert_eq!(shortened("splice", 100.0, 12.0), "splice");
        let cut = shortened("sleeve over the middle splice of the booster", 100.0, 12.0);
        assert!(cut.ends_with('\u{2026}') && text_width(&cut, 12.0) <= 100.0, "{cut}");
        assert_eq!(shortened("\u{e9}\u{e9}\u{e9}", f64::NAN, 12.0), "\u{2026}");
    }

    #[test]
    fn words_wrap_between_words() {
        assert_eq!(wrapped("settled ideal", 60.0, 12.0), ["settled", "ideal"]);
        assert_eq!(wrapped("settled ideal", 200.0, 12.0), ["settled ideal"]);
        assert_eq!(wrapped("bare", 1.0, 12.0), ["bare"]);
    }
}
