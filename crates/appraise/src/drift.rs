//! What prices of a family do against all prices. A field can fall while everything else rises: what brought hundreds a
//! generation ago may bring tens now.

use crate::band::moments;
use crate::market::{Market, Priced};
use crate::sale::{Comparable, Of};
use pack::Worth;
use pack::prices::Prices;

/// How fast prices rise or fall against all prices, in the logarithm a year, and how sure that is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drift {
    mean: f64,
    sd: f64,
}

impl Drift {
    /// What is held of a family none of whose sales are known.
    #[must_use]
    pub fn unknown(prices: &Prices) -> Drift {
        Drift { mean: 0.0, sd: f64::from(prices.update.drift) / 1000.0 }
    }

    /// Thousandths a year, and their standard deviation.
    #[must_use]
    pub fn per_mille(&self) -> (i32, u32) {
        (libm::round(self.mean * 1000.0) as i32, libm::round(self.sd * 1000.0) as u32)
    }

    pub(crate) fn of(mean: f64, sd: f64) -> Drift {
        Drift { mean, sd }
    }

    /// For one kind of the family, which strays from it: mean and standard deviation.
    pub(crate) fn of_kind(self, prices: &Prices) -> (f64, f64) {
        let apart = f64::from(prices.update.apart) / 1000.0;
        (self.mean, (self.sd * self.sd + apart * apart).sqrt())
    }
}

impl Market<'_> {
    /// The drift of a family, from the sales of its other kinds: those of the kind itself speak for themselves when its
    /// band is updated, and would else count twice. `worth` gives the band of a kind of this make.
    ///
    /// Each kind's line has a level of its own, so that only how prices of one kind changed tells anything.
    #[must_use]
    pub fn drift(&self, of: Of, sales: &[Comparable], worth: &dyn Fn(u16) -> Option<Worth>) -> Drift {
        let before = Drift::unknown(self.prices);
        let mut precision = 1.0 / (before.sd * before.sd).max(1e-12);
        let mut sum = precision * before.mean;
        let apart = f64::from(self.prices.update.apart) / 1000.0;
        for (at, sale) in sales.iter().enumerate() {
            let kind = sale.of.kind;
            let same = |o: Of| o.family == of.family && o.make == of.make && o.kind == kind;
            let first = !sales.iter().take(at).any(|s| same(s.of));
            if kind == of.kind || !same(sale.of) || !first {
                continue;
            }
            let Some(worth) = worth(kind) else { continue };
            let rows = self.rows(sale.of, &worth, sales);
            let (mean, sd) = self.moments(&worth);
            let (along, with) = slope(&rows, mean, f64::from(self.prices.update.sales));
            if along > 0.0 {
                // What the kind says of its own drift, and how far that may be from the family's.
                let says = along / (sd * sd + apart * apart * along);
                precision += says;
                sum += says * with / along;
            }
        }
        Drift { mean: sum / precision, sd: (1.0 / precision).sqrt() }
    }

    /// Mean and standard deviation of the logarithm of a band, in the money that everything is told in.
    pub(crate) fn moments(&self, worth: &Worth) -> (f64, f64) {
        let (mean, sd) = moments(worth.low.minor, worth.high.minor);
        (mean + self.ratio(worth.year).map_or(0.0, |r| r.log()), sd)
    }
}

/// Sums of squares of years, and of years with prices, about the weighted middle, in which the band counts as so many sales
/// of its own year.
fn slope(rows: &[Priced], mean: f64, sales: f64) -> (f64, f64) {
    let (mut n, mut t, mut y, mut tt, mut ty) = (sales, 0.0, 0.0, 0.0, 0.0);
    for Priced { row, .. } in rows {
        let (w, log) = (row.weight, row.log - mean);
        n += w;
        t += w * row.t;
        y += w * log;
        tt += w * row.t * row.t;
        ty += w * row.t * log;
    }
    (tt - t * t / n, ty - t * y / n)
}
