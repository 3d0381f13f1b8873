//! Sales of a ledger at work: the band of the first kind without them and with them. The finding knows nothing of it.

use super::day::find;
use super::typed::money;
use super::view::{SaleRow, SeenView};
use super::worths;
use crate::finding::Facts;
use crate::guide::Guide;
use crate::state::State;
use appraise::{Band, Comparable, Estimate, Of, comparables, round_down, round_up};
use pack::Worth;
use pack::prices::{Meaning, Prices, Sort};

fn worth(guide: &Guide, kind: u16) -> Option<Worth> {
    guide.core.kinds.get(usize::from(kind))?.makes.first()?.as_ref()?.worth.clone()
}

fn sort(sort: Sort) -> Meaning {
    match sort {
        Sort::Sold => Meaning::Hammer,
        Sort::Paid => Meaning::Paid,
        Sort::Asking => Meaning::Asking,
    }
}

fn row(guide: &Guide, prices: &Prices, sale: &Comparable, used: bool) -> SaleRow {
    let named = prices.meanings.iter().find(|d| d.meaning == sort(sale.sort));
    let premium = sale
        .premium
        .map_or(String::new(), |p| format!(" and {} premium", super::typed::per_cent(i64::from(p))));
    let conditions = sale.condition.iter().filter_map(|c| prices.conditions.get(usize::from(*c)));
    let conditions: Vec<&str> = conditions.map(|c| c.name.as_str()).collect();
    let make = guide.core.makes.get(usize::from(sale.of.make)).map_or("", |m| m.name.as_str());
    SaleRow {
        date: super::day::date_text(sale.date),
        price: format!("{}{premium}", money(sale.price.minor, sale.price.currency)),
        meaning: named.map_or(String::new(), |d| d.name.clone()),
        what: if conditions.is_empty() {
            make.to_string()
        } else {
            format!("{make}; {}", conditions.join("; "))
        },
        basis: sale.basis.phrase().to_string(),
        used,
    }
}

pub(super) fn view(guide: &Guide, prices: &Prices, state: &State, facts: &Facts) -> SeenView {
    let mut view = SeenView { on: state.sale.invented, ..SeenView::default() };
    let Some(ledger) = guide.tables.demo.get().filter(|_| view.on) else {
        view.coming = view.on;
        return view;
    };
    view.notice.clone_from(&ledger.notice);
    let kind = &guide.core.kinds[facts.first];
    view.kind = format!("{}: period pieces", kind.name);
    let found = comparables(ledger, prices, &|kind, make| find(guide, kind, make));
    let first = u16::try_from(facts.first).unwrap_or(u16::MAX);
    let family = found.sales.iter().map(|s| s.of).find(|o| o.kind == first).map_or(u16::MAX, |o| o.family);
    let of = Of { kind: first, make: 0, family };
    let own = |s: &&Comparable| s.of.kind == of.kind && s.of.make == of.make;
    if !found.sales.iter().any(|s| own(&s)) {
        view.none = Some("This ledger has no sale of such a piece.".to_string());
        return view;
    }
    let Some(worth) = worth(guide, first) else {
        view.none = Some("The guide has no band for such a piece, and sales alone are not one.".to_string());
        return view;
    };
    let market = worths::market(guide, prices, worth.low.currency);
    let drift = market.drift(of, &found.sales, &|kind| self::worth(guide, kind));
    let Some(after) = market.estimate(of, &worth, drift, &found.sales) else { return view };
    let code = worth.low.currency;
    let range = |q: [i64; 5]| {
        let whole =
            |low, high| format!("{} to {} {}", round_down(low) / 100, round_up(high) / 100, code.code());
        format!("half of such {}; 8 in 10 {}", whole(q[1], q[3]), whole(q[0], q[4]))
    };
    let year = market.money_year();
    if let Some(ratio) = worths::ratio(&market, worth.year) {
        let band = Band::of_middle_half(worth.low.minor, worth.high.minor).at(ratio);
        let before = range([0.10, 0.25, 0.50, 0.75, 0.90].map(|s| band.quantile(s)));
        view.before = format!("{before}; {}", worth.basis.phrase());
    }
    let basis = after.quantiles[2].basis;
    view.with = format!("{}; {}", range(after.quantiles.map(|f| f.money.minor)), basis.phrase());
    view.rests = format!("{} Typical prices in money of {year}.", count(&after));
    let used = |at: usize| after.sales.contains(&at);
    let ours = found.sales.iter().enumerate().filter(|(_, s)| own(s));
    view.sales = ours.map(|(at, s)| row(guide, prices, s, used(at))).collect();
    view
}

fn count(after: &Estimate) -> String {
    let sales = after.sales.len();
    let many = if sales == 1 { "One sale is".to_string() } else { format!("{sales} sales are") };
    let as_many = super::typed::shown(i64::from(after.tenths), 1, false);
    format!("{many} pooled; less for age, likeness and doubtful condition, as if {as_many} sales of now.")
}
