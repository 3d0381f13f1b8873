//! Sheets to files of a pack, and the way back from a fault to the cell.

use super::export::of_parent;
use super::{FIELD, FILE, Sheet, VALUE, cell, csv, in_sheets, is_sheet, sheets, write};
use crate::fault::{Fault, MOST_FAULTS, meant, quote};
use crate::files::{Files, plain};
use crate::shape::{FILES, Sort};
use crate::text::{self, Limit};

/// Files made of sheets.
#[derive(Debug, Clone)]
pub struct Imported {
    /// The files of the pack, those that were no sheets included.
    pub files: Files,
    /// File and line of what was made, and sheet, row and column from which it came.
    origins: Vec<(String, u32, String, u32, String)>,
}

impl Imported {
    /// The fault as it concerns the sheets: its row stands where the line would.
    #[must_use]
    pub fn trace(&self, fault: &Fault) -> Fault {
        let here = self.origins.iter().filter(|o| o.0 == fault.file);
        let nearest = here.filter(|o| o.1 <= fault.line.max(1)).max_by_key(|o| o.1);
        match nearest {
            Some((_, _, sheet, row, column)) => {
                let field = if fault.field.is_empty() { column.clone() } else { fault.field.clone() };
                let line = if fault.line == 0 { 0 } else { *row };
                Fault {
                    file: sheet.clone(),
                    line,
                    field,
                    says: fault.says.clone(),
                    hint: in_sheets(&fault.hint),
                }
            }
            None => fault.clone(),
        }
    }
}

/// A row with where it stands.
struct Row {
    line: u32,
    cells: Vec<(String, String)>,
}

impl Row {
    fn get(&self, column: &str) -> &str {
        self.cells.iter().find(|(c, _)| c == column).map_or("", |(_, v)| v.trim())
    }
}

/// A file while it is written.
#[derive(Default)]
struct Draft {
    path: String,
    text: String,
    lines: u32,
}

struct Maker {
    drafts: Vec<Draft>,
    origins: Vec<(String, u32, String, u32, String)>,
    faults: Vec<Fault>,
}

/// Makes files of the sheets among `files`. Whoever has no sheets gets the files as they are.
///
/// # Errors
/// What is wrong with the sheets themselves; what is wrong with what stands in them is told by [`crate::compile`], and
/// [`Imported::trace`] finds the cell.
pub fn import(files: &Files) -> Result<Imported, Vec<Fault>> {
    let faults = crate::fault::Faults::default();
    if !files.within_limits(&faults) {
        return Err(faults.into_sorted(&[]).0);
    }
    let mut maker = Maker { drafts: Vec::new(), origins: Vec::new(), faults: Vec::new() };
    for file in FILES.iter().filter(|f| !f.sheet.is_empty()) {
        let sheet = format!("{}.csv", file.sheet);
        for row in maker.rows(files, &sheet, &[FIELD, VALUE]) {
            let (name, value) = (row.get(FIELD), row.get(VALUE));
            if name.is_empty() {
                continue;
            }
            let sort = sort_of(file.shape, name).unwrap_or(Sort::Text(0));
            maker.put(
                file.path,
                format!("{} = {}", write::key(name), cell::back(value, sort)),
                &sheet,
                row.line,
                name,
            );
        }
    }
    let all = sheets();
    for own in all.iter().filter(|s| s.parent.is_none()) {
        let within: Vec<(Sheet, Vec<Row>)> = all
            .iter()
            .filter(|s| s.parent == Some(own.field) && s.path == own.path)
            .map(|s| (*s, maker.rows_of(files, s)))
            .collect();
        let sheet = format!("{}.csv", own.name);
        let rows = maker.rows_of(files, own);
        for (inner, inner_rows) in &within {
            let (name, column) = (format!("{}.csv", inner.name), of_parent(own.field));
            for row in inner_rows.iter().filter(|r| !rows.iter().any(|o| o.get("id") == r.get(&column))) {
                let says = format!("There is no {} {}.", own.field, quote(row.get(&column)));
                maker.fault(&name, row.line, &column, says, &format!("Name an id of {sheet}."));
            }
        }
        for row in rows {
            let path = match own.path.strip_suffix('/') {
                None => own.path.to_string(),
                Some(folder) if row.get(FILE).is_empty() => format!("{folder}/{}.toml", own.name),
                Some(folder) => format!("{folder}/{}.toml", row.get(FILE)),
            };
            let named = row.get(FILE);
            if named.contains(['/', '\\', '.']) || text::check(named, Limit::NAME).is_err() {
                maker.fault(
                    &sheet,
                    row.line,
                    FILE,
                    "A file is named by letters, digits and hyphens.".into(),
                    "",
                );
                continue;
            }
            let heading = if own.once { format!("[{}]", own.field) } else { format!("[[{}]]", own.field) };
            maker.row(&path, &heading, own, &row, &sheet);
            for (inner, inner_rows) in &within {
                let column = of_parent(own.field);
                for r in inner_rows.iter().filter(|r| r.get(&column) == row.get("id")) {
                    let heading = format!("[[{}.{}]]", own.field, inner.field);
                    maker.row(&path, &heading, inner, r, &format!("{}.csv", inner.name));
                }
            }
        }
    }
    maker.finish(files)
}

