//! Puts the functions of a program into an order that compresses well: those that begin alike stand side by side.
//!
//! wasm-opt can sort functions by their names. So it runs twice: what comes out of the first run tells the order, and for the second the
//! functions are named by their places in it.

use std::collections::HashMap;

use crate::Outcome;
use crate::wasm_file::{
    BROKEN, CUSTOM, FUNCTIONS, NAMES, Reader, bodies, function_names, imported_functions, program, sections,
    write_block, write_number,
};

/// The names of the functions of a program, sorted by their bodies.
pub fn by_body(wasm: &[u8]) -> Outcome<Vec<String>> {
    sorted(wasm).ok_or_else(|| BROKEN.to_owned())
}

/// The program with the place in this order in front of the name of every function.
pub fn numbered(wasm: &[u8], order: &[String]) -> Outcome<Vec<u8>> {
    renamed(wasm, order).ok_or_else(|| BROKEN.to_owned())
}

fn sorted(wasm: &[u8]) -> Option<Vec<String>> {
    let sections = sections(wasm)?;
    let imported = imported_functions(&sections)?;
    let bodies = bodies(&sections)?;
    let body = |index: u32| bodies.get(usize::try_from(index.checked_sub(imported)?).ok()?);
    let mut names: Vec<_> =
        function_names(&sections)?.into_iter().filter_map(|(index, name)| Some((*body(index)?, name))).collect();
    names.sort();
    Some(names.into_iter().map(|(_, name)| name).collect())
}

fn renamed(wasm: &[u8], order: &[String]) -> Option<Vec<u8>> {
    let sections = sections(wasm)?;
    let places: HashMap<&str, usize> = order.iter().enumerate().map(|(place, name)| (name.as_str(), place)).collect();
    let names = function_names(&sections)?;
    let mut functions = Vec::new();
    write_number(&mut functions, u32::try_from(names.len()).ok()?);
    for (index, name) in names {
        // What the first run took out the second does as well.
        let place = places.get(name.as_str()).copied().unwrap_or_default();
        write_number(&mut functions, index);
        write_block(&mut functions, format!("{place:06} {name}").as_bytes());
    }
    let mut section = Vec::new();
    write_block(&mut section, NAMES);
    section.push(FUNCTIONS);
    write_block(&mut section, &functions);
    let others =
        sections.into_iter().filter(|(kind, content)| *kind != CUSTOM || Reader(content).block() != Some(NAMES));
    Some(program(others.chain([(CUSTOM, &section[..])])))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wasm_file::CODE;

    /// A program of functions with these names and bodies.
    fn program(functions: &[(&str, &[u8])]) -> Vec<u8> {
        let count = u8::try_from(functions.len()).unwrap();
        let (mut code, mut names) = (vec![count], vec![count]);
        for (index, (name, body)) in (0..).zip(functions) {
            write_block(&mut code, body);
            names.push(index);
            write_block(&mut names, name.as_bytes());
        }
        let mut section = Vec::new();
        write_block(&mut section, NAMES);
        section.push(FUNCTIONS);
        write_block(&mut section, &names);
        crate::wasm_file::program([(CODE, code), (CUSTOM, section)])
    }

    #[test]
    fn functions_are_named_by_their_place_among_the_bodies() {
        let whole = program(&[("fly", b"c"), ("coast", b"ab"), ("gone", b"z"), ("land", b"a")]);
        let small = program(&[("fly", b"c"), ("coast", b"ab"), ("land", b"a")]);
        let order = by_body(&small).unwrap();
        assert_eq!(order, ["land", "coast", "fly"]);
        let numbered = numbered(&whole, &order).unwrap();
        let expected: &[(&str, &[u8])] =
            &[("000002 fly", b"c"), ("000001 coast", b"ab"), ("000000 gone", b"z"), ("000000 land", b"a")];
        assert_eq!(numbered, program(expected));
    }

    #[test]
    fn a_file_cut_short_is_an_error() {
        let whole = program(&[("fly", b"c")]);
        assert!(by_body(&whole[..whole.len() - 1]).is_err());
        assert!(numbered(b"<html>", &[]).is_err());
    }
}
