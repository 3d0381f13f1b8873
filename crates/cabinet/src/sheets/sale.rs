//! An honest text for a piece that is to go: what it is, what is wrong with it, and what is not known.

use super::one::{dated, made_by};
use super::sheet::{Block, Sheet};
use crate::record::{Profile, Record, mark_in_words, measured_in_words, redacted};

/// The text, as sentences. What is not known is said to be unknown: a buyer may rely on each line.
#[must_use]
pub fn sale_text(record: &Record) -> Sheet {
    let record = redacted(&record.tidied(), Profile::Sale);
    let title = [&record.title, &record.kind, &record.class].into_iter().find(|t| !t.is_empty());
    let mut sheet = Sheet::new(title.map_or("A piece without a title", String::as_str));
    for caution in record.cautions.lines().filter(|l| !l.is_empty()) {
        sheet.blocks.push(Block::Care(caution.to_string()));
    }
    let mut say = |known: String, unknown: &str| {
        let says = if known.is_empty() { unknown.to_string() } else { known };
        if !says.is_empty() {
            sheet.blocks.push(Block::Says(says));
        }
    };
    let after = |lead: &str, text: &str| {
        if text.is_empty() { String::new() } else { format!("{lead}{}", ended(text)) }
    };
    say(after("", &record.description), "");
    say(after("What it is, in its owner's opinion: ", &record.kind), "What it is, its owner does not know.");
    say(after("Condition: ", &record.condition), "Its condition is not described here. Ask before you buy.");
    say(after("It can be told by: ", &record.features), "");
    say(after("Made of: ", &record.materials.join(", ")), "What it is made of was not tested.");
    let sizes: Vec<String> =
        record.measurements.iter().filter(|m| m.value.is_some()).map(measured_in_words).collect();
    say(after("Measured: ", &sizes.join("; ")), "It was not measured.");
    let marks: Vec<String> = record.marks.iter().map(mark_in_words).filter(|m| !m.is_empty()).collect();
    say(after("Marked: ", &marks.join("; ")), "No mark was found.");
    say(after("Date, in its owner's opinion: ", &dated(&record)), "Its date is not known.");
    let maker = match record.attribution {
        None => after("The maker's name is on record as: ", &made_by(&record)),
        Some(_) => after("Maker: ", &made_by(&record)),
    };
    say(maker, "Its maker is not known.");
    for opinion in record.opinions.iter().filter(|o| !o.text.is_empty()) {
        let who = if opinion.name.is_empty() { "Another person" } else { &opinion.name };
        say(format!("{who} says: {}", ended(&opinion.text)), "");
    }
    say("These are opinions from what can be seen; it may be otherwise. Look at it yourself before you decide.".to_string(), "");
    say("Do not heat it or plug it in.".to_string(), "");
    if !record.photos.is_empty() {
        let photos = record.photos.iter().map(|p| (p.digest.clone(), p.view.clone())).collect();
        sheet.blocks.push(Block::Photos(photos));
    }
    sheet
}

/// A text with a full stop at its end.
fn ended(text: &str) -> String {
    let text = text.trim_end();
    if text.ends_with(['.', '!', '?']) { text.to_string() } else { format!("{text}.") }
}
