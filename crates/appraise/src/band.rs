//! What half of typical examples sell for, as a distribution of one price.

use crate::condition::Worn;
use crate::index::Ratio;
use crate::mixture::Mixture;
use crate::student;

/// Distance between the quartiles of a standard normal (2 x 0.674490): published in any normal table.
pub(crate) const MIDDLE_HALF: f64 = 1.348_979_500_392_163_4;

/// A price whose logarithm is normal, or Student's t where both its middle and its width come from few sales.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    mean: f64,
    sd: f64,
    /// Degrees of freedom; none for the normal.
    freedom: Option<f64>,
}

impl Band {
    /// From the quartiles in minor units, `low` below `high`, both above zero: a log-normal.
    #[must_use]
    pub fn of_middle_half(low: i64, high: i64) -> Band {
        let (mean, sd) = moments(low, high);
        Band { mean, sd, freedom: None }
    }

    /// A t of the logarithm.
    pub(crate) fn student(mean: f64, scale: f64, freedom: f64) -> Band {
        Band { mean, sd: scale, freedom: Some(freedom) }
    }

    /// P(price below this many minor units).
    #[must_use]
    pub fn share_below(&self, minor: i64) -> f64 {
        self.below_log(libm::log(minor.max(0) as f64))
    }

    pub(crate) fn below_log(&self, log: f64) -> f64 {
        let away = (log - self.mean) / self.sd;
        match self.freedom {
            Some(freedom) => student::below(away, freedom),
            None => 0.5 * libm::erfc(-away / core::f64::consts::SQRT_2),
        }
    }

    /// The price in minor units below which this share (0.001 to 0.999) falls.
    #[must_use]
    pub fn quantile(&self, share: f64) -> i64 {
        Mixture::of(*self).quantile(share)
    }

    /// The same in money of another year.
    #[must_use]
    pub fn at(self, ratio: Ratio) -> Band {
        Band { mean: self.mean + ratio.log(), ..self }
    }

    /// The same for a piece in this condition: moved by the factor, wider by its spread. The sum of a t and a normal is
    /// taken for a t of the same freedom, which keeps the heavier tails.
    #[must_use]
    pub fn in_condition(self, worn: &Worn) -> Band {
        let (log, spread) = worn.log();
        Band { mean: self.mean + log, sd: (self.sd * self.sd + spread * spread).sqrt(), ..self }
    }
}

/// Mean and standard deviation of the logarithm, from quartiles in minor units.
pub(crate) fn moments(low: i64, high: i64) -> (f64, f64) {
    let (low, high) = (libm::log(low.max(1) as f64), libm::log(high.max(2) as f64));
    (f64::midpoint(low, high), ((high - low) / MIDDLE_HALF).max(0.05))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn below_agrees_with_a_normal_table() {
        // Published in any normal table: half below the median, 0.841345 below one standard deviation above it.
        let band = Band::of_middle_half(1000, 3500);
        let median = libm::sqrt(1000.0 * 3500.0);
        let one_up = median * libm::exp(libm::log(3.5) / MIDDLE_HALF);
        assert!((band.below_log(libm::log(median)) - 0.5).abs() < 1e-9);
        assert!((band.below_log(libm::log(one_up)) - 0.841_345).abs() < 1e-6);
        assert!(band.share_below(0).abs() < 1e-12, "nothing is cheaper than nothing");
        assert!(band.share_below(-5).abs() < 1e-12 && band.share_below(1000) - 0.25 < 1e-9);
    }

    #[test]
    fn a_middle_half_of_nothing_still_has_a_width() {
        // Outside of what a pack may hold (low below high, both above zero): no NaN comes of it.
        for (low, high) in [(0, 0), (5, 5), (-3, 2), (i64::MAX, i64::MAX), (100, 1)] {
            let one = Band::of_middle_half(low, high);
            let (quarter, rest) = (one.quantile(0.25), one.quantile(0.75));
            assert!(
                quarter <= rest && one.share_below(1000).is_finite(),
                "{low} to {high}: {quarter}, {rest}"
            );
        }
    }

    #[test]
    fn tails_of_a_t_are_heavier() {
        let (normal, t) = (Band::of_middle_half(1000, 2000), Band::student(7.0, 0.5, 4.0));
        assert!(normal.share_below(100_000) > 0.999_999);
        // Published: of Student's t with four degrees one half in a hundred lies above 4.604.
        assert!((t.below_log(7.0 + 0.5 * 4.604) - 0.995).abs() < 1e-4);
    }
}
