//! Files of a pack to sheets.

use super::{FIELD, FILE, Sheet, VALUE, cell, csv, sheets};
use crate::fault::Fault;
use crate::files::{Files, Lines, too_deep};
use crate::shape::{FILES, Shape, Sort};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// Rows of a sheet while they are gathered: columns as they come up.
#[derive(Default)]
struct Rows {
    columns: Vec<String>,
    rows: Vec<Vec<(usize, String)>>,
}

impl Rows {
    fn column(&mut self, name: &str) -> usize {
        self.columns.iter().position(|c| c == name).unwrap_or_else(|| {
            self.columns.push(name.to_string());
            self.columns.len() - 1
        })
    }

    fn text(&self, shape: &Shape) -> String {
        // Columns in the order in which the shape names their fields, then as they came up.
        let place = |name: &str| {
            let first = name.split('.').next().unwrap_or_default();
            let own = shape.fields.iter().position(|f| f.name == first);
            own.map_or(usize::MAX, |p| p + 1)
        };
        let mut order: Vec<usize> = (0..self.columns.len()).collect();
        let lead = self.columns.iter().take_while(|c| place(c) == usize::MAX).count();
        // What stands within one field stays together, in the order in which it came up: `later.years`, `later.looks.skin`.
        let first = |i: usize| -> Vec<usize> {
            let name = self.columns[i].as_str();
            let ends = name.match_indices('.').map(|(at, _)| at).chain([name.len()]);
            let within = |end: usize| {
                let same = |c: &String| {
                    c.get(..end) == name.get(..end) && matches!(c.as_bytes().get(end), None | Some(b'.'))
                };
                self.columns.iter().position(same).unwrap_or(i)
            };
            ends.map(within).collect()
        };
        order[lead..].sort_by_key(|i| (place(&self.columns[*i]), first(*i), *i));
        let mut all = vec![order.iter().map(|i| self.columns[*i].clone()).collect::<Vec<_>>()];
        for row in &self.rows {
            let cell =
                |i: &usize| row.iter().find(|(at, _)| at == i).map(|(_, c)| c.clone()).unwrap_or_default();
            all.push(order.iter().map(cell).collect());
        }
        csv::write(&all)
    }
}

struct Maker<'a> {
    sheets: Vec<(Sheet, Rows)>,
    faults: Vec<Fault>,
    path: &'a str,
    lines: Lines,
}

/// Writes the sheets of a pack, each with its name, and `codes.csv` as it stands. Sheets without a row are left out.
///
/// # Errors
/// What cannot stand in a sheet: a file that cannot be read, a field that no file of a pack has.
pub fn export(files: &Files) -> Result<Vec<(String, String)>, Vec<Fault>> {
    let empty = |s: Sheet| (s, Rows::default());
    let mut maker = Maker {
        sheets: sheets().into_iter().map(empty).collect(),
        faults: Vec::new(),
        path: "",
        lines: Lines::of(""),
    };
    let mut out = Vec::new();
    let faults = crate::fault::Faults::default();
    if !files.within_limits(&faults) {
        return Err(faults.into_sorted(&[]).0);
    }
    for (path, text) in files.iter().filter(|(p, _)| !p.starts_with("art/")) {
        if path == "codes.csv" {
            out.push((path.to_string(), text.to_string()));
            continue;
        }
        let Some(file) =
            FILES.iter().find(|f| f.path == path || (f.path.ends_with('/') && path.starts_with(f.path)))
        else {
            continue;
        };
        (maker.path, maker.lines) = (path, Lines::of(text));
        if let Some(fault) = too_deep(path, text, &maker.lines) {
            maker.faults.push(fault);
            continue;
        }
        match DeTable::parse(text) {
            Err(e) => {
                let at = e.span().map_or(0, |s| s.start);
                maker.fault(at, "", format!("The line cannot be read: {}.", e.message()));
            }
            Ok(tree) => {
                let own = maker.file(tree.get_ref(), file.shape);
                if !file.sheet.is_empty() {
                    let mut rows = vec![vec![FIELD.to_string(), VALUE.to_string()]];
                    rows.extend(own.into_iter().map(|(f, v)| vec![f, v]));
                    out.push((format!("{}.csv", file.sheet), csv::write(&rows)));
                }
            }
        }
    }
    if !maker.faults.is_empty() {
        return Err(maker.faults);
    }
    let filled = maker.sheets.iter().filter(|(_, rows)| !rows.rows.is_empty());
    out.extend(filled.map(|(s, rows)| (format!("{}.csv", s.name), rows.text(s.shape))));
    out.sort();
    Ok(out)
}

/// Fields of a table in the order of the file.
fn in_order<'t>(table: &'t DeTable<'_>) -> Vec<(&'t str, &'t Spanned<DeValue<'t>>, usize)> {
    let mut list: Vec<_> = table.iter().map(|(k, v)| (k.get_ref().as_ref(), v, k.span().start)).collect();
    list.sort_by_key(|(_, _, at)| *at);
    list
}

