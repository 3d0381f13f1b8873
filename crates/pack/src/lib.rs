//! The pack as bytes: wire structs in one file, a header, and a reader that trusts nothing. Never in here:
//! mathematics, trade knowledge, a file, a browser.
#![no_std]
extern crate alloc;

mod check;
mod codec;
pub mod coins;
mod frame;
mod halves;
mod lessons;
pub mod marks;
pub mod metals;
pub mod prices;
mod whole;
mod wire;

pub use check::{check_core, check_lessons};
pub use frame::{FORMAT, Fault, LARGEST_BOOK, LARGEST_CORE, read_book, read_core, write_book, write_core};
pub use halves::{join, part};
pub use lessons::{Block, Help, Lesson, Lessons, Proof, Step};
pub use whole::{KEY, LARGEST_WHOLE, Whole, is_key, parts, read_whole, write_whole};
pub use wire::*;
