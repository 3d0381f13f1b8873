//! JPEG files: what is read from them and what is left of them.

use picture::strip::{About, Spoiled, about, stripped};
use proptest::prelude::*;
use std::fs;

/// Files of `tests/fixtures/picture`, made by the script beside them.
fn file(name: &str) -> Vec<u8> {
    let path = format!("{}/../../tests/fixtures/picture/{name}", env!("CARGO_MANIFEST_DIR"));
    fs::read(&path).expect(&path)
}

fn holds(bytes: &[u8], part: &[u8]) -> bool {
    bytes.windows(part.len()).any(|w| w == part)
}

#[test]
fn a_telephones_file() {
    let bytes = file("photo.jpg");
    // What the script wrote.
    let told = About { width: 48, height: 32, turned: 6, equivalent: Some(26), place: true };
    assert_eq!(about(&bytes), Ok(told));
    assert_eq!(told.upright(), (32, 48));
    let kept = stripped(&bytes).expect("a picture");
    for word in [&b"Exif"[..], b"Nobody", b"invented", b"2024", b"remark", b"GPS"] {
        assert!(!holds(&kept, word), "{word:?}");
    }
    assert_eq!(about(&kept), Ok(About { turned: 1, equivalent: None, place: false, ..told }));
    // Pillow writes the same picture without any of it: byte for byte what is left.
    assert_eq!(kept, file("plain.jpg"));
    assert_eq!(stripped(&kept), Ok(kept.clone()));
    // A film behind the picture goes.
    let mut long = bytes.clone();
    long.extend(b"\0\0\0\x18ftypmp42 where and when");
    assert_eq!(stripped(&long), Ok(kept));
}

/// A file by hand: begin, segments, a frame of 640 x 480, a scan of a few bytes with a restart and a stuffed zero, end.
fn by_hand(segments: &[(u8, &[u8])]) -> Vec<u8> {
    let mut bytes = vec![0xFF, 0xD8];
    let frame: &[u8] = &[8, 1, 0xE0, 2, 0x80, 1, 1, 0x11, 0];
    for (marker, holds) in segments.iter().chain(&[(0xC0, frame), (0xDA, &[1, 1, 0, 0, 63, 0])]) {
        bytes.extend([0xFF, *marker]);
        bytes.extend((holds.len() as u16 + 2).to_be_bytes());
        bytes.extend(*holds);
    }
    bytes.extend([1, 2, 0xFF, 0, 3, 0xFF, 0xD3, 4, 0xFF, 0xD9]);
    bytes
}

/// EXIF of one directory: tag, type, count and the four bytes of the value.
fn exif(little: bool, entries: &[(u16, u16, u32, u32)]) -> Vec<u8> {
    let two = |n: u16| if little { n.to_le_bytes() } else { n.to_be_bytes() };
    let four = |n: u32| if little { n.to_le_bytes() } else { n.to_be_bytes() };
    let mut bytes = b"Exif\0\0".to_vec();
    bytes.extend(if little { b"II\x2A\0" } else { b"MM\0\x2A" });
    bytes.extend(four(8));
    bytes.extend(two(entries.len() as u16));
    for (tag, kind, count, value) in entries {
        bytes.extend(two(*tag));
        bytes.extend(two(*kind));
        bytes.extend(four(*count));
        // A short stands at the beginning of the four bytes.
        if *kind == 3 {
            bytes.extend(two(*value as u16));
            bytes.extend([0, 0]);
        } else {
            bytes.extend(four(*value));
        }
    }
    bytes
}

#[test]
fn both_orders_of_bytes_and_strange_values() {
    let bare = About { width: 640, height: 480, turned: 1, equivalent: None, place: false };
    assert_eq!(about(&by_hand(&[])), Ok(bare));
    for little in [true, false] {
        let told = |entries: &[(u16, u16, u32, u32)]| {
            about(&by_hand(&[(0xE1, &exif(little, entries))])).expect("a head")
        };
        assert_eq!(told(&[(0x112, 3, 1, 8)]).turned, 8);
        // No such turn, of another kind, of two values: not turned.
        for entry in [(0x112, 3, 1, 9), (0x112, 3, 1, 0), (0x112, 2, 1, 6), (0x112, 3, 2, 6)] {
            assert_eq!(told(&[entry]), bare);
        }
        // A directory that points to itself, or out of the file.
        for at in [8, 0, 9, 0xFFFF_FFFF, 60] {
            assert_eq!(told(&[(0x112, 3, 1, 3), (0x8769, 4, 1, at)]).turned, 3, "{at}");
        }
        assert_eq!(told(&[(0xA405, 3, 1, 28)]).equivalent, Some(28));
        assert_eq!(told(&[(0xA405, 3, 1, 0)]).equivalent, None);
        assert!(told(&[(0x8825, 4, 1, 400)]).place);
    }
}

#[test]
fn what_goes_and_what_stays() {
    let profile: &[u8] = b"ICC_PROFILE\0\x01\x01profile";
    let jfif: &[u8] = b"JFIF\0\x01\x02\x01\0\x48\0\x48\x01\x01rgb";
    let plain: &[u8] = b"JFIF\0\x01\x02\x01\0\x48\0\x48\0\0";
    let full = by_hand(&[
        (0xE0, jfif),
        (0xE0, b"JFXX\0small copy"),
        (0xE1, b"http://ns.adobe.com/xap/1.0/\0words"),
        (0xE2, profile),
        (0xE2, b"MPF\0second picture"),
        (0xED, b"Photoshop 3.0\0where"),
        (0xEE, b"Adobe\0\x64\0\0\0\0\x01"),
        (0xFE, b"remark"),
        (0xDB, &[0; 65]),
    ]);
    let kept =
        by_hand(&[(0xE0, plain), (0xE2, profile), (0xEE, b"Adobe\0\x64\0\0\0\0\x01"), (0xDB, &[0; 65])]);
    assert_eq!(stripped(&full), Ok(kept));
}

#[test]
fn what_is_no_jpeg() {
    for (bytes, says) in [
        (&b""[..], Spoiled::NoJpeg),
        (b"\x89PNG\r\n", Spoiled::NoJpeg),
        (b"\xFF", Spoiled::NoJpeg),
        (b"\xFF\xD8", Spoiled::Broken),
        (b"\xFF\xD8\xFF\xE1\0\x01", Spoiled::Broken),
        (b"\xFF\xD8\xFF\xE1\xFF\xFFshort", Spoiled::Broken),
        (b"\xFF\xD8\xFF\xD9", Spoiled::Broken),
    ] {
        assert_eq!(about(bytes), Err(says), "{bytes:?}");
        assert_eq!(stripped(bytes), Err(says), "{bytes:?}");
    }
    // A frame without a size.
    let mut bytes = by_hand(&[]);
    bytes[7..11].fill(0);
    assert_eq!(about(&bytes), Err(Spoiled::Broken));
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn hostile_bytes_are_taken_or_refused(
        at in prop::collection::vec((0.0..1.0_f64, any::<u8>()), 0..12), cut in 0.0..1.0_f64, whole: bool,
    ) {
        let mut bytes = file("photo.jpg");
        let size = bytes.len();
        // Most of the changes to the head, where the words stand.
        for (place, byte) in at {
            bytes[(place * place * size as f64) as usize] = byte;
        }
        if !whole {
            bytes.truncate((cut * size as f64) as usize);
        }
        let _ = about(&bytes);
        if let Ok(kept) = stripped(&bytes) {
            prop_assert!(kept.len() <= size + 2, "{}", kept.len());
            prop_assert_eq!(stripped(&kept), Ok(kept.clone()));
        }
    }
}