/// The sort of a field by its path.
fn sort_of(shape: &'static crate::shape::Shape, path: &str) -> Option<Sort> {
    let (first, rest) = path.split_once('.').map_or((path, None), |(f, r)| (f, Some(r)));
    match (shape.sort(first)?, rest) {
        (Sort::Many(..) | Sort::Once(..), _) => None,
        (Sort::One(inner), Some(rest)) => sort_of(inner, rest),
        (Sort::Free(_, one), Some(rest)) => match rest.split_once('.') {
            None => Some(*one),
            Some((_, said)) if matches!(one, Sort::Table) => crate::shape::SAID.sort(said),
            Some(_) => None,
        },
        (Sort::Table, Some(said)) => crate::shape::SAID.sort(said),
        (Sort::One(_) | Sort::Free(..), None) | (_, Some(_)) => None,
        (sort, None) => Some(sort),
    }
}

impl Maker {
    fn fault(&mut self, file: &str, line: u32, field: &str, says: String, hint: &str) {
        if self.faults.len() < MOST_FAULTS {
            let (file, field, hint) = (file.to_string(), field.to_string(), hint.to_string());
            self.faults.push(Fault { file, line, field, says, hint });
        }
    }

    /// The rows of a sheet; `columns` must be there when they are given.
    fn rows(&mut self, files: &Files, sheet: &str, columns: &[&str]) -> Vec<Row> {
        let Some(text) = files.get(sheet) else { return Vec::new() };
        let mut rows = match csv::read(text) {
            Ok(rows) => rows.into_iter(),
            Err((row, says)) => {
                self.fault(sheet, row, "", says, "Save the sheet anew as CSV, in UTF-8.");
                return Vec::new();
            }
        };
        let heads: Vec<String> =
            rows.next().unwrap_or_default().iter().map(|h| h.trim().to_string()).collect();
        for head in &heads {
            // Faults are told under the names of columns: those must be such that they can be.
            if let Err((says, hint)) = text::check(head, Limit::TABLE) {
                self.fault(sheet, 1, "", says, &hint);
                return Vec::new();
            }
        }
        for (i, head) in heads.iter().enumerate().filter(|(_, h)| !h.is_empty()) {
            if heads[..i].contains(head) {
                self.fault(sheet, 1, head, "Two columns have this name.".to_string(), "Join the two.");
            }
        }
        for column in columns.iter().filter(|c| !heads.iter().any(|h| h == *c)) {
            self.fault(
                sheet,
                1,
                column,
                "The column is missing.".to_string(),
                "The first row names the columns.",
            );
        }
        let mut list = Vec::new();
        for (line, cells) in (2..).zip(rows) {
            if cells.iter().skip(heads.len()).any(|c| !c.trim().is_empty()) {
                self.fault(sheet, line, "", "The row has more cells than the first.".to_string(), "");
            }
            let named =
                heads.iter().cloned().zip(cells).filter(|(h, c)| !h.is_empty() && !c.trim().is_empty());
            let cells: Vec<(String, String)> = named.collect();
            if !cells.is_empty() {
                list.push(Row { line, cells });
            }
        }
        list
    }

