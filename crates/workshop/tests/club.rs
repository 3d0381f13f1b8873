//! The verbs for clubs: begin, exchange, explain, compare, gather; each as a secretary runs it.

use crate::common::{changed, fresh, good, workshop};
use serde_json::Value;
use std::fs;
use std::path::Path;

fn shown(path: &Path) -> &str {
    path.to_str().expect("a path of text")
}

fn json(words: &[&str]) -> (Option<i32>, Value) {
    let (code, out, err) = workshop(words);
    (code, serde_json::from_str(&out).unwrap_or_else(|e| unreachable!("{e}: {out}{err}")))
}

#[test]
fn a_new_pack_is_sound_and_finds_its_piece() {
    let pack = fresh("starter");
    let (code, said) =
        json(&["new", shown(&pack), "--id", "spoons", "--name", "Spoons \"of\" tests", "--json"]);
    assert_eq!(code, Some(0));
    assert!(said["written"].as_array().expect("a list").len() > 15);
    let (code, out, _) = workshop(&["check", shown(&pack)]);
    assert_eq!(code, Some(0), "{out}");
    assert!(out.contains("Spoons \"of\" tests, edition 2026-01-31: no faults."), "{out}");
    let answers = pack.join("answers.txt");
    let (code, out, _) = workshop(&["try", shown(&pack), "--answers", shown(&answers), "--year", "2026"]);
    assert_eq!(code, Some(0));
    assert!(out.contains("Round tea spoon") && out.contains("Everything in this pack is invented."), "{out}");
    // Nothing is written over, and an id that cannot stand is refused.
    assert_eq!(workshop(&["new", shown(&pack)]).0, Some(2));
    let (code, _, err) = workshop(&["new", shown(&fresh("starter-bad")), "--id", "My Pack"]);
    assert!(code == Some(1) && err.contains("is not an id of a pack"), "{err}");
}

#[test]
fn a_pack_of_sheets_is_a_pack() {
    let (sheets, back) = (fresh("sheets"), fresh("sheets-back"));
    assert_eq!(workshop(&["export", shown(&good()), "--out", shown(&sheets)]).0, Some(0));
    let descriptor: Value =
        serde_json::from_str(&fs::read_to_string(sheets.join("datapackage.json")).expect("a descriptor"))
            .expect("JSON");
    let kinds = descriptor["resources"].as_array().expect("a list").iter().find(|r| r["path"] == "kinds.csv");
    let hash = kinds.and_then(|r| r["hash"].as_str()).expect("a digest");
    let bytes = fs::read(sheets.join("kinds.csv")).expect("the sheet");
    // Basis: sha256sum of the same bytes, an independent program.
    let run =
        std::process::Command::new("sha256sum").arg(sheets.join("kinds.csv")).output().expect("sha256sum");
    let sum = String::from_utf8_lossy(&run.stdout).split(' ').next().map(String::from);
    assert_eq!(Some(hash.trim_start_matches("sha256:")), sum.as_deref());
    assert_eq!(kinds.map(|r| r["bytes"] == bytes.len()), Some(true));
    assert_eq!(workshop(&["check", shown(&sheets)]).0, Some(0));
    let (one, other) = (fresh("built-one"), fresh("built-other"));
    workshop(&["build", shown(&good()), "--out", shown(&one)]);
    assert_eq!(workshop(&["import", shown(&sheets), "--out", shown(&back)]).0, Some(0));
    workshop(&["build", shown(&back), "--out", shown(&other)]);
    let list = |path: &Path| fs::read_to_string(path.join("pack.txt")).expect("pack.txt");
    assert_eq!(list(&one), list(&other));
    // A changed cell is named, and its fault has sheet and row.
    let text =
        fs::read_to_string(sheets.join("kinds.csv")).expect("the sheet").replace("bar always", "barr always");
    fs::write(sheets.join("kinds.csv"), text).expect("written");
    let (code, said) = json(&["check", "--json", shown(&sheets)]);
    assert_eq!(
        (code, &said["faults"][0]["file"], &said["faults"][0]["line"]),
        (Some(1), &"kinds.csv".into(), &2.into())
    );
    let (_, said) = json(&["import", shown(&sheets), "--json", "--out", shown(&fresh("sheets-again"))]);
    assert_eq!(said["changed"], serde_json::json!(["kinds.csv"]));
}

