//! A ledger: sales that somebody noted, each with what it rests on. It names kinds of one pack by their ids.

use super::check::MOST_MINOR;
use crate::check::{count, must};
use crate::codec::{Bytes, Wire, fields, places};
use crate::frame::{Fault, frame, unframe};
use crate::wire::Source;
use alloc::string::String;
use alloc::vec::Vec;
use units::{Basis, Money, Year};

/// The largest ledger that is read, in bytes.
pub const LARGEST_LEDGER: usize = 1 << 20;

const MOST_SALES: usize = 20_000;
const MOST_NAMED: usize = 2_000;

/// Sales, and what they refer to.
#[derive(Debug, Clone, PartialEq)]
pub struct Ledger {
    /// Short lower-case id.
    pub id: String,
    /// As shown.
    pub name: String,
    /// ISO date of the edition.
    pub edition: String,
    /// SPDX expression.
    pub licence: String,
    /// One sentence that must stand wherever its figures do, or empty. Never empty when a row is invented.
    pub notice: String,
    /// The id of the pack whose kinds it names.
    pub pack: String,
    /// Sources that rows refer to.
    pub sources: Vec<Source>,
    /// Kinds and makes that were sold.
    pub of: Vec<Of>,
    /// Conditions that rows name, by id.
    pub conditions: Vec<String>,
    /// The sales, oldest first.
    pub sales: Vec<Sale>,
}

/// A kind and a make of the pack.
#[derive(Debug, Clone, PartialEq)]
pub struct Of {
    /// The id of the kind.
    pub kind: String,
    /// The id of the make.
    pub make: String,
    /// Kinds of one number are of one family: their prices rise and fall together.
    pub family: u16,
}

/// A price that was seen.
#[derive(Debug, Clone, PartialEq)]
pub struct Sale {
    /// When.
    pub date: Date,
    /// The price.
    pub price: Money,
    /// Per mille that came on top of it; none when the price is all that was given.
    pub premium: Option<u16>,
    /// What sort of price it is.
    pub sort: Sort,
    /// Index into `of`.
    pub of: u16,
    /// Indices into the ledger's conditions.
    pub condition: Vec<u16>,
    /// How like the typical piece of its kind, per mille.
    pub likeness: u16,
    /// A remark; may be empty.
    pub note: String,
    /// What it rests on.
    pub basis: Basis,
    /// Index into the sources.
    pub source: Option<u16>,
}

/// A day; month and day are zero when only the year is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date {
    /// The year.
    pub year: Year,
    /// From 1 for January.
    pub month: u8,
    /// From 1.
    pub day: u8,
}

/// Prices of different sorts are never pooled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sort {
    /// A result of a public sale, a bid that was accepted.
    Sold,
    /// What the one who noted it gave, from hand to hand or in a shop.
    Paid,
    /// What a seller asked.
    Asking,
}

fields! {
    Ledger { id, name, edition, licence, notice, pack, sources, of, conditions, sales }
    Of { kind, make, family }
    Sale { date, price, premium, sort, of, condition, likeness, note, basis, source }
    Date { year, month, day }
}
places! {
    Sort: Sold Paid Asking;
}

/// Checks a ledger against nothing but itself.
///
/// # Errors
/// A sentence about the first thing that does not hold.
pub fn check_ledger(l: &Ledger) -> Result<(), Fault> {
    for (what, len) in
        [("sources", l.sources.len()), ("kinds", l.of.len()), ("conditions", l.conditions.len())]
    {
        count(what, len, 0, MOST_NAMED)?;
    }
    count("sales", l.sales.len(), 0, MOST_SALES)?;
    for s in &l.sales {
        must(s.date.is_sound(), "the date of a sale")?;
        must(
            0 < s.price.minor && s.price.minor < MOST_MINOR && s.price.currency.is_sound(),
            "the price of a sale",
        )?;
        must(s.premium.is_none_or(|p| p <= 1000) && s.likeness <= 1000, "the premium or likeness of a sale")?;
        must(usize::from(s.of) < l.of.len(), "the kind of a sale")?;
        must(s.condition.len() <= 20, "the condition of a sale")?;
        must(s.condition.iter().all(|c| usize::from(*c) < l.conditions.len()), "the condition of a sale")?;
        must(s.source.is_none_or(|c| usize::from(c) < l.sources.len()), "the source of a sale")?;
    }
    let invented = l.sales.iter().any(|s| s.basis == Basis::Invented);
    must(!invented || !l.notice.trim().is_empty(), "the notice of invented sales")?;
    must(l.sales.windows(2).all(|w| w[0].date <= w[1].date), "the order of sales")
}

impl Date {
    /// Whether there may be such a day; how long a month is, is not asked.
    #[must_use]
    pub fn is_sound(self) -> bool {
        let whole = (1..=12).contains(&self.month) && self.day <= 31;
        (1600..=2299).contains(&self.year) && (whole || (self.month, self.day) == (0, 0))
    }
}

/// Bytes of a ledger.
///
/// # Errors
/// When it is not sound; a compiler that collects its own faults never meets this.
pub fn write_ledger(ledger: &Ledger) -> Result<Vec<u8>, Fault> {
    check_ledger(ledger)?;
    let bytes = frame(b'l', ledger);
    unframe::<Ledger>(b'l', &bytes, LARGEST_LEDGER)?;
    Ok(bytes)
}

/// Reads a ledger, trusting nothing.
///
/// # Errors
/// A sentence that says what is wrong with the bytes.
pub fn read_ledger(bytes: &[u8]) -> Result<Ledger, Fault> {
    let ledger: Ledger = unframe(b'l', bytes, LARGEST_LEDGER)?;
    check_ledger(&ledger)?;
    Ok(ledger)
}
