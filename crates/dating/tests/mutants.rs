//! Texts that went wrong do no harm, however long.

use crate::common::make::{Maker, Random};
use crate::common::mutate::{Mutator, nasty};
use crate::common::sound::sound;
use crate::common::{deep, tables};
use dating::Measured;
use units::{Length, Mass};

/// The most letters, digits and lost characters that are read of a text.
const READ: usize = 160;

#[test]
fn nothing_upsets_the_reader() {
    let t = tables();
    let maker = Maker::new(&t);
    let mutator = Mutator::new(&maker);
    let mut random = Random(20_261_127);
    let n = if deep() { 12_000 } else { 2_500 };
    let (mut marks, mut cut) = (0, 0);
    for round in 0..n {
        let most = match round % 25 {
            0 => 5_000,
            1..=6 => 300,
            _ => 64,
        };
        let text = mutator.next(&mut random, most);
        let measured = Measured {
            length: (round % 3 == 0).then(|| Length(random.below(3_000) as u32)),
            mass: (round % 5 == 0).then(|| Mass(random.below(100_000) as u32)),
        };
        let read = t.read(&text, measured);
        assert_eq!(sound(&t, &read), Ok(()), "{text:?}");
        // What is not read to its end is said to be cut.
        let told = text.chars().filter(|c| c.is_ascii_alphanumeric() || matches!(c, '?' | '*')).count();
        let strokes = text.matches('/').count();
        assert!(read.cut || told <= READ + strokes, "{text:?}");
        marks += read.marks.len();
        cut += usize::from(read.cut);
    }
    for text in nasty() {
        assert_eq!(sound(&t, &t.read(&text, Measured::default())), Ok(()), "{text:?}");
    }
    println!("figure: texts that went wrong: {n} read, {marks} marks, {cut} cut");
    assert!(marks > n && cut > n / 100, "{marks} {cut}");
}

#[test]
fn short_and_odd_texts() {
    let t = tables();
    for text in [
        "",
        " ",
        "?",
        "*",
        "/",
        "\u{0}",
        "3/8",
        "&",
        "®",
        "\n",
        "....",
        "No",
        "Rd",
        "MAY",
        "1871",
        "0",
        "00000000",
        "99999999999",
        "0/0/0",
        "31/2/1871",
    ] {
        let read = t.read(text, Measured::default());
        assert_eq!(sound(&t, &read), Ok(()), "{text:?}");
    }
    let long = "PAT. MAY 23 1871 ".repeat(200);
    let read = t.read(&long, Measured::default());
    assert!(read.cut);
    assert_eq!(sound(&t, &read), Ok(()));
}
