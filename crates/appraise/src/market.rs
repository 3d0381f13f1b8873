//! Where and when a piece is asked about: one currency, one sort of price, this year. What cannot be pooled is listed.

use crate::condition::worn;
use crate::index::{Ratio, factor, last_year};
use crate::sale::{Comparable, Of};
use crate::update::Row;
use pack::Worth;
use pack::prices::{Index, Prices, Sort};
use units::{Currency, Year, order};

/// Which prices are pooled. What is asked is never pooled with what was given, so it is not among them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pool {
    /// Results of public sales, the premium with them.
    Sold,
    /// What was given from hand to hand or in shops.
    Paid,
}

/// What prices are reckoned with.
#[derive(Debug, Clone, Copy)]
pub struct Market<'a> {
    /// The tables.
    pub prices: &'a Prices,
    /// The year it is.
    pub this_year: Year,
    /// The currency.
    pub currency: Currency,
    /// Which prices.
    pub pool: Pool,
}

/// A sale that is pooled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Priced {
    /// Index into the sales.
    pub(crate) at: usize,
    pub(crate) row: Row,
}

/// Prices of the kind and make that are not pooled, one entry for each sort and currency, in money of their own years.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Apart {
    /// What sort of price.
    pub sort: Sort,
    /// In which currency.
    pub currency: Currency,
    /// The lowest, the middle and the highest, minor units, with their premium.
    pub low_middle_high: [i64; 3],
    /// First and last year.
    pub years: (Year, Year),
    /// Indices into the sales.
    pub sales: Vec<usize>,
}

impl<'a> Market<'a> {
    /// The year whose money figures are told in: the last of the index, this year where there is none.
    #[must_use]
    pub fn money_year(&self) -> Year {
        self.index().map_or(self.this_year, |i| last_year(i).min(self.this_year))
    }

    pub(crate) fn index(&self) -> Option<&'a Index> {
        self.prices.indices.iter().find(|i| i.currency == self.currency)
    }

    /// From money of a year to the money of figures. A currency without an index stays as it is; none for years before
    /// the index.
    pub(crate) fn ratio(&self, from: Year) -> Option<Ratio> {
        self.index().map_or(Some(Ratio::ONE), |i| factor(i, from, self.money_year()))
    }

    fn pools(&self, sale: &Comparable) -> bool {
        let sort = match self.pool {
            Pool::Sold => Sort::Sold,
            Pool::Paid => Sort::Paid,
        };
        sale.sort == sort && sale.price.currency == self.currency
    }

    /// The sales of a kind and make as rows about its band: each brought to the same money and to a sound piece, weighed
    /// by likeness, by age, and by how sure its condition's factor is.
    pub(crate) fn rows(&self, of: Of, worth: &Worth, sales: &[Comparable]) -> Vec<Priced> {
        let (_, sd) = self.moments(worth);
        let row = |at: usize, sale: &Comparable| {
            let ours = sale.of.kind == of.kind && sale.of.make == of.make && self.pools(sale);
            let age = i32::from(self.this_year) - i32::from(sale.date.year);
            if !ours || age < 0 || sale.likeness == 0 || sale.price.minor <= 0 {
                return None;
            }
            let ratio = self.ratio(sale.date.year)?;
            let (condition, spread) = worn(self.prices, &sale.condition).ok()?.log();
            let halves = f64::from(self.prices.update.halves.max(1));
            let weight = f64::from(sale.likeness.min(1000)) / 1000.0
                * libm::exp2(-f64::from(age) / halves)
                * (sd * sd / (sd * sd + spread * spread));
            let log = libm::log(sale.paid() as f64) + ratio.log() - condition;
            let t = f64::from(i32::from(sale.date.year) - i32::from(worth.year));
            Some(Priced { at, row: Row { t, log, weight } })
        };
        sales.iter().enumerate().filter_map(|(at, sale)| row(at, sale)).collect()
    }

    /// What was seen of the kind and make but is not pooled: other sorts, other currencies, years before the index.
    #[must_use]
    pub fn apart(&self, of: Of, sales: &[Comparable]) -> Vec<Apart> {
        let pooled = |s: &Comparable| self.pools(s) && self.ratio(s.date.year).is_some();
        let ours = |s: &Comparable| s.of.kind == of.kind && s.of.make == of.make && !pooled(s);
        let mut list: Vec<Apart> = Vec::new();
        for (at, sale) in sales.iter().enumerate().filter(|(_, s)| ours(s)) {
            let year = sale.date.year;
            let same = |a: &&mut Apart| a.sort == sale.sort && a.currency == sale.price.currency;
            match list.iter_mut().find(same) {
                Some(apart) => {
                    apart.sales.push(at);
                    apart.years = (apart.years.0.min(year), apart.years.1.max(year));
                }
                None => list.push(Apart {
                    sort: sale.sort,
                    currency: sale.price.currency,
                    low_middle_high: [0; 3],
                    years: (year, year),
                    sales: vec![at],
                }),
            }
        }
        for apart in &mut list {
            let paid: Vec<i64> = apart.sales.iter().map(|at| sales[*at].paid()).collect();
            let by_price = order(paid.len(), &|a, b| paid[a].cmp(&paid[b]));
            // Of an even number the lower of the two in the middle: a price that was seen.
            let place = [0, (by_price.len() - 1) / 2, by_price.len() - 1];
            apart.low_middle_high = place.map(|p| paid[by_price[p]]);
        }
        list
    }
}
