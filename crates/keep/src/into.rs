//! Into the cabinet: a file of a cabinet, or a table with its columns explained. Looked at first, taken whole or not at all.

use crate::block::{Block, Field, Key, Sort, Take};
use crate::effect::{Effect, Why};
use crate::msg::{Given, Msg, Spot};
use crate::piece::{after, stands};
use crate::saving::{Saving, saving, states};
use crate::state::{Saved, State};
use cabinet::archive::Found;
use cabinet::csv::{COLUMNS, Table, guess, take};
use cabinet::merge::Shelf;
use cabinet::record::{Stamp, Uuid, Version};

/// How many faults are shown.
const MOST_SHOWN: usize = 12;
/// How much of a cell is shown as an example, in characters.
const EXAMPLE: usize = 40;

/// What a sound file holds, held against what is here.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Preview {
    /// Pieces in the file.
    pub pieces: usize,
    /// Of them not known here.
    pub new_pieces: usize,
    /// States in the file.
    pub states: usize,
    /// Of them not kept here.
    pub new_states: usize,
    /// Photographs in the file.
    pub photos: usize,
    /// What else a person should know.
    pub notes: Vec<String>,
}

/// What a file would bring: its states that are not kept yet, and what to say of it. `known` are the names of all states that
/// are kept, sorted.
#[must_use]
pub fn preview(found: &Found, known: &[String]) -> (Preview, Vec<Saving>) {
    let all: Vec<Saving> = found.versions.iter().map(saving).collect();
    let has = |piece: &str| {
        let from = known.partition_point(|k| k.as_str() < piece);
        known.get(from).is_some_and(|k| k.starts_with(piece))
    };
    let mut pieces: Vec<Uuid> = found.versions.iter().map(|v| v.stamp.id).collect();
    let by = units::order(pieces.len(), &|a, b| pieces[a].cmp(&pieces[b]));
    pieces = units::arranged(pieces, &by);
    pieces.dedup();
    let new_pieces = pieces.iter().filter(|id| !has(&id.to_string())).count();
    let states = all.len();
    let new: Vec<Saving> = all.into_iter().filter(|s| known.binary_search(&s.key).is_err()).collect();
    let preview = Preview {
        pieces: pieces.len(),
        new_pieces,
        states,
        new_states: new.len(),
        photos: found.photos.len(),
        notes: found.notes.clone(),
    };
    (preview, new)
}

/// A table that is being explained.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Reading {
    pub(crate) table: Table,
    pub(crate) mapping: Vec<Option<usize>>,
}

/// A table was read.
pub(crate) fn table(state: &mut State, bytes: &[u8]) {
    state.faults.clear();
    state.preview = None;
    match Table::read(bytes) {
        Ok(table) => {
            let mapping = guess(&table.heads);
            state.table = Some(Reading { table, mapping });
        }
        Err(faults) => state.faults = faults.into_iter().map(|f| f.says).collect(),
    }
}

/// A column gets another meaning, by its head among [`COLUMNS`].
pub(crate) fn means(state: &mut State, at: usize, head: &str) {
    if let Some(reading) = &mut state.table {
        let column = COLUMNS.iter().position(|c| c.head == head);
        if let Some(place) = reading.mapping.get_mut(at) {
            *place = column;
        }
        state.faults.clear();
    }
}

/// The ids that the rows of the table name.
fn ids(reading: &Reading) -> Vec<Uuid> {
    let id = COLUMNS.iter().position(|c| c.head == "id");
    let Some(at) = reading.mapping.iter().position(|m| *m == id && id.is_some()) else { return Vec::new() };
    reading.table.rows.iter().filter_map(|(_, cells)| Uuid::parse(cells.get(at)?.trim())).collect()
}

/// The table is to be taken: what is known of its pieces is read first.
pub(crate) fn begin(state: &mut State) -> Vec<Effect> {
    let Some(reading) = state.table.as_ref().filter(|_| state.writes()) else { return Vec::new() };
    vec![Effect::ReadMany(Why::Fill, ids(reading))]
}

/// What is known has come.
pub(crate) fn fill(state: &mut State, all: &[Vec<String>], given: &mut Given) -> Vec<Effect> {
    let Some(reading) = &state.table else { return Vec::new() };
    let shelves: Vec<Shelf> = all.iter().map(|texts| Shelf::of(states(texts).0)).collect();
    let kept: Vec<_> = shelves.iter().filter_map(stands).collect();
    let known = |id: Uuid| kept.iter().find(|k| k.shown.stamp.id == id).map(|k| k.shown.record.clone());
    let taken = take(&reading.table, &reading.mapping, &known, given.fresh, state.today);
    match taken {
        Err(faults) => {
            let says = |f: &cabinet::csv::Fault| match (f.row, f.column.is_empty()) {
                (0, _) => f.says.clone(),
                (row, true) => format!("Row {row}: {}", f.says),
                (row, false) => format!("Row {row}, \u{201c}{}\u{201d}: {}", f.column, f.says),
            };
            state.faults = faults.iter().map(says).collect();
            Vec::new()
        }
        Ok(taken) if taken.records.is_empty() => {
            state.says("Everything in the table stands in the cabinet already.");
            state.table = None;
            Vec::new()
        }
        Ok(taken) => {
            let mut out = Vec::new();
            for (id, record) in &taken.records {
                let before = kept.iter().find(|k| k.shown.stamp.id == *id);
                let version = match before {
                    Some(kept) => after(&[kept.shown], record, false, &state.device, given),
                    None => {
                        let version = (given.fresh)();
                        let device = state.device.clone();
                        let stamp = Stamp { id: *id, version, time: given.now, device, ..Stamp::default() };
                        Version::after(&[], stamp, record)
                    }
                };
                out.push(saving(&version));
            }
            state.saving = Some(Saved::Taken);
            vec![Effect::Save(out)]
        }
    }
}

