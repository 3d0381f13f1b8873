//! What it is worth: the mixture of the candidates' bands, so that doubt about the kind widens it.

use super::facts::Facts;
use crate::guide::Guide;
use crate::sale;
use crate::state::State;
use crate::view::WorthView;
use appraise::{Band, Mixture, round_down, round_up};
use units::{Basis, Currency, Year};

/// Below this share of pieces with a figure nothing is said. Basis: practice.
const ENOUGH: f64 = 0.5;

/// The band, or a sentence why there is none.
pub(crate) fn view(guide: &Guide, state: &State, facts: &Facts) -> Result<WorthView, String> {
    let mut bands: Vec<(f64, Band)> = Vec::new();
    let mut money: Option<(Currency, Year, Year)> = None;
    let mut worst = Basis::Published;
    let (mut known, mut all) = (0.0, 0.0);
    for (p, c) in facts.posterior.p.iter().zip(&guide.core.candidates) {
        if usize::from(c.kind) == guide.unknown() {
            continue;
        }
        all += p;
        let facts = guide.core.kinds[usize::from(c.kind)].makes[usize::from(c.make)].as_ref();
        let Some(w) = facts.and_then(|f| f.worth.as_ref()) else {
            continue;
        };
        let (currency, first, last) = money.unwrap_or((w.low.currency, w.year, w.year));
        if w.low.currency != currency {
            // One currency is pooled; there is no invented exchange rate.
            continue;
        }
        money = Some((currency, first.min(w.year), last.max(w.year)));
        known += p;
        bands.push((*p, Band::of_middle_half(w.low.minor, w.high.minor)));
        if *p >= 0.05 {
            worst = worst.max(w.basis);
        }
    }
    let none = || "No figures for pieces like this one in the guide.".to_string();
    let (currency, first, last) = money.filter(|_| known >= ENOUGH * all).ok_or_else(none)?;
    let mixture = Mixture::new(bands).ok_or_else(none)?;
    let quantiles = [0.10, 0.25, 0.50, 0.75, 0.90].map(|q| mixture.quantile(q));
    let whole = |low: i64, high: i64| {
        format!("{} to {} {}", round_down(low) / 100, round_up(high) / 100, currency.code())
    };
    let year = if first == last { first.to_string() } else { format!("{first} to {last}") };
    Ok(WorthView {
        half: whole(quantiles[1], quantiles[3]),
        eight: whole(quantiles[0], quantiles[4]),
        quantiles,
        currency: currency.code().to_string(),
        condition: sale::in_condition(guide, state, facts),
        basis: format!(
            "For a sound, typical, complete example; money of {year}, {}. Price evidence, not an appraisal: insurance and \
             tax need a qualified one.",
            worst.phrase()
        ),
    })
}
