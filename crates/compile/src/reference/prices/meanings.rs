//! `meanings.toml`: what a figure in money may mean, each defined once.

use super::super::Context;
use crate::cursor::Table;
use crate::fault::{meant, quote};
use crate::text::Limit;
use pack::prices::{Definition, Meaning};

const WORDS: [(&str, Meaning); 8] = [
    ("fair-market", Meaning::FairMarket),
    ("replacement", Meaning::Replacement),
    ("forced", Meaning::Forced),
    ("typical", Meaning::Typical),
    ("hammer", Meaning::Hammer),
    ("paid", Meaning::Paid),
    ("asking", Meaning::Asking),
    ("limit", Meaning::Limit),
];

/// Reads the file.
pub(super) fn read(top: &Table<'_>, context: &Context<'_>) -> Vec<Definition> {
    let mut list: Vec<Definition> = Vec::new();
    for t in top.tables("meaning") {
        let id = t.id("fair-market").unwrap_or_default();
        let rests = context.rests_of(&t);
        let name = t.need_text("name", Limit::NAME, "name = \"Fair market value\"");
        let says = t.need_text("says", Limit::SENTENCES, "says = \"What it is.\"");
        t.done();
        let found = WORDS.iter().find(|(w, _)| *w == id).map(|(_, m)| *m);
        match found {
            Some(meaning) if list.iter().any(|d| d.meaning == meaning) => {
                let says = format!("The meaning {} is defined twice.", quote(&id));
                context.faults.add(&t.spot_of("id"), says, "Remove one.");
            }
            Some(meaning) => {
                list.push(Definition { meaning, name, says, basis: rests.basis, source: rests.source });
            }
            None if id.is_empty() => {}
            None => {
                let hint = meant(&id, WORDS.iter().map(|(w, _)| *w), "Meanings");
                context.faults.add(&t.spot_of("id"), format!("{} is no meaning.", quote(&id)), hint);
            }
        }
    }
    for (word, _) in WORDS.iter().filter(|(_, m)| list.iter().all(|d| d.meaning != *m)) {
        let hint = format!("Add [[meaning]] with id = {}.", quote(word));
        context.faults.add(&top.spot_of("meaning"), format!("The meaning {} is missing.", quote(word)), hint);
    }
    top.done();
    list
}
