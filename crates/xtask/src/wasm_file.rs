//! The outside of a wasm file.
//!
//! It is an eight-byte head and a row of sections: a number for the kind, the length as an unsigned LEB128 number, and the content. A
//! custom section (kind 0) starts with its name.

/// How every wasm file begins.
pub const HEAD: &[u8] = b"\0asm\x01\0\0\0";
/// The kind of sections that no program needs to run.
pub const CUSTOM: u8 = 0;
/// What a program imports.
pub const IMPORTS: u8 = 2;
/// The bodies of functions.
pub const CODE: u8 = 10;
/// The part of the custom section of names that names functions.
pub const FUNCTIONS: u8 = 1;
/// The name of that section.
pub const NAMES: &[u8] = b"name";
/// What is said of a file without such an outside.
pub const BROKEN: &str = "this is no wasm file, or one that is cut short";

/// The sections of a program, each with the number of its kind; `None` for anything else, or one that is cut short.
pub fn sections(wasm: &[u8]) -> Option<Vec<(u8, &[u8])>> {
    let mut rest = Reader(wasm.strip_prefix(HEAD)?);
    let mut sections = Vec::new();
    while !rest.0.is_empty() {
        sections.push((rest.byte()?, rest.block()?));
    }
    Some(sections)
}

/// The program of these sections.
pub fn program<C: AsRef<[u8]>>(sections: impl IntoIterator<Item = (u8, C)>) -> Vec<u8> {
    let mut wasm = HEAD.to_vec();
    for (kind, content) in sections {
        wasm.push(kind);
        write_block(&mut wasm, content.as_ref());
    }
    wasm
}

/// How many functions a program imports; they are numbered before its own.
pub fn imported_functions(sections: &[(u8, &[u8])]) -> Option<u32> {
    let Some((_, content)) = sections.iter().find(|(kind, _)| *kind == IMPORTS) else { return Some(0) };
    let mut rest = Reader(content);
    let mut functions = 0;
    for _ in 0..rest.number()? {
        rest.block()?;
        rest.block()?;
        match rest.byte()? {
            0 => {
                rest.number()?;
                functions += 1;
            }
            // A table, a memory, a global, a tag.
            1 => {
                rest.byte()?;
                rest.limits()?;
            }
            2 => rest.limits()?,
            3 | 4 => {
                rest.byte()?;
                rest.number()?;
            }
            _ => return None,
        }
    }
    Some(functions)
}

/// The functions that have a name, by number.
pub fn function_names(sections: &[(u8, &[u8])]) -> Option<Vec<(u32, String)>> {
    let mut found = Vec::new();
    for (_, content) in sections.iter().filter(|(kind, _)| *kind == CUSTOM) {
        let mut rest = Reader(content);
        if rest.block()? != NAMES {
            continue;
        }
        while !rest.0.is_empty() {
            let (kind, mut names) = (rest.byte()?, Reader(rest.block()?));
            if kind == FUNCTIONS {
                for _ in 0..names.number()? {
                    found.push((names.number()?, String::from_utf8_lossy(names.block()?).into_owned()));
                }
            }
        }
    }
    Some(found)
}

/// The bodies of the functions, in order.
pub fn bodies<'a>(sections: &[(u8, &'a [u8])]) -> Option<Vec<&'a [u8]>> {
    let (_, content) = sections.iter().find(|(kind, _)| *kind == CODE)?;
    let mut rest = Reader(content);
    (0..rest.number()?).map(|_| rest.block()).collect()
}

/// Bytes that are still to be read.
pub struct Reader<'a>(pub &'a [u8]);

impl<'a> Reader<'a> {
    /// One byte.
    pub fn byte(&mut self) -> Option<u8> {
        let (first, rest) = self.0.split_first()?;
        self.0 = rest;
        Some(*first)
    }

    /// An unsigned LEB128 number of at most 32 bits.
    pub fn number(&mut self) -> Option<u32> {
        let mut value = 0_u64;
        for place in 0..5 {
            let byte = self.byte()?;
            value |= u64::from(byte & 0x7f) << (7 * place);
            if byte & 0x80 == 0 {
                return u32::try_from(value).ok();
            }
        }
        None
    }

    /// Bytes after their number.
    pub fn block(&mut self) -> Option<&'a [u8]> {
        let length = usize::try_from(self.number()?).ok()?;
        let (block, rest) = self.0.split_at_checked(length)?;
        self.0 = rest;
        Some(block)
    }

    /// The least and perhaps the greatest size of a table or memory.
    pub fn limits(&mut self) -> Option<()> {
        let has_most = self.byte()? & 1 == 1;
        self.number()?;
        if has_most {
            self.number()?;
        }
        Some(())
    }
}

/// Writes an unsigned LEB128 number.
pub fn write_number(bytes: &mut Vec<u8>, mut value: u32) {
    while value > 0x7f {
        bytes.push(value.to_le_bytes()[0] | 0x80);
        value >>= 7;
    }
    bytes.push(value.to_le_bytes()[0]);
}

/// Writes bytes after their number.
pub fn write_block(bytes: &mut Vec<u8>, block: &[u8]) {
    // A wasm file has less than four gigabytes.
    write_number(bytes, u32::try_from(block.len()).unwrap_or(u32::MAX));
    bytes.extend_from_slice(block);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_program_is_made_of_its_sections() {
        let parts: [(u8, &[u8]); 2] = [(CODE, b"code"), (CUSTOM, b"\x04name")];
        assert_eq!(sections(&program(parts)), Some(parts.to_vec()));
    }

    #[test]
    fn lengths_of_several_bytes_are_read() {
        let mut rest = Reader(&[0xe5, 0x8e, 0x26, 7]);
        assert_eq!((rest.number(), rest.0), (Some(624_485), &[7][..]));
        assert_eq!(Reader(&[0x80]).number(), None);
    }
}
