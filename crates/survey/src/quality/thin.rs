//! What is thin: kinds without the texts that make a guide useful, questions that part nothing, sources nobody names.

use super::spots::Spots;
use compile::{Compiled, Fault};
use consult::Guide;
use pack::Standing;
use reason::{Answer, Goal, Plan, Told, weigh};

/// A question that tells less than this of the kind, the make and the role, before anything else is known, parts
/// nothing. In bits.
const NOTHING: f64 = 0.02;
/// So many kinds at least are named that a kind is taken for.
const TAKEN_FOR: usize = 2;

/// Notes for each.
pub(super) fn notes(guide: &Guide, compiled: &Compiled, spots: &Spots) -> Vec<Fault> {
    let mut notes = Vec::new();
    for (kind, text) in guide.core.kinds.iter().zip(&compiled.book.kinds) {
        if kind.standing == Standing::Unknown {
            continue;
        }
        let mut lacks = Vec::new();
        if text.found.is_empty() {
            lacks.push("where it is found");
        }
        if text.companions.is_empty() {
            lacks.push("what belongs to it");
        }
        if text.notes.is_empty() {
            lacks.push("notes");
        }
        if text.confusions.len() < TAKEN_FOR {
            lacks.push("two kinds that it is taken for");
        }
        if !lacks.is_empty() {
            let says = format!("Missing: {}.", lacks.join(", "));
            notes.push(spots.fault("kinds/", &kind.id, says, ""));
        }
    }
    for (q, tells) in guide.core.questions.iter().zip(tells(guide)) {
        if tells < NOTHING {
            let says = format!("It tells {tells:.3} bits of kind, make or role: it parts nothing.");
            notes.push(spots.fault(
                "questions/",
                &q.id,
                says,
                "State how kinds or makes differ, or leave it out.",
            ));
        }
    }
    notes.extend(sources(guide, compiled));
    notes
}

/// Bits that each question tells of that which it tells most about, before anything is known but that it is asked.
fn tells(guide: &Guide) -> Vec<f64> {
    let model = &guide.model;
    let plans = [Goal::kind(model), Goal::make(model), Goal::role(model)].map(|g| Plan::new(model, g));
    let one = |question: usize| {
        let posterior = weigh(model, 0, &opened(guide, question));
        let gains = plans.iter().flat_map(|plan| plan.gains(model, &posterior, &[question]));
        gains.fold(0.0, f64::max)
    };
    (0..guide.core.questions.len()).map(one).collect()
}

/// The answers after which a question may be asked.
fn opened(guide: &Guide, question: usize) -> Vec<Answer> {
    let mut answers = Vec::new();
    let mut at = question;
    // A gate is always an earlier question, so this ends.
    while let Some(gate) = &guide.core.questions[at].gate {
        at = usize::from(gate.question);
        let set = gate.choices.iter().map(|c| usize::from(*c)).collect();
        answers.push(Answer { question: at, told: Told::OneOf(set), sure: true });
    }
    answers
}

/// Sources that no figure and no statement names, in one note.
fn sources(guide: &Guide, compiled: &Compiled) -> Option<Fault> {
    let core = &guide.core;
    let facts = core.kinds.iter().flat_map(|k| &k.makes).flatten();
    let mut named: Vec<u16> = core.questions.iter().flat_map(|q| &q.rows).filter_map(|r| r.source).collect();
    for fact in facts {
        named.extend(fact.period_source);
        named.extend(fact.worth.as_ref().and_then(|w| w.source));
    }
    named.extend(compiled.book.kinds.iter().flat_map(|k| &k.also_said).filter_map(|s| s.source));
    let all = compiled.book.sources.iter().enumerate();
    let unnamed: Vec<&str> = all
        .filter(|(i, _)| !named.iter().any(|n| usize::from(*n) == *i))
        .map(|(_, s)| s.key.as_str())
        .collect();
    (!unnamed.is_empty()).then(|| Fault {
        file: "sources.toml".to_string(),
        line: 0,
        field: String::new(),
        says: format!("No figure rests on {}.", unnamed.join(", ")),
        hint: "Name a source where it is used, or leave it out.".to_string(),
    })
}
