//! Plain CSV: cells between commas, a cell with a comma, a quote or an end of line in double quotes, a quote doubled
//! (RFC 4180). Read as spreadsheet programs of many countries write it: with commas, semicolons or tabs.

/// The most rows of a sheet.
pub const MOST_ROWS: usize = 20_000;
/// The most cells of a row.
pub const MOST_CELLS: usize = 2_000;

/// Rows of cells as text.
#[must_use]
pub fn write(rows: &[Vec<String>]) -> String {
    let mut text = String::new();
    for row in rows {
        for (i, cell) in row.iter().enumerate() {
            if i > 0 {
                text.push(',');
            }
            if cell.contains([',', ';', '"', '\n', '\r', '\t']) {
                text.push('"');
                text.push_str(&cell.replace('"', "\"\""));
                text.push('"');
            } else {
                text.push_str(cell);
            }
        }
        text.push_str("\r\n");
    }
    text
}

/// Text as rows of cells.
///
/// # Errors
/// The row, counted from 1, and what is wrong with it.
pub fn read(text: &str) -> Result<Vec<Vec<String>>, (u32, String)> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let between = delimiter(text);
    let (mut rows, mut row, mut cell) = (Vec::new(), Vec::new(), String::new());
    let mut chars = text.chars().peekable();
    let mut begun = false;
    while let Some(c) = chars.next() {
        let at = u32::try_from(rows.len() + 1).unwrap_or(u32::MAX);
        match c {
            '"' if !begun => {
                begun = true;
                loop {
                    match chars.next() {
                        Some('"') if chars.peek() == Some(&'"') => {
                            chars.next();
                            cell.push('"');
                        }
                        Some('"') => break,
                        // Spreadsheets end lines within a cell in their own way.
                        Some('\r') if chars.peek() == Some(&'\n') => {}
                        Some(c) => cell.push(c),
                        None => return Err((at, "A quote is opened and never closed.".to_string())),
                    }
                }
                if chars.peek().is_some_and(|c| *c != between && *c != '\n' && *c != '\r') {
                    return Err((at, "Something stands behind a closing quote.".to_string()));
                }
            }
            '\r' if chars.peek() == Some(&'\n') => {}
            '\n' => {
                row.push(std::mem::take(&mut cell));
                rows.push(std::mem::take(&mut row));
                begun = false;
                if rows.len() > MOST_ROWS {
                    return Err((at, format!("The sheet has more than {MOST_ROWS} rows.")));
                }
            }
            c if c == between => {
                row.push(std::mem::take(&mut cell));
                begun = false;
                if row.len() > MOST_CELLS {
                    return Err((at, format!("The row has more than {MOST_CELLS} cells.")));
                }
            }
            c => {
                cell.push(c);
                begun = true;
            }
        }
    }
    if begun || !cell.is_empty() || !row.is_empty() {
        row.push(cell);
        rows.push(row);
    }
    Ok(rows)
}

/// What stands between the cells: whichever of the three the first line has most of.
fn delimiter(text: &str) -> char {
    let first = text.lines().next().unwrap_or_default();
    let count = |c: char| first.matches(c).count();
    [';', '\t'].into_iter().fold(',', |best, c| if count(c) > count(best) { c } else { best })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rows(list: &[&[&str]]) -> Vec<Vec<String>> {
        list.iter().map(|r| r.iter().map(|c| c.to_string()).collect()).collect()
    }

    #[test]
    fn cells_come_back() {
        let all = rows(&[&["a", "b,c"], &["say \"x\"", "two\nlines"], &["", "; \t"]]);
        assert_eq!(read(&write(&all)), Ok(all));
    }

    #[test]
    fn other_countries_sheets_are_read() {
        // Basis: RFC 4180, and the separators that spreadsheet programs offer.
        let wanted = rows(&[&["id", "name"], &["a", "x, y"]]);
        for text in ["\u{feff}id;name\r\na;x, y\r\n", "id\tname\na\tx, y", "id,name\na,\"x, y\""] {
            assert_eq!(read(text).as_ref(), Ok(&wanted), "{text:?}");
        }
    }

    #[test]
    fn what_is_no_csv_is_refused() {
        for text in ["a,\"b", "a,\"b\"c\n"] {
            assert_eq!(read(text).map_err(|e| e.0), Err(1), "{text}");
        }
    }
}
