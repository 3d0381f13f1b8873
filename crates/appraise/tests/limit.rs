//! Limits and the sheet for the day of a sale.

use crate::common::{KIND, currency, prices, tables, usd};
use appraise::{Figure, Hopes, Lot, Outcome, Part, Sheet, TaxOn, Terms, Why, suggest};
use pack::prices::{Date, Limit, Meaning, Sort};
use proptest::prelude::*;
use units::Basis;

fn figure(minor: i64, basis: Basis) -> Figure {
    Figure { money: usd(minor), year: 2025, basis, meaning: Meaning::Typical }
}

fn hopes(right: i64, copy: i64, chance: u16) -> Hopes {
    Hopes {
        right: figure(right, Basis::Practice),
        copy: figure(copy, Basis::Memory),
        chance,
        condition: 1000,
        basis: Basis::Practice,
        repair: 0,
        keeps: Limit { margin: 0, gap: 1250, basis: Basis::Practice },
        gap: false,
    }
}

#[test]
fn a_limit_line_by_line() {
    // Arithmetic: 0.6 x 150 + 0.4 x 8 = 93.20.
    let plain = suggest(&hopes(15_000, 800, 400)).expect("one currency");
    let shown: Vec<(Why, i64)> = plain.lines.iter().map(|l| (l.why, l.minor)).collect();
    assert_eq!(shown, [(Why::Right, 9_000), (Why::Copy, 320)]);
    assert_eq!(
        plain.limit,
        Figure { basis: Basis::Memory, meaning: Meaning::Limit, ..figure(9_320, Basis::Memory) }
    );
    // Arithmetic: 93.20 x 0.8 = 74.56, less 10 = 64.56, less 15 % (9.684) = 54.88, and a quarter more = 68.60.
    let whole = Hopes {
        condition: 800,
        repair: 1_000,
        keeps: Limit { margin: 150, gap: 1250, basis: Basis::Practice },
        gap: true,
        ..hopes(15_000, 800, 400)
    };
    let found = suggest(&whole).expect("one currency");
    let shown: Vec<(Why, i64)> = found.lines.iter().map(|l| (l.why, l.minor)).collect();
    assert_eq!(
        shown,
        [
            (Why::Right, 9_000),
            (Why::Copy, 320),
            (Why::Condition, -1_864),
            (Why::Repair, -1_000),
            (Why::Margin, -968),
            (Why::Gap, 1_372),
        ]
    );
    assert_eq!(found.limit.money.minor, 6_860);
}

#[test]
fn two_sorts_of_money_make_no_limit() {
    let mut mixed = hopes(15_000, 800, 400);
    mixed.copy.money.currency = currency("EUR");
    assert_eq!(suggest(&mixed), None);
    let mut years = hopes(15_000, 800, 400);
    years.copy.year = 2020;
    assert_eq!(suggest(&years), None);
}

fn part(limit: i64, gap: bool) -> Part {
    Part { of: Some(KIND), condition: Vec::new(), limit, gap }
}

fn sheet(budget: i64, lots: Vec<Vec<Part>>) -> Sheet {
    Sheet {
        date: Date { year: 2026, month: 5, day: 9 },
        currency: currency("USD"),
        budget,
        terms: Terms { premium: 200, tax: 0, on: TaxOn::Whole, shipping: 0 },
        lots: lots.into_iter().map(|parts| Lot { parts, outcome: None }).collect(),
    }
}

