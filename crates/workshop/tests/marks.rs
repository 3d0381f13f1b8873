//! `workshop marks`: text and JSON, a length, a year, and what is not understood.

use crate::common::workshop;
use serde_json::Value;
use std::path::Path;

fn tables() -> String {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../data/reference").to_string_lossy().into_owned()
}

fn json(words: &[&str]) -> Value {
    let tables = tables();
    let mut all = vec!["marks", "--json", "--year", "2026", "--tables", &tables];
    all.extend(words);
    let (code, out, err) = workshop(&all);
    assert_eq!((code, err.as_str()), (Some(0), ""));
    serde_json::from_str(&out).expect("JSON")
}

#[test]
fn readings_as_json() {
    let all = json(&["PAT. APR 4 187? No 1134?8 MADE IN OCCUPIED JAPAN BAR CODE", "--curve"]);
    let marks = all["marks"].as_array().expect("marks");
    let first = |i: usize| &marks[i]["readings"][0];
    // Published: patent 113,448 of 4 April 1871; the bounds of Occupied Japan and of the bar code are those of the tables.
    assert_eq!(first(0)["reads"], "4 April 1871");
    assert_eq!((first(0)["what"].as_str(), first(0)["id"].as_str()), (Some("date of"), Some("us-patent")));
    assert_eq!(marks[0]["one_source_with"], 1);
    assert_eq!(first(1)["granted"][0]["year"], 1871);
    assert_eq!(first(1)["source"]["key"], "uspto-years");
    assert_eq!(first(2)["bounds"][0]["not_after"], 1952);
    assert_eq!(first(3)["proves"], "not before");
    let together = &all["together"];
    assert_eq!(together["cannot_both_be_right"][0]["marks"], serde_json::json!([2, 3]));
    assert_eq!(together["likelihood"]["period"].as_array().map(Vec::len), Some(427));
    assert_eq!(json(&["PAT. APR 4 1871"])["together"]["edtf"], "1871/..");
}

#[test]
fn measures_count() {
    let size = |mm: &str| json(&["16", "--length", mm])["marks"][0]["readings"][0]["id"].clone();
    // Published: a sole of 150 mm is marked 16 (roscheider-toe). A goose of sixteen pounds is longer than 200 mm.
    assert_eq!((size("150").as_str(), size("235").as_str()), (Some("toe-centimetres"), Some("pounds-goose")));
    // Arithmetic: 150 mm are 5.9 inches; 24 pounds are 10,886 g.
    assert_eq!(size("5.9 in").as_str(), Some("toe-centimetres"));
    let all = json(&["24", "--mass", "10886 g"]);
    let first = &all["marks"][0]["readings"][0];
    assert_eq!(
        (first["id"].as_str(), &first["flags"][0]),
        (Some("pounds-goose"), &"the mass bears it out".into())
    );
    assert_eq!(
        (&first["would_measure"]["from"], &first["would_measure"]["unit"]),
        (&108_864.into(), &"0.1 g".into())
    );
}

#[test]
fn words_for_a_person() {
    let tables = tables();
    let (code, out, err) = workshop(&["marks", "D.R.G.M. 2?4567", "Pat. May 24 1871", "--tables", &tables]);
    assert_eq!((code, err.as_str()), (Some(0), ""));
    for part in [
        "German utility model 2?4567, entered between 1903 and 1906",
        "The table rests on memory for years from 1903 to 1906, and may be a year out.",
        "No patent was issued on that day, a Wednesday: misread, a foreign patent, or false.",
        "none of these",
    ] {
        assert!(out.contains(part), "{part} is not in\n{out}");
    }
}

#[test]
fn what_is_not_understood() {
    for (words, says) in [
        (vec!["marks"], "The lettering is missing."),
        (vec!["marks", "PAT", "--lenght", "3"], "There is no option \"--lenght\" here."),
        (vec!["marks", "PAT", "--length", "iron"], "iron"),
        (vec!["marks", "PAT", "--length", "3 kg"], "is no unit of a length here"),
        (vec!["marks", "PAT", "--mass", "24 lb"], "Write grams, such as 480 g."),
        (vec!["marks", "PAT", "--mass", "0"], "A weight of nothing cannot be right."),
        (vec!["marks", "PAT", "--year", "20"], "The year is a number from 1600 to 2200"),
        (vec!["marks", "PAT", "--tables", "/nowhere/at/all"], "could not be listed"),
    ] {
        let (code, out, err) = workshop(&words);
        assert_eq!((code, out.as_str()), (Some(2), ""), "{words:?}");
        assert!(err.contains(says), "{err}");
    }
    let (code, out, _) = workshop(&["marks", "--help"]);
    assert!(code == Some(0) && out.contains("workshop marks"));
}
