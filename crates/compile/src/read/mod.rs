//! From parsed files to the model, one reader per sort of file.

mod kinds;
mod manifest;
mod questions;
mod sections;
mod small;

use crate::cursor::{Doc, Table, Value};
use crate::fault::{Fault, Faults, Spot, meant, quote};
use crate::files::{Files, Lines, too_deep};
use crate::model::{Model, Question, Rests, Thing};
use crate::text::Limit;
use std::cell::Cell;
use std::rc::Rc;
use toml::Spanned;
use toml::de::DeTable;
use units::Basis;

/// The most faults of parsing that are told of one file: they follow from each other.
const MOST_OF_PARSING: usize = 5;

/// A file and its tree.
struct Parsed<'a> {
    doc: Doc<'a>,
    tree: Spanned<DeTable<'a>>,
}

/// What all readers know.
pub(crate) struct Context<'a> {
    pub(crate) faults: &'a Faults,
    pub(crate) sources: &'a [pack::Source],
    counts: Cell<[usize; 4]>,
}

/// Reads everything. Faults of parsing are handed back apart: they silence what follows from them.
pub(crate) fn read(files: &Files, faults: &Faults) -> (Model, Vec<Fault>) {
    let (parsed, unparsed) = parse(files, faults);
    let tops = |want: &dyn Fn(&str) -> bool| -> Vec<Table<'_>> {
        let wanted = parsed.iter().filter(|p| want(&p.doc.path));
        wanted.map(|p| Table::top(&p.doc, p.tree.get_ref())).collect()
    };
    let one = |path: &str| tops(&|p| p == path).pop();
    for path in ["pack.toml", "makes.toml", "codes.csv"] {
        if files.get(path).is_none() {
            faults.add(
                &Spot::file(path),
                "The file is missing.",
                "See data/README.md for what it holds.",
            );
        }
    }
    let sources = one("sources.toml")
        .map(|t| small::sources(&t))
        .unwrap_or_default();
    let context = Context {
        faults,
        sources: &sources,
        counts: Cell::default(),
    };
    let manifest = manifest::read(one("pack.toml").as_ref(), &context);
    let terms = one("glossary.toml").map(|t| small::terms(&t)).unwrap_or_default();
    let mut questions = Vec::new();
    for file in tops(&|p| in_folder(p, "questions/")) {
        questions::read(&file, &context, &manifest, &mut questions);
    }
    let makes = small::makes(one("makes.toml").as_ref(), &context, &manifest, &questions);
    let cautions = one("cautions.toml")
        .map(|t| small::cautions(&t, &questions))
        .unwrap_or_default();
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
    let model = Model {
        manifest,
        sources,
        terms,
        questions,
        makes,
        cautions,
        families,
        kinds,
        counts,
    };
    (model, unparsed)
}

fn in_folder(path: &str, folder: &str) -> bool {
    path.strip_prefix(folder)
        .is_some_and(|p| p.ends_with(".toml") && !p.contains('/'))
}

