//! Twelve sets of invented sales, held against numpy and scipy: `tests/fixtures/appraise`. The other engine works with
//! matrices and reads the index, the conditions and the assumptions for itself.

use crate::common::{YEAR, at, currency, prices};
use appraise::{Comparable, Drift, Market, Of, Pool};
use pack::Worth;
use pack::prices::{Date, Prices, Sort};
use std::fs;
use units::{Basis, Money};

fn rows(name: &str) -> Vec<Vec<String>> {
    let text = fs::read_to_string(at("tests/fixtures/appraise").join(name)).expect("a file of the fixture");
    text.lines().skip(1).map(|l| l.split(',').map(str::to_string).collect()).collect()
}

fn number<T: std::str::FromStr>(cell: &str) -> T {
    cell.parse().ok().expect("a number")
}

fn worth_of(row: &[String]) -> Worth {
    let money = |cell: &String| Money { minor: number(cell), currency: currency(&row[2]) };
    let (low, high) = (money(&row[3]), money(&row[4]));
    Worth { low, high, year: number(&row[5]), basis: Basis::Invented, source: None }
}

fn sale_of(row: &[String], code: &str, prices: &Prices) -> Comparable {
    let place = |id: &str| prices.conditions.iter().position(|c| c.id == id).expect("a condition");
    Comparable {
        date: Date { year: number(&row[2]), month: 0, day: 0 },
        price: Money { minor: number(&row[3]), currency: currency(code) },
        premium: (!row[4].is_empty()).then(|| number(&row[4])),
        sort: Sort::Sold,
        of: Of { kind: number(&row[1]), make: 0, family: 0 },
        condition: row[6].split_whitespace().map(|id| u16::try_from(place(id)).expect("few")).collect(),
        likeness: number(&row[5]),
        basis: Basis::Invented,
    }
}

/// Basis of the bounds: an amount is rounded to the minor unit and may fall on either side of a half; per mille likewise.
#[test]
fn bands_after_sales_are_those_of_another_engine() {
    let prices = prices();
    let (kinds, sales, expected) = (rows("kinds.csv"), rows("sales.csv"), rows("expected.csv"));
    assert_eq!(expected.len(), 12, "the sets are not all there");
    let (mut pooled, mut widest) = (0, 0.0_f64);
    for set in &expected {
        let bands: Vec<&Vec<String>> = kinds.iter().filter(|k| k[0] == set[0]).collect();
        let code = &bands[0][2];
        let here = sales.iter().filter(|s| s[0] == set[0]);
        let sales: Vec<Comparable> = here.map(|row| sale_of(row, code, &prices)).collect();
        let market = Market { prices: &prices, this_year: YEAR, currency: currency(code), pool: Pool::Sold };
        let of = Of { kind: 0, make: 0, family: 0 };
        let worth = |kind: u16| bands.get(usize::from(kind)).map(|row| worth_of(row));
        let drift = market.drift(of, &sales, &worth);
        let found = market.estimate(of, &worth(0).expect("a band"), drift, &sales).expect("a band");
        let close = |here: f64, cell: &String, within: f64| {
            let there: f64 = number(cell);
            assert!((here - there).abs() <= within, "set {}: {here} is not {there}", set[0]);
        };
        for (figure, cell) in found.quantiles.iter().zip(&set[1..6]) {
            close(figure.money.minor as f64, cell, 0.501);
        }
        close(f64::from(found.tenths) / 10.0, &set[6], 0.051);
        for (drift, cells) in [(drift, &set[7..9]), (found.drift, &set[9..11])] {
            let (mean, sd) = drift.per_mille();
            close(f64::from(mean), &cells[0], 0.501);
            close(f64::from(sd), &cells[1], 0.501);
        }
        pooled += found.sales.len();
        let [low, .., high] = found.quantiles.map(|q| q.money.minor as f64);
        widest = widest.max(high / low);
    }
    println!(
        "figure: bands after sales: 12 sets, {pooled} sales pooled, as another engine; widest {widest:.1}"
    );
    assert!(pooled > 60, "{pooled}");
}

#[test]
fn nothing_known_of_a_family_is_the_assumption() {
    let prices = prices();
    assert_eq!(Drift::unknown(&prices).per_mille(), (0, u32::from(prices.update.drift)));
}
