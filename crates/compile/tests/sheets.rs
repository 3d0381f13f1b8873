//! Sheets: there and back with no loss, and faults that name the cell.

use crate::common::{cases, folder, patched};
use compile::sheets::{export, import, is_sheet};
use compile::{Files, compile};
use std::fs;
use std::path::Path;

fn irons() -> Files {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../data/packs/irons");
    Files::new(folder(&root))
}

/// Exported, imported, exported again: the same sheets, and the same files once more.
fn there_and_back(files: &Files) -> Result<Files, String> {
    let told = |faults: Vec<compile::Fault>| faults.iter().map(|f| format!("{f}\n")).collect::<String>();
    let sheets = export(files).map_err(told)?;
    let back = import(&Files::new(sheets.clone())).map_err(told)?.files;
    let again = export(&back).map_err(told)?;
    let differs = sheets.iter().zip(&again).find(|(one, other)| one != other);
    if let Some(((name, one), (_, other))) = differs.filter(|_| sheets.len() == again.len()) {
        let line = one.lines().zip(other.lines()).find(|(one, other)| one != other);
        return Err(format!("{name} differs: {line:?}"));
    }
    if sheets != again {
        return Err("the sheets differ".to_string());
    }
    Ok(back)
}

#[test]
fn the_pack_of_irons_comes_back_byte_for_byte() {
    let files = irons();
    let back = there_and_back(&files).expect("there and back");
    let (one, other) = (compile(&files).expect("sound"), compile(&back).expect("sound"));
    assert_eq!(one.core_digest, other.core_digest);
    assert_eq!(one.book_digest, other.book_digest);
    assert_eq!(one.counts, other.counts);
    let bare = |c: &compile::Compiled| -> Vec<_> {
        c.examples.iter().map(|e| (e.name.clone(), e.kind, e.answers.clone(), e.within)).collect()
    };
    assert_eq!(bare(&one), bare(&other));
}

#[test]
fn every_sound_case_comes_back_and_others_keep_their_faults() {
    let mut sound = 0;
    for case in fs::read_dir(cases()).expect("cases").map(|e| e.expect("a case").path()) {
        let files = patched(&case);
        let Ok(one) = compile(&files) else { continue };
        let files = Files::new(
            files.iter().filter(|(p, _)| !p.starts_with("art/")).map(|(p, t)| (p.into(), t.into())).collect(),
        );
        let bare = compile(&files).expect("sound without art too");
        let other = compile(&there_and_back(&files).expect("there and back")).expect("sound");
        assert_eq!(
            (bare.core_digest, bare.book_digest),
            (other.core_digest, other.book_digest),
            "{}",
            case.display()
        );
        assert_eq!(one.notes.len(), other.notes.len());
        sound += 1;
    }
    assert!(sound >= 3, "only {sound}");
}

fn sheets_of_good() -> Vec<(String, String)> {
    export(&Files::new(crate::common::good())).expect("the sound pack")
}

fn with(name: &str, from: &str, to: &str) -> Vec<(String, String)> {
    let mut sheets = sheets_of_good();
    let sheet = sheets.iter_mut().find(|(p, _)| p == name).expect("a sheet of that name");
    assert!(sheet.1.contains(from), "{name} holds {from}: {}", sheet.1);
    sheet.1 = sheet.1.replacen(from, to, 1);
    sheets
}

/// The faults of sheets as a writer reads them.
fn faults(sheets: Vec<(String, String)>) -> Vec<String> {
    match import(&Files::new(sheets)) {
        Err(faults) => faults.iter().map(ToString::to_string).collect(),
        Ok(made) => {
            let faults = compile(&made.files).expect_err("something is wrong");
            faults.iter().map(|f| made.trace(f).to_string()).collect()
        }
    }
}

#[test]
fn a_fault_names_sheet_row_and_column() {
    assert_eq!(
        faults(with("kinds.csv", "bar always", "barr always")),
        ["kinds.csv:2: looks.grip: \"barr\" is not a choice of this question. Choices: bar, pierced, wire."]
    );
    assert_eq!(
        faults(with("pack.csv", "unknown,4", "unknown,400")),
        ["pack.csv:9: unknown: The number must lie between 0.1 and 50."]
    );
    // What is missing has the row of its thing.
    let missing = faults(with("questions.csv", "What is the grip like?", ""));
    assert_eq!(
        missing,
        [
            "questions.csv:4: ask: The field is missing. Add a line such as: ask = \"What is the grip made like?\""
        ]
    );
    let stray = faults(with("choices.csv", "grip,wire", "gripp,wire"));
    assert_eq!(
        stray,
        ["choices.csv:8: of question: There is no question \"gripp\". Name an id of questions.csv."]
    );
    let column = faults(with("kinds.csv", "purpose", "porpuse"));
    assert!(
        column[0].starts_with("kinds.csv:1: porpuse: There is no column \"porpuse\" here."),
        "{column:?}"
    );
    let open = faults(vec![("pack.csv".to_string(), "field,value\nid,\"x".to_string())]);
    assert_eq!(
        open,
        ["pack.csv:2: A quote is opened and never closed. Save the sheet anew as CSV, in UTF-8."]
    );
}

