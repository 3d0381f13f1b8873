//! Tasks: a piece, a question, a few answers of which one is right. The grade follows from the answer.

mod feedback;
mod look;
mod name;
mod next;
mod old;
mod options;
mod proof;

pub use feedback::{Beside, Feedback};

use crate::item::Item;
use crate::pieces::{Handed, Maker, lookalikes, mean_tables};
use crate::sight::{Sight, View};
use crate::trial::Tried;
use consult::Guide;
use reason::{Answer, Posterior, Random, log10_odds, weigh};
use std::cell::RefCell;

/// So many pieces are drawn at most until one makes a fair task. Basis: practice.
const TRIES: u64 = 24;
/// So many answers are offered at most.
const OPTIONS: usize = 4;

/// Sorts of task.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sort {
    /// One look at one feature.
    Look,
    /// What kind it is, out of look-alikes.
    Name,
    /// Which of two look-alikes it is.
    Pair,
    /// Old or later.
    Old,
    /// Which look parts two kinds best.
    Next,
    /// What a mark may prove.
    Proof,
}

/// An answer that can be given.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Offer {
    /// On the key.
    pub label: String,
    /// What it stands for: index of a choice, a kind, a question; 0 for old, 1 for later.
    pub stands: usize,
}

/// A task.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Task {
    /// What sort it is.
    pub sort: Sort,
    /// What it practises.
    pub item: Item,
    /// What it was drawn from.
    pub seed: u64,
    /// What is asked.
    pub ask: String,
    /// How to look, or what is known so far; may be empty.
    pub hint: String,
    /// The piece, where there is one.
    pub piece: Option<Handed>,
    /// What can be seen of it. What it says does not give the answer away.
    pub views: Vec<View>,
    /// By view all that can be seen, for those who go by the words and not by the drawing.
    pub spoken: Vec<String>,
    /// The answers, one of them right; no two read the same.
    pub offers: Vec<Offer>,
    /// Index of the right one.
    pub right: usize,
    /// Whether the words alone are enough to answer it.
    pub by_words: bool,
    /// Index of what it is about: a question, else the kind.
    pub about: usize,
}

/// Makes tasks about a pack.
#[derive(Debug)]
pub struct Trainer<'a> {
    pub(crate) guide: &'a Guide,
    pub(crate) sight: &'a Sight,
    pub(crate) maker: Maker<'a>,
    /// By kind what it could be taken for.
    pub(crate) alike: Vec<Vec<usize>>,
    /// By kind and question what its pieces show.
    pub(crate) tables: Vec<Vec<Vec<f64>>>,
    prior: Posterior,
    /// The kinds of the tests of twelve, as far as they were asked for.
    pub(crate) tried: RefCell<Tried>,
}

impl<'a> Trainer<'a> {
    /// Prepares a guide. `sight` must be of the same guide.
    #[must_use]
    pub fn new(guide: &'a Guide, sight: &'a Sight) -> Trainer<'a> {
        Trainer {
            guide,
            sight,
            maker: Maker::new(guide, sight),
            alike: lookalikes(guide, 6),
            tables: mean_tables(guide),
            prior: weigh(&guide.model, 0, &[]),
            tried: RefCell::default(),
        }
    }

    /// What hands out the pieces.
    #[must_use]
    pub fn maker(&self) -> &Maker<'a> {
        &self.maker
    }

    /// By kind what it could be taken for, the likeliest first.
    #[must_use]
    pub fn lookalikes(&self, kind: usize) -> &[usize] {
        &self.alike[kind]
    }

    /// A task of a sort about an item, with pieces of these kinds only; none where the pack has nothing to ask there.
    #[must_use]
    pub fn task(&self, sort: Sort, item: Item, kinds: &[usize], seed: u64) -> Option<Task> {
        let kind = |code: u16| self.guide.core.kinds.iter().position(|k| k.code == code);
        match (sort, item) {
            (Sort::Look, Item::Look(code)) => {
                let question = self.guide.core.questions.iter().position(|q| q.code == code)?;
                self.look(item, question, kinds, seed)
            }
            (Sort::Name, Item::Kind(code)) => self.name(item, kind(code)?, seed),
            (Sort::Pair, Item::Pair(a, b)) => self.pair(item, (kind(a)?, kind(b)?), seed),
            (Sort::Next, Item::Pair(a, b)) => self.next(item, (kind(a)?, kind(b)?), seed),
            (Sort::Old, Item::Make(code)) => self.old(item, kind(code)?, seed),
            (Sort::Proof, Item::Proof(code)) => self.proof(item, code, seed),
            _ => None,
        }
    }

    /// The kinds' shares when these answers are told, each as common as any other beforehand.
    pub(crate) fn shares(&self, answers: &[Answer], kinds: &[usize]) -> Vec<f64> {
        let (after, before) = (
            weigh(&self.guide.model, 0, answers).kinds(&self.guide.model),
            self.prior.kinds(&self.guide.model),
        );
        let odds: Vec<f64> = kinds.iter().map(|k| after[*k] / before[*k].max(1e-300)).collect();
        let all: f64 = odds.iter().sum();
        odds.iter().map(|o| o / all.max(1e-300)).collect()
    }

    /// The strength of some answers between two kinds: log10 of the odds with them over those without.
    pub(crate) fn strength(&self, answers: &[Answer], one: usize, other: usize) -> f64 {
        let shares = self.shares(answers, &[one, other]);
        log10_odds(shares[0], shares[1])
    }

    /// The same between period and later pieces of one kind.
    pub(crate) fn strength_old(&self, answers: &[Answer], kind: usize) -> f64 {
        let side = |posterior: &Posterior, period: bool| -> f64 {
            let of = self.guide.core.candidates.iter().zip(&posterior.p);
            of.filter(|(c, _)| usize::from(c.kind) == kind && (c.make == 0) == period).map(|(_, p)| p).sum()
        };
        let after = weigh(&self.guide.model, 0, answers);
        log10_odds(side(&after, true), side(&after, false))
            - log10_odds(side(&self.prior, true), side(&self.prior, false))
    }

    /// The views that answer these questions, each once.
    pub(crate) fn views_of(&self, all: &[View], looks: &[usize]) -> Vec<View> {
        let mut views: Vec<View> = Vec::new();
        for view in looks.iter().filter_map(|q| all.iter().find(|v| v.looks.contains(q))) {
            if !views.contains(view) {
                views.push(view.clone());
            }
        }
        views
    }
}

/// The numbers of a try.
pub(crate) fn seeded(seed: u64, at: u64) -> u64 {
    let mut random = Random::seeded(seed ^ 0x5ee0_1e42_u64.wrapping_mul(at + 1));
    random.bits()
}
