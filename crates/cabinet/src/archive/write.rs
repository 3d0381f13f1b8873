//! Writing a stored ZIP (PKWARE APPNOTE 6.3, without compression and without zip64) piece by piece: the caller sends each
//! piece on, so that the file is never whole in memory.

use super::crc::crc32;
use super::name;
use crate::record::Moment;

/// The most entries that the format's short form can list.
pub const MOST_ENTRIES: usize = 65_535;
/// The most bytes that it can address.
pub const MOST_BYTES: u64 = u32::MAX as u64;
/// Name is UTF-8 (bit 11 of the flags).
const UTF_8: u16 = 0x0800;

/// A file being written. What has been written of it is not kept, only the list for its end.
#[derive(Debug)]
pub struct Writer {
    offset: u64,
    entries: usize,
    /// Sixty-four bits of each name, sorted: two names that share them are next to impossible.
    names: Vec<u64>,
    directory: Vec<u8>,
    stamp: [u16; 2],
}

impl Writer {
    /// A new file, its entries dated with a moment.
    #[must_use]
    pub fn new(now: Moment) -> Writer {
        let date = now.date();
        // Time of the day in steps of two seconds, years from 1980 (APPNOTE 4.4.6).
        let s = now.0.clamp(0, crate::record::LAST.0) / 1000 % 86_400;
        let time = (s / 3600) << 11 | (s / 60 % 60) << 5 | (s / 2 % 30);
        let year = (i64::from(date.year) - 1980).clamp(0, 127);
        let day = year << 9 | i64::from(date.month) << 5 | i64::from(date.day);
        Writer {
            offset: 0,
            entries: 0,
            names: Vec::new(),
            directory: Vec::new(),
            stamp: [time as u16, day as u16],
        }
    }

    /// The bytes that stand before an entry's own. After them the caller sends `data` itself.
    ///
    /// # Errors
    /// A sentence when the file would have more than it can hold, or two entries of one name.
    pub fn entry(&mut self, name: &str, data: &[u8]) -> Result<Vec<u8>, String> {
        let length = data.len() as u64;
        if let Some(wrong) = name::fault(name) {
            return Err(format!("An entry {wrong}."));
        }
        let at = match self.names.binary_search(&hash(name)) {
            Ok(_) => return Err(format!("Two entries would be called {name}.")),
            Err(at) => at,
        };
        let header = 30 + name.len() as u64;
        let end = self.offset + header + length;
        let list = (self.directory.len() + 46 + name.len() + 22) as u64;
        if self.entries >= MOST_ENTRIES || end + list >= MOST_BYTES {
            return Err("This is more than one file can hold: 65,535 entries or four gigabytes. Export it in two halves."
                .to_string());
        }
        let Ok(size) = u32::try_from(length) else { return Err("An entry is too large.".to_string()) };
        let mut common = Vec::with_capacity(26);
        for short in [10, UTF_8, 0, self.stamp[0], self.stamp[1]] {
            common.extend(short.to_le_bytes());
        }
        for long in [crc32(data), size, size] {
            common.extend(long.to_le_bytes());
        }
        common.extend((name.len() as u16).to_le_bytes());
        common.extend([0, 0]);
        let local = [b"PK\x03\x04".as_slice(), &common, name.as_bytes()].concat();
        // Made by version 1.0 on no particular system; no remark, first disk, no attributes.
        self.directory.extend(b"PK\x01\x02\x0a\x00");
        self.directory.extend(&common);
        self.directory.extend([0; 10]);
        self.directory.extend((self.offset as u32).to_le_bytes());
        self.directory.extend(name.as_bytes());
        self.names.insert(at, hash(name));
        self.entries += 1;
        self.offset = end;
        Ok(local)
    }

    /// The bytes at the end of the file.
    #[must_use]
    pub fn finish(self) -> Vec<u8> {
        let entries = (self.entries as u16).to_le_bytes();
        let mut out = self.directory;
        let size = out.len() as u32;
        out.extend(b"PK\x05\x06\0\0\0\0");
        out.extend(entries);
        out.extend(entries);
        out.extend(size.to_le_bytes());
        out.extend((self.offset as u32).to_le_bytes());
        out.extend([0, 0]);
        out
    }
}

/// FNV-1a of 64 bits (public-domain hash, Fowler, Noll and Vo).
fn hash(name: &str) -> u64 {
    name.bytes().fold(0xcbf2_9ce4_8422_2325, |hash, b| (hash ^ u64::from(b)).wrapping_mul(0x0100_0000_01b3))
}
