//! What the finding says of the worth of a period piece and of a later one, in money of one year.

use crate::finding::Facts;
use crate::guide::Guide;
use appraise::{Band, Figure, Hopes, Market, Mixture, Pool, Ratio, Suggested, factor, suggest, worn};
use pack::prices::{Limit, Meaning, Prices};
use units::{Basis, Currency, Money};

/// Below this share of pieces with a figure nothing is said, as in the finding. Basis: practice.
const ENOUGH: f64 = 0.5;
/// What a candidate of less than this weight rests on does not lower the basis. Basis: practice.
const COUNTS: f64 = 0.05;

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

/// The middle of what such pieces sell for, period and later apart.
pub(crate) fn worths(guide: &Guide, facts: &Facts, market: &Market<'_>) -> Option<Worths> {
    let mut bands: [Vec<(f64, Band)>; 2] = [Vec::new(), Vec::new()];
    let (mut all, mut known) = ([0.0; 2], [0.0; 2]);
    let mut worst = [Basis::Published; 2];
    for (p, c) in facts.posterior.p.iter().zip(&guide.core.candidates) {
        if usize::from(c.kind) == guide.unknown() {
            continue;
        }
        let side = usize::from(c.make != 0);
        all[side] += p;
        let facts = guide.core.kinds[usize::from(c.kind)].makes[usize::from(c.make)].as_ref();
        let worth = facts.and_then(|f| f.worth.as_ref()).filter(|w| w.low.currency == market.currency);
        let Some((w, ratio)) = worth.and_then(|w| Some((w, ratio(market, w.year)?))) else { continue };
        known[side] += p;
        bands[side].push((*p, Band::of_middle_half(w.low.minor, w.high.minor).at(ratio)));
        if *p >= COUNTS {
            worst[side] = worst[side].max(w.basis);
        }
    }
    let [right, later] = bands;
    let figure = |side: usize, bands: Vec<(f64, Band)>| {
        let mixture = Mixture::new(bands).filter(|_| known[side] >= ENOUGH * all[side])?;
        Some(Figure {
            money: Money { minor: mixture.quantile(0.5), currency: market.currency },
            year: market.money_year(),
            // What the odds rest on is never more than memory of the field.
            basis: worst[side].max(Basis::Memory),
            meaning: Meaning::Typical,
        })
    };
    let share = all[1] / (all[0] + all[1]).max(1e-12);
    Some(Worths {
        right: figure(0, right)?,
        copy: figure(1, later),
        later: libm::round(share * 1000.0) as u16,
    })
}

/// The suggested limit of the piece.
pub(crate) fn suggested(
    guide: &Guide,
    facts: &Facts,
    market: &Market<'_>,
    held: &[u16],
    margin: u16,
    gap: bool,
) -> Option<(Worths, Suggested)> {
    let worths = worths(guide, facts, market)?;
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
