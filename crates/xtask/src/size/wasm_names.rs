//! Finds functions by name in a wasm file that still has its name section.

use anyhow::{Context, Result, bail};

/// All names of functions that contain one of `words`.
pub(super) fn containing(wasm: &[u8], words: &[&str]) -> Result<Vec<String>> {
    let names =
        functions(wasm).context("The wasm of the page cannot be checked for what was linked into it.")?;
    Ok(names
        .into_iter()
        .filter(|name| words.iter().any(|word| name.contains(word)))
        .collect())
}

/// The names of all functions: subsection 1 of the custom section "name", by the WebAssembly core specification 7.4.1.
fn functions(wasm: &[u8]) -> Result<Vec<String>> {
    let mut file = Reader(wasm);
    if file.take(8)? != b"\0asm\x01\0\0\0" {
        bail!("It does not begin as a wasm file of version 1.");
    }
    while !file.0.is_empty() {
        let id = file.byte()?;
        let mut section = file.sized()?;
        if id != 0 || section.sized()?.0 != b"name" {
            continue;
        }
        while !section.0.is_empty() {
            let kind = section.byte()?;
            let mut part = section.sized()?;
            if kind != 1 {
                continue;
            }
            let count = part.number()?;
            let mut names = Vec::new();
            for _ in 0..count {
                part.number()?;
                names.push(String::from_utf8_lossy(part.sized()?.0).into_owned());
            }
            return Ok(names);
        }
    }
    bail!("It holds no names of functions: the release profile must not strip them.")
}

struct Reader<'a>(&'a [u8]);

impl<'a> Reader<'a> {
    fn take(&mut self, count: usize) -> Result<&'a [u8]> {
        let (taken, rest) = self.0.split_at_checked(count).context("It ends too early.")?;
        self.0 = rest;
        Ok(taken)
    }

    fn byte(&mut self) -> Result<u8> {
        Ok(self.take(1)?[0])
    }

    /// An unsigned LEB128 number of at most 32 bits.
    fn number(&mut self) -> Result<usize> {
        let mut number = 0_u64;
        for shift in [0, 7, 14, 21, 28] {
            let byte = self.byte()?;
            number |= u64::from(byte & 0x7f) << shift;
            if byte & 0x80 == 0 {
                return usize::try_from(number).context("A number in it is too large.");
            }
        }
        bail!("A number in it does not end.")
    }

    /// A length and that many bytes.
    fn sized(&mut self) -> Result<Reader<'a>> {
        let length = self.number()?;
        self.take(length).map(Reader)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failing unwrap is a failing test")]
    use super::*;

    /// A wasm file written by hand: an empty custom section "x", then names `core::flt2dec::a` (index 0) and `b` (1).
    fn file() -> Vec<u8> {
        let mut names = vec![2, 0, 16];
        names.extend(b"core::flt2dec::a");
        names.extend([1, 1, b'b']);
        let mut section = vec![4];
        section.extend(b"name");
        section.extend([0, 2, 1, b'm', 1, names.len() as u8]);
        section.extend(names);
        let mut file = b"\0asm\x01\0\0\0".to_vec();
        file.extend([0, 2, 1, b'x', 0, section.len() as u8]);
        file.extend(section);
        file
    }

    #[test]
    fn a_linked_function_is_found_by_a_part_of_its_name() {
        assert_eq!(functions(&file()).unwrap(), ["core::flt2dec::a", "b"]);
        assert_eq!(
            containing(&file(), &["flt2dec", "dec2flt"]).unwrap(),
            ["core::flt2dec::a"]
        );
        assert!(containing(&file(), &["dec2flt"]).unwrap().is_empty());
    }

    #[test]
    fn a_file_that_cannot_be_judged_is_no_pass() {
        assert!(functions(&file()[..8]).is_err(), "no names");
        assert!(functions(&file()[..30]).is_err(), "cut short");
        assert!(functions(b"<!doctype html>").is_err(), "no wasm");
    }
}
