//! Rows of years and values, and the steps of bids.

use super::super::Context;
use super::super::rows::rows;
use crate::cursor::Table;
use crate::fault::quote;
use crate::text::Limit;
use pack::prices::{Index, Step};
use units::{Currency, Year};

/// The `[[index]]` tables, and the files that hold their values.
pub(super) fn read(top: &Table<'_>, context: &Context<'_>) -> (Vec<Index>, Vec<String>) {
    let (mut list, mut files): (Vec<Index>, Vec<String>) = (Vec::new(), Vec::new());
    for t in top.tables("index") {
        let rests = context.rests_of(&t);
        let name = t.need_text("name", Limit::NAME, "name = \"Consumer prices, United States\"");
        let code = t.need_text("currency", Limit::NAME, "currency = \"USD\"");
        let file = t.need_text("file", Limit::NAME, "file = \"cpi-us.csv\"");
        t.done();
        let currency = currency(&code, &t, "currency");
        if !file.is_empty() && context.files.get(&file).is_none() {
            context.faults.add(&t.spot_of("file"), format!("There is no file {}.", quote(&file)), "");
        }
        let (first, values) = values(&file, context);
        files.push(file);
        let Some(currency) = currency else { continue };
        if list.iter().any(|i| i.currency == currency) {
            let says = format!("There is an index for {} already.", quote(&code));
            context.faults.add(&t.spot_of("currency"), says, "One for each currency.");
        }
        list.push(Index { currency, name, first, values, basis: rests.basis, source: rests.source });
    }
    (list, files)
}

/// A code such as `USD`.
pub(super) fn currency(code: &str, table: &Table<'_>, field: &str) -> Option<Currency> {
    let found = Currency::new(code);
    if found.is_none() && !code.is_empty() {
        let says = format!("{} is no currency.", quote(code));
        table.faults().add(&table.spot_of(field), says, "Write three capitals, such as USD.");
    }
    found
}

/// One value a year, without a gap; the first year.
fn values(path: &str, context: &Context<'_>) -> (Year, Vec<u32>) {
    let (mut first, mut values) = (1600, Vec::new());
    for row in rows(path, &["year", "value"], context) {
        let Some(year) = row.whole("year", 1600, 2200, context).and_then(|y| Year::try_from(y).ok()) else {
            continue;
        };
        let value = row.decimal("value", 3, 1, 99_999_999, context).and_then(|v| u32::try_from(v).ok());
        if values.is_empty() {
            first = year;
        }
        let Some(value) = value else { continue };
        if usize::try_from(year - first).ok() != Some(values.len()) {
            let hint = "Rows stand in order, one for each year, none left out.";
            context.faults.add(&row.at("year"), "The year does not follow the one above it.", hint);
            return (first, values);
        }
        values.push(value);
    }
    (first, values)
}

/// `steps.csv`: amounts in units of the currency.
pub(super) fn steps(context: &Context<'_>) -> Vec<Step> {
    let mut list: Vec<Step> = Vec::new();
    for row in rows("steps.csv", &["from", "by", "basis"], context) {
        let basis = context.rests(row.get("basis"), "", &row.spot, 1).basis;
        let from = row.decimal("from", 2, 0, 100_000_000_000, context);
        let by = row.decimal("by", 2, 1, 100_000_000_000, context);
        let (Some(from), Some(by)) = (from.and_then(minor), by.and_then(minor)) else { continue };
        let reached = match list.last() {
            None => from == 0,
            Some(below) => from > below.from && (from - below.from) % below.by == 0,
        };
        if !reached {
            let hint = "The first begins at 0; each later one where the steps before it lead.";
            context.faults.add(&row.at("from"), "No bid falls on this amount.", hint);
        }
        list.push(Step { from, by, basis });
    }
    list
}

fn minor(n: u64) -> Option<i64> {
    i64::try_from(n).ok()
}
