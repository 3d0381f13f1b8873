//! Out of the cabinet: one file of everything, tables, linked data, sheets of the whole collection.

use crate::block::{Block, Key};
use crate::effect::{Gather, SheetSort};
use crate::list::unexported;
use crate::msg::Msg;
use crate::state::State;
use crate::store::FORGETS;
use cabinet::csv;
use cabinet::linked_art::linked_art;
use cabinet::record::{Profile, Record, Uuid, Value, redacted};

pub(crate) fn blocks(state: &State) -> Vec<Block> {
    let mut out = Vec::new();
    if let Some((done, all)) = state.busy {
        out.push(Block::Progress(done, all));
        out.push(Block::Keys(String::new(), vec![Key::new("Stop", Msg::Stop)]));
        return out;
    }
    let pieces = state.index.len();
    out.push(Block::Heading("Everything in one file".to_string()));
    out.push(Block::Says(
        "A ZIP with an explanation, a list, every record as plain text in every state it had, and the photographs. It can be \
         read without Pressmark, and taken in again on any device."
            .to_string(),
    ));
    out.push(Block::Says(match state.exported {
        Some(time) => format!("Last exported {}; saved since: {}.", time.date().shown(), unexported(state)),
        None => "Never exported from this device.".to_string(),
    }));
    let export =
        if pieces == 0 { Vec::new() } else { vec![Key::new("Export everything", Msg::Export).strong()] };
    out.push(Block::Keys(String::new(), export));
    out.push(Block::Hint(FORGETS.to_string()));
    if pieces == 0 {
        return out;
    }
    out.push(Block::Heading("For an insurer, for heirs, for the year".to_string()));
    let sheet = |label: &str, sort| Key::new(label, Msg::Sheet(sort));
    out.push(Block::Keys(
        String::new(),
        vec![
            sheet("Insurance schedule", SheetSort::Schedule),
            sheet("Page for heirs", SheetSort::Heirs),
            sheet("Summary of the year", SheetSort::Annual),
            sheet("Labels", SheetSort::Labels),
        ],
    ));
    out.push(Block::Heading("A table for a spreadsheet".to_string()));
    out.push(Block::Says(
        "For anybody: no value, no price, no seller, no place. For a buyer: no place, no price that was paid, no value. For an \
         insurer: everything."
            .to_string(),
    ));
    let table = |label: &str, profile| Key::new(label, Msg::File(Gather::Csv(profile)));
    out.push(Block::Keys(
        String::new(),
        vec![
            table("Table for anybody", Profile::Public),
            table("Table for a buyer", Profile::Sale),
            table("Table with everything", Profile::Insurance),
        ],
    ));
    out.push(Block::Heading("For a museum".to_string()));
    out.push(Block::Says("Linked data (Linked Art 1.0, JSON-LD), as anybody may see it.".to_string()));
    out.push(Block::Keys(String::new(), vec![Key::new("Linked data", Msg::File(Gather::Linked))]));
    out
}

/// The file of all records: name, media type, text.
pub(crate) fn file(
    gather: Gather,
    all: &[(Uuid, Record)],
    day: &str,
) -> Option<(String, &'static str, String)> {
    match gather {
        Gather::Csv(profile) => {
            let mut text = csv::head();
            for (id, record) in all {
                text.push_str(&csv::row(*id, &redacted(record, profile)));
            }
            Some((format!("pressmark-{}-{day}.csv", profile.word()), "text/csv", text))
        }
        Gather::Linked => {
            let objects: Vec<String> =
                all.iter().map(|(id, record)| linked_art(*id, record, Profile::Public)).collect();
            let text = format!("[\n{}]\n", objects.join(",\n"));
            Some((format!("pressmark-linked-art-{day}.json"), "application/ld+json", text))
        }
        Gather::Sheet(_) => None,
    }
}
