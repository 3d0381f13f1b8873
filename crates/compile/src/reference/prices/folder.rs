//! The files of a small folder: which belong to it, which could be parsed.

use super::super::Parsed;
use crate::cursor::{Doc, Table};
use crate::fault::{Fault, Faults, Spot, meant};
use crate::files::{Files, Lines, too_deep};
use std::rc::Rc;
use toml::de::DeTable;

/// The most faults of parsing that are told of one file.
const MOST_OF_PARSING: usize = 5;

/// Files that were parsed, and why others were not.
pub(super) struct Folder<'a> {
    parsed: Vec<Parsed<'a>>,
    pub(super) unparsed: Vec<Fault>,
    known: &'a [&'a str],
    faults: &'a Faults,
}

impl<'a> Folder<'a> {
    /// Parses what ends in `.toml` among the known files, and tells which are missing.
    pub(super) fn open(
        files: &'a Files,
        known: &'a [&'a str],
        readme: &str,
        faults: &'a Faults,
    ) -> Folder<'a> {
        let mut folder = Folder { parsed: Vec::new(), unparsed: Vec::new(), known, faults };
        for path in known {
            match files.get(path) {
                None => folder.unparsed.push(Fault {
                    file: (*path).to_string(),
                    line: 0,
                    field: String::new(),
                    says: "The file is missing.".to_string(),
                    hint: format!("See {readme} for what it holds."),
                }),
                Some(text) if path.ends_with(".toml") => folder.parse(path, text),
                Some(_) => {}
            }
        }
        folder
    }

    fn parse(&mut self, path: &str, text: &'a str) {
        let lines = Lines::of(text);
        if let Some(fault) = too_deep(path, text, &lines) {
            self.unparsed.push(fault);
            return;
        }
        let (tree, errors) = DeTable::parse_recoverable(text);
        for error in errors.iter().take(MOST_OF_PARSING) {
            self.unparsed.push(Fault {
                file: path.to_string(),
                line: error.span().map_or(0, |s| lines.at(s.start)),
                field: String::new(),
                says: format!("The line cannot be read: {}.", error.message()),
                hint: "Check quotes, brackets and commas here and in the line above.".to_string(),
            });
        }
        self.parsed.push(Parsed { doc: Doc { path: Rc::from(path), lines, faults: self.faults }, tree });
    }

    /// A parsed file.
    pub(super) fn top(&self, path: &str) -> Option<Table<'_>> {
        let found = self.parsed.iter().find(|p| &*p.doc.path == path)?;
        Some(Table::top(&found.doc, found.tree.get_ref()))
    }

    /// Done with the files: why some were not parsed.
    pub(super) fn close(self) -> Vec<Fault> {
        self.unparsed
    }

    /// Refuses files that are neither known nor named by one that is.
    pub(super) fn only(&self, files: &Files, named: &dyn Fn(&str) -> bool) {
        for (path, _) in files.iter().filter(|(p, _)| !self.known.contains(p) && !named(p)) {
            let hint = meant(path, self.known.iter().copied(), "Files");
            self.faults.add(&Spot::file(path), "No file of this name belongs here.", hint);
        }
    }
}
