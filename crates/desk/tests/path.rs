//! From what a secretary drops to faults at their cells, to the pack, to the pack opened.
#![allow(clippy::unwrap_used, reason = "a failing unwrap is a failing test")]

use consult::book::Block;
use desk::{Made, Signed, Work, open, starter, unzip};

fn work(files: &[(String, Vec<u8>)]) -> Made {
    let mut work = Work::default();
    files.iter().for_each(|(name, bytes)| work.add(name, bytes.clone()));
    let mut done = 0;
    loop {
        let made = work.step();
        assert!(work.done() >= done, "it goes forward");
        done = work.done();
        if let Some(made) = made {
            return made;
        }
    }
}

fn sheets() -> Vec<(String, Vec<u8>)> {
    unzip(&starter(true).unwrap(), |_| true).unwrap()
}

fn changed(file: &str, from: &str, to: &str) -> Vec<(String, Vec<u8>)> {
    let mut all = sheets();
    let own = all.iter_mut().find(|f| f.0 == file).unwrap();
    let text = String::from_utf8(own.1.clone()).unwrap();
    assert!(text.contains(from), "{file} holds {from:?}");
    own.1 = text.replacen(from, to, 1).into_bytes();
    all
}

/// All lines, each with the headings that it stands under.
fn lines(blocks: &[Block], under: &str) -> Vec<String> {
    let one = |block: &Block| match block {
        Block::Text(_, line) => vec![format!("{under}{}{}", line.strong, line.says)],
        Block::Lines(lines) => lines.iter().map(|l| format!("{under}{}{}", l.strong, l.says)).collect(),
        Block::Section(title, _, inside) => lines(inside, &format!("{under}{title}| ")),
        Block::Rows(rows) | Block::Shares(rows) => {
            rows.iter().map(|r| format!("{under}{}: {}", r.0, r.1)).collect()
        }
        _ => Vec::new(),
    };
    blocks.iter().flat_map(one).collect()
}

fn told(made: &Made) -> String {
    lines(&made.blocks, "").join("\n")
}

#[test]
fn the_starter_is_a_pack_whichever_way_it_is_handed_over() {
    let zip = vec![("starter.zip".to_string(), starter(true).unwrap())];
    let made = work(&zip);
    let (name, bytes) = made.pack.clone().unwrap();
    assert!(name.starts_with("mypack-") && name.ends_with(".pack"), "{name}");
    assert!(told(&made).contains("No faults."), "{}", told(&made));
    assert!(told(&made).contains("made up of its own tables"));
    // Hints speak of sheets to who writes sheets.
    assert!(told(&made).contains("Add a row of taken-for.csv"), "{}", told(&made));
    assert!(!told(&made).contains("[["), "{}", told(&made));
    // Files one by one, in any order, texts instead of sheets, a folder round it all.
    let mut loose = sheets();
    loose.reverse();
    let within: Vec<(String, Vec<u8>)> =
        sheets().into_iter().map(|(name, data)| (format!("our club/{name}"), data)).collect();
    for other in [loose, within, vec![("texts.zip".to_string(), starter(false).unwrap())]] {
        assert_eq!(work(&other).pack.unwrap().1, bytes);
    }
}

#[test]
fn the_halves_are_those_of_the_compiler() {
    // Basis: the compiler's own bytes for the same files, which is what `workshop build` writes.
    let files = survey::starter(None, None, false).unwrap();
    let own = files.into_iter().filter(|(p, _)| !p.ends_with(".txt")).collect();
    let compiled = compile::compile(&compile::Files::new(own)).unwrap();
    let made = work(&[("starter.zip".to_string(), starter(true).unwrap())]);
    let bytes = made.pack.unwrap().1;
    let parts = pack::parts(&bytes).unwrap();
    assert_eq!((parts.core, parts.book), (&compiled.core_bytes[..], &compiled.book_bytes[..]));
    let opened = open(&bytes, None, "", "").unwrap();
    assert_eq!(opened.digest, compiled.whole_digest);
    assert_eq!((opened.id.as_str(), opened.name.as_str()), ("mypack", "My first pack"));
    assert_eq!(opened.verdict.signed, Signed::Unsigned);
}

