//! `metals.toml`: densities, shrinkage, magnetism and colours of metals, and what is assumed about castings.

use super::made::{self, Made};
use super::rests::{self, Rests};
use super::{Context, Parsed, Reference};
use crate::cursor::{Table, Value};
use crate::fault::{Fault, Faults, Spot, quote};
use crate::files::Files;
use crate::text::Limit;
use pack::metals::{Colour, Doubt, Figure, Metal, Metals, Recast};
use std::cell::Cell;
use units::Basis;

/// The file. It brings its own sources, so that whoever loads the tables of marks does not load them too.
pub(crate) const FILE: &str = "metals.toml";

impl Reference {
    /// Compiles `metals.toml` of a folder such as `data/reference`; other files are left alone.
    ///
    /// # Errors
    /// Every fault of the file, in order of line; never an empty list.
    pub fn metals(files: &Files) -> Result<Made<Metals>, Vec<Fault>> {
        made::alone(files, FILE, read)
    }
}

fn read(file: &Parsed<'_>, files: &Files, faults: &Faults, parsed: bool) -> Option<Made<Metals>> {
    let top = Table::top(&file.doc, file.tree.get_ref());
    let sources = need(&top, "sources").map(|t| rests::sources(&t)).unwrap_or_default();
    let context = Context { files, faults, sources, counts: Cell::default() };
    let edition = top.need("edition", "edition = \"2026-01-31\"").and_then(|v| v.date()).unwrap_or_default();
    let licence = top.need_text("licence", Limit::NAME, "licence = \"CC0-1.0\"");
    let recast = need(&top, "recast").map(|t| recast(&t, &context));
    let fill = need(&top, "fill").map(|t| figure(&t, &context, (0.1, 100.0), 10.0));
    let doubt = need(&top, "doubt").map(|t| doubt(&t, &context));
    let magnet = need(&top, "magnet").map(|t| {
        let found = (thousand(&t, "held", 3), thousand(&t, "free", 3), rests_of(&t, &context).basis);
        t.done();
        found
    });
    let colours = described(&top, "colour", &colour, |c: &Colour| &c.id);
    let metals = described(&top, "metal", &|t| metal(t, &context, &colours), |m: &Metal| &m.id);
    let sum: u32 = metals.iter().map(|m| u32::from(m.common)).sum();
    if sum != 1000 {
        let says = format!("The shares `common` of all metals make {sum}, not 1000.");
        faults.add(&top.spot_of("metal"), says, "Give each metal its share of a thousand small irons.");
    }
    top.done();
    if !faults.is_clean() || !parsed {
        return None;
    }
    let (held, free, magnet_basis) = magnet?;
    let (recast, fill, doubt, sources) = (recast?, fill?, doubt?, context.sources.list);
    let table =
        Metals { edition, licence, sources, recast, fill, doubt, held, free, magnet_basis, colours, metals };
    // Whoever opens the bytes trusts nothing; what would be refused there is a fault here.
    let unsound = |e: pack::Fault| faults.add(&Spot::file(FILE), e.0, "");
    let bytes = pack::metals::write_metals(&table).map_err(unsound).ok()?;
    pack::metals::read_metals(&bytes).map_err(unsound).ok()?;
    Some(Made::new(table, bytes, context.counts.get()))
}

/// The tables of a list, each of another id.
pub(super) fn described<T>(
    top: &Table<'_>,
    name: &str,
    read: &dyn Fn(&Table<'_>) -> Option<T>,
    id: fn(&T) -> &String,
) -> Vec<T> {
    let mut list: Vec<T> = Vec::new();
    for t in top.tables(name) {
        let Some(one) = read(&t) else { continue };
        if list.iter().any(|other| id(other) == id(&one)) {
            let says = format!("{} is described twice.", quote(id(&one)));
            t.faults().add(&t.spot_of("id"), says, "Remove one, or give it another id.");
        }
        list.push(one);
    }
    list
}

pub(super) fn need<'a>(table: &Table<'a>, name: &str) -> Option<Table<'a>> {
    let found = table.table(name);
    if found.is_none() {
        table.faults().add(&table.spot_of(name), format!("The table [{name}] is missing."), "");
    }
    found
}

/// The `basis` and `source` of a table; the sources are those of this file.
pub(super) fn rests_of(table: &Table<'_>, context: &Context<'_>) -> Rests {
    let source = table.text("source", Limit::NAME).unwrap_or_default();
    let keys = context.sources.list.iter().map(|s| s.key.as_str());
    if source.is_empty() || keys.clone().any(|k| k == source) {
        return context.rests_of(table);
    }
    table.get("basis");
    let hint = context.faults.meant(&source, keys, "Sources");
    context.faults.add_unknown(
        &table.spot_of("source"),
        format!("There is no source {}.", quote(&source)),
        hint,
    );
    Rests { basis: Basis::Memory, source: None }
}

/// `{ from = 6.6, to = 7.4, basis = "published", source = "..." }` or, for one figure, `is = 7.4`; times `scale`.
fn figure(table: &Table<'_>, context: &Context<'_>, (least, most): (f64, f64), scale: f64) -> Figure {
    let scaled = |n: f64| libm::round(n * scale) as u32;
    let number = |name: &str| table.need(name, &format!("{name} = 7.4")).and_then(|v| v.number(least, most));
    let (from, to) = match table.get("is") {
        Some(value) => {
            let one = value.number(least, most).map_or(0, scaled);
            (one, one)
        }
        None => (number("from").map_or(0, scaled), number("to").map_or(0, scaled)),
    };
    if from > to && to > 0 {
        context.faults.add(&table.spot_of("from"), "The least is above the greatest.", "");
    }
    let Rests { basis, source } = rests_of(table, context);
    table.done();
    Figure { from, to, basis, source }
}

