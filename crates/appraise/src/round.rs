//! Rounding that claims no more than is known.

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

/// So many parts of `of` of an amount, rounded half up to the minor unit; halves of negative amounts go up too.
pub(crate) fn part(minor: i64, parts: u64, of: u64) -> i64 {
    let (product, of) = (2 * i128::from(minor) * i128::from(parts), i128::from(of.max(1)));
    i64::try_from((product + of).div_euclid(2 * of)).unwrap_or(i64::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rounding_keeps_the_band_inside() {
        for minor in [1, 99, 100, 1499, 1871, 12_345, 999_999, 123_456_789] {
            assert!(round_down(minor) <= minor && minor <= round_up(minor), "{minor}");
        }
        assert_eq!((round_down(1871), round_up(1871)), (1800, 2000));
    }

    #[test]
    fn parts_are_rounded_half_up() {
        // Arithmetic.
        for (minor, parts, of, part_of) in
            [(1000, 175, 1000, 175), (1, 1, 2, 1), (3, 1, 2, 2), (-1, 1, 2, 0), (7, 0, 9, 0)]
        {
            assert_eq!(part(minor, parts, of), part_of, "{minor} {parts}/{of}");
        }
        assert_eq!(part(i64::MAX, 2, 1), i64::MAX, "what does not fit stays at the end");
    }

    proptest::proptest! {
        #![proptest_config(proptest::prelude::ProptestConfig {
            cases: 400,
            rng_seed: proptest::test_runner::RngSeed::Fixed(63),
            failure_persistence: None,
            ..proptest::prelude::ProptestConfig::default()
        })]

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
