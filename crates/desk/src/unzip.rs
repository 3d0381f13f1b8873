//! Reading a ZIP (PKWARE APPNOTE 6.3) that any program may have written, stored or deflated. What it unpacks to is counted
//! while it is unpacked, so that a small file cannot fill the memory.

use cabinet::archive::crc32;
use compile::{LARGEST_PACK, LONGEST_FILE, plain};
use miniz_oxide::inflate::{TINFLStatus, decompress_to_vec_with_limit};

/// The most entries that are read. A pack has at most 400 files; folders and what systems put beside them come on top.
pub const MOST_ENTRIES: usize = 2_000;
/// The end record without a remark, and with the longest.
const END: usize = 22;
const LONGEST_REMARK: usize = 65_535;

const CUT: &str =
    "The ZIP is damaged or its end is missing. Make it again, or copy it again from where it came.";

fn short(bytes: &[u8], at: usize) -> Option<usize> {
    Some(usize::from(u16::from_le_bytes(bytes.get(at..at + 2)?.try_into().ok()?)))
}

fn long(bytes: &[u8], at: usize) -> Option<usize> {
    usize::try_from(u32::from_le_bytes(bytes.get(at..at + 4)?.try_into().ok()?)).ok()
}

/// Name and bytes of the entries that are wanted, in the order of the list. Folders are passed over.
///
/// # Errors
/// A sentence when it is no ZIP, damaged, locked, or more than a pack can be.
pub fn unzip(bytes: &[u8], wanted: impl Fn(&str) -> bool) -> Result<Vec<(String, Vec<u8>)>, String> {
    let from = bytes.len().saturating_sub(END + LONGEST_REMARK);
    // The last end record whose remark reaches just to the end of the file.
    let end = (from..bytes.len().saturating_sub(END - 1)).rev().find(|at| {
        bytes[*at..].starts_with(b"PK\x05\x06")
            && short(bytes, at + 20).is_some_and(|remark| at + END + remark == bytes.len())
    });
    let end = end.ok_or(CUT)?;
    let count = short(bytes, end + 10).ok_or(CUT)?;
    let mut at = long(bytes, end + 16).ok_or(CUT)?;
    if count > MOST_ENTRIES {
        return Err(format!(
            "The ZIP holds {count} files; at most {MOST_ENTRIES} are read. Is it the right one?"
        ));
    }
    let mut all: Vec<(String, Vec<u8>)> = Vec::new();
    let mut left = LARGEST_PACK;
    for _ in 0..count {
        let head = bytes.get(at..at + 46).filter(|h| h.starts_with(b"PK\x01\x02")).ok_or(CUT)?;
        let read = |from| short(head, from).unwrap_or_default();
        let [flags, method, name, extra, remark] = [8, 10, 28, 30, 32].map(read);
        let name = bytes.get(at + 46..at + 46 + name).ok_or(CUT)?;
        let next = at + 46 + name.len() + extra + remark;
        // Old programs write names in the letters of their country. Those of a pack's files are plain in all of them.
        let name = String::from_utf8_lossy(name).replace('\\', "/");
        if !name.ends_with('/') && wanted(&name) {
            if flags & 1 != 0 {
                return Err(format!("{} is locked with a password. Make the ZIP without one.", told(&name)));
            }
            let data = data(bytes, head, &name, method, left)?;
            left -= data.len();
            all.push((name, data));
        }
        at = next;
    }
    Ok(all)
}

/// The bytes of an entry, unpacked and checked.
fn data(bytes: &[u8], head: &[u8], name: &str, method: usize, left: usize) -> Result<Vec<u8>, String> {
    let field = |at| long(head, at).ok_or(CUT);
    let (crc, packed, size, offset) = (field(16)?, field(20)?, field(24)?, field(42)?);
    let local = bytes.get(offset..).and_then(|b| b.get(..30)).filter(|h| h.starts_with(b"PK\x03\x04"));
    let local = local.ok_or(CUT)?;
    let from = offset + 30 + short(local, 26).ok_or(CUT)? + short(local, 28).ok_or(CUT)?;
    let packed = from.checked_add(packed).and_then(|to| bytes.get(from..to)).ok_or(CUT)?;
    let most = LONGEST_FILE.min(left);
    let long = || {
        format!(
            "{} is longer than {} kB, or all files together are larger than {} MB: more than a pack can hold.",
            told(name),
            LONGEST_FILE / 1024,
            LARGEST_PACK >> 20
        )
    };
    if size > most {
        return Err(long());
    }
    let damaged = || format!("{} is damaged in the ZIP. Make the ZIP again.", told(name));
    let data = match method {
        0 => packed.to_vec(),
        // What is said of the size may be a lie: it ends at the limit whatever was said.
        8 => decompress_to_vec_with_limit(packed, most).map_err(|e| match e.status {
            TINFLStatus::HasMoreOutput => long(),
            _ => damaged(),
        })?,
        _ => {
            return Err(format!(
                "{} is packed in a way that is not read here. Make the ZIP with the program that your computer has of its own.",
                told(name)
            ));
        }
    };
    if data.len() > most {
        return Err(long());
    }
    if data.len() == size && u32::try_from(crc) == Ok(crc32(&data)) { Ok(data) } else { Err(damaged()) }
}

/// A name from a stranger's file, as a sentence repeats it.
fn told(name: &str) -> String {
    plain(name).chars().take(80).collect()
}
