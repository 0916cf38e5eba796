//! Reads a plain decimal number, correctly rounded.
//!
//! The standard library's parser does this for every number there is, with twelve kilobytes of tables that do not compress and that the
//! page would carry for numbers like `21.5`. A link and a field hold plain decimals of at most some twenty
//! digits, for which whole numbers of 128 bits are enough.

/// Digits that are read; further ones only say that there is more. Ten to this power fits 64 bits.
const MOST_DIGITS: u32 = 19;

/// Ten to a small power.
fn ten_to(power: u32) -> u128 {
    10_u128.pow(power)
}

/// The value of digits with at most one point among them, and nothing else; `None` without any digit.
pub(crate) fn parse(text: &str) -> Option<f64> {
    let (whole, fraction) = text.split_once('.').unwrap_or((text, ""));
    if whole.is_empty() && fraction.is_empty() {
        return None;
    }
    let mut mantissa: u64 = 0;
    let mut read = 0;
    // The value is mantissa * 10^(dropped - decimals).
    let (mut dropped, mut decimals) = (0_u32, 0_u32);
    for (digit, is_fraction) in
        whole.bytes().map(|digit| (digit, false)).chain(fraction.bytes().map(|digit| (digit, true)))
    {
        let digit = u64::from(digit.checked_sub(b'0').filter(|digit| *digit < 10)?);
        if read < MOST_DIGITS {
            mantissa = mantissa * 10 + digit;
            read += u32::from(mantissa > 0);
            decimals = decimals.saturating_add(u32::from(is_fraction));
        } else if !is_fraction {
            dropped = dropped.saturating_add(1);
        }
    }
    Some(if dropped > 0 { larger(mantissa, dropped) } else { smaller(mantissa, decimals) })
}

/// mantissa * 10^power: beyond every range of this project, so that rounding does not matter.
fn larger(mantissa: u64, power: u32) -> f64 {
    (0..power.min(400)).fold(mantissa as f64, |value, _| value * 10.0)
}

/// mantissa / 10^decimals, correctly rounded (below 1e-19 times the mantissa: to within the 63rd binary digit).
fn smaller(mantissa: u64, decimals: u32) -> f64 {
    if mantissa == 0 || decimals > 300 {
        return 0.0;
    }
    // All 128 bits are used, so that the quotient has at least 64: ten more than a number holds.
    let (mut quotient, mut shift) = (u128::from(mantissa), 0_i32);
    let mut left = decimals;
    loop {
        let lead = quotient.leading_zeros();
        quotient <<= lead;
        shift += lead.cast_signed();
        let power = left.min(MOST_DIGITS);
        let divisor = ten_to(power);
        // Whatever is left over is remembered in the last bit, which is far below the one that rounds.
        let rest = u128::from(!quotient.is_multiple_of(divisor));
        quotient = (quotient / divisor) | rest;
        left -= power;
        if left == 0 {
            break;
        }
    }
    // The conversion rounds to nearest, ties to even; a power of two changes no digit.
    (0..shift).fold(quotient as f64, |value, _| value * 0.5)
}

#[cfg(test)]
mod tests {
    use super::parse;
    use proptest::prelude::*;

    #[test]
    fn what_is_not_a_plain_decimal_is_none() {
        for text in ["", ".", "1.2.3", "-1", "1e5", "a", "1 2", "\u{663}"] {
            assert_eq!(parse(text), None, "{text:?}");
        }
    }

    #[test]
    fn absurd_lengths_neither_hang_nor_overflow() {
        assert!(parse(&"9".repeat(100_000)).is_some_and(|value| value > 1e300));
        assert_eq!(parse(&format!("0.{}1", "0".repeat(100_000))), Some(0.0));
        assert_eq!(parse(&format!("{}1.5", "0".repeat(1000))), Some(1.5));
    }

    proptest! {
        #[test]
        fn every_number_that_is_printed_comes_back(value in prop_oneof![0.0..200.0_f64, 0.0..5000.0_f64, 0.0..1e-3_f64, 1e3..1e15_f64]) {
            prop_assert_eq!(parse(&format!("{value}")), Some(value));
        }

        #[test]
        fn digits_read_as_the_standard_library_reads_them(whole in 0_u64..100_000_000, fraction in "[0-9]{0,11}") {
            let text = format!("{whole}.{fraction}");
            prop_assert_eq!(parse(&text), text.parse::<f64>().ok());
        }
    }
}
