//! What pieces such as this one sell for: the bands of all candidates that have one, each as likely as its candidate.

use crate::finding::Facts;
use crate::guide::Guide;
use appraise::{Band, Mixture, round_down, round_up};
use pack::{Candidate, Worth};
use units::{Basis, Currency, Year};

/// Below this share of pieces with a figure nothing is said. Basis: practice.
const ENOUGH: f64 = 0.5;
/// What has less than this part of the whole does not lower the basis. Basis: practice.
const COUNTS: f64 = 0.05;

/// The prices of such pieces.
pub(crate) struct Bands {
    pub(crate) mixture: Mixture,
    pub(crate) currency: Currency,
    /// First and last year of the money in which the guide gives its bands.
    pub(crate) years: (Year, Year),
    /// What the weakest of them rests on.
    pub(crate) basis: Basis,
}

impl Bands {
    /// Of the wanted candidates, in one currency: the given one, or that of the first figure. There is no invented exchange
    /// rate: a figure in another currency is no figure. `band` makes a band of a figure, or cannot. None when half of the
    /// wanted pieces and more are without.
    pub(crate) fn of(
        guide: &Guide,
        facts: &Facts,
        currency: Option<Currency>,
        wanted: &dyn Fn(&Candidate) -> bool,
        band: &dyn Fn(&Candidate, &Worth) -> Option<Band>,
    ) -> Option<Bands> {
        let mut bands: Vec<(f64, Band)> = Vec::new();
        let mut money = currency;
        let mut years: Option<(Year, Year)> = None;
        let mut rests = Vec::new();
        let (mut known, mut all) = (0.0, 0.0);
        for (p, c) in facts.posterior.p.iter().zip(&guide.core.candidates) {
            if usize::from(c.kind) == guide.unknown() || !wanted(c) {
                continue;
            }
            all += p;
            let Some(worth) = worth(guide, c.kind, c.make) else { continue };
            if *money.get_or_insert(worth.low.currency) != worth.low.currency {
                continue;
            }
            let Some(band) = band(c, worth) else { continue };
            let (first, last) = years.unwrap_or((worth.year, worth.year));
            years = Some((first.min(worth.year), last.max(worth.year)));
            known += p;
            bands.push((*p, band));
            rests.push((*p, worth.basis));
        }
        let mixture = Mixture::new(bands).filter(|_| known >= ENOUGH * all)?;
        Some(Bands { mixture, currency: money?, years: years?, basis: weakest(&rests)? })
    }

    /// From the price that so many of such pieces sell below to another: `9 to 20 USD`.
    pub(crate) fn between(&self, low: f64, high: f64) -> String {
        range(self.mixture.quantile(low), self.mixture.quantile(high), self.currency)
    }

    /// `2020`, or `2015 to 2020`.
    pub(crate) fn money_of(&self) -> String {
        let (first, last) = self.years;
        if first == last { first.to_string() } else { format!("{first} to {last}") }
    }
}

/// What the weakest of some figures rests on, those left out that hardly count: each with its share. None of none.
pub(crate) fn weakest(figures: &[(f64, Basis)]) -> Option<Basis> {
    let all: f64 = figures.iter().map(|f| f.0).sum();
    let most = figures.iter().fold(0.0, |most, f| f.0.max(most));
    // Where every one is small the largest still count.
    figures.iter().filter(|f| f.0 >= (COUNTS * all).min(most)).map(|f| f.1).max()
}

/// Minor units as `9 to 20 USD`, rounded outwards to amounts that people name.
pub(crate) fn range(low: i64, high: i64, currency: Currency) -> String {
    format!("{} to {} {}", round_down(low) / 100, round_up(high) / 100, currency.code())
}

/// The figure of a kind and make as the guide gives it: the middle half for sound, typical, complete pieces.
pub(crate) fn worth(guide: &Guide, kind: u16, make: u16) -> Option<&Worth> {
    guide.core.kinds.get(usize::from(kind))?.makes.get(usize::from(make))?.as_ref()?.worth.as_ref()
}

/// The band of a figure, in its own money.
pub(crate) fn plain(worth: &Worth) -> Band {
    Band::of_middle_half(worth.low.minor, worth.high.minor)
}
