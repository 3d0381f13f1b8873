//! The functions of a wasm file that still has its name section: what they are called and how large they are.

use crate::wasm::{self, Reader};
use anyhow::{Context, Result, bail};
use std::collections::BTreeMap;

/// A function that was compiled into the file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Function {
    /// As the compiler mangled it.
    pub(super) name: String,
    /// Bytes of its code.
    pub(super) bytes: usize,
}

/// All functions with code, in order of the file. Sections by the WebAssembly core specification, names by its
/// appendix on the name section.
pub(super) fn functions(wasm: &[u8]) -> Result<Vec<Function>> {
    let mut file = wasm::opened(wasm)?;
    let (mut imported, mut sizes, mut names) = (0, Vec::new(), None);
    while !file.is_empty() {
        let id = file.byte()?;
        let mut section = file.sized()?;
        match id {
            0 if section.sized()?.rest() == b"name" => names = names_in(section)?,
            2 => imported = imported_functions(section)?,
            10 => {
                for _ in 0..section.number()? {
                    sizes.push(section.sized()?.rest().len());
                }
            }
            _ => {}
        }
    }
    let mut names =
        names.context("It holds no names of functions: the release profile must not strip them.")?;
    let named = |(index, bytes)| {
        let name = names.remove(&(imported + index)).unwrap_or_default();
        Function { name, bytes }
    };
    Ok(sizes.into_iter().enumerate().map(named).collect())
}

/// Names by index, imported functions first: subsection 1.
fn names_in(mut section: Reader<'_>) -> Result<Option<BTreeMap<usize, String>>> {
    while !section.is_empty() {
        let kind = section.byte()?;
        let mut part = section.sized()?;
        if kind == 1 {
            let mut names = BTreeMap::new();
            for _ in 0..part.number()? {
                let index = part.number()?;
                names.insert(index, String::from_utf8_lossy(part.sized()?.rest()).into_owned());
            }
            return Ok(Some(names));
        }
    }
    Ok(None)
}

fn imported_functions(mut section: Reader<'_>) -> Result<usize> {
    let mut functions = 0;
    for _ in 0..section.number()? {
        section.sized()?;
        section.sized()?;
        match section.byte()? {
            0 => {
                functions += 1;
                section.number()?;
            }
            // What rustc and its linker do not make before wasm-bindgen: tables, memories, globals, tags.
            kind => bail!("It imports something of kind {kind}, which this reader does not know."),
        }
    }
    Ok(functions)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failing unwrap is a failing test")]
    use super::*;

    fn section(id: u8, body: &[&[u8]]) -> Vec<u8> {
        let body = body.concat();
        [&[id, body.len() as u8], body.as_slice()].concat()
    }

    /// A wasm file written by hand: one imported function, an empty custom section "x", two functions of 3 and 2
    /// bytes, and names for all three.
    fn file() -> Vec<u8> {
        let names: [&[u8]; 2] = [&[1, 21, 3, 0, 2, b'i', b'n', 1, 11], b"flt2dec::ab\x02\x01b"];
        [
            b"\0asm\x01\0\0\0".to_vec(),
            section(2, &[&[1, 1, b'm', 1, b'f', 0, 0]]),
            section(0, &[&[1, b'x']]),
            section(10, &[&[2, 3, 0, 1, 0x0b, 2, 0, 0x0b]]),
            section(0, &[&[4], b"name", &[0, 2, 1, b'm'], &names.concat()]),
        ]
        .concat()
    }

    #[test]
    fn functions_are_named_and_measured() {
        let found = functions(&file()).unwrap();
        let expected = [("flt2dec::ab", 3), ("b", 2)];
        assert_eq!(found.len(), 2);
        for (function, (name, bytes)) in found.iter().zip(expected) {
            assert_eq!((function.name.as_str(), function.bytes), (name, bytes));
        }
    }

    #[test]
    fn a_file_that_cannot_be_judged_is_no_pass() {
        assert!(functions(&file()[..8]).is_err(), "no names");
        assert!(functions(&file()[..file().len() - 1]).is_err(), "cut short");
        assert!(functions(b"<!doctype html>").is_err(), "no wasm");
    }
}
