//! A pack of another field, an invented society's collection of buttons: it compiles, asks and finds, and nothing that is
//! shown with it speaks of irons.

use crate::common::{fresh, workshop};
use consult::{Body, Guide, Msg, Screen, State, update, view};
use practice::{Drawer, Form, numbers};
use reason::Told;
use std::fs;
use std::path::{Path, PathBuf};

fn pack() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/fixtures/buttons")
}

fn folder() -> String {
    pack().to_string_lossy().into_owned()
}

fn guide() -> Guide {
    let mut files = Vec::new();
    for folder in ["", "questions/", "kinds/"] {
        for entry in fs::read_dir(pack().join(folder)).expect("the pack") {
            let path = entry.expect("an entry").path();
            if path.is_file() {
                let name = format!("{folder}{}", path.file_name().expect("a name").to_string_lossy());
                files.push((name, fs::read_to_string(path).expect("text")));
            }
        }
    }
    let compiled = compile::compile(&compile::Files::new(files)).expect("a sound pack");
    Guide::from_bytes(&compiled.core_bytes, &compiled.book_bytes, 2026).expect("a sound pack")
}

/// Words of the trade that no other pack may meet.
const OF_IRONS: [&str; 10] =
    ["iron", "irons", "sole", "soles", "grip", "heel", "casting", "pressing", "foundry", "flat-iron"];

fn clean(text: &str, what: &str) {
    let lower = text.to_lowercase();
    let words = lower.split(|c: char| !c.is_alphanumeric() && c != '-');
    let found: Vec<&str> = words.filter(|w| OF_IRONS.contains(w)).collect();
    assert!(found.is_empty(), "{what} speaks of {found:?}:\n{text}");
}

#[test]
fn it_has_ten_kinds_and_no_faults() {
    let (code, out, _) = workshop(&["check", &folder()]);
    assert_eq!(code, Some(0), "{out}");
    // Ten of the society's, and whatever it does not know.
    assert!(out.lines().any(|l| l == "       11  kinds"), "{out}");
    clean(&out, "the report");
}

#[test]
fn it_asks_and_finds_what_was_drawn_from_its_tables() {
    let guide = guide();
    let drawer = Drawer::new(&guide);
    let (mut right, mut asked, all) = (0, 0, 200);
    for i in 0..all {
        let piece = drawer.draw(Form::Easy, None, &mut numbers(3, i));
        let mut state = State::default();
        (state.tools, state.place_asked) = (vec![0, 1], true);
        // As on the page: whatever question is shown is answered by the piece, until a finding stands there.
        for _ in 0..30 {
            let Body::Look(q) = view(&guide, &state).body else { break };
            clean(&format!("{} {}", q.ask, q.look), "a question");
            asked += 1;
            let msg = match &piece.told[q.question] {
                Told::OneOf(set) => Msg::Choose { question: q.question, choice: set[0] },
                Told::Measured { value, .. } => {
                    state = update(&guide, state, Msg::Type(format!("{value:.1}"))).0;
                    Msg::Enter(q.question)
                }
                Told::Cannot => Msg::Cannot(q.question),
            };
            state = update(&guide, state, msg).0;
        }
        state.screen = Screen::Finding;
        state.money = true;
        let Body::Finding(found) = view(&guide, &state).body else { unreachable!("no finding") };
        clean(&format!("{found:?}"), "a finding");
        let kind = usize::from(guide.core.candidates[piece.candidate].kind);
        right += usize::from(found.title == guide.core.kinds[kind].name);
    }
    println!(
        "figure: buttons: {right} of {all} found first, {} questions a piece",
        asked as f64 / all as f64
    );
    // The hardest pairs are told apart three times in four at worst, most of them far better (`workshop check`).
    assert!(right > all * 3 / 4, "{right} of {all}");
    assert!(asked >= all * 2, "{asked} questions");
}

#[test]
fn what_is_printed_of_it_speaks_of_buttons() {
    let (code, key, err) = workshop(&["print", "key", &folder()]);
    assert_eq!(code, Some(0), "{err}");
    clean(&key, "the key");
    let out = fresh("button-card");
    fs::create_dir_all(&out).expect("a folder");
    let card = out.join("card.html");
    let (code, _, err) = workshop(&["print", &folder(), "--card", &card.to_string_lossy()]);
    assert_eq!(code, Some(0), "{err}");
    clean(&fs::read_to_string(card).expect("the card"), "the card");
}

#[test]
fn it_goes_into_sheets_and_back() {
    let (sheets, back) = (fresh("button-sheets"), fresh("button-back"));
    assert_eq!(workshop(&["export", &folder(), "--out", &sheets.to_string_lossy()]).0, Some(0));
    assert_eq!(workshop(&["import", &sheets.to_string_lossy(), "--out", &back.to_string_lossy()]).0, Some(0));
    let (code, out, _) =
        workshop(&["compare", &folder(), &back.to_string_lossy(), "--pieces", "200", "--json"]);
    let said: serde_json::Value = serde_json::from_str(&out).expect("JSON");
    assert_eq!((code, &said["changed"]), (Some(0), &0.into()));
}
