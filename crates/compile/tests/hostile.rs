//! Whatever the files hold, an answer comes back: a pack or faults, always the same, never a panic.

use compile::{Files, LARGEST_PACK, LONGEST_FILE, MOST_FILES, compile, missing_codes};
use proptest::prelude::*;

/// Pieces that are meant to do harm, put in anywhere.
const BARBS: [&str; 24] = [
    "\"",
    "'",
    "\"\"\"",
    "[",
    "]",
    "[[",
    "]]",
    "{",
    "}",
    "=",
    ".",
    ",",
    "\n",
    "#",
    "\\",
    "\u{202e}",
    "\0",
    "nan",
    "1e999",
    "-9223372036854775808",
    "a.b.c.d = 1\n",
    "[[kind]]\n",
    "<script>",
    "defines",
];

#[derive(Debug, Clone)]
enum Change {
    /// Cut out characters.
    Cut { file: usize, at: usize, length: usize },
    /// Put in a barb.
    Barb { file: usize, at: usize, barb: usize },
    /// Put a line of one file into another.
    Graft { from: usize, line: usize, file: usize, at: usize },
    /// Double a line.
    Double { file: usize, line: usize },
    /// Put a number in the place of the first digit behind.
    Digit { file: usize, at: usize, digit: u8 },
}

fn change() -> impl Strategy<Value = Change> {
    let n = || 0..100_000_usize;
    prop_oneof![
        (n(), n(), 1..40_usize).prop_map(|(file, at, length)| Change::Cut { file, at, length }),
        (n(), n(), 0..BARBS.len()).prop_map(|(file, at, barb)| Change::Barb { file, at, barb }),
        (n(), n(), n(), n()).prop_map(|(from, line, file, at)| Change::Graft { from, line, file, at }),
        (n(), n()).prop_map(|(file, line)| Change::Double { file, line }),
        (n(), n(), b'0'..=b'9').prop_map(|(file, at, digit)| Change::Digit { file, at, digit }),
    ]
}

/// The place of a character, counted in characters and wrapped round.
fn place(text: &str, at: usize) -> usize {
    let n = text.chars().count() + 1;
    text.char_indices().nth(at % n).map_or(text.len(), |(i, _)| i)
}

fn line(text: &str, at: usize) -> String {
    let lines: Vec<&str> = text.lines().collect();
    lines.get(at % lines.len().max(1)).map_or(String::new(), |l| format!("{l}\n"))
}

fn make(files: &mut [(String, String)], change: &Change) {
    let n = files.len();
    match *change {
        Change::Cut { file, at, length } => {
            let text = &mut files[file % n].1;
            let from = place(text, at);
            let to = text[from..].char_indices().nth(length).map_or(text.len(), |(i, _)| from + i);
            text.replace_range(from..to, "");
        }
        Change::Barb { file, at, barb } => {
            let text = &mut files[file % n].1;
            text.insert_str(place(text, at), BARBS[barb]);
        }
        Change::Graft { from, line: l, file, at } => {
            let graft = line(&files[from % n].1, l);
            let text = &mut files[file % n].1;
            let at = place(text, at);
            let at = text[at..].find('\n').map_or(text.len(), |i| at + i + 1);
            text.insert_str(at, &graft);
        }
        Change::Double { file, line: l } => {
            let text = &mut files[file % n].1;
            let double = line(text, l);
            text.push_str(&double);
        }
        Change::Digit { file, at, digit } => {
            let text = &mut files[file % n].1;
            let at = place(text, at);
            if let Some(i) = text[at..].find(|c: char| c.is_ascii_digit()) {
                text.replace_range(at + i..at + i + 1, &char::from(digit).to_string());
            }
        }
    }
}

