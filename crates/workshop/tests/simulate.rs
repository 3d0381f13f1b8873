//! `simulate` as a writer of packs meets it, on the sound pack; its figures are invented.

use crate::common::{good, workshop};
use serde_json::Value;

fn simulated(more: &[&str]) -> (Option<i32>, String) {
    let pack = good();
    let mut words =
        vec!["simulate", pack.to_str().expect("a path of text"), "--pieces", "300", "--each", "20"];
    words.extend(more);
    let (code, out, err) = workshop(&words);
    assert_eq!(err, "");
    (code, out)
}

#[test]
fn the_same_seed_prints_the_same() {
    let one = simulated(&["--json", "--seed", "5"]);
    assert_eq!(one, simulated(&["--json", "--seed", "5"]));
    assert_ne!(one.1, simulated(&["--json", "--seed", "6"]).1);
}

#[test]
fn every_form_has_its_figures_and_its_limits() {
    let (code, out) = simulated(&["--json"]);
    let json: Value = serde_json::from_str(&out).expect("JSON");
    // Two kinds of nine and of one in ten: -0.909 log2 0.909 - 0.091 log2 0.091 = 0.439 bits, by hand from `common` 5 and 3.
    let bits = json["bits"].as_f64().expect("a number");
    assert!((bits - 0.439).abs() < 0.005, "{bits}");
    let forms = json["forms"].as_array().expect("a list");
    let names: Vec<&str> = forms.iter().filter_map(|f| f["form"].as_str()).collect();
    assert_eq!(names, ["easy", "hard", "hard, every tenth answer wrong"]);
    let of = |form: &Value, says: &str| {
        let row =
            form["figures"].as_array().and_then(|f| f.iter().find(|r| r["says"] == says)).expect("a row");
        (row["of_100"].as_f64().expect("a number"), row["at_least"].as_f64())
    };
    let limits: Vec<Option<f64>> = forms.iter().map(|f| of(f, "right kind first").1).collect();
    assert_eq!(limits, [None, Some(85.0), Some(75.0)]);
    let mut kept = true;
    for form in forms {
        assert_eq!(form["pieces"], 300);
        // There are two kinds, so one of them is always among the first three.
        assert!((of(form, "right kind in the first three").0 - 100.0).abs() < 1e-9);
        for row in form["figures"].as_array().expect("a list") {
            kept &= row["at_least"]
                .as_f64()
                .is_none_or(|least| row["of_100"].as_f64().is_some_and(|is| is >= least));
        }
    }
    assert_eq!(code, Some(if kept { 0 } else { 1 }));
    let kinds = json["kinds"].as_array().expect("a list");
    assert_eq!(kinds.len(), 2);
    assert!(kinds.iter().all(|k| k["pieces"] == 20));
}

#[test]
fn harder_pieces_come_out_right_less_often() {
    let (_, out) = simulated(&["--json"]);
    let json: Value = serde_json::from_str(&out).expect("JSON");
    let first: Vec<f64> = json["forms"]
        .as_array()
        .expect("a list")
        .iter()
        .filter_map(|f| f["figures"][0]["of_100"].as_f64())
        .collect();
    assert!(first[0] > first[2], "{first:?}");
}
