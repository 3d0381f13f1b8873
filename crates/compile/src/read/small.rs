//! The small files: sources, glossary, makes, cautions.

use super::sections::{About, Desk};
use super::{Context, answers};
use crate::cursor::Table;
use crate::fault::quote;
use crate::model::{Caution, Make, Manifest, Question};
use crate::text::{Limit, check_id};
use pack::{Source, Term};

/// `sources.toml`: key = text.
pub(super) fn sources(top: &Table<'_>) -> Vec<Source> {
    let mut list = Vec::new();
    for (key, value) in top.entries() {
        if let Err((says, hint)) = check_id(&key) {
            value.fault(says, hint);
        }
        if let Some(text) = value.text(Limit::SENTENCES) {
            list.push(Source { key, text });
        }
    }
    list
}

/// `glossary.toml`.
pub(super) fn terms(top: &Table<'_>) -> Vec<Term> {
    let mut list: Vec<Term> = Vec::new();
    for table in top.tables("term") {
        let word = table.need_text("word", Limit::NAME, "word = \"Grip\"");
        let means = table.need_text("means", Limit::SENTENCES, "means = \"The part that is held.\"");
        table.done();
        if list.iter().any(|t| t.word == word) {
            let says = format!("The word {} is explained twice.", quote(&word));
            top.faults().add(&table.spot_of("word"), says, "Join the two.");
        }
        list.push(Term { word, means });
    }
    top.done();
    list
}

/// `makes.toml`, in the order of the makes in `pack.toml`.
pub(super) fn makes(
    top: Option<&Table<'_>>,
    context: &Context<'_>,
    manifest: &Manifest,
    questions: &[Question],
) -> Vec<Make> {
    let desk = Desk { context, manifest, questions };
    let mut list: Vec<Option<Make>> = vec![None; manifest.makes.len()];
    for table in top.iter().flat_map(|t| t.tables("make")) {
        let id = table.id("period");
        let rests = context.rests(&table, manifest.rests);
        let make = Make { at: desk.at(&table), section: desk.section(&table, rests, About::Make) };
        table.done();
        let spot = table.spot_of("id");
        let at = id.and_then(|id| super::find(&manifest.makes, &id, &spot, "make", context.faults));
        let Some(at) = at.map(usize::from) else {
            continue;
        };
        if list[at].is_some() {
            context.faults.add(&spot, "This make stands twice.", "Join the two.");
        }
        list[at] = Some(make);
    }
    if let Some(top) = top {
        top.done();
        for (make, _) in manifest.makes.iter().zip(&list).filter(|(_, m)| m.is_none()) {
            let hint = format!("Add [[make]] with id = {} and its looks.", quote(&make.id));
            context.faults.add(&top.spot(), format!("The make {} is missing.", quote(&make.id)), hint);
        }
    }
    list.into_iter().map(Option::unwrap_or_default).collect()
}

/// `cautions.toml`.
pub(super) fn cautions(top: &Table<'_>, questions: &[Question]) -> Vec<Caution> {
    let mut list: Vec<Caution> = Vec::new();
    for table in top.tables("caution") {
        let id = table.id("lead-paint");
        let text = table.need_text("text", Limit::SENTENCES, "text = \"Old paint may hold lead.\"");
        let grave = table.get("grave").and_then(|v| v.flag()).unwrap_or(false);
        let mut raised_by = Vec::new();
        for (line, spot) in table.get("raised_by").map(|v| v.texts(Limit::TABLE)).unwrap_or_default() {
            let found = answers(&line, &spot, questions, "", top.faults());
            raised_by.extend(found.into_iter().flat_map(|(q, cs)| cs.into_iter().map(move |c| (q, c))));
        }
        table.done();
        let Some(id) = id else { continue };
        if list.iter().any(|c| c.id == id) {
            let says = format!("There are two cautions {}.", quote(&id));
            top.faults().add(&table.spot_of("id"), says, "Give each its own id.");
            continue;
        }
        list.push(Caution { id, spot: table.spot_of("id"), text, grave, raised_by });
    }
    top.done();
    list
}
