//! A price that was seen: of what, when, of which sort, with what on top.

use crate::round::part;
use pack::prices::{Date, Sort};
use units::{Basis, Money};

/// What was sold. The numbers are the caller's own: equal ones are the same kind, make, family.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Of {
    /// The kind.
    pub kind: u16,
    /// The make.
    pub make: u16,
    /// Kinds whose prices rise and fall together.
    pub family: u16,
}

/// A price to compare with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Comparable {
    /// When.
    pub date: Date,
    /// The price.
    pub price: Money,
    /// Per mille that came on top of it, as the premium of a sale room does; none when the price is all that was given.
    pub premium: Option<u16>,
    /// What sort of price it is.
    pub sort: Sort,
    /// What was sold.
    pub of: Of,
    /// Its faults and merits, as indices into those of the tables.
    pub condition: Vec<u16>,
    /// How like the piece in question it is, per mille; nothing counts not at all.
    pub likeness: u16,
    /// What it rests on.
    pub basis: Basis,
}

impl Comparable {
    /// All that was given, the premium rounded half up to the minor unit, without tax and carriage.
    #[must_use]
    pub fn paid(&self) -> i64 {
        let on_top = part(self.price.minor, u64::from(self.premium.unwrap_or(0)), 1000);
        self.price.minor.saturating_add(on_top)
    }
}