#[test]
fn a_day_at_a_sale() {
    let prices = prices();
    let mixed = vec![part(3_000, false), part(2_000, true)];
    let mut day = sheet(15_000, vec![vec![part(12_000, false)], mixed, vec![part(9_000, false)]]);
    // Arithmetic, with the gap of the tables (1.25) and a premium of 20 %: 120 / 1.2 = 100; 30 + 25 = 55, / 1.2 = 45.83, on
    // the step below 45; 90 / 1.2 = 75.
    let bid = |day: &Sheet, lot| day.bid(lot, &prices, &prices.steps).map(|c| (c.hammer, c.total));
    assert_eq!([0, 1, 2].map(|l| day.limit(l, &prices)), [12_000, 5_500, 9_000]);
    assert_eq!(
        [0, 1, 2].map(|l| bid(&day, l)),
        [Some((10_000, 12_000)), Some((4_500, 5_400)), Some((7_500, 9_000))]
    );
    // The first is won at 70, which costs 84: 66 are left, and the third is worth no more than 55 now.
    day.lots[0].outcome = Some(Outcome::Won(7_000));
    assert_eq!((day.spent(), day.left()), (8_400, Some(6_600)));
    assert_eq!([0, 1, 2].map(|l| bid(&day, l)), [None, Some((4_500, 5_400)), Some((5_500, 6_600))]);
    // Lost lots cost nothing; lots that were won with more than there was leave less than nothing.
    day.lots[1].outcome = Some(Outcome::Lost(5_000));
    assert_eq!(day.left(), Some(6_600));
    day.lots[2].outcome = Some(Outcome::Won(20_000));
    assert!(day.left().is_some_and(|left| left < 0));
}

#[test]
fn results_become_prices_to_compare_with() {
    let mut day =
        sheet(0, vec![vec![part(1, false)], vec![part(1, false), part(1, false)], vec![part(1, false)]]);
    day.lots[0].outcome = Some(Outcome::Lost(6_500));
    day.lots[1].outcome = Some(Outcome::Won(9_000));
    day.lots[2].outcome = Some(Outcome::Passed);
    let seen = day.comparable(0, Basis::Memory).expect("a price");
    assert_eq!((seen.paid(), seen.sort, seen.of, seen.date.year), (7_800, Sort::Sold, KIND, 2026));
    assert_eq!(day.comparable(1, Basis::Memory), None, "what part of a mixed lot brought is not known");
    assert_eq!(day.comparable(2, Basis::Memory), None);
    assert_eq!(day.comparable(9, Basis::Memory), None);
    day.lots[0].parts[0].of = None;
    assert_eq!(day.comparable(0, Basis::Memory), None, "nobody knows what it was");
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 1000,
        rng_seed: proptest::test_runner::RngSeed::Fixed(63),
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn the_lines_sum_to_the_limit(
        (right, copy, chance) in (0_i64..10_000_000, 0_i64..100_000, 0_u16..=1000),
        (condition, repair) in (1_u32..6000, 0_i64..100_000),
        (margin, gap, lacks) in (0_u16..1000, 1000_u16..3000, any::<bool>()),
    ) {
        let keeps = Limit { margin, gap, basis: Basis::Practice };
        let asked = Hopes { condition, repair, keeps, gap: lacks, ..hopes(right, copy, chance) };
        let found = suggest(&asked).expect("one currency");
        prop_assert_eq!(found.lines.iter().map(|l| l.minor).sum::<i64>(), found.limit.money.minor);
        prop_assert!(found.limit.money.minor >= 0);
        // A likelier copy that is worth less never raises it; more repair never does.
        if copy <= right && chance < 1000 {
            let worse = suggest(&Hopes { chance: chance + 1, ..asked }).expect("one currency");
            prop_assert!(worse.limit.money.minor <= found.limit.money.minor + 2, "but for rounding of two lines");
        }
        let worse = suggest(&Hopes { repair: repair + 100, ..asked }).expect("one currency");
        prop_assert!(worse.limit.money.minor <= found.limit.money.minor);
    }

    #[test]
    fn bids_keep_the_limit_and_the_budget(
        budget in 0_i64..5_000_000,
        limits in proptest::collection::vec((0_i64..2_000_000, any::<bool>()), 1..8),
        outcomes in proptest::collection::vec(0_i64..1_000_000, 0..8),
    ) {
        let prices = tables();
        let mut day = sheet(budget, limits.iter().map(|(l, g)| vec![part(*l, *g)]).collect());
        for (lot, hammer) in day.lots.iter_mut().zip(outcomes) {
            lot.outcome = Some(Outcome::Won(hammer));
        }
        for lot in 0..day.lots.len() {
            if let Some(cost) = day.bid(lot, prices, &prices.steps) {
                prop_assert!(day.left().is_none_or(|left| cost.total <= left) && cost.total <= day.limit(lot, prices));
            }
        }
    }
}
