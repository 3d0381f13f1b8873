//! What prices are reckoned with, as it travels: an index of prices, factors of condition, meanings of value, steps of
//! bids. A file of its own beside a pack, with its own half letter; sales travel in another, a ledger.

mod check;
mod ledger;

use crate::codec::{Bytes, Wire, fields, places};
use crate::frame::{Fault, frame, unframe};
use crate::wire::Source;
use alloc::string::String;
use alloc::vec::Vec;
use units::{Basis, Currency, Year};

pub use check::check_prices;
pub use ledger::{Date, LARGEST_LEDGER, Ledger, Of, Sale, Sort, check_ledger, read_ledger, write_ledger};

/// The largest file of this sort that is read, in bytes.
pub const LARGEST_PRICES: usize = 1 << 18;

/// Everything that prices are reckoned with, but for the prices.
#[derive(Debug, Clone, PartialEq)]
pub struct Prices {
    /// ISO date of the edition.
    pub edition: String,
    /// SPDX expression.
    pub licence: String,
    /// Sources that the rest refers to.
    pub sources: Vec<Source>,
    /// How much sales move a band.
    pub update: Update,
    /// How far condition may move a price.
    pub cap: Cap,
    /// What a bidder keeps back.
    pub limit: Limit,
    /// How general prices moved, one table a currency.
    pub indices: Vec<Index>,
    /// Faults and merits.
    pub conditions: Vec<Condition>,
    /// What a figure may mean.
    pub meanings: Vec<Definition>,
    /// By how much bids rise.
    pub steps: Vec<Step>,
}

/// How much sales move a band.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Update {
    /// The band of a pack counts like so many sales, for its middle.
    pub sales: u16,
    /// The same for its width, as degrees of freedom.
    pub freedom: u16,
    /// Prices of a family rise or fall against all prices: the standard deviation of that, in thousandths of the natural
    /// logarithm a year.
    pub drift: u16,
    /// How far a kind strays from its family, in the same unit.
    pub apart: u16,
    /// Years in which a sale comes to count half.
    pub halves: u16,
    /// What all this rests on.
    pub basis: Basis,
}

/// Bounds of the product of all factors of condition, per mille.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cap {
    /// Least.
    pub low: u16,
    /// Greatest.
    pub high: u16,
    /// What they rest on.
    pub basis: Basis,
}

/// What a bidder keeps back or adds, per mille.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limit {
    /// Kept back for what cannot be seen.
    pub margin: u16,
    /// What a piece is worth to a collection that lacks it, 1000 for no more than to others.
    pub gap: u16,
    /// What they rest on.
    pub basis: Basis,
}

/// Yearly averages of general prices in one currency. Money of other currencies is never turned into this one.
#[derive(Debug, Clone, PartialEq)]
pub struct Index {
    /// The currency.
    pub currency: Currency,
    /// As shown.
    pub name: String,
    /// The year of the first value.
    pub first: Year,
    /// One a year, in thousandths, above zero.
    pub values: Vec<u32>,
    /// What they rest on.
    pub basis: Basis,
    /// Index into the sources.
    pub source: Option<u16>,
}

/// A fault or a merit, and what it does to a price. The range is read as all ranges of worth: its middle half.
#[derive(Debug, Clone, PartialEq)]
pub struct Condition {
    /// As in the data files.
    pub id: String,
    /// As shown.
    pub name: String,
    /// The part it concerns, as the packs name it.
    pub part: String,
    /// A quarter of such pieces lose more, or gain less: per mille of a sound one.
    pub low: u16,
    /// Half.
    pub mid: u16,
    /// A quarter lose less, or gain more.
    pub high: u16,
    /// Indices of conditions that cannot hold beside it; each names the other.
    pub without: Vec<u16>,
    /// What it is and why it counts.
    pub says: String,
    /// What to draw, in the words of the sketches; may be empty.
    pub draw: String,
    /// Ids of the cautions of a pack that it calls for, parted by spaces.
    pub care: String,
    /// What the factors rest on.
    pub basis: Basis,
    /// Index into the sources.
    pub source: Option<u16>,
}

/// What a figure in money may mean.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Meaning {
    /// Between a willing buyer and a willing seller.
    FairMarket,
    /// What another like it would cost, soon and in a shop.
    Replacement,
    /// A sale that had to be.
    Forced,
    /// The middle half at which typical sound pieces sell: what a pack gives.
    Typical,
    /// The bid at which a lot fell, nothing added.
    Hammer,
    /// All that a buyer gave for the piece itself, the premium with it, without tax and carriage.
    Paid,
    /// What a seller hopes for.
    Asking,
    /// The most that one bidder is ready to spend.
    Limit,
}

impl Meaning {
    /// All of them.
    pub const ALL: [Meaning; 8] = [
        Meaning::FairMarket,
        Meaning::Replacement,
        Meaning::Forced,
        Meaning::Typical,
        Meaning::Hammer,
        Meaning::Paid,
        Meaning::Asking,
        Meaning::Limit,
    ];
}

/// A meaning in words.
#[derive(Debug, Clone, PartialEq)]
pub struct Definition {
    /// Which.
    pub meaning: Meaning,
    /// As shown.
    pub name: String,
    /// What it is.
    pub says: String,
    /// What the definition rests on.
    pub basis: Basis,
    /// Index into the sources.
    pub source: Option<u16>,
}

/// From an amount on, bids rise by as much. Minor units.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Step {
    /// From here on.
    pub from: i64,
    /// By so much.
    pub by: i64,
    /// What it rests on.
    pub basis: Basis,
}

fields! {
    Prices { edition, licence, sources, update, cap, limit, indices, conditions, meanings, steps }
    Update { sales, freedom, drift, apart, halves, basis }
    Cap { low, high, basis }
    Limit { margin, gap, basis }
    Index { currency, name, first, values, basis, source }
    Condition { id, name, part, low, mid, high, without, says, draw, care, basis, source }
    Definition { meaning, name, says, basis, source }
    Step { from, by, basis }
}
places! {
    Meaning: FairMarket Replacement Forced Typical Hammer Paid Asking Limit;
}

/// Bytes of the tables.
///
/// # Errors
/// When they are not sound; a compiler that collects its own faults never meets this.
pub fn write_prices(prices: &Prices) -> Result<Vec<u8>, Fault> {
    check_prices(prices)?;
    let bytes = frame(b'p', prices);
    // What its own reader would refuse for a text is not written.
    unframe::<Prices>(b'p', &bytes, LARGEST_PRICES)?;
    Ok(bytes)
}

/// Reads tables, trusting nothing.
///
/// # Errors
/// A sentence that says what is wrong with the bytes.
pub fn read_prices(bytes: &[u8]) -> Result<Prices, Fault> {
    let prices: Prices = unframe(b'p', bytes, LARGEST_PRICES)?;
    check_prices(&prices)?;
    Ok(prices)
}
