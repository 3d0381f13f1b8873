//! What a period piece and a later one are worth, in money of one year, after the sales that the user noted.

use crate::bands::{Bands, plain};
use crate::finding::Facts;
use crate::guide::Guide;
use appraise::{
    Band, Comparable, Drift, Figure, Hopes, Market, Of, Pool, Ratio, Suggested, factor, suggest, worn,
};
use pack::prices::{Limit, Meaning, Prices};
use pack::{Candidate, Worth};
use units::{Basis, Currency, Money};

/// What a limit may be reckoned from.
pub(crate) struct Worths {
    pub(crate) right: Figure,
    pub(crate) copy: Option<Figure>,
    /// Of a thousand such pieces so many are later.
    pub(crate) later: u16,
}

/// The market of a currency: results of public sales.
pub(crate) fn market<'a>(guide: &Guide, prices: &'a Prices, currency: Currency) -> Market<'a> {
    Market { prices, this_year: guide.this_year, currency, pool: Pool::Sold }
}

/// From money of a year to that of the figures; none for years before the index.
pub(crate) fn ratio(market: &Market<'_>, from: i16) -> Option<Ratio> {
    let index = market.prices.indices.iter().find(|i| i.currency == market.currency);
    index.map_or(Some(Ratio::ONE), |i| factor(i, from, market.money_year()))
}

/// The currency of the guide's figures: that of the first of them.
pub(crate) fn currency(guide: &Guide, prices: &Prices) -> Option<Currency> {
    let facts = guide.core.kinds.iter().flat_map(|k| k.makes.iter().flatten());
    let first = facts.filter_map(|f| f.worth.as_ref()).map(|w| w.low.currency).next();
    first.or(prices.indices.first().map(|i| i.currency))
}

/// The band of a candidate in the money of the figures, moved by the sales that were noted of its kind and make.
pub(super) fn moved(market: &Market<'_>, c: &Candidate, worth: &Worth, noted: &[Comparable]) -> Option<Band> {
    let of = Of { kind: c.kind, make: c.make, family: c.kind };
    if noted.iter().any(|s| (s.of.kind, s.of.make) == (of.kind, of.make)) {
        return Some(market.estimate(of, worth, Drift::unknown(market.prices), noted)?.band);
    }
    Some(plain(worth).at(ratio(market, worth.year)?))
}

/// The middle of what such pieces sell for, period and later apart.
pub(crate) fn worths(
    guide: &Guide,
    facts: &Facts,
    market: &Market<'_>,
    noted: &[Comparable],
) -> Option<Worths> {
    let figure = |later: bool| {
        let side = |c: &Candidate| (c.make != 0) == later;
        let band = |c: &Candidate, worth: &Worth| moved(market, c, worth, noted);
        let bands = Bands::of(guide, facts, Some(market.currency), &side, &band)?;
        Some(Figure {
            money: Money { minor: bands.mixture.quantile(0.5), currency: market.currency },
            year: market.money_year(),
            // What the odds rest on is never more than memory of the field.
            basis: bands.basis.max(Basis::Memory),
            meaning: Meaning::Typical,
        })
    };
    let known = guide.core.candidates.iter().zip(&facts.posterior.p);
    let known = known.filter(|(c, _)| usize::from(c.kind) != guide.unknown());
    let (later, all) =
        known.fold((0.0, 0.0), |(later, all), (c, p)| (later + if c.make == 0 { 0.0 } else { *p }, all + p));
    Some(Worths {
        right: figure(false)?,
        copy: figure(true),
        later: libm::round(later / all.max(1e-12) * 1000.0) as u16,
    })
}

/// The suggested limit of the piece.
pub(crate) fn suggested(
    guide: &Guide,
    facts: &Facts,
    market: &Market<'_>,
    noted: &[Comparable],
    held: &[u16],
    margin: u16,
    gap: bool,
) -> Option<(Worths, Suggested)> {
    let worths = worths(guide, facts, market, noted)?;
    let prices = market.prices;
    let condition = worn(prices, held).ok()?.per_mille();
    let rests = held.iter().filter_map(|at| prices.conditions.get(usize::from(*at))).map(|c| c.basis);
    let hopes = Hopes {
        right: worths.right,
        // What nobody has a figure for counts as nothing.
        copy: worths.copy.unwrap_or(worths.right.with(0)),
        chance: worths.later,
        condition,
        basis: rests.fold(Basis::Memory, Ord::max),
        repair: 0,
        keeps: Limit { margin, ..prices.limit },
        gap,
    };
    let suggested = suggest(&hopes)?;
    Some((worths, suggested))
}
