//! `pack.toml`: what the pack is, and the lists that all other files refer to.

use super::Context;
use crate::cursor::Table;
use crate::fault::{Spot, quote};
use crate::model::{Manifest, Mention, Rests, Thing};
use crate::shares::{WORDS, Weights};
use crate::text::Limit;
use units::Basis;

/// The most things in a list, as the reader of packs allows.
const MOST_THINGS: usize = 64;
/// Fields of a kind, beside which stand the tables that are named after makes.
const TAKEN: [&str; 19] = [
    "id", "name", "short", "purpose", "roles", "serves", "common", "at", "makes", "length", "heft", "draw",
    "basis", "source", "cautions", "notes", "looks", "form", "standing",
];
/// Pages of the guide that are about no pack; in a link they stand where the id of a pack would.
const RESERVED: [&str; 2] = ["desk", "packs"];
/// When `pack.toml` does not say what the words of frequency weigh it is a fault; reading goes on with these.
const WORDS_WHILE_UNSAID: [f64; 6] = [900.0, 600.0, 300.0, 150.0, 50.0, 20.0];

/// Reads it; with what is missing filled in, so that the other files can be read all the same.
pub(super) fn read(top: Option<&Table<'_>>, context: &Context<'_>) -> Manifest {
    let rests = Rests { basis: Basis::Memory, source: None };
    let mut manifest = Manifest {
        head: pack::Head {
            id: String::new(),
            name: String::new(),
            edition: String::new(),
            licence: String::new(),
            language: String::new(),
            notice: String::new(),
        },
        key: String::new(),
        rests,
        unknown: 0.0,
        mixed: 0,
        opening: Vec::new(),
        words: Weights(WORDS_WHILE_UNSAID),
        common: [1.0; 5],
        places: Vec::new(),
        tools: Vec::new(),
        parts: Vec::new(),
        roles: Vec::new(),
        makes: Vec::new(),
        groups: Vec::new(),
    };
    let Some(top) = top else {
        return manifest;
    };
    manifest.head = head(top);
    manifest.key = key(top);
    if top.need("basis", "basis = \"memory\"").is_some() {
        manifest.rests = context.rests(top, rests);
    }
    manifest.unknown =
        top.need("unknown", "unknown = 3").and_then(|v| v.number(0.1, 50.0)).unwrap_or(3.0) / 100.0;
    let mixed = top.get("mixed").and_then(|v| v.number(0.0, 50.0)).unwrap_or(0.0);
    manifest.mixed = libm::round(mixed * 10.0) as u16;
    if let Some(v) = top.need("opening", "opening = [\"length\"]") {
        let mentions = v.texts(Limit::NAME).into_iter();
        manifest.opening = mentions.map(|(id, spot)| Mention { id, spot }).collect();
    }
    if let Some(t) = top.need("words", "[words]").and_then(|v| v.table()) {
        for (word, weight) in WORDS.into_iter().zip(&mut manifest.words.0) {
            let value = t.need(word, &format!("{word} = {weight}"));
            *weight = value.and_then(|v| v.number(0.0, 1000.0)).unwrap_or(*weight);
        }
        t.done();
        if manifest.words.0.windows(2).any(|w| w[0] < w[1]) || manifest.words.0[0] <= 0.0 {
            let says = "The words must weigh less from always down to never.";
            context.faults.add(&t.spot(), says, "Order: always, usually, often, sometimes, seldom, never.");
        }
    }
    if let Some(t) = top.need("common", "[common]").and_then(|v| v.table()) {
        for (step, weight) in manifest.common.iter_mut().enumerate() {
            let name = (step + 1).to_string();
            let value = t.need(&name, &format!("{name} = {}", step + 1));
            *weight = value.and_then(|v| v.number(0.001, 1e6)).unwrap_or(*weight);
        }
        t.done();
    }
    if let Some(t) = top.table("groups") {
        for (id, value) in t.entries() {
            if let Some(overlap) = value.number(0.0, 99.0) {
                manifest.groups.push((id, libm::round(overlap * 10.0) as u16));
            }
        }
        too_many(manifest.groups.len(), "groups", &t.spot(), context);
    }
    manifest.places = things(top, "place", "anywhere", context);
    manifest.parts = things(top, "part", "grip", context);
    manifest.roles = things(top, "role", "toy", context);
    manifest.makes = things(top, "make", "period", context);
    for make in manifest.makes.iter().filter(|m| TAKEN.contains(&m.id.as_str())) {
        let says = format!("{} cannot be a make: kinds have a field of this name.", quote(&make.id));
        context.faults.add(&make.spot, says, "Choose another id.");
    }
    manifest.tools = things(top, "tool", "", context);
    top.done();
    manifest
}

fn head(top: &Table<'_>) -> pack::Head {
    let head = pack::Head {
        id: top.need_text("id", Limit::SHORT, "id = \"irons\""),
        name: top.need_text("name", Limit::NAME, "name = \"Small pressing irons\""),
        edition: top.need("edition", "edition = \"2026-01-31\"").and_then(|v| v.date()).unwrap_or_default(),
        licence: top.need_text("licence", Limit::NAME, "licence = \"CC0-1.0\""),
        language: top.need_text("language", Limit::SHORT, "language = \"en\""),
        notice: top.text("notice", Limit::SENTENCE).unwrap_or_default(),
    };
    if !head.id.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit()) {
        let hint = "Use lower-case letters and digits only: the id is part of every link.";
        top.faults().add(&top.spot_of("id"), format!("{} is not an id of a pack.", quote(&head.id)), hint);
    }
    if RESERVED.contains(&head.id.as_str()) {
        let says =
            format!("{} cannot be the id of a pack: a page of the guide is called so.", quote(&head.id));
        top.faults().add(&top.spot_of("id"), says, "Choose another id.");
    }
    head
}

/// The public key, when the pack names one.
fn key(top: &Table<'_>) -> String {
    let key = top.text("key", Limit::NAME).unwrap_or_default();
    if !key.is_empty() && !pack::is_key(&key) {
        let hint = format!("Copy the line of {} letters and digits from your .pub file.", pack::KEY);
        top.faults().add(&top.spot_of("key"), "This is not a public key of minisign.", hint);
    }
    key
}

/// A list such as `[[place]]`; `example` is empty for a list that may be missing.
fn things(top: &Table<'_>, what: &str, example: &str, context: &Context<'_>) -> Vec<Thing> {
    let mut list: Vec<Thing> = Vec::new();
    for table in top.tables(what) {
        let id = table.id(if example.is_empty() { what } else { example });
        let name = table.need_text("name", Limit::NAME, "name = \"As shown\"");
        table.done();
        let Some(id) = id else { continue };
        if list.len() > MOST_THINGS {
            continue;
        }
        if list.iter().any(|t| t.id == id) {
            let says = format!("There are two of the name {}.", quote(&id));
            context.faults.add(&table.spot_of("id"), says, "Give each its own id.");
            continue;
        }
        let spot = table.spot_of("id");
        list.push(Thing { id, name, spot });
    }
    if list.is_empty() && !example.is_empty() {
        let hint = format!("Add [[{what}]] with id = \"{example}\" and a name.");
        context.faults.add(&top.spot_of(what), format!("The pack has no [[{what}]]."), hint);
    }
    too_many(list.len(), what, &top.spot_of(what), context);
    list
}

fn too_many(n: usize, what: &str, spot: &Spot, context: &Context<'_>) {
    if n > MOST_THINGS {
        let says = format!("There are {n} entries of {what}; at most {MOST_THINGS} are read.");
        context.faults.add(spot, says, "Join some.");
    }
}