#[test]
fn faults_name_the_sheet_the_row_and_the_column() {
    let text = String::from_utf8(sheets().iter().find(|f| f.0 == "kinds.csv").unwrap().1.clone()).unwrap();
    let head: Vec<&str> = text.lines().next().unwrap().split(',').collect();
    assert!(head.contains(&"common"), "{head:?}");
    let made = work(&changed("pack.csv", "2026-", "20x6-"));
    assert!(made.pack.is_none());
    let said = told(&made);
    assert!(said.contains("pack.csv| Row ") && said.contains("column edition: "), "{said}");
    assert!(said.starts_with("1 fault to mend"), "{said}");
}

#[test]
fn other_programs_sheets_are_read() {
    // Semicolons, line ends and the mark at the beginning as spreadsheet programs of many countries save them (RFC 4180 and
    // the separators they offer): the pack is the same.
    let bytes = work(&sheets()).pack.unwrap().1;
    let other: Vec<(String, Vec<u8>)> = sheets()
        .into_iter()
        .map(|(name, data)| {
            let text = String::from_utf8(data).unwrap();
            let plain = text.trim_start_matches('\u{feff}');
            let unix = if name.ends_with(".csv") { plain.replace("\r\n", "\n") } else { plain.to_string() };
            (name, unix.into_bytes())
        })
        .collect();
    assert_eq!(work(&other).pack.unwrap().1, bytes);
}

#[test]
fn what_cannot_be_read_is_told_with_a_way_out() {
    let mut latin = sheets();
    latin.iter_mut().find(|f| f.0 == "glossary.csv").unwrap().1.extend(b"caf\xe9,x\r\n");
    let said = told(&work(&latin));
    assert!(said.contains("glossary.csv| Row ") && said.contains("CSV UTF-8"), "{said}");
    for (name, wanted) in [("pack.xlsx", "as CSV"), ("holiday.jpg", "No file of a pack")] {
        let said = told(&work(&[(name.to_string(), b"PK\x03\x04 and so on".to_vec())]));
        assert!(said.contains(wanted) || name == "holiday.jpg", "{said}");
    }
    assert!(told(&work(&[("notes.txt".to_string(), Vec::new())])).contains("No file of a pack"));
    let mut misspelt = sheets();
    misspelt.push(("kindz.csv".to_string(), b"id\r\n".to_vec()));
    assert!(told(&work(&misspelt)).contains("kindz.csv| A pack has no file of this name."));
}

#[test]
fn texts_of_a_hostile_sheet_stay_texts() {
    let hostile = "<img src=x onerror=alert(1)>";
    let said = told(&work(&changed("pack.csv", "My first pack", hostile)));
    // Refused by the reader of packs, which has no tags at all; what is repeated of it is a text.
    assert!(said.contains("pack.csv| Row ") && said.contains("column name: "), "{said}");
}

#[test]
fn a_key_goes_into_the_pack_and_nonsense_does_not() {
    let key = include_str!("fixtures/first.pub").lines().nth(1).unwrap();
    let with = |value: &str| {
        let mut all = sheets();
        all.iter_mut().find(|f| f.0 == "pack.csv").unwrap().1.extend(format!("key,{value}\r\n").bytes());
        work(&all)
    };
    let bytes = with(key).pack.unwrap().1;
    assert_eq!(pack::parts(&bytes).unwrap().key, key);
    let said = told(&with("RWnonsense"));
    assert!(said.contains("column key: This is not a public key"), "{said}");
}

#[test]
fn damaged_packs_are_refused_with_a_sentence() {
    let bytes = work(&sheets()).pack.unwrap().1;
    for cut in (0..bytes.len()).step_by(97) {
        let says = open(&bytes[..cut], None, "", "").unwrap_err();
        assert!(says.ends_with('.'), "{says}");
    }
    let mut behind = bytes.clone();
    behind.push(0);
    assert!(open(&behind, None, "", "").unwrap_err().contains("damaged"));
    assert!(open(&bytes, None, "not a key", "").unwrap_err().contains("public key"));
}
