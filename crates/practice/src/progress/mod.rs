//! What a learner has practised, and what was taken for what. By permanent codes.

mod boxes;
mod text;

pub use boxes::{Card, DAYS, Day};

use crate::item::Item;
use units::order;

/// What a learner has done.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Progress {
    /// Id of the pack.
    pub pack: String,
    /// Tasks answered in all.
    pub asked: u32,
    /// Where items stand, in their order.
    pub cards: Vec<Card>,
    /// Kinds that were taken for others: what it was, what it was taken for, how often. In their order.
    pub took: Vec<(u16, u16, u32)>,
    /// Codes of the lessons that were gone through.
    pub lessons: Vec<u16>,
    /// Tests of twelve: day, right answers, seed.
    pub trials: Vec<Trial>,
    /// Lines that a later program wrote and this one does not know: kept as they are.
    pub others: Vec<String>,
}

/// A test of twelve pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Trial {
    /// When.
    pub day: Day,
    /// How many were right.
    pub right: u32,
    /// What it was drawn from.
    pub seed: u64,
}

impl Progress {
    /// Nothing practised yet.
    #[must_use]
    pub fn of(pack: &str) -> Progress {
        Progress { pack: pack.to_string(), ..Progress::default() }
    }

    /// Takes an answer in.
    pub fn answer(&mut self, item: Item, right: bool, took: Option<(u16, u16)>, today: Day) {
        self.asked = self.asked.saturating_add(1);
        self.mark(item, right, today);
        if let Some((was, taken)) = took {
            self.take(was, taken, 1);
            // Two kinds that were mixed up are practised as a pair from now on.
            let pair = Item::pair(was, taken);
            if pair != item {
                self.mark(pair, false, today);
            }
        }
    }

    fn mark(&mut self, item: Item, right: bool, today: Day) {
        match self.cards.binary_search_by(|c| c.item.cmp(&item)) {
            Ok(at) => self.cards[at] = self.cards[at].answered(right, today),
            Err(at) => self.cards.insert(at, Card::begun(item, right, today)),
        }
    }

    fn take(&mut self, was: u16, taken: u16, times: u32) {
        match self.took.binary_search_by(|t| (t.0, t.1).cmp(&(was, taken))) {
            Ok(at) => self.took[at].2 = self.took[at].2.saturating_add(times),
            Err(at) => self.took.insert(at, (was, taken, times)),
        }
    }

    /// Where an item stands, if it was ever asked.
    #[must_use]
    pub fn card(&self, item: Item) -> Option<&Card> {
        self.cards.binary_search_by(|c| c.item.cmp(&item)).ok().map(|at| &self.cards[at])
    }

    /// What is to be asked today, the longest overdue first.
    #[must_use]
    pub fn due(&self, today: Day) -> Vec<Item> {
        let due: Vec<&Card> = self.cards.iter().filter(|c| c.is_due(today)).collect();
        order(due.len(), &|a, b| due[a].due.cmp(&due[b].due)).into_iter().map(|i| due[i].item).collect()
    }

    /// Takes in what was practised elsewhere. Of one item the card with more answers stands; of equals the one that asks
    /// sooner. The order of two does not matter, and once more changes nothing.
    #[must_use]
    pub fn merged(&self, other: &Progress) -> Progress {
        let mut all = self.clone();
        all.asked = self.asked.max(other.asked);
        for card in &other.cards {
            match all.cards.binary_search_by(|c| c.item.cmp(&card.item)) {
                Ok(at) => {
                    let told =
                        |c: &Card| (c.right.saturating_add(c.wrong), c.wrong, u32::MAX - c.due, c.stands);
                    if told(card) > told(&all.cards[at]) {
                        all.cards[at] = *card;
                    }
                }
                Err(at) => all.cards.insert(at, *card),
            }
        }
        for (was, taken, times) in &other.took {
            match all.took.binary_search_by(|t| (t.0, t.1).cmp(&(*was, *taken))) {
                Ok(at) => all.took[at].2 = all.took[at].2.max(*times),
                Err(at) => all.took.insert(at, (*was, *taken, *times)),
            }
        }
        for lesson in &other.lessons {
            if let Err(at) = all.lessons.binary_search(lesson) {
                all.lessons.insert(at, *lesson);
            }
        }
        for trial in &other.trials {
            let key = |t: &Trial| (t.day, t.seed, t.right);
            if let Err(at) = all.trials.binary_search_by(|t| key(t).cmp(&key(trial))) {
                all.trials.insert(at, *trial);
            }
        }
        for line in &other.others {
            if let Err(at) = all.others.binary_search(line) {
                all.others.insert(at, line.clone());
            }
        }
        all
    }

    /// Notes a lesson as gone through.
    pub fn learned(&mut self, lesson: u16) {
        if let Err(at) = self.lessons.binary_search(&lesson) {
            self.lessons.insert(at, lesson);
        }
    }

    /// Notes a test of twelve.
    pub fn tried(&mut self, trial: Trial) {
        let key = |t: &Trial| (t.day, t.seed, t.right);
        if let Err(at) = self.trials.binary_search_by(|t| key(t).cmp(&key(&trial))) {
            self.trials.insert(at, trial);
        }
    }
}
