//! The page for whoever comes after: what is dangerous first, then what not to give away unawares.

use super::sheet::{Block, NO_APPRAISAL, Sheet, called, pieces, value};
use crate::order::sorted;
use crate::record::{Record, Standing};
use units::Currency;

/// What the keeper says beside the records.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Heirs {
    /// Where the photographs and this collection's file are.
    pub photographs: String,
    /// Whom to ask: name, and how to reach them.
    pub contacts: Vec<(String, String)>,
    /// Anything else.
    pub wishes: String,
}

/// A piece that is valued at so many times the middle value of its currency or more is named among those to be sold singly.
/// Basis: practice.
const FAR_ABOVE: i64 = 3;

/// The page of all owned pieces.
#[must_use]
pub fn heirs(records: &[&Record], keeper: &Heirs) -> Sheet {
    let owned: Vec<&Record> = records.iter().copied().filter(|r| r.standing == Standing::Owned).collect();
    let mut sheet = Sheet::new("For whoever comes after");
    sheet.heading("Before anything is touched");
    sheet
        .blocks
        .push(Block::Care("Do not heat any of these pieces or plug one in, not even to try it.".to_string()));
    let mut warnings: Vec<(&str, Vec<String>)> = Vec::new();
    for (record, caution) in owned.iter().flat_map(|r| r.cautions.lines().map(move |c| (r, c.trim()))) {
        match warnings.iter_mut().find(|(known, _)| *known == caution) {
            _ if caution.is_empty() => {}
            Some((_, names)) => names.push(called(record)),
            None => warnings.push((caution, vec![called(record)])),
        }
    }
    for (caution, names) in warnings {
        sheet.blocks.push(Block::Care(format!("{caution} This holds of: {}.", names.join("; "))));
    }
    sheet.heading("What is here");
    let photographed = owned.iter().filter(|r| !r.photos.is_empty()).count();
    sheet.says(format!("{}, of which {photographed} have photographs.", pieces(owned.len())));
    let to_find = if keeper.photographs.is_empty() {
        "Where the photographs are was not said; the file of the collection has them in the folder \u{201c}photos\u{201d}."
    } else {
        &keeper.photographs
    };
    sheet.says(to_find);
    let singly: Vec<&Record> = owned.iter().copied().filter(|r| r.singly || far_above(r, &owned)).collect();
    sheet.heading("Not to be sold in a box with others");
    if singly.is_empty() {
        sheet.says("No piece was named. Ask before you sell all of it as one lot.");
    } else {
        let place = |r: &Record| {
            if r.location.is_empty() { "place not said".to_string() } else { r.location.clone() }
        };
        let rows = singly.iter().map(|r| vec![called(r), place(r), value(r), r.ask.clone()]).collect();
        sheet.table(&["piece", "kept", "value", "whom to ask"], rows);
        sheet.says(format!(
            "These were marked by their owner, or are valued at {FAR_ABOVE} times the middle value of the collection or more."
        ));
    }
    sheet.heading("Whom to ask");
    let mut contacts = keeper.contacts.clone();
    for record in owned.iter().filter(|r| !r.ask.is_empty()) {
        match contacts.iter_mut().find(|(name, _)| *name == record.ask) {
            Some((_, of)) if of.len() < 400 => of.push_str(&format!("; {}", called(record))),
            Some(_) => {}
            None => contacts.push((record.ask.clone(), format!("about {}", called(record)))),
        }
    }
    if contacts.is_empty() {
        sheet.says("Nobody was named. A museum with household things, or a society of collectors, can say who knows.");
    }
    sheet.table(&["who", "how, and about what"], contacts.into_iter().map(|(a, b)| vec![a, b]).collect());
    if !keeper.wishes.is_empty() {
        sheet.heading("Wishes");
        sheet.says(keeper.wishes.as_str());
    }
    sheet.says(NO_APPRAISAL);
    sheet
}

/// The upper end of the latest valuation.
fn upper(record: &Record) -> Option<(Currency, i64)> {
    let v = record.valued()?;
    let money = v.high.or(v.low)?;
    Some((money.currency, money.minor))
}

fn far_above(record: &Record, all: &[&Record]) -> bool {
    let Some((currency, own)) = upper(record) else { return false };
    let values: Vec<i64> =
        all.iter().filter_map(|r| upper(r)).filter(|(c, _)| *c == currency).map(|(_, v)| v).collect();
    let sorted = sorted(values);
    sorted
        .get(sorted.len() / 2)
        .is_some_and(|middle| sorted.len() >= 5 && own >= middle.saturating_mul(FAR_ABOVE) && own > 0)
}
