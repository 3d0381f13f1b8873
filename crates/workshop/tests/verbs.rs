//! The verbs as a writer of packs meets them: what is printed, how a run ends, what is written.

use crate::common::{changed, fresh, good, workshop};
use std::fs;
use std::path::Path;

fn shown(path: &Path) -> &str {
    path.to_str().expect("a path of text")
}

#[test]
fn check_reports_what_a_sound_pack_holds() {
    let (code, out, err) = workshop(&["check", shown(&good())]);
    assert_eq!((code, err.as_str()), (Some(0), ""));
    for line in
        ["Tiny test irons, edition 2026-01-31: no faults.", "        3  kinds", "        6  candidates"]
    {
        assert!(out.lines().any(|l| l == line), "{line} is missing in:\n{out}");
    }
}

#[test]
fn check_lists_faults() {
    let pack = changed("check-faults", "kinds/cast.toml", "bar always", "barr always");
    let (code, out, _) = workshop(&["check", shown(&pack)]);
    let fault = "kinds/cast.toml:28: looks.grip: \"barr\" is not a choice of this question. Choices: bar, pierced, wire.";
    assert_eq!((code, out.lines().next()), (Some(1), Some(fault)));
    let (code, out, _) = workshop(&["check", shown(&pack), "--json"]);
    let json: serde_json::Value = serde_json::from_str(&out).expect("JSON");
    assert_eq!((code, &json["faults"][0]["line"]), (Some(1), &serde_json::json!(28)));
    assert_eq!(json["report"], serde_json::Value::Null);
}

#[test]
fn check_speaks_json_of_a_sound_pack() {
    let (code, out, _) = workshop(&["check", "--json", shown(&good())]);
    let json: serde_json::Value = serde_json::from_str(&out).expect("JSON");
    assert_eq!((code, &json["faults"]), (Some(0), &serde_json::json!([])));
    assert_eq!(json["report"]["sizes"]["kinds"], 3);
    assert_eq!(json["report"]["figures"]["published"], 1);
}

#[test]
fn build_writes_the_same_files_each_time() {
    let (one, two) = (fresh("build-one"), fresh("build-two"));
    for out in [&one, &two] {
        let (code, said, err) = workshop(&["build", shown(&good()), "--out", shown(out)]);
        assert_eq!((code, err.as_str()), (Some(0), ""));
        let list = fs::read_to_string(out.join("pack.txt")).expect("pack.txt");
        assert_eq!(said, list);
    }
    let list = fs::read_to_string(one.join("pack.txt")).expect("pack.txt");
    let names: Vec<&str> = list.lines().filter_map(|l| l.split(' ').nth(1)).collect();
    // Core, book, and both in one.
    assert_eq!(names.len(), 3);
    for name in names {
        let bytes = fs::read(one.join(name)).expect("a half of the pack");
        assert_eq!(bytes, fs::read(two.join(name)).expect("the same"), "{name}");
        let digits = name.trim_end_matches(".pack").rsplit('-').next().map(str::len);
        assert_eq!((digits, &bytes[..7]), (Some(16), b"PRSMARK".as_slice()), "{name}");
    }
}

#[test]
fn build_writes_nothing_with_a_fault() {
    let pack = changed("build-faults", "pack.toml", "unknown = 4", "unknown = 400");
    let out = fresh("build-nothing");
    let (code, said, err) = workshop(&["build", shown(&pack), "--out", shown(&out)]);
    assert_eq!((code, said.as_str(), out.exists()), (Some(1), "", false));
    assert_eq!(err, "pack.toml:9: unknown: The number must lie between 0.1 and 50.\n");
}

#[test]
fn codes_prints_what_is_missing() {
    let pack = changed("codes", "codes.csv", "kind,wire-iron,2\n", "");
    assert_eq!(
        workshop(&["codes", shown(&pack)]),
        (Some(0), "kind,wire-iron,10\n".to_string(), String::new())
    );
    // The sound pack lacks none; what lacks all of them gets the heading too.
    assert_eq!(workshop(&["codes", shown(&good())]).1, "");
    fs::remove_file(pack.join("codes.csv")).expect("the file goes");
    let (_, all, _) = workshop(&["codes", shown(&pack)]);
    assert!(all.starts_with("what,id,code\nplace,anywhere,1\n"), "{all}");
    fs::write(pack.join("codes.csv"), all).expect("the file comes");
    assert_eq!(workshop(&["check", shown(&pack)]).0, Some(0));
}

#[test]
fn what_is_not_understood_ends_with_two() {
    let pack = good();
    let pack = shown(&pack);
    for words in [
        vec![],
        vec!["chekc", pack],
        vec!["check"],
        vec!["check", "no/such/folder"],
        vec!["check", pack, "--jsn"],
        vec!["build", pack],
        vec!["build", pack, "--out"],
        vec!["words", "--all"],
        vec!["simulate"],
        vec!["simulate", pack, "--pieces", "few"],
        vec!["simulate", pack, "--pieces", "0"],
    ] {
        assert_eq!(workshop(&words).0, Some(2), "{words:?}");
    }
    for verb in ["check", "build", "codes", "simulate", "words"] {
        let (code, out, _) = workshop(&[verb, "--help"]);
        assert!(code == Some(0) && out.starts_with(&format!("workshop {verb}")), "{verb}: {out}");
    }
}

/// Every verb speaks to programs too.
#[test]
fn words_and_prints_are_told_to_programs() {
    let json = |words: &[&str], wanted: i32| {
        let (code, out, err) = workshop(words);
        assert_eq!(code, Some(wanted), "{words:?}: {err}");
        serde_json::from_str::<serde_json::Value>(&out).expect("what is told to programs is JSON")
    };
    let art = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../data/art");
    let words = json(&["words", shown(&art), "--json"], 0);
    let keys = words["keys"].as_array().expect("keys");
    let grip = keys.iter().find(|k| k["key"] == "grip").expect("the key of grips");
    assert!(grip["values"].as_array().is_some_and(|v| v.iter().any(|v| v["value"] == "wire")), "{grip}");
    let pack = good();
    let key = json(&["print", "key", shown(&pack), "--json"], 0);
    assert!(key["page"].as_str().is_some_and(|p| p.starts_with("<!doctype html>")));
    let to = Path::new(env!("CARGO_TARGET_TMPDIR")).join("told.html");
    let card = json(&["print", shown(&pack), "--card", shown(&to), "--json"], 0);
    assert_eq!(card["files"][0], shown(&to));
    let broken = changed("told", "glossary.toml", "[[", "[");
    assert!(
        json(&["print", "key", shown(&broken), "--json"], 1)["faults"]
            .as_array()
            .is_some_and(|f| !f.is_empty())
    );
}

#[test]
fn a_file_that_is_not_text_is_named_with_its_line() {
    let pack = changed("not-text", "glossary.toml", "Grip", "Grip");
    fs::write(pack.join("glossary.toml"), b"# one\n# \xff\n").expect("the file can be changed");
    let (code, _, err) = workshop(&["check", shown(&pack)]);
    assert_eq!(code, Some(2));
    assert_eq!(err, "glossary.toml:2: The text is not UTF-8. Save the file as UTF-8.\n");
}
