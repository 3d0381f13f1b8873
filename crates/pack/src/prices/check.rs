//! What must hold in the tables before anybody reckons with them: counts, indices, order, and amounts that no product can
//! carry out of range.

use super::{Condition, Index, Meaning, Prices};
use crate::check::{count, must};
use crate::frame::Fault;

const MOST_ROWS: usize = 400;
/// The most that any amount in minor units may be: ten thousand million units of a currency.
pub(super) const MOST_MINOR: i64 = 1_000_000_000_000;

/// Checks the tables.
///
/// # Errors
/// A sentence about the first thing that does not hold.
pub fn check_prices(p: &Prices) -> Result<(), Fault> {
    count("sources", p.sources.len(), 0, MOST_ROWS)?;
    let cited = |source: Option<u16>| source.is_none_or(|s| usize::from(s) < p.sources.len());
    let u = &p.update;
    must((1..=100).contains(&u.sales) && (1..=100).contains(&u.freedom), "how much a band counts")?;
    must(
        (1..=500).contains(&u.drift) && u.apart <= 500 && (1..=200).contains(&u.halves),
        "the drift of prices",
    )?;
    must((1..=1000).contains(&p.cap.low) && (1000..=20_000).contains(&p.cap.high), "the cap of conditions")?;
    must(p.limit.margin < 1000 && (1000..=5000).contains(&p.limit.gap), "what a bidder keeps back")?;
    count("indices of prices", p.indices.len(), 0, 40)?;
    for (at, i) in p.indices.iter().enumerate() {
        index(i)?;
        must(cited(i.source), "the source of an index")?;
        must(p.indices.iter().take(at).all(|other| other.currency != i.currency), "the index of a currency")?;
    }
    count("conditions", p.conditions.len(), 0, MOST_ROWS)?;
    for (at, c) in p.conditions.iter().enumerate() {
        condition(c, at, &p.conditions)?;
        must(cited(c.source), "the source of a condition")?;
    }
    count("meanings of value", p.meanings.len(), Meaning::ALL.len(), Meaning::ALL.len())?;
    for meaning in Meaning::ALL {
        must(p.meanings.iter().filter(|d| d.meaning == meaning).count() == 1, "a meaning of value")?;
    }
    must(p.meanings.iter().all(|d| cited(d.source) && !d.says.is_empty()), "a meaning of value")?;
    count("steps of bids", p.steps.len(), 1, 100)?;
    must(p.steps.first().is_some_and(|s| s.from == 0), "the first step of bids")?;
    must(p.steps.iter().all(|s| s.by > 0 && s.from <= MOST_MINOR && s.by <= MOST_MINOR), "a step of bids")?;
    // Every rung is reached by the steps below it.
    must(
        p.steps.windows(2).all(|w| w[0].from < w[1].from && (w[1].from - w[0].from) % w[0].by == 0),
        "the order of bids",
    )
}

fn index(i: &Index) -> Result<(), Fault> {
    count("years of an index", i.values.len(), 1, MOST_ROWS)?;
    must(i.currency.is_sound() && (1600..=2200).contains(&i.first), "the years of an index")?;
    must(i.values.iter().all(|v| (1..100_000_000).contains(v)), "a value of an index")
}

fn condition(c: &Condition, at: usize, all: &[Condition]) -> Result<(), Fault> {
    let ordered = 0 < c.low && c.low <= c.mid && c.mid <= c.high && c.high <= 20_000;
    must(ordered && !c.id.is_empty(), "the factors of a condition")?;
    let mutual = |other: &u16| {
        let other = all.get(usize::from(*other)).filter(|_| usize::from(*other) != at);
        other.is_some_and(|o| o.without.iter().any(|w| usize::from(*w) == at))
    };
    must(c.without.len() <= MOST_ROWS && c.without.iter().all(mutual), "what a condition rules out")
}
