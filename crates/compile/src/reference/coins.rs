//! `coins.toml`: coins that may lie beside a piece in a photograph.

use super::made::{self, Made};
use super::metals::{described, need, rests_of};
use super::rests::{self, Rests};
use super::{Context, Parsed, Reference};
use crate::cursor::Table;
use crate::fault::{Fault, Faults, Spot};
use crate::files::Files;
use crate::text::Limit;
use pack::coins::{Coin, Coins};
use std::cell::Cell;

/// The file. It brings its own sources, so that whoever loads the coins loads nothing else.
pub(crate) const FILE: &str = "coins.toml";

impl Reference {
    /// Compiles `coins.toml` of a folder such as `data/reference`; other files are left alone.
    ///
    /// # Errors
    /// Every fault of the file, in order of line; never an empty list.
    pub fn coins(files: &Files) -> Result<Made<Coins>, Vec<Fault>> {
        made::alone(files, FILE, read)
    }
}

fn read(file: &Parsed<'_>, files: &Files, faults: &Faults, parsed: bool) -> Option<Made<Coins>> {
    let top = Table::top(&file.doc, file.tree.get_ref());
    let sources = need(&top, "sources").map(|t| rests::sources(&t)).unwrap_or_default();
    let context = Context { files, faults, sources, counts: Cell::default() };
    let edition = top.need("edition", "edition = \"2026-01-31\"").and_then(|v| v.date()).unwrap_or_default();
    let licence = top.need_text("licence", Limit::NAME, "licence = \"CC0-1.0\"");
    let coins = described(&top, "coin", &|t| coin(t, &context), |c: &Coin| &c.id);
    if coins.is_empty() {
        faults.add(
            &top.spot_of("coin"),
            "There is no coin.",
            "Add one: [[coin]] with id, name, diameter, basis.",
        );
    }
    top.done();
    if !faults.is_clean() || !parsed {
        return None;
    }
    let table = Coins { edition, licence, sources: context.sources.list.clone(), coins };
    // Whoever opens the bytes trusts nothing; what would be refused there is a fault here.
    let unsound = |e: pack::Fault| faults.add(&Spot::file(FILE), e.0, "");
    let bytes = pack::coins::write_coins(&table).map_err(unsound).ok()?;
    pack::coins::read_coins(&bytes).map_err(unsound).ok()?;
    Some(Made::new(table, bytes, context.counts.get()))
}

fn coin(t: &Table<'_>, context: &Context<'_>) -> Option<Coin> {
    let id = t.id("eur-2");
    let name = t.need_text("name", Limit::NAME, "name = \"2 euro\"");
    let diameter = t.need("diameter", "diameter = 25.75").and_then(|v| v.number(10.0, 60.0));
    let Rests { basis, source } = rests_of(t, context);
    t.done();
    Some(Coin { id: id?, name, diameter: libm::round(diameter? * 100.0) as u16, basis, source })
}
