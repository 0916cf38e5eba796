//! Lifted water as drops.

use super::vessel::Vessel;

/// Lifted water in the section of a vessel, lengths in m from the nozzle end on the axis.
#[derive(Clone, Debug, PartialEq)]
pub enum Lifted {
    /// Drops: centre and radius.
    Drops(Vec<(f64, f64, f64)>),
    /// More than drops can show: the bore filled between two heights.
    Slug(f64, f64),
}

/// Most drops drawn.
const MOST: usize = 120;
/// Drops side by side.
const COLUMNS: usize = 4;
/// Share of their own cells that drops fill.
const PACKING: f64 = 0.38;

/// Places drops of the given total area around a height, between two others and beside a tube, of which top and half
/// width are given (0 for none). The places depend on nothing but
/// their numbers, so that drops glide and never flicker while a value is dragged.
pub fn lifted(vessel: &Vessel, area: f64, centre: f64, (low, high): (f64, f64), tube: (f64, f64)) -> Lifted {
    let bore = 2.0 * vessel.radius;
    let cell = (bore / COLUMNS as f64).min((area / PACKING / 14.0).sqrt());
    let wanted = area / (PACKING * cell * cell);
    let count = if wanted.is_finite() { wanted.round().max(1.0) } else { f64::INFINITY };
    let rows = (count / COLUMNS as f64).ceil();
    let pitch = (1.6 * cell).min((high - low) / rows);
    if count > MOST as f64 || pitch < cell {
        let half = 0.5 * (area / bore).min(high - low);
        let middle = held(centre, low + half, high - half);
        return Lifted::Slug(middle - half, middle + half);
    }
    let count = count as usize;
    let sizes: Vec<f64> = (0..count).map(|index| 1.0 + 0.25 * scatter(index, 1)).collect();
    let squares: f64 = sizes.iter().map(|size| size * size).sum();
    let unit = (area / core::f64::consts::PI / squares).sqrt();
    let rows = count.div_ceil(COLUMNS);
    let mut drops: Vec<(f64, f64, f64)> = (0..count)
        .map(|index| {
            let radius = unit * sizes[index];
            let (row, column) = (index / COLUMNS, index % COLUMNS);
            let in_row = (count - row * COLUMNS).min(COLUMNS);
            let pitch_x = 0.94 * bore / COLUMNS as f64;
            let x = (column as f64 - 0.5 * (in_row as f64 - 1.0)) * pitch_x;
            let y = centre + (row as f64 - 0.5 * (rows as f64 - 1.0)) * pitch;
            let sway = |pitch: f64, salt| (0.5 * pitch - radius).max(0.0) * 0.9 * scatter(index, salt);
            (x + sway(pitch_x, 2), y + sway(pitch, 3), radius)
        })
        .collect();
    let mean = drops.iter().map(|(_, y, radius)| y * radius * radius).sum::<f64>() / (squares * unit * unit);
    for drop in &mut drops {
        drop.1 = held(drop.1 + centre - mean, low + drop.2, high - drop.2);
        // The dome narrows: a drop that does not fit at its height hangs a little lower.
        for _ in 0..40 {
            if room(vessel, drop.1, drop.2) >= 0.0 {
                break;
            }
            drop.1 = (drop.1 - 0.25 * drop.2).max(low + drop.2);
        }
        let room = room(vessel, drop.1, drop.2).max(0.0);
        // Beside a tube and not behind it, or a part of the water would be out of sight.
        let clear = tube.1 + drop.2;
        if drop.1 - drop.2 < tube.0 && drop.0.abs() < clear {
            drop.0 = clear.copysign(drop.0);
        }
        drop.0 = drop.0.clamp(-room, room);
    }
    Lifted::Drops(drops)
}

/// How far from the axis the centre of a drop may lie.
fn room(vessel: &Vessel, y: f64, radius: f64) -> f64 {
    let narrow = vessel.half_width(y + 0.7 * radius).min(vessel.half_width((y - 0.7 * radius).max(0.0)));
    // Off the wall by a hair, so that the outline stays readable.
    0.97 * narrow - radius
}

fn held(value: f64, low: f64, high: f64) -> f64 {
    if value.is_finite() { value.min(high).max(low) } else { low }
}

/// A number from -1 to 1 that looks random and is always the same for the same index.
fn scatter(index: usize, salt: u32) -> f64 {
    let mut bits = (index as u32).wrapping_mul(0x9e37_79b9) ^ salt.wrapping_mul(0x85eb_ca6b);
    bits = (bits ^ (bits >> 15)).wrapping_mul(0x2c1b_3c6d);
    bits = (bits ^ (bits >> 13)).wrapping_mul(0x297a_2d39);
    f64::from((bits ^ (bits >> 16)) & 0xffff) / 32_767.5 - 1.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn drops_have_the_water_s_area_and_height() {
        let vessel = Vessel::new(0.33, 0.088, 0.009);
        for litres in [0.002, 0.02, 0.1, 0.25] {
            let area = litres * 1e-3 / (core::f64::consts::PI * 0.25 * 0.088 * 0.088) * 0.088;
            let Lifted::Drops(drops) = lifted(&vessel, area, 0.2, (0.08, 0.33), (0.0, 0.0)) else {
                panic!("a slug at {litres} L");
            };
            let drawn: f64 = drops.iter().map(|drop| core::f64::consts::PI * drop.2 * drop.2).sum();
            let height = drops.iter().map(|drop| core::f64::consts::PI * drop.2 * drop.2 * drop.1).sum::<f64>() / drawn;
            assert!((drawn / area - 1.0).abs() < 1e-9, "{litres} L: {}", drawn / area);
            assert!((height - 0.2).abs() < 0.01, "{litres} L: {height}");
        }
    }

    #[test]
    fn drops_do_not_cover_each_other_in_open_room() {
        let vessel = Vessel::new(0.33, 0.088, 0.009);
        let Lifted::Drops(drops) = lifted(&vessel, 0.002, 0.18, (0.05, 0.3), (0.0, 0.0)) else { panic!("a slug") };
        for (index, a) in drops.iter().enumerate() {
            for b in &drops[index + 1..] {
                assert!((a.0 - b.0).powi(2) + (a.1 - b.1).powi(2) > 0.98 * (a.2 + b.2).powi(2), "{a:?} {b:?}");
            }
        }
    }

    #[test]
    fn too_much_for_drops_is_a_slug_inside() {
        let vessel = Vessel::new(10.0, 0.02, 0.009);
        let Lifted::Slug(low, high) = lifted(&vessel, 0.1, 9.9, (3.0, 10.0), (0.0, 0.0)) else { panic!("drops") };
        assert!(low >= 3.0 && high <= 10.0 && ((high - low) - 5.0).abs() < 1e-9);
    }
}
