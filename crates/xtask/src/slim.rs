//! Takes functions out of the program that the linker keeps.
//!
//! Some stay because nobody can see that they are unused: a crate that the framework brings along offers classes to JavaScript. Others are called, and
//! do nothing that a page needs: they put into words why the program stops. All lose their bodies, by name, as long as the program still has names.

use crate::Outcome;
use crate::wasm_file::{BROKEN, CUSTOM, HEAD, Reader, sections, write_block, write_number};

const IMPORTS: u8 = 2;
const CODE: u8 = 10;
/// The part of the section of names that names functions.
const FUNCTIONS: u8 = 1;
/// No locals, `unreachable`, `end`: valid for a function of any type.
const EMPTY_BODY: [u8; 3] = [0x00, 0x00, 0x0b];

/// The program with empty bodies for the functions whose name holds one of the words, and how many they were.
pub fn without(wasm: &[u8], words: &[&str]) -> Outcome<(Vec<u8>, usize)> {
    emptied(wasm, words).ok_or_else(|| BROKEN.to_owned())
}

fn emptied(wasm: &[u8], words: &[&str]) -> Option<(Vec<u8>, usize)> {
    let sections = sections(wasm)?;
    let content = |wanted| sections.iter().find(|(kind, _)| *kind == wanted).map(|(_, content)| *content);
    let imported = content(IMPORTS).map_or(Some(0), imported_functions)?;
    let unused = named_functions(&sections, words)?;
    let mut slim = HEAD.to_vec();
    let mut count = 0;
    for (kind, content) in &sections {
        slim.push(*kind);
        if *kind == CODE {
            let code = with_empty_bodies(content, |index| unused.contains(&(imported + index)), &mut count)?;
            write_block(&mut slim, &code);
        } else {
            write_block(&mut slim, content);
        }
    }
    Some((slim, count))
}

/// How many functions a program imports; they are numbered before its own.
fn imported_functions(content: &[u8]) -> Option<u32> {
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

/// The numbers of the functions whose name holds one of the words.
fn named_functions(sections: &[(u8, &[u8])], words: &[&str]) -> Option<Vec<u32>> {
    let mut found = Vec::new();
    for (_, content) in sections.iter().filter(|(kind, _)| *kind == CUSTOM) {
        let mut rest = Reader(content);
        if rest.block()? != b"name" {
            continue;
        }
        while !rest.0.is_empty() {
            let (kind, mut names) = (rest.byte()?, Reader(rest.block()?));
            if kind != FUNCTIONS {
                continue;
            }
            for _ in 0..names.number()? {
                let (index, name) = (names.number()?, String::from_utf8_lossy(names.block()?));
                if words.iter().any(|word| name.contains(word)) {
                    found.push(index);
                }
            }
        }
    }
    Some(found)
}

fn with_empty_bodies(code: &[u8], is_unused: impl Fn(u32) -> bool, count: &mut usize) -> Option<Vec<u8>> {
    let mut rest = Reader(code);
    let bodies = rest.number()?;
    let mut written = Vec::new();
    write_number(&mut written, bodies);
    for index in 0..bodies {
        let body = rest.block()?;
        if is_unused(index) {
            *count += 1;
            write_block(&mut written, &EMPTY_BODY);
        } else {
            write_block(&mut written, body);
        }
    }
    Some(written)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn block(content: &[u8]) -> Vec<u8> {
        let mut bytes = Vec::new();
        write_block(&mut bytes, content);
        bytes
    }

    fn section(kind: u8, content: &[u8]) -> Vec<u8> {
        [vec![kind], block(content)].concat()
    }

    /// A program that imports one function and has two, with these names.
    fn program(bodies: [&[u8]; 2]) -> Vec<u8> {
        let import = [block(b"env"), block(b"log"), vec![0, 0]].concat();
        let names: Vec<u8> = (0..)
            .zip(["log", "needed", "stream_of::it"])
            .flat_map(|(i, name)| [vec![i], block(name.as_bytes())].concat())
            .collect();
        [
            b"\0asm\x01\0\0\0".to_vec(),
            section(IMPORTS, &[vec![1], import].concat()),
            section(CODE, &[vec![2], block(bodies[0]), block(bodies[1])].concat()),
            section(CUSTOM, &[block(b"name"), section(FUNCTIONS, &[vec![3], names].concat())].concat()),
        ]
        .concat()
    }

    #[test]
    fn functions_lose_their_bodies_by_name() {
        let long = [0; 200];
        let slim = without(&program([&long, &long]), &["stream"]);
        assert_eq!(slim, Ok((program([&long, &EMPTY_BODY]), 1)));
        let same = without(&program([&long, &long]), &["elsewhere"]);
        assert_eq!(same, Ok((program([&long, &long]), 0)));
    }

    #[test]
    fn a_file_cut_short_is_an_error() {
        let whole = program([&[0; 9], &[0; 9]]);
        assert!(without(&whole[..whole.len() - 1], &["stream"]).is_err());
        assert!(without(b"<html>", &["stream"]).is_err());
    }
}
