//! Reads and writes the grammar of wasm files: numbers, lengths, sections. Binary format of the WebAssembly core
//! specification, chapter 5.

use anyhow::{Context, Result, bail};

/// What every file begins with: magic number and version 1.
pub(crate) const BEGINNING: &[u8; 8] = b"\0asm\x01\0\0\0";

/// The sections of a file.
pub(crate) fn opened(file: &[u8]) -> Result<Reader<'_>> {
    let mut reader = Reader(file);
    if reader.take(BEGINNING.len())? != BEGINNING {
        bail!("It does not begin as a wasm file of version 1.");
    }
    Ok(reader)
}

/// Appends an unsigned LEB128 number.
pub(crate) fn put_number(bytes: &mut Vec<u8>, mut number: usize) {
    while number >= 0x80 {
        bytes.push((number & 0x7f) as u8 | 0x80);
        number >>= 7;
    }
    bytes.push(number as u8);
}

/// Appends a length and that many bytes.
pub(crate) fn put_sized(bytes: &mut Vec<u8>, body: &[u8]) {
    put_number(bytes, body.len());
    bytes.extend_from_slice(body);
}

/// Bytes that are read from the front.
pub(crate) struct Reader<'a>(&'a [u8]);

impl<'a> Reader<'a> {
    pub(crate) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// What has not been read yet.
    pub(crate) fn rest(&self) -> &'a [u8] {
        self.0
    }

    pub(crate) fn take(&mut self, count: usize) -> Result<&'a [u8]> {
        let (taken, rest) = self.0.split_at_checked(count).context("It ends too early.")?;
        self.0 = rest;
        Ok(taken)
    }

    pub(crate) fn byte(&mut self) -> Result<u8> {
        Ok(self.take(1)?[0])
    }

    /// An unsigned LEB128 number of at most 32 bits.
    pub(crate) fn number(&mut self) -> Result<usize> {
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
    pub(crate) fn sized(&mut self) -> Result<Reader<'a>> {
        let length = self.number()?;
        self.take(length).map(Reader)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failing unwrap is a failing test")]
    use super::*;

    #[test]
    fn numbers_go_in_and_out() {
        // Published: the LEB128 example of the DWARF standard, 624485 = e5 8e 26.
        let mut bytes = Vec::new();
        put_number(&mut bytes, 624_485);
        assert_eq!(bytes, [0xe5, 0x8e, 0x26]);
        assert_eq!(Reader(&bytes).number().unwrap(), 624_485);
        assert!(Reader(&[0x80; 6]).number().is_err(), "it does not end");
        assert!(Reader(&[5, 1, 2]).sized().is_err(), "it ends too early");
    }
}
