//! Removes from a wasm file the sections that only debuggers read.

use crate::Outcome;
use crate::wasm_file::{BROKEN, CUSTOM, Reader, program, sections};

/// The same program without the names of its functions and of the tools that made it.
pub fn strip_names(wasm: &[u8]) -> Outcome<Vec<u8>> {
    let sections = sections(wasm).ok_or(BROKEN)?;
    Ok(program(sections.into_iter().filter(|(kind, content)| *kind != CUSTOM || !is_for_debuggers(content))))
}

fn is_for_debuggers(custom_section: &[u8]) -> bool {
    let name = Reader(custom_section).block();
    name.is_some_and(|name| name == b"name" || name == b"producers" || name.starts_with(b".debug"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wasm_file::HEAD;

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
    fn a_file_cut_short_is_an_error() {
        let whole = [HEAD, &section(10, b"code")].concat();
        assert!(strip_names(&whole[..whole.len() - 1]).is_err());
        assert!(strip_names(b"<html>").is_err());
    }
}
