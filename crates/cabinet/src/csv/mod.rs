//! Records as a table for a spreadsheet, and back: RFC 4180 and the habits of spreadsheets.

mod cell;
mod column;
mod day;
mod fill;
mod guess;
mod lines;
mod take;
mod write;

pub use column::{COLUMNS, Column};
pub use guess::guess;
pub use lines::{LARGEST, Table};
pub use take::{Taken, take};
pub use write::{head, row};

/// What is wrong with a table, and where.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The row as a spreadsheet counts it: the heads are row 1; 0 when it is no single row's fault.
    pub row: usize,
    /// The head of the column; empty when it is no single column's fault.
    pub column: String,
    /// A sentence.
    pub says: String,
}
