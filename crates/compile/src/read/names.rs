//! Names that a file uses and `pack.toml` or the questions define.

use crate::cursor::Value;
use crate::fault::{Faults, Spot, quote};
use crate::model::{Question, Thing};
use crate::text::Limit;

/// The index of a thing that a value names; a fault when there is none. Silent when the list is empty, for a
/// missing list is a fault of its own.
pub(super) fn find(things: &[Thing], id: &str, spot: &Spot, what: &str, faults: &Faults) -> Option<u16> {
    let at = things.iter().position(|t| t.id == id);
    if at.is_none() && !things.is_empty() {
        let hint = faults.meant(id, things.iter().map(|t| t.id.as_str()), "Known");
        faults.add_unknown(spot, format!("pack.toml has no {what} {}.", quote(id)), hint);
    }
    at.and_then(|i| u16::try_from(i).ok())
}

/// Question and choices from `grip: pierced, blind`. `before` says in a message where the question must stand.
pub(super) fn answers(
    text: &str,
    spot: &Spot,
    questions: &[Question],
    before: &str,
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
        let hint = faults.meant(question, questions.iter().map(|q| q.id.as_str()), "Questions");
        faults.add_unknown(spot, format!("There is no question {}{before}.", quote(question)), hint);
        return None;
    };
    let known = &questions[at].wire.choices;
    let mut found = Vec::new();
    for choice in choices.split(',').map(str::trim) {
        match known.iter().position(|c| c.id == choice).and_then(|i| u16::try_from(i).ok()) {
            Some(c) if found.contains(&c) => faults.add(spot, format!("{} stands twice.", quote(choice)), ""),
            Some(c) => found.push(c),
            None => {
                let hint = faults.meant(choice, known.iter().map(|c| c.id.as_str()), "Choices");
                faults.add_unknown(spot, format!("{} is not a choice of {question}.", quote(choice)), hint);
            }
        }
    }
    Some((u16::try_from(at).ok()?, found))
}

/// A list that names things of `pack.toml`, each once.
pub(super) fn names(value: &Value<'_>, things: &[Thing], what: &str) -> Vec<u16> {
    let mut found = Vec::new();
    for (id, spot) in value.texts(Limit::NAME) {
        match find(things, &id, &spot, what, value.faults()) {
            Some(i) if found.contains(&i) => {
                value.faults().add(&spot, format!("{} stands twice.", quote(&id)), "")
            }
            Some(i) => found.push(i),
            None => {}
        }
    }
    found
}
