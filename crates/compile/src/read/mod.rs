//! From parsed files to the model, one reader per sort of file.

mod choices;
mod context;
mod examples;
mod kinds;
mod lessons;
mod lines;
mod manifest;
mod names;
mod questions;
mod sections;
mod small;
mod statements;

use crate::art::Figure;
use crate::cursor::{Doc, Table};
use crate::fault::{Fault, Faults, Spot, meant};
use crate::files::{Files, Lines, too_deep};
use crate::model::{Model, Taught};
use context::Context;
use names::{answers, find, names};
use std::cell::Cell;
use std::rc::Rc;
use toml::Spanned;
use toml::de::DeTable;

/// The most faults of parsing that are told of one file: they follow from each other.
const MOST_OF_PARSING: usize = 5;

/// Where the caller puts the figures of drawings beside the files of a pack.
const ART: &str = "art/";

/// A file and its tree.
struct Parsed<'a> {
    doc: Doc<'a>,
    tree: Spanned<DeTable<'a>>,
}

/// Reads everything. Files that are missing or cannot be parsed are handed back apart: they silence what follows.
pub(crate) fn read(files: &Files, faults: &Faults) -> (Model, Vec<Fault>) {
    let (parsed, mut unparsed) = parse(files, faults);
    let tops = |want: &dyn Fn(&str) -> bool| -> Vec<Table<'_>> {
        let wanted = parsed.iter().filter(|p| want(&p.doc.path));
        wanted.map(|p| Table::top(&p.doc, p.tree.get_ref())).collect()
    };
    let one = |path: &str| tops(&|p| p == path).pop();
    for path in ["pack.toml", "makes.toml"] {
        if files.get(path).is_none() {
            unparsed.push(Fault {
                file: path.to_string(),
                line: 0,
                field: String::new(),
                says: "The file is missing.".to_string(),
                hint: "See data/README.md for what it holds.".to_string(),
            });
        }
    }
    let sources = one("sources.toml").map(|t| small::sources(&t)).unwrap_or_default();
    let art = art(files, &mut unparsed);
    let context = Context {
        faults,
        sources: &sources,
        art: (!art.is_empty()).then(|| sketch::Art::new(art.iter().map(Figure::parts))),
        counts: Cell::default(),
    };
    let manifest = manifest::read(one("pack.toml").as_ref(), &context);
    let terms = one("glossary.toml").map(|t| small::terms(&t)).unwrap_or_default();
    let mut questions = Vec::new();
    for file in tops(&|p| in_folder(p, "questions/")) {
        questions::read(&file, &context, &manifest, &mut questions);
    }
    let makes = small::makes(one("makes.toml").as_ref(), &context, &manifest, &questions);
    let cautions = one("cautions.toml").map(|t| small::cautions(&t, &questions)).unwrap_or_default();
    let (mut families, mut kinds) = (Vec::new(), Vec::new());
    for file in tops(&|p| in_folder(p, "kinds/")) {
        let shelf = kinds::Shelf {
            context: &context,
            manifest: &manifest,
            questions: &questions,
            cautions: &cautions,
        };
        shelf.read(&file, &mut families, &mut kinds);
    }
    let counts = context.counts.get();
    kinds.sort_by_key(|k| k.standing == pack::Standing::Unknown);
    let mut taught = Taught::default();
    for file in tops(&|p| in_folder(p, "lessons/")) {
        let room =
            lessons::Room { context: &context, manifest: &manifest, questions: &questions, kinds: &kinds };
        room.read(&file, &mut taught);
    }
    let model =
        Model { manifest, sources, terms, questions, makes, cautions, families, kinds, taught, art, counts };
    (model, unparsed)
}

/// The folders of a pack.
const FOLDERS: [&str; 3] = ["kinds/", "questions/", "lessons/"];

fn in_folder(path: &str, folder: &str) -> bool {
    path.strip_prefix(folder).is_some_and(|p| p.ends_with(".toml") && !p.contains('/'))
}

fn parse<'a>(files: &'a Files, faults: &'a Faults) -> (Vec<Parsed<'a>>, Vec<Fault>) {
    const KNOWN: [&str; 5] = ["pack.toml", "makes.toml", "cautions.toml", "sources.toml", "glossary.toml"];
    let (mut parsed, mut unparsed) = (Vec::new(), Vec::new());
    let of_pack = |path: &str| path.ends_with(".toml") && !path.starts_with(ART);
    for (path, text) in files.iter().filter(|(p, _)| of_pack(p)) {
        if !KNOWN.contains(&path) && !FOLDERS.iter().any(|f| in_folder(path, f)) {
            let says = "No file of this name belongs to a pack.";
            let hint = format!(
                "{} Else put it into kinds/, questions/ or lessons/.",
                meant(path, KNOWN.into_iter(), "Files")
            );
            faults.add(&Spot::file(path), says, hint);
            continue;
        }
        let lines = Lines::of(text);
        if let Some(fault) = too_deep(path, text, &lines) {
            unparsed.push(fault);
            continue;
        }
        let (tree, errors) = DeTable::parse_recoverable(text);
        for error in errors.iter().take(MOST_OF_PARSING) {
            unparsed.push(Fault {
                file: path.to_string(),
                line: error.span().map_or(0, |s| lines.at(s.start)),
                field: String::new(),
                says: format!("The line cannot be read: {}.", error.message()),
                hint: if error.message().contains("duplicate") {
                    "The same field or table stands above: join the two or remove one.".to_string()
                } else {
                    "Check quotes, brackets and commas here and in the line above.".to_string()
                },
            });
        }
        let doc = Doc { path: Rc::from(path), lines, faults };
        parsed.push(Parsed { doc, tree });
    }
    (parsed, unparsed)
}

/// The figures of the files in `art/`. What is wrong with them is told like faults of parsing: drawings follow.
fn art(files: &Files, unparsed: &mut Vec<Fault>) -> Vec<Figure> {
    let figures = files.iter().filter(|(p, _)| p.starts_with(ART));
    let figures = figures.map(|(p, t)| (p.to_string(), t.to_string()));
    crate::art(&Files::new(figures.collect())).unwrap_or_else(|faults| {
        unparsed.extend(faults);
        Vec::new()
    })
}
