//! Text to rows of cells. The text may come from any program.

use super::Fault;

/// The largest table in bytes.
pub const LARGEST: usize = 32 << 20;
/// The most rows.
const MOST_ROWS: usize = 50_000;
/// The most cells of all rows.
const MOST_IN_ALL: usize = 3_000_000;
/// The most cells of a row.
const MOST_CELLS: usize = 250;

/// A table as it was read, nothing asked of what it means.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Table {
    /// The heads.
    pub heads: Vec<String>,
    /// The rows under them, each with its place in the spreadsheet, from 2; empty rows are left out.
    pub rows: Vec<(usize, Vec<String>)>,
}

impl Table {
    /// Reads a table: separated by commas, semicolons or tabs, as its first row has it; lines may end in any way.
    ///
    /// # Errors
    /// What keeps it from being read.
    pub fn read(bytes: &[u8]) -> Result<Table, Vec<Fault>> {
        let whole = |says: &str| vec![Fault { row: 0, column: String::new(), says: says.to_string() }];
        if bytes.len() > LARGEST {
            return Err(whole("The table is larger than 32 megabytes."));
        }
        let text = core::str::from_utf8(bytes).ok().filter(|t| !t.contains('\0'));
        let text = text.ok_or_else(|| {
            whole("The table is not in UTF-8. In the spreadsheet choose \u{201c}CSV UTF-8\u{201d} when you save it.")
        })?;
        let text = text.trim_start_matches('\u{feff}');
        // Some spreadsheets write the separator in a line of its own.
        let (said, text) = match text.strip_prefix("sep=").and_then(|rest| rest.split_once('\n')) {
            Some((sign, rest)) => (sign.trim_end_matches('\r').chars().next(), rest),
            None => (None, text),
        };
        let rows = rows(text, said.unwrap_or_else(|| separator(text)))?;
        let mut rows = rows.into_iter().filter(|(_, cells)| cells.iter().any(|c| !c.trim().is_empty()));
        match rows.next() {
            Some((_, heads)) => Ok(Table { heads, rows: rows.collect() }),
            None => Err(whole("The table is empty.")),
        }
    }
}

/// The sign of the three that stands most often in the first line, outside of quotes.
fn separator(text: &str) -> char {
    let mut counts = [0; 3];
    let signs = [',', ';', '\t'];
    let mut inside = false;
    for c in text.chars() {
        match c {
            '"' => inside = !inside,
            '\n' | '\r' if !inside => break,
            _ => {}
        }
        if let Some(at) = signs.iter().position(|s| *s == c).filter(|_| !inside) {
            counts[at] += 1;
        }
    }
    let most = counts.iter().copied().max().unwrap_or_default();
    signs.into_iter().zip(counts).find(|(_, n)| *n == most).map_or(',', |(sign, _)| sign)
}

/// The rows with their places in the spreadsheet.
fn rows(text: &str, separator: char) -> Result<Vec<(usize, Vec<String>)>, Vec<Fault>> {
    let mut all = Vec::new();
    let mut cells: Vec<String> = Vec::new();
    let mut cell = String::new();
    let mut quoted = false;
    let (mut place, mut in_all) = (1, 0);
    let fault = |row: usize, says: String| Err(vec![Fault { row, column: String::new(), says }]);
    let mut chars = text.chars().peekable();
    while let Some(c) = chars.next() {
        if quoted {
            match c {
                '"' if chars.peek() == Some(&'"') => cell.extend(chars.next()),
                '"' => quoted = false,
                c => cell.push(c),
            }
            continue;
        }
        let ends = c == '\n' || c == '\r';
        if c == separator || ends {
            cells.push(core::mem::take(&mut cell));
            if cells.len() > MOST_CELLS {
                return fault(place, format!("The row has more than {MOST_CELLS} cells."));
            }
            in_all += 1;
            if in_all > MOST_IN_ALL {
                return fault(place, format!("The table has more than {MOST_IN_ALL} cells."));
            }
        }
        match c {
            '\r' | '\n' => {
                if c == '\r' && chars.peek() == Some(&'\n') {
                    chars.next();
                }
                all.push((place, core::mem::take(&mut cells)));
                place += 1;
                if all.len() > MOST_ROWS {
                    return fault(place, format!("The table has more than {MOST_ROWS} rows."));
                }
            }
            '"' if cell.is_empty() => quoted = true,
            c if c != separator => cell.push(c),
            _ => {}
        }
    }
    if quoted {
        return fault(place, "A quote that begins in this row never ends.".to_string());
    }
    if !cell.is_empty() || !cells.is_empty() {
        cells.push(cell);
        all.push((place, cells));
    }
    Ok(all)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tables_of_many_programs() {
        // Published: RFC 4180, the examples of section 2; the separators and line ends of spreadsheets by common practice.
        let all = |text: &str| Table::read(text.as_bytes()).map(|t| (t.heads, t.rows));
        let heads = vec!["aaa".to_string(), "b \r\nbb".to_string(), "ccc".to_string()];
        let row = vec!["z\"z".to_string(), "y,y;y".to_string(), String::new()];
        let want = Ok((heads, vec![(3, row)]));
        for text in [
            "aaa,\"b \r\nbb\",ccc\r\n\r\n\"z\"\"z\",\"y,y;y\",\r\n",
            "\u{feff}aaa;\"b \r\nbb\";ccc\n;;\n\"z\"\"z\";\"y,y;y\";",
            "\"aaa\"\t\"b \r\nbb\"\t\"ccc\"\r\t\t\r\"z\"\"z\"\t\"y,y;y\"\t\"\"\r",
            "sep=;\r\naaa;\"b \r\nbb\";ccc\n\nz\"z;\"y,y;y\";\n",
        ] {
            assert_eq!(all(text), want, "{text}");
        }
        assert_eq!(all("a,\"b\nc").map_err(|f| f[0].row), Err(1));
        for text in ["", "\n\n", "\u{feff}", "a\0b"] {
            assert!(all(text).is_err());
        }
        assert!(Table::read(b"a,\xe9").is_err());
        assert!(all(&",".repeat(300)).is_err());
    }
}
