//! An outside check: irons as museums record them, answered from the text of the record before any run.
//!
//! How the records were chosen and answered stands in `tests/cases/museum/README.md`. Basis of the share that is
//! demanded, ten in twelve: practice, what a good helper at a table should reach on pieces told in a few words.

use std::collections::BTreeSet;
use std::path::Path;
use tests::cases::{Expected, expected, folders};
use tests::packs::{at, guide};

/// The name of a record's folder.
fn name(case: &Path) -> String {
    case.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default()
}

/// What of a record a line of its `expect.txt` is about.
fn about(expected: &Expected) -> &'static str {
    if expected.line.starts_with("years") { "date" } else { "type" }
}

/// The misses that are explained: lines such as `- some-record date: why`.
fn explained(text: &str) -> BTreeSet<String> {
    let entries = text.lines().filter_map(|l| l.strip_prefix("- "));
    entries
        .map(|entry| {
            let (miss, why) = entry.split_once(':').unwrap_or((entry, ""));
            assert!(why.split_whitespace().count() >= 5, "misses.md: {miss} is not explained");
            miss.trim().to_string()
        })
        .collect()
}

#[test]
fn museum_records_find_their_type_and_date() -> Result<(), String> {
    let guide = guide();
    let cases = folders(&at("tests/cases/museum"));
    assert!(cases.len() >= 14, "there are only {} records", cases.len());
    let (mut missed, mut short) = (BTreeSet::new(), Vec::new());
    for (what, least) in [("type", cases.len()), ("date", 14)] {
        let (mut held, mut all) = (0, 0);
        for case in &cases {
            let lines = expected(&guide, case).map_err(|e| format!("{}: {e}", name(case)))?;
            assert!(case.join("record.txt").is_file(), "{}: record.txt is missing", case.display());
            let lines: Vec<&Expected> = lines.iter().filter(|e| about(e) == what).collect();
            assert!(lines.len() <= 1, "{}: expects more than one {what}", case.display());
            for line in lines {
                all += 1;
                match &line.instead {
                    None => held += 1,
                    Some(instead) => {
                        println!("missed: {} {what}: {}: {instead}", name(case), line.line);
                        missed.insert(format!("{} {what}", name(case)));
                    }
                }
            }
        }
        println!("figure: museum records: {what} holds for {held} of {all}");
        assert!(all >= least, "only {all} records expect a {what}");
        // Ten of twelve or more, whole records: of twenty-nine these are twenty-four.
        if held < all * 10 / 12 {
            short.push(format!("{what} holds for {held} of {all}, fewer than ten of twelve"));
        }
    }
    assert!(short.is_empty(), "{}", short.join("; "));
    let text = std::fs::read_to_string(at("tests/cases/museum/misses.md")).unwrap_or_default();
    let explained = explained(&text);
    let silent: Vec<_> = missed.difference(&explained).collect();
    let idle: Vec<_> = explained.difference(&missed).collect();
    assert!(silent.is_empty(), "misses.md does not explain {silent:?}");
    assert!(idle.is_empty(), "misses.md explains what is no miss: {idle:?}");
    Ok(())
}
