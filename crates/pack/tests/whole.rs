//! Both halves in one file: what went in comes out, and whatever was changed is refused or still holds together.

use pack::{Whole, is_key, parts, read_whole, write_whole};
use proptest::prelude::*;

/// A key as minisign prints one: 42 bytes in Base64. Invented.
const KEY: &str = "RWQf6LRCGA9i53mlYecO4IzT51TGPpvWucNSCh1CBM0QTaLn73Y7GFO3";

fn whole(key: &str) -> Vec<u8> {
    let c = crate::common::tiny();
    write_whole(&Whole { key, core: &c.core_bytes, book: &c.book_bytes })
}

#[test]
fn parts_come_back_with_and_without_a_key() {
    let c = crate::common::tiny();
    for key in ["", KEY] {
        let bytes = whole(key);
        // The length that is promised in the module's own words: ten, nine, and the parts.
        assert_eq!(bytes.len(), 19 + key.len() + c.core_bytes.len() + c.book_bytes.len());
        let (parts, core, book) = read_whole(&bytes).expect("sound");
        assert_eq!((parts.key, parts.core, parts.book), (key, &c.core_bytes[..], &c.book_bytes[..]));
        assert_eq!(core.head, c.core.head);
        assert_eq!(book.kinds.len(), core.kinds.len());
    }
    assert_eq!(parts(&whole("no key")).map(|w| w.key), Ok(""));
    assert!(is_key(KEY) && !is_key(&KEY[1..]) && !is_key(&KEY.replace('R', "\n")));
}

#[test]
fn halves_alone_other_files_and_pieces_are_refused() {
    let c = crate::common::tiny();
    let bytes = whole(KEY);
    for other in [&c.core_bytes[..], &c.book_bytes, b"", b"PK\x03\x04 a ZIP"] {
        assert_eq!(read_whole(other).expect_err("refused").0, "This file is not a Pressmark pack.");
    }
    for cut in 0..bytes.len() {
        assert!(read_whole(&bytes[..cut]).is_err(), "the first {cut} bytes");
    }
    let behind = read_whole(&[&bytes[..], b"x"].concat()).expect_err("refused").0;
    assert_eq!(behind, "This pack has bytes behind its end. It is damaged.");
}

#[test]
fn halves_of_different_packs_are_no_pack() {
    let c = crate::common::tiny();
    let swapped = write_whole(&Whole { key: "", core: &c.book_bytes, book: &c.core_bytes });
    assert!(read_whole(&swapped).is_err());
}

proptest! {
    #[test]
    fn any_bytes_are_read_or_refused(
        head in proptest::collection::vec(any::<u8>(), 0..40),
        at in 10usize..80,
        byte in any::<u8>(),
    ) {
        let mut bytes = b"PRSMARKw\x04\x00".to_vec();
        bytes.extend(&head);
        prop_assert!(read_whole(&bytes).is_err());
        let mut changed = whole(KEY);
        changed[at] = byte;
        if let Err(says) = read_whole(&changed) {
            prop_assert!(says.0.ends_with('.'), "{}", says.0);
        }
    }
}
