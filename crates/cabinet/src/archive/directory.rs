//! Reading the list at the end of a stored ZIP, which may come from anywhere: every size, place and name is checked before
//! anything is believed.

use super::name::{self, Sort};
use super::write::MOST_BYTES;
use crate::order::sorted;
use crate::record::short;
use units::{arranged, order};

/// How many bytes at the end of a file may hold its end record: 22 and a remark.
pub(super) const TAIL: u64 = 22 + 65_535;
/// The largest photograph in bytes.
pub const LARGEST_PHOTO: u64 = 20 << 20;
/// The longest list of entries in bytes.
const LONGEST_LIST: u64 = 16 << 20;
/// How many faults are told.
pub(super) const MOST_FAULTS: usize = 40;

/// An entry of the list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// Its name.
    pub name: String,
    /// What it is, by its name.
    pub sort: Sort,
    /// Where its header begins.
    pub(super) offset: u64,
    /// Bytes of its data.
    pub size: u64,
    pub(super) crc: u32,
    /// Where at the latest its data ends: the next header, or the list.
    pub(super) end: u64,
}

fn short_at(bytes: &[u8], at: usize) -> Option<u64> {
    Some(u64::from(u16::from_le_bytes(bytes.get(at..at + 2)?.try_into().ok()?)))
}

fn long_at(bytes: &[u8], at: usize) -> Option<u64> {
    Some(u64::from(u32::from_le_bytes(bytes.get(at..at + 4)?.try_into().ok()?)))
}

/// Where the list stands: from, to, and how many entries it has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct List {
    pub from: u64,
    pub to: u64,
    pub entries: u64,
}

/// Finds the list, from the last bytes of a file of `total` bytes.
pub(super) fn find(tail: &[u8], total: u64) -> Result<List, String> {
    if total > MOST_BYTES {
        return Err(
            "The file is larger than four gigabytes, which is more than an export can be.".to_string()
        );
    }
    let cut =
        || "The file is no export, or its end is missing. Copy it again from where it came.".to_string();
    let start = total.checked_sub(tail.len() as u64).ok_or_else(cut)?;
    // The last signature whose remark reaches just to the end of the file.
    let at = (0..tail.len().saturating_sub(21)).rev().find(|at| {
        tail[*at..].starts_with(b"PK\x05\x06")
            && short_at(tail, at + 20).is_some_and(|remark| *at as u64 + 22 + remark == tail.len() as u64)
    });
    let at = at.ok_or_else(cut)?;
    let read = |from: usize| short_at(tail, at + from).unwrap_or_default();
    let [disk, first_disk, here, entries] = [read(4), read(6), read(8), read(10)];
    let size = long_at(tail, at + 12).unwrap_or_default();
    let from = long_at(tail, at + 16).unwrap_or_default();
    if entries == 0xffff || size == 0xffff_ffff || from == 0xffff_ffff {
        return Err("The file has the long form of a ZIP (zip64), which an export never has.".to_string());
    }
    if disk != 0 || first_disk != 0 || here != entries {
        return Err("The file is one of several parts, which an export never is.".to_string());
    }
    let end = start + at as u64;
    if from + size != end || size > LONGEST_LIST || size < entries * 46 {
        return Err("The list at the end of the file does not fit into it: the file is damaged.".to_string());
    }
    Ok(List { from, to: end, entries })
}

/// Reads the list, whose bytes are given. Entries come in the order in which they stand in the file.
pub(super) fn entries(bytes: &[u8], list: List) -> Result<Vec<Entry>, Vec<String>> {
    let mut all: Vec<Entry> = Vec::new();
    let mut faults = Vec::new();
    let mut at = 0;
    for n in 0..list.entries {
        let Some((entry, next)) = entry(bytes, at, &mut faults) else {
            faults.push(format!("The list at the end of the file breaks off at entry {}.", n + 1));
            break;
        };
        all.extend(entry);
        at = next;
        if faults.len() >= MOST_FAULTS {
            break;
        }
    }
    if faults.is_empty() && at != bytes.len() {
        faults.push("There is more in the list at the end of the file than it says.".to_string());
    }
    // Capitals apart: on many systems they name one file.
    let names = sorted(all.iter().map(|e| e.name.to_ascii_lowercase()).collect());
    for pair in names.windows(2).filter(|w| w[0] == w[1]) {
        faults.push(format!("Two entries are called \u{201c}{}\u{201d}.", short(&pair[1])));
    }
    let by_place = order(all.len(), &|a, b| all[a].offset.cmp(&all[b].offset));
    let mut all = arranged(all, &by_place);
    let starts: Vec<u64> = all.iter().map(|e| e.offset).skip(1).chain([list.from]).collect();
    for (entry, next) in all.iter_mut().zip(starts) {
        entry.end = next;
        if entry.offset + 30 + entry.name.len() as u64 + entry.size > next {
            faults.push(format!("\u{201c}{}\u{201d} runs into what stands behind it.", short(&entry.name)));
        }
    }
    faults.truncate(MOST_FAULTS);
    if faults.is_empty() { Ok(all) } else { Err(faults) }
}