    fn rows_of(&mut self, files: &Files, own: &Sheet) -> Vec<Row> {
        let name = format!("{}.csv", own.name);
        let rows = self.rows(files, &name, &[]);
        let parent = own.parent.map(of_parent);
        let extra = parent.as_deref().or(own.path.ends_with('/').then_some(FILE));
        let mut told: Vec<String> = Vec::new();
        for (column, _) in rows.iter().flat_map(|r| &r.cells) {
            let known = extra == Some(column) || sort_of(own.shape, column).is_some();
            if !known && !told.contains(column) {
                let names = own.shape.fields.iter().map(|f| f.name).chain(extra);
                let hint = meant(column, names, "Columns");
                self.fault(&name, 1, column, format!("There is no column {} here.", quote(column)), &hint);
                told.push(column.clone());
            }
        }
        rows
    }

    fn row(&mut self, path: &str, heading: &str, own: &Sheet, row: &Row, sheet: &str) {
        self.put(path, heading.to_string(), sheet, row.line, "");
        let parent = own.parent.map(of_parent);
        for (column, text) in &row.cells {
            if Some(column) == parent.as_ref()
                || (parent.is_none() && own.path.ends_with('/') && column == FILE)
            {
                continue;
            }
            let Some(sort) = sort_of(own.shape, column) else { continue };
            let said = row
                .cells
                .iter()
                .any(|(c, _)| c.strip_prefix(column.as_str()).is_some_and(|r| r.starts_with('.')));
            let value = match sort {
                Sort::Answers => answers(text),
                sort => cell::back(text, sort),
            };
            let field =
                if said && matches!(sort, Sort::Table) { format!("{column}.says") } else { column.clone() };
            self.put(path, format!("{} = {value}", write::key(&field)), sheet, row.line, column);
        }
    }

    /// Puts lines at the end of a file.
    fn put(&mut self, path: &str, lines: String, sheet: &str, row: u32, column: &str) {
        let at = self.drafts.iter().position(|d| d.path == path).unwrap_or_else(|| {
            self.drafts.push(Draft { path: path.to_string(), ..Draft::default() });
            self.drafts.len() - 1
        });
        let draft = &mut self.drafts[at];
        self.origins.push((path.to_string(), draft.lines + 1, sheet.to_string(), row, plain(column)));
        draft.lines += u32::try_from(lines.matches('\n').count()).unwrap_or(u32::MAX) + 1;
        draft.text.push_str(&lines);
        draft.text.push('\n');
    }

    fn finish(mut self, files: &Files) -> Result<Imported, Vec<Fault>> {
        let kept = files.iter().filter(|(p, _)| !is_sheet(p));
        let mut all: Vec<(String, String)> = kept.map(|(p, t)| (p.to_string(), t.to_string())).collect();
        for draft in std::mem::take(&mut self.drafts) {
            if all.iter().any(|(p, _)| *p == draft.path) {
                let says = "The file stands here, and sheets say the same things.".to_string();
                self.fault(&draft.path, 0, "", says, "Keep the file or the sheets.");
            }
            all.push((draft.path, draft.text));
        }
        if self.faults.is_empty() {
            Ok(Imported { files: Files::new(all), origins: self.origins })
        } else {
            self.faults.sort();
            Err(self.faults)
        }
    }
}

/// `grip = bar`, one a line, as a table. A line without a sign is kept as a name without an answer, which is refused.
fn answers(text: &str) -> String {
    let one = |line: &str| {
        let (name, answer) = line.split_once('=').unwrap_or((line, ""));
        format!("{} = {}", write::text(name.trim()), write::text(answer.trim()))
    };
    let lines: Vec<String> = text.lines().filter(|l| !l.trim().is_empty()).map(one).collect();
    format!("{{ {} }}", lines.join(", "))
}
