//! A table to records: all of its rows are good, or nothing is taken.

use super::cell::restored;
use super::column::{COLUMNS, Of};
use super::fill::Row;
use super::{Fault, Table};
use crate::order::sorted;
use crate::record::{Date, Record, Uuid, Value, faults, tidied};

/// How many faults are told.
const MOST_FAULTS: usize = 100;

/// What was taken from a table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Taken {
    /// Records with the identity of their pieces; to be saved as new versions.
    pub records: Vec<(Uuid, Record)>,
    /// How many of them are new to the cabinet.
    pub new: usize,
    /// What was left alone: sentences.
    pub notes: Vec<String>,
}

/// Takes the rows of a table. `mapping` gives for each head a column of [`COLUMNS`] or nothing; `known` gives the record
/// that the cabinet has of an id; `fresh` gives an id for a row without one; `today` is given.
///
/// # Errors
/// What is wrong, by row and column. Nothing is to be taken then.
pub fn take(
    table: &Table,
    mapping: &[Option<usize>],
    known: &dyn Fn(Uuid) -> Option<Record>,
    fresh: &mut dyn FnMut() -> Uuid,
    today: Date,
) -> Result<Taken, Vec<Fault>> {
    let mut taken = Taken { records: Vec::new(), new: 0, notes: Vec::new() };
    let mut wrong: Vec<Fault> = Vec::new();
    let whole = |says: &str| Fault { row: 0, column: String::new(), says: says.to_string() };
    let columns: Vec<usize> = sorted(mapping.iter().flatten().copied().collect());
    if columns.is_empty() {
        wrong.push(whole("No column of the table was given a meaning."));
    }
    if columns.windows(2).any(|w| w[0] == w[1]) {
        wrong.push(whole("Two columns of the table were given one meaning."));
    }
    let mut ids: Vec<(Uuid, usize)> = Vec::new();
    for (place, cells) in &table.rows {
        let mut row = Row { cells: Vec::new() };
        for (text, column) in cells.iter().zip(mapping.iter().copied()) {
            let column = column.and_then(|c| COLUMNS.get(c));
            let text = tidied(restored(text.trim_matches([' ', '\u{a0}'])));
            if let Some(column) = column.filter(|_| !text.is_empty()) {
                row.cells.push((column, text));
            }
        }
        let fault = |column: &str, says: String| Fault { row: *place, column: column.to_string(), says };
        let beyond = cells.iter().skip(mapping.len()).any(|c| !c.trim().is_empty());
        if beyond {
            wrong.push(fault("", "The row has more cells than there are heads.".to_string()));
        }
        if row.cells.is_empty() {
            continue;
        }
        let id = row.cells.iter().find(|(column, _)| column.of == Of::Id).map(|(_, text)| Uuid::read(text));
        let id = match id {
            Some(Ok(id)) => id,
            Some(Err(says)) => {
                wrong.push(fault("id", says));
                continue;
            }
            None => fresh(),
        };
        let before = known(id);
        let mut record = before.clone().unwrap_or_default();
        let mut cells = Vec::new();
        let notes = row.fill(&mut record, &mut cells);
        wrong.extend(cells.into_iter().map(|(column, says)| fault(column, says)));
        taken.notes.extend(notes.into_iter().map(|says| format!("Row {place}: {says}.")));
        let record = record.tidied();
        // What was wrong before is not this table's fault.
        let old = before.as_ref().map(|b| faults(b, today)).unwrap_or_default();
        wrong.extend(
            faults(&record, today).into_iter().filter(|f| !old.contains(f)).map(|says| fault("", says)),
        );
        ids.push((id, *place));
        taken.new += usize::from(before.is_none());
        if before.as_ref() != Some(&record) {
            taken.records.push((id, record));
        }
        if wrong.len() > MOST_FAULTS {
            break;
        }
    }
    let ids = sorted(ids);
    for pair in ids.windows(2).filter(|w| w[0].0 == w[1].0) {
        let says = format!("It has the id of row {}.", pair[0].1);
        wrong.push(Fault { row: pair[1].1, column: "id".to_string(), says });
    }
    if wrong.is_empty() && ids.is_empty() {
        wrong.push(whole("There is no row with anything in it."));
    }
    if wrong.is_empty() {
        return Ok(taken);
    }
    wrong.truncate(MOST_FAULTS);
    Err(wrong)
}
