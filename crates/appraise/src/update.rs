//! A band and what sales make of it: a line through the logarithms of prices over the years, in closed form.
//!
//! With t the years since the band's own year, log price = level + drift t + error. Level, drift and the variance of the
//! error are normal-inverse-gamma (any textbook of conjugate linear regression): level ~ N(m, s2 / sales), drift ~ N(d,
//! s2 tau2 / s02), s2 ~ inverse gamma with so many degrees of freedom about s02. A sale of weight w counts as w sales: the
//! sum of weights is never more than Kish's (sum w)^2 / sum w^2 when none is above one, and unlike his it grows with every
//! sale. With his a good sale beside ten poor ones lowers the count from 10 to 3.6, and the band would widen for knowing more.

use crate::band::Band;

/// What is held before any sale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Prior {
    /// Mean of the logarithm in the band's own year.
    pub(crate) mean: f64,
    /// Standard deviation of the logarithm.
    pub(crate) sd: f64,
    /// How many sales it counts for the middle.
    pub(crate) sales: f64,
    /// The same for the width.
    pub(crate) freedom: f64,
    /// What prices of the kind do in a year, in the logarithm.
    pub(crate) drift: f64,
    /// The standard deviation of that.
    pub(crate) drift_sd: f64,
}

/// A sale as the line sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Row {
    /// Years since the band's own year.
    pub(crate) t: f64,
    /// Logarithm of the price.
    pub(crate) log: f64,
    /// How much it counts, 0 to 1.
    pub(crate) weight: f64,
}

/// What is held after.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Posterior {
    level: f64,
    pub(crate) drift: f64,
    freedom: f64,
    variance: f64,
    /// The precision of level and drift, in units of the variance: diagonal, off it, diagonal.
    precision: [f64; 3],
}

impl Prior {
    /// The update, all sales at once.
    pub(crate) fn with(&self, rows: &[Row]) -> Posterior {
        let steady = self.sd * self.sd / (self.drift_sd * self.drift_sd).max(1e-12);
        let (mut a, mut b, mut c) = (self.sales, 0.0, steady);
        let (mut of_level, mut of_drift) = (self.sales * self.mean, steady * self.drift);
        let mut weights = 0.0;
        for row in rows {
            weights += row.weight;
            a += row.weight;
            b += row.weight * row.t;
            c += row.weight * row.t * row.t;
            of_level += row.weight * row.log;
            of_drift += row.weight * row.t * row.log;
        }
        let determinant = a * c - b * b;
        let level = (c * of_level - b * of_drift) / determinant;
        let drift = (a * of_drift - b * of_level) / determinant;
        let squares: f64 = rows
            .iter()
            .map(|r| {
                let left = r.log - level - drift * r.t;
                r.weight * left * left
            })
            .sum();
        let (off, slope) = (level - self.mean, drift - self.drift);
        let all =
            self.freedom * self.sd * self.sd + squares + self.sales * off * off + steady * slope * slope;
        let freedom = self.freedom + weights;
        Posterior { level, drift, freedom, variance: all / freedom, precision: [a, b, c] }
    }
}

impl Posterior {
    /// The price of one more piece, so many years after the band's own year.
    pub(crate) fn band(&self, t: f64) -> Band {
        let [a, b, c] = self.precision;
        let doubt = (c - 2.0 * b * t + a * t * t) / (a * c - b * b);
        let scale = (self.variance * (1.0 + doubt)).sqrt();
        Band::student(self.level + self.drift * t, scale, self.freedom)
    }

    /// Scale of the drift's own t distribution.
    pub(crate) fn drift_scale(&self) -> f64 {
        let [a, b, c] = self.precision;
        (self.variance * a / (a * c - b * b)).sqrt()
    }
}
