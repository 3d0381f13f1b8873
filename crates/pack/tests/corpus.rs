//! Finished packs that are meant to do harm, each by one means: refused with a sentence, or taken with the text exactly as
//! it stands. What goes wrong by chance is in `hostile.rs`.

use crate::common::{sentence, tiny};
use pack::{read_book, read_core, write_book, write_core};

/// The bytes with one text exchanged for another that takes as many bytes.
fn retold(bytes: &[u8], from: &str, to: &str) -> Vec<u8> {
    assert_eq!(from.len(), to.len(), "{to:?} takes other room");
    let at = bytes.windows(from.len()).position(|w| w == from.as_bytes()).expect("the text is there");
    let mut bytes = bytes.to_vec();
    bytes.splice(at..at + from.len(), to.bytes());
    bytes
}

const NAME: &str = "Toy iron with a bar";

#[test]
fn characters_that_disguise_are_refused_wherever_they_stand() {
    let c = tiny();
    for hidden in [
        "\u{202e}",
        "\u{2066}",
        "\u{200b}",
        "\u{feff}",
        "\u{61c}\u{7}",
        "\u{7}\u{7}\u{7}",
        "\u{1b}[3",
        "\0\0\0",
    ] {
        // Both exchanges take as many bytes as they leave.
        assert_eq!(hidden.len(), 3, "{hidden:?}");
        let bytes = retold(&c.core_bytes, NAME, &NAME.replacen("iro", hidden, 1));
        let fault = read_core(&bytes).expect_err(hidden);
        assert_eq!(fault.0, "This pack holds text with hidden control characters.", "{hidden:?}");
        let bytes =
            retold(&c.book_bytes, "Second paragraph.", &"Second paragraph.".replacen("par", hidden, 1));
        let fault = read_book(&bytes).expect_err(hidden);
        assert_eq!(sentence(&fault.0), Ok(()), "{hidden:?}");
    }
}

#[test]
fn script_in_every_text_is_the_text_it_is() {
    let c = tiny();
    let script = "<script>alert(1)</script>";
    let mut core = read_core(&c.core_bytes).expect("the sound core");
    for name in core.places.iter_mut().chain(&mut core.roles).chain(&mut core.makes) {
        name.name = script.to_string();
    }
    for kind in &mut core.kinds {
        (kind.name, kind.short) = (script.to_string(), script.to_string());
    }
    for caution in &mut core.cautions {
        caution.text = script.to_string();
    }
    (core.head.name, core.head.notice) = (script.to_string(), script.to_string());
    let back = write_core(&core).and_then(|bytes| read_core(&bytes));
    assert_eq!(back.as_ref(), Ok(&core), "a text is a text: the page shows it as such");
    let mut book = read_book(&c.book_bytes).expect("the sound book");
    for term in &mut book.terms {
        (term.word, term.means) = (script.to_string(), script.to_string());
    }
    assert_eq!(read_book(&write_book(&book)), Ok(book));
}

#[test]
fn what_is_no_pack_is_refused_with_a_sentence() {
    let c = tiny();
    let header = &c.core_bytes[..10];
    let mut zip = b"PK\x03\x04".to_vec();
    zip.resize(400, 0);
    let cases: Vec<(&str, Vec<u8>)> = vec![
        ("nothing", Vec::new()),
        ("a page", b"<!doctype html><script>alert(1)</script>".to_vec()),
        ("a zip", zip),
        ("only a header", header.to_vec()),
        ("a header and nothing but ones", [header, &[0xff; 4000]].concat()),
        ("a header and nothing but noughts", [header, &[0; 4000]].concat()),
        (
            "counts of all there is",
            [header, &[0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0x7f].repeat(100)].concat(),
        ),
        ("the book for the core", c.book_bytes.clone()),
        ("two packs behind each other", c.core_bytes.repeat(2)),
        ("more than any pack", vec![0x20; 40 << 20]),
        ("a large pack by its header", [header, &vec![1; 20 << 20]].concat()),
    ];
    for (name, bytes) in cases {
        let fault = read_core(&bytes).expect_err(name);
        assert_eq!(sentence(&fault.0), Ok(()), "{name}");
        if name != "the book for the core" {
            assert!(read_book(&bytes).is_err_and(|f| sentence(&f.0).is_ok()), "{name} as a book");
        }
    }
    assert!(read_book(&c.core_bytes).is_err_and(|f| sentence(&f.0).is_ok()));
}
