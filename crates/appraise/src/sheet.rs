//! A sheet for the day of a sale: lots with their limits, and what is left to spend.

use crate::round::part;
use crate::sale::{Comparable, Of};
use crate::steps::on_step;
use crate::terms::{Cost, Terms};
use pack::prices::{Date, Prices, Sort, Step};
use units::{Basis, Currency, Money};

/// A sale to go to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    /// When.
    pub date: Date,
    /// The currency of all its amounts.
    pub currency: Currency,
    /// What may be spent on the day, everything included, minor units; nothing for as much as the limits allow.
    pub budget: i64,
    /// The conditions of the house; carriage is for each lot won.
    pub terms: Terms,
    /// The lots, in the order in which they come up.
    pub lots: Vec<Lot>,
}

/// One lot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lot {
    /// What is in it; several for a mixed lot.
    pub parts: Vec<Part>,
    /// What came of it; none as long as it has not come up.
    pub outcome: Option<Outcome>,
}

/// A piece in a lot.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// What it is held to be; none when nobody knows.
    pub of: Option<Of>,
    /// Its faults and merits, as indices into those of the tables.
    pub condition: Vec<u16>,
    /// The most to spend on it, everything included, minor units; nothing added yet for a gap.
    pub limit: i64,
    /// Whether the collection lacks it.
    pub gap: bool,
}

/// What came of a lot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// Won at this hammer price.
    Won(i64),
    /// It went to another bidder at this hammer price.
    Lost(i64),
    /// It was not sold, or nobody noted it.
    Passed,
}

impl Sheet {
    /// The most to spend on a lot, whatever else was won: the sum of its parts, each raised when the collection lacks it.
    #[must_use]
    pub fn limit(&self, lot: usize, prices: &Prices) -> i64 {
        let gap = u64::from(prices.limit.gap.max(1000));
        let one = |p: &Part| part(p.limit.max(0), if p.gap { gap } else { 1000 }, 1000);
        self.lots.get(lot).map_or(0, |l| l.parts.iter().map(one).fold(0, i64::saturating_add))
    }

    /// What the lots that were won have cost.
    #[must_use]
    pub fn spent(&self) -> i64 {
        let cost = |l: &Lot| match l.outcome {
            Some(Outcome::Won(hammer)) => self.terms.cost(hammer).total,
            _ => 0,
        };
        self.lots.iter().map(cost).fold(0, i64::saturating_add)
    }

    /// What is left of the budget; below nothing when more was spent, none where there is no budget.
    #[must_use]
    pub fn left(&self) -> Option<i64> {
        (self.budget > 0).then(|| self.budget.saturating_sub(self.spent()))
    }

    /// The highest bid for a lot that has not come up, on the steps of the room: within its limit and within what is left.
    /// None when no bid is.
    #[must_use]
    pub fn bid(&self, lot: usize, prices: &Prices, steps: &[Step]) -> Option<Cost> {
        self.lots.get(lot).filter(|l| l.outcome.is_none())?;
        let most = self.terms.most(self.limit(lot, prices).min(self.left().unwrap_or(i64::MAX)))?;
        Some(on_step(steps, most)).filter(|bid| *bid > 0).map(|bid| self.terms.cost(bid))
    }

    /// What a lot that fell says about prices: who got it does not matter. The price of a mixed lot says nothing about one
    /// of its parts, and a piece that nobody knows is like nothing.
    #[must_use]
    pub fn comparable(&self, lot: usize, basis: Basis) -> Option<Comparable> {
        let lot = self.lots.get(lot)?;
        let (Some(Outcome::Won(hammer) | Outcome::Lost(hammer)), [part]) = (lot.outcome, &lot.parts[..])
        else {
            return None;
        };
        Some(Comparable {
            date: self.date,
            price: Money { minor: hammer, currency: self.currency },
            premium: Some(self.terms.premium),
            sort: Sort::Sold,
            of: part.of?,
            condition: part.condition.clone(),
            likeness: 1000,
            basis,
        })
        .filter(|c| c.price.minor > 0)
    }
}
