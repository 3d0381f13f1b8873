//! Finished packs: their halves, the one file, and its signature.

use crate::project::{TINY, at};
use crate::{Reader, must, sentence};
use desk::{Keys, Signed, judge, open};
use pack::{Core, Whole, read_book, read_core, read_whole, write_book, write_core, write_whole};
use reason::{Answer, Model, Told, weigh};

/// A number at its limits, as the format writes it.
const NUMBERS: [&str; 4] = ["\0", "\u{7f}", "PRSMARKc\u{4}\0", "PRSMARKb\u{4}\0"];

/// Core and book, each by itself.
pub(crate) const HALVES: Reader = Reader {
    name: "halves",
    seeds: || vec![TINY.core_bytes.clone(), TINY.book_bytes.clone()],
    words: &NUMBERS,
    answered: |bytes| {
        if let Ok(book) = read_book(bytes) {
            must(read_book(&write_book(&book)).as_ref() == Ok(&book), "a book does not come back")?;
            return Ok(true);
        }
        match read_core(bytes) {
            Ok(core) => reckoned(&core).map(|()| true),
            Err(fault) => sentence(&fault.0).map(|()| false),
        }
    },
};

/// A core that was let in comes back and can be reckoned with: one answer to each question, at each place.
fn reckoned(core: &Core) -> Result<(), String> {
    let again = write_core(core).and_then(|bytes| read_core(&bytes));
    must(again.as_ref() == Ok(core), "a core does not come back")?;
    let model = Model::from_core(core).map_err(|says| format!("let in, but: {says}"))?;
    let told = |question| Answer { question, told: Told::OneOf(vec![question % 2]), sure: question % 3 > 0 };
    let answers: Vec<Answer> = (0..core.questions.len()).map(told).collect();
    for place in 0..core.places.len() {
        let sum: f64 = weigh(&model, place, &answers).p.iter().sum();
        // Basis of the bound: probabilities sum to one, but for rounding.
        must((sum - 1.0).abs() < 1e-9, "the chances do not sum to one")?;
    }
    Ok(())
}

/// A key as minisign prints one. Invented.
const KEY: &str = "RWQf6LRCGA9i53mlYecO4IzT51TGPpvWucNSCh1CBM0QTaLn73Y7GFO3";

/// The one file, opened as the desk opens it.
pub(crate) const WHOLE: Reader = Reader {
    name: "whole",
    seeds: || {
        let of = |key| write_whole(&Whole { key, core: &TINY.core_bytes, book: &TINY.book_bytes });
        vec![of(""), of(KEY)]
    },
    words: &["PRSMARKw\u{4}\0", KEY, "\0\0\0"],
    answered: |bytes| {
        let opened = open(bytes, None, "", "tiny RWQf");
        let Ok((whole, core, book)) = read_whole(bytes) else {
            let says = opened.err().ok_or("opened, but it cannot be read")?;
            return sentence(&says).map(|()| false);
        };
        must(write_whole(&whole) == bytes, "the file does not come back")?;
        must(book.kinds.len() == core.kinds.len(), "halves that do not belong together")?;
        match opened {
            Ok(opened) => must(
                opened.id == core.head.id && opened.verdict.signed == Signed::Unsigned,
                "signed by nobody",
            )?,
            Err(says) => sentence(&says)?,
        }
        Ok(true)
    },
};

/// What is signed, both public keys and the signatures that the tests of the desk have: made by minisign 0.11.
fn fixture(name: &str) -> String {
    std::fs::read_to_string(at("crates/desk/tests/fixtures").join(name)).unwrap_or_default()
}

/// Keys as they are typed, known and in the pack, then the text of a signature, parted by nought bytes.
pub(crate) const SIGNATURE: Reader = Reader {
    name: "signature",
    seeds: || {
        let [first, second] = keys();
        let mut seeds = Vec::new();
        for (name, key) in
            [("first.minisig", &first), ("first-legacy.minisig", &first), ("second.minisig", &second)]
        {
            let text = fixture(name);
            seeds.extend([
                format!("{key}\0\0\0{text}"),
                format!("\0{key}\0\0{text}"),
                format!("\0\0{key}\0{text}"),
            ]);
        }
        seeds.into_iter().map(String::into_bytes).collect()
    },
    words: &["\0", "untrusted comment: ", "trusted comment: ", "RUQ", "RWQ", "ED", "Ed", "\n", "=", "=="],
    answered: |bytes| {
        let Ok(text) = core::str::from_utf8(bytes) else { return Ok(false) };
        let mut parts = text.splitn(4, '\0');
        let mut next = || parts.next().unwrap_or_default();
        let keys = Keys { typed: next(), known: next(), own: next() };
        let signature = next();
        let verdict = judge(fixture_message(), (!signature.is_empty()).then_some(signature), keys);
        sentence(&verdict.says)?;
        must(
            verdict.key.is_empty() || [keys.typed, keys.known, keys.own].contains(&verdict.key.as_str()),
            "a key from nowhere",
        )?;
        let signed = verdict.signed == Signed::Unchanged;
        // Nobody can sign for the two who did. The first fourteen characters of a key are its sort and its number, which
        // whoever likes may change in key and signature alike.
        let known = self::keys().iter().any(|key| key.get(14..) == verdict.key.get(14..));
        must(!signed || known, "forged")?;
        Ok(signed)
    },
};

fn keys() -> &'static [String; 2] {
    static KEYS: std::sync::LazyLock<[String; 2]> = std::sync::LazyLock::new(|| {
        ["first.pub", "second.pub"]
            .map(|name| fixture(name).lines().nth(1).map(String::from).unwrap_or_default())
    });
    &KEYS
}

fn fixture_message() -> &'static [u8] {
    static MESSAGE: std::sync::LazyLock<Vec<u8>> =
        std::sync::LazyLock::new(|| fixture("message.txt").into_bytes());
    &MESSAGE
}
