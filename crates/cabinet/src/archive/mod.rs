//! One file with everything: a stored ZIP that explains itself. Written in pieces, read by ranges, all or nothing.

mod crc;
mod digest;
mod directory;
mod export;
mod import;
mod name;
mod readme;
mod write;

pub use crc::crc32;
pub use digest::digest;
pub use directory::{Entry, LARGEST_PHOTO};
pub use export::Export;
pub use import::{Found, Import, MOST_RECORDS, Want};
pub use name::{INDEX, README, Sort, photo_name, practice_name, record_name};
pub use readme::readme;
pub use write::{MOST_BYTES, MOST_ENTRIES, Writer};
