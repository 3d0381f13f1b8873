//! A record as plain text that a stranger can read in any editor. Format 1:
//!
//! ```text
//! Pressmark record, format 1
//! # A remark.
//! title: Small flat iron
//! condition: A chip at the left heel.
//! | The sole is worn.
//!
//! [measurement]
//! what: length
//! value: 74 mm
//! ```
//!
//! A line is a key, a colon and a value. A line that begins with `|` goes on with the value above it. A name in square
//! brackets begins a part, which ends where the next one begins. A line that begins with `#` is a remark. Keys and parts
//! that a reader does not know are kept.

mod lines;
mod read;
mod write;

pub use read::{MOST_FAULTS, read};
pub use write::write;

/// The first line, without the number of the format.
const HEAD: &str = "Pressmark record, format ";
/// The format that is written, and the only one so far.
pub const FORMAT: u32 = 1;

/// What is wrong with a text, and where.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The line, from 1; 0 when it is no single line's fault.
    pub line: usize,
    /// A sentence.
    pub says: String,
}
