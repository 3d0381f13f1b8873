//! What half of typical examples sell for, and the same for a piece whose kind is in doubt.

/// Distance between the quartiles of a standard normal (2 x 0.674490): published in any normal table.
const MIDDLE_HALF: f64 = 1.348_979_500_392_163_4;

/// A log-normal price, from its middle half.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    mean: f64,
    sd: f64,
}

impl Band {
    /// From the quartiles in minor units, `low` below `high`, both above zero.
    #[must_use]
    pub fn of_middle_half(low: i64, high: i64) -> Band {
        let (low, high) = (libm::log(low.max(1) as f64), libm::log(high.max(2) as f64));
        Band { mean: f64::midpoint(low, high), sd: ((high - low) / MIDDLE_HALF).max(0.05) }
    }

    /// P(price below `minor`).
    #[must_use]
    pub fn below(&self, minor: f64) -> f64 {
        0.5 * libm::erfc(-(libm::log(minor) - self.mean) / (self.sd * core::f64::consts::SQRT_2))
    }
}

/// Several bands with weights: doubt about the kind widens what a piece may be worth.
#[derive(Debug, Clone, PartialEq)]
pub struct Mixture {
    parts: Vec<(f64, Band)>,
}

impl Mixture {
    /// From weights of any positive scale; `None` when nothing has weight.
    #[must_use]
    pub fn new(parts: Vec<(f64, Band)>) -> Option<Mixture> {
        let sum: f64 = parts.iter().map(|(w, _)| w).sum();
        (sum > 0.0).then(|| Mixture { parts: parts.into_iter().map(|(w, b)| (w / sum, b)).collect() })
    }

    /// P(price below `minor`).
    #[must_use]
    pub fn below(&self, minor: f64) -> f64 {
        self.parts.iter().map(|(w, b)| w * b.below(minor)).sum()
    }

    /// The price in minor units below which this share (0.001 to 0.999) falls.
    #[must_use]
    pub fn quantile(&self, share: f64) -> i64 {
        let (mut low, mut high) = (0.0, 50.0);
        for _ in 0..60 {
            let middle = f64::midpoint(low, high);
            if self.below(libm::exp(middle)) < share { low = middle } else { high = middle }
        }
        libm::round(libm::exp(low)) as i64
    }
}

/// Down to a step that claims no more than is known: 1, 2, 5, 10, 20... currency units, a sixth of the amount
/// at most.
#[must_use]
pub fn round_down(minor: i64) -> i64 {
    minor.div_euclid(step(minor)) * step(minor)
}

/// The same upwards.
#[must_use]
pub fn round_up(minor: i64) -> i64 {
    -(-minor).div_euclid(step(minor)) * step(minor)
}

