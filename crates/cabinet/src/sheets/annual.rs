//! One year of the collection.

use super::sheet::{NO_APPRAISAL, Sheet, called, pieces};
use super::totals::totals;
use crate::record::{Date, Deal, Record, Standing, Value, is_old, lacks};
use units::{Currency, Money};

/// What came and went in a year, what it cost and brought, and what is left to do. `today` is given.
#[must_use]
pub fn annual(records: &[&Record], year: i16, today: Date) -> Sheet {
    let mut sheet = Sheet::new(format!("The year {year}"));
    let count = |standing| records.iter().filter(|r| r.standing == standing).count();
    sheet.facts(vec![
        ("Owned", count(Standing::Owned).to_string()),
        ("Wanted", count(Standing::Wanted).to_string()),
        ("Passed over", count(Standing::PassedOver).to_string()),
        ("Sold", count(Standing::Sold).to_string()),
    ]);
    let came = of_year(records, year, &|r| r.acquired.as_ref());
    let went = of_year(records, year, &|r| r.parted.as_ref());
    for (heading, paid, deals) in [("Came", "Paid", came), ("Went", "Received", went)] {
        sheet.heading(heading);
        sheet.says(format!("{}.", pieces(deals.len())));
        let row =
            |(r, d): &(&Record, &Deal)| vec![d.date.shown(), called(r), d.with.clone(), d.price.shown()];
        sheet.table(&["day", "piece", "with", "price"], deals.iter().map(row).collect());
        let sums: Vec<String> = sums(&deals).into_iter().map(|m| format!("{paid}: {}.", m.shown())).collect();
        sums.into_iter().for_each(|says| sheet.says(says));
        let unpriced = deals.iter().filter(|(_, d)| d.price.is_none()).count();
        if unpriced > 0 {
            sheet.says(format!("{} without a price, in no sum.", pieces(unpriced)));
        }
    }
    let owned: Vec<&Record> = records.iter().copied().filter(|r| r.standing == Standing::Owned).collect();
    sheet.heading("Value of what is owned");
    sheet.sums(&totals(&owned));
    sheet.says(NO_APPRAISAL);
    let old: Vec<String> =
        owned.iter().filter(|r| is_old(r, today)).map(|r| format!("{}.", called(r))).collect();
    sheet.list("To be valued again", old);
    let lacking: Vec<Vec<String>> = owned
        .iter()
        .map(|r| (called(r), lacks(r, today)))
        .filter(|(_, lacks)| !lacks.is_empty())
        .map(|(name, lacks)| vec![name, lacks.len().to_string(), lacks[0].clone()])
        .collect();
    if !lacking.is_empty() {
        sheet.heading("To be completed");
        sheet.table(&["piece", "lacks", "first of all"], lacking);
    }
    sheet
}

/// The deals of a year, each with its record.
fn of_year<'a>(
    records: &[&'a Record],
    year: i16,
    of: &dyn Fn(&'a Record) -> Option<&'a Deal>,
) -> Vec<(&'a Record, &'a Deal)> {
    let deals = records.iter().filter_map(|r| Some((*r, of(r)?)));
    deals.filter(|(_, d)| d.date.is_some_and(|d| d.year == year)).collect()
}

/// The prices by currency.
fn sums(deals: &[(&Record, &Deal)]) -> Vec<Money> {
    let mut out: Vec<Money> = Vec::new();
    for price in deals.iter().filter_map(|(_, d)| d.price) {
        let same = |c: Currency| move |m: &&mut Money| m.currency == c;
        match out.iter_mut().find(same(price.currency)) {
            Some(sum) => sum.minor = sum.minor.saturating_add(price.minor),
            None => out.push(price),
        }
    }
    out
}
