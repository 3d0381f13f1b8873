//! What a bid costs and the highest bid that keeps a limit: published examples, and laws.

use crate::common::{prices, tables};
use appraise::{TaxOn, Terms, next_bid, on_step};
use proptest::prelude::*;

fn terms(premium: u16, tax: u32, on: TaxOn, shipping: i64) -> Terms {
    Terms { premium, tax, on, shipping }
}

#[test]
fn examples_of_offices() {
    // Published: California Department of Tax and Fee Administration, Sales and Use Tax Annotation 115.0010: a bid of $100
    // and a premium of 10 % make $110, and the tax is on all of it. New York says the same in TSB-A-24(48)S.
    let cost = terms(100, 7_250, TaxOn::Whole, 0).cost(10_000);
    assert_eq!((cost.hammer, cost.premium, cost.taxed), (10_000, 1_000, 11_000));
    // Published: HM Revenue and Customs, manual VATMARG04150: hammer price 10,000, premium of 12 % 1,200, in all 11,200; the
    // buyer's price holds the tax of that scheme, so none is put on top.
    let cost = terms(120, 20_000, TaxOn::Nothing, 0).cost(1_000_000);
    assert_eq!((cost.premium, cost.tax, cost.total), (120_000, 0, 1_120_000));
}

#[test]
fn tax_is_rounded_as_the_agreement_of_the_states_says() {
    // Published: Streamlined Sales and Use Tax Agreement, section 324 (Kansas Statutes 79-3676): to the third decimal place,
    // and up to the next cent whenever that is greater than four. The rates are arithmetic.
    for (taxed, rate, tax) in [
        (10_000, 8_875, 888), // 8.875
        (1_000, 7_450, 75),   // 0.745
        (1_000, 7_440, 74),   // 0.744
        (99, 5_000, 5),       // 0.0495: the third place is 9
        (10, 4_900, 0),       // 0.0049: the third place is 4
        (10, 5_000, 1),       // 0.005
    ] {
        assert_eq!(terms(0, rate, TaxOn::Whole, 0).cost(taxed).tax, tax, "{taxed} at {rate}");
    }
}

#[test]
fn what_the_tax_is_on() {
    // Arithmetic: hammer 1,000.00, premium 20 % 200.00, tax 10 %.
    for (on, tax) in
        [(TaxOn::Whole, 12_000), (TaxOn::Hammer, 10_000), (TaxOn::Premium, 2_000), (TaxOn::Nothing, 0)]
    {
        assert_eq!(terms(200, 10_000, on, 500).cost(100_000).total, 100_000 + 20_000 + tax + 500);
    }
}

#[test]
fn highest_bids() {
    // Arithmetic: (120 - 12) / (1.20 x 1.07) = 84.11; 120 / 1.25 = 96; 120 / 1.15 = 104.347, whose premium of 15.651 is
    // rounded to 15.65, so that 104.35 costs 120.00.
    let most = |premium, tax, shipping| terms(premium, tax, TaxOn::Whole, shipping).most(12_000);
    assert_eq!(most(200, 7_000, 1_200), Some(8_411));
    assert_eq!(most(250, 0, 0), Some(9_600));
    assert_eq!(most(150, 0, 0), Some(10_435));
    assert_eq!(most(200, 7_000, 12_000), None, "carriage eats it all");
    assert_eq!(terms(0, 0, TaxOn::Whole, 0).most(-5), None);
}

#[test]
fn bids_stand_on_steps() {
    let steps = prices().steps;
    // Practice, data/reference/prices/steps.csv: by 1 to 20, by 2.50 to 50, by 5 to 100, by 10 to 200.
    for (minor, bid, next) in [
        (0, 0, 100),
        (99, 0, 100),
        (1_950, 1_900, 2_000),
        (2_000, 2_000, 2_250),
        (4_999, 4_750, 5_000),
        (8_411, 8_000, 8_500),
        (10_435, 10_000, 11_000),
        (123_456, 120_000, 130_000),
    ] {
        assert_eq!((on_step(&steps, minor), next_bid(&steps, minor)), (bid, next), "{minor}");
    }
    assert_eq!((on_step(&[], 500), on_step(&steps, -1)), (0, 0));
}

fn any_terms() -> impl Strategy<Value = Terms> {
    let on = prop::sample::select(vec![TaxOn::Whole, TaxOn::Hammer, TaxOn::Premium, TaxOn::Nothing]);
    (0_u16..=1000, 0_u32..=60_000, on, 0_i64..100_000).prop_map(|(premium, tax, on, shipping)| Terms {
        premium,
        tax,
        on,
        shipping,
    })
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 3000,
        rng_seed: proptest::test_runner::RngSeed::Fixed(63),
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn it_costs_at_most_the_limit_and_a_cent_more_costs_more(terms in any_terms(), limit in 0_i64..50_000_000) {
        let steps = &tables().steps;
        match terms.most(limit) {
            Some(bid) => {
                prop_assert!(terms.cost(bid).total <= limit && terms.cost(bid + 1).total > limit, "{bid}");
                let lower = on_step(steps, bid);
                prop_assert!(lower <= bid && bid < next_bid(steps, bid), "{lower} {bid}");
                prop_assert_eq!(on_step(steps, lower), lower, "a bid on the steps stays there");
                // By floats, which know nothing of rounding to cents: within the cents of two roundings.
                let (p, t) = (f64::from(terms.premium) / 1e3, f64::from(terms.tax) / 1e5);
                let each = match terms.on {
                    TaxOn::Whole => (1.0 + p) * (1.0 + t),
                    TaxOn::Hammer => 1.0 + p + t,
                    TaxOn::Premium => 1.0 + p * (1.0 + t),
                    TaxOn::Nothing => 1.0 + p,
                };
                let closed = (limit - terms.shipping) as f64 / each;
                prop_assert!((bid as f64 - closed).abs() <= 2.2, "{bid} {closed}");
            }
            None => prop_assert!(terms.cost(1).total > limit),
        }
    }

    #[test]
    fn lines_sum_to_the_total_and_more_never_costs_less(terms in any_terms(), bid in 0_i64..100_000_000) {
        let (one, more) = (terms.cost(bid), terms.cost(bid + 1));
        prop_assert_eq!(one.hammer + one.premium + one.tax + one.shipping, one.total);
        prop_assert!(one.total < more.total);
        // Halves go up: twice the exact amount lies within one of twice the rounded one, and never on the far side.
        let exact = 2 * one.hammer * i64::from(terms.premium);
        let away = exact - 2000 * one.premium;
        prop_assert!((-1000..1000).contains(&away), "{away}");
    }

    #[test]
    fn any_amount_is_answered(premium in any::<u16>(), tax in any::<u32>(), shipping in any::<i64>(), amount in any::<i64>()) {
        let terms = Terms { premium, tax, on: TaxOn::Whole, shipping };
        let cost = terms.cost(amount);
        prop_assert!(cost.total >= 0);
        if let Some(bid) = terms.most(amount) {
            prop_assert!(terms.cost(bid).total <= amount);
        }
    }
}
