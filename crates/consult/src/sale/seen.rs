//! Sales at work: the band of the first kind without them and with them. Results on the user's own sheet move the limit that is
//! suggested; invented ones move nothing but what stands here.

use super::typed::money;
use super::view::{SaleRow, SeenView, SoldView};
use super::{day, worths};
use crate::bands::{Bands, plain, range, worth};
use crate::finding::Facts;
use crate::guide::Guide;
use crate::state::State;
use appraise::{Comparable, Estimate, Of, comparables};
use pack::prices::{Meaning, Prices, Sort};
use pack::{Candidate, Worth};
use units::Basis;

/// A result of a kind that is less likely than this is not spoken of. Basis: practice.
const FITS: f64 = 0.05;

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

pub(super) fn view(guide: &Guide, prices: &Prices, state: &State, facts: &Facts) -> SoldView {
    let noted = day::noted(guide, prices, state);
    let mut view = SoldView { on: state.sale.invented, ..SoldView::default() };
    view.noted = seen(guide, prices, facts, &noted, "No result of such a piece is on your sheet.");
    if view.on {
        match guide.tables.demo.get() {
            None => view.coming = true,
            Some(ledger) => {
                view.notice.clone_from(&ledger.notice);
                let found = comparables(ledger, prices, &|kind, make| day::find(guide, kind, make));
                let none = "This ledger has no sale of such a piece.";
                view.invented = Some(seen(guide, prices, facts, &found.sales, none));
            }
        }
    }
    view
}

/// What sales do to the band of the first kind's period pieces.
fn seen(guide: &Guide, prices: &Prices, facts: &Facts, sales: &[Comparable], none: &str) -> SeenView {
    let kind = &guide.core.kinds[facts.first];
    let mut view = SeenView { kind: format!("{}: period pieces", kind.name), ..SeenView::default() };
    let first = u16::try_from(facts.first).unwrap_or(u16::MAX);
    let family = sales.iter().map(|s| s.of).find(|o| o.kind == first).map_or(u16::MAX, |o| o.family);
    let of = Of { kind: first, make: 0, family };
    let own = |s: &&Comparable| s.of.kind == of.kind && s.of.make == of.make;
    if !sales.iter().any(|s| own(&s)) {
        view.none = Some(none.to_string());
        return view;
    }
    let Some(worth) = worth(guide, first, 0) else {
        view.none = Some("The guide has no band for such a piece, and sales alone are not one.".to_string());
        return view;
    };
    let market = worths::market(guide, prices, worth.low.currency);
    let drift = market.drift(of, sales, &|kind| worth_of(guide, kind));
    let Some(after) = market.estimate(of, worth, drift, sales) else { return view };
    let code = worth.low.currency;
    let both = |q: [i64; 5]| {
        format!("half of such {}; 8 in 10 {}", range(q[1], q[3], code), range(q[0], q[4], code))
    };
    let year = market.money_year();
    if let Some(ratio) = worths::ratio(&market, worth.year) {
        let band = plain(worth).at(ratio);
        let before = both([0.10, 0.25, 0.50, 0.75, 0.90].map(|s| band.quantile(s)));
        view.before = format!("{before}; {}", worth.basis.phrase());
    }
    let basis = after.quantiles[2].basis;
    view.with = format!("{}; {}", both(after.quantiles.map(|f| f.money.minor)), basis.phrase());
    view.rests = format!("{} Typical prices in money of {year}.", count(&after));
    let used = |at: usize| after.sales.contains(&at);
    let ours = sales.iter().enumerate().filter(|(_, s)| own(s));
    view.sales = ours.map(|(at, s)| row(guide, prices, s, used(at))).collect();
    view
}

fn worth_of(guide: &Guide, kind: u16) -> Option<Worth> {
    worth(guide, kind, 0).cloned()
}

/// What the results on the sheet do to the band of a finding, in a sentence; none when none is of a kind that fits, or the
/// tables have not come.
pub(super) fn line(guide: &Guide, state: &State, facts: &Facts) -> Option<String> {
    let prices = guide.tables.prices.get()?;
    let noted = day::noted(guide, prices, state);
    let fits = |s: &&Comparable| facts.kinds.get(usize::from(s.of.kind)).is_some_and(|p| *p >= FITS);
    let sales = noted.iter().filter(fits).count();
    if sales == 0 {
        return None;
    }
    let market = worths::market(guide, prices, worths::currency(guide, prices)?);
    let band = |c: &Candidate, worth: &Worth| worths::moved(&market, c, worth, &noted);
    let bands = Bands::of(guide, facts, Some(market.currency), &|_| true, &band)?;
    let results = if sales == 1 { "the result".to_string() } else { format!("{sales} results") };
    Some(format!(
        "With {results} of such kinds on your sheet: half of such {}; 8 in 10 {}. Money of {}, {}.",
        bands.between(0.25, 0.75),
        bands.between(0.10, 0.90),
        market.money_year(),
        bands.basis.max(Basis::Memory).phrase()
    ))
}

fn count(after: &Estimate) -> String {
    let sales = after.sales.len();
    let many = if sales == 1 { "One sale is".to_string() } else { format!("{sales} sales are") };
    let as_many = super::typed::shown(i64::from(after.tenths), 1, false);
    format!("{many} pooled; less for age, likeness and doubtful condition, as if {as_many} sales of now.")
}
