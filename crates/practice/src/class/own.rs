//! A lesson from the teacher's own pieces: each has a number and lies on the table, the answers come from its record. The
//! running finding stays hidden until it is wanted.

use crate::pieces::Handed;
use crate::talk::Turn;
use crate::task::{Offer, Trainer};
use crate::words::counted;
use consult::{State, What, from_text, read_fragment};
use pack::Form;

/// A piece of the teacher's.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Own {
    /// As it stands on its label.
    pub number: String,
    /// What is told of it in its record.
    pub piece: Handed,
    /// Whether the record says what kind it is; the kind of the piece is else the one that its answers find.
    pub named: bool,
    /// The looks whose answer is known for certain, in the order of the pack.
    pub looks: Vec<usize>,
}

/// One question put to the class.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Round {
    /// "No. 12: do the holes go right through?"
    pub ask: String,
    /// How to look.
    pub hint: String,
    /// The answers.
    pub offers: Vec<Offer>,
    /// Index of the right one.
    pub right: usize,
}

/// Votes of a class for the answers of a round.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Tally(pub Vec<u32>);

impl Tally {
    /// One vote more, or one less, for an answer.
    pub fn vote(&mut self, answer: usize, more: bool) {
        if self.0.len() <= answer && answer < 64 {
            self.0.resize(answer + 1, 0);
        }
        if let Some(votes) = self.0.get_mut(answer) {
            *votes = if more { votes.saturating_add(1) } else { votes.saturating_sub(1) };
        }
    }

    /// In sentences: how many saw it, and what most of the others saw.
    #[must_use]
    pub fn says(&self, round: &Round) -> String {
        let all: u32 = self.0.iter().sum();
        if all == 0 {
            return "Nobody has voted yet.".to_string();
        }
        let of = |at: usize| self.0.get(at).copied().unwrap_or(0);
        let right = of(round.right);
        let votes = counted(all as usize, "vote", "votes");
        let mut says = format!("{right} of {votes} for \u{201c}{}\u{201d}.", label(round, round.right));
        let wrong = (0..round.offers.len()).filter(|a| *a != round.right && of(*a) > 0);
        if let Some(most) = wrong.reduce(|a, b| if of(b) > of(a) { b } else { a }) {
            says.push_str(&format!(
                " Most of the others: \u{201c}{}\u{201d}, {}.",
                label(round, most),
                of(most)
            ));
        }
        says
    }
}

fn label(round: &Round, at: usize) -> &str {
    round.offers.get(at).map_or("", |o| o.label.as_str())
}

impl Trainer<'_> {
    /// A piece of the teacher's from its record: number, answers one a line, and the id of its kind where the record says it.
    ///
    /// # Errors
    /// Sentences, with the number of the piece and of the line.
    pub fn own(&self, number: &str, answers: &str, kind: Option<&str>) -> Result<Own, Vec<String>> {
        let of = |says: String| format!("No. {number}: {says}");
        let state =
            from_text(self.guide, answers).map_err(|all| all.into_iter().map(of).collect::<Vec<_>>())?;
        let at = |id: &str| {
            let at = self.guide.core.kinds.iter().position(|k| k.id == id);
            at.ok_or_else(|| vec![of(format!("There is no kind \u{201c}{id}\u{201d} in this guide."))])
        };
        let kind = kind.map(at).transpose()?;
        self.told(number, &state, kind).map_err(|says| vec![of(says)])
    }

    /// The same from a record of the cabinet: its number, its answers as a link, the name of its kind as it stands there.
    ///
    /// # Errors
    /// A sentence.
    pub fn kept(&self, number: &str, link: &str, kind: &str) -> Result<Own, String> {
        let state = read_fragment(self.guide, &State::default(), link)?;
        // What the record calls it may be in other words than the guide's: then its answers say what it is.
        let kind = self.guide.core.kinds.iter().position(|k| k.name == kind || k.short == kind);
        self.told(number, &state, kind)
    }

    fn told(&self, number: &str, state: &State, named: Option<usize>) -> Result<Own, String> {
        let core = &self.guide.core;
        let mut truth = vec![None; core.questions.len()];
        let mut mm = None;
        for given in state.given.iter().filter(|g| g.sure) {
            let q = &core.questions[given.question];
            truth[given.question] = match &given.what {
                What::OneOf(set) if set.len() == 1 => set.first().copied(),
                What::Length(length, _) if q.form == Form::Length => {
                    let tenths = (length.mm() * 10.0 + 0.5) as u32;
                    mm = Some(tenths / 10);
                    Some(q.choices.iter().filter(|c| c.upper.is_some_and(|u| u < tenths)).count())
                }
                _ => None,
            };
        }
        let mut piece = Handed { seed: 0, kind: 0, make: 0, candidate: 0, truth, mm };
        let looks = piece.looks();
        if looks.is_empty() {
            return Err("Nothing certain is told of it. Answer a few looks first.".to_string());
        }
        let found = reason::weigh(&self.guide.model, 0, &piece.answers(self.guide, &looks, true));
        piece.kind = named.unwrap_or_else(|| self.first(&found).0);
        let best = |a: usize, b: usize| if found.p[b] > found.p[a] { b } else { a };
        let own = (0..core.candidates.len()).filter(|c| usize::from(core.candidates[*c].kind) == piece.kind);
        piece.candidate = own.reduce(best).unwrap_or(0);
        piece.make = core.candidates.get(piece.candidate).map_or(0, |c| usize::from(c.make));
        Ok(Own { number: number.to_string(), named: named.is_some(), looks, piece })
    }

    /// A look at an own piece, put to the class: all choices of the question, in the order of the pack.
    #[must_use]
    pub fn round(&self, own: &Own, look: usize) -> Option<Round> {
        let q = self.guide.core.questions.get(look)?;
        let right = own.piece.truth.get(look).copied().flatten()?;
        let offers = q.choices.iter().enumerate().map(|(i, c)| Offer { label: c.label.clone(), stands: i });
        Some(Round {
            ask: format!("No. {}: {}", own.number, crate::words::inside(&q.ask)),
            hint: q.look.clone(),
            offers: offers.collect(),
            right,
        })
    }

    /// The running finding of an own piece after these looks; for when it is wanted.
    #[must_use]
    pub fn running(&self, own: &Own, looks: &[usize]) -> Option<Turn> {
        self.talk_of(&own.piece, looks).pop()
    }
}
