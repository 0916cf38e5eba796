//! A short checksum, by which a link that was cut short or altered is recognised.

/// Digits of the checksum: no letter that is taken for a digit, and nothing a messenger would escape.
const ALPHABET: [char; 32] = [
    '0', '1', '2', '3', '4', '5', '6', '7', '8', '9', 'a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'j', 'k', 'm', 'n', 'p',
    'q', 'r', 's', 't', 'v', 'w', 'x', 'y', 'z',
];

/// The lowest 30 bits of the CRC-32 of a text as six digits of five bits each, highest first.
///
/// It guards against accidents, not against intent. CRC-32 was chosen because every language has it at hand
/// (`zlib.crc32`), so that a script can write links too.
pub(super) fn checksum(text: &str) -> String {
    let crc = crc32(text.as_bytes());
    [25, 20, 15, 10, 5, 0].map(|shift| ALPHABET[((crc >> shift) & 31) as usize]).iter().collect()
}

/// CRC-32 as in ISO 3309: reflected polynomial 0xEDB88320, all ones before and inverted after.
fn crc32(bytes: &[u8]) -> u32 {
    let all = bytes.iter().fold(u32::MAX, |crc, byte| {
        // Bit by bit and without a table: links are short.
        (0..8).fold(crc ^ u32::from(*byte), |crc, _| if crc & 1 == 1 { (crc >> 1) ^ 0xEDB8_8320 } else { crc >> 1 })
    });
    !all
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The check value that catalogues of CRC polynomials list for this one.
    #[test]
    fn published_check_value_of_crc_32() {
        assert_eq!(crc32(b"123456789"), 0xCBF4_3926);
    }

    #[test]
    fn a_checksum_is_six_digits_of_the_alphabet_highest_bits_first() {
        // 0xCBF43926 without its two highest bits is 00101 11111 01000 01110 01001 00110.
        assert_eq!(checksum("123456789"), "5z8e96");
    }
}
