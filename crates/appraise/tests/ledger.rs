//! The ledger of the demonstration: it compiles, says that it is invented, and its falling family is found to fall.

use crate::common::{at, irons, lines, market, prices, texts};
use appraise::{Found, Of, comparables};
use compile::{Compiled, Files, Reference};
use pack::Worth;
use pack::prices::{Ledger, Prices, Sort, read_ledger};
use std::sync::OnceLock;
use units::Basis;

fn demo() -> Vec<(String, String)> {
    texts("data/packs/demo", &[""])
}

fn ledger(prices: &Prices) -> Ledger {
    let made = Reference::ledger(&Files::new(demo()), &irons(), prices);
    let made = made.map_err(|f| lines(&f)).expect("a ledger without faults");
    println!(
        "figure: ledger of the demonstration: {} bytes, {} sales, sha {}",
        made.bytes.len(),
        made.made.sales.len(),
        &made.digest[..12]
    );
    assert_eq!(read_ledger(&made.bytes).as_ref(), Ok(&made.made));
    made.made
}

fn pack() -> &'static Compiled {
    static PACK: OnceLock<Compiled> = OnceLock::new();
    PACK.get_or_init(|| compile::compile(&irons()).map_err(|f| lines(&f)).expect("a pack without faults"))
}

fn find(kind: &str, make: &str) -> Option<(u16, u16)> {
    let core = &pack().core;
    let kind = core.kinds.iter().position(|k| k.id == kind)?;
    let make = core.makes.iter().position(|m| m.id == make)?;
    Some((u16::try_from(kind).ok()?, u16::try_from(make).ok()?))
}

fn worth(kind: u16, make: u16) -> Option<Worth> {
    pack().core.kinds.get(usize::from(kind))?.makes.get(usize::from(make))?.as_ref()?.worth.clone()
}

#[test]
fn everything_is_invented_and_says_so() {
    let prices = prices();
    let ledger = ledger(&prices);
    assert!(ledger.sales.len() >= 60 && ledger.sales.iter().all(|s| s.basis == Basis::Invented));
    assert!(ledger.notice.contains("nvented"));
    let years = (ledger.sales[0].date.year, ledger.sales[ledger.sales.len() - 1].date.year);
    assert_eq!(years, (2016, 2025));
    for file in ["ledger.toml", "sales.csv"] {
        let text = std::fs::read_to_string(at("data/packs/demo").join(file)).expect("a file of the ledger");
        let top = text.lines().next().expect("a first line");
        assert!(top.starts_with('#') && top.contains("invented"), "{file} does not say so at its top");
    }
}

#[test]
fn prices_are_plausible_beside_the_bands_of_the_pack() {
    let prices = prices();
    let ledger = ledger(&prices);
    let Found { sales, left_out } = comparables(&ledger, &prices, &find);
    assert_eq!((sales.len(), left_out), (ledger.sales.len(), 0));
    for (sale, row) in sales.iter().zip(&ledger.sales) {
        let band = worth(sale.of.kind, sale.of.make).expect("a band of a kind that is sold");
        let (low, high) = (band.low.minor / 5, band.high.minor * 4);
        // Practice: a fifth of the lower quartile to four times the upper, faults and merits included.
        assert!((low..high).contains(&sale.paid()), "{row:?}");
    }
    let of = |sort: Sort| sales.iter().filter(|s| s.sort == sort).count();
    let sorts = [Sort::Sold, Sort::Paid, Sort::Asking].map(of);
    println!("figure: ledger of the demonstration: sold, paid, asking {sorts:?}");
    assert!(sorts.iter().all(|n| *n >= 5));
}

#[test]
fn the_falling_family_is_found_to_fall() {
    let prices = prices();
    let found = comparables(&ledger(&prices), &prices, &find);
    let market = market(&prices);
    let drift = |kind: &str| {
        let (kind, make) = find(kind, "period").expect("a kind of the pack");
        let family = found.sales.iter().find(|s| s.of.kind == kind).expect("it was sold").of.family;
        market.drift(Of { kind, make, family }, &found.sales, &|kind| worth(kind, make))
    };
    // Invented to fall by nine in a hundred a year against all prices but for the index: the loose grips. The rest stays.
    let (falls, doubt) = drift("double-word").per_mille();
    let (stays, other) = drift("pierced-grip").per_mille();
    println!(
        "figure: drift of the falling family {falls} +- {doubt}, of another {stays} +- {other} per mille a year"
    );
    assert!(falls + 2 * i32::try_from(doubt).expect("small") < 0, "{falls} {doubt}");
    assert!(stays.abs() <= 2 * i32::try_from(other).expect("small"), "{stays} {other}");
}

#[test]
fn a_kind_that_the_pack_does_not_have_is_left_out() {
    let prices = prices();
    let ledger = ledger(&prices);
    let some = |kind: &str, make: &str| find(kind, make).filter(|_| kind != "hooded");
    let found = comparables(&ledger, &prices, &some);
    let hooded = ledger.sales.iter().filter(|s| ledger.of[usize::from(s.of)].kind == "hooded").count();
    assert!(found.left_out == hooded && hooded > 0);
    let mut fewer = prices.clone();
    fewer.conditions.retain(|c| c.id != "stripped");
    assert!(comparables(&ledger, &fewer, &find).left_out > 0, "a condition that the tables do not have");
}
