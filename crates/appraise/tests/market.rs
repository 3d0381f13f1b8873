//! What is pooled, in which money, and what is said beside it.

use crate::common::{KIND, YEAR, currency, market, sale, tables, worth};
use appraise::{Comparable, Drift, Pool};
use pack::prices::Sort;
use units::Basis;

#[test]
fn a_pool_of_what_was_paid_holds_no_results() {
    let market = appraise::Market { pool: Pool::Paid, ..market(tables()) };
    let all = [sale(2020, 5_000), Comparable { sort: Sort::Paid, ..sale(2021, 6_000) }];
    let found = market.estimate(KIND, &worth(5_000, 11_000, 2020), Drift::unknown(tables()), &all);
    assert_eq!(found.expect("a band").sales, [1]);
    assert_eq!(market.apart(KIND, &all)[0].sort, Sort::Sold);
}

#[test]
fn another_currency_is_never_converted() {
    let market = appraise::Market { currency: currency("EUR"), ..market(tables()) };
    let drift = Drift::unknown(tables());
    assert_eq!(
        market.estimate(KIND, &worth(5_000, 11_000, 2020), drift, &[]),
        None,
        "the band is in dollars"
    );
    assert_eq!(market.money_year(), YEAR, "there is no index of it");
    let mut band = worth(5_000, 11_000, 2020);
    (band.low.currency, band.high.currency) = (currency("EUR"), currency("EUR"));
    let found = market.estimate(KIND, &band, drift, &[sale(2020, 7_000)]).expect("a band");
    assert!(found.sales.is_empty());
    let apart = market.apart(KIND, &[sale(2020, 7_000)]);
    assert_eq!((apart[0].currency, apart[0].low_middle_high), (currency("USD"), [7_000; 3]));
}

#[test]
fn the_weakest_basis_is_told_and_years_before_the_index_are_listed() {
    let market = market(tables());
    let drift = Drift::unknown(tables());
    let old = Comparable { basis: Basis::Invented, ..sale(1905, 300) };
    let found = market
        .estimate(KIND, &worth(5_000, 11_000, 2020), drift, std::slice::from_ref(&old))
        .expect("a band");
    assert_eq!((found.quantiles[0].basis, found.sales.len()), (Basis::Memory, 0));
    assert_eq!(market.apart(KIND, &[old])[0].years, (1905, 1905));
    let new = [Comparable { basis: Basis::Invented, ..sale(2020, 7_000) }];
    let found = market.estimate(KIND, &worth(5_000, 11_000, 2020), drift, &new).expect("a band");
    assert_eq!((found.quantiles[0].basis, found.quantiles[0].year), (Basis::Invented, 2025));
}
