//! The contact sheet: every drawing of the bundled pack is on it, it runs nothing, and what cannot be drawn is told.

use crate::common::{fresh, good, workshop};
use std::fs;
use std::path::{Path, PathBuf};

fn irons() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../data/packs/irons")
}

fn shown(path: &Path) -> &str {
    path.to_str().expect("a path of text")
}

/// Lines of the files of a folder that begin so.
fn lines(folder: &Path, start: &str) -> usize {
    let files = fs::read_dir(folder).expect("the folder can be listed");
    let texts = files.map(|f| fs::read_to_string(f.expect("an entry").path()).expect("a file of text"));
    texts.map(|t| t.lines().filter(|l| l.starts_with(start)).count()).sum()
}

#[test]
fn every_choice_and_every_kind_is_on_the_sheet() {
    let out = fresh("sheet");
    fs::create_dir_all(&out).expect("a folder can be made");
    let to = out.join("sheet.html");
    let (code, _, err) = workshop(&["print", shown(&irons()), "--sheet", shown(&to)]);
    assert_eq!((code, err.as_str()), (Some(0), ""));
    let html = fs::read_to_string(&to).expect("the sheet was written");
    let part = |id: &str| {
        let from = html.find(&format!("<section id=\"{id}\">")).expect("the part is there");
        let rest = &html[from..];
        &rest[..rest.find("</section>").expect("it ends")]
    };
    // Light and dark.
    let drawings = |id: &str| part(id).matches("<svg ").count();
    assert_eq!(drawings("questions"), 2 * lines(&irons().join("questions"), "draw = "));
    assert_eq!(drawings("kinds"), 2 * lines(&irons().join("kinds"), "draw = "));
    assert!(drawings("words") > drawings("questions"));
    for word in ["<script", "style=", "javascript:", "http:", "https:", "url("] {
        assert!(!html.contains(word), "{word}");
    }
    assert_eq!(html.matches("<svg ").count(), html.matches(" aria-label=\"").count());
    assert_eq!(html.matches("<figure").count(), html.matches("</figure>").count());
}

#[test]
fn what_cannot_be_printed_is_told() {
    let (code, _, err) = workshop(&["print", shown(&irons())]);
    assert!(code == Some(2) && err.contains("Say what to print"), "{err}");
    let (code, _, err) = workshop(&["print", shown(&good()), "--sheet", "sheet.html"]);
    assert!(code == Some(1) && err.contains("grip.toml"), "{err}");
    let (code, _, err) = workshop(&["print", shown(&irons()), "--sheet", "no/such/folder/sheet.html"]);
    assert!(code == Some(2) && err.contains("could not be written"), "{err}");
}

#[test]
fn forty_pieces_are_on_a_page() {
    let out = fresh("pieces");
    fs::create_dir_all(&out).expect("a folder can be made");
    let to = out.join("pieces.html");
    let (code, _, err) = workshop(&["print", shown(&irons()), "--pieces", shown(&to), "--seed", "7"]);
    assert_eq!((code, err.as_str()), (Some(0), ""));
    let html = fs::read_to_string(&to).expect("the page was written");
    assert_eq!(html.matches("<h2>").count(), 40);
    assert!(!html.contains("<script"));
    let (code, _, err) = workshop(&["print", shown(&irons()), "--pieces", shown(&to), "--seed", "many"]);
    assert!(code == Some(2) && err.starts_with("--seed needs a whole number"), "{err}");
}
