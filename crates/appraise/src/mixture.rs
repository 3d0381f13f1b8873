//! Several bands at once: doubt about the kind widens what a piece may be worth.

use crate::band::Band;

/// Bands with weights that sum to one.
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

    pub(crate) fn of(band: Band) -> Mixture {
        Mixture { parts: vec![(1.0, band)] }
    }

    /// P(price below this many minor units).
    #[must_use]
    pub fn share_below(&self, minor: i64) -> f64 {
        self.below_log(libm::log(minor.max(0) as f64))
    }

    fn below_log(&self, log: f64) -> f64 {
        self.parts.iter().map(|(w, b)| w * b.below_log(log)).sum()
    }

    /// The price in minor units below which this share (0.001 to 0.999) falls.
    #[must_use]
    pub fn quantile(&self, share: f64) -> i64 {
        // Up to e^40, two thousand times the dearest price that any table may hold.
        let (mut low, mut high) = (0.0, 40.0);
        for _ in 0..60 {
            let middle = f64::midpoint(low, high);
            if self.below_log(middle) < share { low = middle } else { high = middle }
        }
        libm::round(libm::exp(low)) as i64
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

    proptest::proptest! {
        #![proptest_config(proptest::prelude::ProptestConfig {
            cases: 400,
            rng_seed: proptest::test_runner::RngSeed::Fixed(63),
            failure_persistence: None,
            ..proptest::prelude::ProptestConfig::default()
        })]

        #[test]
        fn quantiles_rise_and_turn_back_into_shares(
            parts in proptest::collection::vec((1_u32..1000, 1_i64..500_000, 2_i64..50, 0_u32..12), 1..8),
        ) {
            // Log-normals and t among each other.
            let band = |low: i64, times: i64, freedom: u32| match freedom {
                0..3 => Band::of_middle_half(low, low * times),
                f => Band::student(libm::log((2 * low) as f64), 0.05 * times as f64, f64::from(f)),
            };
            let bands = parts.iter().map(|(w, low, times, f)| (f64::from(*w), band(*low, *times, *f)));
            let mixture = Mixture::new(bands.collect()).expect("has weight");
            let mut last = 0;
            for share in [0.001, 0.1, 0.25, 0.5, 0.75, 0.9, 0.999] {
                let price = mixture.quantile(share);
                proptest::prop_assert!(price >= last, "{price} after {last}");
                last = price;
                // A whole minor unit lies between the price and its rounding; the share is met within one.
                let (under, over) = (mixture.share_below(price - 1), mixture.share_below(price + 1));
                proptest::prop_assert!(under <= share && (share <= over || price > 1_000_000_000_000), "{under} {share} {over}");
            }
            // A mixture lies between the lowest and the highest of its parts.
            let medians: Vec<i64> = parts.iter().map(|(_, low, times, f)| band(*low, *times, *f).quantile(0.5)).collect();
            let median = mixture.quantile(0.5);
            proptest::prop_assert!(medians.iter().any(|m| *m <= median + 1) && medians.iter().any(|m| *m >= median - 1));
        }
    }
}