fn step(minor: i64) -> i64 {
    let mut unit = 100;
    loop {
        for step in [unit, 2 * unit, 5 * unit] {
            if minor < step * 15 || step > 1_000_000_000 {
                return step;
            }
        }
        unit *= 10;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quartiles_come_back() {
        let one = Mixture::new(vec![(3.0, Band::of_middle_half(1000, 3500))]).expect("has weight");
        assert!((one.quantile(0.25) - 1000).abs() <= 1 && (one.quantile(0.75) - 3500).abs() <= 1);
        assert!((one.quantile(0.5) - 1871).abs() <= 1, "the median is the geometric mean of the quartiles");
    }

    #[test]
    fn doubt_widens() {
        let (cheap, dear) = (Band::of_middle_half(300, 1400), Band::of_middle_half(7500, 27500));
        let doubt = Mixture::new(vec![(0.5, cheap), (0.5, dear)]).expect("has weight");
        assert!(doubt.quantile(0.25) < 1400 && doubt.quantile(0.75) > 7500);
        assert!(Mixture::new(vec![(0.0, cheap)]).is_none());
    }

    #[test]
    fn rounding_keeps_the_band_inside() {
        for minor in [1, 99, 100, 1499, 1871, 12_345, 999_999, 123_456_789] {
            assert!(round_down(minor) <= minor && minor <= round_up(minor), "{minor}");
        }
        assert_eq!((round_down(1871), round_up(1871)), (1800, 2000));
    }

    #[test]
    fn below_agrees_with_a_normal_table() {
        // Published in any normal table: half below the median, 0.841345 below one standard deviation above it.
        let band = Band::of_middle_half(1000, 3500);
        let median = libm::sqrt(1000.0 * 3500.0);
        let one_up = median * libm::exp(libm::log(3.5) / MIDDLE_HALF);
        assert!((band.below(median) - 0.5).abs() < 1e-9);
        assert!((band.below(one_up) - 0.841_345).abs() < 1e-6);
        assert!(band.below(0.0).abs() < 1e-12, "nothing is cheaper than nothing");
    }

    #[test]
    fn a_middle_half_of_nothing_still_has_a_width() {
        // Outside of what a pack may hold (low below high, both above zero): no NaN comes of it.
        for (low, high) in [(0, 0), (5, 5), (-3, 2), (i64::MAX, i64::MAX), (100, 1)] {
            let one = Mixture::new(vec![(1.0, Band::of_middle_half(low, high))]).expect("has weight");
            let (quarter, rest) = (one.quantile(0.25), one.quantile(0.75));
            assert!(quarter <= rest && one.below(1000.0).is_finite(), "{low} to {high}: {quarter}, {rest}");
        }
    }

    proptest::proptest! {
        #![proptest_config(proptest::prelude::ProptestConfig {
            cases: 400,
            rng_seed: proptest::test_runner::RngSeed::Fixed(63),
            failure_persistence: None,
            ..proptest::prelude::ProptestConfig::default()
        })]

        #[test]
        fn quantiles_rise_and_turn_back_into_shares(
            parts in proptest::collection::vec((1_u32..1000, 1_i64..500_000, 2_i64..50), 1..8),
        ) {
            let bands = parts.iter().map(|(w, low, times)| (f64::from(*w), Band::of_middle_half(*low, low * times)));
            let mixture = Mixture::new(bands.collect()).expect("has weight");
            let mut last = 0;
            for share in [0.001, 0.1, 0.25, 0.5, 0.75, 0.9, 0.999] {
                let price = mixture.quantile(share);
                proptest::prop_assert!(price >= last, "{price} after {last}");
                last = price;
                // A whole minor unit lies between the price and its rounding; the share is met within one.
                let (under, over) = (mixture.below(price as f64 - 1.0), mixture.below(price as f64 + 1.0));
                proptest::prop_assert!(under <= share && share <= over, "{under} {share} {over}");
            }
            // A mixture lies between the lowest and the highest of its parts.
            let medians: Vec<i64> = parts
                .iter()
                .filter_map(|(_, low, times)| Mixture::new(vec![(1.0, Band::of_middle_half(*low, low * times))]))
                .map(|one| one.quantile(0.5))
                .collect();
            let median = mixture.quantile(0.5);
            proptest::prop_assert!(medians.iter().any(|m| *m <= median + 1) && medians.iter().any(|m| *m >= median - 1));
        }

        #[test]
        fn rounding_claims_little_and_loses_little(minor in 0_i64..1_000_000_000_000) {
            let (down, up) = (round_down(minor), round_up(minor));
            proptest::prop_assert!(0 <= down && down <= minor && minor <= up);
            proptest::prop_assert!(down % 100 == 0 && up % 100 == 0, "whole currency units");
            // Never finer than a unit; above that the amount is at least 15 of the step before, and of 1, 2, 5, 10 none
            // is more than two and a half times the one before: a sixth at most.
            let step = up - down;
            proptest::prop_assert!(step <= 100.max(minor / 6), "{minor} in steps of {step}");
            proptest::prop_assert!(round_down(down) == down && round_up(up) == up, "rounded once is rounded");
        }
    }
}