#[test]
fn explain_leads_to_the_line_of_a_figure() {
    let answers = fresh("explain");
    fs::create_dir_all(&answers).expect("a folder");
    let answers = answers.join("a.txt");
    fs::write(&answers, "grip = bar\nskin = dark ?\n").expect("written");
    let pack = good();
    let words = ["explain", shown(&pack), "--answers", shown(&answers), "--json"];
    let (code, said) = json(&words);
    assert_eq!((code, &said["kinds"]), (Some(0), &serde_json::json!(["bar-toy", "wire-iron"])));
    let grip = &said["answers"][0];
    assert_eq!(
        grip["stated"],
        serde_json::json!(["kinds/cast.toml:28, kinds/cast.toml:37", "kinds/cast.toml:53"])
    );
    // By hand: "bar always" is .93 for the period make (.8) and .49 for the later one (.2), .842 in all; misread 4 in a
    // hundred. Most of a pierced or wire grip's misreadings go to what it is confused with, so between .80 and .85.
    let chance = grip["chances"][0].as_f64().expect("a number");
    assert!((0.80..0.85).contains(&chance), "{chance}");
    assert!(grip["speaks"].as_f64().is_some_and(|s| s > 1.0));
    let (code, _, err) =
        workshop(&["explain", shown(&good()), "--answers", shown(&answers), "--for", "nothing"]);
    assert!(code == Some(1) && err.contains("no kind"), "{err}");
    assert_eq!(workshop(&["explain", shown(&good())]).0, Some(2));
}

#[test]
fn compare_shows_what_an_edition_changes() {
    let (code, same) = json(&["compare", shown(&good()), shown(&good()), "--pieces", "300", "--json"]);
    assert_eq!((code, &same["changed"], &same["gone"]), (Some(0), &0.into(), &serde_json::json!([])));
    assert_eq!(same["right"][0], same["right"][1]);
    // The grip told the two kinds apart: with the tables turned round most pieces are found as the other kind.
    let turned = changed("turned", "kinds/cast.toml", "grip = \"bar always\"", "grip = \"wire always\"");
    let kinds = turned.join("kinds/cast.toml");
    let text = fs::read_to_string(&kinds)
        .expect("kinds")
        .replace("grip = \"wire defines\"", "grip = \"bar defines\"");
    fs::write(&kinds, text).expect("written");
    let (code, other) = json(&["compare", shown(&good()), shown(&turned), "--pieces", "300", "--json"]);
    assert_eq!(code, Some(0));
    let count = |v: &Value| v.as_u64().expect("a count");
    assert!(count(&other["changed"]) > 60, "{other}");
    assert!(count(&other["right"][1]) < count(&other["right"][0]));
    assert_eq!(workshop(&["compare", shown(&good())]).0, Some(2));
    assert_eq!(workshop(&["compare", shown(&good()), shown(&turned), "--pieces", "0"]).0, Some(2));
}

fn members(name: &str, tables: &[(&str, &str)]) -> std::path::PathBuf {
    let folder = fresh(name);
    for (path, text) in tables {
        let path = folder.join(path);
        fs::create_dir_all(path.parent().expect("a folder")).expect("made");
        fs::write(path, text).expect("written");
    }
    folder
}

