//! What `check` says beyond faults of form, on the sound pack with something added; its figures are invented.

use crate::common::{changed, good, workshop};
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};

fn shown(path: &Path) -> &str {
    path.to_str().expect("a path of text")
}

/// The report, and how the run ended.
fn checked(pack: &Path) -> (Option<i32>, Value) {
    let (code, out, _) = workshop(&["check", "--json", shown(pack)]);
    (code, serde_json::from_str(&out).expect("JSON"))
}

fn says(list: &Value) -> Vec<String> {
    let one = |f: &Value| {
        format!(
            "{}:{} {} {}",
            f["file"].as_str().unwrap_or("?"),
            f["line"],
            f["field"].as_str().unwrap_or("?"),
            f["says"].as_str().unwrap_or("?")
        )
    };
    list.as_array().expect("a list").iter().map(one).collect()
}

/// The sound pack with lines put before its second kind.
fn before_wire_iron(name: &str, lines: &str) -> PathBuf {
    let second = "[[kind]]\nid = \"wire-iron\"";
    changed(name, "kinds/cast.toml", second, &format!("{lines}\n{second}"))
}

const DESCRIBED: &str = "[[kind.example]]\nname = \"A\"\nmake = \"period\"\nlooks = { length = \"64 mm\", grip = \"bar\", skin = \"dark\" }\nunusual = \"skin\"\n";

#[test]
fn a_described_piece_must_be_found_and_hold_something_unusual() {
    let pack = before_wire_iron("described", DESCRIBED);
    let (code, report) = checked(&pack);
    let faults = says(&report["faults"]);
    assert_eq!(code, Some(1));
    let file = fs::read_to_string(pack.join("kinds/cast.toml")).expect("the file");
    let line = 1 + file.lines().position(|l| l == "[[kind.example]]").expect("it is there");
    let at = format!("kinds/cast.toml:{line} example \"A\" ");
    for (begin, there) in [
        (format!("{at}3 looks; from 4 to 16 are wanted."), true),
        (format!("{at}skin is not unusual: "), true),
        (format!("{at}bar-toy comes"), false),
        ("kinds/cast.toml:9 bar-toy 1 described pieces; every kind has at least 2.".to_string(), true),
        ("kinds/cast.toml:48 wire-iron 0 described pieces; every kind has at least 2.".to_string(), true),
    ] {
        assert_eq!(faults.iter().any(|f| f.starts_with(&begin)), there, "{begin}\n{}", faults.join("\n"));
    }
    assert_eq!(report["report"]["described"], serde_json::json!({ "pieces": 1, "found": 1, "first": 1 }));
}

#[test]
fn a_described_piece_of_another_kind_is_a_fault() {
    let wrong =
        DESCRIBED.replace("grip = \"bar\"", "grip = \"wire\"").replace("mm\"", "mm\", heft = \"90 g\"");
    let (code, report) = checked(&before_wire_iron("described-wrong", &wrong));
    let faults = says(&report["faults"]);
    assert_eq!((code, &report["report"]["described"]["found"]), (Some(1), &serde_json::json!(0)));
    for holds in
        ["bar-toy comes 2 with ", "after wire-iron ", "heft needs more than the tools of a pocket: Scales."]
    {
        assert!(faults.iter().any(|f| f.contains(holds)), "{holds}\n{}", faults.join("\n"));
    }
}

/// A second kind with every table of the first.
fn twin(name: &str, more: &str) -> (Option<i32>, Value) {
    let text = fs::read_to_string(good().join("kinds/cast.toml")).expect("the file");
    let first = text.find("[[kind]]").expect("a kind");
    let second = text.rfind("[[kind]]\nid = \"wire-iron\"").expect("another");
    let copy = text[first..second].replace("id = \"bar-toy\"", &format!("id = \"bar-twin\"\n{more}"));
    let pack = before_wire_iron(name, &copy);
    let codes = fs::read_to_string(pack.join("codes.csv")).expect("the codes");
    fs::write(pack.join("codes.csv"), format!("{}\nkind,bar-twin,10\n", codes.trim_end())).expect("written");
    checked(&pack)
}

#[test]
fn kinds_that_nothing_parts_are_a_fault_unless_they_are_declared() {
    // Equal tables: the distance is none, and one guess in two is right.
    let (code, report) = twin("twins", "");
    let faults = says(&report["faults"]);
    assert_eq!(code, Some(1));
    assert_eq!(
        faults,
        [
            "kinds/cast.toml:9 bar-toy All looks with the tools of a pocket tell it from bar-twin about 50 times in 100."
        ]
    );
    let hardest = &report["report"]["hardest"][0];
    assert_eq!(hardest["kinds"], serde_json::json!(["bar-toy", "bar-twin"]));
    let notes = says(&report["notes"]).join("\n");
    assert!(notes.contains("It is hard to tell from bar-twin, but no deciding check is stated."), "{notes}");
    let (code, report) = twin("twins-declared", "either = [\"bar-toy\"]");
    assert_eq!((code, says(&report["faults"])), (Some(0), Vec::new()));
    assert_eq!(report["report"]["hardest"][0]["declared"], true);
}

#[test]
fn what_is_thin_is_noted() {
    let (_, report) = checked(&good());
    let notes = says(&report["notes"]).join("\n");
    for holds in [
        "kinds/cast.toml:9 bar-toy Missing: where it is found, what belongs to it, two kinds that it is taken for.",
        "glossary.toml:0  Words on keys and in names that are not explained: ",
    ] {
        assert!(notes.contains(holds), "{holds} is missing in\n{notes}");
    }
    // A pack that describes no piece at all misses none.
    assert_eq!(says(&report["faults"]), Vec::<String>::new());
}
