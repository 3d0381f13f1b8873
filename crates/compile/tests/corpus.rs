//! Packs that are meant to do harm, each by one means: refused with a sentence that names the place, or taken with the text
//! exactly as it stands. Where the means is a single character or word the cases in `cases/` have more of them.

use compile::shape::{FILES, Shape, Sort};
use compile::{Fault, Files, compile, missing_codes};

/// What is done to the sound pack, in which file, and the beginning of what must be said.
type Case = (&'static str, &'static str, fn(&str) -> String, &'static str);

fn put(text: &str, from: &str, to: &str) -> String {
    assert!(text.contains(from), "the pack holds {from}");
    text.replacen(from, to, 1)
}

fn after(text: &str, more: &str) -> String {
    format!("{text}\n{more}\n")
}

const CAST: &str = "kinds/cast.toml";
const FORM: &str = "questions/form.toml";

const CASES: &[Case] = &[
    // Bombs and depth.
    (
        "ten thousand open brackets",
        CAST,
        |t| after(t, &format!("x = {}", "[".repeat(10_000))),
        "Lists, tables or names stand too deep",
    ),
    (
        "ten thousand open braces",
        CAST,
        |t| after(t, &format!("x = {}", "{a=".repeat(10_000))),
        "Lists, tables or names stand too deep",
    ),
    (
        "a key of ten thousand names",
        CAST,
        |t| after(t, &format!("{}a = 1", "a.".repeat(10_000))),
        "Lists, tables or names stand too deep",
    ),
    (
        "a heading of ten thousand names",
        CAST,
        |t| after(t, &format!("[{}a]", "a.".repeat(10_000))),
        "Lists, tables or names stand too deep",
    ),
    (
        "a text of a quarter of a megabyte",
        CAST,
        |t| put(t, "Toy iron with a bar", &"x".repeat(250_000)),
        "The text is 250000 characters long",
    ),
    (
        "notes of a quarter of a megabyte",
        CAST,
        |t| put(t, "First paragraph,", &"word ".repeat(50_000)),
        "The text is ",
    ),
    (
        "a table of twenty thousand choices",
        CAST,
        |t| put(t, "bar always", &"bar always, ".repeat(20_000)),
        "The text is ",
    ),
    (
        "twenty thousand looks",
        CAST,
        |t| {
            put(
                t,
                "[kind.looks]",
                &(0..20_000).fold("[kind.looks]\n".to_string(), |a, i| a + &format!("q{i} = \"bar\"\n")),
            )
        },
        "The table has more than 1000 lines",
    ),
    (
        "twenty-five thousand cautions of a kind",
        CAST,
        |t| {
            put(
                t,
                "cautions = [\"lead-paint\"]",
                &format!("cautions = [{}]", "\"lead-paint\", ".repeat(25_000)),
            )
        },
        "The list has more than 1000 entries",
    ),
    (
        "three thousand forms",
        CAST,
        |t| after(t, &"[[kind.form]]\nname = \"f\"\nshare = 0.1\n".repeat(3_000)),
        "There are ",
    ),
    (
        "two thousand questions",
        FORM,
        |t| after(t, &(0..2_000).fold(String::new(), |a, i| a + &format!("[[question]]\nid = \"q{i}\"\n"))),
        "The field is missing",
    ),
    (
        "two thousand choices",
        FORM,
        |t| {
            after(
                t,
                &(0..2_000).fold(String::new(), |a, i| {
                    a + &format!("[[question.choice]]\nid = \"c{i}\"\nlabel = \"C\"\nclue = \"C\"\n")
                }),
            )
        },
        "There are 12 choices",
    ),
    (
        "two thousand places",
        "pack.toml",
        |t| {
            after(
                t,
                &(0..2_000)
                    .fold(String::new(), |a, i| a + &format!("[[place]]\nid = \"p{i}\"\nname = \"P\"\n")),
            )
        },
        "There are ",
    ),
    (
        "ten thousand groups",
        "pack.toml",
        |t| {
            put(t, "[groups]", &(0..10_000).fold("[groups]\n".to_string(), |a, i| a + &format!("g{i} = 1\n")))
        },
        "The table has more than 1000 lines",
    ),
    (
        "ten thousand faults",
        "glossary.toml",
        |_| "[[term]]\n".repeat(10_000),
        "The list has more than 1000 entries",
    ),
    // The same name twice.
    (
        "two kinds of one id",
        CAST,
        |t| put(t, "id = \"wire-iron\"", "id = \"bar-toy\""),
        "There are two kinds",
    ),
    (
        "two questions of one id",
        FORM,
        |t| put(t, "id = \"holes\"", "id = \"grip\""),
        "There are two questions",
    ),
    ("two choices of one id", FORM, |t| put(t, "id = \"wire\"", "id = \"bar\""), "There are two choices"),
    (
        "two places of one id",
        "pack.toml",
        |t| put(t, "id = \"dug\"", "id = \"anywhere\""),
        "There are two of the name",
    ),
    ("one field twice", CAST, |t| put(t, "common = 5", "common = 5\ncommon = 5"), "The line cannot be read"),
    ("one code twice", "codes.csv", |t| put(t, "kind,wire-iron,2", "kind,wire-iron,1"), ""),
    (
        "one code for two kinds of thing, by a sign before it",
        "codes.csv",
        |t| put(t, "kind,wire-iron,2", "kind,wire-iron,+2"),
        "",
    ),
    // Numbers.
    ("no number", CAST, |t| put(t, "from = 38", "from = nan"), "The number must lie between"),
    ("no end", CAST, |t| put(t, "to = 100", "to = inf"), "The number must lie between"),
    ("no end, downwards", CAST, |t| put(t, "from = 38", "from = -inf"), "The number must lie between"),
    ("below zero", CAST, |t| put(t, "from = 38", "from = -38"), "The number must lie between"),
    ("a number of 400 digits", CAST, |t| put(t, "common = 5", &format!("common = {}", "9".repeat(400))), ""),
    ("a power of ten thousand", CAST, |t| put(t, "to = 100", "to = 1e10000"), "The number must lie between"),
    (
        "shares below zero",
        CAST,
        |t| put(t, "bar 50, pierced 50", "bar -50, pierced 150"),
        "\"-50\" is not a word of frequency",
    ),
    (
        "shares that are no number",
        CAST,
        |t| put(t, "bar 50, pierced 50", "bar nan, pierced 50"),
        "\"nan\" is not a word of frequency",
    ),
    (
        "shares of more than all",
        CAST,
        |t| put(t, "bar 50, pierced 50", "bar 100, pierced 100"),
        "The per cents sum to 200",
    ),
    (
        "weights below zero",
        "pack.toml",
        |t| put(t, "always = 900", "always = -900"),
        "The number must lie between",
    ),
    (
        "weights of nothing",
        "pack.toml",
        |t| {
            "always usually often sometimes seldom never"
                .split(' ')
                .zip(["900", "600", "300", "150", "50", "20"])
                .fold(t.to_string(), |t, (w, n)| put(&t, &format!("{w} = {n}"), &format!("{w} = 0")))
        },
        "The words must weigh less",
    ),
    (
        "years of the far future",
        CAST,
        |t| put(t, "2010, 2026]", "2010, 99999]"),
        "The number must lie between",
    ),
    (
        "years that run backwards",
        CAST,
        |t| put(t, "[1850, 1880, 1915, 1935]", "[1935, 1915, 1880, 1850]"),
        "The years are out of order",
    ),
    ("a price beyond all money", CAST, |t| put(t, "35.50", "1e300"), "The number must lie between"),
    (
        "a look that takes for ever",
        FORM,
        |t| put(t, "seconds = 6", "seconds = 9223372036854775807"),
        "The number must lie between",
    ),
    (
        "a look that takes no time",
        FORM,
        |t| put(t, "seconds = 6", "seconds = 0"),
        "The number must lie between",
    ),
    (
        "a gate that waits for itself",
        FORM,
        |t| put(t, "asked_if = \"grip: pierced\"", "asked_if = \"holes: through\""),
        "",
    ),
    // Characters that disguise.
    (
        "a text that runs backwards",
        CAST,
        |t| put(t, "Toy iron with a bar", "Toy \u{202e}rab a htiw\u{202c}"),
        "The text holds the hidden character U+202E",
    ),
    (
        "an isolate",
        CAST,
        |t| put(t, "Toy iron with a bar", "Toy \u{2066}iron\u{2069}"),
        "The text holds the hidden character U+2066",
    ),
    (
        "a mark of Arabic letters",
        CAST,
        |t| put(t, "Toy iron with a bar", "Toy\u{61c} iron"),
        "The text holds the hidden character U+061C",
    ),
    (
        "a space of no width",
        CAST,
        |t| put(t, "Toy iron with a bar", "Toy\u{200b} iron"),
        "The text holds the hidden character U+200B",
    ),
    (
        "letters that are tags",
        CAST,
        |t| put(t, "Toy iron with a bar", "Toy\u{e0041}"),
        "The text holds the hidden character U+E0041",
    ),
    (
        "a mark of byte order",
        CAST,
        |t| put(t, "Toy iron with a bar", "Toy\u{feff}"),
        "The text holds the hidden character U+FEFF",
    ),
    (
        "a bell",
        CAST,
        |t| put(t, "Toy iron with a bar", "Toy\\u0007"),
        "The text holds the hidden character U+0007",
    ),
    (
        "nothing, as a character",
        CAST,
        |t| put(t, "Toy iron with a bar", "Toy\\u0000"),
        "The text holds the hidden character U+0000",
    ),
    (
        "a way to colour a terminal",
        CAST,
        |t| put(t, "Toy iron with a bar", "Toy\\u001b[31m"),
        "The text holds the hidden character U+001B",
    ),
    (
        "a second line",
        CAST,
        |t| put(t, "Toy iron with a bar", "Toy\\nTAKE CARE"),
        "The text goes over more than one line",
    ),
    ("an id that runs backwards", CAST, |t| put(t, "\"wire-iron\"\nname", "\"wire\u{202e}iron\"\nname"), ""),
    (
        "a path for an id",
        "pack.toml",
        |t| put(t, "id = \"tiny\"", "id = \"../../x\""),
        "\"../../x\" is not an id of a pack",
    ),
    (
        "a drawing that is a path of its own",
        CAST,
        |t| put(t, "draw = \"body=flat grip=bar\"", "draw = \"M0 0L9 9\""),
        "",
    ),
];

fn spoilt(file: &str, change: fn(&str) -> String) -> Files {
    let mut files = crate::common::good();
    for (_, text) in files.iter_mut().filter(|(p, _)| p == file) {
        *text = change(text);
    }
    Files::new(files)
}

/// Faults that a terminal or a page may show as they are.
fn shown_safely(faults: &[Fault]) {
    assert!(!faults.is_empty() && faults.len() <= 1100, "{} faults", faults.len());
    for fault in faults {
        let line = fault.to_string();
        let hides = |c: char| {
            c.is_control()
                || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{200b}'..='\u{200f}')
        };
        assert!(!line.chars().any(hides) && line.len() < 4000, "{line:?}");
        assert!(fault.says.ends_with(['.', '?']) && fault.says.contains(' '), "no sentence: {}", fault.says);
    }
}

#[test]
fn each_is_refused_with_a_sentence() {
    for (name, file, change, says) in CASES {
        let files = spoilt(file, *change);
        let faults = match compile(&files) {
            Err(faults) => faults,
            Ok(_) => unreachable!("{name} was taken"),
        };
        shown_safely(&faults);
        let told = faults.iter().any(|f| f.file == *file && f.says.starts_with(says));
        assert!(told, "{name}: {:?}", faults.iter().take(5).collect::<Vec<_>>());
        // Numbering what has no code must get through the same files.
        let _ = missing_codes(&files);
    }
    assert!(CASES.len() > 40, "{} cases", CASES.len());
}

/// Markup that a careless page would run.
const SCRIPTS: [&str; 4] =
    ["<script>alert(1)</script>", "<img src=x onerror=alert(1)>", "</style><svg onload=alert(1)>", "<!--"];
/// What would run elsewhere than in a text, and is a text here.
const PLAIN: [&str; 3] = ["javascript:alert(1)", "&lt;b&gt; &#60;i", "a ' onclick=alert(1) b"];

/// Every text field of the files, as line numbers of the sound pack: `field = "..."` whose sort is a text.
fn text_fields(files: &[(String, String)]) -> Vec<(String, usize, String)> {
    let mut found = Vec::new();
    for (path, text) in files {
        let Some(file) =
            FILES.iter().find(|f| f.path == path || (f.path.ends_with('/') && path.starts_with(f.path)))
        else {
            continue;
        };
        let mut shape: Option<&Shape> = Some(file.shape);
        for (i, line) in text.lines().enumerate() {
            if line.starts_with('[') {
                shape = line.trim_matches(['[', ']']).split('.').try_fold(file.shape, |s, name| {
                    match s.sort(name)? {
                        Sort::One(s) | Sort::Once(_, s) | Sort::Many(_, s) => Some(s),
                        _ => None,
                    }
                });
            } else if let (Some(shape), Some((name, value))) = (shape, line.split_once(" = ")) {
                let is_text = matches!(shape.sort(name), Some(Sort::Text(_)));
                if is_text && value.starts_with('"') && value.ends_with('"') && !value.starts_with("\"\"\"") {
                    found.push((path.clone(), i, name.to_string()));
                }
            }
        }
    }
    found
}

/// The files with another text in one line.
fn exchanged(files: &[(String, String)], path: &str, line: usize, name: &str, text: &str) -> Files {
    let mut files = files.to_vec();
    for (_, own) in files.iter_mut().filter(|(p, _)| p == path) {
        let mut lines: Vec<String> = own.lines().map(String::from).collect();
        lines[line] = format!("{name} = \"{text}\"");
        *own = lines.join("\n") + "\n";
    }
    Files::new(files)
}

#[test]
fn script_is_refused_in_every_text_field() {
    let all = crate::common::patched(&crate::common::cases().join("lessons-sound"));
    let own = all.iter().filter(|(p, _)| !p.starts_with("art/"));
    let files: Vec<(String, String)> = own.map(|(p, t)| (p.into(), t.into())).collect();
    let fields = text_fields(&files);
    assert!(fields.len() > 60, "{} text fields", fields.len());
    for (path, line, name) in &fields {
        for script in SCRIPTS {
            let faults = compile(&exchanged(&files, path, *line, name, script)).expect_err(name);
            shown_safely(&faults);
            let here = faults.iter().any(|f| f.file == *path && f.line as usize == line + 1);
            assert!(here, "{path}:{}: {name} took {script}: {faults:?}", line + 1);
        }
    }
}

/// Texts that are shown as they stand.
const SHOWN: [&str; 11] =
    ["name", "purpose", "ask", "look", "seller", "clue", "notice", "text", "means", "check", "newcomers"];

#[test]
fn what_only_looks_like_script_stays_the_text_it_is() {
    let files = crate::common::good();
    let fields: Vec<_> =
        text_fields(&files).into_iter().filter(|(_, _, n)| SHOWN.contains(&n.as_str())).collect();
    for text in PLAIN {
        let mut all = files.clone();
        for (path, line, name) in &fields {
            all =
                exchanged(&all, path, *line, name, text).iter().map(|(p, t)| (p.into(), t.into())).collect();
        }
        let c = compile(&Files::new(all)).expect("a text is a text");
        let bytes = [c.core_bytes, c.book_bytes].concat();
        let kept = bytes.windows(text.len()).filter(|w| *w == text.as_bytes()).count();
        // Names of families and forms, and what is said to explain a word twice, do not travel.
        assert!(kept + 6 >= fields.len() && fields.len() > 40, "{kept} of {} kept {text}", fields.len());
    }
}
