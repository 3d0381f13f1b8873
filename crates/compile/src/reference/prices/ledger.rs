//! A ledger of sales: `ledger.toml`, and `sales.csv` with a row for each.

mod names;
mod row;

use super::super::{Context, rests};
use super::folder::Folder;
use crate::cursor::Table;
use crate::fault::{Fault, Faults, Spot};
use crate::files::Files;
use crate::reference::made::Made;
use crate::text::Limit;
use pack::prices::{Ledger, Prices};
use std::cell::Cell;
use units::Basis;

const KNOWN: [&str; 2] = ["ledger.toml", "sales.csv"];

/// As told at [`super::super::Reference::ledger`].
pub(super) fn compile(files: &Files, pack: &Files, prices: &Prices) -> Result<Made<Ledger>, Vec<Fault>> {
    let faults = Faults::default();
    if !files.within_limits(&faults) {
        return Err(faults.into_sorted(&[]).0);
    }
    let folder = Folder::open(files, &KNOWN, "data/packs/demo/ledger.toml", &faults);
    folder.only(files, &|_| false);
    let names = names::Names::of(pack, prices, &faults);
    let found = folder.top("ledger.toml").and_then(|t| read(&t, files, &names, &faults, &folder.unparsed));
    let unparsed = folder.close();
    let list = faults.into_sorted(&unparsed).0;
    found.filter(|_| list.is_empty()).ok_or(list)
}

fn read(
    top: &Table<'_>,
    files: &Files,
    names: &names::Names<'_>,
    faults: &Faults,
    unparsed: &[Fault],
) -> Option<Made<Ledger>> {
    let sources = top.table("sources").map(|t| rests::sources(&t)).unwrap_or_default();
    let context = Context { files, faults, sources, counts: Cell::default() };
    let mut ledger = Ledger {
        id: top.id("club").unwrap_or_default(),
        name: top.need_text("name", Limit::NAME, "name = \"Sales seen by our club\""),
        edition: top.need("edition", "edition = \"2026-01-31\"").and_then(|v| v.date()).unwrap_or_default(),
        licence: top.need_text("licence", Limit::NAME, "licence = \"CC0-1.0\""),
        notice: top.text("notice", Limit::SENTENCE).unwrap_or_default(),
        pack: top.need_text("pack", Limit::NAME, "pack = \"irons\""),
        sources: Vec::new(),
        of: Vec::new(),
        conditions: Vec::new(),
        sales: Vec::new(),
    };
    top.done();
    names.fits(&ledger.pack, &top.spot_of("pack"), faults);
    row::read(&mut ledger, names, &context);
    let invented = ledger.sales.iter().any(|s| s.basis == Basis::Invented);
    if invented && ledger.notice.is_empty() {
        let hint = "Write: notice = \"Invented sales, for demonstration only.\"";
        faults.add(&top.spot_of("notice"), "Rows are invented, but nothing says so.", hint);
    }
    ledger.sources = context.sources.list.clone();
    if !faults.is_clean() || !unparsed.is_empty() {
        return None;
    }
    let unsound = |e: pack::Fault| faults.add(&Spot::file("ledger.toml"), e.0, "");
    let bytes = pack::prices::write_ledger(&ledger).map_err(unsound).ok()?;
    pack::prices::read_ledger(&bytes).map_err(unsound).ok()?;
    Some(Made::new(ledger, bytes, context.counts.get()))
}
