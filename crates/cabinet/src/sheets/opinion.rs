//! A sheet to send to somebody who knows: what is seen, what is asked, room for an answer.

use super::one::one;
use super::sheet::{Block, Sheet};
use crate::record::{Date, Profile, Record, Uuid};

/// The sheet, with a question of the owner's. It shows what anybody may see: no value, no seller, no place, and no earlier
/// opinion, so that the answer is not led. What the owner thinks it is stands last.
#[must_use]
pub fn second_opinion(id: Uuid, record: &Record, question: &str, today: Date) -> Sheet {
    let mut unnamed = record.clone();
    let guess = [
        ("Kind", core::mem::take(&mut unnamed.kind)),
        ("Date", super::one::dated(record)),
        ("Maker", super::one::made_by(record)),
    ];
    unnamed.title.clear();
    unnamed.finding.clear();
    unnamed.date.clear();
    unnamed.edtf.clear();
    unnamed.maker.clear();
    unnamed.attribution = None;
    let mut sheet = one(id, &unnamed, Profile::Public, today);
    let number = record.number.as_ref().map_or("without a number", |n| n.text());
    sheet.title = format!("A second opinion, piece {number}");
    let asked = if question.trim().is_empty() {
        "What is it, how old is it, and is it right?"
    } else {
        question.trim()
    };
    sheet.blocks.insert(0, Block::Says(asked.to_string()));
    sheet.heading("Your answer");
    sheet.blocks.push(Block::Blank("What it is, in your opinion, and why".to_string(), 6));
    sheet.blocks.push(Block::Blank("What you would look at that is not shown".to_string(), 3));
    sheet.blocks.push(Block::Blank("Your name, and the day".to_string(), 1));
    sheet.says("Your answer is kept with the record as your opinion, with your name and the day.");
    sheet.heading("What its owner thinks: read this last");
    let guessed = guess.iter().any(|(_, text)| !text.is_empty());
    sheet.facts(guess.to_vec());
    if !guessed {
        sheet.says("Its owner does not know.");
    }
    sheet
}
