//! The figures of drawings, from plain files: one file per key, one table per value.

use crate::cursor::{Doc, Table};
use crate::fault::{Fault, Faults, Spot};
use crate::files::{Files, Lines, too_deep};
use crate::text::Limit;
use std::rc::Rc;
use toml::de::DeTable;

/// The strokes of one figure.
const STROKES: Limit = Limit { most: 4000, words: 0, lines: true };

/// A figure: strokes under a name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Figure {
    /// `key.value`: the file and the table in it, such as `grip.wire`.
    pub name: String,
    /// The strokes in one line.
    pub strokes: String,
    /// What can be seen, as a phrase; empty for what no line of words names: parts, signs, and files such as
    /// `end-grip.toml`.
    pub says: String,
}

impl Figure {
    /// As `sketch` takes it.
    pub(crate) fn parts(&self) -> (&str, &str, &str) {
        (&self.name, &self.strokes, &self.says)
    }
}

/// What to draw, from the field `draw` of anything; empty when nothing is. With the art at hand every word must have a figure.
pub(crate) fn drawing(table: &Table<'_>, art: Option<&sketch::Art>) -> String {
    let Some(value) = table.get("draw") else {
        return String::new();
    };
    let text = value.text(Limit::DRAWING).unwrap_or_default();
    let checked = match (sketch::Drawing::parse(&text), art) {
        (Err(misread), _) => Err(misread.to_string()),
        (Ok(drawing), Some(art)) => drawing.check(art),
        (Ok(_), None) => Ok(()),
    };
    if let Err(says) = checked {
        value.fault(says, "`workshop words` lists the words of drawings.");
    }
    text
}

/// Reads the files of a folder such as `data/art`: `grip.toml` holds the figures `grip.`. Folders in a path do not
/// count. The figures are in order of file and line.
///
/// # Errors
/// Every fault, in order of file and line.
pub fn art(files: &Files) -> Result<Vec<Figure>, Vec<Fault>> {
    let faults = Faults::default();
    if !files.within_limits(&faults) {
        return Err(faults.into_sorted(&[]).0);
    }
    let (mut figures, mut unparsed) = (Vec::new(), Vec::new());
    for (path, text) in files.iter() {
        let name = path.rsplit('/').next().unwrap_or(path);
        let Some(key) = name.strip_suffix(".toml") else {
            let hint = "Figures stand in files such as grip.toml.";
            faults.add(&Spot::file(path), "The file holds no figures.", hint);
            continue;
        };
        let lines = Lines::of(text);
        if let Some(fault) = too_deep(path, text, &lines) {
            unparsed.push(fault);
            continue;
        }
        let (tree, errors) = DeTable::parse_recoverable(text);
        if let Some(error) = errors.first() {
            unparsed.push(Fault {
                file: path.to_string(),
                line: error.span().map_or(0, |s| lines.at(s.start)),
                field: String::new(),
                says: format!("The line cannot be read: {}.", error.message()),
                hint: "Check quotes and brackets here and in the line above.".to_string(),
            });
        }
        let doc = Doc { path: Rc::from(path), lines, faults: &faults };
        file(&Table::top(&doc, tree.get_ref()), key, &mut figures);
    }
    let list = faults.into_sorted(&unparsed).0;
    if list.is_empty() { Ok(figures) } else { Err(list) }
}

fn file(top: &Table<'_>, key: &str, figures: &mut Vec<Figure>) {
    let named = !matches!(key, "part" | "sign") && !key.contains('-');
    for (value, entry) in top.entries() {
        let Some(table) = entry.table() else { continue };
        let strokes = table.need("strokes", "strokes = \"lM20 90H180\"");
        let says = if named {
            table.need_text("says", Limit::SENTENCE, "says = \"a bent wire\"")
        } else {
            String::new()
        };
        figures.push(Figure {
            name: format!("{key}.{value}"),
            strokes: strokes.and_then(|s| s.text(STROKES)).map_or(String::new(), |s| joined(&s)),
            says,
        });
        table.done();
    }
}

/// Lines to one line. A space stays where two numbers would run together.
fn joined(strokes: &str) -> String {
    let mut one = String::new();
    for line in strokes.lines().map(str::trim).filter(|l| !l.is_empty()) {
        let ends = one.ends_with(|c: char| c.is_ascii_digit());
        if ends && line.starts_with(|c: char| c.is_ascii_digit()) {
            one.push(' ');
        }
        one.push_str(line);
    }
    one
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may fall over")]
    use super::*;

    fn read(files: &[(&str, &str)]) -> Result<Vec<Figure>, Vec<Fault>> {
        let owned = files.iter().map(|(p, t)| (p.to_string(), t.to_string()));
        art(&Files::new(owned.collect()))
    }

    #[test]
    fn a_table_is_a_figure() {
        let grip = "[wire]\nsays = \"a bent wire\"\nstrokes = \"\"\"\nlM1 2\n3 4\nlM5 6\"\"\"\n[bar]\nsays = \"a bar\"\nstrokes = \"\"";
        let sign = "[5]\nstrokes = \"M6 -10\"";
        let figures = read(&[("art/grip.toml", grip), ("sign.toml", sign)]).unwrap();
        let all: Vec<_> =
            figures.iter().map(|f| (f.name.as_str(), f.strokes.as_str(), f.says.as_str())).collect();
        assert_eq!(
            all,
            [
                ("grip.wire", "lM1 2 3 4lM5 6", "a bent wire"),
                ("grip.bar", "", "a bar"),
                ("sign.5", "M6 -10", ""),
            ]
        );
    }

    #[test]
    fn all_faults_are_told_with_their_lines() {
        let grip = "[wire]\nsays = \"a bent wire\"\n[bar]\nsays = \"\"\nstrokes = 3\nsay = \"\"\n";
        let faults = read(&[("grip.toml", grip), ("note.txt", ""), ("top.toml", "[a\n")]).unwrap_err();
        let told: Vec<_> = faults.iter().map(|f| (f.file.as_str(), f.line)).collect();
        assert_eq!(
            told,
            [
                ("grip.toml", 1),
                ("grip.toml", 4),
                ("grip.toml", 5),
                ("grip.toml", 6),
                ("note.txt", 0),
                ("top.toml", 1),
            ]
        );
    }
}
