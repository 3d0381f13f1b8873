//! What pieces of a kind and make sell for now, after the sales that were seen.

use crate::band::Band;
use crate::drift::Drift;
use crate::figure::Figure;
use crate::market::Market;
use crate::sale::{Comparable, Of};
use crate::update::{Prior, Row};
use pack::Worth;
use pack::prices::Meaning;
use units::Money;

/// The shares whose prices an estimate tells.
const SHARES: [f64; 5] = [0.10, 0.25, 0.50, 0.75, 0.90];

/// A band after sales.
#[derive(Debug, Clone, PartialEq)]
pub struct Estimate {
    /// The distribution of the price of a sound, typical, complete piece, for mixtures over kinds and makes.
    pub band: Band,
    /// The prices that 10, 25, 50, 75 and 90 in a hundred such pieces sell below.
    pub quantiles: [Figure; 5],
    /// Indices of the sales that were pooled.
    pub sales: Vec<usize>,
    /// They count as so many tenths of a sale: less for age, for little likeness and for doubtful condition.
    pub tenths: u32,
    /// What prices of the kind do against all prices.
    pub drift: Drift,
}

impl Market<'_> {
    /// The band of a kind and make in money of [`Market::money_year`], updated by its own sales and no others; `drift` is
    /// that of its family. None when the band is in another currency, since there is no exchange rate.
    #[must_use]
    pub fn estimate(&self, of: Of, worth: &Worth, drift: Drift, sales: &[Comparable]) -> Option<Estimate> {
        if worth.low.currency != self.currency {
            return None;
        }
        let update = &self.prices.update;
        let (mean, sd) = self.moments(worth);
        let (slope, slope_sd) = drift.of_kind(self.prices);
        let prior = Prior {
            mean,
            sd,
            sales: f64::from(update.sales),
            freedom: f64::from(update.freedom),
            drift: slope,
            drift_sd: slope_sd,
        };
        let pooled = self.rows(of, worth, sales);
        let rows: Vec<Row> = pooled.iter().map(|p| p.row).collect();
        let after = prior.with(&rows);
        let band = after.band(f64::from(i32::from(self.this_year) - i32::from(worth.year)));
        let used: Vec<usize> = pooled.iter().map(|p| p.at).collect();
        let basis = used.iter().map(|at| sales[*at].basis).fold(worth.basis, Ord::max);
        let whole = Figure {
            money: Money { minor: 0, currency: self.currency },
            year: self.money_year(),
            basis,
            meaning: Meaning::Typical,
        };
        let weight: f64 = rows.iter().map(|r| r.weight).sum();
        Some(Estimate {
            band,
            quantiles: SHARES.map(|share| whole.with(band.quantile(share))),
            sales: used,
            tenths: libm::round(weight * 10.0) as u32,
            drift: Drift::of(after.drift, after.drift_scale()),
        })
    }
}
