//! Sheets for paper: made in the room of sheets, shown on the screen as they will be printed.

use crate::block::{Block, Field, Key, Sort as FieldSort};
use crate::effect::SheetSort;
use crate::label::Label;
use crate::list::listed;
use crate::msg::{Msg, Spot};
use crate::state::State;
use cabinet::find::Card;
use cabinet::record::{Profile, Record, Uuid};
use cabinet::sheets::{self, Heirs, Sheet};

/// Sorts by the word that an address has for them.
const SORTS: [(&str, SheetSort); 9] = [
    ("insurance", SheetSort::One(Profile::Insurance)),
    ("public", SheetSort::One(Profile::Public)),
    ("buyer", SheetSort::One(Profile::Sale)),
    ("opinion", SheetSort::Opinion),
    ("sale", SheetSort::Sale),
    ("schedule", SheetSort::Schedule),
    ("annual", SheetSort::Annual),
    ("heirs", SheetSort::Heirs),
    ("labels", SheetSort::Labels),
];

pub(crate) fn sort_of(word: &str) -> Option<SheetSort> {
    SORTS.iter().find(|(known, _)| *known == word).map(|(_, sort)| *sort)
}

pub(crate) fn word_of(sort: SheetSort) -> &'static str {
    SORTS.iter().find(|(_, known)| *known == sort).map_or("insurance", |(word, _)| word)
}

/// A block of a sheet as a block of a screen.
pub(crate) fn of_sheet(block: &sheets::Block) -> Block {
    match block {
        sheets::Block::Heading(text) => Block::Heading(text.clone()),
        sheets::Block::Says(text) => Block::Says(text.clone()),
        sheets::Block::Care(text) => Block::Care(text.clone()),
        sheets::Block::Facts(facts) => Block::Facts(facts.clone()),
        sheets::Block::Table(heads, rows) => Block::Table(heads.clone(), rows.clone()),
        sheets::Block::Photos(photos) => Block::Photos(photos.clone()),
        sheets::Block::Blank(what, lines) => Block::Blank(what.clone(), *lines),
    }
}

/// The sheet of one piece.
pub(crate) fn of_one(state: &State, sort: SheetSort, id: Uuid, record: &Record) -> Sheet {
    match sort {
        SheetSort::Opinion => sheets::second_opinion(id, record, &state.question, state.today),
        SheetSort::Sale => sheets::sale_text(record),
        SheetSort::One(profile) => sheets::one(id, record, profile, state.today),
        _ => sheets::one(id, record, Profile::Public, state.today),
    }
}

/// The sheet of all pieces.
pub(crate) fn of_all(state: &State, sort: SheetSort, all: &[(Uuid, Record)]) -> Sheet {
    let records: Vec<&Record> = all.iter().map(|(_, record)| record).collect();
    match sort {
        SheetSort::Annual => sheets::annual(&records, state.today.year, state.today),
        SheetSort::Heirs => {
            let contacts = state.heirs[1].lines().filter(|l| !l.trim().is_empty());
            let contact = |line: &str| match line.split_once(',') {
                Some((name, how)) => (name.trim().to_string(), how.trim().to_string()),
                None => (line.trim().to_string(), String::new()),
            };
            let keeper = Heirs {
                photographs: state.heirs[0].clone(),
                contacts: contacts.map(contact).collect(),
                wishes: state.heirs[2].clone(),
            };
            sheets::heirs(&records, &keeper)
        }
        _ => sheets::schedule(&records, state.today),
    }
}

/// The screen of a sheet.
pub(crate) fn blocks(state: &State, sort: SheetSort, id: Option<Uuid>) -> Vec<Block> {
    let mut out = Vec::new();
    if sort == SheetSort::Labels {
        labels(state, id, &mut out);
        return out;
    }
    ask(state, sort, &mut out);
    match &state.sheet {
        Some(sheet) => {
            out.push(Block::Keys(
                String::new(),
                vec![Key::new("Print", Msg::Print).strong(), Key::new("Copy as text", Msg::Copy)],
            ));
            if !matches!(sort, SheetSort::Annual | SheetSort::Schedule | SheetSort::Heirs) {
                out.push(Block::Heading(sheet.title.clone()));
            }
            out.extend(sheet.blocks.iter().map(of_sheet));
        }
        None => out.push(Block::Hint("Making the sheet.".to_string())),
    }
    out
}

