//! Changing one line of several pieces at once: all of them or none.

use crate::block::{Block, Field, Key, Sort};
use crate::effect::{Effect, Why};
use crate::form::words;
use crate::msg::{Given, Msg, Spot};
use crate::piece::{after, stands};
use crate::saving::{saving, states};
use crate::state::{Bulk, Saved, State};
use cabinet::merge::Shelf;
use cabinet::record::Part;

/// The lines that may be changed in several pieces: their keys in a record, and how they are called.
pub(crate) const KEYS: [(&str, &str); 10] = [
    ("location", "Where they are kept"),
    ("state", "State"),
    ("class", "What sort of thing"),
    ("kind", "Kind"),
    ("maker", "Maker"),
    ("materials", "Materials"),
    ("sell singly", "To be sold singly"),
    ("whom to ask", "Whom to ask"),
    ("cautions", "Cautions"),
    ("recorder", "Recorded by"),
];

pub(crate) fn blocks(state: &State, bulk: &Bulk, out: &mut Vec<Block>) {
    let n = bulk.chosen.len();
    let keys =
        KEYS.iter().enumerate().map(|(at, (_, label))| Key::toggle(label, at == bulk.key, Msg::BulkKey(at)));
    let (key, label) = KEYS[bulk.key.min(KEYS.len() - 1)];
    let field = Field {
        spot: Spot::Bulk,
        label: format!("{label}, in all of them"),
        text: bulk.text.clone(),
        fault: bulk.fault.clone(),
        sort: words("", key).map_or(Sort::Line, Sort::Choice),
    };
    let change = if n == 1 { "Change 1 piece".to_string() } else { format!("Change {n} pieces") };
    let mut all = vec![
        Block::Says("Tap the pieces, choose what to change, and write what it is to be. An empty field takes the line away.".to_string()),
        Block::Keys("What to change".to_string(), keys.collect()),
        Block::Fields(vec![field]),
    ];
    let mut last = vec![Key::new("Choose all that are listed", Msg::ChooseAll)];
    if n > 0 && state.writes() {
        last.push(Key::new(&change, Msg::Bulk).strong());
    }
    all.push(Block::Keys(String::new(), last));
    out.push(Block::Card(all));
}

/// The change is wanted: checked first, then the pieces are read.
pub(crate) fn begin(state: &mut State) -> Vec<Effect> {
    let writes = state.writes();
    let Some(bulk) = state.bulk.as_mut().filter(|b| writes && !b.chosen.is_empty()) else {
        return Vec::new();
    };
    let mut trial = cabinet::record::Record::default();
    let text = bulk.text.trim();
    let wrong = if text.is_empty() { None } else { trial.set(KEYS[bulk.key].0, text).err() };
    bulk.fault = wrong;
    if bulk.fault.is_some() {
        return Vec::new();
    }
    vec![Effect::ReadMany(Why::Bulk, bulk.chosen.clone())]
}

/// The pieces have come.
pub(crate) fn change(state: &mut State, all: &[Vec<String>], given: &mut Given) -> Vec<Effect> {
    let Some(bulk) = state.bulk.clone() else { return Vec::new() };
    let (key, text) = (KEYS[bulk.key].0, bulk.text.trim());
    let mut out = Vec::new();
    for texts in all {
        let shelf = Shelf::of(states(texts).0);
        let Some(kept) = stands(&shelf) else { continue };
        let mut record = kept.shown.record.clone();
        if text.is_empty() {
            // A key can be emptied only by leaving it out of what is read again.
            let mut bare =
                cabinet::record::Record { other: record.other.clone(), ..cabinet::record::Record::default() };
            for (k, value) in record.lines().into_iter().filter(|(k, _)| *k != key) {
                let _known = bare.set(k, &value);
            }
            record = cabinet::record::Record {
                acquired: record.acquired.clone(),
                parted: record.parted.clone(),
                measurements: record.measurements.clone(),
                marks: record.marks.clone(),
                provenance: record.provenance.clone(),
                valuations: record.valuations.clone(),
                photos: record.photos.clone(),
                opinions: record.opinions.clone(),
                unknown: record.unknown.clone(),
                ..bare
            };
        } else if record.set(key, text).is_err() {
            continue;
        }
        if record != kept.shown.record {
            let version = after(&[kept.shown], &record, false, &state.device, given);
            out.push(saving(&version));
        }
    }
    if out.is_empty() {
        state.says("All of them have it so already.");
        return Vec::new();
    }
    state.saving = Some(Saved::Several(out.len()));
    vec![Effect::Save(out)]
}