impl Maker<'_> {
    fn fault(&mut self, at: usize, field: &str, says: String) {
        let (file, line) = (self.path.to_string(), self.lines.at(at));
        let hint = "`workshop check` says what is wrong with the pack.".to_string();
        self.faults.push(Fault { file, line, field: field.to_string(), says, hint });
    }

    /// A whole file: rows of its sheets; its own fields with their cells are handed back.
    fn file(&mut self, top: &DeTable<'_>, shape: &'static Shape) -> Vec<(String, String)> {
        let mut own = Vec::new();
        self.table(top, shape, "", None, &mut own);
        own
    }

    /// The cells of a table, by the path of their fields; lists of tables go into their own sheets, with `parent`.
    fn table(
        &mut self,
        table: &DeTable<'_>,
        shape: &'static Shape,
        trail: &str,
        parent: Option<&str>,
        cells: &mut Vec<(String, String)>,
    ) {
        for (name, value, at) in in_order(table) {
            let path = format!("{trail}{name}");
            let value = value.get_ref();
            let Some(sort) = shape.sort(name).filter(|_| !name.contains('.')) else {
                self.fault(at, &path, "No file of a pack has this field here.".to_string());
                continue;
            };
            match (sort, value) {
                (Sort::Many(sheet, inner), DeValue::Array(list)) => {
                    for row in list.iter().filter_map(|v| v.get_ref().as_table()) {
                        self.row(sheet, inner, row, parent);
                    }
                }
                (Sort::Once(sheet, inner), DeValue::Table(row)) => self.row(sheet, inner, row, parent),
                (Sort::One(inner), DeValue::Table(t)) => {
                    self.table(t, inner, &format!("{path}."), parent, cells)
                }
                (Sort::Free(_, one), DeValue::Table(t)) => {
                    for (name, value, at) in in_order(t) {
                        let path = format!("{path}.{name}");
                        if name.contains('.') {
                            self.fault(at, &path, "A name cannot hold a full stop.".to_string());
                        } else {
                            self.cell(&path, value.get_ref(), *one, at, cells);
                        }
                    }
                }
                (Sort::Answers, DeValue::Table(t)) => {
                    let line = |(name, value, _): (&str, &Spanned<DeValue<'_>>, usize)| {
                        value
                            .get_ref()
                            .as_str()
                            .filter(|t| !t.contains('\n'))
                            .map(|t| format!("{name} = {t}"))
                    };
                    let lines: Option<Vec<String>> = in_order(t).into_iter().map(line).collect();
                    match lines {
                        Some(lines) => cells.push((path, lines.join("\n"))),
                        None => self.fault(at, &path, "An answer is a text in one line.".to_string()),
                    }
                }
                _ => self.cell(&path, value, sort, at, cells),
            }
        }
    }

    fn cell(
        &mut self,
        path: &str,
        value: &DeValue<'_>,
        sort: Sort,
        at: usize,
        cells: &mut Vec<(String, String)>,
    ) {
        if let (Sort::Table, DeValue::Table(said)) = (sort, value) {
            for (name, value, at) in in_order(said) {
                let path = if name == "says" { path.to_string() } else { format!("{path}.{name}") };
                match crate::shape::SAID.sort(name) {
                    Some(sort) => self.cell(&path, value.get_ref(), sort, at, cells),
                    None => self.fault(at, &path, "No file of a pack has this field here.".to_string()),
                }
            }
            return;
        }
        match cell::of(value, sort) {
            Some(text) => cells.push((path.to_string(), text)),
            None => {
                self.fault(at, path, "This is of the wrong sort, or cannot stand in one cell.".to_string())
            }
        }
    }

    fn row(&mut self, sheet: &str, shape: &'static Shape, table: &DeTable<'_>, parent: Option<&str>) {
        let id = table.get("id").and_then(|v| v.get_ref().as_str()).unwrap_or_default().to_string();
        let Some(at) = self.sheets.iter().position(|(s, _)| s.name == sheet) else { return };
        let own = self.sheets[at].0;
        let mut cells = Vec::new();
        match own.parent {
            Some(field) => cells.push((of_parent(field), parent.unwrap_or_default().to_string())),
            None if own.path.ends_with('/') => {
                let stem = self.path.strip_prefix(own.path).and_then(|p| p.strip_suffix(".toml"));
                cells.push((FILE.to_string(), stem.unwrap_or_default().to_string()));
            }
            None => {}
        }
        self.table(table, shape, "", Some(&id), &mut cells);
        let rows = &mut self.sheets[at].1;
        let row = cells.into_iter().map(|(name, cell)| (rows.column(&name), cell)).collect();
        rows.rows.push(row);
    }
}

/// The column that names the thing within which a row stands.
pub(super) fn of_parent(field: &str) -> String {
    format!("of {field}")
}
