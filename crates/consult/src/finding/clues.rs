//! For and against: the strength of each clue, what each answer left out would change, which to look at again.

use super::facts::{Facts, found, top};
use crate::guide::Guide;
use crate::state::{Given, State, What};
use crate::view::ClueView;
use crate::words::{chance, inside, strength};
use measure::Instrument;
use reason::{Posterior, chance_misread, log10_odds};
use units::{arranged, descending, order};

/// From this chance of a misreading an answer is offered for a second look. Basis: memory.
const SUSPECT: f64 = 0.25;
const MOST_CHANGES: usize = 4;

/// The clues in the order of their strength between the first two kinds.
pub(crate) fn clues(guide: &Guide, state: &State, facts: &Facts) -> Vec<ClueView> {
    let Some(second) = facts.second else {
        return Vec::new();
    };
    let odds = |kinds: &[f64]| log10_odds(kinds[facts.first], kinds[second]);
    let with = odds(&facts.kinds);
    let suspicion: Vec<f64> = facts
        .answers
        .iter()
        .map(|a| chance_misread(&guide.model, &facts.posterior, a, &facts.answers))
        .collect();
    let suspect = top(&suspicion).0;
    let mut clues: Vec<ClueView> = Vec::new();
    for said in all_said(guide, state, facts) {
        let by = with - odds(&said.without.kinds(&guide.model));
        let given = said.at.map(|i| &state.given[i]);
        let again = said.at.filter(|i| *i == suspect && suspicion[*i] >= SUSPECT);
        clues.push(ClueView {
            question: given.map(|g| g.question),
            text: said.text,
            strength: libm::round(by * 100.0) as i32,
            words: match strength(by) {
                nothing if by.abs() < 0.1 => nothing.to_string(),
                word => format!("{word}, {}", if by > 0.0 { "for" } else { "against" }),
            },
            basis: given.map_or_else(
                || "by the years that it proves".to_string(),
                |g| basis(guide, facts, g.question),
            ),
            unsure: given.is_some_and(|g| !g.sure),
            again: again.map(|i| format!("Look again: {} that this was misread.", chance(suspicion[i]))),
        });
    }
    let strongest = order(clues.len(), &|a, b| {
        clues[b].strength.cmp(&clues[a].strength).then(clues[a].question.cmp(&clues[b].question))
    });
    arranged(clues, &strongest)
}

/// Something that was told, and what the finding would be without it.
pub(super) struct Said {
    /// Index of the answer; none for the lettering.
    pub(super) at: Option<usize>,
    pub(super) text: String,
    pub(super) without: Posterior,
}

/// Every answer that says something, then the lettering.
pub(super) fn all_said(guide: &Guide, state: &State, facts: &Facts) -> Vec<Said> {
    let telling = state.given.iter().enumerate().filter(|(_, g)| g.what != What::Cannot);
    let mut all: Vec<Said> = telling
        .map(|(i, given)| {
            let mut rest = facts.answers.clone();
            rest.remove(i);
            Said { at: Some(i), text: clue_text(guide, given), without: found(guide, state, &rest).0 }
        })
        .collect();
    if state.marks.told.is_some() {
        let text = format!("The marks \u{201c}{}\u{201d}", state.marks.text.trim());
        all.push(Said { at: None, text, without: facts.without_marks(guide, state) });
    }
    all
}

/// Sentences for the answers without which the finding would be another one.
pub(crate) fn change(guide: &Guide, state: &State, facts: &Facts) -> Vec<String> {
    let unknown = guide.unknown();
    let (mut shares, mut changes): (Vec<f64>, Vec<String>) = (Vec::new(), Vec::new());
    let (role, _) = top(&facts.roles);
    let old = facts.period() >= 0.5;
    for Said { at, text, without: left } in all_said(guide, state, facts) {
        let text = if at.is_some() { format!("\u{201c}{text}\u{201d}") } else { inside(&text) };
        let mut kinds = left.kinds(&guide.model);
        if let Some(u) = kinds.get_mut(unknown) {
            *u = 0.0;
        }
        let (kind, share) = top(&kinds);
        let (other_role, role_share) = top(&left.roles(&guide.model));
        let period = left.makes(&guide.model)[0];
        if kind != facts.first {
            let name = inside(&guide.core.kinds[kind].name);
            shares.push(share);
            changes.push(format!("Without {text} it would be {name}, {}.", chance(share)));
        } else if other_role != role {
            let name = inside(&guide.core.roles[other_role].name);
            shares.push(role_share);
            changes.push(format!("Without {text} it would be made as {name}, {}.", chance(role_share)));
        } else if (period >= 0.5) != old {
            let side = if period >= 0.5 { "period" } else { "later" };
            let share = period.max(1.0 - period);
            shares.push(share);
            changes.push(format!("Without {text} it would lean towards {side}, {}.", chance(share)));
        }
    }
    let best = descending(&shares);
    let mut said = arranged(changes, &best);
    said.truncate(MOST_CHANGES);
    if said.is_empty() && facts.told() {
        said.push(
            "No single answer left out would change the first place, the role, or old or later.".to_string(),
        );
    }
    said
}

/// The answer as a clue.
pub(crate) fn clue_text(guide: &Guide, given: &Given) -> String {
    let q = &guide.core.questions[given.question];
    match &given.what {
        What::OneOf(set) => {
            let clues: Vec<String> = set
                .iter()
                .enumerate()
                .map(|(i, c)| if i == 0 { q.choices[*c].clue.clone() } else { inside(&q.choices[*c].clue) })
                .collect();
            clues.join(", or ")
        }
        What::Length(l, with) => format!("{} long, {}", l.in_mm(), by(*with)),
        What::Mass(m, with) => format!("Weighs {}, {}", m.in_grams(), by(*with)),
        What::Cannot => format!("{} Can't tell", q.ask),
    }
}

fn by(with: Instrument) -> &'static str {
    match with {
        Instrument::Ruler => "by ruler",
        Instrument::Calipers => "by calipers",
        Instrument::ByEye => "by eye",
        Instrument::Scales => "on scales",
        Instrument::Photo(_) => "by photo",
    }
}

/// What the first kind's table for a question rests on: of its candidates, the weightiest.
fn basis(guide: &Guide, facts: &Facts, question: usize) -> String {
    let own = (0..guide.core.candidates.len())
        .filter(|c| usize::from(guide.core.candidates[*c].kind) == facts.first)
        .reduce(|a, b| if facts.posterior.p[b] > facts.posterior.p[a] { b } else { a });
    let Some(own) = own else { return String::new() };
    let rows = &guide.core.questions[question].rows;
    let Some(row) = rows.get(usize::from(guide.core.candidates[own].rows[question])) else {
        return String::new();
    };
    match guide.source(row.source) {
        Some(source) => format!("{}: {source}", row.basis.phrase()),
        None => row.basis.phrase().to_string(),
    }
}