/// One entry and where the next begins. An entry that is a folder is passed over.
fn entry(bytes: &[u8], at: usize, faults: &mut Vec<String>) -> Option<(Option<Entry>, usize)> {
    let head = bytes.get(at..at + 46).filter(|h| h.starts_with(b"PK\x01\x02"))?;
    let read = |from: usize| short_at(head, from).unwrap_or_default();
    let long = |from: usize| long_at(head, from).unwrap_or_default();
    let [flags, method, name, extra, remark, disk] = [8, 10, 28, 30, 32, 34].map(read);
    let [packed, size, offset] = [20, 24, 42].map(long);
    let from = at + 46;
    let next = from + (name + extra + remark) as usize;
    let name = bytes.get(from..from + name as usize)?;
    bytes.get(from..next)?;
    let Ok(name) = core::str::from_utf8(name) else {
        faults.push("An entry has a name that is not UTF-8.".to_string());
        return Some((None, next));
    };
    let mut fault = |says: &str| faults.push(format!("\u{201c}{}\u{201d} {says}.", short(name)));
    if let Some(wrong) = name::fault(name) {
        fault(wrong);
        return Some((None, next));
    }
    let sort = name::sort(name);
    match () {
        () if name.ends_with('/') && size == 0 => return Some((None, next)),
        () if flags & 1 != 0 => fault("is locked with a password, which an export never is"),
        () if method != 0 => fault(
            "was packed again by another program. Unpack the file and make it a ZIP without compression, or use the file \
             as it was exported",
        ),
        () if packed != size => fault("has two sizes"),
        () if disk != 0 || [size, offset].contains(&0xffff_ffff) => fault("lies in another file"),
        () if matches!(sort, Sort::Record) && size > crate::record::Limits::TEXT as u64 => {
            fault("is longer than a record can be");
        }
        () if size > LARGEST_PHOTO => fault("is larger than 20 megabytes"),
        () => {}
    }
    let crc = long(16) as u32;
    Some((Some(Entry { name: name.to_string(), sort, offset, size, crc, end: offset }), next))
}

impl Entry {
    /// The bytes of the file that hold the header and the data: from, to.
    #[must_use]
    pub fn range(&self) -> (u64, u64) {
        // A header's own extra field has at most 65,535 bytes.
        (self.offset, self.end.min(self.offset + 30 + self.name.len() as u64 + 65_535 + self.size))
    }

    /// The data, out of the bytes of [`Entry::range`].
    ///
    /// # Errors
    /// A sentence when header and list disagree, or the data is damaged.
    pub fn data<'a>(&self, bytes: &'a [u8]) -> Result<&'a [u8], String> {
        let name = short(&self.name);
        let differs =
            || format!("\u{201c}{name}\u{201d} is not what the list at the end of the file says of it.");
        let head = bytes.get(..30).filter(|h| h.starts_with(b"PK\x03\x04")).ok_or_else(differs)?;
        let read = |at: usize| short_at(head, at).unwrap_or_default();
        let long = |at: usize| long_at(head, at).unwrap_or_default();
        let [flags, method, length, extra] = [6, 8, 26, 28].map(read);
        // With bit 3 the header leaves check and sizes to the list.
        let later = flags & 8 != 0 && long(14) == 0 && long(18) == 0 && long(22) == 0;
        let same = long(14) == u64::from(self.crc) && long(18) == self.size && long(22) == self.size;
        let from = 30 + (length + extra) as usize;
        let named = bytes.get(30..30 + length as usize) == Some(self.name.as_bytes());
        if flags & 1 != 0 || method != 0 || !(same || later) || !named {
            return Err(differs());
        }
        let to = from + usize::try_from(self.size).map_err(|_| differs())?;
        let data = bytes.get(from..to).ok_or_else(differs)?;
        if super::crc::crc32(data) == self.crc {
            Ok(data)
        } else {
            Err(format!("\u{201c}{name}\u{201d} is damaged: its check does not hold."))
        }
    }
}