fn parse<'a>(files: &'a Files, faults: &'a Faults) -> (Vec<Parsed<'a>>, Vec<Fault>) {
    const KNOWN: [&str; 5] = [
        "pack.toml",
        "makes.toml",
        "cautions.toml",
        "sources.toml",
        "glossary.toml",
    ];
    let (mut parsed, mut unparsed) = (Vec::new(), Vec::new());
    for (path, text) in files.iter().filter(|(p, _)| p.ends_with(".toml")) {
        if !KNOWN.contains(&path) && !in_folder(path, "kinds/") && !in_folder(path, "questions/") {
            let says = "No file of this name belongs to a pack.";
            let hint = format!(
                "{} Else put it into kinds/ or questions/.",
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
        let doc = Doc {
            path: Rc::from(path),
            lines,
            faults,
        };
        parsed.push(Parsed { doc, tree });
    }
    (parsed, unparsed)
}

impl Context<'_> {
    /// Counts a figure by what it rests on.
    pub(crate) fn count(&self, rests: Rests) {
        let mut counts = self.counts.get();
        counts[rests.basis as usize] += 1;
        self.counts.set(counts);
    }

    /// What a table's figures rest on: its own `basis` and `source`, else what is above it.
    pub(crate) fn rests(&self, table: &Table<'_>, above: Rests) -> Rests {
        self.rests_named(table, "basis", "source", above)
    }

    /// The same under other names of the fields.
    pub(crate) fn rests_named(&self, table: &Table<'_>, basis: &str, source: &str, above: Rests) -> Rests {
        let own = table.get(basis).and_then(|v| {
            let word = v.text(Limit::NAME)?;
            let found = Basis::from_word(&word);
            if found.is_none() {
                let hint = meant(&word, Basis::ALL.into_iter().map(Basis::word), "Write one of");
                v.fault(format!("{} is not a basis.", quote(&word)), hint);
            }
            found
        });
        let named = table.get(source).and_then(|v| {
            let key = v.text(Limit::NAME)?;
            let at = self.sources.iter().position(|s| s.key == key);
            if at.is_none() {
                let hint = meant(&key, self.sources.iter().map(|s| s.key.as_str()), "Sources");
                v.unknown(format!("sources.toml has no source {}.", quote(&key)), hint);
            }
            Some(at.and_then(|i| u16::try_from(i).ok()))
        });
        let settled = own.unwrap_or(above.basis);
        match (settled, named) {
            (Basis::Published, None) if own.is_some() && above.source.is_none() => {
                let hint =
                    format!("Add {source} = with a key of sources.toml, or say \"memory\" or \"practice\".");
                self.faults.add(
                    &table.spot_of(basis),
                    "A published figure must name its source.",
                    hint,
                );
            }
            (Basis::Published, None) => {
                return Rests {
                    basis: settled,
                    ..above
                };
            }
            (Basis::Published, Some(source)) => {
                return Rests {
                    basis: settled,
                    source,
                };
            }
            (_, Some(_)) => {
                let says = format!("A source is named, but the basis is \"{}\".", settled.word());
                self.faults.add(
                    &table.spot_of(source),
                    says,
                    format!("Add {basis} = \"published\"."),
                );
            }
            (_, None) => {}
        }
        Rests {
            basis: settled,
            source: None,
        }
    }
}

/// The index of a thing that a value names; a fault when there is none. Silent when the list is empty, for a
/// missing list is a fault of its own.
pub(crate) fn find(things: &[Thing], id: &str, spot: &Spot, what: &str, faults: &Faults) -> Option<u16> {
    let at = things.iter().position(|t| t.id == id);
    if at.is_none() && !things.is_empty() {
        let hint = meant(id, things.iter().map(|t| t.id.as_str()), "Known");
        faults.add_unknown(spot, format!("pack.toml has no {what} {}.", quote(id)), hint);
    }
    at.and_then(|i| u16::try_from(i).ok())
}

/// Question and choices from `grip: pierced, blind`.
pub(crate) fn answers(
    text: &str,
    spot: &Spot,
    questions: &[Question],
    faults: &Faults,
) -> Option<(u16, Vec<u16>)> {
    let Some((question, choices)) = text.split_once(':') else {
        faults.add(
            spot,
            "This does not name a question and its choices.",
            "Write for example: grip: pierced, blind",
        );
        return None;
    };
    let question = question.trim();
    let Some(at) = questions.iter().position(|q| q.id == question) else {
        let hint = meant(question, questions.iter().map(|q| q.id.as_str()), "Questions");
        faults.add_unknown(
            spot,
            format!("There is no question {} (before this one).", quote(question)),
            hint,
        );
        return None;
    };
    let known = &questions[at].wire.choices;
    let mut found = Vec::new();
    for choice in choices.split(',').map(str::trim) {
        match known
            .iter()
            .position(|c| c.id == choice)
            .and_then(|i| u16::try_from(i).ok())
        {
            Some(c) if found.contains(&c) => faults.add(spot, format!("{} stands twice.", quote(choice)), ""),
            Some(c) => found.push(c),
            None => {
                let hint = meant(choice, known.iter().map(|c| c.id.as_str()), "Choices");
                faults.add_unknown(
                    spot,
                    format!("{} is not a choice of {question}.", quote(choice)),
                    hint,
                );
            }
        }
    }
    Some((u16::try_from(at).ok()?, found))
}

/// A list that names things of `pack.toml`, each once.
pub(crate) fn names(value: &Value<'_>, things: &[Thing], what: &str) -> Vec<u16> {
    let mut found = Vec::new();
    for (id, spot) in value.texts(Limit::NAME) {
        match find(things, &id, &spot, what, value.faults()) {
            Some(i) if found.contains(&i) => {
                value
                    .faults()
                    .add(&spot, format!("{} stands twice.", quote(&id)), "")
            }
            Some(i) => found.push(i),
            None => {}
        }
    }
    found
}
