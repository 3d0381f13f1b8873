//! One row of a ledger.

use super::names::Names;
use crate::fault::quote;
use crate::reference::Context;
use crate::reference::dates;
use crate::reference::rests::Rests;
use crate::reference::rows::{Row, rows};
use dating::calendar;
use pack::prices::{Date, Ledger, Of, Sale, Sort};
use units::{Basis, Currency, Money};

const COLUMNS: &[&str] = &[
    "date",
    "kind",
    "make",
    "price",
    "currency",
    "premium",
    "sort",
    "condition",
    "likeness",
    "basis",
    "source",
    "note",
];
const SORTS: [(&str, Sort); 3] = [("sold", Sort::Sold), ("paid", Sort::Paid), ("asking", Sort::Asking)];
/// The dearest price in minor units.
const DEAREST: u64 = 100_000_000_000;

/// Reads `sales.csv` into the ledger.
pub(super) fn read(ledger: &mut Ledger, names: &Names<'_>, context: &Context<'_>) {
    for row in rows("sales.csv", COLUMNS, context) {
        let rests = rests(&row, context);
        let date = date(&row, context);
        let of = of(&row, names, context).map(|of| place(&mut ledger.of, &of));
        let price = row.decimal("price", 2, 1, DEAREST, context).and_then(|p| i64::try_from(p).ok());
        let currency = Currency::new(row.get("currency"));
        if currency.is_none() {
            let says = format!("{} is no currency.", quote(row.get("currency")));
            context.faults.add(&row.at("currency"), says, "Write three capitals, such as USD.");
        }
        let premium = per_cent(&row, context);
        let sort = word(&row, "sort", &SORTS, context);
        let condition = condition(&row, names, context);
        let likeness = if row.get("likeness").is_empty() {
            Some(1000)
        } else {
            row.whole("likeness", 0, 1000, context).and_then(|l| u16::try_from(l).ok())
        };
        let (Some(date), Some(of), Some(minor), Some(currency), Some(sort), Some(likeness)) =
            (date, of, price, currency, sort, likeness)
        else {
            continue;
        };
        if ledger.sales.last().is_some_and(|s| s.date > date) {
            let hint = "Rows stand in order of date; a year alone comes before its days.";
            context.faults.add(&row.at("date"), "The row is older than the one above it.", hint);
        }
        let condition = condition.iter().map(|id| place(&mut ledger.conditions, id)).collect();
        ledger.sales.push(Sale {
            date,
            price: Money { minor, currency },
            premium,
            sort,
            of,
            condition,
            likeness,
            note: row.get("note").to_string(),
            basis: rests.basis,
            source: rests.source,
        });
    }
}

/// Where an item stands in a list, put there when it is new.
fn place<T: PartialEq + Clone>(list: &mut Vec<T>, item: &T) -> u16 {
    let at = list.iter().position(|i| i == item).unwrap_or_else(|| {
        list.push(item.clone());
        list.len() - 1
    });
    u16::try_from(at).unwrap_or(u16::MAX)
}

/// A price was read somewhere, or is remembered, or is invented; no price is a habit.
fn rests(row: &Row, context: &Context<'_>) -> Rests {
    match row.get("basis") {
        "invented" if row.get("source").is_empty() => {
            let mut counts = context.counts.get();
            counts[3] += 1;
            context.counts.set(counts);
            Rests { basis: Basis::Invented, source: None }
        }
        "practice" => {
            let hint = "Write published and a source, or memory.";
            context.faults.add(&row.at("basis"), "One price is no common practice.", hint);
            Rests { basis: Basis::Memory, source: None }
        }
        basis => context.rests(basis, row.get("source"), &row.spot, 1),
    }
}

/// `2019-05-14`, or a year alone.
fn date(row: &Row, context: &Context<'_>) -> Option<Date> {
    let cell = row.get("date");
    let day = dates::parse(cell);
    let Some(day) = day else {
        let hint = "Write year, month and day, \"2019-05-14\", or a year, \"2019\".";
        context.faults.add(&row.at("date"), format!("{} is not a date.", quote(cell)), hint);
        return None;
    };
    let (year, month, day) = calendar::date(day);
    Some(if cell.len() == 4 { Date { year, month: 0, day: 0 } } else { Date { year, month, day } })
}

fn of(row: &Row, names: &Names<'_>, context: &Context<'_>) -> Option<Of> {
    let (kind, make) = (row.get("kind"), row.get("make"));
    let family = names.family(kind);
    if family.is_none() {
        let hint = context.faults.meant(kind, names.kinds(), "Kinds");
        context.faults.add(&row.at("kind"), format!("The pack has no kind {}.", quote(kind)), hint);
    }
    let known = names.makes().any(|m| m == make);
    if !known {
        let hint = context.faults.meant(make, names.makes(), "Makes");
        context.faults.add(&row.at("make"), format!("The pack has no make {}.", quote(make)), hint);
    }
    Some(Of { kind: kind.to_string(), make: make.to_string(), family: family.filter(|_| known)? })
}

/// What came on top, in per cent with one decimal; as per mille.
fn per_cent(row: &Row, context: &Context<'_>) -> Option<u16> {
    if row.get("premium").is_empty() {
        return None;
    }
    row.decimal("premium", 1, 0, 1000, context).and_then(|p| u16::try_from(p).ok())
}

fn word<T: Copy>(row: &Row, column: &str, words: &[(&str, T)], context: &Context<'_>) -> Option<T> {
    let found = words.iter().find(|(w, _)| *w == row.get(column)).map(|(_, t)| *t);
    if found.is_none() {
        let hint = context.faults.meant(row.get(column), words.iter().map(|(w, _)| *w), "Write one of");
        context.faults.add(&row.at(column), format!("{} cannot stand here.", quote(row.get(column))), hint);
    }
    found
}

/// Ids with spaces between, none of which rules another out.
fn condition(row: &Row, names: &Names<'_>, context: &Context<'_>) -> Vec<String> {
    let known = &names.prices.conditions;
    let mut found: Vec<usize> = Vec::new();
    for id in row.get("condition").split_whitespace() {
        let Some(at) = known.iter().position(|c| c.id == id) else {
            let hint = context.faults.meant(id, known.iter().map(|c| c.id.as_str()), "Conditions");
            context.faults.add(&row.at("condition"), format!("There is no condition {}.", quote(id)), hint);
            continue;
        };
        let against =
            |other: &&usize| **other == at || known[**other].without.iter().any(|w| usize::from(*w) == at);
        if let Some(other) = found.iter().find(against) {
            let says = format!("{} and {} cannot both hold.", quote(&known[*other].id), quote(id));
            context.faults.add(&row.at("condition"), says, "Keep one of them.");
        }
        found.push(at);
    }
    found.into_iter().map(|at| known[at].id.clone()).collect()
}
