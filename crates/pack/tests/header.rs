//! The ten bytes in front: what is no pack, the other half, another format, too large or too long is said to be so.

use pack::{FORMAT, LARGEST_BOOK, LARGEST_CORE, read_book, read_core};

const NO_PACK: &str = "This file is not a Pressmark pack.";
const DAMAGED: &str = "This pack is damaged: its bytes cannot be read.";

fn core_says(bytes: &[u8]) -> String {
    read_core(bytes).expect_err("refused").0
}

fn book_says(bytes: &[u8]) -> String {
    read_book(bytes).expect_err("refused").0
}

#[test]
fn other_files_are_no_packs() {
    let c = crate::common::tiny();
    for bytes in [&b""[..], b"P", b"PRSMARK", b"PRSMARKc\x01", b"\x89PNG\r\n\x1a\n\0\0\0\0", &[0; 4096]] {
        assert_eq!((core_says(bytes).as_str(), book_says(bytes).as_str()), (NO_PACK, NO_PACK), "{bytes:?}");
    }
    for at in 0..8 {
        let mut bytes = c.core_bytes.clone();
        bytes[at] ^= 0x20;
        assert_eq!(core_says(&bytes), NO_PACK, "byte {at}");
    }
    // Each half is no pack to the reader of the other.
    assert_eq!(core_says(&c.book_bytes), NO_PACK);
    assert_eq!(book_says(&c.core_bytes), NO_PACK);
}

#[test]
fn other_formats_are_named() {
    let c = crate::common::tiny();
    for format in (0..=u16::MAX).filter(|f| *f != FORMAT) {
        let expected = format!(
            "This pack is of format {format}; this program reads format {FORMAT}. Get the matching edition."
        );
        for whole in [&c.core_bytes, &c.book_bytes] {
            let mut bytes = whole[..10].to_vec();
            bytes[8..10].copy_from_slice(&format.to_le_bytes());
            let says = if whole[7] == b'c' { core_says(&bytes) } else { book_says(&bytes) };
            assert_eq!(says, expected);
        }
    }
}

#[test]
fn nothing_may_stand_behind_the_end() {
    let c = crate::common::tiny();
    for more in [&b"\0"[..], b"a", &[0xff; 3000]] {
        let says = "This pack has bytes behind its end. It is damaged.";
        assert_eq!(core_says(&[&c.core_bytes, more].concat()), says);
        assert_eq!(book_says(&[&c.book_bytes, more].concat()), says);
    }
    assert_eq!(core_says(&c.core_bytes[..10]), DAMAGED);
    assert_eq!(book_says(&c.book_bytes[..10]), DAMAGED);
}

#[test]
fn size_comes_before_everything_else() {
    let c = crate::common::tiny();
    let filled = |whole: &[u8], n: usize| {
        let mut bytes = whole.to_vec();
        bytes.resize(n, 0);
        bytes
    };
    let core = |n| core_says(&filled(&c.core_bytes, n));
    let book = |n| book_says(&filled(&c.book_bytes, n));
    assert_eq!(core(LARGEST_CORE + 1), "This pack is larger than 4 MB, the most that is read.");
    assert_eq!(book(LARGEST_BOOK + 1), "This pack is larger than 16 MB, the most that is read.");
    // At the limit itself the bytes are looked at.
    assert_eq!(core(LARGEST_CORE), "This pack has bytes behind its end. It is damaged.");
    assert_eq!(book(LARGEST_BOOK), "This pack has bytes behind its end. It is damaged.");
    assert_eq!(
        core_says(&vec![0; LARGEST_CORE + 1]),
        "This pack is larger than 4 MB, the most that is read."
    );
}
