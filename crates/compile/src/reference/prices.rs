//! The folder of prices: an index, factors of condition, meanings, steps of bids; and ledgers of sales.

mod cells;
mod conditions;
mod folder;
mod head;
mod index;
mod ledger;
mod meanings;

use super::made::Made;
use super::{Context, Reference, rests};
use crate::fault::{Fault, Faults, Spot};
use crate::files::Files;
use folder::Folder;
use pack::prices::{Ledger, Prices};
use std::cell::Cell;

/// Files of fixed name; tables of an index stand beside them.
const KNOWN: [&str; 5] = ["prices.toml", "sources.toml", "conditions.toml", "meanings.toml", "steps.csv"];

impl Reference {
    /// Compiles the files of a folder such as `data/reference/prices`, named as they are called in it.
    ///
    /// # Errors
    /// Every fault of every file, in order of file and line; never an empty list.
    pub fn prices(files: &Files) -> Result<Made<Prices>, Vec<Fault>> {
        let faults = Faults::default();
        if !files.within_limits(&faults) {
            return Err(faults.into_sorted(&[]).0);
        }
        let folder = Folder::open(files, &KNOWN, "data/reference/prices/README.md", &faults);
        let found = read(files, &folder, &faults);
        let unparsed = folder.close();
        let list = faults.into_sorted(&unparsed).0;
        found.filter(|_| list.is_empty()).ok_or(list)
    }

    /// Compiles a ledger: `ledger.toml` and its rows, naming kinds and makes of the pack whose files these are, and
    /// conditions of the tables.
    ///
    /// # Errors
    /// Every fault of every file, in order of file and line; never an empty list.
    pub fn ledger(files: &Files, pack: &Files, prices: &Prices) -> Result<Made<Ledger>, Vec<Fault>> {
        ledger::compile(files, pack, prices)
    }
}

fn read(files: &Files, folder: &Folder<'_>, faults: &Faults) -> Option<Made<Prices>> {
    let sources = folder.top("sources.toml").map(|t| rests::sources(&t)).unwrap_or_default();
    let context = Context { files, faults, sources, counts: Cell::default() };
    let head = folder.top("prices.toml").and_then(|t| head::read(&t, &context));
    let conditions = folder.top("conditions.toml").map(|t| conditions::read(&t, &context));
    let meanings = folder.top("meanings.toml").map(|t| meanings::read(&t, &context));
    let steps = index::steps(&context);
    let tables = head.as_ref().map(|h| h.tables.clone()).unwrap_or_default();
    folder.only(files, &|path| tables.iter().any(|t| t == path));
    if !faults.is_clean() || !folder.unparsed.is_empty() {
        return None;
    }
    let found = Prices {
        sources: context.sources.list.clone(),
        conditions: conditions?,
        meanings: meanings?,
        steps,
        ..head?.prices
    };
    // Whoever opens the bytes trusts nothing; what would be refused there is a fault here.
    let unsound = |e: pack::Fault| faults.add(&Spot::file("prices.toml"), e.0, "");
    let bytes = pack::prices::write_prices(&found).map_err(unsound).ok()?;
    pack::prices::read_prices(&bytes).map_err(unsound).ok()?;
    Some(Made::new(found, bytes, context.counts.get()))
}
