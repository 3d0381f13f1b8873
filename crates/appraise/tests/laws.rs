//! What must hold of bands after sales, whatever the sales.

use crate::common::{KIND, YEAR, currency, market, sale, tables, usd, worth};
use appraise::{Comparable, Drift, Of};
use pack::prices::{Date, Sort};
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;
use units::Money;

/// Sales of [`KIND`], in dollars, of any year, likeness and condition.
fn sales(most: usize) -> impl Strategy<Value = Vec<Comparable>> {
    let one = (
        1960_i16..=YEAR,
        2_000_i64..40_000,
        1_u16..=1000,
        select(vec![None, Some(3_u16), Some(13), Some(17)]),
    );
    let one = one.prop_map(|(year, minor, likeness, condition)| Comparable {
        likeness,
        condition: condition.into_iter().collect(),
        ..sale(year, minor)
    });
    vec(one, 0..most)
}

fn quantiles(sales: &[Comparable], drift: Drift) -> [i64; 5] {
    let found = market(tables()).estimate(KIND, &worth(5_000, 11_000, 2020), drift, sales);
    found.expect("a band in dollars").quantiles.map(|q| q.money.minor)
}

fn config(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases,
        rng_seed: proptest::test_runner::RngSeed::Fixed(63),
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

proptest! {
    #![proptest_config(config(500))]

    #[test]
    fn a_sale_at_the_median_never_widens(mut all in sales(12), likeness in 1_u16..=1000) {
        let drift = Drift::unknown(tables());
        let before = quantiles(&all, drift);
        all.push(Comparable { likeness, ..sale(YEAR, before[2]) });
        let after = quantiles(&all, drift);
        let wide = |q: [i64; 5], low: usize, high: usize| libm::log(q[high] as f64 / q[low] as f64);
        // Each end is rounded to the cent.
        let cents = |q: [i64; 5]| 1.0 / q[0] as f64 + 1.0 / q[1] as f64;
        for (low, high) in [(0, 4), (1, 3)] {
            let (was, is) = (wide(before, low, high), wide(after, low, high));
            prop_assert!(is <= was + cents(before) + cents(after), "{is} was {was}");
        }
        prop_assert!((before[2] - after[2]).abs() <= 1, "and it stays where it is");
    }

    #[test]
    fn what_is_not_of_the_kind_or_not_of_the_sort_moves_nothing(
        all in sales(8),
        others in vec((0_u16..4, 0_u16..4, 0_u16..3, 0_usize..3, 1960_i16..=YEAR, 1_i64..10_000_000, 0_usize..2), 1..10),
    ) {
        let drift = Drift::unknown(tables());
        let mut more = all.clone();
        for (kind, make, family, sort, year, minor, code) in others {
            let other = Comparable {
                sort: [Sort::Sold, Sort::Paid, Sort::Asking][sort],
                of: Of { kind, make, family },
                price: Money { minor, currency: currency(["USD", "EUR"][code]) },
                ..sale(year, minor)
            };
            let ours = (kind, make) == (KIND.kind, KIND.make) && sort == 0 && code == 0;
            // Among the others, not behind them.
            let at = more.len() / 2;
            more.extend((!ours).then_some(other));
            let last = more.len() - 1;
            more.swap(at, last);
        }
        let (one, two) = (quantiles(&all, drift), quantiles(&more, drift));
        prop_assert!(one.iter().zip(two).all(|(a, b)| (a - b).abs() <= 1), "{one:?} {two:?}");
    }

    #[test]
    fn another_family_tells_nothing_of_the_drift(all in sales(8), years in vec((1960_i16..=YEAR, 1_i64..100_000), 1..8)) {
        let market = market(tables());
        let band = |_: u16| Some(worth(5_000, 11_000, 2020));
        let mut more = all.clone();
        for (year, minor) in years {
            more.push(Comparable { of: Of { kind: 9, make: 0, family: KIND.family + 1 }, ..sale(year, minor) });
            more.push(Comparable { of: Of { kind: 8, make: 1, family: KIND.family }, ..sale(year, minor) });
            more.push(Comparable { of: Of { kind: 8, make: 0, family: KIND.family }, sort: Sort::Asking, ..sale(year, minor) });
        }
        prop_assert_eq!(market.drift(KIND, &more, &band), Drift::unknown(tables()));
    }

    #[test]
    fn twice_every_price_is_twice_the_band(all in sales(12)) {
        let drift = Drift::unknown(tables());
        let market = market(tables());
        let doubled: Vec<Comparable> =
            all.iter().map(|s| Comparable { price: usd(2 * s.price.minor), ..s.clone() }).collect();
        let one = market.estimate(KIND, &worth(5_000, 11_000, 2020), drift, &all).expect("a band");
        let two = market.estimate(KIND, &worth(10_000, 22_000, 2020), drift, &doubled).expect("a band");
        for (a, b) in one.quantiles.iter().zip(two.quantiles) {
            // Half a cent of the one is a cent of the other.
            prop_assert!((2 * a.money.minor - b.money.minor).abs() <= 2, "{} {}", a.money.minor, b.money.minor);
        }
        prop_assert_eq!(one.drift.per_mille(), two.drift.per_mille());
    }

    #[test]
    fn the_order_of_sales_does_not_matter(all in sales(12)) {
        let drift = Drift::unknown(tables());
        let back: Vec<Comparable> = all.iter().rev().cloned().collect();
        let (one, two) = (quantiles(&all, drift), quantiles(&back, drift));
        prop_assert!(one.iter().zip(two).all(|(a, b)| (a - b).abs() <= 1), "{one:?} {two:?}");
    }

    #[test]
    fn what_is_asked_is_listed_and_never_pooled(all in sales(8), asked in vec((1960_i16..=YEAR, 1_i64..1_000_000), 1..6)) {
        let mut more = all.clone();
        more.extend(asked.iter().map(|(y, m)| Comparable { sort: Sort::Asking, ..sale(*y, *m) }));
        let market = market(tables());
        let found = market.estimate(KIND, &worth(5_000, 11_000, 2020), Drift::unknown(tables()), &more).expect("a band");
        prop_assert!(found.sales.iter().all(|at| more[*at].sort == Sort::Sold));
        let apart = market.apart(KIND, &more);
        prop_assert_eq!(apart.len(), 1);
        prop_assert_eq!((apart[0].sort, apart[0].sales.len()), (Sort::Asking, asked.len()));
        let (low, high) = (asked.iter().map(|a| a.1).min(), asked.iter().map(|a| a.1).max());
        prop_assert_eq!((Some(apart[0].low_middle_high[0]), Some(apart[0].low_middle_high[2])), (low, high));
    }

    #[test]
    fn strange_sales_are_answered(
        strange in vec((any::<i16>(), any::<i64>(), any::<Option<u16>>(), any::<u16>(), vec(any::<u16>(), 0..3)), 0..6),
        (low, high, year) in (any::<i64>(), any::<i64>(), any::<i16>()),
        this_year in any::<i16>(),
    ) {
        let all: Vec<Comparable> = strange.into_iter().map(|(y, minor, premium, likeness, condition)| Comparable {
            date: Date { year: y, month: 99, day: 0 }, premium, likeness, condition, ..sale(y, minor)
        }).collect();
        let market = appraise::Market { this_year, ..market(tables()) };
        let band = worth(low, high, year);
        let drift = market.drift(Of { kind: 1, ..KIND }, &all, &|_| Some(band.clone()));
        let found = market.estimate(KIND, &band, drift, &all).expect("a band in dollars");
        let q = found.quantiles.map(|q| q.money.minor);
        prop_assert!(q.windows(2).all(|w| w[0] <= w[1]) && q[0] >= 0, "{q:?}");
        let _ = market.apart(KIND, &all);
    }
}
