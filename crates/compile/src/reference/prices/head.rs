//! `prices.toml`: edition and licence, what is assumed, and which indices there are.

use super::super::Context;
use super::index;
use crate::cursor::Table;
use crate::text::Limit as Text;
use pack::prices::{Cap, Limit, Prices, Update};

/// What the file holds; the rest of the tables still empty.
pub(super) struct Head {
    pub(super) prices: Prices,
    /// Files that hold the values of an index.
    pub(super) tables: Vec<String>,
}

/// Reads the file; none when a table of it is missing, which is told.
pub(super) fn read(top: &Table<'_>, context: &Context<'_>) -> Option<Head> {
    let edition = top.need("edition", "edition = \"2026-01-31\"").and_then(|v| v.date()).unwrap_or_default();
    let licence = top.need_text("licence", Text::NAME, "licence = \"CC0-1.0\"");
    let update = need(top, "update").map(|t| update(&t, context));
    let cap = need(top, "cap").map(|t| {
        let found = Cap {
            low: small(&t, "low", (1, 1000)),
            high: small(&t, "high", (1000, 20_000)),
            basis: context.rests_of(&t).basis,
        };
        t.done();
        found
    });
    let limit = need(top, "limit").map(|t| {
        let found = Limit {
            margin: small(&t, "margin", (0, 999)),
            gap: small(&t, "gap", (1000, 5000)),
            basis: context.rests_of(&t).basis,
        };
        t.done();
        found
    });
    let (indices, tables) = index::read(top, context);
    top.done();
    let prices = Prices {
        edition,
        licence,
        sources: Vec::new(),
        update: update?,
        cap: cap?,
        limit: limit?,
        indices,
        conditions: Vec::new(),
        meanings: Vec::new(),
        steps: Vec::new(),
    };
    Some(Head { prices, tables })
}

fn update(t: &Table<'_>, context: &Context<'_>) -> Update {
    let found = Update {
        sales: small(t, "sales", (1, 100)),
        freedom: small(t, "freedom", (1, 100)),
        drift: small(t, "drift", (1, 500)),
        apart: small(t, "apart", (0, 500)),
        halves: small(t, "halves", (1, 200)),
        basis: context.rests_of(t).basis,
    };
    t.done();
    found
}

fn need<'a>(top: &Table<'a>, name: &str) -> Option<Table<'a>> {
    let found = top.table(name);
    if top.get(name).is_none() {
        top.faults().add(&top.spot_of(name), format!("The table [{name}] is missing."), "");
    }
    found
}

/// A whole number that must be there; the least when it is not.
pub(super) fn small(table: &Table<'_>, name: &str, (least, most): (i64, i64)) -> u16 {
    let found = table.need(name, &format!("{name} = {least}")).and_then(|v| v.whole(least, most));
    u16::try_from(found.unwrap_or(least)).unwrap_or(0)
}
