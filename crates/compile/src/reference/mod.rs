//! The reference tables of marks: plain files to bytes, or every fault with file, line, field and hint.

mod coins;
mod dates;
mod diamond;
mod made;
mod marks;
mod metals;
mod prices;
mod rests;
mod rows;
mod series;
mod small;

use crate::cursor::{Doc, Table};
use crate::fault::{Fault, Faults, Spot, meant};
use crate::files::{Files, Lines, too_deep};
use made::Made;
use pack::marks::Marks;
use rests::Sources;
use std::cell::Cell;
use std::rc::Rc;
use toml::Spanned;
use toml::de::DeTable;
use units::Basis;

/// Files of fixed name; others stand in `marks/` and `numbers/`.
const KNOWN: [&str; 8] = [
    "reference.toml",
    "sources.toml",
    "series.toml",
    "words.toml",
    "diamond.toml",
    "sizes.toml",
    "issue-days.csv",
    "likeness.csv",
];

/// Reference tables made of plain files.
#[derive(Debug, Clone, PartialEq)]
pub struct Reference {
    /// The tables.
    pub marks: Marks,
    /// Their bytes.
    pub bytes: Vec<u8>,
    /// SHA-256 of the bytes, 64 lower-case hexadecimal digits.
    pub digest: String,
    /// How many figures in the files rest on what.
    pub counts: [(Basis, usize); 4],
}

/// What every reader of a file needs.
pub(crate) struct Context<'a> {
    pub(crate) files: &'a Files,
    pub(crate) faults: &'a Faults,
    pub(crate) sources: Sources,
    pub(crate) counts: Cell<[usize; 4]>,
}

/// A file and its tree.
struct Parsed<'a> {
    doc: Doc<'a>,
    tree: Spanned<DeTable<'a>>,
}

/// Compiles the files of a folder such as `data/reference`.
///
/// # Errors
/// Every fault of every file, in order of file and line; never an empty list.
pub fn reference(files: &Files) -> Result<Reference, Vec<Fault>> {
    let faults = Faults::default();
    if !files.within_limits(&faults) {
        return Err(faults.into_sorted(&[]).0);
    }
    let (parsed, unparsed) = parse(files, &faults);
    let found = read(files, &parsed, &faults, &unparsed);
    let list = faults.into_sorted(&unparsed).0;
    match found {
        Some(reference) if list.is_empty() => Ok(reference),
        _ if list.is_empty() => Err(vec![missing("reference.toml")]),
        _ => Err(list),
    }
}

fn read(files: &Files, parsed: &[Parsed<'_>], faults: &Faults, unparsed: &[Fault]) -> Option<Reference> {
    let one = |path: &str| -> Option<Table<'_>> {
        parsed.iter().find(|p| &*p.doc.path == path).map(|p| Table::top(&p.doc, p.tree.get_ref()))
    };
    let sources = one("sources.toml").map(|t| rests::sources(&t)).unwrap_or_default();
    let context = Context { files, faults, sources, counts: Cell::default() };
    let top = one("reference.toml")?;
    let mut found = small::top(&top, &context);
    for file in parsed.iter().filter(|p| p.doc.path.starts_with("marks/")) {
        marks::read(&Table::top(&file.doc, file.tree.get_ref()), &context, &mut found.marks);
    }
    found.series = one("series.toml").map(|t| series::read(&t, &context, &found.marks)).unwrap_or_default();
    found.words = one("words.toml").map(|t| marks::words(&t)).unwrap_or_default();
    if let Some(t) = one("sizes.toml") {
        (found.sizes, found.irons) = small::sizes(&t, &context);
    }
    found.issues = small::issues(&context);
    found.alike = small::alike(&context);
    found.diamond = diamond::read(&one("diamond.toml")?, &context);
    found.sources = context.sources.list.clone();
    if !faults.is_clean() || !unparsed.is_empty() {
        return None;
    }
    // Whoever opens the bytes trusts nothing; what would be refused there is a fault here.
    let unsound = |e: pack::Fault| faults.add(&Spot::file("reference.toml"), e.0, "");
    let bytes = pack::marks::write_marks(&found).map_err(unsound).ok()?;
    pack::marks::read_marks(&bytes).map_err(unsound).ok()?;
    let Made { made, bytes, digest, counts } = Made::new(found, bytes, context.counts.get());
    Some(Reference { marks: made, bytes, digest, counts })
}

fn parse<'a>(files: &'a Files, faults: &'a Faults) -> (Vec<Parsed<'a>>, Vec<Fault>) {
    let (mut parsed, mut unparsed) = (Vec::new(), Vec::new());
    for path in KNOWN.iter().filter(|p| files.get(p).is_none()) {
        unparsed.push(missing(path));
    }
    for (path, text) in files.iter() {
        let inside = |folder: &str, end: &str| {
            path.strip_prefix(folder).is_some_and(|p| p.ends_with(end) && !p.contains('/'))
        };
        let known = KNOWN.contains(&path) || [metals::FILE, coins::FILE].contains(&path);
        if !known && !inside("marks/", ".toml") && !inside("numbers/", ".csv") {
            let near = meant(path, KNOWN.into_iter(), "Files");
            let hint = format!("{near} Marks stand in marks/*.toml, numbers in numbers/*.csv.");
            faults.add(&Spot::file(path), "No file of this name belongs to the tables.", hint);
            continue;
        }
        if !path.ends_with(".toml") {
            continue;
        }
        let lines = Lines::of(text);
        if let Some(fault) = too_deep(path, text, &lines) {
            unparsed.push(fault);
            continue;
        }
        let (tree, errors) = DeTable::parse_recoverable(text);
        for error in errors.iter().take(5) {
            unparsed.push(Fault {
                file: path.to_string(),
                line: error.span().map_or(0, |s| lines.at(s.start)),
                field: String::new(),
                says: format!("The line cannot be read: {}.", error.message()),
                hint: "Check quotes, brackets and commas here and in the line above.".to_string(),
            });
        }
        parsed.push(Parsed { doc: Doc { path: Rc::from(path), lines, faults }, tree });
    }
    (parsed, unparsed)
}

fn missing(path: &str) -> Fault {
    Fault {
        file: path.to_string(),
        line: 0,
        field: String::new(),
        says: "The file is missing.".to_string(),
        hint: "See data/reference/README.md for what it holds.".to_string(),
    }
}
