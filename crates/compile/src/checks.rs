//! What needs the whole pack to be judged: names across files, kinds that cannot be told apart, questions that
//! tell nothing.

use crate::fault::{Faults, Spot, quote};
use crate::model::{Kind, Mention, Model};
use pack::{Core, Standing};
use units::Basis;

/// The most candidates: kinds times makes times forms.
pub(crate) const MOST_CANDIDATES: usize = 5000;
/// Candidates times choices: what a phone weighs after each answer.
const MOST_CELLS: usize = 1_000_000;
/// The most kinds that are read.
pub(crate) const MOST_KINDS: usize = 1000;
/// The most questions that are read.
pub(crate) const MOST_QUESTIONS: usize = 200;

/// Names that one file uses and another defines.
pub(crate) fn names(model: &Model, faults: &Faults) {
    let questions = || model.questions.iter().map(|q| q.id.as_str());
    let mut opened: Vec<&str> = Vec::new();
    for mention in &model.manifest.opening {
        if opened.contains(&mention.id.as_str()) {
            faults.add(&mention.spot, format!("{} stands twice.", quote(&mention.id)), "Name it once.");
        }
        opened.push(&mention.id);
        known(mention, questions(), "question", "Questions", faults);
    }
    let kinds = || model.kinds.iter().map(|k| k.id.as_str());
    for kind in &model.kinds {
        for mention in kind.taken_for.iter().map(|(mention, _)| mention).chain(&kind.either) {
            known(mention, kinds(), "kind", "Kinds", faults);
            if mention.id == kind.id {
                faults.add(&mention.spot, "A kind cannot be taken for itself.", "Name the other kind.");
            }
        }
    }
}

fn known<'a>(
    mention: &Mention,
    ids: impl Iterator<Item = &'a str> + Clone,
    what: &str,
    list: &str,
    faults: &Faults,
) {
    if !mention.id.is_empty() && !ids.clone().any(|id| id == mention.id) {
        let says = format!("There is no {what} {}.", quote(&mention.id));
        faults.add_unknown(&mention.spot, says, faults.meant(&mention.id, ids, list));
    }
}

/// Counts: enough to identify with, not more than can be read.
pub(crate) fn counts(model: &Model, faults: &Faults) {
    let file = Spot::file("pack.toml");
    if model.questions.is_empty() {
        faults.add(&file, "The pack has no question.", "Add [[question]] to a file in questions/.");
    }
    let unknown: Vec<&Kind> = model.kinds.iter().filter(|k| k.standing == Standing::Unknown).collect();
    if model.kinds.len() == unknown.len() {
        faults.add(&file, "The pack has no kind.", "Add [[kind]] to a file in kinds/.");
    }
    match unknown.as_slice() {
        [] => {
            let hint = "Add a kind with standing = \"unknown\" for whatever the guide does not know.";
            faults.add(&file, "The unknown kind is missing.", hint);
        }
        [_] => {}
        [_, others @ ..] => {
            for kind in others {
                faults.add(
                    &kind.spot.of("standing"),
                    "Only one kind can be the unknown one.",
                    "Join the two.",
                );
            }
        }
    }
    for (what, n, most) in
        [("kinds", model.kinds.len(), MOST_KINDS), ("questions", model.questions.len(), MOST_QUESTIONS)]
    {
        if n > most {
            faults.add(&file, format!("There are more than {most} {what}."), "Leave some out.");
        }
    }
}

/// Invented figures must be confessed on every finding.
pub(crate) fn invented(model: &Model, faults: &Faults) {
    let invented = model.counts[Basis::Invented as usize];
    if invented > 0 && model.manifest.head.notice.is_empty() {
        let hint = "Add for example: notice = \"All figures of this guide are invented.\"";
        let says = format!("{invented} figures are invented, but no notice says so.");
        faults.add(&Spot::file("pack.toml").of("notice"), says, hint);
    }
}

/// Questions that separate nothing, and kinds that nothing separates.
pub(crate) fn telling(model: &Model, core: &Core, faults: &Faults) {
    let unknown = core.kinds.len() - 1;
    let known: Vec<_> = core.candidates.iter().filter(|c| usize::from(c.kind) != unknown).collect();
    for (i, q) in model.questions.iter().enumerate() {
        let mut rows = known.iter().map(|c| c.rows[i]);
        let first = rows.next();
        if rows.all(|r| Some(r) == first) {
            let says = "Every kind and make shows the same here: the question tells nothing.";
            faults.note(&q.spot.of(&q.id), says, "State in kinds or makes how they differ.");
        }
    }
    let tables = |kind: usize| -> Vec<_> {
        let of = known.iter().filter(|c| usize::from(c.kind) == kind);
        of.map(|c| (c.make, c.form, &c.rows)).collect()
    };
    let mut seen: Vec<(Vec<_>, usize)> = Vec::new();
    for (k, kind) in model.kinds.iter().enumerate().take(unknown) {
        let own = tables(k);
        match seen.iter().find(|(t, _)| *t == own) {
            Some((_, other)) => {
                let says = format!("All tables are those of {}.", model.kinds[*other].id);
                faults.note(
                    &kind.spot.of(&kind.id),
                    says,
                    "Nothing can tell the two apart: state how they differ.",
                );
            }
            None => seen.push((own, k)),
        }
    }
}

/// The work that the pack makes, and whether every place has something to offer.
pub(crate) fn priors(model: &Model, core: &Core, faults: &Faults) {
    let choices: usize = core.questions.iter().map(|q| q.choices.len()).sum();
    let cells = core.candidates.len() * choices;
    if cells > MOST_CELLS {
        let says =
            format!("{} candidates by {choices} choices are too many to weigh.", core.candidates.len());
        faults.add(&Spot::file("pack.toml"), says, "Leave out forms or kinds.");
    }
    let unknown = core.kinds.len() - 1;
    for (i, place) in model.manifest.places.iter().enumerate() {
        let met = |c: &pack::Candidate| usize::from(c.kind) != unknown && c.prior[i] > 0;
        if !core.candidates.iter().any(met) {
            let says = format!("No kind is ever met at {}.", quote(&place.id));
            faults.add(&place.spot, says, "Raise `at` for some kind or make.");
        }
    }
}
