//! What the mutation check found: the engine with one part taken out must make the part's test fail.

use crate::page::Line;
use std::path::Path;

/// A line for each part; none when the check was not made.
#[must_use]
pub fn lines(folder: &Path) -> Vec<Line> {
    let found = std::fs::read_to_string(folder.join("mutations.csv")).unwrap_or_default();
    found
        .lines()
        .filter_map(|l| l.split_once(','))
        .map(|(test, failed)| Line {
            what: format!("Without its part, the test `{test}` fails"),
            ours: f64::NAN,
            peer: f64::NAN,
            limit: "it fails".to_owned(),
            ratio: f64::NAN,
            met: Some(failed == "true"),
        })
        .collect()
}
