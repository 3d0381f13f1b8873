//! Lettering and signs of a piece, as somebody typed them.

use crate::project::files;
use crate::tables::MARKS as KNOWN;
use crate::{Reader, must};
use dating::{MOST_READINGS, Measured, Tables};
use std::sync::LazyLock;

#[allow(clippy::expect_used, reason = "a test harness: without its tables no test can mean anything")]
static TABLES: LazyLock<Tables> = LazyLock::new(|| {
    Tables::new(pack::marks::read_marks(&KNOWN).expect("sound tables"), crate::project::YEAR)
});

/// Any text as lettering. It is never refused.
pub(crate) const MARKS: Reader = Reader {
    name: "marks",
    seeds: || {
        let mut seeds = Vec::new();
        for text in files("tests/cases/marks", "csv") {
            let text = String::from_utf8(text).unwrap_or_default();
            let rows = text.lines().filter(|line| !line.starts_with('#') && !line.is_empty()).skip(1);
            // Every fifth, of each sort: the search begins with reading all of them.
            let cells = rows.step_by(5).filter_map(|row| row.split(',').next());
            seeds.extend(cells.map(|cell| cell.trim_matches('"').as_bytes().to_vec()));
        }
        seeds
    },
    words: &[
        "?",
        "*",
        "/",
        "3/8",
        "PAT. ",
        "PATD ",
        "No ",
        "Rd ",
        "MAY ",
        "D.R.G.M. ",
        "diamond ",
        "top ",
        "left ",
        "right ",
        "bottom ",
        "class ",
        "MADE IN ",
        "1871",
        "18??",
        "1134?8",
        "U.S. PAT. ",
        "&",
        "\u{202e}",
    ],
    answered: |bytes| {
        let Ok(text) = core::str::from_utf8(bytes) else { return Ok(false) };
        let read = TABLES.read(text, Measured::default());
        for mark in &read.marks {
            must(mark.readings.len() <= MOST_READINGS, "more readings than are shown")?;
            let sound = mark.readings.iter().all(|r| r.chance.is_finite() && !r.title(&TABLES).is_empty());
            must(sound, "a reading without chance or title")?;
        }
        let together = TABLES.together(&read.marks);
        for years in [&together.period, &together.later, &together.usual] {
            must(years.iter().all(|l| l.is_finite() && *l > 0.0), "a likelihood is not sound")?;
        }
        // Basis of the bound: a curve sums to one, but for rounding.
        must((together.curve().p.iter().sum::<f64>() - 1.0).abs() < 1e-6, "the curve does not sum to one")?;
        Ok(true)
    },
};
