//! `[[kind.example]]`: described pieces that the kind must be found by.

use super::find;
use super::kinds::Shelf;
use crate::cursor::Table;
use crate::fault::quote;
use crate::model::{Example, Mention};
use crate::text::Limit;

/// Reads the examples of a kind.
pub(super) fn read(kind: &Table<'_>, shelf: &Shelf<'_>) -> Vec<Example> {
    kind.tables("example").iter().map(|t| example(t, shelf)).collect()
}

fn example(t: &Table<'_>, shelf: &Shelf<'_>) -> Example {
    let faults = t.faults();
    let makes = &shelf.manifest.makes;
    let make_id = t.need_text("make", Limit::NAME, "make = \"period\"");
    let make =
        if makes.is_empty() { None } else { find(makes, &make_id, &t.spot_of("make"), "make", faults) };
    let looks: Vec<(String, String)> = t
        .need("looks", "looks = { grip = \"bar\", length = \"62 mm\" }")
        .and_then(|v| v.table())
        .map(|table| looks(&table, shelf))
        .unwrap_or_default();
    let unusual = t.need_text("unusual", Limit::NAME, "unusual = \"heel\"");
    if !unusual.is_empty() && !looks.iter().any(|(q, _)| *q == unusual) {
        let says = format!("{} is not among the looks of this example.", quote(&unusual));
        faults.add(&t.spot_of("unusual"), says, "Name a question that the example answers.");
    }
    let within = t.get("within").and_then(|v| v.whole(1, 2)).unwrap_or(1);
    let reason = t.text("reason", Limit::SENTENCE).unwrap_or_default();
    if within > 1 && reason.is_empty() {
        let says = "An example that may come second needs a reason.";
        faults.add(&t.spot_of("within"), says, "Add reason = \"...\", or leave `within` out.");
    }
    let example = Example {
        spot: t.spot(),
        name: t.need_text("name", Limit::NAME, "name = \"From a tin of buttons\""),
        make: make.unwrap_or(0),
        looks,
        unusual: Mention { id: unusual, spot: t.spot_of("unusual") },
        within: usize::try_from(within).unwrap_or(1),
    };
    t.done();
    example
}

/// Answers as written. Choices are looked up here, so that a slip has its line; measures are read where they are used.
fn looks(table: &Table<'_>, shelf: &Shelf<'_>) -> Vec<(String, String)> {
    let mut list = Vec::new();
    for (name, value) in table.entries() {
        let Some(text) = value.text(Limit::TABLE) else { continue };
        match shelf.questions.iter().find(|q| q.id == name) {
            None if shelf.questions.is_empty() => {}
            None => {
                let known = shelf.questions.iter().map(|q| q.id.as_str());
                let hint = table.faults().meant(&name, known, "Questions");
                value.unknown(format!("There is no question {}.", quote(&name)), hint);
            }
            Some(q) if q.quantity.is_some() => {}
            Some(q) => {
                for id in text.trim_end_matches('?').split('|').map(str::trim) {
                    let known = || q.wire.choices.iter().map(|c| c.id.as_str());
                    if id != "can't tell" && !known().any(|c| c == id) {
                        let hint = table.faults().meant(id, known(), "Choices");
                        value.unknown(format!("{} has no choice {}.", q.id, quote(id)), hint);
                    }
                }
            }
        }
        list.push((name, text));
    }
    list
}
