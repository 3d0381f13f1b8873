//! Shares that sum to exactly one: largest remainders, and bounds by water filling.

/// No share that is not published is held below this, unless it is so by definition.
pub(crate) const LEAST: f64 = 0.02;
/// No share that is not published is held above this, unless it is so by definition.
pub(crate) const MOST: f64 = 0.93;
/// What a choice with no weight at all counts beside one with weight 1 when room has to be filled.
const TRACE: f64 = 1e-6;

/// Per mille in proportion to the weights, summing to exactly 1000: every share is rounded down, and what is left
/// goes to the largest remainders, to the first of equals. Equal shares when there is no weight.
pub(crate) fn per_mille(weights: &[f64]) -> Vec<u16> {
    let sum: f64 = weights.iter().sum();
    let exact: Vec<f64> = weights
        .iter()
        .map(|w| if sum > 0.0 { w / sum * 1000.0 } else { 1000.0 / weights.len() as f64 })
        .collect();
    // What is whole but for rounding stays whole.
    let mut shares: Vec<u16> = exact.iter().map(|e| (e + 1e-9) as u16).collect();
    let given: usize = shares.iter().map(|s| usize::from(*s)).sum();
    let mut order: Vec<usize> = (0..shares.len()).collect();
    // Remainders that differ by rounding only are equal.
    order.sort_by_key(|i| {
        let left = (exact[*i] - f64::from(shares[*i])) * 1e6;
        (-libm::round(left) as i64, *i)
    });
    for i in order.into_iter().cycle().take(1000_usize.saturating_sub(given)) {
        shares[i] += 1;
    }
    shares
}

/// Shares in proportion to the weights but held between [`LEAST`] and [`MOST`]: those in between keep their
/// proportions, found by filling water until the sum is one. With so many choices that `LEAST` for each would be
/// more than all there is, all are equal.
pub(crate) fn bounded(weights: &[f64]) -> Vec<f64> {
    let n = weights.len() as f64;
    let sum: f64 = weights.iter().sum();
    if sum <= 0.0 || LEAST * n >= 1.0 || MOST * n <= 1.0 {
        return vec![1.0 / n; weights.len()];
    }
    let weights: Vec<f64> = weights.iter().map(|w| (w / sum).max(TRACE)).collect();
    let held = |level: f64| weights.iter().map(|w| (w * level).clamp(LEAST, MOST)).collect::<Vec<f64>>();
    // The sum grows with the level, from `n LEAST` to `n MOST`; halve the interval on a scale of logarithms.
    let (mut low, mut high) = (1e-3_f64, 1e7_f64);
    for _ in 0..200 {
        let level = (low * high).sqrt();
        if held(level).iter().sum::<f64>() < 1.0 {
            low = level;
        } else {
            high = level;
        }
    }
    held(high)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn largest_remainders() {
        // Arithmetic: thirds leave 1 to the first; 2/3 and 1/3 leave it to the larger remainder (666.7).
        assert_eq!(per_mille(&[1.0, 1.0, 1.0]), [334, 333, 333]);
        assert_eq!(per_mille(&[2.0, 1.0]), [667, 333]);
        assert_eq!(per_mille(&[0.0, 0.0]), [500, 500]);
        assert_eq!(per_mille(&[600.0, 20.0, 20.0]), [938, 31, 31]);
    }

    #[test]
    fn bounds_by_hand() {
        // By hand: one of two at most .93, the other takes the rest; of four with one named, .93 and what is
        // left (.07) shared by three (.0233 each); 90 : 9 : 1 lifts the last to .02 and leaves .98 as 10 : 1.
        assert_eq!(per_mille(&bounded(&[1.0, 0.0])), [930, 70]);
        assert_eq!(per_mille(&bounded(&[1.0, 0.0, 0.0, 0.0])), [930, 24, 23, 23]);
        assert_eq!(per_mille(&bounded(&[90.0, 9.0, 1.0])), [891, 89, 20]);
        assert_eq!(per_mille(&bounded(&[1.0; 60])).iter().sum::<u16>(), 1000);
    }

    proptest! {
        #[test]
        fn bounded_shares_hold_their_bounds(weights in proptest::collection::vec(0.0_f64..1000.0, 2..13)) {
            let shares = per_mille(&bounded(&weights));
            prop_assert_eq!(shares.iter().sum::<u16>(), 1000);
            prop_assert!(shares.iter().all(|s| (20..=930).contains(s)), "{:?}", shares);
            for (i, a) in weights.iter().enumerate() {
                for (j, b) in weights.iter().enumerate() {
                    prop_assert!(a <= b || shares[i] + 1 >= shares[j], "order of {:?} in {:?}", weights, shares);
                }
            }
        }
    }
}