pub(crate) fn blocks(state: &State) -> Vec<Block> {
    let mut out = Vec::new();
    if let Some((done, all)) = state.busy {
        out.push(Block::Progress(done, all));
        out.push(Block::Keys(String::new(), vec![Key::new("Stop", Msg::Stop)]));
        return out;
    }
    if !state.faults.is_empty() {
        out.push(Block::Care(
            "Nothing was taken from the file, and nothing in the cabinet was changed.".to_string(),
        ));
        let more = state.faults.len().saturating_sub(MOST_SHOWN);
        let mut all: Vec<Block> =
            state.faults.iter().take(MOST_SHOWN).map(|f| Block::Says(f.clone())).collect();
        if more > 0 {
            all.push(Block::Hint(format!("And {more} more.")));
        }
        out.push(Block::Card(all));
    }
    if let Some(preview) = &state.preview {
        looked(state, preview, &mut out);
        return out;
    }
    if let Some(reading) = &state.table {
        mapping(state, reading, &mut out);
        return out;
    }
    out.push(Block::Says(
        "A file is looked at first. It is taken whole or not at all, and nothing that is here is overwritten: what disagrees is \
         kept beside it for you to decide."
            .to_string(),
    ));
    if state.writes() {
        out.push(Block::Heading("A file of a cabinet".to_string()));
        out.push(Block::File(Take::Archive, "Choose a ZIP".to_string()));
        out.push(Block::Heading("A table".to_string()));
        out.push(Block::Hint(
            "CSV in UTF-8, as any spreadsheet saves it. You say what its columns mean.".to_string(),
        ));
        out.push(Block::File(Take::Table, "Choose a table".to_string()));
        out.push(Block::Heading("This device".to_string()));
        out.push(Block::Fields(vec![Field {
            spot: Spot::Device,
            label: "How this device is called in what it saves".to_string(),
            text: state.device.clone(),
            fault: None,
            sort: Sort::Line,
        }]));
    }
    out
}

fn looked(state: &State, preview: &Preview, out: &mut Vec<Block>) {
    out.push(Block::Facts(vec![
        ("Pieces in the file".to_string(), format!("{}, new here: {}", preview.pieces, preview.new_pieces)),
        ("States of them".to_string(), format!("{}, new here: {}", preview.states, preview.new_states)),
        ("Photographs".to_string(), preview.photos.to_string()),
    ]));
    out.extend(preview.notes.iter().map(|n| Block::Says(n.clone())));
    let mut keys = Vec::new();
    if preview.new_states == 0 {
        out.push(Block::Says(
            "Every state in it is here already. Photographs that are missing here are still taken."
                .to_string(),
        ));
    }
    if state.writes() {
        keys.push(Key::new("Take it in", Msg::TakeIn).strong());
    }
    keys.push(Key::new("Leave it", Msg::LeaveIn));
    out.push(Block::Keys(String::new(), keys));
}

fn mapping(state: &State, reading: &Reading, out: &mut Vec<Block>) {
    let rows = reading.table.rows.len();
    out.push(Block::Says(format!(
        "The table has {rows} rows. Say what each of its columns means; one without a meaning is left."
    )));
    let mut words = vec![String::new()];
    words.extend(COLUMNS.iter().filter(|c| c.head != "photographs").map(|c| c.head.to_string()));
    let mut fields = Vec::new();
    for (at, head) in reading.table.heads.iter().enumerate() {
        let example =
            reading.table.rows.iter().filter_map(|(_, cells)| cells.get(at)).find(|c| !c.trim().is_empty());
        let example: String = example.map_or(String::new(), |e| e.chars().take(EXAMPLE).collect());
        let label = if example.is_empty() {
            head.clone()
        } else {
            format!("{head}, such as \u{201c}{example}\u{201d}")
        };
        let column = reading.mapping.get(at).copied().flatten().and_then(|c| COLUMNS.get(c));
        fields.push(Field {
            spot: Spot::Column(at),
            label,
            text: column.map_or(String::new(), |c| c.head.to_string()),
            fault: None,
            sort: Sort::Choice(words.clone()),
        });
    }
    out.push(Block::Fields(fields));
    let take = if rows == 1 { "Take 1 row".to_string() } else { format!("Take {rows} rows") };
    let mut keys = Vec::new();
    if state.writes() {
        keys.push(Key::new(&take, Msg::TakeIn).strong());
    }
    keys.push(Key::new("Leave it", Msg::LeaveIn));
    out.push(Block::Keys(String::new(), keys));
}
