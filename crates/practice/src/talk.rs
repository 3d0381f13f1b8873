//! A consultation talked through: after each look what remains, and because of what.

use crate::pieces::Handed;
use crate::task::Trainer;
use crate::words::inside;
use consult::{chance, strength};
use pack::Standing;
use reason::{Answer, Goal, Plan, Posterior, Reach, log10_odds, rank, weigh};
use units::descending;

/// A kind is in the running from this share.
const REMAINS: f64 = 0.05;
/// So many kinds are named at most.
const NAMED: usize = 4;
/// A kind that falls from the running to below this share is out.
const OUT: f64 = 0.01;
/// At this share of the first kind the talk ends; as the page of questions has it.
const ENOUGH: f64 = consult::SETTLED;
/// A talk has so many looks at most.
const MOST: usize = 12;

/// After one look.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Turn {
    /// Index of the question.
    pub question: usize,
    /// What was asked.
    pub ask: String,
    /// What was seen, as a clue.
    pub seen: String,
    /// What to draw, with the feature in the accent.
    pub mark: String,
    /// Kinds in the running, with their chance in words, the likeliest first.
    pub remains: Vec<(String, String)>,
    /// "After the sole, these remain, because ...".
    pub says: String,
}

impl Trainer<'_> {
    /// A piece talked through look by look: what tells most for its time comes next, the opening first, until one kind is
    /// settled or no look is left that tells. With these tools at hand.
    #[must_use]
    pub fn talk(&self, piece: &Handed, tools: &[usize]) -> Vec<Turn> {
        let mut looks = Vec::new();
        while let Some(look) = self.next_look(piece, tools, &looks) {
            looks.push(look);
        }
        self.talk_of(piece, &looks)
    }

    /// The look that comes after these; none at the end of the talk.
    pub(crate) fn next_look(&self, piece: &Handed, tools: &[usize], looks: &[usize]) -> Option<usize> {
        let model = &self.guide.model;
        let answers = piece.answers(self.guide, looks, true);
        let posterior = weigh(model, 0, &answers);
        if looks.len() >= MOST || self.first(&posterior).1 >= ENOUGH {
            return None;
        }
        let reach = Reach { tools: tools.to_vec(), picture: false, without: Vec::new() };
        let ranked = rank(model, &Plan::new(model, Goal::kind(model)), &posterior, &answers, &reach);
        let known = |q: usize| piece.truth.get(q).copied().flatten().is_some();
        let tells: Vec<usize> = ranked
            .iter()
            .filter(|l| known(l.question) && l.gain >= consult::TELLS)
            .map(|l| l.question)
            .collect();
        let mut opening = self.guide.core.opening.iter().map(|q| usize::from(*q));
        opening.find(|q| tells.contains(q)).or_else(|| tells.first().copied())
    }

    /// The same for looks that somebody chose.
    #[must_use]
    pub fn talk_of(&self, piece: &Handed, looks: &[usize]) -> Vec<Turn> {
        let mut turns = Vec::new();
        let mut answers = Vec::new();
        for look in looks {
            let told = piece.answers(self.guide, &[*look], true);
            if !told.is_empty() {
                answers.extend(told);
                turns.push(self.turn(piece, &answers));
            }
        }
        turns
    }

    /// What stands after the last of some answers.
    fn turn(&self, piece: &Handed, answers: &[Answer]) -> Turn {
        let core = &self.guide.core;
        let question = answers.last().map_or(0, |a| a.question);
        let before = self.kinds(&weigh(&self.guide.model, 0, &answers[..answers.len().saturating_sub(1)]));
        let after = self.kinds(&weigh(&self.guide.model, 0, answers));
        let order = descending(&after);
        let name = |k: usize| inside(&core.kinds[k].name);
        let remains: Vec<usize> =
            order.iter().copied().filter(|k| after[*k] >= REMAINS).take(NAMED).collect();
        let q = &core.questions[question];
        let clue = piece.truth[question].map_or("", |c| q.choices[c].clue.as_str());
        let part = inside(&core.parts[usize::from(q.part)].name);
        let first = order.first().copied().unwrap_or(0);
        let mut says = match remains.as_slice() {
            [] => format!("After {}, no kind stands out yet.", the(&part)),
            [one] => format!("After {}, one remains, because {}: {}.", the(&part), inside(clue), name(*one)),
            more => {
                // Names of kinds have commas of their own.
                let names: Vec<String> = more.iter().map(|k| name(*k)).collect();
                format!("After {}, these remain, because {}: {}.", the(&part), inside(clue), names.join("; "))
            }
        };
        // What went out most, and how strong the look was against it.
        let gone = (0..after.len())
            .filter(|k| before[*k] >= REMAINS && after[*k] < before[*k] / 2.0 && after[*k] < REMAINS);
        if let Some(gone) =
            gone.reduce(|a, b| if before[b] > before[a] { b } else { a }).filter(|g| *g != first)
        {
            let by = log10_odds(after[first], after[gone]) - log10_odds(before[first], before[gone]);
            let falls = if after[gone] < OUT { "is out" } else { "falls back" };
            says.push_str(&format!(
                " {} {falls}: the clue against it is {}.",
                crate::words::capital(&name(gone)),
                strength(by)
            ));
        }
        Turn {
            question,
            ask: q.ask.clone(),
            seen: clue.to_string(),
            mark: self.sight.marked(self.guide, piece, question),
            remains: remains.iter().map(|k| (core.kinds[*k].name.clone(), chance(after[*k]))).collect(),
            says,
        }
    }

    /// Shares of the kinds, given that the piece is in this guide.
    fn kinds(&self, posterior: &Posterior) -> Vec<f64> {
        let mut kinds = posterior.kinds(&self.guide.model);
        for (share, kind) in kinds.iter_mut().zip(&self.guide.core.kinds) {
            if kind.standing == Standing::Unknown {
                *share = 0.0;
            }
        }
        let all: f64 = kinds.iter().sum();
        kinds.iter_mut().for_each(|k| *k /= all.max(1e-300));
        kinds
    }

    /// The first kind and its share.
    pub(crate) fn first(&self, posterior: &Posterior) -> (usize, f64) {
        let kinds = self.kinds(posterior);
        let first = crate::sight::top(&kinds);
        (first, kinds.get(first).copied().unwrap_or(0.0))
    }
}

/// A part with its article; one that has it keeps it.
fn the(part: &str) -> String {
    if part.starts_with("the ") { part.to_string() } else { format!("the {part}") }
}
