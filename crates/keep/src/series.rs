//! Sizes that are there, and sizes that are lacking.

use crate::block::{Block, Does, Row};
use crate::list::called;
use crate::state::State;
use cabinet::find::{Card, series};
use cabinet::record::{Mark, Record, Standing};

/// A record that has of a card what a series is told by.
fn bare(card: &Card) -> Record {
    let mark = |text: &str| Mark { text: text.to_string(), ..Mark::default() };
    Record {
        kind: card.kind.clone(),
        maker: card.maker.clone(),
        marks: card.marks.split('\n').map(mark).collect(),
        ..Record::default()
    }
}

pub(crate) fn blocks(state: &State) -> Vec<Block> {
    let cards: Vec<&Card> =
        state.index.cards().filter(|c| c.standing == Standing::Owned && !c.gone).collect();
    let records: Vec<Record> = cards.iter().map(|c| bare(c)).collect();
    let all = series(&records.iter().collect::<Vec<_>>());
    let mut out = vec![Block::Hint(
        "Pieces of one kind and maker that wear a number. Whether every number between was ever made is not known here."
            .to_string(),
    )];
    if all.is_empty() {
        out.push(Block::Says(
            "No series yet: two pieces of one kind and one maker, each with its number among the marks, begin one.".to_string(),
        ));
    }
    for one in all {
        out.push(Block::Heading(one.name.clone()));
        let lack: Vec<String> = one.lack.iter().map(ToString::to_string).collect();
        if !lack.is_empty() {
            out.push(Block::Says(format!("Lacking: {}.", lack.join(", "))));
        }
        let rows = one.have.iter().flat_map(|(n, places)| places.iter().map(move |at| (*n, *at)));
        let rows = rows.map(|(n, at)| {
            let card = cards[at];
            Row {
                photo: card.photo.clone(),
                title: format!("No {n}"),
                says: called(card),
                care: String::new(),
                does: Does::To(format!("#piece/{}", card.id)),
                chosen: None,
            }
        });
        out.push(Block::Rows(rows.collect()));
    }
    out
}
