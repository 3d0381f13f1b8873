//! ZIPs of an independent writer, whole, damaged and hostile.
#![allow(clippy::unwrap_used, reason = "a failing unwrap is a failing test")]

use desk::{MOST_ENTRIES, unzip};

// Basis: files made by Python's zipfile (fixtures/zips.py).
const STORED: &[u8] = include_bytes!("fixtures/stored.zip");
const DEFLATED: &[u8] = include_bytes!("fixtures/deflated.zip");
const BOMB: &[u8] = include_bytes!("fixtures/bomb.zip");
const MANY: &[u8] = include_bytes!("fixtures/many.zip");

fn all(_: &str) -> bool {
    true
}

fn at(bytes: &[u8], what: &[u8]) -> usize {
    bytes.windows(what.len()).rposition(|w| w == what).unwrap()
}

#[test]
fn stored_and_deflated_say_the_same() {
    let stored = unzip(STORED, all).unwrap();
    assert_eq!(stored, unzip(DEFLATED, all).unwrap());
    let names: Vec<&str> = stored.iter().map(|f| f.0.as_str()).collect();
    assert_eq!(names, ["club/kinds.csv", "club/long.toml", "__MACOSX/x.toml"]);
    assert_eq!(stored[0].1, "\u{feff}id;name\r\ntable;Tafellöffel\r\n".as_bytes());
    assert_eq!(stored[1].1, b"# spoon\n".repeat(4000));
    assert_eq!(unzip(STORED, |name| name.ends_with(".csv")).unwrap().len(), 1);
}

#[test]
fn bombs_end_at_the_limit() {
    // Forty megabytes that say so; forty that lie and say ten bytes; many that are each within the limit.
    assert!(unzip(BOMB, all).unwrap_err().contains("longer than 512 kB"));
    let mut lies = BOMB.to_vec();
    let list = at(BOMB, b"PK\x01\x02");
    lies[list + 24..list + 28].copy_from_slice(&10_u32.to_le_bytes());
    assert!(unzip(&lies, all).unwrap_err().contains("longer than 512 kB"));
    assert!(unzip(MANY, all).unwrap_err().contains("8 MB"));
    // An end record that promises more entries than are read.
    let mut crowd = STORED.to_vec();
    let end = at(STORED, b"PK\x05\x06");
    crowd[end + 10..end + 12].copy_from_slice(&(MOST_ENTRIES as u16 + 1).to_le_bytes());
    assert!(unzip(&crowd, all).unwrap_err().contains("at most"));
}

#[test]
fn what_is_no_zip_or_no_longer_one_is_refused_with_a_sentence() {
    for bytes in [&b""[..], b"PK", b"id = \"mypack\"", &STORED[..STORED.len() - 1], &STORED[100..]] {
        assert!(unzip(bytes, all).unwrap_err().ends_with('.'));
    }
    assert!(unzip(include_bytes!("fixtures/packed.zip"), all).unwrap_err().contains("packed in a way"));
    let mut locked = STORED.to_vec();
    let list = at(STORED, b"PK\x01\x02");
    locked[list + 8] |= 1;
    assert!(unzip(&locked, all).unwrap_err().contains("password"));
}

/// Whatever byte is changed: the same contents, or a sentence, and never anything else. Names and dates may change.
#[test]
fn no_changed_byte_goes_unseen() {
    let whole = unzip(DEFLATED, all).unwrap();
    for at in 0..DEFLATED.len() {
        for bit in [1, 0x80] {
            let mut other = DEFLATED.to_vec();
            other[at] ^= bit;
            match unzip(&other, all) {
                Err(says) => assert!(says.ends_with(['.', '?']), "{says}"),
                Ok(files) => {
                    let same = files.iter().all(|(_, data)| whole.iter().any(|(_, own)| own == data));
                    assert!(same, "byte {at}");
                }
            }
        }
    }
    // Of contents that stand as they are, every bit counts.
    let from = at(STORED, b"# spoon\n# spoon\n") + 16 - 8 * 4000;
    for byte in (from..from + 8 * 4000).step_by(101) {
        let mut other = STORED.to_vec();
        other[byte] ^= 1 << (byte % 8);
        assert!(unzip(&other, all).unwrap_err().contains("damaged"), "byte {byte}");
    }
}