/// What must hold of any files; `Err` says what does not.
fn answered(files: &Files) -> Result<(), String> {
    let found = compile(files);
    if found != compile(files) {
        return Err("two runs differ".to_string());
    }
    if missing_codes(files) != missing_codes(files) {
        return Err("two runs number differently".to_string());
    }
    match found {
        Ok(c) => {
            let book = pack::read_book(&c.book_bytes);
            let core = pack::read_core(&c.core_bytes).and_then(|mut core| {
                pack::join(&mut core, c.book.late.clone())?;
                Ok(core)
            });
            if core.as_ref() == Ok(&c.core) && book.as_ref() == Ok(&c.book) {
                Ok(())
            } else {
                Err("the pack does not come back".to_string())
            }
        }
        Err(faults) if faults.is_empty() => Err("refused without a fault".to_string()),
        Err(faults) => {
            for fault in faults {
                let shown = fault.to_string();
                if shown.chars().any(|c| c.is_control()) || shown.len() > 4000 {
                    return Err(format!("not a line that can be shown: {shown:?}"));
                }
                let lines = files.get(&fault.file).map_or(usize::MAX, |t| t.lines().count() + 1);
                if fault.line as usize > lines {
                    return Err(format!("the file has no such line: {shown}"));
                }
            }
            Ok(())
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]

    #[test]
    fn changed_packs_are_answered(changes in proptest::collection::vec(change(), 1..6)) {
        let mut files = crate::common::good();
        files.sort();
        for change in &changes {
            make(&mut files, change);
        }
        let answer = answered(&Files::new(files));
        prop_assert!(answer.is_ok(), "{:?}", answer);
    }

    #[test]
    fn any_text_is_answered(file in 0..8_usize, text in "\\PC{0,200}|[\\[\\]{}=.,\"'a-z0-9#\n ]{0,300}") {
        let mut files = crate::common::good();
        files.sort();
        let n = files.len();
        files[file % n].1 = text;
        let answer = answered(&Files::new(files));
        prop_assert!(answer.is_ok(), "{:?}", answer);
    }
}

#[test]
fn files_beyond_the_limits_are_not_read() {
    let with = |more: Vec<(String, String)>| {
        let mut files = crate::common::good();
        files.extend(more);
        let faults = compile(&Files::new(files)).expect_err("a limit is broken");
        faults.iter().map(|f| f.to_string()).collect::<Vec<String>>().join("\n")
    };
    let long = "# remark\n".repeat(LONGEST_FILE / 9 + 1);
    let told = with(vec![("kinds/long.toml".to_string(), long.clone())]);
    assert_eq!(told, "kinds/long.toml: The file is longer than 512 kB. Part it into several files.");
    let many = (0..=MOST_FILES).map(|i| (format!("kinds/{i}.toml"), String::new())).collect();
    assert!(with(many).starts_with("pack.toml: The folder holds "));
    let large = (0..=LARGEST_PACK / (LONGEST_FILE - 9))
        .map(|i| (format!("kinds/{i}.toml"), long[..LONGEST_FILE - 9].to_string()))
        .collect();
    assert_eq!(with(large), "pack.toml: All files together are larger than 8 MB. Shorten the texts.");
    let twice = vec![("pack.toml".to_string(), String::new())];
    assert_eq!(with(twice), "pack.toml: The file was handed over twice.");
}

#[test]
fn very_many_things_are_refused_in_good_time() {
    let mut files = crate::common::good();
    let kind = |i: usize| {
        format!(
            "[[kind]]\nid = \"k{i}\"\nname = \"Kind {i}\"\nshort = \"Kind {i}\"\npurpose = \"None.\"\n\
             roles = \"toy 100\"\ncommon = 1\nlength = {{ from = 40, to = 50 }}\nmakes = \"period 100\"\n\
             period = {{ years = [1900, 1900, 1900, 1900] }}\n"
        )
    };
    for part in 0..6 {
        let kinds: String = (part * 900..part * 900 + 900).map(kind).collect();
        files.push((format!("kinds/many{part}.toml"), kinds));
    }
    let faults = compile(&Files::new(files)).expect_err("too many kinds");
    assert!(faults.iter().any(|f| f.says == "There are more than 1000 kinds."), "{}", faults[0]);
}

#[test]
fn nothing_at_all_is_refused_with_faults() {
    let faults = compile(&Files::default()).expect_err("there is no pack");
    assert!(faults.iter().any(|f| f.file == "pack.toml" && f.says == "The file is missing."));
}

/// A name may come from a stranger's ZIP: what cannot be seen, or turns the writing round, is not repeated.
#[test]
fn names_of_files_and_fields_are_told_plainly() {
    let mut files = crate::common::good();
    let looks = "[kind.looks]\n";
    let kinds = files.iter_mut().find(|(path, text)| path.starts_with("kinds/") && text.contains(looks));
    let text = &mut kinds.expect("a kind with looks").1;
    *text = text.replacen(looks, &format!("{looks}\"a\\u0018b\\u202ec\" = \"bar always\"\n"), 1);
    let faults = compile(&Files::new(files)).expect_err("no such look");
    assert!(faults.iter().any(|f| f.field == "looks.a?b?c"), "{faults:?}");
    let mut files = crate::common::good();
    files.push(("kinds/a\u{18}b\u{202e}c\nd.toml".to_string(), "x = ".to_string()));
    files.push((format!("kinds/{}.toml", "e".repeat(9_000)), "x = ".to_string()));
    let faults = compile(&Files::new(files)).expect_err("no TOML");
    assert!(faults.iter().any(|f| f.file == "kinds/a?b?c?d.toml"), "{faults:?}");
    assert!(faults.iter().all(|f| f.to_string().len() < 1_000), "{faults:?}");
}
