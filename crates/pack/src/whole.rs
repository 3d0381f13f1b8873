//! Both halves of a pack in one file, as it is handed on: the header, the length of the key (a byte) and of each half (four
//! bytes, the lowest first), then key, core and book.
//!
//! The key stands here and not in a half: who asks questions needs none. It is told from the pack as the pack's own word,
//! which proves nothing by itself (see the room that opens packs).

use crate::frame::{Fault, LARGEST_BOOK, LARGEST_CORE, UNREADABLE, behind, body, header};
use crate::{Book, Core, check_lessons, join, read_book, read_core};
use alloc::string::String;
use alloc::vec::Vec;

/// The largest file that is read, in bytes.
pub const LARGEST_WHOLE: usize = LARGEST_CORE + LARGEST_BOOK + 300;
/// Characters of a public key in the format of minisign: 42 bytes in Base64.
pub const KEY: usize = 56;
/// Lengths that stand before the parts.
const LENGTHS: usize = 9;

/// What a file holds, as it stands there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Whole<'a> {
    /// The public key with which the pack says that it is signed, in the format of minisign; empty for none.
    pub key: &'a str,
    /// Bytes of the core.
    pub core: &'a [u8],
    /// Bytes of the book.
    pub book: &'a [u8],
}

/// Whether a text has the form of a public key: [`KEY`] characters of Base64 without an end mark.
#[must_use]
pub fn is_key(text: &str) -> bool {
    let sign = |b: u8| b.is_ascii_alphanumeric() || matches!(b, b'+' | b'/');
    text.len() == KEY && text.bytes().all(sign)
}

/// The bytes of the file. A key that has not the form of one is left out, and halves that are larger than a reader takes
/// make a file that no reader takes.
#[must_use]
pub fn write_whole(whole: &Whole<'_>) -> Vec<u8> {
    let key = if is_key(whole.key) { whole.key } else { "" };
    let mut bytes = header(b'w');
    bytes.push(key.len() as u8);
    for half in [whole.core, whole.book] {
        bytes.extend(u32::try_from(half.len()).unwrap_or(u32::MAX).to_le_bytes());
    }
    for part in [key.as_bytes(), whole.core, whole.book] {
        bytes.extend(part);
    }
    bytes
}

/// The parts of a file, none of them read yet.
///
/// # Errors
/// A sentence that says what is wrong with the bytes.
pub fn parts(bytes: &[u8]) -> Result<Whole<'_>, Fault> {
    let damaged = || Fault(String::from(UNREADABLE));
    let (lengths, rest) = body(b'w', bytes, LARGEST_WHOLE)?.split_at_checked(LENGTHS).ok_or_else(damaged)?;
    let long = |at: usize| {
        let four = lengths.get(at..at + 4)?.try_into().ok()?;
        usize::try_from(u32::from_le_bytes(four)).ok()
    };
    let (core, book) = long(1).zip(long(5)).ok_or_else(damaged)?;
    let (key, rest) = rest.split_at_checked(usize::from(lengths[0])).ok_or_else(damaged)?;
    let (core, rest) = rest.split_at_checked(core).ok_or_else(damaged)?;
    let (book, rest) = rest.split_at_checked(book).ok_or_else(damaged)?;
    let key = core::str::from_utf8(key).ok().filter(|k| k.is_empty() || is_key(k)).ok_or_else(damaged)?;
    if rest.is_empty() { Ok(Whole { key, core, book }) } else { Err(behind()) }
}

/// Reads a file with everything in it, trusting nothing: all that a page would refuse later is refused here.
///
/// # Errors
/// A sentence that says what is wrong with the bytes.
pub fn read_whole(bytes: &[u8]) -> Result<(Whole<'_>, Core, Book), Fault> {
    let whole = parts(bytes)?;
    let mut core = read_core(whole.core)?;
    let mut book = read_book(whole.book)?;
    join(&mut core, core::mem::take(&mut book.late))?;
    check_lessons(&core, &book.lessons)?;
    Ok((whole, core, book))
}
