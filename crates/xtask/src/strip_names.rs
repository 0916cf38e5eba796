//! Removes from a wasm file the sections that only debuggers read.
//!
//! A wasm file is an eight-byte head and a row of sections: a number for the kind, the length as
//! an unsigned LEB128 number, and the content. A custom section (kind 0) starts with its name.

use crate::Outcome;

const HEAD: &[u8] = b"\0asm\x01\0\0\0";
const CUSTOM: u8 = 0;

/// The same program without the names of its functions and of the tools that made it.
pub fn strip_names(wasm: &[u8]) -> Outcome<Vec<u8>> {
    let broken = || "this is no wasm file, or one that is cut short".to_owned();
    let mut rest = wasm.strip_prefix(HEAD).ok_or_else(broken)?;
    let mut stripped = HEAD.to_vec();
    while let Some((kind, after_kind)) = rest.split_first() {
        let (length, body) = read_length(after_kind).ok_or_else(broken)?;
        let content = body.get(..length).ok_or_else(broken)?;
        let after = &body[length..];
        if *kind != CUSTOM || !is_for_debuggers(content) {
            stripped.extend_from_slice(&rest[..rest.len() - after.len()]);
        }
        rest = after;
    }
    Ok(stripped)
}

fn is_for_debuggers(custom_section: &[u8]) -> bool {
    let name = read_length(custom_section).and_then(|(length, rest)| rest.get(..length));
    name.is_some_and(|name| name == b"name" || name == b"producers" || name.starts_with(b".debug"))
}

/// Reads an unsigned LEB128 number of at most 32 bits and returns what follows it.
fn read_length(bytes: &[u8]) -> Option<(usize, &[u8])> {
    let mut value = 0_u64;
    for (index, byte) in bytes.iter().take(5).enumerate() {
        value |= u64::from(byte & 0x7f) << (7 * index);
        if byte & 0x80 == 0 {
            return Some((usize::try_from(value).ok()?, &bytes[index + 1..]));
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    fn section(kind: u8, content: &[u8]) -> Vec<u8> {
        let length = u8::try_from(content.len()).unwrap();
        [&[kind, length], content].concat()
    }

    #[test]
    fn only_sections_for_debuggers_go() {
        let code = section(10, b"code");
        let features = section(CUSTOM, b"\x0ftarget_features+");
        let names = section(CUSTOM, b"\x04name-and-more");
        let whole = [HEAD, &code, &names, &features].concat();
        assert_eq!(strip_names(&whole), Ok([HEAD, &code, &features].concat()));
    }

    #[test]
    fn lengths_of_several_bytes_are_read() {
        assert_eq!(read_length(&[0xe5, 0x8e, 0x26, 7]), Some((624_485, &[7][..])));
        assert_eq!(read_length(&[0x80]), None);
    }

    #[test]
    fn a_file_cut_short_is_an_error() {
        let whole = [HEAD, &section(10, b"code")].concat();
        assert!(strip_names(&whole[..whole.len() - 1]).is_err());
        assert!(strip_names(b"<html>").is_err());
    }
}
