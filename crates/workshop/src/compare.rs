//! Two editions of a pack over the same made-up pieces: what is found otherwise.

use consult::Guide;
use pack::Standing;
use practice::{Drawer, Form, numbers};
use reason::{Answer, Told, fit, weigh, with_fit};
use std::collections::BTreeMap;

/// A finding: the first kind, and its share.
type First = (usize, f64);

/// What changed over all pieces.
#[derive(Debug, Default)]
pub struct Compared {
    /// Pieces drawn from the tables of the old edition.
    pub pieces: usize,
    /// Pieces of whose kind the new edition knows nothing.
    pub gone: usize,
    /// Pieces whose first kind is another.
    pub changed: usize,
    /// Pieces found first by the old edition and by the new one.
    pub right: (usize, usize),
    /// Mean share of the piece's own kind in the old edition and in the new one.
    pub share: (f64, f64),
    /// The kind of the piece, what the old edition found, what the new one found, and how often; the most frequent first.
    pub otherwise: Vec<([String; 3], usize)>,
}

/// Draws pieces from the old edition's tables, in the hard form, and has both judge all answers that they know.
#[must_use]
pub fn compare(old: &Guide, new: &Guide, seed: u64, pieces: usize) -> Compared {
    let drawer = Drawer::new(old);
    let mut found = Compared { pieces, ..Compared::default() };
    let mut otherwise: BTreeMap<[String; 3], usize> = BTreeMap::new();
    let id = |guide: &Guide, kind: usize| guide.core.kinds[kind].id.clone();
    for i in 0..pieces {
        let piece = drawer.draw(Form::Hard, None, &mut numbers(seed, i));
        let kind = old.model.kind_of()[piece.candidate];
        let Some(same) = new.core.kinds.iter().position(|k| k.id == old.core.kinds[kind].id) else {
            found.gone += 1;
            continue;
        };
        let answers = open(old, &piece.told);
        let (before, own_before) = judge(old, &answers, kind);
        let (after, own_after) = judge(new, &carried(old, new, &answers), same);
        found.right.0 += usize::from(before.0 == kind);
        found.right.1 += usize::from(after.0 == same);
        found.share.0 += own_before;
        found.share.1 += own_after;
        if id(old, before.0) != id(new, after.0) {
            found.changed += 1;
            *otherwise.entry([id(old, kind), id(old, before.0), id(new, after.0)]).or_default() += 1;
        }
    }
    let judged = (pieces - found.gone).max(1) as f64;
    found.share = (found.share.0 / judged, found.share.1 / judged);
    found.otherwise = otherwise.into_iter().collect();
    found.otherwise.sort_by(|a, b| b.1.cmp(&a.1).then_with(|| a.0.cmp(&b.0)));
    found
}

/// The answers that would be given: those to questions whose gate is open.
fn open(guide: &Guide, told: &[Told]) -> Vec<Answer> {
    let mut answers: Vec<Answer> = Vec::new();
    for (question, told) in told.iter().enumerate().filter(|(_, t)| t.speaks()) {
        let gate = guide.core.questions[question].gate.as_ref();
        let opens = |gate: &pack::Gate| {
            answers.iter().any(|a| {
                let chosen =
                    |set: &Vec<usize>| set.iter().all(|c| gate.choices.iter().any(|g| usize::from(*g) == *c));
                a.question == usize::from(gate.question) && matches!(&a.told, Told::OneOf(set) if chosen(set))
            })
        };
        if gate.is_none_or(opens) {
            answers.push(Answer { question, told: told.clone(), sure: true });
        }
    }
    answers
}

/// The same answers by their ids, as far as the other edition knows them.
fn carried(old: &Guide, new: &Guide, answers: &[Answer]) -> Vec<Answer> {
    let one = |answer: &Answer| {
        let asked = &old.core.questions[answer.question];
        let question = new.core.questions.iter().position(|q| q.id == asked.id && q.form == asked.form)?;
        let told = match &answer.told {
            Told::OneOf(set) => {
                let choice = |c: &usize| {
                    let id = &asked.choices.get(*c)?.id;
                    new.core.questions[question].choices.iter().position(|n| n.id == *id)
                };
                Told::OneOf(set.iter().map(choice).collect::<Option<Vec<usize>>>()?)
            }
            told => told.clone(),
        };
        Some(Answer { question, told, sure: answer.sure })
    };
    answers.iter().filter_map(one).collect()
}

/// The first kind with its share, and the share of the piece's own; the unknown kind left out as in a finding.
fn judge(guide: &Guide, answers: &[Answer], own: usize) -> (First, f64) {
    let model = &guide.model;
    let bare = weigh(model, 0, answers);
    let strange = fit(model, &bare, answers);
    let shares = with_fit(model, bare, strange).kinds(model);
    let known = |k: usize| guide.core.kinds[k].standing != Standing::Unknown;
    let here: f64 = shares.iter().enumerate().filter(|(k, _)| known(*k)).map(|(_, s)| s).sum();
    let first = shares
        .iter()
        .enumerate()
        .filter(|(k, _)| known(*k))
        .fold((0, 0.0), |best, (k, s)| if *s > best.1 { (k, *s) } else { best });
    ((first.0, first.1 / here.max(1e-9)), shares[own] / here.max(1e-9))
}

/// Ids that one edition has and the other lacks: kinds, questions and choices, each as `kind solid-grip`.
#[must_use]
pub fn lacks(one: &Guide, other: &Guide) -> Vec<String> {
    let ids = |guide: &Guide| -> Vec<String> {
        let kinds = guide.core.kinds.iter().map(|k| format!("kind {}", k.id));
        let asked = guide.core.questions.iter().flat_map(|q| {
            let choices = q.choices.iter().map(|c| format!("choice {}.{}", q.id, c.id));
            std::iter::once(format!("question {}", q.id)).chain(choices)
        });
        kinds.chain(asked).collect()
    };
    let there = ids(other);
    ids(one).into_iter().filter(|id| !there.contains(id)).collect()
}
