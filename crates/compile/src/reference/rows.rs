//! Rows of a plain table: a line of column names, then a line for each row. Cells stand between commas; one that holds a
//! comma stands in double quotes, and a quote within it is doubled. `#` before a remark.

use super::Context;
use crate::fault::{Spot, quote};
use crate::text::{self, Limit};
use std::rc::Rc;

/// The most rows of a file.
const MOST_ROWS: usize = 5_000;

/// A row and where it stands.
pub(crate) struct Row {
    pub(crate) spot: Spot,
    cells: Vec<String>,
    columns: &'static [&'static str],
}

impl Row {
    /// The cell of a column.
    pub(crate) fn get(&self, column: &str) -> &str {
        let at = self.columns.iter().position(|c| *c == column);
        at.and_then(|at| self.cells.get(at)).map_or("", String::as_str)
    }

    /// Where a cell stands.
    pub(crate) fn at(&self, column: &str) -> Spot {
        self.spot.of(column)
    }

    /// A whole number between bounds.
    pub(crate) fn whole(&self, column: &str, least: u32, most: u32, context: &Context<'_>) -> Option<u32> {
        let cell = self.get(column);
        let number = cell.parse::<u32>().ok().filter(|n| (least..=most).contains(n));
        if number.is_none() || !cell.bytes().all(|b| b.is_ascii_digit()) {
            let says = format!("{} is no number from {least} to {most}.", quote(cell));
            context.faults.add(&self.at(column), says, "Write digits only, without commas or spaces.");
            return None;
        }
        number
    }
}

/// The rows of a file; none when it is missing, which is told elsewhere.
pub(crate) fn rows(path: &str, columns: &'static [&'static str], context: &Context<'_>) -> Vec<Row> {
    let (file, faults) = (Rc::<str>::from(path), context.faults);
    let mut list = Vec::new();
    let mut named = false;
    for (i, line) in context.files.get(path).unwrap_or_default().lines().enumerate() {
        let line_number = u32::try_from(i + 1).unwrap_or(u32::MAX);
        let spot = Spot { file: Rc::clone(&file), line: line_number, field: String::new() };
        if line.trim().is_empty() || line.starts_with('#') {
            continue;
        }
        if !named {
            named = true;
            if line.trim() != columns.join(",") {
                let hint = format!("Write: {}", columns.join(","));
                faults.add(&spot, "The first line must name the columns.", hint);
                return Vec::new();
            }
            continue;
        }
        if list.len() == MOST_ROWS {
            faults.add(&spot, format!("The file has more than {MOST_ROWS} rows."), "");
            break;
        }
        match cells(line) {
            Some(cells) if cells.len() == columns.len() => {
                for (cell, column) in cells.iter().zip(columns) {
                    if let Err((says, hint)) = text::check(cell, Limit::SENTENCE) {
                        faults.add(&spot.of(column), says, hint);
                    }
                }
                list.push(Row { spot, cells, columns });
            }
            Some(cells) => {
                let says = format!("The row has {} cells instead of {}.", cells.len(), columns.len());
                faults.add(&spot, says, "A cell that holds a comma stands in double quotes.");
            }
            None => faults.add(&spot, "A quote is not closed.", "Cells in quotes end on the same line."),
        }
    }
    if !named && context.files.get(path).is_some() {
        faults.add(&Spot::file(path), "The file is empty.", format!("Begin with: {}", columns.join(",")));
    }
    list
}

fn cells(line: &str) -> Option<Vec<String>> {
    let (mut all, mut cell, mut quoted) = (Vec::new(), String::new(), false);
    let mut chars = line.chars().peekable();
    while let Some(c) = chars.next() {
        match c {
            '"' if quoted && chars.peek() == Some(&'"') => {
                chars.next();
                cell.push('"');
            }
            '"' => quoted = !quoted,
            ',' if !quoted => all.push(std::mem::take(&mut cell)),
            c => cell.push(c),
        }
    }
    all.push(cell);
    (!quoted).then_some(all)
}

#[cfg(test)]
mod tests {
    use super::cells;

    #[test]
    fn cells_of_a_line() {
        let line = |l: &str| cells(l).map(|c| c.join("|"));
        assert_eq!(line("a,b,").as_deref(), Some("a|b|"));
        assert_eq!(line("\"a,b\",\"say \"\"c\"\"\"").as_deref(), Some("a,b|say \"c\""));
        assert_eq!(line("\"a,b"), None);
    }
}