#[test]
fn gathering_merges_counts_and_shows_conflicts() {
    let twenty: String = (0..20).map(|i| format!("p{i},yes,bar-toy,later,pierced\n")).collect();
    let from = members(
        "members",
        &[
            (
                "one/pieces.csv",
                &format!(
                    "piece,consent,kind,make,grip\n{twenty}x1,yes,bar-toy,period,bar\nx2,no,bar-toy,period,bar\n"
                ),
            ),
            (
                "two/pieces.csv",
                "piece;consent;kind;make;skin\nx1;yes;wire-iron;period;dark\np0;yes;bar-toy;later;dark\n",
            ),
            (
                "two/sales.csv",
                "piece,consent,date,kind,make,price,currency,premium,sort,condition,likeness\nx9,yes,2024-05-01,bar-toy,period,20,USD,,sold,,\n",
            ),
            (
                "one/sales.csv",
                "piece,consent,date,kind,make,price,currency,premium,sort,condition,likeness\nx9,yes,2024-05-01,bar-toy,period,25,USD,,sold,,\n",
            ),
        ],
    );
    let out = fresh("gathered");
    let pack = good();
    let words = ["gather", shown(&pack), "--from", shown(&from), "--out", shown(&out), "--json"];
    let (code, said) = json(&words);
    assert_eq!(code, Some(0), "{said}");
    // Twenty pieces; x1 and the sale of x9 are told in two ways, x2 is without consent.
    assert_eq!((&said["pieces"], &said["sales"], &said["withheld"]), (&20.into(), &0.into(), &1.into()));
    assert_eq!(said["conflicts"].as_array().map(Vec::len), Some(2));
    // By hand: .49 .49 .02 weighs 20 pieces; with 20 pierced ones 9.8, 29.8, 0.4 of 40.
    let grip = said["changes"]
        .as_array()
        .expect("a list")
        .iter()
        .find(|c| c["question"] == "grip")
        .expect("the grip");
    assert_eq!((&grip["after"], &grip["pieces"]), (&serde_json::json!([245, 745, 10]), &20.into()));
    // KL of the new from the old, by hand: .245 log2(.5) + .745 log2(1.5204) + .01 log2(.5) = .1953 bits.
    assert!(grip["bits"].as_f64().is_some_and(|b| (b - 0.1953).abs() < 0.0005), "{}", grip["bits"]);
    let merged = fs::read_to_string(out.join("pieces.csv")).expect("the merged pieces");
    assert!(!merged.contains("p0") && merged.starts_with("piece,kind,make,grip,skin"), "{merged}");
    assert_eq!(workshop(&["check", shown(&out.join("pack"))]).0, Some(0));
}

#[test]
fn names_have_no_place_in_what_members_share() {
    let from = members(
        "named",
        &[("one/pieces.csv", "piece,consent,kind,make,owner\nx1,yes,bar-toy,period,Somebody\n")],
    );
    let (code, out, _) = workshop(&["gather", shown(&good()), "--from", shown(&from)]);
    assert_eq!(code, Some(1));
    assert!(
        out.contains("one/pieces.csv:1: owner: There is no such column") && !out.contains("Somebody"),
        "{out}"
    );
}

#[test]
fn every_verb_of_a_pack_speaks_to_programs() {
    let pack = fresh("json-pack");
    assert_eq!(workshop(&["new", shown(&pack)]).0, Some(0));
    let (code, said) = json(&["check", shown(&pack), "--json"]);
    let made_up = &said["report"]["made_up"];
    // Four kinds at most: no more than two bits, and shares are shares.
    assert_eq!((code, &made_up["pieces"]), (Some(0), &300.into()));
    assert!(made_up["bits"].as_f64().is_some_and(|b| b > 0.5 && b < 2.0), "{made_up}");
    assert!(made_up["first"].as_f64().is_some_and(|f| f > 0.75 && f <= 1.0), "{made_up}");
    let (code, said) = json(&["build", shown(&pack), "--out", shown(&fresh("json-built")), "--json"]);
    assert_eq!((code, said["files"]["core"].as_str().map(|n| n.starts_with("core-"))), (Some(0), Some(true)));
    let (code, said) = json(&["codes", shown(&pack), "--json"]);
    assert_eq!((code, &said["lines"]), (Some(0), &serde_json::json!([])));
    fs::remove_file(pack.join("makes.toml")).expect("it goes");
    let (code, said) = json(&["build", shown(&pack), "--out", shown(&fresh("json-not")), "--json"]);
    assert_eq!((code, &said["faults"][0]["file"]), (Some(1), &"makes.toml".into()));
}
