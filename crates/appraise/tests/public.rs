//! Money is whole minor units wherever another crate can see it.

use crate::common::at;
use std::fs;

/// What may take or give a float in public: shares and weights, none of them money.
const FLOATS: &[&str] = &[
    "pub fn share_below(&self, minor: i64) -> f64 {",
    "pub fn quantile(&self, share: f64) -> i64 {",
    "pub fn new(parts: Vec<(f64, Band)>) -> Option<Mixture> {",
];

#[test]
fn no_float_money_in_public() {
    let mut seen = 0;
    for entry in fs::read_dir(at("crates/appraise/src")).expect("the sources") {
        let path = entry.expect("an entry").path();
        let text = fs::read_to_string(&path).expect("a text");
        let shipped = text.split("#[cfg(test)]").next().unwrap_or_default();
        for (i, line) in shipped.lines().map(str::trim).enumerate() {
            // Signatures stand on one line or have a parameter a line; fields have a line each.
            let public = line.starts_with("pub ");
            seen += usize::from(public);
            if public && line.contains("f64") {
                assert!(FLOATS.contains(&line), "{}:{}: {line}", path.display(), i + 1);
            }
            if line.starts_with("pub fn") && line.ends_with('(') {
                let rest = shipped.lines().skip(i + 1).map(str::trim).take_while(|l| !l.starts_with(')'));
                assert!(rest.clone().all(|l| !l.contains("f64")), "{}:{}: {line}", path.display(), i + 1);
            }
        }
    }
    assert!(seen > 60, "only {seen} public lines were seen");
}
