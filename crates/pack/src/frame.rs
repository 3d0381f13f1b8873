//! Header and body: `PRSMARK`, a byte for the half, the format number, then the fields.

use crate::check::{check_book, check_core};
use crate::codec::{Bytes, Wire};
use crate::wire::{Book, Core};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;

/// The number of the byte format. A reader refuses any other with a sentence.
pub const FORMAT: u16 = 4;
/// The largest core that is read, in bytes.
pub const LARGEST_CORE: usize = 4 << 20;
/// The largest book that is read, in bytes.
pub const LARGEST_BOOK: usize = 16 << 20;

const MAGIC: &[u8; 7] = b"PRSMARK";
const HEADER: usize = MAGIC.len() + 3;

/// Why bytes were refused: a sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault(pub String);

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// Bytes of a core.
///
/// # Errors
/// When the core is not sound; a compiler that collects its own faults never meets this.
pub fn write_core(core: &Core) -> Result<Vec<u8>, Fault> {
    check_core(core)?;
    let bytes = frame(b'c', core);
    // What its own reader would refuse for a text is not written.
    unframe::<Core>(b'c', &bytes, LARGEST_CORE)?;
    Ok(bytes)
}

/// Bytes of a book.
#[must_use]
pub fn write_book(book: &Book) -> Vec<u8> {
    frame(b'b', book)
}

/// Reads a core, trusting nothing: size before parsing, then every count, index and sum.
///
/// # Errors
/// A sentence that says what is wrong with the bytes.
pub fn read_core(bytes: &[u8]) -> Result<Core, Fault> {
    let core: Core = unframe(b'c', bytes, LARGEST_CORE)?;
    check_core(&core)?;
    Ok(core)
}

/// Reads a book.
///
/// # Errors
/// A sentence that says what is wrong with the bytes.
pub fn read_book(bytes: &[u8]) -> Result<Book, Fault> {
    let book = unframe(b'b', bytes, LARGEST_BOOK)?;
    check_book(&book)?;
    Ok(book)
}

pub(crate) fn frame(half: u8, body: &impl Wire) -> Vec<u8> {
    let mut bytes = header(half);
    body.put(&mut bytes);
    bytes
}

pub(crate) fn header(half: u8) -> Vec<u8> {
    let mut bytes = Vec::from(MAGIC.as_slice());
    bytes.push(half);
    bytes.extend(FORMAT.to_le_bytes());
    bytes
}

pub(crate) fn unframe<T: Wire>(half: u8, bytes: &[u8], largest: usize) -> Result<T, Fault> {
    let mut body = Bytes::new(body(half, bytes, largest)?);
    match T::take(&mut body) {
        Some(value) if body.0.is_empty() => Ok(value),
        Some(_) => Err(behind()),
        None => Err(Fault(String::from(body.2.unwrap_or(UNREADABLE)))),
    }
}

/// What stands behind the header of a file of this sort.
pub(crate) fn body(half: u8, bytes: &[u8], largest: usize) -> Result<&[u8], Fault> {
    if bytes.len() > largest {
        return Err(Fault(format!("This pack is larger than {} MB, the most that is read.", largest >> 20)));
    }
    let (header, body) = bytes.split_at_checked(HEADER).ok_or_else(not_a_pack)?;
    if !header.starts_with(MAGIC) || header[MAGIC.len()] != half {
        return Err(not_a_pack());
    }
    let format = u16::from_le_bytes([header[HEADER - 2], header[HEADER - 1]]);
    if format != FORMAT {
        return Err(Fault(format!(
            "This pack is of format {format}; this program reads format {FORMAT}. Get the matching edition."
        )));
    }
    Ok(body)
}

pub(crate) const UNREADABLE: &str = "This pack is damaged: its bytes cannot be read.";

pub(crate) fn behind() -> Fault {
    Fault(String::from("This pack has bytes behind its end. It is damaged."))
}

fn not_a_pack() -> Fault {
    Fault(String::from("This file is not a Pressmark pack."))
}
