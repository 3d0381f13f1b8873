//! A member's table: its rows by the names of its columns, and what is wrong with it.

use compile::Fault;

pub(super) struct Table<'a> {
    path: &'a str,
    heads: Vec<String>,
    rows: Vec<Vec<String>>,
}

pub(super) struct Row<'a> {
    table: &'a Table<'a>,
    line: u32,
    cells: &'a [String],
}

impl<'a> Table<'a> {
    /// Reads a table with these columns, in any order; all but `piece`, `consent` and `kind` may be missing. A column that
    /// is not among them is a fault: names, addresses and remarks have no place here.
    pub(super) fn read(path: &'a str, text: &str, columns: &[&str], faults: &mut Vec<Fault>) -> Table<'a> {
        let mut fault = |line: u32, field: &str, says: String, hint: &str| {
            let (file, field, hint) = (path.to_string(), field.to_string(), hint.to_string());
            faults.push(Fault { file, line, field, says, hint });
        };
        let mut rows = match compile::sheets::csv::read(text) {
            Ok(rows) => rows,
            Err((line, says)) => {
                fault(line, "", says, "Save the table anew as CSV, in UTF-8.");
                Vec::new()
            }
        };
        let heads: Vec<String> = if rows.is_empty() {
            Vec::new()
        } else {
            rows.remove(0).iter().map(|h| h.trim().to_string()).collect()
        };
        for head in heads.iter().filter(|h| !columns.contains(&h.as_str())) {
            let says = "There is no such column in what members share.".to_string();
            fault(1, head, says, "Leave it out: names, addresses and remarks stay with the member.");
        }
        for column in ["piece", "consent", "kind"].iter().filter(|c| !heads.iter().any(|h| h == *c)) {
            fault(1, column, "The column is missing.".to_string(), "The first row names the columns.");
        }
        Table { path, heads, rows }
    }

    pub(super) fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        let said = |cells: &[String]| cells.iter().any(|c| !c.trim().is_empty());
        let rows = (2..).zip(&self.rows).filter(move |(_, cells)| said(cells));
        rows.map(|(line, cells)| Row { table: self, line, cells })
    }
}

impl Row<'_> {
    pub(super) fn get(&self, column: &str) -> &str {
        let at = self.table.heads.iter().position(|h| h == column);
        at.and_then(|at| self.cells.get(at)).map_or("", |c| c.trim())
    }

    pub(super) fn fault(&self, column: &str, says: String, faults: &mut Vec<Fault>) {
        let (file, field) = (self.table.path.to_string(), column.to_string());
        faults.push(Fault { file, line: self.line, field, says, hint: String::new() });
    }

    /// Whether its owner agrees; counts those who do not, or do not say.
    pub(super) fn consents(&self, withheld: &mut usize) -> bool {
        let yes = self.get("consent").eq_ignore_ascii_case("yes");
        *withheld += usize::from(!yes);
        yes
    }

    /// Whether the piece has a sign by which two tables can mean the same piece.
    pub(super) fn sign(&self, faults: &mut Vec<Fault>) -> bool {
        let sign = self.get("piece");
        let sound = !sign.is_empty()
            && sign.len() <= 40
            && sign.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-');
        if !sound {
            let says = "A piece needs a sign of lower-case letters, digits and hyphens, such as k3-17.";
            self.fault("piece", says.to_string(), faults);
        }
        sound
    }

    pub(super) fn one_of<'n>(
        &self,
        column: &str,
        mut names: impl Iterator<Item = &'n str>,
        faults: &mut Vec<Fault>,
    ) -> bool {
        let cell = self.get(column);
        let known = names.any(|n| n == cell);
        if !known {
            let shown: String = cell.chars().take(40).flat_map(char::escape_debug).collect();
            self.fault(column, format!("The pack has no {column} \"{shown}\"."), faults);
        }
        known
    }
}
