//! Packs that were given out: each still loads and comes to the same findings, or is refused with the sentence that
//! names its format.

use pack::{FORMAT, join, read_book, read_core};
use reason::{Answer, Model, Told, weigh};
use std::fs;
use std::path::{Path, PathBuf};

fn golden() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/golden")
}

/// `2.1?`, `0=640`, `3.x`: see the README beside the packs.
fn answer(word: &str) -> Answer {
    let (word, sure) = word.strip_suffix('?').map_or((word, true), |w| (w, false));
    let number = |text: &str| text.parse::<usize>().expect("a number");
    if let Some((question, tenths)) = word.split_once('=') {
        let value = number(tenths) as f64 / 10.0;
        // A standard uncertainty of half a millimetre or gram. Basis: invented.
        return Answer { question: number(question), told: Told::Measured { value, uncertainty: 0.5 }, sure };
    }
    let (question, choices) = word.split_once('.').expect("question and choice");
    let told = match choices {
        "x" => Told::Cannot,
        some => Told::OneOf(some.split('+').map(number).collect()),
    };
    Answer { question: number(question), told, sure }
}

/// The line with the chances that come out now.
fn reckoned(model: &Model, line: &str) -> String {
    let asked = line.split(':').next().expect("a line").trim_end();
    let mut words = asked.split_whitespace().skip(1);
    let place = words.next().and_then(|w| w.parse().ok()).expect("place and its number");
    let answers: Vec<Answer> = words.map(answer).collect();
    let chances: Vec<String> =
        weigh(model, place, &answers).p.iter().map(|p| format!("{:.0}", p * 1e6)).collect();
    format!("{asked}: {}", chances.join(" "))
}

#[test]
fn packs_given_out_still_load_or_say_why_not() {
    for format in 1..=FORMAT {
        let folder = golden().join(format!("format-{format}"));
        let file = |name: &str| fs::read(folder.join(name)).expect("each format has its golden pack");
        let (core, book) = (file("core.pack"), file("book.pack"));
        let refusal = format!(
            "This pack is of format {format}; this program reads format {FORMAT}. Get the matching edition."
        );
        let (core, book) = match (read_core(&core), read_book(&book)) {
            (Ok(core), Ok(book)) => (core, book),
            (core, book) if format < FORMAT => {
                assert_eq!(core.map(drop).map_err(|f| f.0), Err(refusal.clone()));
                assert_eq!(book.map(drop).map_err(|f| f.0), Err(refusal));
                continue;
            }
            (core, book) => {
                unreachable!("the pack of this format is refused: {:?} {:?}", core.err(), book.err())
            }
        };
        assert_eq!((book.id.as_str(), book.kinds.len()), (core.head.id.as_str(), core.kinds.len()));
        let mut core = core;
        join(&mut core, book.late).expect("two halves of one pack");
        let model = Model::from_core(&core).expect("a model");
        let kept = String::from_utf8(file("posteriors.txt")).expect("text");
        let found: String = kept.lines().map(|l| reckoned(&model, l) + "\n").collect();
        assert!(kept.lines().count() >= 10, "the consultations are missing");
        assert_eq!(found, kept, "found:\n{found}");
    }
}
