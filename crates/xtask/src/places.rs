//! Blanks the places in the source that panics would name.
//!
//! Every check that may fail knows its file, line and column: sixteen bytes each, and the names of the files. Once panics say nothing (see
//! [`crate::slim`]), nobody reads them.

use std::ops::Range;

use crate::Outcome;
use crate::wasm_file::{BROKEN, Reader, program, sections};

const DATA: u8 = 11;
/// The kind of data that stands at a fixed address, and the opcodes around the address.
const AT_ADDRESS: u32 = 0;
const CONSTANT: u8 = 0x41;
const END: u8 = 0x0b;
/// How names of source files end.
const SOURCE: &[u8] = b".rs";
/// The length of a place: address and length of the name, line, column.
const PLACE_LENGTH: usize = 16;
/// No source file has as many lines, no line as many columns, no name as many letters.
const MOST: usize = 100_000;

/// A piece of memory that the program starts with.
struct Piece {
    address: usize,
    /// Where its content stands in the section.
    content: Range<usize>,
}

impl Piece {
    /// Where in the section the content of an address stands.
    fn part(&self, address: usize, length: usize) -> Option<Range<usize>> {
        let from = self.content.start + address.checked_sub(self.address)?;
        (from + length <= self.content.end).then_some(from..from + length)
    }
}

/// The program with zeros for every place, and for the names of their files.
pub fn blanked(wasm: &[u8]) -> Outcome<Vec<u8>> {
    without_places(wasm).ok_or_else(|| BROKEN.to_owned())
}

fn without_places(wasm: &[u8]) -> Option<Vec<u8>> {
    let mut blank = Vec::new();
    for (kind, content) in sections(wasm)? {
        let mut content = content.to_vec();
        if kind == DATA {
            for place in places(&content, &pieces(&content)?) {
                content[place].fill(0);
            }
        }
        blank.push((kind, content));
    }
    Some(program(blank))
}

fn pieces(section: &[u8]) -> Option<Vec<Piece>> {
    let mut rest = Reader(section);
    let mut pieces = Vec::new();
    for _ in 0..rest.number()? {
        // A linker writes no other kinds for a program without threads, and no address beyond two gigabytes.
        if rest.number()? != AT_ADDRESS || rest.byte()? != CONSTANT {
            return None;
        }
        let address = usize::try_from(rest.number()?).ok()?;
        if rest.byte()? != END {
            return None;
        }
        let length = rest.block()?.len();
        let end = section.len() - rest.0.len();
        pieces.push(Piece { address, content: end - length..end });
    }
    Some(pieces)
}

/// Where places and the names of their files stand in the section.
fn places(section: &[u8], pieces: &[Piece]) -> Vec<Range<usize>> {
    let mut found = Vec::new();
    for piece in pieces {
        // What holds an address is aligned to four bytes.
        let first = piece.content.start + piece.address.next_multiple_of(4) - piece.address;
        for start in (first..piece.content.end).step_by(4) {
            let place = start..(start + PLACE_LENGTH).min(piece.content.end);
            if let Some(file) = file_of(&section[place.clone()], section, pieces) {
                found.extend([place, file]);
            }
        }
    }
    found
}

/// Where the name of the file of a place stands; `None` if this is no place.
fn file_of(place: &[u8], section: &[u8], pieces: &[Piece]) -> Option<Range<usize>> {
    let mut numbers = place.as_chunks::<4>().0.iter().map(|bytes| u32::from_le_bytes(*bytes) as usize);
    let (address, length, line, column) = (numbers.next()?, numbers.next()?, numbers.next()?, numbers.next()?);
    let sizes = 1..MOST;
    if ![length, line, column].iter().all(|size| sizes.contains(size)) {
        return None;
    }
    pieces.iter().filter_map(|piece| piece.part(address, length)).find(|name| section[name.clone()].ends_with(SOURCE))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wasm_file::write_block;

    fn numbers(numbers: [u32; 4]) -> Vec<u8> {
        numbers.iter().flat_map(|number| number.to_le_bytes()).collect()
    }

    /// A program with one piece of memory, at the address 1024.
    fn program(content: &[u8]) -> Vec<u8> {
        let mut data = vec![1, 0, CONSTANT, 0x80, 0x08, END];
        write_block(&mut data, content);
        crate::wasm_file::program([(DATA, data)])
    }

    #[test]
    fn places_and_the_names_of_their_files_become_zeros() {
        let name = b"src/main.rs.";
        let place = numbers([1024, 11, 42, 7]);
        let wasm = program(&[&name[..], &place, b"kept"].concat());
        assert_eq!(blanked(&wasm), Ok(program(&[&[0; 11][..], b".", &[0; 16], b"kept"].concat())));
    }

    #[test]
    fn other_words_and_numbers_stay() {
        let name = b"src/main.js.";
        for place in [[1024, 11, 42, 7], [1024, 11, 0, 7], [7, 11, 42, 7], [1024, u32::MAX, 42, 7]] {
            let wasm = program(&[&name[..], &numbers(place)].concat());
            assert_eq!(blanked(&wasm), Ok(wasm));
        }
    }

    #[test]
    fn a_file_cut_short_is_an_error() {
        let wasm = program(b"src");
        assert!(blanked(&wasm[..wasm.len() - 1]).is_err());
        assert!(blanked(b"<html>").is_err());
    }
}
