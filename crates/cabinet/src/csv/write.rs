//! Writing the table, a row at a time.

use super::cell::quoted;
use super::column::COLUMNS;
use crate::record::{Record, Uuid};

/// The row of heads, with the mark at its beginning by which spreadsheets know UTF-8.
#[must_use]
pub fn head() -> String {
    let heads: Vec<String> = COLUMNS.iter().map(|c| quoted(c.head)).collect();
    format!("\u{feff}{}\r\n", heads.join(","))
}

/// The row of a record. What it may show is the caller's care: [`crate::record::redacted`].
#[must_use]
pub fn row(id: Uuid, record: &Record) -> String {
    let cells: Vec<String> = COLUMNS.iter().map(|c| c.cell(id, record)).collect();
    format!("{}\r\n", cells.join(","))
}