/// What is asked before a sheet is made.
fn ask(state: &State, sort: SheetSort, out: &mut Vec<Block>) {
    let field = |spot, label: &str, text: &String| Field {
        spot,
        label: label.to_string(),
        text: text.clone(),
        fault: None,
        sort: FieldSort::Lines,
    };
    match sort {
        SheetSort::Opinion => {
            out.push(Block::Hint(
                "Who answers shall not be led: the sheet shows no value, no seller, no place, no earlier opinion, and your own \
                 guess last. When the answer comes, write it into the record as an opinion, with name and day."
                    .to_string(),
            ));
            out.push(Block::Fields(vec![field(
                Spot::Question,
                "Your question, if you have one",
                &state.question,
            )]));
        }
        SheetSort::Heirs => out.push(Block::Fields(vec![
            field(
                Spot::Heirs(0),
                "Where the photographs and the file of the collection are",
                &state.heirs[0],
            ),
            field(Spot::Heirs(1), "Whom to ask, one a line: name, then how to reach them", &state.heirs[1]),
            field(Spot::Heirs(2), "Anything else that you wish", &state.heirs[2]),
        ])),
        _ => {}
    }
}

fn labels(state: &State, id: Option<Uuid>, out: &mut Vec<Block>) {
    let cards: Vec<&Card> = match id {
        Some(id) => state.index.card_of(id).into_iter().collect(),
        None => listed(state).into_iter().map(|at| state.index.card(at)).collect(),
    };
    let made = |c: &&Card| Label::new(c.number.as_ref()?.text(), &crate::list::title(c));
    let labels: Vec<Label> = cards.iter().filter_map(made).collect();
    let without = cards.len() - labels.len();
    out.push(Block::Hint(
        "The code holds the bare number and nothing else: who finds a tag learns no more from it. Print, cut, and tie on \
         with cotton; never glue a label to a piece."
            .to_string(),
    ));
    if without > 0 {
        out.push(Block::Says(format!("Without a number, and so without a label: {without}.")));
    }
    if !labels.is_empty() {
        out.push(Block::Keys(String::new(), vec![Key::new("Print", Msg::Print).strong()]));
        out.push(Block::Labels(labels));
    }
}

/// A sheet as plain text, for a letter.
pub(crate) fn as_text(sheet: &Sheet) -> String {
    let mut out = format!("{}\n", sheet.title);
    let mut line = |text: &str| {
        out.push_str(text);
        out.push('\n');
    };
    for block in &sheet.blocks {
        match block {
            sheets::Block::Heading(text) => {
                line("");
                line(&text.to_uppercase());
            }
            sheets::Block::Says(text) | sheets::Block::Care(text) => line(text),
            sheets::Block::Facts(facts) => {
                facts
                    .iter()
                    .for_each(|(name, value)| line(&format!("{name}: {}", value.replace('\n', " / "))));
            }
            sheets::Block::Table(heads, rows) => {
                for row in rows {
                    let cells = heads.iter().zip(row).filter(|(_, cell)| !cell.is_empty());
                    let cells: Vec<String> = cells.map(|(head, cell)| format!("{head}: {cell}")).collect();
                    line(&format!("- {}", cells.join("; ")));
                }
            }
            sheets::Block::Photos(photos) if !photos.is_empty() => {
                line(&format!("Photographs: {}, sent apart.", photos.len()));
            }
            sheets::Block::Photos(_) => {}
            sheets::Block::Blank(what, _) => line(&format!("{what}:")),
        }
    }
    out
}