/// Faults name columns and files: a name that cannot be shown is a fault itself, and is not repeated.
#[test]
fn names_that_cannot_be_shown_are_not_repeated() {
    for (name, from, to) in [
        ("kinds.csv", "purpose", "pur\u{0}pose"),
        ("kinds.csv", "purpose", "pur\u{202e}pose"),
        ("kinds.csv", "purpose", &"p".repeat(500)),
    ] {
        let faults = faults(with(name, from, to));
        assert!(faults.iter().any(|f| f.starts_with("kinds.csv:1: The text ")), "{faults:?}");
        assert!(faults.iter().all(|f| !f.contains(['\u{0}', '\u{202e}']) && f.len() < 300), "{faults:?}");
    }
    // In the sheet of a file's own fields their names stand in cells.
    let odd = faults(with("pack.csv", "words.seldom", "words\u{0}\u{202e}.seldom"));
    assert!(odd.iter().any(|f| f.contains(": words??.seldom: ")), "{odd:?}");
    assert!(odd.iter().all(|f| !f.contains(['\u{0}', '\u{202e}'])), "{odd:?}");
    let text = "id,name,file\nlower,Lower,k\u{202e}inds\n".to_string();
    let sheets = sheets_of_good().into_iter().filter(|(p, _)| p != "kinds.csv");
    let faults = faults(sheets.chain([("kinds.csv".to_string(), text)]).collect());
    assert!(
        faults.iter().any(|f| f == "kinds.csv:2: file: A file is named by letters, digits and hyphens."),
        "{faults:?}"
    );
}

#[test]
fn semicolons_and_decimal_commas_make_the_same_pack() {
    let sheets = sheets_of_good();
    let one = compile(&import(&Files::new(sheets.clone())).expect("sheets").files).expect("sound");
    // As a spreadsheet of another country writes it: the heads of the sheet in which numbers have decimals.
    let other: Vec<(String, String)> = sheets
        .into_iter()
        .map(|(p, t)| {
            if p == "tools.csv" || p == "roles.csv" {
                (p, format!("\u{feff}{}", t.replace(',', ";")))
            } else {
                (p, t)
            }
        })
        .map(|(p, t)| if p == "questions.csv" { (p, t.replace("90.5", "\"90,5\"")) } else { (p, t) })
        .collect();
    let other = compile(&import(&Files::new(other)).expect("sheets").files).expect("sound");
    assert_eq!(one.core_digest, other.core_digest);
}

#[test]
fn texts_that_look_like_formulas_stay_texts() {
    let mut files = crate::common::good();
    let glossary = files.iter_mut().find(|(p, _)| p == "glossary.toml").expect("a glossary");
    glossary.1 = "[[term]]\nword = \"=1+1\"\nmeans = \"'@x \\\" , ; -\"\n".to_string();
    let files = Files::new(files);
    let sheets = export(&files).expect("sheets");
    let sheet = &sheets.iter().find(|(p, _)| p == "glossary.csv").expect("a sheet").1;
    // Basis: what spreadsheets take for a formula begins with one of = + - @.
    assert!(sheet.contains("'=1+1"), "{sheet}");
    let back = there_and_back(&files).expect("there and back");
    let (one, other) = (compile(&files).expect("sound"), compile(&back).expect("sound"));
    assert_eq!(one.book.terms, other.book.terms);
}

#[test]
fn sheets_are_told_from_other_files() {
    assert!(sheets_of_good().iter().all(|(p, _)| is_sheet(p) || p == "codes.csv"));
    assert!(!is_sheet("codes.csv") && !is_sheet("kinds/kinds.csv") && !is_sheet("kinds.toml"));
}

#[test]
fn sheets_that_are_meant_to_do_harm_are_refused() {
    let only = |name: &str, text: String| faults(vec![(name.to_string(), text)]);
    let wide = format!("id,{}\n", "x,".repeat(100_000));
    for (name, text, says) in [
        ("kinds.csv", wide, "more than 2000 cells"),
        ("kinds.csv", "id\n".repeat(100_000), "more than 20000 rows"),
        ("kinds.csv", "id,\"x".to_string(), "never closed"),
        ("kinds.csv", "id,id\na,b\n".to_string(), "Two columns"),
        ("kinds.csv", "file,id\n../../etc/x,a\n".to_string(), "A file is named by"),
        ("kinds.csv", "id,looks.grip.says.deep.er\na,b\n".to_string(), "There is no column"),
        ("kinds.csv", "id,name\na,b,c,d\n".to_string(), "more cells than the first"),
        ("pack.csv", "x,y\na,b\n".to_string(), "The column is missing"),
        ("pack.csv", format!("field,value\n{}a,1\n", "a.".repeat(5000)), "too deep"),
        ("pack.csv", "field,value\nid,<script>\n".to_string(), "looks like a tag"),
        ("pack.csv", "field,value\nname,a\u{202e}b\n".to_string(), "hidden character"),
        ("pack.csv", "field,value\nname = \"\"\"x,1\n".to_string(), "There is no field"),
    ] {
        let told = only(name, text);
        assert!(
            told.iter().any(|f| f.contains(says)),
            "{says}: {:?}",
            told.iter().take(3).collect::<Vec<_>>()
        );
    }
}
