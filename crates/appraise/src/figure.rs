//! A figure in money, with everything that must be said beside it.

use pack::prices::Meaning;
use units::{Basis, Money, Year};

/// An amount that says what it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Figure {
    /// How much, in which currency.
    pub money: Money,
    /// Of which year the money is.
    pub year: Year,
    /// What it rests on: the weakest of all that went into it.
    pub basis: Basis,
    /// What it means.
    pub meaning: Meaning,
}

impl Figure {
    /// The same with another amount.
    #[must_use]
    pub fn with(self, minor: i64) -> Figure {
        Figure { money: Money { minor, ..self.money }, ..self }
    }
}
