//! Heads of a table to columns: a first guess, for a person to look over.

use super::column::COLUMNS;
use crate::find::folded;

/// For each head the column of [`COLUMNS`] that it most likely means; a column is given once, to the first head that names it.
#[must_use]
pub fn guess(heads: &[String]) -> Vec<Option<usize>> {
    let mut taken = Vec::new();
    let plain: Vec<String> = heads.iter().map(|h| bare(h)).collect();
    // Heads that are a column's own name come first, so that no other word takes its place.
    let mut out: Vec<Option<usize>> = vec![None; heads.len()];
    for own in [true, false] {
        for (at, head) in plain.iter().enumerate() {
            let means = |c: &super::Column| {
                if own { bare(c.head) == *head } else { c.also.split('|').any(|w| w == head) }
            };
            if out[at].is_none()
                && let Some(column) = (0..COLUMNS.len()).find(|c| !taken.contains(c) && means(&COLUMNS[*c]))
            {
                taken.push(column);
                out[at] = Some(column);
            }
        }
    }
    out
}

/// Small letters and figures, one blank where anything else stands.
fn bare(head: &str) -> String {
    let mut out = String::new();
    for c in folded(head).chars().take(100) {
        if c.is_alphanumeric() {
            out.push(c);
        } else if !out.is_empty() && !out.ends_with(' ') {
            out.push(' ');
        }
    }
    out.trim_end().to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_of_other_tables() {
        let heads = [
            "Inventory-Number",
            "Object",
            "Weight (g)",
            "Bought from",
            "Value",
            "Currency",
            "Colour",
            "value low",
        ];
        let found: Vec<&str> =
            guess(&heads.map(String::from)).into_iter().map(|c| c.map_or("", |c| COLUMNS[c].head)).collect();
        assert_eq!(
            found,
            ["number", "title", "weight g", "acquired with", "", "value currency", "", "value low"]
        );
        let own: Vec<String> = COLUMNS.iter().map(|c| c.head.to_string()).collect();
        assert_eq!(guess(&own), (0..COLUMNS.len()).map(Some).collect::<Vec<_>>());
        // A word names one column only.
        let mut all: Vec<&str> = COLUMNS.iter().flat_map(|c| c.also.split('|').chain([c.head])).collect();
        all.sort_unstable();
        assert!(all.windows(2).all(|w| w[0] != w[1]), "{all:?}");
    }
}
