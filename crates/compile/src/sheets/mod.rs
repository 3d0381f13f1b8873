//! A pack as sheets for spreadsheet programs, there and back. A sheet is a CSV file with a row for each kind, question,
//! choice...; a line of a table (`looks.grip`) is a column. What the sheets are called and what stands in them follows
//! from [`crate::shape`]. Remarks (`# ...`) and the order of fields within a table are lost, nothing else.

mod cell;
pub mod csv;
mod export;
mod import;
mod write;

pub use export::export;
pub use import::{Imported, import};

use crate::shape::{FILES, Shape, Sort};

/// Column that says in which file of a folder a row stands.
const FILE: &str = "file";
/// Columns of the sheet of a file's own fields.
const FIELD: &str = "field";
const VALUE: &str = "value";

/// A sheet, and where what stands in it belongs.
#[derive(Debug, Clone, Copy)]
struct Sheet {
    /// Its name, without `.csv`.
    name: &'static str,
    /// Path or folder of the file.
    path: &'static str,
    /// Field under which its tables stand.
    field: &'static str,
    /// What a row holds.
    shape: &'static Shape,
    /// Whether a table stands only once in a file.
    once: bool,
    /// For what stands within the rows of another sheet: that sheet's field, which names its column.
    parent: Option<&'static str>,
}

/// All sheets but those of a file's own fields; those within others follow these.
fn sheets() -> Vec<Sheet> {
    let mut list = Vec::new();
    for file in &FILES {
        below(&mut list, file.path, file.shape, None);
    }
    list
}

fn below(list: &mut Vec<Sheet>, path: &'static str, shape: &'static Shape, parent: Option<&'static str>) {
    for field in shape.fields {
        let (name, inner, once) = match field.sort {
            Sort::Many(name, inner) => (name, inner, false),
            Sort::Once(name, inner) => (name, inner, true),
            _ => continue,
        };
        list.push(Sheet { name, path, field: field.name, shape: inner, once, parent });
        below(list, path, inner, Some(field.name));
    }
}

/// What a hint says of a table in a file, `[[kind.example]]`, as it concerns sheets: `a row of examples.csv`.
fn in_sheets(hint: &str) -> String {
    let mut out = hint.to_string();
    for sheet in sheets() {
        let path = sheet.parent.map_or_else(|| sheet.field.to_string(), |p| format!("{p}.{}", sheet.field));
        out = out.replace(&format!("[[{path}]]"), &format!("a row of {}.csv", sheet.name));
    }
    out
}

/// Whether a file of this name is a sheet of a pack.
#[must_use]
pub fn is_sheet(path: &str) -> bool {
    let named = |name: &str| path.strip_suffix(".csv") == Some(name);
    FILES.iter().any(|f| !f.sheet.is_empty() && named(f.sheet)) || sheets().iter().any(|s| named(s.name))
}