fn whole(value: &Value<'_>, most: i64) -> Option<u16> {
    value.whole(1, most).and_then(|n| u16::try_from(n).ok())
}

fn small(table: &Table<'_>, name: &str, most: i64) -> u16 {
    table.need(name, &format!("{name} = 50")).and_then(|v| whole(&v, most)).unwrap_or(1)
}

/// A list of shares that make a thousand; `n` of them, or any number for 0.
fn thousand(table: &Table<'_>, name: &str, n: usize) -> Vec<u16> {
    let Some(value) = table.need(name, &format!("{name} = [500, 300, 200]")) else { return Vec::new() };
    let list: Vec<u16> = value.list().iter().filter_map(|v| whole(v, 1000)).collect();
    if (n > 0 && list.len() != n) || list.iter().map(|s| u32::from(*s)).sum::<u32>() != 1000 {
        let says =
            if n > 0 { format!("These must be {n} shares") } else { "These must be shares".to_string() };
        value.fault(format!("{says} that make 1000 together."), "None of them may be zero.");
    }
    list
}

fn recast(t: &Table<'_>, context: &Context<'_>) -> Recast {
    let spread = |name: &str| {
        let found = t.need(name, &format!("{name} = 3.5")).and_then(|v| v.number(0.01, 50.0));
        found.map_or(1, |n| libm::round(n * 100.0) as u32)
    };
    let unknown = Figure { from: 0, to: 0, basis: Basis::Memory, source: None };
    let found = Recast {
        together: spread("together"),
        alone: spread("alone"),
        cap: small(t, "cap", 1000).max(2),
        generations: thousand(t, "generations", 0),
        by_hand: small(t, "by_hand", 1000),
        basis: rests_of(t, context).basis,
        rapping: need(t, "rapping").map_or(unknown, |t| figure(&t, context, (0.0, 100.0), 10.0)),
    };
    t.done();
    found
}

fn doubt(t: &Table<'_>, context: &Context<'_>) -> Doubt {
    let share = |name: &str| small(t, name, 900);
    let (density, heft, colour) = (share("density"), share("heft"), share("colour"));
    let found = Doubt { density, heft, colour, basis: rests_of(t, context).basis };
    t.done();
    found
}

fn colour(t: &Table<'_>) -> Option<Colour> {
    let id = t.id("grey");
    let name = t.need_text("name", Limit::NAME, "name = \"Middle grey\"");
    t.done();
    id.map(|id| Colour { id, name })
}

fn metal(t: &Table<'_>, context: &Context<'_>, colours: &[Colour]) -> Option<Metal> {
    let id = t.id("brass");
    let figures = |name: &str, bounds: (f64, f64), scale: f64| -> Vec<Figure> {
        t.tables(name).iter().map(|t| figure(t, context, bounds, scale)).collect()
    };
    let found = Metal {
        id: id.clone().unwrap_or_default(),
        name: t.need_text("name", Limit::NAME, "name = \"Brass\""),
        common: small(t, "common", 1000),
        colours: shown(t, colours),
        basis: rests_of(t, context).basis,
        magnet: need(t, "magnet")
            .map_or(Figure { from: 0, to: 0, basis: Basis::Memory, source: None }, |t| {
                figure(&t, context, (0.0, 1.0), 1.0)
            }),
        rusts: t.need("rusts", "rusts = true").and_then(|v| v.flag()).unwrap_or(true),
        density: figures("density", (0.5, 25.0), 1000.0),
        shrinkage: figures("shrinkage", (0.1, 100.0), 100.0),
    };
    if found.density.is_empty() {
        context.faults.add(&t.spot_of("density"), "A metal has a density.", "Add it, with its source.");
    }
    t.done();
    id.map(|_| found)
}

/// `colours = { dark = 400, grey = 600 }`: shares that make a thousand. What is not named gets one, from the greatest.
fn shown(t: &Table<'_>, colours: &[Colour]) -> Vec<u16> {
    let mut shares = vec![0_u16; colours.len()];
    let Some(value) = t.need("colours", "colours = { yellow = 900, grey = 100 }") else { return shares };
    for (name, share) in value.table().map(|t| t.entries()).unwrap_or_default() {
        let known = colours.iter().map(|c| c.id.as_str());
        match (known.clone().position(|c| c == name), whole(&share, 1000)) {
            (Some(at), Some(n)) => shares[at] = n,
            (None, _) => {
                let hint = value.faults().meant(&name, known, "Colours");
                share.unknown(format!("There is no colour {}.", quote(&name)), hint);
            }
            (_, None) => {}
        }
    }
    if shares.iter().map(|s| u32::from(*s)).sum::<u32>() != 1000 {
        value.fault("The shares of the colours must make 1000.", "");
    }
    let greatest = (0..shares.len()).max_by_key(|i| shares[*i]).unwrap_or(0);
    for at in 0..shares.len() {
        if shares[at] == 0 && shares[greatest] > 1 {
            (shares[at], shares[greatest]) = (1, shares[greatest] - 1);
        }
    }
    shares
}
