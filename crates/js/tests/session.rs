//! Consultations by ids, natively: what is asked, told, taken back and refused.

use compile::{Files, compile};
use js::session::{Open, Why};
use std::fs;
use std::path::Path;

fn files() -> Files {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/fixtures/buttons");
    let mut files = Vec::new();
    for folder in ["", "questions/", "kinds/"] {
        for entry in fs::read_dir(root.join(folder)).expect("the pack") {
            let path = entry.expect("an entry").path();
            if path.is_file() {
                let name = format!("{folder}{}", path.file_name().expect("a name").to_string_lossy());
                files.push((name, fs::read_to_string(path).expect("text")));
            }
        }
    }
    Files::new(files)
}

fn open() -> Open {
    let c = compile(&files()).expect("a sound pack");
    Open::new(&c.core_bytes, &c.book_bytes, 2026).expect("a sound pack")
}

#[test]
fn a_consultation_goes_from_question_to_finding() {
    let pack = open();
    assert_eq!((pack.about().id.as_str(), pack.about().kinds.len()), ("buttons", 11));
    let mut piece = pack.begin();
    let first = piece.next().expect("a first question");
    assert_eq!((first.id.as_str(), first.answer), ("stuff", "choice"));
    piece.answer("stuff", "glass").expect("a choice");
    piece.answer("back", "shank ?").expect("an unsure choice");
    piece.answer("across", "15 mm ruler").expect("a measure");
    let found = piece.finding().expect("a finding");
    assert_eq!(
        (found.title.as_str(), found.notice.as_str()),
        ("Glass flower with a loop", "Everything in this pack is invented.")
    );
    assert!(found.clues.iter().any(|c| c.question.as_deref() == Some("back") && c.unsure));
    assert!(piece.link().starts_with("1/buttons/"));
}

#[test]
fn what_is_no_longer_asked_goes_with_the_answer_that_opened_it() {
    let mut piece = open().begin();
    let refused = piece.answer("holes", "two").expect_err("holes are asked after the back");
    assert_eq!(refused.0, Why::Answer);
    piece.answer("back", "holes").expect("a choice");
    piece.answer("holes", "three").expect("now it is asked");
    piece.answer("back", "shank").expect("another answer");
    assert_eq!(piece.answers(), [("back".to_string(), "shank".to_string())]);
    piece.answer("back", "holes").expect("back again");
    piece.answer("holes", "four").expect("asked");
    piece.take_back("back");
    assert!(piece.answers().is_empty());
}

#[test]
fn the_order_of_answers_does_not_matter() {
    let (mut one, mut other) = (open().begin(), open().begin());
    for (q, a) in [("stuff", "horn"), ("outline", "round"), ("device", "rings")] {
        one.answer(q, a).expect("a choice");
    }
    for (q, a) in [("device", "rings"), ("stuff", "horn"), ("outline", "round")] {
        other.answer(q, a).expect("a choice");
    }
    let (one, other) = (one.finding().expect("a finding"), other.finding().expect("a finding"));
    assert_eq!((one.title, one.share, one.kinds), (other.title, other.share, other.kinds));
}

#[test]
fn what_is_refused_is_refused_with_a_word_and_a_sentence() {
    let mut piece = open().begin();
    for (question, answer, why) in [
        ("nothing", "x", Why::Unknown),
        ("stuff", "gold", Why::Answer),
        ("stuff", "", Why::Answer),
        ("stuff", "horn\nback = holes", Why::Answer),
        ("stuff", "horn # or not", Why::Answer),
        ("across", "-5 mm", Why::Answer),
        ("across", "nan mm", Why::Answer),
        ("across", "12 g", Why::Answer),
    ] {
        let refused = piece.answer(question, answer).expect_err(answer);
        assert_eq!(refused.0, why, "{question} {answer}");
        assert!(refused.1.ends_with('.') && !refused.1.starts_with("line"), "{}", refused.1);
        assert!(piece.answers().is_empty(), "{answer} left something behind");
    }
    assert_eq!(piece.place("moon").map_err(|r| r.0), Err(Why::Unknown));
    assert_eq!(piece.marks("PAT").map_err(|r| r.0), Err(Why::Tables));
    assert_eq!(open().drawing("view=nonsense").map_err(|r| r.0), Err(Why::Unknown));
    assert_eq!(Open::new(b"", b"", 2026).map_err(|r| r.0).err(), Some(Why::Pack));
    assert_eq!(open().learn_marks(b"PRSMARK").map_err(|r| r.0), Err(Why::Tables));
}
