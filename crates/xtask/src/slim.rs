//! Takes functions out of the program that the linker keeps.
//!
//! Some stay because nobody can see that they are unused: a crate that the framework brings along offers classes to JavaScript. Others are called, and
//! do nothing that a page needs: they put into words why the program stops. All lose their bodies, by name, as long as the program still has names.

use crate::Outcome;
use crate::wasm_file::{
    BROKEN, CODE, bodies, function_names, imported_functions, program, sections, write_block, write_number,
};

/// No locals, `unreachable`, `end`: valid for a function of any type.
const EMPTY_BODY: [u8; 3] = [0x00, 0x00, 0x0b];

/// The program with empty bodies for the functions whose name holds one of the words, and how many they were.
pub fn without(wasm: &[u8], words: &[&str]) -> Outcome<(Vec<u8>, usize)> {
    emptied(wasm, words).ok_or_else(|| BROKEN.to_owned())
}

fn emptied(wasm: &[u8], words: &[&str]) -> Option<(Vec<u8>, usize)> {
    let sections = sections(wasm)?;
    let imported = imported_functions(&sections)?;
    let unused = named(&sections, words)?;
    let (code, count) = with_empty_bodies(&bodies(&sections)?, |index| unused.contains(&(imported + index)));
    let slim = sections.iter().map(|(kind, content)| (*kind, if *kind == CODE { &code[..] } else { *content }));
    Some((program(slim), count))
}

/// The numbers of the functions whose name holds one of the words.
fn named(sections: &[(u8, &[u8])], words: &[&str]) -> Option<Vec<u32>> {
    let names = function_names(sections)?;
    let is_meant = |name: &str| words.iter().any(|word| name.contains(word));
    Some(names.into_iter().filter(|(_, name)| is_meant(name)).map(|(index, _)| index).collect())
}

fn with_empty_bodies(bodies: &[&[u8]], is_unused: impl Fn(u32) -> bool) -> (Vec<u8>, usize) {
    let mut code = Vec::new();
    let mut count = 0;
    write_number(&mut code, u32::try_from(bodies.len()).unwrap_or(u32::MAX));
    for (index, body) in (0..).zip(bodies) {
        let is_unused = is_unused(index);
        count += usize::from(is_unused);
        write_block(&mut code, if is_unused { &EMPTY_BODY } else { body });
    }
    (code, count)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wasm_file::{CUSTOM, FUNCTIONS, IMPORTS};

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
